//! Heads and outdoor units, by their names in the catalogue.

/// Outdoor units and the heads on them.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Equipment {
    /// Outdoor units.
    pub outdoors: Vec<OutdoorChoice>,
    /// Heads.
    pub heads: Vec<HeadChoice>,
}

impl Equipment {
    /// Heads on an outdoor unit, in the order of the file.
    pub fn heads_on<'a>(&'a self, outdoor: &'a str) -> impl Iterator<Item = &'a HeadChoice> {
        self.heads.iter().filter(move |h| h.on == outdoor)
    }

    /// Heads in a room.
    pub fn heads_in<'a>(&'a self, room: &'a str) -> impl Iterator<Item = &'a HeadChoice> {
        self.heads.iter().filter(move |h| h.room == room)
    }
}

/// One outdoor unit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OutdoorChoice {
    /// Name in this job: `east wall`.
    pub name: String,
    /// Name of its sheet in the catalogue.
    pub unit: String,
    /// Serial number, once installed.
    pub serial: Option<String>,
}

/// One head.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HeadChoice {
    /// Name in this job; the room's name where the person gave none.
    pub name: String,
    /// Room it blows into.
    pub room: String,
    /// Name of its sheet in the catalogue.
    pub unit: String,
    /// Name of the outdoor unit it hangs on.
    pub on: String,
    /// Serial number, once installed.
    pub serial: Option<String>,
}

/// A named set of equipment to compare.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Choice {
    /// Name: `one outdoor unit a head`.
    pub name: String,
    /// Its units.
    pub equipment: Equipment,
}
