//! The paper for the crew: what is still open, drawings, lists, torque, charge, tests, cautions.

use install::{Installation, Item};
use reckon::Level;
use startup::joints::usual_torque_nm;

use crate::block::{Block, Step};
use crate::desk::Input;
use crate::parts::{self, fact};

pub(crate) fn blocks(input: &Input<'_>) -> Vec<Block> {
    let words = input.words();
    let mut out = vec![verdict(input)];
    let open = (input.plan.findings.iter()).filter(|f| on_site(&f.finding.place, f.finding.level));
    if let Some(notes) = parts::notes(input, open) {
        out.push(parts::heading(words.say("crew.open")));
        out.push(notes);
    }
    out.extend(drawings(input));
    if let Some(done) = input.plan.install.done() {
        out.extend(lists(input, done));
    }
    out.extend(flares(input));
    out.extend(charge(input));
    out.extend(tests(input));
    if let Some(done) = input.plan.install.done() {
        let items = (done.list.cautions.iter())
            .map(|c| Step {
                says: (*c).to_owned(),
                small: String::new(),
            })
            .collect();
        out.push(parts::heading(words.say("crew.cautions")));
        out.push(Block::Steps { items });
    }
    out.push(parts::heading(words.say("crew.as-built")));
    out.push(Block::Lines { count: 8 });
    out
}

/// What bears on the day: places, lines, drains, wires, tools.
fn on_site(place: &str, level: Level) -> bool {
    const ON_SITE: [&str; 8] = [
        "outdoor", "head", "line", "drain", "panel", "tool", "codes", "circuit",
    ];
    let first = place.split(['.', ',']).next().unwrap_or("");
    level <= Level::Ask && ON_SITE.contains(&first)
}

fn verdict(input: &Input<'_>) -> Block {
    let words = input.words();
    let count = |level: Level| {
        let all = input.plan.findings.iter().map(|f| &f.finding);
        all.filter(|f| f.level == level && on_site(&f.place, f.level))
            .count()
    };
    let (stops, fixes) = (count(Level::Stop), count(Level::Fix));
    let text = if stops + fixes == 0 {
        words.say("crew.verdict")
    } else {
        let (stops, fixes) = (stops.to_string(), fixes.to_string());
        words.fill("crew.verdict-not", &[("stops", &stops), ("fixes", &fixes)])
    };
    Block::Verdict {
        text,
        small: String::new(),
    }
}

fn drawings(input: &Input<'_>) -> Vec<Block> {
    let words = input.words();
    let drawn = [
        (
            "picture.storeys",
            plan::draw::storeys(input.plan, input.job, input.system),
        ),
        (
            "picture.wall",
            plan::draw::wall_alone(input.plan, input.job, input.system),
        ),
    ];
    let mut out: Vec<Block> = (drawn.into_iter())
        .filter_map(|(key, svg)| parts::picture(input, key, svg))
        .collect();
    out.extend(parts::sides(input));
    if !out.is_empty() {
        out.insert(0, parts::heading(words.say("crew.drawings")));
    }
    if let Some(done) = input.plan.install.done() {
        let around = done.place.iter().filter(|j| parts::outside(j));
        let tables = parts::judged(input, around, true);
        if !tables.is_empty() {
            out.push(parts::heading(words.say("inspector.site")));
            out.extend(tables);
        }
    }
    out
}

fn lists(input: &Input<'_>, done: &Installation) -> Vec<Block> {
    let words = input.words();
    let list = &done.list;
    let mut out = Vec::new();
    let head = ["crew.what", "crew.amount", "crew.of"];
    for (key, items) in [("crew.cut", &list.cut), ("crew.lift", &list.lifts)] {
        if items.is_empty() {
            continue;
        }
        let row = |i: &Item| vec![i.what.clone(), i.amount.clone(), i.of.clone()];
        out.push(parts::heading(words.say(key)));
        out.push(parts::table(
            "l3 l2 l1",
            head.iter().map(|k| words.say(k)).collect(),
            items.iter().map(row).collect(),
        ));
    }
    let items = (list.tools.iter())
        .map(|i| Step {
            says: i.what.clone(),
            small: i.amount.clone(),
        })
        .collect();
    out.push(parts::heading(words.say("crew.tools")));
    out.push(Block::Steps { items });
    out
}

