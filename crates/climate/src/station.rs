//! Where a weather file was taken, and what its header says about design days.

/// The place of the readings.
#[derive(Debug, Clone, PartialEq)]
pub struct Station {
    /// Name of the station as in the file.
    pub name: String,
    /// State or province and country as in the file, "CO, USA".
    pub place: String,
    /// World Meteorological Organization or local station number, as text.
    pub wmo: String,
    /// Degrees north, -90 to 90.
    pub latitude_deg: f64,
    /// Degrees east, -180 to 180.
    pub longitude_deg: f64,
    /// Hours east of Greenwich, local standard time, -12 to 14.
    pub utc_offset_h: f64,
    /// Height above sea level, m.
    pub elevation_m: f64,
    /// Where the file says its readings come from ("TMY3", "SRC-TMYx").
    pub source: String,
}

/// Day of the week.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[allow(missing_docs)]
pub enum Weekday {
    Monday,
    Tuesday,
    Wednesday,
    Thursday,
    Friday,
    Saturday,
    Sunday,
}

impl Weekday {
    /// Monday first.
    pub const ALL: [Self; 7] = [
        Self::Monday,
        Self::Tuesday,
        Self::Wednesday,
        Self::Thursday,
        Self::Friday,
        Self::Saturday,
        Self::Sunday,
    ];

    /// The day so many days later.
    #[must_use]
    pub fn after(self, days: usize) -> Self {
        Self::ALL[(self as usize + days) % 7]
    }
}

/// A design temperature: the share of the year's hours that are colder (heating) or warmer
/// (cooling).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum DesignKind {
    /// Colder than this 0.4 % of the hours.
    Heating996,
    /// Colder than this 1 % of the hours.
    Heating99,
    /// Warmer than this 0.4 % of the hours.
    Cooling04,
    /// Warmer than this 1 % of the hours.
    Cooling1,
    /// Warmer than this 2 % of the hours.
    Cooling2,
}

impl DesignKind {
    /// All, cold to mild.
    pub const ALL: [Self; 5] = [
        Self::Heating996,
        Self::Heating99,
        Self::Cooling04,
        Self::Cooling1,
        Self::Cooling2,
    ];

    /// What it is called on paper.
    pub fn name(self) -> &'static str {
        match self {
            Self::Heating996 => "heating 99.6 %",
            Self::Heating99 => "heating 99 %",
            Self::Cooling04 => "cooling 0.4 %",
            Self::Cooling1 => "cooling 1 %",
            Self::Cooling2 => "cooling 2 %",
        }
    }
}

/// One design value as the file's header prints it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeaderValue {
    /// Which.
    pub kind: DesignKind,
    /// Dry bulb, C.
    pub dry_bulb_c: f64,
    /// Mean wet bulb at that dry bulb, C; only for cooling and only in headers that have it.
    pub coincident_wet_bulb_c: Option<f64>,
}

/// Design values of the header, with the header's own words on where they come from.
#[derive(Debug, Clone, PartialEq)]
pub struct HeaderDesign {
    /// The header's source text, "Climate Design Data 2009 ASHRAE Handbook".
    pub source: String,
    /// The values found.
    pub values: Vec<HeaderValue>,
}

impl HeaderDesign {
    /// The value of one kind, if the header has it.
    pub fn get(&self, kind: DesignKind) -> Option<HeaderValue> {
        self.values.iter().copied().find(|v| v.kind == kind)
    }
}
