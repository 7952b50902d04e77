//! Rules with an edition or a date, as data: `data/rules`.

use std::collections::BTreeMap;

use serde::Deserialize;

/// Refrigerant and rooms.
#[derive(Debug, Deserialize)]
pub struct RoomArea {
    /// Edition used where the job names none.
    pub default: String,
    /// By edition.
    pub edition: BTreeMap<String, RoomEdition>,
    /// Release height where the sheet is silent, by kind of head.
    pub release_height_m: BTreeMap<String, f64>,
}

/// One edition of it.
#[derive(Debug, Deserialize)]
pub struct RoomEdition {
    /// Printed name.
    pub name: String,
    /// Key of the source.
    pub source: String,
    /// Place in it.
    pub place: String,
    /// No area is asked up to so many m3 of gas at the lower flammability limit; none where the
    /// edition's rule is not established here.
    pub free_volumes_m3: Option<f64>,
}

/// Electrical code.
#[derive(Debug, Deserialize)]
pub struct Electrical {
    /// Edition used where the job names none.
    pub default: String,
    /// By edition.
    pub edition: BTreeMap<String, ElectricalEdition>,
}

/// One edition of it.
#[derive(Debug, Deserialize)]
pub struct ElectricalEdition {
    /// General lighting; none where the table was not seen.
    pub panel_va_per_ft2: Option<f64>,
    /// Ground-fault protection is asked.
    #[serde(default)]
    pub ground_fault_needed: bool,
    /// Listed heat pumps are exempt before this day.
    pub exempt_until: Option<String>,
    /// In words.
    pub ground_fault: String,
    /// Key of the source.
    pub source: String,
    /// Place in it.
    pub place: String,
}

/// Which refrigerant may be installed.
#[derive(Debug, Deserialize)]
pub struct Legality {
    /// Rules.
    pub rule: Vec<LegalRule>,
}

/// One dated rule.
#[derive(Debug, Deserialize)]
pub struct LegalRule {
    /// Refrigerant it is on.
    pub refrigerant: String,
    /// Made before this year may be installed.
    pub made_before_year: u32,
    /// In force from.
    pub effective: String,
    /// Printed name.
    pub name: String,
    /// Key of the source.
    pub source: String,
    /// Place in it.
    pub place: String,
}

/// Distances outdoors.
#[derive(Debug, Deserialize)]
pub struct Siting {
    /// Distances.
    pub distance: Vec<Distance>,
    /// Snow.
    pub snow: Snow,
}

/// One distance.
#[derive(Debug, Deserialize)]
pub struct Distance {
    /// Key in `[[outdoor_place]]`.
    pub key: String,
    /// To what.
    pub what: String,
    /// Required; none where nothing is established.
    pub at_least_m: Option<f64>,
    /// `stop`, `fix` or `ask`.
    pub level: String,
    /// Key of the source.
    pub source: String,
    /// Place in it.
    pub place: String,
}

/// Snow.
#[derive(Debug, Deserialize)]
pub struct Snow {
    /// Room for drip and ice, m.
    pub drip_m: f64,
    /// Key of the source.
    pub source: String,
    /// Place in it.
    pub place: String,
}

/// Heads indoors.
#[derive(Debug, Deserialize)]
pub struct Indoors {
    /// Key of the source.
    pub source: String,
    /// Outlets by kind of head; a kind that is not there cannot be told without a sheet.
    pub outlet: BTreeMap<String, Outlet>,
    /// What is usual.
    pub usual: Usual,
}

/// Outlets of a kind of head.
#[derive(Debug, Clone, Deserialize)]
pub struct Outlet {
    /// Slots, each blowing its own way.
    pub slots: u32,
    /// Width of a slot against that of the head.
    pub width_share: f64,
    /// Height of a slot, m.
    pub slot_m: f64,
    /// Height it heats from, m; the outlet's own where not given.
    pub heating_height_m: Option<f64>,
    /// Louvre below level in heating, degrees.
    pub heating_down_deg: f64,
    /// Louvre below level in cooling, degrees.
    pub cooling_down_deg: f64,
    /// Cold air clings to the ceiling.
    #[serde(default)]
    pub cools_along_ceiling: bool,
}

/// What is usual of air in rooms.
#[derive(Debug, Deserialize)]
pub struct Usual {
    /// Share of people disturbed, sitting.
    pub disturbed_seat: f64,
    /// Lying.
    pub disturbed_bed: f64,
    /// Unsteadiness, percent.
    pub unsteady_percent: f64,
    /// Throw against the room ahead.
    pub throw_share: f64,
    /// A sitting head, m.
    pub sitting_m: f64,
    /// A standing head, m.
    pub standing_m: f64,
    /// Cold air may come down past this share of the room.
    pub cold_share: f64,
    /// Warmer upward, K/m.
    pub warmer_upward_k_per_m: f64,
    /// Most a setting may be off, K.
    pub sensor_off_k: f64,
    /// Falling air that needs no washing, m/s.
    pub falling_m_per_s: f64,
}

/// All rule files of the tool.
#[derive(Debug)]
pub struct Rules {
    /// Rooms.
    pub room_area: RoomArea,
    /// Electricity.
    pub electrical: Electrical,
    /// Legality.
    pub legality: Legality,
    /// Siting.
    pub siting: Siting,
    /// Heads indoors.
    pub indoors: Indoors,
}

impl Rules {
    /// The rule files that ship.
    ///
    /// # Errors
    /// A file that does not read: a defect of the program, held by a test.
    pub fn shipped() -> Result<Self, toml::de::Error> {
        Ok(Self {
            room_area: toml::from_str(include_str!("../../../data/rules/room_area.toml"))?,
            electrical: toml::from_str(include_str!("../../../data/rules/electrical.toml"))?,
            legality: toml::from_str(include_str!("../../../data/rules/legality.toml"))?,
            siting: toml::from_str(include_str!("../../../data/rules/siting.toml"))?,
            indoors: toml::from_str(include_str!("../../../data/rules/indoors.toml"))?,
        })
    }
}

/// Source of a rule file's entry.
pub(crate) fn source(key: &str, place: &str) -> reckon::Source {
    reckon::Source::new(key.to_owned(), place.to_owned())
}
