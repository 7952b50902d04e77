//! A drawn house as the text of a job file, so that the reader is tried too.

use std::fmt::Write as _;

use super::dice::Dice;
use super::equipment;
use super::shape::{self, Shape};

pub const STATIONS: [&str; 6] = [
    "port-angeles-727885",
    "greensboro-723170",
    "denver-725650",
    "aurora-buckley-724695",
    "chicago-725300",
    "northway-702910",
];

/// What may be changed about a house that otherwise stays the same to the letter.
#[derive(Clone, Copy, PartialEq)]
pub enum Change {
    None,
    /// Its wall insulation out.
    BareWalls,
    /// Its attic insulation out.
    BareCeiling,
    /// Its windows of one pane.
    SinglePanes,
    /// A design night 5 K colder.
    ColderNight,
    /// The whole house turned on its lot, by a third of a right angle.
    Turned,
    /// Twice the leakage.
    Leakier,
}

pub const CHANGES: [Change; 6] = [
    Change::BareWalls,
    Change::BareCeiling,
    Change::SinglePanes,
    Change::ColderNight,
    Change::Turned,
    Change::Leakier,
];

pub struct House {
    pub text: String,
    pub station: &'static str,
    pub form: &'static str,
}

/// The house of a seed.
pub fn house(seed: u64, change: Change) -> House {
    let mut dice = Dice::new(seed);
    let station = STATIONS[dice.below(STATIONS.len())];
    let shape = Shape::drawn(&mut dice);
    let mut text = head(&mut dice, station, change, seed);
    rooms(&mut text, &mut dice, &shape);
    let windows = openings(&mut text, &mut dice, &shape, change);
    build_ups(&mut text, &mut dice, &shape, change);
    equipment::write(&mut text, &mut dice, &shape, windows);
    House {
        text,
        station,
        form: shape.form,
    }
}

fn head(dice: &mut Dice, station: &str, change: Change, seed: u64) -> String {
    let (turned, cold) = (dice.between(-180.0, 170.0), dice.between(-1.0, 1.0));
    let base = match station {
        "northway-702910" => -45.0,
        "chicago-725300" => -20.0,
        "denver-725650" | "aurora-buckley-724695" => -18.0,
        "greensboro-723170" => -8.0,
        _ => -3.0,
    };
    let mut t = format!(
        "northwall = 1\n[job]\nname = \"House {seed}\"\n[place]\nweather = \"{station}\"\n"
    );
    let _ = writeln!(
        t,
        "shelter = \"{}\"",
        dice.one(&["open", "country", "suburban", "town"])
    );
    let _ = writeln!(
        t,
        "plan_north = \"{:.1} deg\"",
        turned + if change == Change::Turned { 30.0 } else { 0.0 }
    );
    // Where the night is typed, it is typed; the weather file's own is tried in the other half.
    if dice.chance(0.5) || change == Change::ColderNight {
        let c = base + cold
            - if change == Change::ColderNight {
                5.0
            } else {
                0.0
            };
        let _ = writeln!(
            t,
            "heating_design = \"{c:.1} C\"\nheating_design_source = \"town office\""
        );
    }
    if dice.chance(0.6) {
        let _ = writeln!(t, "snow_depth = \"{:.0} in\"", dice.between(0.0, 48.0));
    }
    t
}

fn rooms(t: &mut String, dice: &mut Dice, shape: &Shape) {
    for s in &shape.storeys {
        let _ = writeln!(
            t,
            "[[storey]]\nname = \"{}\"\nfloor = \"{:.3} ft\"\nceiling = \"{:.3} ft\"\nover = \"{}\"",
            s.name, s.floor_ft, s.ceiling_ft, s.over
        );
        if let Some(under) = s.under {
            let _ = writeln!(t, "under = \"{under}\"");
        }
        if s.over == "sloped roof" {
            let _ = writeln!(t, "pitch = \"{:.0} deg\"", s.pitch_deg);
        }
    }
    for r in &shape.rooms {
        let corners: Vec<String> = r
            .outline
            .iter()
            .map(|c| format!("\"{:.3} ft, {:.3} ft\"", c[0], c[1]))
            .collect();
        let _ = writeln!(
            t,
            "[[room]]\nname = \"{}\"\nstorey = \"{}\"\noutline = [{}]\nused_for = \"{}\"",
            r.name,
            r.storey,
            corners.join(", "),
            r.used_for
        );
        let (warm, cool, people) = (
            dice.between(64.0, 72.0),
            dice.between(74.0, 80.0),
            dice.below(3),
        );
        if r.heated && dice.chance(0.93) {
            let _ = writeln!(t, "heated_to = \"{warm:.0} F\"");
        }
        if r.heated && dice.chance(0.4) {
            let _ = writeln!(t, "cooled_to = \"{cool:.0} F\"");
        }
        if r.used_for == "living" || r.used_for == "sleeping" {
            let _ = writeln!(t, "people = {people}");
        }
        if dice.chance(0.4) {
            let _ = writeln!(
                t,
                "gains = [{{ heat = \"{:.0} W\", radiant = 0.4 }}]",
                dice.between(20.0, 200.0)
            );
        }
    }
    for a in 0..shape.rooms.len() {
        for b in a + 1..shape.rooms.len() {
            let stair = shape.rooms[a].storey != shape.rooms[b].storey
                && shape.rooms[a].used_for == "passage"
                && shape.rooms[b].used_for == "passage"
                && shape::over(&shape.rooms[a], &shape.rooms[b]);
            if (stair || shape.share_a_wall(a, b)) && dice.chance(0.7) {
                let _ = writeln!(
                    t,
                    "[[door]]\nrooms = [\"{}\", \"{}\"]\nwidth = \"{:.0} in\"\nheight = \"74 in\"\nusually = \"{}\"\nundercut = \"{:.2} in\"",
                    shape.rooms[a].name,
                    shape.rooms[b].name,
                    dice.between(24.0, 44.0),
                    dice.one(&["open", "ajar", "closed"]),
                    dice.between(0.0, 1.0)
                );
            }
        }
    }
}

