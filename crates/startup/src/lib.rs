//! The day the unit starts: joints, pressure, vacuum, charge, first run, and the call-back.
//!
//! Nothing here reads a clock or a file: readings come in with their times, verdicts go out as
//! holds, fails or cannot tell, and the last says what would tell.

pub mod call_back;
pub mod caution;
pub mod charge;
pub mod clock;
pub mod draw;
pub mod first_run;
pub mod instrument;
pub mod joints;
pub mod leak_scale;
mod line;
pub mod logger;
pub mod pressure;
pub mod record;
pub mod stamp;
pub mod vacuum;
pub mod volume;
mod wrong;

pub use instrument::Instrument;
pub use stamp::Stamp;
pub use wrong::Wrong;
