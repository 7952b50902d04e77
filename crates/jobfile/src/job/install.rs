//! What is said about the installation: places, lines, drains, wires, codes. Inputs and decisions
//! only; what nobody has measured is `None`, and a rule then says that it cannot tell.

/// Everything said about the installation.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Installation {
    /// Editions and days.
    pub codes: Codes,
    /// Where outdoor units stand.
    pub outdoors: Vec<OutdoorPlace>,
    /// Where heads hang.
    pub heads: Vec<HeadPlace>,
    /// What stands around the house.
    pub landmarks: Vec<Landmark>,
    /// Places that hear the units.
    pub listeners: Vec<Listener>,
    /// Refrigerant lines.
    pub lines: Vec<Line>,
    /// Drains.
    pub drains: Vec<Drain>,
    /// Circuits of outdoor units.
    pub circuits: Vec<Circuit>,
    /// The panel.
    pub panel: Option<Panel>,
    /// Required values the person brings, with their source.
    pub requirements: Vec<Requirement>,
    /// Refrigerant weighed in and out.
    pub weighings: Vec<Weighing>,
    /// Instruments.
    pub tools: Vec<Tool>,
}

/// Editions of codes, and days that rules hang on.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Codes {
    /// Edition of the electrical code.
    pub electrical: Option<String>,
    /// Edition of the rule on refrigerant and rooms.
    pub room_area: Option<String>,
    /// Day of installation, as typed.
    pub install_day: Option<String>,
    /// Permits in hand.
    pub permits: Vec<String>,
}

/// Where an outdoor unit stands, and what was measured around it. Lengths in m.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct OutdoorPlace {
    /// Outdoor unit.
    pub outdoor: String,
    /// `stand`, `bracket`, `pad`, `roof`.
    pub on: String,
    /// Wall it stands at, as on the plan: `east`.
    pub wall: Option<String>,
    /// Along that wall from its left end seen from outside, m.
    pub along_m: Option<f64>,
    /// Base above the ground.
    pub base_m: Option<f64>,
    /// Room left for drip and ice between snow and base.
    pub drip_m: Option<f64>,
    /// Measured distances by the name of what they are to.
    pub distances: Vec<(&'static str, f64)>,
    /// What falls from the roof there: `nothing`, `eave`, `valley`, `covered`.
    pub roof_drip: Option<String>,
    /// Blows against the winter wind and no baffle.
    pub faces_wind: Option<bool>,
    /// A walk or drive is where its water runs.
    pub water_crosses_walk: Option<bool>,
    /// Ground its water spreads over before it leaves or freezes, m2.
    pub ice_area_m2: Option<f64>,
    /// What the bracket is fixed to: `masonry`, `blocking`, `studs`, `sheathing`.
    pub fixed_to: Option<String>,
    /// Room on the other side of that wall is slept in.
    pub bedroom_wall: Option<bool>,
    /// Fixings in the wall.
    pub fixings: Option<u32>,
    /// Distance between upper and lower fixings, m.
    pub fixing_span_m: Option<f64>,
    /// What one fixing may be pulled with, N.
    pub fixing_pull_n: Option<f64>,
    /// Where it stands acoustically: `ground`, `wall`, `corner`.
    pub around: Option<String>,
}

/// Where a head hangs. Lengths in m.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct HeadPlace {
    /// Head.
    pub head: String,
    /// On the plan, east and north.
    pub at_m: Option<[f64; 2]>,
    /// Plan direction it blows, degrees clockwise from plan north.
    pub blows_deg: Option<f64>,
    /// Outlet above the floor.
    pub height_m: Option<f64>,
    /// Free width between studs or joists where it goes.
    pub bay_m: Option<f64>,
    /// Free space above.
    pub above_m: Option<f64>,
    /// Free space at the narrower side.
    pub side_m: Option<f64>,
    /// Free space in front.
    pub front_m: Option<f64>,
    /// What it is fixed to: `studs`, `blocking`, `masonry`, `joists`, `board only`, `floor`.
    pub fixed_to: Option<String>,
    /// The joint can be reached without opening a wall or ceiling.
    pub joint_reach: Option<bool>,
    /// Where people sit.
    pub seats_m: Vec<[f64; 2]>,
    /// Where people lie.
    pub beds_m: Vec<[f64; 2]>,
    /// Louvre below level in heating, degrees.
    pub louvre_heating_deg: Option<f64>,
    /// Louvre below level in cooling, degrees.
    pub louvre_cooling_deg: Option<f64>,
    /// Wall and paint were looked at for asbestos and lead.
    pub hazard_checked: Option<bool>,
}

/// Something around the house that bears on an outdoor unit.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Landmark {
    /// What it is: `gas_regulator`, `lot_line`, `wall`.
    pub what: String,
    /// Name.
    pub name: Option<String>,
    /// On the plan, east and north, m.
    pub at_m: [f64; 2],
    /// Other end, m, where it is a line.
    pub to_m: Option<[f64; 2]>,
    /// Share of sound a wall throws back.
    pub throws_back: Option<f64>,
}

/// A place that hears outdoor units.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Listener {
    /// Name.
    pub name: String,
    /// On the plan, east and north, m.
    pub at_m: Option<[f64; 2]>,
    /// Outdoor units and their measured distance, m.
    pub hears: Vec<(String, f64)>,
    /// Limit by day, dB(A).
    pub day_db: Option<f64>,
    /// Limit by night, dB(A).
    pub night_db: Option<f64>,
    /// Where the limits are from.
    pub source: Option<String>,
    /// Hum or whine: 5 dB are added.
    pub tonal: bool,
    /// A wall behind the listener throws the sound back.
    pub facade: bool,
}

