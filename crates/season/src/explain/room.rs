//! Figures of a room.

use reckon::{FormulaError, in_key};
use units::Dim;

use super::pen::Pen;
use crate::line::NeedLine;
use crate::year::{RoomYear, UnitYear};

/// An hour, s.
const HOUR_S: f64 = 3600.0;

pub(super) fn write(room: &RoomYear, pen: &mut Pen<'_>) -> Result<(), FormulaError> {
    let base = format!("room.{}", in_key(&room.name));
    let k = |what: &str| format!("{base}.{what}");
    let name = &room.name;
    for (key, what, value, dim, sum) in [
        (
            "mean",
            "mean air temperature of",
            room.mean_c,
            Dim::Temperature,
            "mean of the hours".to_owned(),
        ),
        (
            "greatest",
            "greatest air temperature of",
            room.greatest_c,
            Dim::Temperature,
            format!("greatest of the hours, {}", pen.hour(room.greatest_hour)),
        ),
        (
            "heat-by-heads",
            "heat by heads into",
            room.by_heads_j,
            Dim::Heat,
            "heat of its heads in every hour".to_owned(),
        ),
        (
            "heat-by-heaters",
            "heat by heaters into",
            room.by_heaters_j,
            Dim::Heat,
            "heat of boiler, furnace or panels in every hour".to_owned(),
        ),
        (
            "cooling",
            "sensible cooling of",
            room.cooling_j,
            Dim::Heat,
            "cooling by its heads in every hour".to_owned(),
        ),
        (
            "peak",
            "largest hour of heat into",
            room.heating_peak.w,
            Dim::Power,
            format!("largest hour, {}", pen.hour(room.heating_peak.hour)),
        ),
    ] {
        pen.over_year(&k(key), &format!("{what} {name}"), value, dim, &sum);
    }
    let setting = format!("room.{}.setting", in_key(name));
    let written = pen.book.get(&setting).is_some();
    let setting: Vec<(&'static str, String)> =
        written.then_some(("Ti", setting)).into_iter().collect();
    // The hour of the least, by its own terms.
    let what = format!("outdoor air in the hour {name} is coldest");
    if pen.outdoor(&k("least-outdoor"), &what, room.least_hour) {
        pen.over_year_with(
            &k("least"),
            &format!("least air temperature of {name}"),
            room.least_c,
            Dim::Temperature,
            &format!("least of the hours, {}", pen.hour(room.least_hour)),
            &[("To", &k("least-outdoor"))],
        );
    }
    let of = ["heat-by-heads", "heat-by-heaters"].map(k).to_vec();
    pen.add_up(&k("heat"), &format!("heat into {name}"), Dim::Heat, &of)?;
    if !room.heated {
        return Ok(());
    }
    for (key, what, hours, sum) in [
        (
            "hours-short-1k",
            "more than 1.8 F (1 K) under its setting",
            f64::from(room.short_1k_h),
            "hours more than 1.8 F (1 K) under the setting of the hour",
        ),
        (
            "hours-short-2k",
            "more than 3.6 F (2 K) under its setting",
            f64::from(room.short_2k_h),
            "hours more than 3.6 F (2 K) under the setting of the hour",
        ),
        (
            "hours-under-62f",
            "under 62 F (16.7 C)",
            f64::from(room.under_62f_h),
            "hours under 62 F (16.7 C)",
        ),
    ] {
        pen.over_year_on(
            &k(key),
            &format!("hours {name} is {what}"),
            hours * HOUR_S,
            Dim::Hours,
            sum,
            setting.clone(),
        );
    }
    pen.over_year_on(
        &k("degree-hours-short"),
        &format!("degree hours {name} is under its setting"),
        room.short_k_h * HOUR_S,
        Dim::DegreeDays,
        "setting less air in every hour in which that is above nothing",
        setting,
    );
    if let Some(c) = room.heads_alone_c {
        pen.over_year(
            &k("heads-alone"),
            &format!("least air temperature of {name} in the three coldest days, heads alone"),
            c,
            Dim::Temperature,
            "least of the three coldest days in a row, run again with no heater answering",
        );
    }
    if let Some(need) = room.need {
        line(&k("need"), name, need, pen);
        if pen.year.design.is_some() {
            at_design(&k("need"), name, pen)?;
        }
    }
    head_least(room, &k("head-least"), pen)
}

/// The least a head gives: that of its outdoor unit where it hangs alone.
fn head_least(room: &RoomYear, key: &str, pen: &mut Pen<'_>) -> Result<(), FormulaError> {
    let of_room = |u: &&UnitYear| u.heads.iter().any(|h| h.room == room.name);
    let Some(unit) = pen.year.units.iter().find(of_room) else {
        return Ok(());
    };
    let Some(head) = unit.heads.iter().find(|h| h.room == room.name) else {
        return Ok(());
    };
    let what = format!("least heat of the head in {}", room.name);
    let of_unit = format!("unit.{}.least", in_key(&unit.name));
    if unit.heads.len() == 1 && pen.some(&of_unit) {
        let place = "a head alone on its outdoor unit gives the least of that";
        pen.reckon(key, &what, Dim::Power, "q", &[("q", &of_unit)], place)?;
        return Ok(());
    }
    let from = reckon::Source::new("sheet", format!("{}, least heat", head.sheet));
    pen.given(key, &what, head.min_w, Dim::Power, from);
    Ok(())
}

/// The two ends of a line of need: `<key>-at-0c` and `<key>-per-k`.
pub(super) fn line(key: &str, of: &str, line: NeedLine, pen: &mut Pen<'_>) {
    pen.over_year(
        &format!("{key}-at-0c"),
        &format!("heat asked by {of} at 32 F (0 C) outdoors, at night"),
        line.at_0c_w,
        Dim::Power,
        &format!(
            "least squares through {} night hours below 50 F (10 C) in which the setting was held",
            line.hours
        ),
    );
    pen.over_year(
        &format!("{key}-per-k"),
        &format!("how much more {of} ask for every degree colder"),
        line.per_k_w,
        Dim::Conductance,
        "slope of the same line",
    );
}

/// `<key>-at-design`, from the line and the design temperature.
pub(super) fn at_design(key: &str, of: &str, pen: &mut Pen<'_>) -> Result<f64, FormulaError> {
    pen.reckon(
        &format!("{key}-at-design"),
        &format!("heat asked by {of} at the design temperature"),
        Dim::Power,
        "max(0, q0 - b * To)",
        &[
            ("q0", &format!("{key}-at-0c")),
            ("b", &format!("{key}-per-k")),
            ("To", "design"),
        ],
        "trade card F8: load line",
    )
}