/// Tubes within this of a size are of that size, m.
const SAME_TUBE_M: f64 = 0.0004;

fn flares(input: &Input<'_>) -> Vec<Block> {
    let words = input.words();
    // the nut's own sheet; the usual torque of the tube where it has none
    let torque = |unit: &str, outside_m: f64| {
        let all = physics::tube::Tube::ALL;
        let tube = (all.into_iter()).find(|t| (t.outside_m() - outside_m).abs() < SAME_TUBE_M)?;
        let of_sheet = input.catalogue.get(unit)?.start_up.flare_nm(outside_m);
        let (least, most) = of_sheet.or_else(|| usual_torque_nm(tube))?;
        Some(format!("{least:.0} – {most:.0} N m"))
    };
    let mut rows = Vec::new();
    for head in &input.job.equipment.heads {
        let typed = input.job.installation.lines.iter();
        let typed = typed
            .filter(|l| l.head == head.name)
            .find_map(|l| l.liquid_m);
        let of_sheet = |unit: &str| input.catalogue.get(unit).and_then(|s| s.lines.liquid_m);
        let outdoor = (input.job.equipment.outdoors.iter()).find(|o| o.name == head.on);
        let liquid = typed
            .or_else(|| of_sheet(&head.unit))
            .or_else(|| outdoor.and_then(|o| of_sheet(&o.unit)));
        let gas = input.plan.value(&format!("lines.{}.gas", head.name));
        for (key, tube) in [("crew.liquid", liquid), ("crew.gas", gas.map(|g| g.0))] {
            let Some(m) = tube else { continue };
            rows.push(vec![
                format!("{}, {}", head.name, words.say(key)),
                input.show(m, units::Dim::SmallLength),
                torque(&head.unit, m).unwrap_or_default(),
                outdoor.and_then(|o| torque(&o.unit, m)).unwrap_or_default(),
            ]);
        }
    }
    if rows.is_empty() {
        return Vec::new();
    }
    let head = [
        "crew.head",
        "crew.tube",
        "crew.torque-head",
        "crew.torque-outdoor",
    ];
    let head = head.iter().map(|k| words.say(k)).collect();
    vec![
        parts::heading(words.say("crew.joints")),
        parts::table("l2 r1 r1 r1", head, rows),
    ]
}

fn charge(input: &Input<'_>) -> Vec<Block> {
    let words = input.words();
    let mut out = Vec::new();
    for outdoor in &input.job.equipment.outdoors {
        let keys = [
            ("crew.charge-factory", "factory"),
            ("crew.charge-trim", "to-weigh"),
            ("crew.charge-total", "total"),
        ];
        let rows: Vec<_> = (keys.iter())
            .filter_map(|(key, what)| {
                let says = input.figure(&format!("charge.{}.{what}", outdoor.name))?;
                let mut row = fact(words.say(key), says);
                row.band.clone_from(&outdoor.name);
                Some(row)
            })
            .collect();
        if !rows.is_empty() {
            out.push(Block::Facts { rows });
        }
    }
    if !out.is_empty() {
        out.insert(0, parts::heading(words.say("crew.charge")));
        out.push(Block::Soft {
            text: words.say("crew.charge-says"),
        });
    }
    out
}

fn tests(input: &Input<'_>) -> Vec<Block> {
    let words = input.words();
    let lines = input.job.installation.lines.iter();
    // The lowest of the pressures asked for: one gauge serves all lines of a unit.
    let pressure = lines.filter_map(|l| l.test_pa).min_by(f64::total_cmp);
    let pressure = match pressure {
        Some(pa) => {
            let shown = input.show(pa, units::Dim::Pressure);
            words.fill("crew.test-pressure", &[("pressure", &shown)])
        }
        None => words.say("crew.test-pressure-plain"),
    };
    let rest = [
        "crew.test-hold",
        "crew.test-vacuum",
        "crew.test-water",
        "crew.test-circuit",
        "crew.test-run",
        "crew.test-photos",
    ];
    let all = [words.say("crew.test-flare"), pressure]
        .into_iter()
        .chain(rest.iter().map(|k| words.say(k)));
    let items = all
        .map(|says| Step {
            says,
            small: String::new(),
        })
        .collect();
    vec![
        parts::heading(words.say("crew.tests")),
        Block::Steps { items },
    ]
}