/// One line of a head: pipes from outdoor unit to head.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Line {
    /// Head.
    pub head: String,
    /// Pieces from the outdoor unit to the head.
    pub pieces: Vec<LinePiece>,
    /// Liquid tube, m; the sheet's if not given.
    pub liquid_m: Option<f64>,
    /// Gas tube, m.
    pub gas_m: Option<f64>,
    /// Wall of the gas tube, m.
    pub gas_wall_m: Option<f64>,
    /// Insulation of each pipe, m.
    pub insulation_m: Option<f64>,
    /// Pipes insulated each by itself.
    pub apart: Option<bool>,
    /// Fall of the sleeve to the outside, m.
    pub sleeve_fall_m: Option<f64>,
    /// It goes through a fire-rated wall.
    pub fire_wall: Option<bool>,
    /// Listed firestop for it.
    pub firestop: Option<String>,
    /// Pressure of the nitrogen test above air, Pa.
    pub test_pa: Option<f64>,
}

/// A piece of a line.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct LinePiece {
    /// Where it runs.
    pub name: String,
    /// Length, m.
    pub length_m: f64,
    /// Rise on the way to the head, m; falls if below zero.
    pub rise_m: Option<f64>,
    /// Bends.
    pub bends: u32,
    /// Where it ends on the plan, m.
    pub to_m: Option<[f64; 2]>,
}

/// A condensate drain.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Drain {
    /// Head.
    pub head: String,
    /// Pieces from the head on: length and fall, m (rises if below zero), in the cold or not.
    pub pieces: Vec<DrainPiece>,
    /// A pump lifts it so high at most, m.
    pub pump_lift_m: Option<f64>,
    /// What the pump moves, kg/s.
    pub pump_kg_per_s: Option<f64>,
    /// It has an overflow switch.
    pub overflow_switch: Option<bool>,
    /// It has a trap.
    pub trap: Option<bool>,
    /// Where it ends: `ground`, `gravel`, `drywell`, `sewer`, `gutter`, `walk`.
    pub ends: Option<String>,
    /// Pour test: water poured and time till it was through.
    pub pour_test_s: Option<f64>,
}

/// A piece of a drain.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct DrainPiece {
    /// Where it runs.
    pub name: String,
    /// Length, m.
    pub length_m: f64,
    /// Fall along the flow, m; `None` not measured.
    pub fall_m: Option<f64>,
    /// Can freeze.
    pub freezes: Option<bool>,
    /// Pumped, so it may rise.
    pub pumped: bool,
}

/// The circuit of an outdoor unit.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Circuit {
    /// Outdoor unit.
    pub outdoor: String,
    /// Wire, AWG.
    pub wire: Option<u32>,
    /// Breaker, A.
    pub breaker_a: Option<f64>,
    /// One way from panel to unit, m.
    pub length_m: Option<f64>,
    /// Temperature the terminals may have, C: 60 or 75.
    pub terminals_c: Option<f64>,
    /// Temperature the insulation may have, C.
    pub insulation_c: Option<f64>,
    /// Hottest place along the run, C.
    pub ambient_c: Option<f64>,
    /// Voltage, V.
    pub volts: Option<f64>,
    /// Disconnect to unit, m.
    pub disconnect_m: Option<f64>,
    /// Disconnect seen from the unit.
    pub disconnect_seen: Option<bool>,
    /// Service receptacle to unit, m.
    pub receptacle_m: Option<f64>,
    /// Ground-fault protection: `none`, `class a`, `class a high frequency`, `class c`.
    pub ground_fault: Option<String>,
}

/// The electrical panel.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Panel {
    /// Rating of the service, A.
    pub rating_a: Option<f64>,
    /// Volts of the service.
    pub volts: Option<f64>,
    /// Floor area for general lighting, m2.
    pub floor_m2: Option<f64>,
    /// Small-appliance and laundry circuits.
    pub small_circuits: Option<u32>,
    /// Appliances: name and VA from the plate.
    pub appliances: Vec<(String, f64)>,
    /// Electric heat besides the heat pump, VA.
    pub electric_heat_va: f64,
    /// Highest measured demand, W.
    pub peak_w: Option<f64>,
    /// Interval of the readings, s.
    pub interval_s: Option<f64>,
    /// Days of readings.
    pub days: Option<f64>,
    /// File of readings beside the job, in place of the three.
    pub readings: Option<String>,
    /// Solar or storage behind the meter.
    pub solar: Option<bool>,
    /// Breaker spaces free.
    pub free_spaces: Option<u32>,
}

/// A required value with its source, in place of a rule's own.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Requirement {
    /// What it is of: `gas_regulator`.
    pub of: String,
    /// At least, m.
    pub at_least_m: f64,
    /// Where it is from.
    pub source: String,
}

/// Refrigerant weighed.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Weighing {
    /// Cylinder.
    pub cylinder: String,
    /// Outdoor unit it went into or came out of.
    pub outdoor: String,
    /// Refrigerant.
    pub refrigerant: String,
    /// Day.
    pub day: String,
    /// Cylinder before, kg.
    pub before_kg: f64,
    /// Cylinder after, kg.
    pub after_kg: f64,
    /// Who, and number of the certificate.
    pub who: String,
}

/// An instrument.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Tool {
    /// Name.
    pub name: String,
    /// Calibrated until.
    pub calibrated_until: Option<String>,
}
