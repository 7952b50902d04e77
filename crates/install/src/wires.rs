//! Circuit from the plate, and the panel by calculation and by measurement.
//!
//! Long because: circuit and panel, their rules beside them; to be divided by rule.

use jobfile::{Circuit, Panel};
use physics::electricity::{Column, WIRES, Wire, ambient_factor};
use reckon::{Level, Source, Verdict};
use units::Dim;

use crate::Input;
use crate::desk::{Desk, Rule, card, sheet, yes_no};
use crate::rules::{ElectricalEdition, Rules, source};

const FT2_M2: f64 = 0.09290304;

const EDITION: Rule = Rule {
    name: "electrical-edition",
    level: Level::Ask,
    what: "edition of the electrical code",
    mend: "Write electrical in [codes].",
    tell: "Ask the building office; the default is used until then.",
};
const PLATE: Rule = Rule {
    name: "plate-order",
    level: Level::Stop,
    what: "largest breaker of the plate against its least ampacity",
    mend: "The plate is typed wrong: look again.",
    tell: "Read MCA and MOCP from the plate.",
};
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
const FAULT: Rule = Rule {
    name: "ground-fault",
    level: Level::Stop,
    what: "ground-fault protection",
    mend: "As the edition asks; a plain class A device may trip on the unit's own leakage.",
    tell: "Say which protection is planned, the edition, and the day of installation.",
};
const CALCULATED: Rule = Rule {
    name: "panel-calculated",
    level: Level::Stop,
    what: "panel by calculation",
    mend: "Measure a year's demand, manage the load, or a larger service.",
    tell: "Rating, floor area, small circuits, appliances; and an edition whose table is known.",
};
const MEASURED: Rule = Rule {
    name: "panel-measured",
    level: Level::Fix,
    what: "panel by measurement",
    mend: "Manage the load, or a larger service; the calculation stands beside it.",
    tell: "A year of interval data of 15 minutes or less, without solar or storage behind the meter.",
};
const SPACES: Rule = Rule {
    name: "panel-spaces",
    level: Level::Fix,
    what: "free breaker spaces",
    mend: "Two spaces for each unit; tandem breakers only where the panel allows them.",
    tell: "Photograph the open panel.",
};

/// Judges circuits and panel.
pub(crate) fn judge(input: &Input<'_>, rules: &Rules, desk: &mut Desk) {
    if input.job.equipment.outdoors.is_empty() {
        return;
    }
    let codes = &input.job.installation.codes;
    let name = codes
        .electrical
        .as_deref()
        .unwrap_or(&rules.electrical.default);
    let edition = rules.electrical.edition.get(name);
    if codes.electrical.is_none() {
        desk.must(
            &EDITION,
            "codes",
            None,
            &format!("default: {name}"),
            "the edition in force",
            card("finding 4"),
        );
    } else if edition.is_none() {
        desk.must(
            &EDITION,
            "codes",
            None,
            name,
            "an edition of data/rules/electrical.toml",
            card("finding 4"),
        );
    }
    let none = Circuit::default();
    let mut ampacities = Vec::new();
    for (outdoor, unit) in input.outdoors() {
        let all = &input.job.installation.circuits;
        let circuit = all
            .iter()
            .find(|c| c.outdoor == outdoor.name)
            .unwrap_or(&none);
        let place = format!("outdoor.{}", outdoor.name);
        let key = |what: &str| format!("wires.{}.{what}", outdoor.name);
        if let Some(unit) = unit {
            let of = sheet(&unit.name, unit.plate.page.as_ref());
            for (k, what, v, dim) in [
                (
                    "mca",
                    "least ampacity of the circuit",
                    unit.plate.mca_a,
                    Dim::Current,
                ),
                ("mocp", "largest breaker", unit.plate.mocp_a, Dim::Current),
                (
                    "plate-volts",
                    "voltage of the plate",
                    unit.plate.volts_v,
                    Dim::Voltage,
                ),
            ] {
                if let Some(v) = v {
                    desk.given(key(k), what, v, dim, of.clone());
                }
            }
            desk.at_least(&PLATE, &place, Some(&key("mocp")), Some(&key("mca")), of);
        }
        ampacities.push(key("mca"));
        of_circuit(desk, circuit, &key, &place);
        ground_fault(input, desk, circuit, name, edition, &place);
    }
    panel(input, desk, name, edition, &ampacities);
}

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

