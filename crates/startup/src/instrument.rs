//! What a gauge, a thermometer or a scale can know.

use reckon::Verdict;
use serde::{Deserialize, Serialize};

/// An instrument as its own sheet has it. Limits are plus or minus and taken as two standard
/// deviations; units are those of what it reads (Pa, K, kg).
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Instrument {
    /// Serial number or the firm's own mark.
    pub id: String,
    /// Limit of error against the truth.
    pub accuracy: f64,
    /// Smallest step it shows.
    pub resolution: f64,
    /// How far its error may move during a test. [`Instrument::new`] takes a fifth of the
    /// accuracy.
    pub stability: f64,
    /// Scatter from reading to reading, one standard deviation.
    pub scatter: f64,
    /// Day of the last calibration, days since 1970.
    pub calibrated_day: Option<i64>,
    /// A calibration is good for so many days.
    pub good_for_days: i64,
    /// Last day of the calibration where that is what is known, days since 1970; wins over the
    /// two above.
    #[serde(default)]
    pub until_day: Option<i64>,
}

/// A calibration that is out of date, or not known, makes all limits this much wider.
pub const OVERDUE_FACTOR: f64 = 2.0;

impl Instrument {
    /// An instrument by accuracy and step. The stability is a fifth of the accuracy and the
    /// scatter a third of the step, both assumptions of common practice.
    pub fn new(id: &str, accuracy: f64, resolution: f64) -> Self {
        Self {
            id: id.to_owned(),
            accuracy,
            resolution,
            stability: accuracy / 5.0,
            scatter: resolution / 3.0,
            calibrated_day: None,
            good_for_days: 365,
            until_day: None,
        }
    }

    /// With the day of its calibration.
    #[must_use]
    pub fn calibrated(mut self, day: i64) -> Self {
        self.calibrated_day = Some(day);
        self
    }

    /// Whether the calibration is in date, and the words.
    pub fn standing(&self, today: i64) -> (Verdict, String) {
        if let Some(until) = self.until_day {
            return if today > until {
                (
                    Verdict::Fails,
                    format!(
                        "{} was due for calibration {} days ago: its limits count twice",
                        self.id,
                        today - until
                    ),
                )
            } else {
                (
                    Verdict::Holds,
                    format!("{} is calibrated for {} days more", self.id, until - today),
                )
            };
        }
        match self.calibrated_day {
            None => (
                Verdict::CannotTell,
                format!(
                    "{} has no calibration date: its limits count twice",
                    self.id
                ),
            ),
            Some(day) if day > today => (
                Verdict::CannotTell,
                format!(
                    "{} is calibrated on a day yet to come: its limits count twice",
                    self.id
                ),
            ),
            Some(day) if today - day > self.good_for_days => (
                Verdict::Fails,
                format!(
                    "{} was due for calibration {} days ago: its limits count twice",
                    self.id,
                    today - day - self.good_for_days
                ),
            ),
            Some(day) => (
                Verdict::Holds,
                format!("{} calibrated {} days ago", self.id, today - day),
            ),
        }
    }

    /// The same instrument with its limits as they count today.
    #[must_use]
    pub fn today(&self, today: i64) -> Self {
        let mut same = self.clone();
        if self.standing(today).0 != Verdict::Holds {
            same.accuracy *= OVERDUE_FACTOR;
            same.stability *= OVERDUE_FACTOR;
        }
        same
    }
}
