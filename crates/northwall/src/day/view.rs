//! What `--json` gives on the start-up day. SI, units in the names, keys stable.

use schemars::JsonSchema;
use serde::Serialize;

use crate::view::VERSION;

/// Where an answer was kept.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct KeptView {
    /// Number of the record.
    pub record: u64,
    /// Hash of the record.
    pub hash: String,
}

/// `northwall test joints --json`.
#[derive(Debug, Serialize, JsonSchema)]
pub struct JointsView {
    /// Version of the program.
    pub northwall: &'static str,
    /// Every joint.
    pub joints: Vec<JointView>,
    /// Records that were made.
    pub kept: Vec<KeptView>,
}

/// One joint.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct JointView {
    /// Where.
    pub place: String,
    /// flare or brazed.
    pub kind: &'static str,
    /// Outside diameter of the tube, m.
    pub tube_m: Option<f64>,
    /// Torque of the sheet, least and most, N m.
    pub sheet_nm: Option<(f64, f64)>,
    /// What to set the wrench to, N m.
    pub wrench_nm: Option<f64>,
    /// Torque as made, N m.
    pub torque_nm: Option<f64>,
    /// Nitrogen while brazing, m3/s.
    pub nitrogen_m3_per_s: Option<f64>,
    /// Who made it; empty where nobody said.
    pub initials: String,
    /// holds, fails or cannot tell.
    pub verdict: &'static str,
    /// What is wrong with it.
    pub complaints: Vec<String>,
}

/// `northwall test pressure --json`.
#[derive(Debug, Serialize, JsonSchema)]
pub struct PressureView {
    /// Version of the program.
    pub northwall: &'static str,
    /// What holds the gas, m3.
    pub volume_m3: f64,
    /// Its limit of error, share.
    pub volume_share: f64,
    /// Most that the plates allow, Pa above the air.
    pub plate_pa: f64,
    /// Test pressure, Pa above the air.
    pub target_pa: f64,
    /// Steps up to it.
    pub stages: Vec<StageView>,
    /// How long the whole test must be to see the leak worth a call-back, s; null where no wait
    /// up to 14 days does it.
    pub wait_s: Option<f64>,
    /// Lengths of test, s, and the smallest leak each could see, g a year.
    pub sees: Vec<(f64, f64)>,
    /// The leak worth a call-back, g of refrigerant a year.
    pub worth_g_per_year: f64,
    /// What the readings tell; null before there are enough.
    pub told: Option<PressureToldView>,
    /// The verdict, or why there is none yet, in words.
    pub says: String,
    /// What to know about clocks and readings.
    pub notes: Vec<String>,
    /// Where it was kept.
    pub kept: Option<KeptView>,
}

/// A step up.
#[derive(Debug, Serialize, JsonSchema)]
pub struct StageView {
    /// Pressure above the air, Pa.
    pub gauge_pa: f64,
    /// Hold so long, s.
    pub hold_s: f64,
    /// What to do there.
    pub says: &'static str,
}

/// What a pressure test told.
#[derive(Debug, Serialize, JsonSchema)]
pub struct PressureToldView {
    /// holds, fails or cannot tell.
    pub verdict: &'static str,
    /// What would tell, or what to do.
    pub would_tell: String,
    /// Readings that count.
    pub readings: usize,
    /// Over how long, s.
    pub length_s: f64,
    /// Loss of gas, share a second; negative is a gain.
    pub loss_per_s: f64,
    /// Its standard deviation.
    pub loss_doubt_per_s: f64,
    /// The loss as refrigerant, lower and upper bound, g a year.
    pub leak_g_per_year: (f64, f64),
    /// Smallest leak the test could have seen, g a year.
    pub visible_g_per_year: f64,
    /// First pressure above the air, Pa, and temperature, C.
    pub begin: (f64, f64),
    /// Last.
    pub end: (f64, f64),
    /// What the last would be without a leak, Pa: real gas, ideal gas.
    pub end_without_leak_pa: (f64, f64),
    /// Seconds and gas left, share of the first.
    pub curve: Vec<(f64, f64)>,
}

