//! The drawings for a phone: nothing lies outside the paper, no words run over each other, and
//! nothing is left out, however long the names and many the heads.

mod support;

use std::fmt::Write as _;

use plan::{Plan, plan};
use support::{catalogue, read, weather};
use units::System;

fn planned(text: &str) -> (jobfile::Job, Plan) {
    let job = jobfile::read(text).expect("reads");
    let plan = plan(&job, &catalogue(), &weather());
    (job, plan)
}

/// Names as long as a job may have them, 60 signs; one of a single word.
const HEADS: [(&str, &str); 6] = [
    (
        "living",
        "over the picture window of the living room by the stove-side",
    ),
    (
        "kitchen",
        "KITCHEN-ABOVE-THE-TALL-CABINET-WITHOUT-A-SINGLE-GAP-IN-NAME",
    ),
    ("landing", "cassette"),
    (
        "bed 1",
        "the head in the larger of the three bedrooms to the north",
    ),
    ("bed 2", "bedroom two"),
    (
        "bed 3",
        "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww",
    ),
];
const SECOND: &str = "the second outdoor unit under the valley of the north roofs";

/// The demo house with six heads on two units, lines of many short pieces, some not measured.
fn six_heads() -> String {
    let text = read("jobs/lake-street/job.toml");
    let cut = |text: &str, from: &str, to: &str, new: &str| {
        let a = text.find(from).expect("begins");
        let b = a + text[a..].find(to).expect("ends");
        format!("{}{new}{}", &text[..a], &text[b..])
    };
    let mut units = format!(
        "[[outdoor]]\nname = \"east wall\"\nunit = \"Grebe 42\"\n\n\
         [[outdoor]]\nname = \"{SECOND}\"\nunit = \"Loon 9\"\n\n"
    );
    let mut runs = String::new();
    for (i, (room, name)) in HEADS.iter().enumerate() {
        let (on, unit) = if i == 2 {
            (SECOND, "Swift 9")
        } else {
            ("east wall", "Teal 9")
        };
        let _ = writeln!(
            units,
            "[[head]]\nname = \"{name}\"\nroom = \"{room}\"\nunit = \"{unit}\"\non = \"{on}\"\n"
        );
        let _ = writeln!(runs, "[[line]]\nhead = \"{name}\"\npieces = [");
        for k in 0..9 {
            let length = if k == 4 { 30 } else { 1 };
            let rise = if k == 6 { "" } else { ", rise = \"1 ft\"" };
            let _ = writeln!(
                runs,
                "  {{ name = \"piece {k} along the long wall behind everything that stands there\", length = \"{length} ft\"{rise}, bends = 1 }},"
            );
        }
        let _ = writeln!(
            runs,
            "]\n\n[[drain]]\nhead = \"{name}\"\npieces = [{{ name = \"down\", length = \"6 ft\", fall = \"6 ft\", freezes = true }}]\nends = \"gravel\"\n"
        );
    }
    let text = cut(&text, "[[outdoor]]", "# The same two heads", &units);
    let text = cut(&text, "[[head_place]]", "[[listener]]", "");
    let text = cut(&text, "[[line]]", "[[circuit]]", &runs);
    let place = format!(
        "[[outdoor_place]]\noutdoor = \"{SECOND}\"\non = \"stand\"\nwall = \"north\"\nalong = \"9 ft\"\nroof_drip = \"valley\"\nfront = \"1 ft\"\n\n[[listener]]"
    );
    text.replacen("[[listener]]", &place, 1)
}

/// Left, top, right, bottom.
type Box4 = [f64; 4];

fn attribute<'s>(tag: &'s str, name: &str) -> Option<&'s str> {
    let from = tag.find(&format!(" {name}=\""))? + name.len() + 3;
    tag[from..].split('"').next()
}

fn number(tag: &str, name: &str) -> f64 {
    attribute(tag, name)
        .and_then(|v| v.parse().ok())
        .unwrap_or(f64::NAN)
}

/// Every end of a path, lines only.
fn ends(d: &str) -> Vec<(f64, f64)> {
    let (mut at, mut all) = ((0.0, 0.0), Vec::new());
    let mut rest = d;
    while let Some(c) = rest.chars().next() {
        rest = &rest[1..];
        let stop = rest.find(|c: char| c.is_ascii_alphabetic());
        let (args, after) = rest.split_at(stop.unwrap_or(rest.len()));
        rest = after;
        let v: Vec<f64> = args.split(' ').filter_map(|n| n.parse().ok()).collect();
        match (c, v.as_slice()) {
            ('M' | 'L', [x, y]) => at = (*x, *y),
            ('H', [x]) => at.0 = *x,
            ('V', [y]) => at.1 = *y,
            ('h', [x]) => at.0 += x,
            ('v', [y]) => at.1 += y,
            ('Z' | 'z', []) => {}
            other => panic!("{other:?} in {d}"),
        }
        all.push(at);
    }
    all
}

/// Words with the room they take. The share of its size that a letter takes is that of a broad
/// face, from memory, so that what fits here fits with any.
fn words(svg: &str) -> Vec<(String, Box4)> {
    svg.lines()
        .filter_map(|l| l.strip_prefix("<text"))
        .map(|tag| {
            let says = tag.split('>').nth(1).and_then(|t| t.split('<').next());
            let says = says.unwrap_or_default().to_owned();
            let class = attribute(tag, "class").unwrap_or_default();
            let size = if class.contains("small") { 13.0 } else { 14.0 };
            let em = |c: char| match c {
                'i' | 'j' | 'l' | ' ' | '.' | ',' | ':' | ';' => 0.32,
                'w' | 'W' | 'm' | 'M' => 0.9,
                c if c.is_uppercase() => 0.68,
                _ => 0.58,
            };
            let wide = says.chars().map(em).sum::<f64>() * size;
            let (x, y) = (number(tag, "x"), number(tag, "y"));
            let left = match attribute(tag, "text-anchor") {
                Some("end") => x - wide,
                Some("middle") => x - wide / 2.0,
                _ => x,
            };
            (says, [left, y - 0.75 * size, left + wide, y + 0.2 * size])
        })
        .collect()
}

