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
        })
    }
}

/// Source of a rule file's entry.
pub(crate) fn source(key: &str, place: &str) -> reckon::Source {
    reckon::Source::new(key.to_owned(), place.to_owned())
}
