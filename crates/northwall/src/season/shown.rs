//! The year with equipment, for the terminal.

use heatpump::{Conditions, Duty, plot_data};
use plan::Plan;
use season::{Crossing, Regime, Row, UnitYear, Year};
use units::Dim;

use crate::files::Loaded;
use crate::say::{Say, Table, cut, field, heading, plot, wrapped};

pub fn text(plan: &Plan, year: &Year, loaded: &Loaded, say: Say) -> String {
    let mut out = heading(&plan.name);
    out.push_str(&crate::loads::site_line(plan, say));
    out.push('\n');
    rooms(year, say, &mut out);
    for unit in &year.units {
        of_unit(unit, year, plan, say, &mut out);
    }
    bought(year, loaded, say, &mut out);
    out.push_str(&heading(
        "The year as a field of hours: heat of all sources, of its greatest hour",
    ));
    let hours = year.hours;
    let most = year.heating_peak.w.max(1.0);
    out.push_str(&field(hours, &|h| {
        let heaters = year.heaters_w.get(h).copied().unwrap_or(0.0);
        let heads = year.heads_w.get(h).copied().unwrap_or(0.0);
        (heaters + heads) / most
    }));
    out.push('\n');
    compared(plan, loaded, say, &mut out);
    out
}

fn rooms(year: &Year, say: Say, out: &mut String) {
    out.push_str(&heading(&format!("Rooms, with {}", year.choice)));
    let heat = say.year_heat_unit();
    let heads = [
        "room".to_owned(),
        format!("heads\n{heat}"),
        format!("heaters\n{heat}"),
        format!("cooling\n{heat}"),
        format!(
            "hours under\nby {}",
            say.of(2.0, Dim::TemperatureDifference)
        ),
        format!("least\n{}", say.degree()),
        format!("mean\n{}", say.degree()),
        format!("most\n{}", say.degree()),
    ];
    let mut table = Table::new(heads.iter().map(String::as_str));
    for r in &year.rooms {
        table.row([
            cut(&r.name, 16),
            say.year_heat(r.by_heads_j),
            say.year_heat(r.by_heaters_j),
            say.year_heat(r.cooling_j),
            if r.heated {
                Say::hours(r.short_2k_h)
            } else {
                "no setting".to_owned()
            },
            say.degrees(r.least_c),
            say.degrees(r.mean_c),
            say.degrees(r.greatest_c),
        ]);
    }
    table.rule();
    let heads_j = year.by_heads_j();
    table.row([
        "house".to_owned(),
        say.year_heat(heads_j),
        say.year_heat(year.heat_j - heads_j),
        say.year_heat(year.cooling_j),
        // hours of several rooms at once are no hours of the house
        String::new(),
        String::new(),
        String::new(),
        String::new(),
    ]);
    out.push_str(&table.text());
    out.push('\n');
}

fn crossing(c: Crossing, say: Say) -> String {
    match c {
        Crossing::At(c) => say.temperature(c),
        Crossing::ColderThan(c) => {
            format!("colder than {}, where the sheet ends", say.temperature(c))
        }
        Crossing::WarmerThan(c) => format!("warmer than {}", say.temperature(c)),
        Crossing::None => "cannot tell".to_owned(),
    }
}

