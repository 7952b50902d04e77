//! The data sheet of one unit, as read: what the sheet says, nothing computed.

mod read;
mod table;

use std::collections::BTreeMap;

use serde::Serialize;

pub use read::read_sheet;
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

/// Heat (or cold) given and electricity taken at one running state.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Running {
    /// Heat given (heating) or taken away (cooling), W.
    pub capacity_w: f64,
    /// Electric power, W.
    pub electric_w: f64,
}

impl Running {
    /// Heat per electricity; not finite when no power is stated.
    pub fn cop(self) -> f64 {
        self.capacity_w / self.electric_w
    }
}

/// One published test point.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TestPoint {
    /// Outdoor dry bulb, C.
    pub outdoor_c: f64,
    /// Outdoor wet bulb, C, where stated.
    pub wet_bulb_c: Option<f64>,
    /// Indoor dry bulb, C.
    pub indoor_c: f64,
    /// Whether the figures include the loss by defrosting ("integrated"); `None`: not said.
    pub defrost_included: Option<bool>,
    /// Least the unit gives while running.
    pub min: Option<Running>,
    /// Rated.
    pub rated: Option<Running>,
    /// Most the unit gives.
    pub max: Option<Running>,
    /// Sensible share of cooling, 0 to 1, where stated.
    pub sensible_share: Option<f64>,
    /// Page of the sheet.
    pub page: Option<String>,
    /// Line of the file, from 1.
    pub line: usize,
}

/// Operating limits, C.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Limits {
    /// Heating stops below this outdoor temperature, C.
    pub heating_cut_out_c: Option<f64>,
    /// Heating is not offered above this outdoor temperature, C.
    pub heating_highest_c: Option<f64>,
    /// Cooling is not offered below this outdoor temperature, C.
    pub cooling_lowest_c: Option<f64>,
    /// Cooling is not offered above this outdoor temperature, C.
    pub cooling_highest_c: Option<f64>,
    /// Page.
    pub page: Option<String>,
}

/// Refrigerant charge and its trim by line length.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Charge {
    /// Charge from the factory, kg.
    pub factory_kg: f64,
    /// Line length the factory charge is meant for, m (whole system).
    pub free_length_m: Option<f64>,
    /// Most charge allowed, kg.
    pub most_kg: Option<f64>,
    /// Trim per metre by liquid line.
    pub rates: Vec<ChargeRate>,
    /// Whether charge is to be removed for lines shorter than the free length.
    pub remove_below_free: Option<bool>,
    /// The sheet's own worked example.
    pub example: Option<ChargeExample>,
    /// Page.
    pub page: Option<String>,
}

/// Charge trim per metre of one liquid line size.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct ChargeRate {
    /// Outside diameter of the liquid line, m.
    pub liquid_line_m: f64,
    /// Trim, kg per m.
    pub kg_per_m: f64,
}

/// The sheet's own worked charge example, to be done again.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ChargeExample {
    /// Line length of the example, m.
    pub length_m: f64,
    /// Liquid line of the example, m; the first rate when not said.
    pub liquid_line_m: Option<f64>,
    /// Trim the sheet prints, kg, signed.
    pub printed_kg: f64,
    /// The same trim in the sheet's second unit system, kg, where it prints one.
    pub printed_again_kg: Option<f64>,
    /// Page.
    pub page: Option<String>,
    /// Line of the file.
    pub line: usize,
}

/// Lengths and heights of the lines.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct LineLimits {
    /// Liquid line outside diameter, m.
    pub liquid_m: Option<f64>,
    /// Gas line outside diameter, m.
    pub gas_m: Option<f64>,
    /// Longest run to one head, m.
    pub longest_m: Option<f64>,
    /// Shortest run to one head, m.
    pub shortest_m: Option<f64>,
    /// Longest sum of all runs, m (several heads).
    pub total_m: Option<f64>,
    /// Greatest height with the outdoor unit above, m.
    pub height_outdoor_above_m: Option<f64>,
    /// Greatest height with the outdoor unit below, m.
    pub height_outdoor_below_m: Option<f64>,
    /// Greatest height between heads, m.
    pub height_between_heads_m: Option<f64>,
    /// Page.
    pub page: Option<String>,
}

