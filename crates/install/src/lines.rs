//! Refrigerant lines: lengths with fittings, height with its sign, pressure lost, velocity, and
//! which tube holds the test pressure.
//!
//! Long because: all that is judged of a line, its rules beside it; to be divided by rule.

use heatpump::Sheet;
use jobfile::{AsBuiltValue, HeadChoice, Line};
use physics::pipe::{friction_factor, velocity_m_per_s};
use physics::refrigerant::{BubbleC, DewC, Refrigerant};
use physics::tube::Tube;
use reckon::{Level, Source};
use units::Dim;

use crate::Input;
use crate::desk::{Desk, Rule, card, sheet, yes_no};

/// A right-angle bend of drawn tube as so many diameters of straight tube.
const BEND_DIAMETERS: f64 = 20.0;
/// Drawn tube, m.
const ROUGHNESS_M: f64 = 1.5e-6;
/// State of the gas line in cooling, where its loss costs most: evaporating, superheat,
/// condensing, subcooling. A usual state, from no sheet.
const STATE: (f64, f64, f64, f64) = (5.0, 8.0, 45.0, 5.0);

const LONGEST: Rule = Rule {
    name: "line-too-long",
    level: Level::Stop,
    what: "length with fittings",
    mend: "Move the unit or the head nearer, or choose a unit that may run farther.",
    tell: "Measure the route piece by piece, and read the longest run from the unit's sheet.",
};
const SHORTEST: Rule = Rule {
    name: "line-too-short",
    level: Level::Fix,
    what: "length without fittings, for noise and charge",
    mend: "Lead the line longer, with a wide loop where the sheet allows one.",
    tell: "Read the shortest run from the unit's sheet.",
};
const TOTAL: Rule = Rule {
    name: "lines-total",
    level: Level::Stop,
    what: "all lines of the unit together",
    mend: "Fewer heads on this unit, or shorter routes.",
    tell: "Measure every line and read the total from the unit's sheet.",
};
const HEIGHT: Rule = Rule {
    name: "line-height",
    level: Level::Stop,
    what: "height between outdoor unit and head",
    mend: "Bring the two nearer in height.",
    tell: "Say the rise of every piece, below zero where it falls towards the head.",
};
const BETWEEN: Rule = Rule {
    name: "heads-height",
    level: Level::Stop,
    what: "height between the heads of one unit",
    mend: "Put the heads that lie far apart in height on units of their own.",
    tell: "Say the rise of every piece, and read the limit from the unit's sheet.",
};
const SIZE: Rule = Rule {
    name: "line-size",
    level: Level::Fix,
    what: "tube against the sheet",
    mend: "Use the size of the sheet, or the adaptor it names.",
    tell: "Read both tube sizes from the unit's sheet.",
};
const FAST: Rule = Rule {
    name: "gas-velocity",
    level: Level::Note,
    what: "gas velocity at the most, cooling",
    mend: "Expect noise and loss; a larger tube only if the sheet names one.",
    tell: "Needs tube size, refrigerant and the head's cooling.",
};
const OIL: Rule = Rule {
    name: "oil-return",
    level: Level::Note,
    what: "gas velocity at the least, for oil in a riser",
    mend: "No trap unless the sheet asks for one; many units run faster now and then to fetch the \
           oil: let the sheet say.",
    tell: "Needs the head's least cooling from its sheet.",
};
const LOSS: Rule = Rule {
    name: "line-loss",
    level: Level::Note,
    what: "cooling capacity lost in the gas line",
    mend: "Shorten the line or take bends out.",
    tell: "Needs tube size, refrigerant and the head's cooling.",
};
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
const GIVEN: Rule = Rule {
    name: "line-route",
    level: Level::Fix,
    what: "route of the lines",
    mend: "Add a [[line]] for the head.",
    tell: "Walk the route with a tape: a [[line]] for the head, piece by piece.",
};