/// Windows and outer doors; gives the number of windows written.
fn openings(t: &mut String, dice: &mut Dice, shape: &Shape, change: Change) -> usize {
    let usual = dice.one(&[
        "single with storm",
        "double clear",
        "double low-e argon",
        "triple low-e argon",
        "double clear aluminum",
    ]);
    let mut written = 0;
    for (i, r) in shape.rooms.iter().enumerate() {
        let sunk = shape
            .storeys
            .iter()
            .any(|s| s.name == r.storey && s.floor_ft < -2.0);
        let party = |w: usize| {
            let (a, b) = (r.outline[w], r.outline[(w + 1) % r.outline.len()]);
            shape.form == "rowhouse" && a[0] == b[0] && shape.party[usize::from(b[1] < a[1])]
        };
        for w in 0..r.outline.len() {
            let Some(long) = shape.outside(i, w) else {
                continue;
            };
            if party(w) {
                let _ = writeln!(
                    t,
                    "[[wall]]\nroom = \"{}\"\nwall = {}\nadiabatic = true",
                    r.name,
                    w + 1
                );
            } else if long > 6.0 && !sunk && dice.chance(0.7) {
                let wide = dice.between(1.5, (long * 0.4).min(6.0));
                let glazing = dice.one(&[usual, usual, usual, "single"]);
                let glazing = if change == Change::SinglePanes {
                    "single"
                } else {
                    glazing
                };
                let _ = writeln!(
                    t,
                    "[[window]]\nname = \"w{i}-{w}\"\nroom = \"{}\"\nwall = {}\nwidth = \"{wide:.2} ft\"\nheight = \"{:.2} ft\"\nsill = \"30 in\"\nglazing = \"{glazing}\"",
                    r.name,
                    w + 1,
                    dice.between(1.5, 3.5)
                );
                if dice.chance(0.3) {
                    let _ = writeln!(
                        t,
                        "shade = {{ overhang = \"{:.1} ft\", gap = \"0.5 ft\" }}",
                        dice.between(0.5, 4.0)
                    );
                }
                written += 1;
                if long - wide > 5.0 && r.storey == "ground" && dice.chance(0.2) {
                    let _ = writeln!(
                        t,
                        "[[outer_door]]\nroom = \"{}\"\nwall = {}\nu = \"{:.2} Btu/(h ft2 F)\"",
                        r.name,
                        w + 1,
                        dice.between(0.15, 0.6)
                    );
                }
            }
        }
    }
    written
}

fn build_ups(t: &mut String, dice: &mut Dice, shape: &Shape, change: Change) {
    let wall = dice.one(&[
        "2x4 wall with batt",
        "2x4 wall with cellulose",
        "2x6 wall with batt",
        "2x6 wall with batt and foam",
        "double stud wall with cellulose",
        "log wall",
        "solid brick wall",
    ]);
    let ceiling = dice.one(&[
        "attic floor with 6 in batt",
        "attic floor R 38",
        "attic floor R 60",
    ]);
    let wall = if change == Change::BareWalls {
        "2x4 empty wall"
    } else {
        wall
    };
    let ceiling = if change == Change::BareCeiling {
        "bare attic floor"
    } else {
        ceiling
    };
    let _ = writeln!(
        t,
        "[construction.wall]\nlike = \"{wall}\"\n[construction.ceiling]\nlike = \"{ceiling}\""
    );
    let _ = writeln!(
        t,
        "[construction.slab]\nlike = \"{}\"",
        dice.one(&["slab bare", "slab with foam"])
    );
    let _ = writeln!(
        t,
        "[construction.\"basement wall\"]\nlike = \"{}\"",
        dice.one(&[
            "basement wall block",
            "basement wall stone",
            "basement wall with foam"
        ])
    );
    if dice.chance(0.5) {
        let _ = writeln!(
            t,
            "[construction.roof]\nlike = \"{}\"",
            dice.one(&[
                "sloped roof with batt",
                "flat roof with board",
                "flat roof with batt"
            ])
        );
    }
    let floor_ft2: f64 = shape.rooms.iter().map(|r| area(&r.outline)).sum();
    let cfm =
        floor_ft2 * dice.between(0.3, 1.8) * if change == Change::Leakier { 2.0 } else { 1.0 };
    let _ = writeln!(
        t,
        "[leakage]\nblower_door = \"{cfm:.0} cfm at 50 Pa\"\n[soil]\nkind = \"{}\"",
        dice.one(&["clay", "sand", "rock"])
    );
}

fn area(outline: &[[f64; 2]]) -> f64 {
    let twice: f64 = outline
        .iter()
        .enumerate()
        .map(|(i, a)| {
            let b = outline[(i + 1) % outline.len()];
            a[0] * b[1] - b[0] * a[1]
        })
        .sum();
    twice / 2.0
}