fn of_unit(unit: &UnitYear, year: &Year, plan: &Plan, say: Say, out: &mut String) {
    let rooms: Vec<&str> = unit.heads.iter().map(|h| h.room.as_str()).collect();
    out.push_str(&heading(&format!(
        "{}: {}, heads in {}",
        unit.name,
        unit.sheet,
        rooms.join(", ")
    )));
    let heat = format!("heat\n{}", say.year_heat_unit());
    let mut table = Table::new(["hours of the year", "hours", heat.as_str()]);
    for regime in Regime::ALL {
        let hours = unit.hours_in(regime);
        if hours > 0 {
            table.row([
                regime.word().to_owned(),
                Say::hours(hours),
                say.year_heat(unit.heat_in_j(regime)),
            ]);
        }
    }
    out.push_str(&table.text());
    let cop = |c: Option<f64>| c.map_or("cannot tell".to_owned(), |c| format!("{c:.2}"));
    let e = &unit.electric;
    let kwh = |j: f64| Say::hours((j / units::constants::KWH_J).round().max(0.0) as u32);
    out.push_str(&wrapped(
        "  ",
        &format!(
            "Seasonal COP {} ({} with waiting). Electricity {} kWh: compressor {}, frost {}, base \
             pan {}, waiting {}, cooling {}. Carries its rooms down to {}; on and off above {}.",
            cop(unit.seasonal_cop()),
            cop(unit.seasonal_cop_with_standby()),
            kwh(e.total_j()),
            kwh(e.compressor_j),
            kwh(e.defrost_j),
            kwh(e.base_pan_j),
            kwh(e.standby_j),
            kwh(e.cooling_j),
            crossing(unit.balance, say),
            crossing(unit.cycles_above, say),
        ),
    ));
    curves(unit, year, plan, say, out);
    out.push('\n');
}

/// Least and most of a unit at an outdoor temperature by its sheet, W; none where it has no
/// answer.
fn gives(unit: &UnitYear, year: &Year, plan: &Plan) -> impl Fn(f64) -> Option<(f64, f64)> + use<> {
    let system = plan
        .chosen
        .iter()
        .find(|c| c.name == year.choice)
        .and_then(|c| c.systems.iter().find(|s| s.name == unit.name));
    let air = Conditions::at_sea_level(190.0 / 9.0);
    let data = system.and_then(|s| plot_data(&s.pumps, Duty::Heating, air).ok());
    move |c: f64| {
        let points = &data.as_ref()?.curves;
        let next = points.iter().position(|p| p.outdoor_c >= c)?;
        let (b, a) = (points.get(next)?, points.get(next.checked_sub(1)?)?);
        let part = (c - a.outdoor_c) / (b.outdoor_c - a.outdoor_c);
        let mix = |x: f64, y: f64| x + part * (y - x);
        Some((mix(a.min_w, b.min_w), mix(a.max_w, b.max_w)))
    }
}

/// What the rooms ask over outdoor temperature beside what the unit gives, with the hours beneath.
fn curves(unit: &UnitYear, year: &Year, plan: &Plan, say: Say, out: &mut String) {
    let (Some(need), Some((cold, mild))) = (unit.need, unit.span_c) else {
        return;
    };
    let coldest = year
        .outdoor_c
        .iter()
        .copied()
        .fold(f64::INFINITY, f64::min)
        .min(cold);
    let columns = 60;
    let step = (mild.max(18.0) - coldest) / columns as f64;
    let at = |i: usize| coldest + (i as f64 + 0.5) * step;
    let asked: Vec<f64> = (0..columns).map(|i| need.at(at(i))).collect();
    let mut hours = vec![0.0; columns];
    for c in &year.outdoor_c {
        if let Some(h) = hours.get_mut(((c - coldest) / step).max(0.0) as usize) {
            *h += 1.0;
        }
    }
    let end = |c: Option<f64>, w: f64| -> Vec<f64> {
        (0..columns)
            .map(|i| match c {
                Some(c) if (at(i) - c).abs() <= step / 2.0 => w,
                _ => f64::NAN,
            })
            .collect()
    };
    let given = gives(unit, year, plan);
    let line = |of: fn((f64, f64)) -> f64| -> Vec<f64> {
        (0..columns)
            .map(|i| given(at(i)).map_or(f64::NAN, of))
            .collect()
    };
    let most = line(|g| g.1);
    let top = most.iter().copied().fold(need.at(coldest), f64::max) * 1.05;
    let mut series = vec![('·', line(|g| g.0)), ('─', most), ('╲', asked)];
    if let Some(c) = unit.balance.at_c() {
        series.push(('●', end(Some(c), need.at(c))));
    }
    if let Some(c) = unit.cycles_above.at_c() {
        series.push(('○', end(Some(c), need.at(c))));
    }
    out.push_str(&plot(&series, top, 11, &|w| say.load_number(w)));
    let left = say.load_number(top).chars().count();
    let line = crate::say::columns(&hours);
    out.push_str(&format!("  {:>left$}  {line}\n", "hours"));
    let last = say.temperature(at(columns - 1));
    let gap = columns.saturating_sub(say.degrees(coldest).chars().count() + last.chars().count());
    out.push_str(&format!(
        "  {:>left$}  {}{}{last}\n",
        "",
        say.degrees(coldest),
        " ".repeat(gap)
    ));
    out.push_str(&wrapped(
        "  ",
        "╲ what its rooms ask   ─ most it gives   · least   ● just carries   ○ cycles above",
    ));
}