/// Judges all lines.
pub(crate) fn judge(input: &Input<'_>, desk: &mut Desk) {
    for (outdoor, unit) in input.outdoors() {
        let mut runs = Vec::new();
        let mut rises = Vec::new();
        for head in input.heads_on(&outdoor.name) {
            let place = format!("head.{}", head.name);
            let lines = &input.job.installation.lines;
            let line = lines.iter().find(|l| l.head == head.name);
            let Some(line) = line else {
                desk.must(
                    &GIVEN,
                    &place,
                    None,
                    "not measured",
                    "every piece",
                    card("F15"),
                );
                continue;
            };
            let place = format!("line.{}", head.name);
            one(input, desk, line, head, unit, &place);
            runs.push(format!("lines.{}.length", head.name));
            rises.push(desk.book.value(&format!("lines.{}.rise", head.name)));
        }
        let place = format!("outdoor.{}", outdoor.name);
        let total = format!("lines.{}.total", outdoor.name);
        let all = input.heads_on(&outdoor.name).count();
        let known = !runs.is_empty() && runs.len() == all;
        if known {
            desk.add_up(
                &total,
                "all lines of the unit",
                Dim::Length,
                &runs,
                card("F15"),
            );
        }
        let Some(unit) = unit else { continue };
        if all > 1 {
            let of = sheet(&unit.name, unit.lines.page.as_ref());
            let most = limit(desk, outdoor, unit.lines.total_m, "total-limit", &of);
            desk.at_most(
                &TOTAL,
                &place,
                known.then_some(total.as_str()),
                most.as_deref(),
                of.clone(),
            );
            let between = format!("lines.{}.between", outdoor.name);
            let known: Vec<f64> = rises.iter().flatten().copied().collect();
            let complete = known.len() == all;
            if complete {
                let high = known.iter().copied().fold(f64::NEG_INFINITY, f64::max);
                let low = known.iter().copied().fold(f64::INFINITY, f64::min);
                let (h, l) = (format!("{between}.high"), format!("{between}.low"));
                desk.given(h.clone(), "highest head", high, Dim::Length, card("F15"));
                desk.given(l.clone(), "lowest head", low, Dim::Length, card("F15"));
                desk.reckon(
                    between.clone(),
                    "height between heads",
                    Dim::Length,
                    "H - L",
                    &[("H", &h), ("L", &l)],
                    card("F15"),
                );
            }
            let most = limit(
                desk,
                outdoor,
                unit.lines.height_between_heads_m,
                "between-limit",
                &of,
            );
            desk.at_most(
                &BETWEEN,
                &place,
                complete.then_some(between.as_str()),
                most.as_deref(),
                of,
            );
        }
    }
}

fn limit(
    desk: &mut Desk,
    outdoor: &jobfile::OutdoorChoice,
    value: Option<f64>,
    name: &str,
    of: &Source,
) -> Option<String> {
    let key = format!("lines.{}.{name}", outdoor.name);
    value.map(|v| desk.given(key, "limit of the sheet", v, Dim::Length, of.clone()))
}

fn one(
    input: &Input<'_>,
    desk: &mut Desk,
    line: &Line,
    head: &HeadChoice,
    unit: Option<&Sheet>,
    place: &str,
) {
    let key = |what: &str| format!("lines.{}.{what}", line.head);
    let mut lengths = Vec::new();
    for (i, piece) in line.pieces.iter().enumerate() {
        let k = key(&format!("piece-{}", i + 1));
        desk.measured(
            k.clone(),
            &piece.name,
            piece.length_m,
            Dim::Length,
            format!("{place}.pieces"),
        );
        lengths.push(k);
    }
    desk.add_up(
        &key("planned"),
        "length as planned",
        Dim::Length,
        &lengths,
        card("F15"),
    );
    let built = input.job.as_built.iter().rev().find_map(|b| match b.value {
        AsBuiltValue::LineLength(m) if b.path == format!("head.{}.line_length", head.name) => {
            Some(m)
        }
        _ => None,
    });
    let length = key("length");
    match built {
        Some(m) => desk.measured(
            length.clone(),
            "length as built",
            m,
            Dim::Length,
            "as_built".into(),
        ),
        None => {
            desk.reckon(
                length.clone(),
                "length of the line",
                Dim::Length,
                "L",
                &[("L", &key("planned"))],
                card("F15"),
            );
        }
    }
    let bends: u32 = line.pieces.iter().map(|p| p.bends).sum();
    let gas_m = line.gas_m.or(unit.and_then(|u| u.lines.gas_m));
    desk.measured(
        key("bends"),
        "bends",
        f64::from(bends),
        Dim::Count,
        format!("{place}.pieces"),
    );
    desk.given(
        key("bend"),
        "a bend in diameters",
        BEND_DIAMETERS,
        Dim::Ratio,
        Source::new("crane-410", "right-angle bend of small radius, from memory"),
    );
    let with = key("with-fittings");
    if let Some(gas) = gas_m {
        desk.given(
            key("gas"),
            "gas tube outside",
            gas,
            Dim::SmallLength,
            Source::job(format!("{place}.gas")),
        );
        desk.reckon(
            with.clone(),
            "length with fittings",
            Dim::Length,
            "L + n * k * D",
            &[
                ("L", &length),
                ("n", &key("bends")),
                ("k", &key("bend")),
                ("D", &key("gas")),
            ],
            card("F15"),
        );
    }
    let rise: Option<f64> = line.pieces.iter().map(|p| p.rise_m).sum();
    if let Some(rise) = rise {
        desk.measured(
            key("rise"),
            "head above the outdoor unit (below zero: under it)",
            rise,
            Dim::Length,
            format!("{place}.pieces"),
        );
    }
    route(desk, line, unit, rise, place);
    gas(input, desk, line, head, unit, gas_m, place);
    made(desk, line, gas_m, place);
}

