//! The most a unit gives at the design temperature, from the printed points.

use heatpump::{MadeOf, PrintedMost};
use reckon::{FormulaError, Source};
use units::Dim;

use super::pen::Pen;
use crate::year::{Gives, UnitYear};

/// Parts of the value that the terms may lie from the table of the year, which has a row every
/// 0.2 F.
const APART: f64 = 1e-3;

pub(super) fn write(
    unit: &UnitYear,
    gives: Gives,
    k: &impl Fn(&str) -> String,
    pen: &mut Pen<'_>,
) -> Result<(), FormulaError> {
    let key = k("most-at-design");
    if let Some(made) = gives.made_of {
        terms(unit, &made, k, pen)?;
        let told = pen.book.value(&pen.key(&key)).unwrap_or(f64::NAN);
        if (told - gives.max_w).abs() <= APART * gives.max_w {
            return Ok(());
        }
    }
    pen.given(
        &key,
        &format!("most {} gives at the design temperature", unit.name),
        gives.max_w,
        Dim::Power,
        Source::new(
            "sheet",
            format!("{}, heating points, frost, altitude", unit.sheet),
        ),
    );
    Ok(())
}

fn terms(
    unit: &UnitYear,
    made: &MadeOf,
    k: &impl Fn(&str) -> String,
    pen: &mut Pen<'_>,
) -> Result<(), FormulaError> {
    let name = &unit.name;
    let mut point = |side: &str, p: &PrintedMost| {
        let from = || Source::new("sheet", format!("{}, line {}", unit.sheet, p.line));
        let at = k(&format!("{side}-point"));
        let what = format!("outdoor temperature of the printed point, {side} side");
        pen.given(&at, &what, p.outdoor_c, Dim::Temperature, from());
        let gives = k(&format!("{side}-point-gives"));
        let what = format!("most {name} gives there");
        pen.given(&gives, &what, p.most_w, Dim::Power, from());
        (at, gives)
    };
    let (cold, cold_gives) = point("colder", &made.colder);
    let mut by_points = cold_gives.clone();
    if made.warmer != made.colder {
        let (warm, warm_gives) = point("warmer", &made.warmer);
        by_points = k("by-points");
        pen.reckon(
            &by_points,
            &format!("most {name} gives, on the line between the printed points"),
            Dim::Power,
            "Qc + (T - Tc) / (Tw - Tc) * (Qw - Qc)",
            &[
                ("Qc", &cold_gives),
                ("T", "design"),
                ("Tc", &cold),
                ("Tw", &warm),
                ("Qw", &warm_gives),
            ],
            "trade card F7: straight between points",
        )?;
    }
    let sheet = |what: &str| Source::new("sheet", format!("{}, {what}", unit.sheet));
    let (heads, tested, kept, pressure) = (
        k("heads-factor"),
        k("tested-indoors"),
        k("indoors"),
        k("pressure"),
    );
    let what = format!("factor of the heads that hang on {name}");
    pen.given(
        &heads,
        &what,
        made.heads,
        Dim::Ratio,
        sheet("table of combinations; 1 without"),
    );
    let what = "indoor temperature of the printed points";
    pen.given(
        &tested,
        what,
        made.tested_c,
        Dim::Temperature,
        sheet("heating points"),
    );
    let what = "mean setting of its rooms";
    pen.given(
        &kept,
        what,
        made.indoor_c,
        Dim::Temperature,
        Source::job("rooms"),
    );
    let what = "air pressure at the house, by its height";
    let height = Source::job("place.elevation");
    pen.given(&pressure, what, made.pressure_pa, Dim::Pressure, height);
    let (indoor, altitude, frost) = (k("indoor-factor"), k("altitude-factor"), k("frost-factor"));
    let of = [("Ti", &*kept), ("Tt", &*tested)];
    let what = "factor of the indoor temperature";
    pen.reckon(
        &indoor,
        what,
        Dim::Ratio,
        "1 - 0.004 * (Ti - Tt)",
        &of,
        "from memory",
    )?;
    let of = [("p", &*pressure)];
    let what = "factor of the altitude";
    pen.reckon(
        &altitude,
        what,
        Dim::Ratio,
        "(p / 101325) ^ 0.3",
        &of,
        "from memory",
    )?;
    let what = "factor of frost; 1 outside 17 to 42 F and where the sheet includes it";
    let from = Source::new("cfr-430-m1", "3.6.4, from memory");
    pen.given(&frost, what, made.frost, Dim::Ratio, from);
    pen.reckon(
        &k("most-at-design"),
        &format!("most {name} gives at the design temperature"),
        Dim::Power,
        "Q * h * i * a * f",
        &[
            ("Q", &by_points),
            ("h", &heads),
            ("i", &indoor),
            ("a", &altitude),
            ("f", &frost),
        ],
        "trade card F7",
    )?;
    Ok(())
}
