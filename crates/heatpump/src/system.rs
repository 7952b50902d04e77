//! Units put together: an outdoor unit with its heads.

use serde::Serialize;

use crate::sheet::{HeadData, HeadKind, Kind, Sheet};

/// An outdoor unit, from a sheet of such a kind.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OutdoorUnit {
    /// Its sheet.
    pub sheet: Sheet,
    /// Whether it takes several heads.
    pub several: bool,
}

/// A head, from a sheet of such a kind.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Head {
    /// Its sheet.
    pub sheet: Sheet,
    /// Form.
    pub kind: HeadKind,
    /// Sizes and limits.
    pub data: HeadData,
}

/// One outdoor unit and the heads on it, in the job's order.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct System {
    /// Outdoor unit.
    pub outdoor: OutdoorUnit,
    /// Heads.
    pub heads: Vec<Head>,
}

/// Why units do not make a system.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum NotASystem {
    /// A head was named as outdoor unit.
    #[error("`{name}` is a {kind}, not an outdoor unit: name an outdoor unit here")]
    NotOutdoor {
        /// Name on the sheet.
        name: String,
        /// Kind on the sheet.
        kind: &'static str,
    },
    /// An outdoor unit was named as head.
    #[error("`{name}` is an {kind}, not a head: name a head here")]
    NotHead {
        /// Name on the sheet.
        name: String,
        /// Kind on the sheet.
        kind: &'static str,
    },
    /// No head at all.
    #[error("`{name}` has no head: name at least one")]
    NoHead {
        /// Outdoor unit.
        name: String,
    },
    /// More heads than the outdoor unit takes.
    #[error("`{name}` takes {most} heads at most, and {got} are named")]
    TooManyHeads {
        /// Outdoor unit.
        name: String,
        /// Allowed.
        most: u32,
        /// Got.
        got: usize,
    },
}

impl OutdoorUnit {
    /// Takes a sheet as an outdoor unit.
    ///
    /// # Errors
    /// The sheet is of a head.
    pub fn new(sheet: Sheet) -> Result<Self, NotASystem> {
        match sheet.kind {
            Kind::OutdoorSingle => Ok(Self {
                sheet,
                several: false,
            }),
            Kind::OutdoorMulti => Ok(Self {
                sheet,
                several: true,
            }),
            Kind::Head(_) => Err(NotASystem::NotOutdoor {
                kind: sheet.kind.words(),
                name: sheet.name,
            }),
        }
    }
}

impl Head {
    /// Takes a sheet as a head.
    ///
    /// # Errors
    /// The sheet is of an outdoor unit.
    pub fn new(sheet: Sheet) -> Result<Self, NotASystem> {
        match (sheet.kind, &sheet.head) {
            (Kind::Head(kind), Some(data)) => Ok(Self {
                kind,
                data: data.clone(),
                sheet,
            }),
            _ => Err(NotASystem::NotHead {
                kind: sheet.kind.words(),
                name: sheet.name,
            }),
        }
    }
}

impl System {
    /// Puts an outdoor unit and heads together.
    ///
    /// # Errors
    /// No head, or more heads than the outdoor unit takes.
    pub fn new(outdoor: OutdoorUnit, heads: Vec<Head>) -> Result<Self, NotASystem> {
        let name = outdoor.sheet.name.clone();
        let most = match (&outdoor.sheet.multi, outdoor.several) {
            (Some(multi), true) => multi.most_heads,
            _ => 1,
        };
        if heads.is_empty() {
            return Err(NotASystem::NoHead { name });
        }
        if heads.len() > most as usize {
            return Err(NotASystem::TooManyHeads {
                name,
                most,
                got: heads.len(),
            });
        }
        Ok(Self { outdoor, heads })
    }

    /// An outdoor unit put together for its own curves and ratings: several heads as the largest
    /// combination of its table.
    ///
    /// # Errors
    /// The sheet is of a head.
    pub fn alone(sheet: &Sheet) -> Result<Self, NotASystem> {
        let outdoor = OutdoorUnit::new(sheet.clone())?;
        let largest = sheet.multi.as_ref().and_then(|m| m.combinations.last());
        let heads = largest.map_or(Vec::new(), |c| {
            vec![Head {
                sheet: sheet.clone(),
                kind: HeadKind::Wall,
                data: HeadData {
                    nominal_w: c.total_w,
                    heating_max_w: None,
                    heating_min_w: None,
                    cooling_max_w: None,
                    cooling_min_w: None,
                    air_m3_per_s: Vec::new(),
                    throw_m: None,
                    release_height_m: None,
                    page: None,
                },
            }]
        });
        Ok(Self { outdoor, heads })
    }

    /// Sum of the nominal sizes of the heads, W.
    pub fn heads_total_w(&self) -> f64 {
        self.heads.iter().map(|h| h.data.nominal_w).sum()
    }
}