fn bought(year: &Year, loaded: &Loaded, say: Say, out: &mut String) {
    out.push_str(&heading("Bought in the year"));
    let mut table = Table::new(["", "amount", "cost", "carbon"]);
    let money = &loaded.job.prices.currency;
    let cost = |c: Option<f64>| match c {
        Some(c) => format!("{money}{}", Say::hours(c.round().max(0.0) as u32)),
        None => "no price".to_owned(),
    };
    let carbon = |kg: Option<f64>| kg.map_or("no value".to_owned(), |kg| say.of(kg, Dim::Carbon));
    for b in &year.bought {
        table.row([
            b.carrier.word().to_owned(),
            format!(
                "{} {}",
                Say::hours(b.amount().round().max(0.0) as u32),
                b.sold_in.name
            ),
            cost(b.cost),
            carbon(b.carbon_kg),
        ]);
    }
    table.rule();
    table.row([
        "all".to_owned(),
        String::new(),
        cost(year.cost()),
        carbon(year.carbon_kg()),
    ]);
    out.push_str(&table.text());
    out.push_str(&wrapped(
        "  ",
        &format!(
            "Largest electric hour {} on {}.",
            say.of(year.electric_peak.w, Dim::ElectricPower),
            loaded.weather.stamp(year.electric_peak.hour)
        ),
    ));
    out.push('\n');
}

fn compared(plan: &Plan, loaded: &Loaded, say: Say, out: &mut String) {
    let Some(all) = plan.season.done() else {
        return;
    };
    out.push_str(&heading("Side by side"));
    let heads = [
        "choice".to_owned(),
        "heads\ncarry".to_owned(),
        "COP".to_owned(),
        "cycling\nhours".to_owned(),
        "electric\nkWh".to_owned(),
        "cost".to_owned(),
        format!("carbon\n{}", say.unit(Dim::Carbon)),
        format!("coldest\n{}", say.degree()),
    ];
    let mut table = Table::new(heads.iter().map(String::as_str));
    for r in all.rows() {
        table.row(line(&r, loaded, say));
    }
    out.push_str(&table.text());
    for (name, year) in &all.years {
        if let Err(why) = year {
            out.push_str(&wrapped("  ", &format!("{name}: no year, {why}.")));
        }
    }
}

fn line(r: &Row, loaded: &Loaded, say: Say) -> [String; 8] {
    let money = &loaded.job.prices.currency;
    let dash = || "-".to_owned();
    [
        cut(&r.choice, 20),
        r.heads_share.map_or_else(dash, |s| say.of(s, Dim::Share)),
        r.seasonal_cop.map_or_else(dash, |c| format!("{c:.2}")),
        Say::hours(r.cycling_h),
        Say::hours((r.electricity_j / units::constants::KWH_J).round().max(0.0) as u32),
        r.cost.map_or_else(dash, |c| {
            format!("{money}{}", Say::hours(c.round().max(0.0) as u32))
        }),
        r.carbon_kg
            .map_or_else(dash, |kg| say.number(kg, Dim::Carbon)),
        r.coldest_room
            .as_ref()
            .map_or_else(dash, |(_, c)| say.degrees(*c)),
    ]
}
