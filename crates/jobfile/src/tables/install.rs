//! Places, lines, drains, circuits, the panel, codes and weighings of the installation.
//!
//! Long because: one table a thing, each a few lines, read together into [`Installation`].

use units::Dim;

use super::Desk;
use crate::cell::{Cell, Row, Value};
use crate::check::Says;
use crate::field::{Family, Kind, Table, may, must, usual};
use crate::job::{
    Circuit, Codes, Drain, DrainPiece, HeadPlace, Installation, Line, LinePiece, Listener,
    OutdoorPlace, Panel, Requirement, Tool, Weighing,
};

const NEAR: Kind = Kind::Q(Dim::Length, 0.0, 100.0);
const TUBE: Kind = Kind::Q(Dim::SmallLength, 0.003, 0.05);

pub(super) static CODES: Table = Table {
    name: "codes",
    about: "Editions the work is judged by; the unit's own sheet and local code win",
    label: &[],
    assumed: false,
    fields: &[
        may(
            "electrical",
            Kind::Text,
            "Edition of the electrical code in force: 2023",
        ),
        may(
            "room_area",
            Kind::Text,
            "Edition of the rule on refrigerant and rooms",
        ),
        may("install_day", Kind::Day, "Day of installation"),
        may("permits", Kind::Texts, "Permits in hand"),
    ],
};

/// Distances around an outdoor unit: key and what it is to.
static AROUND: [&str; 12] = [
    "rear",
    "side",
    "service_side",
    "front",
    "above",
    "gas_regulator",
    "dryer",
    "window",
    "intake",
    "walk",
    "meter_space",
    "lot_line",
];

pub(super) static OUTDOOR: Table = Table {
    name: "outdoor_place",
    about: "Where an outdoor unit stands, and what was measured around it",
    label: &["outdoor"],
    assumed: false,
    fields: &[
        must("outdoor", Kind::Ref(Family::Outdoor), "Outdoor unit"),
        usual(
            "on",
            Kind::Word(&["stand", "bracket", "pad", "roof"]),
            "stand",
            "What carries it",
        ),
        may(
            "wall",
            Kind::Word(&["north", "east", "south", "west"]),
            "Plan side of the house",
        ),
        may(
            "along",
            NEAR,
            "Along the wall from its left end, seen from outside",
        ),
        may(
            "base",
            Kind::Q(Dim::Length, 0.0, 15.0),
            "Base above the ground",
        ),
        may(
            "drip",
            Kind::Q(Dim::Length, 0.0, 2.0),
            "Left between snow and base for drip and ice",
        ),
        may("rear", NEAR, "Free space behind"),
        may("side", NEAR, "Free space at the side"),
        may("service_side", NEAR, "Free space at the service side"),
        may("front", NEAR, "Free space in front"),
        may("above", NEAR, "Free space above"),
        may(
            "gas_regulator",
            NEAR,
            "To the vent of a gas regulator or meter",
        ),
        may("dryer", NEAR, "To a dryer outlet"),
        may("window", NEAR, "To a window that opens"),
        may("intake", NEAR, "To a combustion or fresh-air intake"),
        may("walk", NEAR, "To a walk"),
        may(
            "meter_space",
            NEAR,
            "Clear space in front of meter and disconnect",
        ),
        may("lot_line", NEAR, "To the lot line"),
        may(
            "roof_drip",
            Kind::Word(&["nothing", "eave", "valley", "covered"]),
            "What falls from the roof there",
        ),
        may(
            "faces_wind",
            Kind::YesNo,
            "Blows against the winter wind, without a baffle",
        ),
        may(
            "water_crosses_walk",
            Kind::YesNo,
            "Its water runs where people walk",
        ),
        may(
            "ice_area",
            Kind::Q(Dim::Area, 0.05, 200.0),
            "Ground its water spreads over",
        ),
        may(
            "fixed_to",
            Kind::Word(&["masonry", "blocking", "studs", "sheathing"]),
            "What a bracket is fixed to",
        ),
        may("bedroom_wall", Kind::YesNo, "A bedroom is behind the wall"),
        may(
            "fixings",
            Kind::Whole(1, 40),
            "Fixings of the bracket in the wall",
        ),
        may(
            "fixing_span",
            Kind::Q(Dim::Length, 0.05, 3.0),
            "Between upper and lower fixings",
        ),
        may(
            "fixing_pull",
            Kind::Q(Dim::Mass, 1.0, 5000.0),
            "Weight one fixing may be pulled with, from its sheet",
        ),
        may(
            "around",
            Kind::Word(&["ground", "wall", "corner"]),
            "What throws its sound back",
        ),
    ],
};

