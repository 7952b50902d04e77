//! Heads, outdoor units, heaters and the way to the heads, as a firm might propose them.

use std::fmt::Write as _;

use super::dice::Dice;
use super::shape::{Room, Shape};

/// Single units with heads their sheets were tested with.
const PAIRS: [(&str, &[&str]); 9] = [
    ("Loon 6", &["Teal 6", "Bittern 9", "Swift 9", "Dunlin 9"]),
    ("Loon 9", &["Teal 9", "Bittern 9", "Swift 9", "Dunlin 9"]),
    (
        "Loon 12",
        &["Teal 12", "Bittern 12", "Swift 12", "Dunlin 12"],
    ),
    ("Loon 15", &["Teal 15", "Bittern 15"]),
    ("Loon 18", &["Teal 18"]),
    ("Wren 9", &["Teal 9", "Swift 9"]),
    ("Wren 12", &["Teal 12", "Swift 12"]),
    ("Wren 18", &["Teal 18"]),
    ("Heron 12", &["Sora 12"]),
];

const SEVERAL: [(&str, usize); 3] = [("Grebe 20", 2), ("Grebe 30", 4), ("Grebe 42", 5)];
const HEADS: [&str; 9] = [
    "Teal 6",
    "Teal 9",
    "Teal 12",
    "Teal 15",
    "Bittern 9",
    "Bittern 12",
    "Swift 9",
    "Swift 12",
    "Dunlin 9",
];

pub fn write(t: &mut String, dice: &mut Dice, shape: &Shape, _windows: usize) {
    heaters(t, dice);
    let mut warm: Vec<&Room> = shape.rooms.iter().filter(|r| r.heated).collect();
    // The rooms in an order of their own; the first get the heads.
    for i in (1..warm.len()).rev() {
        warm.swap(i, dice.below(i + 1));
    }
    let mut heads = Vec::new();
    if dice.chance(0.5) {
        for at in 0..dice.whole(1, 3).min(warm.len()) {
            let (unit, fits) = PAIRS[dice.below(PAIRS.len())];
            let _ = writeln!(t, "[[outdoor]]\nname = \"unit {at}\"\nunit = \"{unit}\"");
            let _ = writeln!(
                t,
                "[[head]]\nroom = \"{}\"\nunit = \"{}\"\non = \"unit {at}\"",
                warm[at].name,
                dice.one(fits)
            );
            heads.push((warm[at], at));
        }
    } else {
        let (unit, most) = SEVERAL[dice.below(SEVERAL.len())];
        let _ = writeln!(t, "[[outdoor]]\nname = \"unit 0\"\nunit = \"{unit}\"");
        for room in warm.iter().take(dice.whole(2, most)) {
            let _ = writeln!(
                t,
                "[[head]]\nroom = \"{}\"\nunit = \"{}\"\non = \"unit 0\"",
                room.name,
                dice.one(&HEADS)
            );
            heads.push((*room, 0));
        }
    }
    let units = heads.iter().map(|h| h.1).max().map_or(0, |m| m + 1);
    for at in 0..units {
        outdoors(t, dice, at);
    }
    for (room, _) in &heads {
        way(t, dice, room);
    }
    let _ = writeln!(
        t,
        "[prices]\nas_of = \"2026-11-01\"\nelectricity = \"{:.2} /kWh\"\noil = \"3.90 /gal\"",
        dice.between(0.08, 0.45)
    );
    if dice.chance(0.5) {
        let _ = writeln!(
            t,
            "[panel]\nrating = \"{} A\"\nvolts = \"240 V\"\nfree_spaces = {}\nsmall_circuits = 3\nappliances = [{{ name = \"range\", power = \"{:.0} W\" }}]",
            dice.one(&["60", "100", "200"]),
            dice.below(8),
            dice.between(3000.0, 12000.0)
        );
    }
}