/// Electrical plate.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Plate {
    /// Minimum circuit ampacity, A.
    pub mca_a: Option<f64>,
    /// Largest overcurrent device, A.
    pub mocp_a: Option<f64>,
    /// Voltage, V.
    pub volts_v: Option<f64>,
    /// Phases.
    pub phases: Option<u32>,
    /// Power while waiting, W.
    pub standby_w: Option<f64>,
    /// Crankcase heater, W.
    pub crankcase_w: Option<f64>,
    /// Crankcase heater works below this outdoor temperature, C.
    pub crankcase_below_c: Option<f64>,
    /// Base-pan heater, W.
    pub base_pan_w: Option<f64>,
    /// Base-pan heater works below this outdoor temperature, C.
    pub base_pan_below_c: Option<f64>,
    /// Whether the test points already include the base-pan heater.
    pub base_pan_included: bool,
    /// Page.
    pub page: Option<String>,
}

/// Sound.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Sound {
    /// Sound power, heating, dB(A).
    pub power_heating_db: Option<f64>,
    /// Sound power, cooling, dB(A).
    pub power_cooling_db: Option<f64>,
    /// Sound power at the lowest speed or night setting, dB(A).
    pub power_quiet_db: Option<f64>,
    /// Page.
    pub page: Option<String>,
}

/// Size, weight and free space.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Size {
    /// Width, m.
    pub width_m: Option<f64>,
    /// Depth, m.
    pub depth_m: Option<f64>,
    /// Height, m.
    pub height_m: Option<f64>,
    /// Weight, kg.
    pub weight_kg: Option<f64>,
    /// Free space behind, m.
    pub clear_rear_m: Option<f64>,
    /// Free space at the side, m.
    pub clear_side_m: Option<f64>,
    /// Free space at the service side, m.
    pub clear_service_m: Option<f64>,
    /// Free space in front, m.
    pub clear_front_m: Option<f64>,
    /// Free space above, m.
    pub clear_above_m: Option<f64>,
    /// Page.
    pub page: Option<String>,
}

/// How ice is taken off the outdoor coil.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum DefrostMethod {
    /// The cycle turns round; the head stops or blows cool.
    ReverseCycle,
    /// Hot gas past the head, which keeps giving some heat.
    HotGas,
}

/// Data that only a head has.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct HeadData {
    /// Nominal size, W (the class: 9,000 Btu/h).
    pub nominal_w: f64,
    /// Most heat it can give, W.
    pub heating_max_w: Option<f64>,
    /// Least heat it gives when open, W.
    pub heating_min_w: Option<f64>,
    /// Most cooling, W.
    pub cooling_max_w: Option<f64>,
    /// Least cooling when open, W.
    pub cooling_min_w: Option<f64>,
    /// Air flow by speed, m3/s, slowest first.
    pub air_m3_per_s: Vec<f64>,
    /// Throw of the air stream, m.
    pub throw_m: Option<f64>,
    /// Release height above the floor for refrigerant rules, m.
    pub release_height_m: Option<f64>,
    /// Page.
    pub page: Option<String>,
}

/// Data that only an outdoor unit for several heads has.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct MultiZone {
    /// Most heads.
    pub most_heads: u32,
    /// Least heads that must be connected.
    pub least_heads: u32,
    /// Least heat with one head calling, W.
    pub heating_min_one_w: Option<f64>,
    /// Least cooling with one head calling, W.
    pub cooling_min_one_w: Option<f64>,
    /// Combination table, smallest total first.
    pub combinations: Vec<Combination>,
    /// Page.
    pub page: Option<String>,
}

/// One row of the combination table.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Combination {
    /// Sum of nominal head sizes, W.
    pub total_w: f64,
    /// Heat the outdoor unit gives at most at its rating temperature, W.
    pub heating_max_w: f64,
    /// Electric power at that heat, W.
    pub heating_electric_w: Option<f64>,
    /// Cooling at most at its rating temperature, W.
    pub cooling_max_w: Option<f64>,
    /// Line of the file.
    pub line: usize,
}

/// Seasonal ratings as printed; never used as a COP.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Printed {
    /// HSPF2, Btu/Wh.
    pub hspf2: Option<f64>,
    /// SEER2, Btu/Wh.
    pub seer2: Option<f64>,
    /// SCOP.
    pub scop: Option<f64>,
    /// Page.
    pub page: Option<String>,
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
