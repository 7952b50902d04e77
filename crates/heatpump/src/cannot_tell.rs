//! Why a sheet has no answer, and what would tell.

use serde::Serialize;
use units::{Dim, System, show_figure};

use crate::capability::Duty;
use crate::sheet::Sheet;

/// Why there is no answer.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Reason {
    /// Beyond the outermost published point: the coldest (heating) or the hottest (cooling).
    BeyondPoints {
        /// Outdoor temperature asked for, C.
        outdoor_c: f64,
        /// Outermost published point, C.
        last_c: f64,
    },
    /// Outside the operating limits: the unit is off. This is known, and it is zero.
    CutOut {
        /// Outdoor temperature asked for, C.
        outdoor_c: f64,
        /// Limit, C.
        limit_c: f64,
    },
    /// Fewer than two usable points.
    TooFewPoints {
        /// How many.
        got: usize,
    },
    /// No minimum output anywhere on the sheet.
    NoMinimum,
    /// Minimum, rated and maximum are out of order.
    OutOfOrder {
        /// At this outdoor temperature, C.
        outdoor_c: f64,
    },
    /// Heads total lies outside the combination table.
    NoCombination {
        /// Sum of nominal heads, W.
        total_w: f64,
    },
    /// Indoor temperature too far from the tested one.
    IndoorOutOfRange {
        /// Indoor temperature, C.
        indoor_c: f64,
    },
    /// Air pressure outside what the altitude shape covers.
    PressureOutOfRange {
        /// Air pressure, Pa.
        pressure_pa: f64,
    },
    /// A temperature that is not a number.
    NotANumber,
}

/// A calm answer: what cannot be told, and what would tell.
#[derive(Debug, Clone, PartialEq, Serialize, thiserror::Error)]
#[error("{why} {would_tell}")]
pub struct CannotTell {
    /// For programs.
    pub reason: Reason,
    /// For the person: why.
    pub why: String,
    /// For the person: which sheet, point or reading would tell.
    pub would_tell: String,
}

/// In both systems: who reads it is not known here.
fn f(c: f64) -> String {
    both(c, Dim::Temperature)
}

fn both(value: f64, dim: Dim) -> String {
    let say = |system| show_figure(value, dim, system);
    format!("{} ({})", say(System::Us), say(System::Si))
}

impl CannotTell {
    pub(crate) fn new(reason: Reason, sheet: &Sheet, duty: Duty) -> Self {
        let name = &sheet.name;
        let word = duty.word();
        let (why, would_tell) = match reason {
            Reason::BeyondPoints { outdoor_c, last_c } => (
                format!(
                    "{name} has no {word} data at {}: its last published point is {}.",
                    f(outdoor_c),
                    f(last_c)
                ),
                format!(
                    "A {word} test point at {} or beyond would tell.",
                    f(outdoor_c)
                ),
            ),
            Reason::CutOut { outdoor_c, limit_c } => (
                format!(
                    "{name} does not work at {}: its {word} limit is {}.",
                    f(outdoor_c),
                    f(limit_c)
                ),
                "Nothing to ask: it gives no output there.".to_owned(),
            ),
            Reason::TooFewPoints { got } => (
                format!("{name} has {got} usable {word} point(s), and a curve needs two."),
                "The extended performance table of the sheet would tell.".to_owned(),
            ),
            Reason::NoMinimum => (
                format!("{name} has no minimum {word} output on its sheet."),
                "The minimum capacity and its power at one temperature would tell.".to_owned(),
            ),
            Reason::OutOfOrder { outdoor_c } => (
                format!(
                    "{name} has min, rated and max {word} out of order at {}.",
                    f(outdoor_c)
                ),
                format!(
                    "Look at line {} of {} again.",
                    line_of(sheet, duty, outdoor_c),
                    sheet.file
                ),
            ),
            Reason::NoCombination { total_w } => (
                format!(
                    "The heads on {name} add up to {}, outside its combination table.",
                    both(total_w, Dim::Power)
                ),
                "The combination table row for these heads would tell.".to_owned(),
            ),
            Reason::IndoorOutOfRange { indoor_c } => (
                format!(
                    "Indoor air at {} is too far from the tested one for {name}.",
                    f(indoor_c)
                ),
                "A test point at that indoor temperature would tell.".to_owned(),
            ),
            Reason::PressureOutOfRange { pressure_pa } => (
                format!("Air pressure {pressure_pa:.0} Pa is outside 60000 to 108000 Pa."),
                "Check the elevation of the place.".to_owned(),
            ),
            Reason::NotANumber => (
                "The outdoor temperature is not a number.".to_owned(),
                "Check the weather file.".to_owned(),
            ),
        };
        Self {
            reason,
            why,
            would_tell,
        }
    }
}

fn line_of(sheet: &Sheet, duty: Duty, outdoor_c: f64) -> usize {
    let points = match duty {
        Duty::Heating => &sheet.heating,
        Duty::Cooling => &sheet.cooling,
    };
    points
        .iter()
        .find(|p| p.outdoor_c == outdoor_c)
        .map_or(1, |p| p.line)
}
