//! Figures of an outdoor unit.

use reckon::{FormulaError, Source, in_key};
use units::Dim;

use super::pen::Pen;
use crate::keys;
use crate::line::Crossing;
use crate::regime::Regime;
use crate::year::UnitYear;

/// An hour, s.
const HOUR_S: f64 = 3600.0;

pub(super) fn write(unit: &UnitYear, pen: &mut Pen<'_>) -> Result<(), FormulaError> {
    let base = format!("unit.{}", in_key(&unit.name));
    let k = |what: &str| format!("{base}.{what}");
    hours(unit, &k, pen);
    let mut heats = Vec::new();
    for regime in [Regime::Cycling, Regime::Modulating, Regime::Full] {
        let key = k(&format!("heat-{}", regime.word()));
        pen.over_year_with(
            &key,
            &format!("heat of {} while {}", unit.name, regime.word()),
            unit.heat_in_j(regime),
            Dim::Heat,
            &format!(
                "heat of its heads, summed over the hours it is {}",
                regime.word()
            ),
            &[("t", &k(&format!("hours-{}", regime.word())))],
        );
        heats.push(key);
    }
    pen.add_up(
        &k("heat"),
        &format!("heat of {}", unit.name),
        Dim::Heat,
        &heats,
    )?;
    electricity(unit, &k, pen)?;
    ratios(unit, &k, pen)?;
    design(unit, &k, pen)?;
    worst_hour(unit, &k, pen);
    for (key, what, crossing, words) in [
        (
            "balance",
            "outdoor temperature at which the most it gives is what its rooms ask",
            unit.balance,
            "where its greatest output crosses the line of need",
        ),
        (
            "cycles-above",
            "outdoor temperature above which its rooms ask for less than its least",
            unit.cycles_above,
            "where its least output, one head calling, crosses the line of need",
        ),
    ] {
        if let Crossing::At(c) = crossing {
            let with: [(&'static str, &str); 2] =
                [("q0", &k("need-at-0c")), ("b", &k("need-per-k"))];
            pen.over_year_with(&k(key), what, c, Dim::Temperature, words, &with);
        }
    }
    Ok(())
}

fn hours(unit: &UnitYear, k: &impl Fn(&str) -> String, pen: &mut Pen<'_>) {
    for regime in Regime::ALL {
        let slug = match regime {
            Regime::CutOut => "cut-out".to_owned(),
            other => in_key(other.word()),
        };
        pen.over_year(
            &k(&format!("hours-{slug}")),
            &format!("hours of {}: {}", unit.name, regime.word()),
            f64::from(unit.hours_in(regime)) * HOUR_S,
            Dim::Hours,
            &format!("hours it is {}", regime.word()),
        );
    }
    if let Some(least) = unit.least_w {
        let source = Source::new("sheet", format!("{}, least output, mild", unit.sheet));
        pen.given(
            &k("least"),
            &format!(
                "least heat of {} with one head calling, at 47 F (8.3 C)",
                unit.name
            ),
            least,
            Dim::Power,
            source,
        );
    }
}

/// Compressor and fans by outdoor temperature: the heat of each span over its COP.
fn compressor(
    unit: &UnitYear,
    k: &impl Fn(&str) -> String,
    pen: &mut Pen<'_>,
) -> Result<(), FormulaError> {
    let mut parts = Vec::new();
    for span in unit.spans.iter().filter(|s| s.compressor_j > 0.0) {
        let base = k(&keys::span(span.low_c));
        let of = |what: &str| format!("{base}.{what}");
        let words = keys::span_words(span.low_c);
        for (key, what, value, dim, says) in [
            (
                "hours",
                "hours it heats",
                span.time_s,
                Dim::Hours,
                "its heating hours, counted",
            ),
            (
                "heat",
                "heat of its heads",
                span.heat_j,
                Dim::Heat,
                "heat of its heads in those hours",
            ),
        ] {
            let what = format!("{what}, {words}");
            pen.over_year(&of(key), &what, value, dim, says);
        }
        let sheet = format!("{}, between its points", unit.sheet);
        pen.over_year_from(
            &of("cop"),
            &format!("COP of compressor and fans, {words}"),
            span.heat_j / span.compressor_j,
            Dim::Ratio,
            "what the sheet takes for the heat that is asked, hour by hour: between its points, \
             and in part of the hour where it goes on and off",
            vec![("t", pen.key(&of("hours")))],
            Source::new("sheet", sheet),
        );
        pen.reckon(
            &of("compressor"),
            &format!("electricity of compressor and fans, {words}"),
            Dim::ElectricEnergy,
            "Q / c",
            &[("Q", &of("heat")), ("c", &of("cop"))],
            "COP: heat over electricity",
        )?;
        parts.push(of("compressor"));
    }
    pen.add_up(
        &k("compressor"),
        "compressor and fans, heating",
        Dim::ElectricEnergy,
        &parts,
    )?;
    Ok(())
}

fn electricity(
    unit: &UnitYear,
    k: &impl Fn(&str) -> String,
    pen: &mut Pen<'_>,
) -> Result<(), FormulaError> {
    let e = &unit.electric;
    let heating = ["hours-cycling", "hours-modulating", "hours-full"].as_slice();
    compressor(unit, k, pen)?;
    for (key, what, value, sum, hours) in [
        (
            "defrost",
            "making up for frost",
            e.defrost_j,
            "frost share of the electricity; nothing where the sheet includes it",
            heating,
        ),
        (
            "base-pan",
            "base-pan heater",
            e.base_pan_j,
            "base-pan heater while the unit runs",
            heating,
        ),
        (
            "standby",
            "waiting: standby and crankcase heater",
            e.standby_j,
            "waiting power over the part of every hour it does not run",
            &["hours-off", "hours-cycling", "hours-cooling"],
        ),
        (
            "cooling-electric",
            "compressor and fans, cooling",
            e.cooling_j,
            "electricity of every cooling hour less waiting",
            &["hours-cooling"],
        ),
    ] {
        let inputs = hours.iter().map(|h| ("t", pen.key(&k(h)))).collect();
        pen.over_year_on(&k(key), what, value, Dim::ElectricEnergy, sum, inputs);
    }
    let of: Vec<String> = ["compressor", "defrost", "base-pan"].map(k).to_vec();
    pen.add_up(
        &k("heating-electric"),
        "electricity for heating, without waiting",
        Dim::ElectricEnergy,
        &of,
    )?;
    let of: Vec<String> = ["heating-electric", "standby", "cooling-electric"]
        .map(k)
        .to_vec();
    pen.add_up(
        &k("electric"),
        &format!("electricity of {}", unit.name),
        Dim::ElectricEnergy,
        &of,
    )?;
    Ok(())
}

fn ratios(
    unit: &UnitYear,
    k: &impl Fn(&str) -> String,
    pen: &mut Pen<'_>,
) -> Result<(), FormulaError> {
    if !pen.some(&k("heat")) || !pen.some(&k("heating-electric")) {
        return Ok(());
    }
    pen.reckon(
        &k("cop"),
        &format!("seasonal COP of {}, heating, without waiting", unit.name),
        Dim::Ratio,
        "Q / E",
        &[("Q", &k("heat")), ("E", &k("heating-electric"))],
        "seasonal COP: heat over electricity",
    )?;
    pen.reckon(
        &k("cop-with-standby"),
        &format!("seasonal COP of {} with all waiting of the year", unit.name),
        Dim::Ratio,
        "Q / (E + W)",
        &[
            ("Q", &k("heat")),
            ("E", &k("heating-electric")),
            ("W", &k("standby")),
        ],
        "seasonal COP: heat over electricity",
    )?;
    for regime in ["cycling", "modulating", "full"] {
        pen.reckon(
            &k(&format!("{regime}-share")),
            &format!("share of the heat of {} while {regime}", unit.name),
            Dim::Share,
            "Qr / Q",
            &[("Qr", &k(&format!("heat-{regime}"))), ("Q", &k("heat"))],
            "trade card F8: heat by regime",
        )?;
    }
    Ok(())
}

/// The most it gives at design, the line of need, and what is short.
fn design(
    unit: &UnitYear,
    k: &impl Fn(&str) -> String,
    pen: &mut Pen<'_>,
) -> Result<(), FormulaError> {
    if pen.year.design.is_some()
        && let Some(gives) = unit.at_design
    {
        super::most::write(unit, gives, k, pen)?;
    }
    let Some(line) = unit.need else { return Ok(()) };
    super::room::line(&k("need"), "its rooms", line, pen);
    if pen.year.design.is_none() {
        return Ok(());
    }
    super::room::at_design(&k("need"), &format!("the rooms of {}", unit.name), pen)?;
    if unit.at_design.is_none() {
        return Ok(());
    }
    pen.reckon(
        &k("short-at-design"),
        &format!("heat {} is short of at design", unit.name),
        Dim::Power,
        "max(0, L - C)",
        &[("L", &k("need-at-design")), ("C", &k("most-at-design"))],
        "trade card F10: load less capacity",
    )?;
    Ok(())
}

/// The hour of the largest electric power, by its own terms.
fn worst_hour(unit: &UnitYear, k: &impl Fn(&str) -> String, pen: &mut Pen<'_>) {
    let peak = unit.electric_peak;
    let what = format!(
        "outdoor air in the hour of the largest electric power of {}",
        unit.name
    );
    if !pen.outdoor(&k("peak-outdoor"), &what, peak.hour) {
        return;
    }
    let regime = unit
        .by_hour
        .get(peak.hour)
        .and_then(|n| Regime::from_number(*n))
        .map_or("off", Regime::word);
    let words = format!("largest hour, {}: {regime}", pen.hour(peak.hour));
    pen.over_year_with(
        &k("peak-electric"),
        &format!("largest electric power of {}", unit.name),
        peak.w,
        Dim::ElectricPower,
        &words,
        &[("To", &k("peak-outdoor"))],
    );
}