fn route(desk: &mut Desk, line: &Line, unit: Option<&Sheet>, rise: Option<f64>, place: &str) {
    let key = |what: &str| format!("lines.{}.{what}", line.head);
    let of = unit.map_or_else(|| card("F15"), |u| sheet(&u.name, u.lines.page.as_ref()));
    let lim = unit.map(|u| &u.lines);
    let mut put = |name: &str, v: Option<f64>| {
        v.map(|v| desk.given(key(name), "limit of the sheet", v, Dim::Length, of.clone()))
    };
    let longest = put("longest", lim.and_then(|l| l.longest_m));
    let shortest = put("shortest", lim.and_then(|l| l.shortest_m));
    let (most, way) = match rise {
        Some(r) if r >= 0.0 => (
            lim.and_then(|l| l.height_outdoor_below_m),
            "outdoor unit below",
        ),
        Some(_) => (
            lim.and_then(|l| l.height_outdoor_above_m),
            "outdoor unit above",
        ),
        None => (None, ""),
    };
    let height = put("height-limit", most);
    desk.at_most(
        &LONGEST,
        place,
        Some(&key("with-fittings")),
        longest.as_deref(),
        of.clone(),
    );
    desk.at_least(
        &SHORTEST,
        place,
        Some(&key("length")),
        shortest.as_deref(),
        of.clone(),
    );
    let size = key("height");
    let found = rise.map(|_| {
        desk.reckon(
            size.clone(),
            format!("height, {way}"),
            Dim::Length,
            "abs(H)",
            &[("H", &key("rise"))],
            card("F15"),
        );
        size.as_str()
    });
    desk.at_most(&HEIGHT, place, found, height.as_deref(), of.clone());
    for (name, ours, theirs) in [
        ("liquid", line.liquid_m, lim.and_then(|l| l.liquid_m)),
        ("gas", line.gas_m, lim.and_then(|l| l.gas_m)),
    ] {
        // not said: the sheet's size is taken
        let Some(ours) = ours else { continue };
        let same = theirs.map(|t| (t - ours).abs() < 2e-4);
        let words = |m: f64| crate::desk::both(m, Dim::SmallLength);
        let needed = theirs.map_or("the sheet's size".to_owned(), words);
        desk.must(
            &SIZE,
            place,
            same,
            &format!("{name} {}", words(ours)),
            &needed,
            of.clone(),
        );
    }
}

/// Refrigerant of a sheet, as the property tables know it.
pub(crate) fn refrigerant(unit: Option<&Sheet>) -> Option<Refrigerant> {
    let name = unit?.refrigerant.as_deref()?;
    Refrigerant::ALL.into_iter().find(|r| r.name() == name)
}

