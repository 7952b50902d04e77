//! Breaker, wire, voltage lost, disconnect, receptacle.

use jobfile::Circuit;
use physics::electricity::{Column, WIRES, Wire, ambient_factor};
use reckon::{Level, Source};
use units::Dim;

use crate::desk::{Desk, Rule, card, yes_no};

const SMALL: Rule = Rule {
    name: "breaker-small",
    level: Level::Fix,
    what: "breaker against the least ampacity",
    mend: "A licensed electrician fits the next size up, not above the plate's most.",
    tell: "Read the breaker.",
};
const LARGE: Rule = Rule {
    name: "breaker-large",
    level: Level::Stop,
    what: "breaker against the plate's most",
    mend: "A breaker not above MOCP.",
    tell: "Read the breaker.",
};
const WIRE: Rule = Rule {
    name: "wire-ampacity",
    level: Level::Stop,
    what: "what the wire carries at its terminals and in the heat",
    mend: "A thicker wire. Live parts kill: lock out, test, then touch.",
    tell: "Wire gauge, temperature of terminals (60 or 75 C), insulation, hottest place of the run.",
};
const DROP: Rule = Rule {
    name: "voltage-drop",
    level: Level::Fix,
    what: "voltage lost on the way",
    mend: "A thicker wire.",
    tell: "Length of the run and gauge of the wire.",
};
const NEAR: Rule = Rule {
    name: "disconnect-distance",
    level: Level::Stop,
    what: "disconnect to unit",
    mend: "Move the disconnect within sight, not behind the unit.",
    tell: "Measure.",
};
const SIGHT: Rule = Rule {
    name: "disconnect-sight",
    level: Level::Stop,
    what: "disconnect seen from the unit",
    mend: "Move it where it is seen from the unit and reached without climbing over it.",
    tell: "Stand at the unit and look.",
};
const RECEPTACLE: Rule = Rule {
    name: "receptacle",
    level: Level::Fix,
    what: "service receptacle to unit",
    mend: "A receptacle within 25 ft.",
    tell: "Measure.",
};

fn wire_of(gauge: Option<u32>) -> Option<Wire> {
    let at = [14, 12, 10, 8, 6].iter().position(|g| Some(*g) == gauge)?;
    WIRES.get(at).copied()
}

fn column(c: f64) -> Option<Column> {
    [
        (60.0, Column::C60),
        (75.0, Column::C75),
        (90.0, Column::C90),
    ]
    .into_iter()
    .find(|(t, _)| (t - c).abs() < 0.5)
    .map(|(_, column)| column)
}

/// One circuit from panel to unit.
pub(super) fn judge(desk: &mut Desk, c: &Circuit, key: &dyn Fn(&str) -> String, place: &str) {
    let at = |what: &str| format!("circuit.{}.{what}", c.outdoor);
    let nec = |place: &'static str| Source::new("nec", place);
    for (k, what, v, dim) in [
        ("breaker", "breaker", c.breaker_a, Dim::Current),
        ("run", "one way from the panel", c.length_m, Dim::Length),
        (
            "disconnect",
            "disconnect to unit",
            c.disconnect_m,
            Dim::Length,
        ),
        (
            "receptacle",
            "receptacle to unit",
            c.receptacle_m,
            Dim::Length,
        ),
        ("volts", "voltage", c.volts, Dim::Voltage),
    ] {
        if let Some(v) = v {
            desk.measured(key(k), what, v, dim, at(k));
        }
    }
    desk.at_least(
        &SMALL,
        place,
        Some(&key("breaker")),
        Some(&key("mca")),
        nec("440.22, 440.33"),
    );
    desk.at_most(
        &LARGE,
        place,
        Some(&key("breaker")),
        Some(&key("mocp")),
        nec("440.22"),
    );
    let wire = wire_of(c.wire);
    let carries = (|| {
        let (wire, terminals) = (wire?, column(c.terminals_c?)?);
        let insulation = column(c.insulation_c?)?;
        let hot = c.ambient_c?;
        let factor = ambient_factor(hot, insulation).ok()?;
        desk.given(
            key("at-terminals"),
            "what the terminals let the wire carry",
            wire.ampacity_a(terminals),
            Dim::Current,
            nec("table 310.16, column of the terminals; 110.14(C)"),
        );
        desk.given(
            key("at-insulation"),
            "what the insulation lets the wire carry at 86 F (30 C)",
            wire.ampacity_a(insulation),
            Dim::Current,
            nec("table 310.16, column of the insulation"),
        );
        desk.given(
            key("heat-factor"),
            "factor for the heat of the run",
            factor,
            Dim::Ratio,
            nec("table 310.15(B)(1)"),
        );
        desk.reckon(
            key("carries"),
            "what the wire carries",
            Dim::Current,
            "min(t, i * f)",
            &[
                ("t", &key("at-terminals")),
                ("i", &key("at-insulation")),
                ("f", &key("heat-factor")),
            ],
            nec("110.14(C), 310.15"),
        )?;
        Some(key("carries"))
    })();
    desk.at_least(
        &WIRE,
        place,
        carries.as_deref(),
        Some(&key("mca")),
        nec("440.33, table 310.16"),
    );
    let lost = wire.and_then(|w| {
        desk.given(
            key("mils"),
            "cross section, circular mils",
            w.circular_mils(),
            Dim::Ratio,
            nec("chapter 9, table 8"),
        );
        let volts = if c.volts.is_some() {
            key("volts")
        } else {
            key("plate-volts")
        };
        // a circuit is loaded with its ampacity at the most
        desk.reckon(
            key("drop"),
            "voltage lost on the way",
            Dim::Share,
            "2 * 12.9 * I * (L / 0.3048) / CM / V",
            &[
                ("I", &key("mca")),
                ("L", &key("run")),
                ("CM", &key("mils")),
                ("V", &volts),
            ],
            card("F18"),
        )?;
        Some(key("drop"))
    });
    let most = desk.given(
        key("drop-most"),
        "usual most",
        0.03,
        Dim::Share,
        nec("210.19 informational note, 3 %"),
    );
    desk.at_most(
        &DROP,
        place,
        lost.as_deref(),
        Some(&most),
        nec("210.19 informational note"),
    );
    let near = desk.given(
        key("disconnect-most"),
        "most",
        50.0 * 0.3048,
        Dim::Length,
        nec("440.14 with the definition of in sight"),
    );
    desk.at_most(
        &NEAR,
        place,
        Some(&key("disconnect")),
        Some(&near),
        nec("440.14"),
    );
    desk.must(
        &SIGHT,
        place,
        c.disconnect_seen,
        yes_no(c.disconnect_seen),
        "seen",
        nec("440.14"),
    );
    let near = desk.given(
        key("receptacle-most"),
        "most",
        25.0 * 0.3048,
        Dim::Length,
        nec("210.63"),
    );
    desk.at_most(
        &RECEPTACLE,
        place,
        Some(&key("receptacle")),
        Some(&near),
        nec("210.63"),
    );
}
