//! The data sheet of one unit, as read: what the sheet says, nothing computed.

mod body;
mod charge;
mod head;
mod lines;
mod multi;
mod plate;
mod point;
mod read;
mod start_up;
mod table;
mod usable;

use std::collections::BTreeMap;

use serde::Serialize;

pub use body::{DefrostMethod, Printed, Size, Sound};
pub use charge::{Charge, ChargeExample, ChargeRate};
pub use head::HeadData;
pub use lines::LineLimits;
pub use multi::{Combination, MultiZone};
pub use plate::Plate;
pub use point::{Limits, Running, TestPoint};
pub use read::read_sheet;
pub use start_up::{FlareTorque, StartUp, VacuumAsked};
pub use table::SheetError;

/// Form of a head, which decides where its air leaves.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum HeadKind {
    /// High on a wall.
    Wall,
    /// At the floor, under a window.
    FloorConsole,
    /// In the ceiling.
    CeilingCassette,
    /// Behind a grille, with a short duct.
    SlimDuct,
}

/// What the sheet describes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Kind {
    /// Outdoor unit for one head.
    OutdoorSingle,
    /// Outdoor unit for several heads.
    OutdoorMulti,
    /// A head.
    Head(HeadKind),
}

impl Kind {
    /// The words as they stand in the sheet.
    pub fn words(self) -> &'static str {
        match self {
            Self::OutdoorSingle => "outdoor single-zone",
            Self::OutdoorMulti => "outdoor multi-zone",
            Self::Head(HeadKind::Wall) => "wall head",
            Self::Head(HeadKind::FloorConsole) => "floor console",
            Self::Head(HeadKind::CeilingCassette) => "ceiling cassette",
            Self::Head(HeadKind::SlimDuct) => "slim duct",
        }
    }

    /// All kinds, in the order they are offered.
    pub const ALL: [Kind; 6] = [
        Self::OutdoorSingle,
        Self::OutdoorMulti,
        Self::Head(HeadKind::Wall),
        Self::Head(HeadKind::FloorConsole),
        Self::Head(HeadKind::CeilingCassette),
        Self::Head(HeadKind::SlimDuct),
    ];
}

/// One data sheet as read.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Sheet {
    /// File it came from, for messages.
    pub file: String,
    /// Name of the unit.
    pub name: String,
    /// Identification of the sheet.
    pub sheet_id: String,
    /// Whether the data are invented, for demonstration.
    pub invented: bool,
    /// What it is.
    pub kind: Kind,
    /// Year the unit was made or the sheet printed.
    pub year: Option<u32>,
    /// Refrigerant, as `R-32`.
    pub refrigerant: Option<String>,
    /// Names of heads this single-zone outdoor unit was tested with.
    pub tested_with: Vec<String>,
    /// Heating test points, coldest first.
    pub heating: Vec<TestPoint>,
    /// Cooling test points, coolest first.
    pub cooling: Vec<TestPoint>,
    /// Degradation coefficient of cycling, where the sheet has its own.
    pub cycling_cd: Option<f64>,
    /// Operating limits.
    pub limits: Limits,
    /// Charge.
    pub charge: Option<Charge>,
    /// Lines.
    pub lines: LineLimits,
    /// Electrical plate.
    pub plate: Plate,
    /// What it asks on the start-up day.
    pub start_up: StartUp,
    /// Sound.
    pub sound: Sound,
    /// Size and free space.
    pub size: Size,
    /// Defrost.
    pub defrost: Option<DefrostMethod>,
    /// Head data.
    pub head: Option<HeadData>,
    /// Multi-zone data.
    pub multi: Option<MultiZone>,
    /// Printed ratings.
    pub printed: Printed,
    /// Line of the file of each table and value, by dotted path.
    pub lines_of: BTreeMap<String, usize>,
    /// Text of each value with a unit as typed, by dotted path.
    pub typed: BTreeMap<String, String>,
}

impl Sheet {
    /// Line of a path in the file; 1 when it is not there.
    pub fn line_of(&self, path: &str) -> usize {
        self.lines_of.get(path).copied().unwrap_or(1)
    }

    /// The coldest heating point, which is as far as the sheet can tell.
    pub fn coldest(&self) -> Option<&TestPoint> {
        self.heating.first()
    }
}
