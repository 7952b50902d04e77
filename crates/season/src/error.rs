//! Why there is no year.

use heatpump::NotASystem;
use house::assembly::AssemblyError;

/// What stands in the way of a year.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum SeasonError {
    /// A name that is not in the catalogue.
    #[error("`{unit}` of {what} `{name}` is not in the catalogue{}", near.as_ref().map_or(String::new(), |n| format!("; did you mean `{n}`?")))]
    NoSheet {
        /// `head` or `outdoor unit`.
        what: &'static str,
        /// Its name in the job.
        name: String,
        /// The name looked for.
        unit: String,
        /// The nearest name in the catalogue.
        near: Option<String>,
    },
    /// A head hangs on an outdoor unit that is not in the choice.
    #[error("head `{head}` hangs on `{on}`, which is not an outdoor unit of this choice")]
    NoOutdoor {
        /// Head.
        head: String,
        /// Outdoor unit looked for.
        on: String,
    },
    /// A head or heater is in a room the house does not have.
    #[error("{what} `{name}` is in room `{room}`, which the house does not have")]
    NoRoom {
        /// `head` or `heater`.
        what: &'static str,
        /// Its name.
        name: String,
        /// Room looked for.
        room: String,
    },
    /// Units that do not go together.
    #[error("outdoor unit `{name}`: {why}")]
    NotASystem {
        /// Name in the job.
        name: String,
        /// Why.
        why: NotASystem,
    },
    /// A construction of the house.
    #[error(transparent)]
    Assembly(#[from] AssemblyError),
    /// The weather on the faces of the house.
    #[error(transparent)]
    Weather(#[from] climate::WeatherError),
    /// Whoever asked no longer waits for the answer.
    #[error("it was given up before it was done")]
    GivenUp,
    /// A weather drive that is not hourly, or of another length than the weather.
    #[error("the year wants hourly weather on the house, {want} steps; got {got}")]
    Steps {
        /// Steps of the drive.
        got: usize,
        /// Hours of the weather.
        want: usize,
    },
}
