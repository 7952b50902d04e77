//! The panel by calculation and by measurement, both shown.

use jobfile::Panel;
use reckon::{Level, Source, Verdict};
use units::Dim;

use crate::Input;
use crate::desk::{Desk, Rule, card};
use crate::rules::{ElectricalEdition, source};

const FT2_M2: f64 = 0.09290304;

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

/// New load against the service.
pub(super) fn judge(
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
