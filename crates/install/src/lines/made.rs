//! How a line is made: tube wall, insulation, sleeve, firestop.

use jobfile::Line;
use physics::tube::Tube;
use reckon::{Level, Source};
use units::Dim;

use crate::desk::{Desk, Rule, card, yes_no};

const WALL: Rule = Rule {
    name: "tube-wall",
    level: Level::Stop,
    what: "pressure the gas tube may have",
    mend: "A heavier wall, or a lower test pressure if plate and sheet allow it. Nitrogen under \
           pressure kills: regulator, relief, nobody in front of a cap.",
    tell: "Say the test pressure, and the wall of the tube from its marking.",
};
const WRAP: Rule = Rule {
    name: "line-insulation",
    level: Level::Fix,
    what: "insulation of each pipe",
    mend: "At least 10 mm on each pipe by itself, covered against sun outdoors.",
    tell: "Say the thickness and whether each pipe has its own.",
};
const APART: Rule = Rule {
    name: "line-apart",
    level: Level::Fix,
    what: "each pipe insulated by itself",
    mend: "Insulate liquid and gas apart: both are warm or cold at once.",
    tell: "Look at the set.",
};
const SLEEVE: Rule = Rule {
    name: "sleeve-fall",
    level: Level::Fix,
    what: "fall of the sleeve to the outside",
    mend: "Drill so that water runs out; seal inside and outside.",
    tell: "Measure inside and outside height of the hole.",
};
const FIRE: Rule = Rule {
    name: "firestop",
    level: Level::Stop,
    what: "fire-rated wall",
    mend: "Use a listed firestop for this wall and this set, and keep its number.",
    tell: "Ask the building office whether the wall is rated.",
};

/// Tube wall, insulation, sleeve and firestop of one line.
pub(super) fn judge(desk: &mut Desk, line: &Line, gas_m: Option<f64>, place: &str) {
    let key = |what: &str| format!("lines.{}.{what}", line.head);
    let test = line.test_pa.map(|p| {
        desk.measured(
            key("test"),
            "test pressure",
            p,
            Dim::Pressure,
            format!("{place}.test_pressure"),
        );
        key("test")
    });
    // the thinnest wall the trade sells in this size, unless the job says which
    let wall = line.gas_wall_m.or_else(|| {
        let of_size = |t: &Tube| gas_m.is_some_and(|m| (t.outside_m() - m).abs() < 2e-4);
        Tube::ALL.into_iter().find(of_size).map(Tube::wall_m)
    });
    let held = wall.filter(|_| gas_m.is_some()).and_then(|w| {
        physics::tube::allowable_pressure_pa(gas_m?, w).ok()?;
        desk.given(
            key("wall"),
            "wall of the gas tube",
            w,
            Dim::SmallLength,
            Source::new("astm-b280", "table of coil tube, or as typed"),
        );
        desk.given(
            key("stress"),
            "stress annealed copper may have",
            6000.0 * 6894.757293168361,
            Dim::Pressure,
            Source::new("from-memory", "6,000 psi, annealed"),
        );
        desk.reckon(
            key("holds"),
            "pressure the gas tube may have",
            Dim::Pressure,
            "2 * S * t / (D - 0.8 * t)",
            &[
                ("S", &key("stress")),
                ("t", &key("wall")),
                ("D", &key("gas")),
            ],
            Source::new("from-memory", "tube trade's formula"),
        )?;
        Some(key("holds"))
    });
    let of = || {
        Source::new(
            "astm-b280",
            "wall; formula from memory; flares have limits of their own",
        )
    };
    desk.at_least(&WALL, place, held.as_deref(), test.as_deref(), of());
    let wrap = line.insulation_m.map(|m| {
        desk.measured(
            key("insulation"),
            "insulation",
            m,
            Dim::SmallLength,
            format!("{place}.insulation"),
        );
        key("insulation")
    });
    let need = desk.given(
        key("insulation-least"),
        "usual least",
        0.010,
        Dim::SmallLength,
        card("F15"),
    );
    desk.at_least(&WRAP, place, wrap.as_deref(), Some(&need), card("F15"));
    desk.must(
        &APART,
        place,
        line.apart,
        yes_no(line.apart),
        "apart",
        card("F15"),
    );
    let fall = line.sleeve_fall_m.map(|m| {
        desk.measured(
            key("sleeve"),
            "fall of the sleeve",
            m,
            Dim::SmallLength,
            format!("{place}.sleeve_fall"),
        );
        key("sleeve")
    });
    let need = desk.given(
        key("sleeve-least"),
        "usual least",
        0.005,
        Dim::SmallLength,
        card("F15"),
    );
    desk.at_least(&SLEEVE, place, fall.as_deref(), Some(&need), card("F15"));
    let good = line
        .fire_wall
        .map(|rated| !rated || line.firestop.is_some());
    let found = match (line.fire_wall, &line.firestop) {
        (Some(true), None) => "rated, no firestop named".to_owned(),
        (Some(true), Some(f)) => format!("rated, {f}"),
        (Some(false), _) => "not rated".to_owned(),
        (None, _) => "not asked".to_owned(),
    };
    desk.must(
        &FIRE,
        place,
        good,
        &found,
        "not rated, or a listed firestop",
        card("F15"),
    );
}