pub(super) static HEAD: Table = Table {
    name: "head_place",
    about: "Where a head hangs",
    label: &["head"],
    assumed: false,
    fields: &[
        must("head", Kind::Ref(Family::Head), "Head"),
        may("at", Kind::Point, "On the plan, east and north"),
        may(
            "blows",
            Kind::Q(Dim::Angle, -std::f64::consts::TAU, std::f64::consts::TAU),
            "Plan direction it blows, clockwise from plan north",
        ),
        may(
            "height",
            Kind::Q(Dim::Length, 0.0, 8.0),
            "Outlet above the floor",
        ),
        may(
            "bay",
            Kind::Q(Dim::Length, 0.05, 5.0),
            "Free width between studs or joists",
        ),
        may("above", NEAR, "Free space above"),
        may("side", NEAR, "Free space at the narrower side"),
        may("front", NEAR, "Free space in front"),
        may(
            "fixed_to",
            Kind::Word(&[
                "studs",
                "blocking",
                "masonry",
                "joists",
                "board only",
                "floor",
            ]),
            "What it is fixed to",
        ),
        may(
            "joint_reach",
            Kind::YesNo,
            "Its joints can be reached without opening anything",
        ),
        may(
            "seats",
            Kind::List(&Kind::Point, 1),
            "Where people sit, on the plan",
        ),
        may(
            "beds",
            Kind::List(&Kind::Point, 1),
            "Where people lie, on the plan",
        ),
        may(
            "louvre_heating",
            Kind::Q(
                Dim::Angle,
                -std::f64::consts::FRAC_PI_2,
                std::f64::consts::FRAC_PI_2,
            ),
            "Louvre below level in heating, from the sheet; the usual one if not given",
        ),
        may(
            "louvre_cooling",
            Kind::Q(
                Dim::Angle,
                -std::f64::consts::FRAC_PI_2,
                std::f64::consts::FRAC_PI_2,
            ),
            "Louvre below level in cooling; above level if below zero",
        ),
        may(
            "hazard_checked",
            Kind::YesNo,
            "Looked at for asbestos and lead before drilling",
        ),
    ],
};

static HEARS: Table = Table {
    name: "hears",
    about: "An outdoor unit that is heard",
    label: &["outdoor"],
    assumed: false,
    fields: &[
        must("outdoor", Kind::Ref(Family::Outdoor), "Outdoor unit"),
        must("distance", Kind::Q(Dim::Length, 0.5, 500.0), "Distance"),
    ],
};

pub(super) static LISTENER: Table = Table {
    name: "listener",
    about: "A lot line or window where the outdoor units are heard",
    label: &["name"],
    assumed: false,
    fields: &[
        must("name", Kind::NewName, "Name"),
        may(
            "at",
            Kind::Point,
            "On the plan, east and north; distances then come from the plan",
        ),
        may(
            "hears",
            Kind::Rows(&HEARS),
            "Units and measured distances; with `at` all units are heard",
        ),
        may("day", Kind::Q(Dim::Sound, 20.0, 90.0), "Limit by day"),
        may("night", Kind::Q(Dim::Sound, 20.0, 90.0), "Limit by night"),
        may("source", Kind::Text, "Bylaw and date the limits are from"),
        usual("tonal", Kind::YesNo, "false", "Hum or whine"),
        usual(
            "facade",
            Kind::YesNo,
            "false",
            "A wall behind the listener throws sound back",
        ),
    ],
};

static LINE_PIECE: Table = Table {
    name: "pieces",
    about: "A piece of a line",
    label: &[],
    assumed: false,
    fields: &[
        must("name", Kind::Text, "Where it runs"),
        must("length", Kind::Q(Dim::Length, 0.01, 100.0), "Length"),
        may(
            "rise",
            Kind::Q(Dim::Length, -60.0, 60.0),
            "Rise towards the head; below zero falls",
        ),
        usual("bends", Kind::Whole(0, 50), "0", "Bends of a right angle"),
        may(
            "to",
            Kind::Point,
            "Where it ends on the plan, east and north",
        ),
    ],
};

