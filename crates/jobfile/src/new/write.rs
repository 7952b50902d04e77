//! Writes the first job.

use std::fmt::Write as _;

use toml_edit::Value;
use units::constants::{CFM_M3_PER_S, FOOT_M};

use super::layout::{Laid, by_storey, half_foot, storey};
use super::{Answers, Below};
use crate::{Carrier, HeaterKind, VERSION};

/// Ceiling height, ft.
const CEILING_FT: f64 = 8.0;
/// Window area per floor area: common practice, no source.
const GLASS_SHARE: f64 = 0.12;
/// Window height, and the width above which there are several, ft.
const WINDOW_FT: f64 = 4.0;
const WIDEST_FT: f64 = 6.0;

/// A first job that reads and plans; everything not asked is a usual value marked assumed.
pub fn first_job(answers: &Answers) -> String {
    let storeys = answers.storeys.clamp(1, 3) as usize;
    let (width_ft, depth_ft) = (whole(answers.width_m), whole(answers.depth_m));
    let floors = by_storey(&rooms(answers, storeys), storeys);
    let laid: Vec<Vec<Laid>> = floors
        .iter()
        .enumerate()
        .map(|(i, rooms)| storey(rooms, &passage(i), width_ft, depth_ft))
        .collect();
    let mut out = String::new();
    head(&mut out, answers);
    storey_tables(&mut out, answers, storeys);
    room_tables(&mut out, answers, &laid, width_ft, depth_ft);
    window_tables(&mut out, answers, &laid);
    fabric(&mut out, answers);
    let volume_ft3 = width_ft * depth_ft * CEILING_FT * storeys as f64;
    air(&mut out, answers, volume_ft3);
    rest(&mut out, answers);
    out
}

/// A text as it stands in a TOML file.
fn quoted(text: &str) -> String {
    Value::from(text.trim()).to_string()
}

/// Metres to whole feet, at least 16 and at most 200.
fn whole(m: f64) -> f64 {
    let ft = libm::round(m / FOOT_M);
    if ft.is_finite() {
        ft.clamp(16.0, 200.0)
    } else {
        30.0
    }
}

fn passage(storey: usize) -> String {
    match storey {
        0 => "hall".to_owned(),
        1 => "landing".to_owned(),
        n => format!("landing {n}"),
    }
}

/// The rooms asked for, each name once and fit to be a name; else a usual set.
fn rooms(answers: &Answers, storeys: usize) -> Vec<String> {
    let mut rooms: Vec<String> = Vec::new();
    for name in &answers.rooms {
        let name: String = name.replace('.', " ").trim().chars().take(40).collect();
        let name = name.trim().to_owned();
        let taken = rooms.contains(&name) || (0..3).any(|i| passage(i) == name) || name == "cellar";
        if !taken && crate::check::check_name(&name).is_ok() && !name.is_empty() {
            rooms.push(name);
        }
    }
    if rooms.is_empty() {
        let beds = if storeys == 1 { 2 } else { 2 * storeys - 1 };
        rooms.extend(["living", "kitchen", "bath"].map(str::to_owned));
        rooms.extend((1..=beds).map(|i| format!("bed {i}")));
    }
    rooms
}

fn head(out: &mut String, answers: &Answers) {
    let _ = write!(
        out,
        "# First job, made from a few answers. The plan is a plain box: draw the rooms as they are,\n\
         # and put `seen = \"tape\"` (or borescope, label, ...) wherever somebody has looked.\n\
         # What carries no such word is taken as assumed.\n\
         northwall = {VERSION}\n\n\
         [job]\nname = {}\nstage = \"visit\"\n\n\
         [place]\nweather = {}\nshelter = \"suburban\"\n\
         # snow_depth = \"20 in\"               # the number you would bet the outdoor unit on\n\
         # heating_design = \"-5 F\"            # from the code, with its source:\n\
         # heating_design_source = \"...\"\n\n",
        quoted(or(&answers.name, "New job")),
        quoted(or(&answers.weather, "weather/chicago-725300.epw.gz")),
    );
}

fn or<'t>(text: &'t str, usual: &'t str) -> &'t str {
    if text.trim().is_empty() { usual } else { text }
}

fn storey_tables(out: &mut String, answers: &Answers, storeys: usize) {
    if answers.under == Below::Basement {
        out.push_str("[[storey]]\nname = \"cellar\"\nfloor = \"-6 ft\"\nceiling = \"7 ft\"\n\n");
    }
    let first_ft = if answers.under == Below::Slab {
        0.5
    } else {
        2.0
    };
    for i in 0..storeys {
        let under = match (i, answers.under) {
            (0, Below::Crawl) => "under = \"crawl\"\n",
            _ => "",
        };
        let _ = write!(
            out,
            "[[storey]]\nname = \"storey {}\"\nfloor = \"{} ft\"\nceiling = \"{CEILING_FT} ft\"\n{under}\n",
            i + 1,
            first_ft + i as f64 * (CEILING_FT + 1.0),
        );
    }
}

fn outline([west, south, east, north]: [f64; 4]) -> String {
    let corner = |x: f64, y: f64| format!("\"{x} ft, {y} ft\"");
    format!(
        "[{}, {}, {}, {}]",
        corner(west, south),
        corner(east, south),
        corner(east, north),
        corner(west, north)
    )
}