/// `northwall test vacuum --json`.
#[derive(Debug, Serialize, JsonSchema)]
pub struct VacuumView {
    /// Version of the program.
    pub northwall: &'static str,
    /// Pull to this before the pump is shut off, Pa absolute.
    pub reach_pa: f64,
    /// Stay at or under this, Pa absolute.
    pub limit_pa: f64,
    /// For so long, s.
    pub hold_s: f64,
    /// Sheet that asks it.
    pub source: String,
    /// Steps of a triple evacuation.
    pub triple: Vec<String>,
    /// Whether water in the coldest tube would show: holds, fails or cannot tell.
    pub water_would_show: &'static str,
    /// Vapour pressure of water or ice there, Pa.
    pub vapour_pa: Option<f64>,
    /// What the readings tell; null before there are any.
    pub told: Option<VacuumToldView>,
    /// The verdict, or why there is none yet, in words.
    pub says: String,
    /// What to know about clocks and readings.
    pub notes: Vec<String>,
    /// Where it was kept.
    pub kept: Option<KeptView>,
}

/// What a vacuum hold told.
#[derive(Debug, Serialize, JsonSchema)]
pub struct VacuumToldView {
    /// holds, fails or cannot tell.
    pub verdict: &'static str,
    /// What would tell, or what to do.
    pub would_tell: String,
    /// What the shape of the rise says.
    pub shape: String,
    /// Length of the hold, s.
    pub length_s: f64,
    /// Highest reading and its limit of error, Pa.
    pub highest_pa: (f64, f64),
    /// The straight part as a leak, lower and upper bound, g a year.
    pub straight_g_per_year: Option<(f64, f64)>,
    /// Seconds and Pa absolute.
    pub curve: Vec<(f64, f64)>,
}

/// `northwall charge --json`.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ChargeView {
    /// Version of the program.
    pub northwall: &'static str,
    /// Tests that must hold before the valves are opened.
    pub before: Vec<BeforeView>,
    /// Steps of the release.
    pub steps: Vec<&'static str>,
    /// The weighing; null before the scale was read.
    pub weighed: Option<WeighedView>,
    /// Who opened the valves and put the caps on; null where nobody said.
    pub opened: Option<String>,
    /// Cylinders against systems.
    pub ledger: Option<LedgerView>,
    /// Text of the label.
    pub label: Option<String>,
    /// Lines for the job file.
    pub for_the_job: Option<String>,
    /// Where it was kept.
    pub kept: Option<KeptView>,
}

/// A test before the release.
#[derive(Debug, Serialize, JsonSchema)]
pub struct BeforeView {
    /// pressure or vacuum.
    pub what: &'static str,
    /// holds, fails or cannot tell.
    pub verdict: &'static str,
    /// Number of the record it stands in.
    pub record: Option<u64>,
}

/// A weighing.
#[derive(Debug, Serialize, JsonSchema)]
pub struct WeighedView {
    /// holds, fails or cannot tell.
    pub verdict: &'static str,
    /// Charge from the factory, kg.
    pub factory_kg: f64,
    /// What the lines ask for, signed, kg.
    pub trim_kg: f64,
    /// Went in, signed, and its limit of error, kg.
    pub added_kg: (f64, f64),
    /// In the system now, kg.
    pub total_kg: f64,
    /// In words.
    pub says: String,
    /// What to do.
    pub mend: String,
}

/// The balance.
#[derive(Debug, Serialize, JsonSchema)]
pub struct LedgerView {
    /// holds or fails.
    pub verdict: &'static str,
    /// Not accounted for, kg.
    pub unaccounted_kg: f64,
    /// In words.
    pub says: String,
}

/// `northwall run --json`.
#[derive(Debug, Serialize, JsonSchema)]
pub struct RunView {
    /// Version of the program.
    pub northwall: &'static str,
    /// holds, fails or cannot tell.
    pub verdict: &'static str,
    /// Each reading against what is expected today.
    pub checks: Vec<ReadingView>,
    /// The next measurement worth taking.
    pub next: String,
    /// It was kept as the baseline.
    pub baseline: bool,
    /// Where it was kept.
    pub kept: Option<KeptView>,
}