pub(super) static LINE: Table = Table {
    name: "line",
    about: "Refrigerant lines of a head, from the outdoor unit",
    label: &["head"],
    assumed: false,
    fields: &[
        must("head", Kind::Ref(Family::Head), "Head"),
        must(
            "pieces",
            Kind::Rows(&LINE_PIECE),
            "Pieces in order, from the outdoor unit",
        ),
        may("liquid", TUBE, "Liquid tube; the sheet's if not given"),
        may("gas", TUBE, "Gas tube"),
        may(
            "gas_wall",
            Kind::Q(Dim::SmallLength, 0.0003, 0.005),
            "Wall of the gas tube",
        ),
        may(
            "insulation",
            Kind::Q(Dim::SmallLength, 0.0, 0.1),
            "Insulation of each pipe",
        ),
        may("apart", Kind::YesNo, "Each pipe insulated by itself"),
        may(
            "sleeve_fall",
            Kind::Q(Dim::SmallLength, -0.5, 0.5),
            "Fall of the sleeve outward",
        ),
        may("fire_wall", Kind::YesNo, "Goes through a fire-rated wall"),
        may("firestop", Kind::Text, "Listed firestop used"),
        may(
            "test_pressure",
            Kind::Q(Dim::Pressure, 1e5, 8e6),
            "Nitrogen test, above air",
        ),
    ],
};

static DRAIN_PIECE: Table = Table {
    name: "pieces",
    about: "A piece of a drain",
    label: &[],
    assumed: false,
    fields: &[
        must("name", Kind::Text, "Where it runs"),
        must("length", Kind::Q(Dim::Length, 0.01, 100.0), "Length"),
        may(
            "fall",
            Kind::Q(Dim::SmallLength, -20.0, 20.0),
            "Fall along it; below zero rises",
        ),
        may("freezes", Kind::YesNo, "It can freeze"),
        usual("pumped", Kind::YesNo, "false", "Under the pump's pressure"),
    ],
};

pub(super) static DRAIN: Table = Table {
    name: "drain",
    about: "Condensate drain of a head",
    label: &["head"],
    assumed: false,
    fields: &[
        must("head", Kind::Ref(Family::Head), "Head"),
        must(
            "pieces",
            Kind::Rows(&DRAIN_PIECE),
            "Pieces in order, from the head",
        ),
        may(
            "pump_lift",
            Kind::Q(Dim::Length, 0.05, 20.0),
            "Lift of the pump, from its sheet",
        ),
        may(
            "pump_rate",
            Kind::Q(Dim::WaterFlow, 1e-5, 1.0),
            "What the pump moves",
        ),
        may(
            "overflow_switch",
            Kind::YesNo,
            "An overflow switch stops the unit",
        ),
        may("trap", Kind::YesNo, "It has a trap"),
        may(
            "ends",
            Kind::Word(&["ground", "gravel", "drywell", "sewer", "gutter", "walk"]),
            "Where it ends",
        ),
        may(
            "pour_test",
            Kind::Q(Dim::Hours, 1.0, 7200.0),
            "Time in which a litre ran through",
        ),
    ],
};

pub(super) static CIRCUIT: Table = Table {
    name: "circuit",
    about: "Circuit of an outdoor unit",
    label: &["outdoor"],
    assumed: false,
    fields: &[
        must("outdoor", Kind::Ref(Family::Outdoor), "Outdoor unit"),
        may("wire", Kind::Whole(0, 14), "Copper wire, AWG"),
        may(
            "breaker",
            Kind::Q(Dim::Current, 5.0, 200.0),
            "Breaker or fuse",
        ),
        may(
            "length",
            Kind::Q(Dim::Length, 0.5, 200.0),
            "One way from the panel",
        ),
        may(
            "terminals",
            Kind::Q(Dim::Temperature, 60.0, 90.0),
            "Temperature of the terminals",
        ),
        may(
            "insulation",
            Kind::Q(Dim::Temperature, 60.0, 90.0),
            "Temperature of the insulation",
        ),
        may(
            "ambient",
            Kind::Q(Dim::Temperature, -20.0, 80.0),
            "Hottest place along the run",
        ),
        may("volts", Kind::Q(Dim::Voltage, 100.0, 480.0), "Voltage"),
        may("disconnect", NEAR, "Disconnect to unit"),
        may(
            "disconnect_seen",
            Kind::YesNo,
            "Disconnect is seen from the unit",
        ),
        may("receptacle", NEAR, "Service receptacle to unit"),
        may(
            "ground_fault",
            Kind::Word(&["none", "class a", "class a high frequency", "class c"]),
            "Ground-fault protection",
        ),
    ],
};