fn heaters(t: &mut String, dice: &mut Dice) {
    match dice.below(4) {
        0 => {
            let _ = writeln!(
                t,
                "[existing]\nkind = \"{}\"\nfuel = \"oil\"\nefficiency = \"{:.0} %\"\ncapacity = \"{:.0} kBtu/h\"\nstays = {}",
                dice.one(&["boiler", "furnace"]),
                dice.between(65.0, 92.0),
                dice.between(40.0, 150.0),
                dice.chance(0.6)
            );
        }
        1 => {
            let _ = writeln!(
                t,
                "[existing]\nkind = \"baseboard\"\nfuel = \"electricity\"\nstays = {}",
                dice.chance(0.7)
            );
        }
        2 => {
            let _ = writeln!(
                t,
                "[[backup]]\nname = \"panels\"\nkind = \"baseboard\"\nfuel = \"electricity\"\ncapacity = \"{:.1} kW\"",
                dice.between(1.0, 20.0)
            );
        }
        _ => {}
    }
}

fn outdoors(t: &mut String, dice: &mut Dice, at: usize) {
    if dice.chance(0.8) {
        let _ = writeln!(
            t,
            "[[outdoor_place]]\noutdoor = \"unit {at}\"\non = \"{}\"\nwall = \"{}\"\nalong = \"{:.1} ft\"\nbase = \"{:.0} in\"\nrear = \"{:.0} in\"\nside = \"{:.0} in\"\nservice_side = \"30 in\"\nfront = \"{:.0} ft\"\nlot_line = \"{:.0} ft\"",
            dice.one(&["stand", "bracket", "pad"]),
            dice.one(&["north", "east", "south", "west"]),
            dice.between(1.0, 14.0),
            dice.between(0.0, 60.0),
            dice.between(2.0, 24.0),
            dice.between(2.0, 40.0),
            dice.between(1.0, 40.0),
            dice.between(3.0, 60.0)
        );
    }
    if dice.chance(0.6) {
        let _ = writeln!(
            t,
            "[[circuit]]\noutdoor = \"unit {at}\"\nwire = {}\nbreaker = \"{} A\"\nlength = \"{:.0} ft\"\nterminals = \"75 C\"\ninsulation = \"90 C\"\nambient = \"{:.0} F\"\nvolts = \"240 V\"",
            dice.whole(3, 7) * 2,
            dice.one(&["15", "20", "25", "30", "40"]),
            dice.between(5.0, 180.0),
            dice.between(80.0, 130.0)
        );
    }
    if dice.chance(0.4) {
        let _ = writeln!(
            t,
            "[[listener]]\nname = \"neighbour {at}\"\nnight = \"45 dB(A)\"\nhears = [{{ outdoor = \"unit {at}\", distance = \"{:.0} ft\" }}]",
            dice.between(3.0, 120.0)
        );
    }
}

/// Line and drain of a head.
fn way(t: &mut String, dice: &mut Dice, room: &Room) {
    let name = &room.name;
    if dice.chance(0.8) {
        let n = dice.whole(1, 4);
        let pieces: Vec<String> = (0..n)
            .map(|i| {
                let length = dice.between(1.0, 30.0);
                let rise = if dice.chance(0.8) {
                    format!(", rise = \"{:.1} ft\"", length * dice.between(-1.0, 1.0))
                } else {
                    String::new()
                };
                format!(
                    "{{ name = \"piece {i}\", length = \"{length:.1} ft\"{rise}, bends = {} }}",
                    dice.below(4)
                )
            })
            .collect();
        let _ = writeln!(
            t,
            "[[line]]\nhead = \"{name}\"\npieces = [{}]\ninsulation = \"0.5 in\"\napart = true",
            pieces.join(", ")
        );
    }
    if dice.chance(0.7) {
        let _ = writeln!(
            t,
            "[[drain]]\nhead = \"{name}\"\npieces = [{{ name = \"down\", length = \"{:.1} ft\", fall = \"{:.1} in\", freezes = {} }}]\nends = \"gravel\"",
            dice.between(3.0, 40.0),
            dice.between(-3.0, 20.0),
            dice.chance(0.5)
        );
    }
    if dice.chance(0.5) {
        let (x, y) = room
            .outline
            .iter()
            .fold((0.0, 0.0), |s, c| (s.0 + c[0] / 4.0, s.1 + c[1] / 4.0));
        let _ = writeln!(
            t,
            "[[head_place]]\nhead = \"{name}\"\nat = \"{x:.2} ft, {y:.2} ft\"\nblows = \"{:.0} deg\"\nheight = \"{:.1} ft\"",
            dice.between(0.0, 350.0),
            dice.between(1.0, 7.5)
        );
    }
}