/// One reading.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ReadingView {
    /// What.
    pub what: &'static str,
    /// holds (inside), fails (outside) or cannot tell.
    pub verdict: &'static str,
    /// Reading and its limit of error, in `unit`.
    pub got: Option<(f64, f64)>,
    /// Expected, least and most, in `unit`.
    pub expected: Option<(f64, f64)>,
    /// Unit.
    pub unit: &'static str,
    /// In words.
    pub says: String,
    /// What would tell.
    pub would_tell: String,
}

/// `northwall visit --json`.
#[derive(Debug, Serialize, JsonSchema)]
pub struct VisitView {
    /// Version of the program.
    pub northwall: &'static str,
    /// Record of the baseline; null where none can be compared.
    pub baseline: Option<u64>,
    /// Why baselines were not compared.
    pub why_not: Vec<String>,
    /// What was compared.
    pub compared: Vec<ComparedView>,
    /// holds (as on the first day), fails (a cause stands out) or cannot tell.
    pub verdict: &'static str,
    /// In words.
    pub says: String,
    /// Causes, likeliest first.
    pub causes: Vec<CauseView>,
    /// The next measurement worth taking.
    pub next: String,
    /// Call-backs in the log that the ranking learned from.
    pub learned_from: usize,
    /// Where it was kept.
    pub kept: Option<KeptView>,
}

/// One reading then and now.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct ComparedView {
    /// What.
    pub what: &'static str,
    /// On the day of the baseline.
    pub then: Option<f64>,
    /// Today.
    pub now: Option<f64>,
    /// Unit.
    pub unit: &'static str,
    /// down, as before or up.
    pub change: &'static str,
}

/// A cause.
#[derive(Debug, Serialize, JsonSchema)]
pub struct CauseView {
    /// What it may be.
    pub cause: &'static str,
    /// Weight, 0 to 1.
    pub weight: f64,
    /// What speaks for and against it.
    pub evidence: Vec<String>,
    /// Mean hours of the log.
    pub usual_hours: Option<f64>,
    /// Mean cost of the log.
    pub usual_cost: Option<f64>,
}

/// `northwall record --json`.
#[derive(Debug, Serialize, JsonSchema)]
pub struct RecordView {
    /// Version of the program.
    pub northwall: &'static str,
    /// Every record is as it was made, and the one looked for is there.
    pub holds: bool,
    /// Records.
    pub records: usize,
    /// Hash of the last.
    pub last: String,
    /// Line that does not hold.
    pub line: Option<usize>,
    /// Why it does not hold.
    pub why: Option<String>,
    /// Bytes of a last line that was never finished.
    pub unfinished_bytes: usize,
    /// The records, where they were asked for.
    pub shown: Vec<RecordLineView>,
}

/// One record.
#[derive(Debug, Serialize, JsonSchema)]
pub struct RecordLineView {
    /// Number.
    pub n: u64,
    /// When.
    pub at: String,
    /// Who.
    pub who: String,
    /// What kind.
    pub kind: String,
    /// Number of the record it corrects.
    pub corrects: Option<u64>,
    /// Why it was corrected.
    pub why: String,
    /// A later record stands in its place.
    pub corrected: bool,
    /// What it says.
    pub says: serde_json::Value,
}

/// The schemas, by the name of their file in `schema/`.
pub fn schemas() -> Vec<(&'static str, schemars::Schema)> {
    vec![
        ("charge.output.json", schemars::schema_for!(ChargeView)),
        ("record.output.json", schemars::schema_for!(RecordView)),
        ("run.output.json", schemars::schema_for!(RunView)),
        ("test-joints.output.json", schemars::schema_for!(JointsView)),
        (
            "test-pressure.output.json",
            schemars::schema_for!(PressureView),
        ),
        ("test-vacuum.output.json", schemars::schema_for!(VacuumView)),
        ("visit.output.json", schemars::schema_for!(VisitView)),
    ]
}

/// Version of the program, for each answer.
pub const NORTHWALL: &str = VERSION;