static APPLIANCE: Table = Table {
    name: "appliances",
    about: "An appliance",
    label: &["name"],
    assumed: false,
    fields: &[
        must("name", Kind::Text, "Name"),
        must(
            "power",
            Kind::Q(Dim::ElectricPower, 10.0, 50_000.0),
            "VA of its plate, as W",
        ),
    ],
};

pub(super) static PANEL: Table = Table {
    name: "panel",
    about: "The electrical panel",
    label: &[],
    assumed: false,
    fields: &[
        may(
            "rating",
            Kind::Q(Dim::Current, 30.0, 800.0),
            "Rating of the service",
        ),
        may(
            "volts",
            Kind::Q(Dim::Voltage, 100.0, 480.0),
            "Voltage of the service",
        ),
        may(
            "floor",
            Kind::Q(Dim::Area, 5.0, 3000.0),
            "Floor area; the rooms' if not given",
        ),
        may(
            "small_circuits",
            Kind::Whole(0, 12),
            "Small-appliance and laundry circuits",
        ),
        may("appliances", Kind::Rows(&APPLIANCE), "Appliances that stay"),
        may(
            "electric_heat",
            Kind::Q(Dim::ElectricPower, 0.0, 50_000.0),
            "Electric heat that runs beside the heat pump",
        ),
        may(
            "peak",
            Kind::Q(Dim::ElectricPower, 100.0, 200_000.0),
            "Highest measured demand",
        ),
        may(
            "interval",
            Kind::Q(Dim::Hours, 1.0, 86_400.0),
            "Interval of the readings",
        ),
        may("days", Kind::Whole(1, 4000), "Days of readings"),
        may(
            "readings",
            Kind::Text,
            "Green Button file of the meter beside the job, in place of peak, interval and days",
        ),
        may("solar", Kind::YesNo, "Solar or storage behind the meter"),
        may("free_spaces", Kind::Whole(0, 84), "Breaker spaces free"),
    ],
};

pub(super) static REQUIREMENT: Table = Table {
    name: "requirement",
    about: "A distance that is required here, with its source; wins over the tool's own",
    label: &["of"],
    assumed: false,
    fields: &[
        must("of", Kind::Word(&AROUND), "Distance it is for"),
        must("at_least", NEAR, "Required"),
        must(
            "source",
            Kind::Text,
            "Code, clause, sheet or officer, with date",
        ),
    ],
};

pub(super) static WEIGHING: Table = Table {
    name: "weighing",
    about: "Refrigerant weighed out of or back into a cylinder",
    label: &["cylinder", "day"],
    assumed: false,
    fields: &[
        must("cylinder", Kind::Text, "Number of the cylinder"),
        must("outdoor", Kind::Ref(Family::Outdoor), "Outdoor unit"),
        must("refrigerant", Kind::Text, "Refrigerant in the cylinder"),
        must("day", Kind::Day, "Day"),
        must("before", Kind::Q(Dim::Mass, 0.0, 200.0), "Cylinder before"),
        must("after", Kind::Q(Dim::Mass, 0.0, 200.0), "Cylinder after"),
        must(
            "who",
            Kind::Text,
            "Technician and number of the certificate",
        ),
    ],
};

pub(super) static TOOL: Table = Table {
    name: "tool",
    about: "An instrument of the crew",
    label: &["name"],
    assumed: false,
    fields: &[
        must("name", Kind::Text, "Name: torque wrench"),
        may("calibrated_until", Kind::Day, "Calibrated until"),
    ],
};

fn yes(row: &Row, key: &str) -> Option<bool> {
    match row.cell(key)?.value {
        Value::YesNo(y) => Some(y),
        _ => None,
    }
}

fn word(row: &Row, key: &str) -> Option<String> {
    row.text(key).map(str::to_owned)
}

fn count(row: &Row, key: &str) -> Option<u32> {
    row.whole(key).and_then(|n| u32::try_from(n).ok())
}

pub(super) fn point(cell: &Cell) -> Option<[f64; 2]> {
    match cell.value {
        Value::Point(p) => Some(p),
        _ => None,
    }
}

