//! The year by months and by outdoor temperature: what of it fell into each.

use reckon::{FormulaError, Source};
use units::Dim;

use super::pen::Pen;
use crate::charts::{BinWidth, YearBin};
use crate::keys;
use crate::regime::Regime;

/// An hour, s.
const HOUR_S: f64 = 3600.0;

/// Writes `month.<jan>.…` and `outdoor.<from>-to-<to>f.…`.
pub(super) fn write(pen: &mut Pen<'_>) -> Result<(), FormulaError> {
    months(pen)?;
    for bin in pen.year.bins(BinWidth::Fahrenheit5) {
        span(&bin, pen)?;
    }
    Ok(())
}

/// What was added up over some hours.
#[derive(Default)]
struct Sums {
    hours: f64,
    outdoor_c: f64,
    heads_w: f64,
    heaters_w: f64,
    electric_w: f64,
    cycling: f64,
}

fn months(pen: &mut Pen<'_>) -> Result<(), FormulaError> {
    let year = pen.year;
    let mut sums: [Sums; 12] = Default::default();
    for (h, outdoor_c) in year.outdoor_c.iter().enumerate() {
        let Some(sum) = sums.get_mut(pen.month(h)) else {
            continue;
        };
        let at = |v: &[f64]| v.get(h).copied().unwrap_or(0.0);
        sum.hours += 1.0;
        sum.outdoor_c += outdoor_c;
        sum.heads_w += at(&year.heads_w);
        sum.heaters_w += at(&year.heaters_w);
        sum.electric_w += at(&year.electric_w);
        sum.cycling += f64::from(year.units_in(Regime::Cycling, h));
    }
    for (name, sum) in climate::MONTHS.iter().zip(&sums) {
        if sum.hours == 0.0 {
            continue;
        }
        let base = format!("month.{}", name.to_lowercase());
        let k = |what: &str| format!("{base}.{what}");
        pen.given(
            &k("outdoor"),
            &format!("mean outdoor air of {name}"),
            sum.outdoor_c / sum.hours,
            Dim::Temperature,
            Source::new("weather", format!("dry bulb, mean of {name}")),
        );
        for (key, what, value, dim, says) in [
            (
                "heat-by-heads",
                "heat by heads in",
                sum.heads_w * HOUR_S,
                Dim::Heat,
                "heat by heads in every hour of the month",
            ),
            (
                "heat-by-heaters",
                "heat by heaters in",
                sum.heaters_w * HOUR_S,
                Dim::Heat,
                "heat by heaters in every hour of the month",
            ),
            (
                "electric",
                "electricity of units and electric heaters in",
                sum.electric_w * HOUR_S,
                Dim::ElectricEnergy,
                "electricity in every hour of the month",
            ),
            (
                "hours-cycling",
                "unit hours on and off in",
                sum.cycling * HOUR_S,
                Dim::Hours,
                "hours of each unit in which its least is more than its rooms ask",
            ),
        ] {
            let to = [("To", k("outdoor"))];
            let to = to.each_ref().map(|(s, k)| (*s, k.as_str()));
            pen.over_year_with(&k(key), &format!("{what} {name}"), value, dim, says, &to);
        }
        let what = format!("heat into the house in {name}");
        let of = ["heat-by-heads", "heat-by-heaters"].map(k);
        pen.add_up(&k("heat"), &what, Dim::Heat, &of)?;
    }
    Ok(())
}

fn span(bin: &YearBin, pen: &mut Pen<'_>) -> Result<(), FormulaError> {
    let base = keys::span(bin.low_c);
    let k = |what: &str| format!("{base}.{what}");
    let span = keys::span_words(bin.low_c);
    let of = |regime: Regime| f64::from(bin.by_regime[regime as usize]) * HOUR_S;
    let hours = f64::from(bin.hours) * HOUR_S;
    pen.given(
        &k("hours"),
        &format!("hours of the year, {span}"),
        hours,
        Dim::Hours,
        Source::new("weather", "dry bulb, counted"),
    );
    for (key, what, value, dim, says) in [
        (
            "heat-by-heads",
            "heat by heads",
            bin.heads_w * hours,
            Dim::Heat,
            "heat by heads in each of the hours",
        ),
        (
            "heat-by-heaters",
            "heat by heaters",
            (bin.heat_w - bin.heads_w) * hours,
            Dim::Heat,
            "heat by heaters in each of the hours",
        ),
        (
            "electric",
            "electricity",
            bin.electric_w * hours,
            Dim::ElectricEnergy,
            "electricity in each of the hours",
        ),
        (
            "hours-cycling",
            "unit hours on and off",
            of(Regime::Cycling),
            Dim::Hours,
            "hours of each unit in which its least is more than its rooms ask",
        ),
        (
            "hours-full",
            "unit hours at full output",
            of(Regime::Full),
            Dim::Hours,
            "hours of each unit in which it gives the most it can",
        ),
    ] {
        let what = format!("{what}, {span}");
        pen.over_year_with(&k(key), &what, value, dim, says, &[("t", &k("hours"))]);
    }
    pen.reckon(
        &k("by-heads"),
        &format!("heat by heads, mean of the hours, {span}"),
        Dim::Power,
        "Q / t",
        &[("Q", &k("heat-by-heads")), ("t", &k("hours"))],
        "mean over the hours",
    )?;
    if pen.year.need.is_none() {
        return Ok(());
    }
    let (what, source) = (
        format!("middle of {span}"),
        Source::new("common-practice", "spans of 5 F"),
    );
    let middle_c = 0.5 * (bin.low_c + bin.high_c);
    pen.given(&k("middle"), &what, middle_c, Dim::Temperature, source);
    pen.reckon(
        &k("asks"),
        &format!("heat the house asks at the middle of {span}, at night"),
        Dim::Power,
        "max(0, q0 - b * To)",
        &[
            ("q0", "house.need-at-0c"),
            ("b", "house.need-per-k"),
            ("To", &k("middle")),
        ],
        "trade card F8: load line",
    )?;
    Ok(())
}
