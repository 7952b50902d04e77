//! The plan as it goes out. SI with the unit in the name; texts a person reads are printed in the
//! units asked for.

mod charts;
mod findings;
mod headline;
mod rooms;
mod said;
mod shapes;
mod whole;
mod year;

pub use charts::{CapacityView, ChartsView, HoursBin, OptionRow, UnitLine, options};
pub use findings::{Counts, FindingView, WaitView};
pub use headline::{HeadlineView, Line};
pub use rooms::{DoorsWarmth, LossPart, RoomView, RoomYearView};
pub use said::Said;
pub use shapes::{DoorView, OuterDoorView, StoreyView, WallView, WindowView};
pub use whole::PlanView;
pub use year::{YearView, year};