/// What is planned of one head or outdoor unit, once each.
pub(crate) struct Placed {
    /// Table of the job.
    pub table: &'static str,
    /// Key that names the head or outdoor unit.
    pub of: &'static str,
    /// Key under which an option keeps such rows of its own heads and units.
    pub kept: &'static str,
}

const fn placed(table: &'static str, of: &'static str, kept: &'static str) -> Placed {
    Placed { table, of, kept }
}

pub(crate) static PLACED: [Placed; 5] = [
    placed("outdoor_place", "outdoor", "outdoor_places"),
    placed("head_place", "head", "head_places"),
    placed("line", "head", "lines"),
    placed("drain", "head", "drains"),
    placed("circuit", "outdoor", "circuits"),
];

/// Everything said about the installation.
pub(super) fn read(file: &Row, desk: &mut Desk) -> Installation {
    for p in &PLACED {
        once(file, p.table, p.of, desk);
    }
    for row in file.rows("listener") {
        if !row.has("at") && !row.has("hears") {
            let says = Says::new("a listener needs a place or a distance")
                .allowed("`at` on the plan, or `hears` with a distance for each unit")
                .mend("add a line `at = \"30 ft, 12 ft\"`");
            desk.at(row, "name", says);
        }
    }
    for row in file.rows("weighing") {
        if row.text("refrigerant").is_some_and(|r| r.trim().is_empty()) {
            desk.at(row, "refrigerant", Says::new("no refrigerant named"));
        }
    }
    Installation {
        codes: file.row("codes").map_or_else(Codes::default, codes),
        outdoors: file.rows("outdoor_place").map(outdoor).collect(),
        heads: file.rows("head_place").map(head).collect(),
        landmarks: file
            .rows("landmark")
            .map(super::landmark::landmark)
            .collect(),
        listeners: file.rows("listener").map(listener).collect(),
        lines: file.rows("line").map(line).collect(),
        drains: file.rows("drain").map(drain).collect(),
        circuits: file.rows("circuit").map(circuit).collect(),
        panel: file.row("panel").map(panel),
        requirements: file
            .rows("requirement")
            .map(|r| Requirement {
                of: r.words("of"),
                at_least_m: r.si_or_0("at_least"),
                source: r.words("source"),
            })
            .collect(),
        weighings: file.rows("weighing").map(weighing).collect(),
        tools: file
            .rows("tool")
            .map(|r| Tool {
                name: r.words("name"),
                calibrated_until: word(r, "calibrated_until"),
            })
            .collect(),
    }
}

/// One such table for each unit: two would contradict each other silently.
pub(super) fn once(file: &Row, table: &'static str, key: &'static str, desk: &mut Desk) {
    let mut seen: Vec<String> = Vec::new();
    for row in file.rows(table) {
        let name = row.words(key);
        if !name.is_empty() && seen.contains(&name) {
            let says = Says::new(format!("a second [[{table}]] for the same {key}"))
                .got(format!("\"{name}\""))
                .allowed("one for each")
                .mend("put both into one, or name the other one");
            desk.at(row, key, says);
        }
        seen.push(name);
    }
}

fn codes(row: &Row) -> Codes {
    Codes {
        electrical: word(row, "electrical"),
        room_area: word(row, "room_area"),
        install_day: word(row, "install_day"),
        permits: row.texts("permits"),
    }
}

fn outdoor(row: &Row) -> OutdoorPlace {
    OutdoorPlace {
        outdoor: row.words("outdoor"),
        on: row.words("on"),
        wall: word(row, "wall"),
        along_m: row.si("along"),
        base_m: row.si("base"),
        drip_m: row.si("drip"),
        distances: AROUND
            .iter()
            .filter_map(|k| Some((*k, row.si(k)?)))
            .collect(),
        roof_drip: word(row, "roof_drip"),
        faces_wind: yes(row, "faces_wind"),
        water_crosses_walk: yes(row, "water_crosses_walk"),
        ice_area_m2: row.si("ice_area"),
        fixed_to: word(row, "fixed_to"),
        bedroom_wall: yes(row, "bedroom_wall"),
        fixings: count(row, "fixings"),
        fixing_span_m: row.si("fixing_span"),
        fixing_pull_n: row.si("fixing_pull").map(|kg| kg * 9.80665),
        around: word(row, "around"),
    }
}