fn room_tables(
    out: &mut String,
    answers: &Answers,
    laid: &[Vec<Laid>],
    width_ft: f64,
    depth_ft: f64,
) {
    if answers.under == Below::Basement {
        let _ = write!(
            out,
            "[[room]]\nname = \"cellar\"\nstorey = \"cellar\"\noutline = {}\n\
             used_for = \"storage\"               # not heated\n\n",
            outline([0.0, 0.0, width_ft, depth_ft])
        );
    }
    for (i, rooms) in laid.iter().enumerate() {
        for room in rooms {
            let _ = write!(
                out,
                "[[room]]\nname = {}\nstorey = \"storey {}\"\noutline = {}\nheated_to = \"70 F\"\n\
                 used_for = \"{}\"\n",
                quoted(&room.name),
                i + 1,
                outline(room.box_ft),
                used_for(room),
            );
            let shut = if used_for(room) == "sleeping" {
                "closed"
            } else {
                "open"
            };
            if room.window_wall.is_some() {
                let to = quoted(&passage(i));
                let _ = writeln!(out, "door_to = [{{ room = {to}, usually = \"{shut}\" }}]");
            } else if i + 1 < laid.len() {
                let to = quoted(&passage(i + 1));
                let _ = writeln!(
                    out,
                    "door_to = [{{ room = {to}, width = \"3 ft\" }}]   # the stair"
                );
            }
            out.push('\n');
        }
    }
}

fn used_for(room: &Laid) -> &'static str {
    let name = room.name.to_lowercase();
    if room.window_wall.is_none() {
        "passage"
    } else if name.starts_with("bed") {
        "sleeping"
    } else if name.starts_with("kitchen") {
        "kitchen"
    } else if name.starts_with("bath") || name.starts_with("laundry") {
        "bath"
    } else {
        "living"
    }
}

fn window_tables(out: &mut String, answers: &Answers, laid: &[Vec<Laid>]) {
    let glazing = quoted(or(&answers.windows, "double clear"));
    for room in laid.iter().flatten() {
        let Some(wall) = room.window_wall else {
            continue;
        };
        let [west, south, east, north] = room.box_ft;
        let long = east - west;
        let glass = GLASS_SHARE * long * (north - south);
        let wide = (glass / WINDOW_FT).clamp(1.5, (long - 1.0).max(1.5));
        let count = libm::ceil(wide / WIDEST_FT);
        let width = half_foot(wide / count - 0.25).max(1.5);
        let _ = write!(
            out,
            "[[window]]\nroom = {}\nwall = \"{wall}\"\nwidth = \"{width} ft\"\n\
             height = \"{WINDOW_FT} ft\"\nsill = \"30 in\"\ncount = {count}\nglazing = {glazing}\n\n",
            quoted(&room.name),
        );
    }
    out.push_str(
        "[[outer_door]]\nroom = \"hall\"\nwall = \"west\"\nu = \"0.40 Btu/(h ft2 F)\"\n\n",
    );
}

fn fabric(out: &mut String, answers: &Answers) {
    let _ = write!(
        out,
        "# {}. Nobody has looked yet: that is what `assumed` says.\n\
         [construction.wall]\nlike = \"{}\"\nknown = \"assumed\"\n\n\
         [construction.ceiling]\nlike = \"{}\"\nknown = \"assumed\"\n\n",
        capital(answers.built.words()),
        answers.built.wall(),
        answers.built.ceiling(),
    );
}

fn capital(text: &str) -> String {
    let mut signs = text.chars();
    signs.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(signs).collect()
    })
}

/// Air leakage: the test, or a flow from usual air changes at 50 Pa.
fn air(out: &mut String, answers: &Answers, volume_ft3: f64) {
    let test = answers.blower_door.as_deref().unwrap_or("").trim();
    if !test.is_empty() {
        let _ = write!(
            out,
            "[leakage]\nblower_door = {}\nseen = \"blower door\"\n\n",
            quoted(test)
        );
        return;
    }
    let per_h = answers.built.leaks_per_h();
    let volume_m3 = volume_ft3 * FOOT_M * FOOT_M * FOOT_M;
    let cfm = libm::round(per_h * volume_m3 / 3600.0 / CFM_M3_PER_S / 10.0) * 10.0;
    let _ = write!(
        out,
        "# No blower-door test yet: {per_h} air changes an hour at 50 Pa for a house of this \
         kind.\n[leakage]\nblower_door = \"{cfm} cfm at 50 Pa\"\nknown = \"assumed\"\n\n",
    );
}

fn rest(out: &mut String, answers: &Answers) {
    match answers.heat_now {
        None => out.push_str("[existing]\nkind = \"none\"\n\n"),
        Some((kind, carrier)) => {
            let _ = write!(
                out,
                "[existing]\nkind = \"{}\"\nfuel = \"{}\"\n{}stays = true\nknown = \"assumed\"\n\n",
                kind.word(),
                carrier.word(),
                efficiency(kind, carrier),
            );
        }
    }
    out.push_str(
        "# Prices with their day, then equipment by its names in the catalogue:\n\
         # [prices]\n# as_of = \"2026-11-01\"\n# electricity = \"0.22 /kWh\"\n# oil = \"3.90 /gal\"\n#\n\
         # [[outdoor]]\n# name = \"outdoor 1\"\n# unit = \"...\"\n#\n\
         # [[head]]\n# room = \"living\"\n# unit = \"...\"\n# on = \"outdoor 1\"\n",
    );
}

/// Efficiency of a heater nobody tested: common practice, no source.
fn efficiency(kind: HeaterKind, carrier: Carrier) -> &'static str {
    match (kind, carrier) {
        (_, Carrier::Electricity) => "efficiency = \"100 %\"\n",
        (_, Carrier::Wood) => "efficiency = \"65 %\"\n",
        (HeaterKind::Stove, _) => "efficiency = \"75 %\"\n",
        _ => "efficiency = \"80 %\"\n",
    }
}
