//! Rules with an edition or a date, as data: `data/rules`.

use std::collections::BTreeMap;

use serde::Deserialize;

const DEFAULTS: &str = include_str!("../../../data/rules/defaults.toml");
const ROOM_AREA: [&str; 2] = [
    include_str!("../../../data/rules/room_area/older.toml"),
    include_str!("../../../data/rules/room_area/newer.toml"),
];
const ELECTRICAL: [&str; 4] = [
    include_str!("../../../data/rules/electrical/2017.toml"),
    include_str!("../../../data/rules/electrical/2020.toml"),
    include_str!("../../../data/rules/electrical/2023.toml"),
    include_str!("../../../data/rules/electrical/2026.toml"),
];
const LEGALITY: &str = include_str!("../../../data/rules/legality/2026-07-27.toml");
const SITING: &str = include_str!("../../../data/rules/siting/2026.toml");
const INDOORS: &str = include_str!("../../../data/rules/indoors/2026.toml");

/// Editions used where the job names none.
#[derive(Debug, Deserialize)]
struct Defaults {
    electrical: String,
    room_area: String,
}

/// What every rule file says of itself.
#[derive(Debug, Clone, Deserialize)]
pub struct Head {
    /// Edition.
    pub edition: String,
    /// Since when, or of when.
    pub date: String,
    /// What comes before it.
    pub wins: String,
}

/// Refrigerant and rooms.
#[derive(Debug)]
pub struct RoomArea {
    /// Edition used where the job names none.
    pub default: String,
    /// By edition.
    pub edition: BTreeMap<String, RoomEdition>,
}

/// One edition of it.
#[derive(Debug, Deserialize)]
pub struct RoomEdition {
    /// Edition, date, what wins.
    #[serde(flatten)]
    pub head: Head,
    /// Printed name.
    pub name: String,
    /// Key of the source.
    pub source: String,
    /// Place in it.
    pub place: String,
    /// Release height where the sheet is silent, by kind of head.
    #[serde(default)]
    pub release_height_m: BTreeMap<String, f64>,
    /// No area is asked up to so many m3 of gas at the lower flammability limit; none where the
    /// edition's rule is not established here.
    pub free_volumes_m3: Option<f64>,
}

/// Electrical code.
#[derive(Debug)]
pub struct Electrical {
    /// Edition used where the job names none.
    pub default: String,
    /// By edition.
    pub edition: BTreeMap<String, ElectricalEdition>,
}

/// One edition of it.
#[derive(Debug, Deserialize)]
pub struct ElectricalEdition {
    /// Edition, date, what wins.
    #[serde(flatten)]
    pub head: Head,
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
    /// Edition, date, what wins.
    #[serde(flatten)]
    pub head: Head,
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
    /// Edition, date, what wins.
    #[serde(flatten)]
    pub head: Head,
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
    /// Edition, date, what wins.
    #[serde(flatten)]
    pub head: Head,
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
        let default: Defaults = toml::from_str(DEFAULTS)?;
        let mut room_area = BTreeMap::new();
        for text in ROOM_AREA {
            let edition: RoomEdition = toml::from_str(text)?;
            room_area.insert(edition.head.edition.clone(), edition);
        }
        let mut electrical = BTreeMap::new();
        for text in ELECTRICAL {
            let edition: ElectricalEdition = toml::from_str(text)?;
            electrical.insert(edition.head.edition.clone(), edition);
        }
        Ok(Self {
            room_area: RoomArea {
                default: default.room_area,
                edition: room_area,
            },
            electrical: Electrical {
                default: default.electrical,
                edition: electrical,
            },
            legality: toml::from_str(LEGALITY)?,
            siting: toml::from_str(SITING)?,
            indoors: toml::from_str(INDOORS)?,
        })
    }
}

/// Text of every rule file by its name: what an issued paper was made with.
pub fn rule_texts() -> Vec<(&'static str, &'static str)> {
    let mut all = vec![
        ("defaults", DEFAULTS),
        ("legality", LEGALITY),
        ("siting", SITING),
        ("indoors", INDOORS),
    ];
    all.extend(ROOM_AREA.iter().map(|t| ("rooms", *t)));
    all.extend(ELECTRICAL.iter().map(|t| ("electrical", *t)));
    all
}

/// Source of a rule file's entry.
pub(crate) fn source(key: &str, place: &str) -> reckon::Source {
    reckon::Source::new(key.to_owned(), place.to_owned())
}