fn head(row: &Row) -> HeadPlace {
    HeadPlace {
        head: row.words("head"),
        at_m: row.cell("at").and_then(point),
        blows_deg: row.si("blows").map(f64::to_degrees),
        height_m: row.si("height"),
        bay_m: row.si("bay"),
        above_m: row.si("above"),
        side_m: row.si("side"),
        front_m: row.si("front"),
        fixed_to: word(row, "fixed_to"),
        joint_reach: yes(row, "joint_reach"),
        seats_m: row.list("seats").iter().filter_map(point).collect(),
        beds_m: row.list("beds").iter().filter_map(point).collect(),
        louvre_heating_deg: row.si("louvre_heating").map(f64::to_degrees),
        louvre_cooling_deg: row.si("louvre_cooling").map(f64::to_degrees),
        hazard_checked: yes(row, "hazard_checked"),
    }
}

fn listener(row: &Row) -> Listener {
    Listener {
        name: row.words("name"),
        at_m: row.cell("at").and_then(point),
        hears: row
            .rows("hears")
            .map(|h| (h.words("outdoor"), h.si_or_0("distance")))
            .collect(),
        day_db: row.si("day"),
        night_db: row.si("night"),
        source: word(row, "source"),
        tonal: row.yes("tonal"),
        facade: row.yes("facade"),
    }
}

fn line(row: &Row) -> Line {
    Line {
        head: row.words("head"),
        pieces: row
            .rows("pieces")
            .map(|p| LinePiece {
                name: p.words("name"),
                length_m: p.si_or_0("length"),
                rise_m: p.si("rise"),
                bends: count(p, "bends").unwrap_or(0),
                to_m: p.cell("to").and_then(point),
            })
            .collect(),
        liquid_m: row.si("liquid"),
        gas_m: row.si("gas"),
        gas_wall_m: row.si("gas_wall"),
        insulation_m: row.si("insulation"),
        apart: yes(row, "apart"),
        sleeve_fall_m: row.si("sleeve_fall"),
        fire_wall: yes(row, "fire_wall"),
        firestop: word(row, "firestop"),
        test_pa: row.si("test_pressure"),
    }
}

fn drain(row: &Row) -> Drain {
    Drain {
        head: row.words("head"),
        pieces: row
            .rows("pieces")
            .map(|p| DrainPiece {
                name: p.words("name"),
                length_m: p.si_or_0("length"),
                fall_m: p.si("fall"),
                freezes: yes(p, "freezes"),
                pumped: p.yes("pumped"),
            })
            .collect(),
        pump_lift_m: row.si("pump_lift"),
        pump_kg_per_s: row.si("pump_rate"),
        overflow_switch: yes(row, "overflow_switch"),
        trap: yes(row, "trap"),
        ends: word(row, "ends"),
        pour_test_s: row.si("pour_test"),
    }
}

fn circuit(row: &Row) -> Circuit {
    Circuit {
        outdoor: row.words("outdoor"),
        wire: count(row, "wire"),
        breaker_a: row.si("breaker"),
        length_m: row.si("length"),
        terminals_c: row.si("terminals"),
        insulation_c: row.si("insulation"),
        ambient_c: row.si("ambient"),
        volts: row.si("volts"),
        disconnect_m: row.si("disconnect"),
        disconnect_seen: yes(row, "disconnect_seen"),
        receptacle_m: row.si("receptacle"),
        ground_fault: word(row, "ground_fault"),
    }
}

fn panel(row: &Row) -> Panel {
    Panel {
        rating_a: row.si("rating"),
        volts: row.si("volts"),
        floor_m2: row.si("floor"),
        small_circuits: count(row, "small_circuits"),
        appliances: row
            .rows("appliances")
            .map(|a| (a.words("name"), a.si_or_0("power")))
            .collect(),
        electric_heat_va: row.si_or_0("electric_heat"),
        peak_w: row.si("peak"),
        interval_s: row.si("interval"),
        days: row.whole("days").map(|d| d as f64),
        readings: word(row, "readings"),
        solar: yes(row, "solar"),
        free_spaces: count(row, "free_spaces"),
    }
}

fn weighing(row: &Row) -> Weighing {
    Weighing {
        cylinder: row.words("cylinder"),
        outdoor: row.words("outdoor"),
        refrigerant: row.words("refrigerant"),
        day: row.words("day"),
        before_kg: row.si_or_0("before"),
        after_kg: row.si_or_0("after"),
        who: row.words("who"),
    }
}