fn gas(
    input: &Input<'_>,
    desk: &mut Desk,
    line: &Line,
    head: &HeadChoice,
    unit: Option<&Sheet>,
    gas_m: Option<f64>,
    place: &str,
) {
    let key = |what: &str| format!("lines.{}.{what}", line.head);
    let data = input.sheet(&head.unit).and_then(|s| s.head.as_ref());
    let tube = gas_m.and_then(|m| {
        Tube::ALL
            .into_iter()
            .find(|t| (t.outside_m() - m).abs() < 2e-4)
    });
    let done = (|| {
        let fluid = refrigerant(unit)?;
        let tube = tube?;
        let most = data?.cooling_max_w?;
        let (low, superheat, high, subcooling) = STATE;
        let dew = fluid.dew_pressure(DewC(low)).ok()?;
        let vapour = fluid.superheated_vapour(dew, superheat).ok()?;
        let viscosity = fluid.saturated_vapour(DewC(low)).ok()?.viscosity_pa_s;
        let bubble = fluid.bubble_pressure(BubbleC(high)).ok()?;
        let liquid = fluid.subcooled_liquid(bubble, subcooling).ok()?;
        let of = Source::new(
            "coolprop",
            "fits of the property tables; evaporating 5 C, superheat 8 K, condensing 45 C, subcooling 5 K: a usual state",
        );
        let heat = vapour.enthalpy_j_per_kg - liquid.enthalpy_j_per_kg;
        desk.given(
            key("heat"),
            "heat taken up by a kilogram, J/kg",
            heat,
            Dim::Ratio,
            of.clone(),
        );
        desk.given(
            key("density"),
            "gas density",
            vapour.density_kg_per_m3,
            Dim::Density,
            of.clone(),
        );
        desk.given(
            key("pressure"),
            "suction pressure",
            dew.0,
            Dim::Pressure,
            of,
        );
        desk.given(
            key("inside"),
            "gas tube inside",
            tube.inside_m(),
            Dim::SmallLength,
            Source::new("astm-b280", "table of coil tube"),
        );
        desk.given(
            key("cooling-most"),
            "cooling of the head at the most",
            most,
            Dim::Power,
            sheet(&head.unit, data?.page.as_ref()),
        );
        let flow = desk.reckon(
            key("flow"),
            "refrigerant flow at the most, kg/s",
            Dim::Ratio,
            "Q / h",
            &[("Q", &key("cooling-most")), ("h", &key("heat"))],
            card("F15"),
        )?;
        speed(desk, &key, "flow", "velocity")?;
        let v = velocity_m_per_s(flow, vapour.density_kg_per_m3, tube.inside_m()).ok()?;
        let reynolds = vapour.density_kg_per_m3 * v * tube.inside_m() / viscosity;
        let f = friction_factor(reynolds, ROUGHNESS_M / tube.inside_m()).ok()?;
        desk.given(
            key("friction"),
            format!("friction factor at Reynolds number {reynolds:.0}"),
            f,
            Dim::Ratio,
            Source::new(
                "colebrook-1939",
                "physics::pipe::friction_factor, drawn tube 1.5 micrometre",
            ),
        );
        desk.reckon(
            key("drop"),
            "pressure lost in the gas line, cooling at the most",
            Dim::Pressure,
            "f * L / D * r * v^2 / 2",
            &[
                ("f", &key("friction")),
                ("L", &key("with-fittings")),
                ("D", &key("inside")),
                ("r", &key("density")),
                ("v", &key("velocity")),
            ],
            Source::new("colebrook-1939", "with Darcy-Weisbach"),
        )?;
        // a compressor moves volume: gas thinner by dp/p carries that much less heat
        desk.reckon(
            key("capacity-cost"),
            "cooling lost by it",
            Dim::Share,
            "d / p",
            &[("d", &key("drop")), ("p", &key("pressure"))],
            Source::new(
                "common-practice",
                "fixed swept volume; the inverter makes up for it until it is at its most",
            ),
        )
    })();
    let ashrae = || {
        Source::new(
            "ashrae-refrigeration-2010",
            "chapter 1, table 1, suction 4.5 to 20 m/s",
        )
    };
    let ok = done.is_some();
    let fast = desk.given(key("fastest"), "usual most", 20.0, Dim::AirSpeed, ashrae());
    desk.at_most(
        &FAST,
        place,
        ok.then_some(key("velocity").as_str()),
        Some(&fast),
        ashrae(),
    );
    let tenth = desk.given(
        key("cost-usual"),
        "usual most",
        0.05,
        Dim::Share,
        Source::new("common-practice", "about 2 F of saturation"),
    );
    desk.at_most(
        &LOSS,
        place,
        ok.then_some(key("capacity-cost").as_str()),
        Some(&tenth),
        Source::new("common-practice", "about 2 F of saturation"),
    );
    let least = ok
        .then(|| {
            let least = data?.cooling_min_w?;
            desk.given(
                key("cooling-least"),
                "cooling of the head at the least",
                least,
                Dim::Power,
                sheet(&head.unit, data?.page.as_ref()),
            );
            desk.reckon(
                key("flow-least"),
                "refrigerant flow at the least, kg/s",
                Dim::Ratio,
                "Q / h",
                &[("Q", &key("cooling-least")), ("h", &key("heat"))],
                card("F15"),
            )?;
            speed(desk, &key, "flow-least", "velocity-least")
        })
        .flatten();
    let slow = desk.given(
        key("slowest"),
        "usual least in a riser",
        4.5,
        Dim::AirSpeed,
        ashrae(),
    );
    desk.at_least(
        &OIL,
        place,
        least.map(|_| key("velocity-least")).as_deref(),
        Some(&slow),
        ashrae(),
    );
}

fn speed(desk: &mut Desk, key: &dyn Fn(&str) -> String, flow: &str, name: &str) -> Option<f64> {
    desk.reckon(
        key(name),
        "gas velocity",
        Dim::AirSpeed,
        "4 * m / (3.141592653589793 * r * D^2)",
        &[
            ("m", &key(flow)),
            ("r", &key("density")),
            ("D", &key("inside")),
        ],
        Source::new("common-practice", "continuity"),
    )
}

fn made(desk: &mut Desk, line: &Line, gas_m: Option<f64>, place: &str) {
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