fn of_circuit(desk: &mut Desk, c: &Circuit, key: &dyn Fn(&str) -> String, place: &str) {
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
            "what the insulation lets the wire carry at 30 C",
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

fn ground_fault(
    input: &Input<'_>,
    desk: &mut Desk,
    c: &Circuit,
    name: &str,
    edition: Option<&ElectricalEdition>,
    place: &str,
) {
    let Some(e) = edition else {
        desk.must(
            &FAULT,
            place,
            None,
            "edition not known here",
            "as the edition asks",
            card("F18"),
        );
        return;
    };
    let of = source(&e.source, &e.place);
    let day = input.job.installation.codes.install_day.as_deref();
    let has = c.ground_fault.as_deref();
    let exempt = match (&e.exempt_until, day) {
        (Some(until), Some(day)) => Some(day < until.as_str()),
        (Some(_), None) => None,
        (None, _) => Some(false),
    };
    let fits = match (name, has) {
        // the plain device trips on leakage the equipment standard allows
        ("2026", Some("class a high frequency" | "class c")) => Some(true),
        ("2026", Some("class a")) | (_, None) => None,
        (_, Some("none")) => Some(false),
        (_, Some(_)) => Some(name != "2026"),
    };
    let good = match (e.ground_fault_needed, exempt, fits) {
        (true, _, Some(true)) | (true, Some(true), _) => Some(true),
        (true, Some(false), fits) => fits,
        (false, ..) | (true, None, _) => None,
    };
    let found = format!(
        "{}, installed {}",
        has.unwrap_or("not said"),
        day.unwrap_or("on a day not named")
    );
    desk.must(
        &FAULT,
        place,
        good,
        &found,
        &format!("{name}: {}", e.ground_fault),
        of,
    );
}

fn panel(
    input: &Input<'_>,
    desk: &mut Desk,
    name: &str,
    edition: Option<&ElectricalEdition>,
    units: &[String],
) {
    let none = Panel::default();
    let p = input.job.installation.panel.as_ref().unwrap_or(&none);
    let k = |what: &str| format!("panel.{what}");
    let place = "panel";
    for (key, v, dim) in [
        ("rating", p.rating_a, Dim::Current),
        ("volts", p.volts, Dim::Voltage),
        ("peak", p.peak_w, Dim::ElectricPower),
        ("free", p.free_spaces.map(f64::from), Dim::Count),
    ] {
        if let Some(v) = v {
            desk.measured(k(key), key, v, dim, format!("panel.{key}"));
        }
    }
    let known = units.iter().all(|u| desk.book.get(u).is_some());
    if known {
        desk.add_up(
            &k("new"),
            "new load, ampacity of the plates",
            Dim::Current,
            units,
            card("F19"),
        );
    }
    calculated(input, desk, p, name, edition);
    measured(desk, p);
    let need = desk.given(
        k("spaces"),
        "two poles for each unit",
        2.0 * units.len() as f64,
        Dim::Count,
        card("F18"),
    );
    desk.at_least(&SPACES, place, Some(&k("free")), Some(&need), card("F18"));
}

fn calculated(
    input: &Input<'_>,
    desk: &mut Desk,
    p: &Panel,
    name: &str,
    edition: Option<&ElectricalEdition>,
) {
    let k = |what: &str| format!("panel.{what}");
    let of = edition.map_or_else(
        || card("F19"),
        |e| source(&e.source, &format!("{name}: {}", e.place)),
    );
    let heated = |m: &house::model::Model| {
        m.zones
            .iter()
            .filter(|z| z.heated.is_some())
            .map(|z| z.floor_m2)
            .sum::<f64>()
    };
    let done = (|| {
        let per = edition?.panel_va_per_ft2?;
        let floor = p.floor_m2.or_else(|| input.model.map(heated))?;
        desk.given(
            k("floor"),
            "floor area",
            floor,
            Dim::Area,
            Source::job("panel.floor, or the heated rooms"),
        );
        desk.given(
            k("per-area"),
            "general lighting, VA per ft2",
            per,
            Dim::Ratio,
            of.clone(),
        );
        desk.given(
            k("ft2"),
            "a square foot",
            FT2_M2,
            Dim::Area,
            Source::new("nist-sp811", "exact"),
        );
        desk.measured(
            k("circuits"),
            "small-appliance and laundry circuits",
            f64::from(p.small_circuits?),
            Dim::Count,
            "panel.small_circuits".into(),
        );
        let mut parts = vec![k("lighting"), k("small")];
        desk.reckon(
            k("lighting"),
            "general lighting",
            Dim::ElectricPower,
            "s * A / f",
            &[("s", &k("per-area")), ("A", &k("floor")), ("f", &k("ft2"))],
            of.clone(),
        )?;
        desk.reckon(
            k("small"),
            "small circuits at 1,500 VA",
            Dim::ElectricPower,
            "1500 * n",
            &[("n", &k("circuits"))],
            of.clone(),
        )?;
        for (i, (name, va)) in p.appliances.iter().enumerate() {
            let key = k(&format!("appliance-{}", i + 1));
            desk.measured(
                key.clone(),
                name,
                *va,
                Dim::ElectricPower,
                "panel.appliances".into(),
            );
            parts.push(key);
        }
        desk.add_up(
            &k("general"),
            "all but heating and cooling",
            Dim::ElectricPower,
            &parts,
            of.clone(),
        );
        desk.measured(
            k("heat"),
            "electric heat beside it",
            p.electric_heat_va,
            Dim::ElectricPower,
            "panel.electric_heat".into(),
        );
        desk.reckon(
            k("demand"),
            "general: first 8 kVA whole, the rest at 40 %",
            Dim::ElectricPower,
            "min(G, 8000) + 0.4 * max(G - 8000, 0)",
            &[("G", &k("general"))],
            of.clone(),
        )?;
        desk.reckon(
            k("calculated"),
            "panel by calculation",
            Dim::Current,
            "(G + H) / V + I",
            &[
                ("G", &k("demand")),
                ("H", &k("heat")),
                ("V", &k("volts")),
                ("I", &k("new")),
            ],
            of.clone(),
        )?;
        Some(k("calculated"))
    })();
    desk.at_most(
        &CALCULATED,
        "panel",
        done.as_deref(),
        Some(&k("rating")),
        of,
    );
}

fn measured(desk: &mut Desk, p: &Panel) {
    let k = |what: &str| format!("panel.{what}");
    let of = || {
        Source::new(
            "nec",
            "220.87, edition as chosen; 1.25 times the highest demand",
        )
    };
    desk.reckon(
        k("measured"),
        "panel by measurement",
        Dim::Current,
        "1.25 * P / V + I",
        &[("P", &k("peak")), ("V", &k("volts")), ("I", &k("new"))],
        of(),
    );
    // hourly means hide the 15-minute peak; a part of a year may miss it; solar hides demand
    let fit = p.interval_s.is_some_and(|s| s <= 900.0)
        && p.days.is_some_and(|d| d >= 365.0)
        && p.solar == Some(false);
    if fit {
        desk.at_most(
            &MEASURED,
            "panel",
            Some(&k("measured")),
            Some(&k("rating")),
            of(),
        );
    } else {
        let found = match (p.solar, p.interval_s, p.days) {
            (Some(true), _, _) => "solar or storage behind the meter".to_owned(),
            (_, Some(s), _) if s > 900.0 => format!("readings of {:.0} minutes", s / 60.0),
            (_, _, Some(d)) if d < 365.0 => format!("{d:.0} days of readings"),
            _ => "no such readings".to_owned(),
        };
        desk.say(
            &MEASURED,
            "panel",
            Verdict::CannotTell,
            found,
            "a year of 15-minute readings".into(),
            Vec::new(),
            of(),
        );
    }
}