fn holds_together(svg: &str, what: &str) {
    let paper: Vec<f64> = attribute(svg.lines().next().expect("a line"), "viewBox")
        .expect("a paper")
        .split(' ')
        .filter_map(|n| n.parse().ok())
        .collect();
    let [_, _, wide, tall] = paper.as_slice() else {
        panic!("{paper:?}")
    };
    assert_eq!(*wide, 360.0, "{what}");
    let inside = |x: f64, y: f64| (0.0..=*wide).contains(&x) && (0.0..=*tall).contains(&y);
    for line in svg.lines() {
        if line.starts_with("<rect") {
            let [x, y, w, h] = ["x", "y", "width", "height"].map(|k| number(line, k));
            assert!(inside(x, y) && inside(x + w, y + h), "{what}: {line}");
            assert!(w >= 0.0 && h >= 0.0, "{what}: {line}");
        }
        if line.starts_with("<path") {
            let d = attribute(line, "d").expect("a way");
            let out = ends(d).into_iter().find(|(x, y)| !inside(*x, *y));
            assert_eq!(out, None, "{what}: {line}");
        }
    }
    let all = words(svg);
    for (i, (says, a)) in all.iter().enumerate() {
        assert!(inside(a[0], a[1]) && inside(a[2], a[3]), "{what}: {says}");
        for (other, b) in &all[..i] {
            let apart = a[2] <= b[0] || b[2] <= a[0] || a[3] <= b[1] || b[3] <= a[1];
            assert!(apart, "{what}: {says} runs over {other}");
        }
    }
}

fn bare(text: &str) -> String {
    text.split_whitespace().collect()
}

/// What the homeowner sees.
fn house_and_year(job: &jobfile::Job, plan: &Plan, system: System) {
    let year = plan.year().expect("a year");
    let capacity = plan::draw::capacity_column(plan, year, system).expect("a need");
    let field = plan::draw::year_column(plan, Some(year), system).expect("hours");
    let ideal = plan::draw::year_column(plan, None, system).expect("hours");
    let storeys = plan::draw::storeys_column(plan, job, system).expect("rooms");
    for (svg, what) in [
        (&capacity, "capacity"),
        (&field, "year"),
        (&ideal, "ideal year"),
        (&storeys, "storeys"),
    ] {
        holds_together(svg, what);
    }
    for room in job.house.rooms.iter().filter(|r| r.heated.is_some()) {
        assert!(
            storeys.contains(&format!(">{}<", room.name)),
            "{}",
            room.name
        );
    }
    let hours: u32 = words(&field)
        .iter()
        .filter_map(|(says, _)| {
            says.strip_suffix(" h")?
                .rsplit(' ')
                .next()?
                .parse::<u32>()
                .ok()
        })
        .sum();
    assert_eq!(hours, 8760, "each hour has its colour");
    for unit in year
        .units
        .iter()
        .filter(|u| u.cycles_above.at_c().is_some())
    {
        let said: String = words(&capacity).iter().map(|w| bare(&w.0)).collect();
        let wanted = bare(&format!("{}: cycles above", unit.name));
        assert!(said.contains(&wanted), "{}", unit.name);
    }
}

/// What the people on site see, with what the homeowner does; the drawings of the lines and of the
/// places outdoors.
fn all_stay_on_the_paper(job: &jobfile::Job, plan: &Plan, system: System) -> [String; 2] {
    let side = plan::draw::side_column(plan, job, system).expect("lines");
    let wall = plan::draw::wall_column(plan, job, system).expect("units");
    holds_together(&side, "side");
    holds_together(&wall, "wall");
    house_and_year(job, plan, system);
    [side, wall]
}

#[test]
fn six_heads_with_long_names_stay_on_the_paper_in_full() {
    let (job, plan) = planned(&six_heads());
    assert_eq!(job.equipment.heads.len(), 6);
    for system in [System::Us, System::Si] {
        let [side, wall] = all_stay_on_the_paper(&job, &plan, system);
        let said = |svg: &str| -> String { words(svg).iter().map(|w| bare(&w.0)).collect() };
        let (side, wall) = (said(&side), said(&wall));
        for (_, name) in HEADS {
            assert!(side.contains(&bare(name)), "{name}");
        }
        assert_eq!(side.matches("piece4alongthelongwallbehind").count(), 6);
        assert_eq!(side.matches("notmeasured").count(), 6 + 6 + 1, "{side}");
        let done = plan.install.done().expect("judged");
        let of_units = |j: &&install::Judged| {
            j.place.starts_with("outdoor.") || j.place.starts_with("listener")
        };
        let mut rows = 0;
        for j in done.place.iter().filter(of_units) {
            for cell in [&j.what, &j.found, &j.required] {
                let cell = cell.replace('&', "&amp;").replace('"', "&quot;");
                assert!(wall.contains(&bare(&cell)), "{cell}");
            }
            rows += 1;
        }
        assert!(rows > 20, "only {rows} rules");
        assert!(wall.contains("basenotmeasured") && wall.contains("valleyoverit"));
    }
}

#[test]
fn the_demo_stays_on_the_paper() {
    let (job, plan) = planned(&read("jobs/lake-street/job.toml"));
    for system in [System::Us, System::Si] {
        all_stay_on_the_paper(&job, &plan, system);
    }
}
