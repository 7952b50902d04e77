//! Backup for the terminal.

use season::Crossing;
use season::backup::{Backup, Set};
use units::{Dim, System};

use crate::files::Loaded;
use crate::say::{Say, Table, cut, heading, wrapped, wrapped_to};

pub fn text(found: &Backup, loaded: &Loaded, name: &str, say: Say) -> String {
    let mut out = heading(&format!("{}: backup, with {name}", loaded.job.name));
    carried(found, loaded, say, &mut out);
    needed(found, say, &mut out);
    settings(found, say, &mut out);
    switchover(found, loaded, say, &mut out);
    cold(found, say, &mut out);
    hot_water(found, loaded, say, &mut out);
    out
}

fn carried(found: &Backup, loaded: &Loaded, say: Say, out: &mut String) {
    let money = &loaded.job.prices.currency;
    let heat = say.year_heat_unit();
    let heads = [
        String::new(),
        "hours".to_owned(),
        format!("heat\n{heat}"),
        "cost".to_owned(),
        format!("cost a\n{heat}"),
    ];
    let mut table = Table::new(heads.iter().map(String::as_str));
    for c in &found.carried {
        let unit_j = match say.system {
            System::Us => 1e6 * units::constants::BTU_IT_J,
            System::Si => units::constants::KWH_J,
        };
        let each = c
            .cost
            .filter(|_| c.heat_j > 0.0)
            .map(|m| m * unit_j / c.heat_j);
        table.row([
            cut(&c.by, 24),
            Say::hours(c.hours as u32),
            say.year_heat(c.heat_j),
            c.cost
                .map_or("no price".to_owned(), |m| format!("{money}{}", whole(m))),
            each.map_or("-".to_owned(), |m| format!("{money}{m:.2}")),
        ]);
    }
    out.push_str(&table.text());
    if let Some(c) = &found.charged {
        let says = format!(
            "Electricity for heating and cooling by the tariff: {money}{} for use, {money}{} for \
             the largest hours of the months; the fixed part is paid anyway. A meter that averages \
             over a quarter of an hour sees larger ones.",
            whole(c.energy),
            whole(c.demand)
        );
        out.push_str(&wrapped("  ", &says));
    }
    out.push('\n');
}

fn needed(found: &Backup, say: Say, out: &mut String) {
    let Some(n) = &found.needed else {
        out.push_str(&wrapped(
            "  ",
            "What backup must give cannot be told: there is no design temperature, or too few \
             nights tell what the house asks.",
        ));
        out.push('\n');
        return;
    };
    let units = n.units_w.map_or_else(
        || "the sheets cannot tell what the units give, which counts as nothing".to_owned(),
        |w| format!("the units give {}", say.load(w)),
    );
    let there = if n.there_is_w.is_infinite() {
        "the job does not say what the heaters that stay can give".to_owned()
    } else if n.there_is_w <= 0.0 {
        "nothing stays beside the units".to_owned()
    } else {
        format!(
            "the heaters that stay give up to {}",
            say.load(n.there_is_w)
        )
    };
    let says = format!(
        "At {} the house asks {}; {units}, so backup must add {}. Without any unit {} hold it at \
         {}, so that nothing freezes. {}{}.",
        say.temperature(n.design_c),
        say.load(n.asks_w),
        say.load(n.adds_w),
        say.load(n.holds_w),
        say.temperature(10.0),
        there.get(..1).unwrap_or("").to_uppercase(),
        there.get(1..).unwrap_or(""),
    );
    out.push_str(&wrapped("  ", &says));
    if n.there_is_w < n.adds_w {
        let says = format!(
            "That is {} short: choose more, or have the owner sign for it.",
            say.load(n.adds_w - n.there_is_w)
        );
        out.push_str(&wrapped("  ", &says));
    }
    out.push('\n');
}

fn settings(found: &Backup, say: Say, out: &mut String) {
    out.push_str(&heading("What to set"));
    for s in &found.settings {
        let has = s.job_has.as_ref().map_or(String::new(), |has| {
            format!("; the job has {}", set(has, say))
        });
        let line = format!("{}: {}{has}.", s.control, set(&s.set, say));
        out.push_str(&wrapped_to(80, "  ", "  ", &line));
        out.push_str(&wrapped("      ", &format!("{}.", s.why)));
    }
    out.push('\n');
}

fn set(of: &Set, say: Say) -> String {
    let below = |k: f64| match say.system {
        System::Us => format!("{:.0}", 1.8 * k),
        System::Si => format!("{k:.1}"),
    };
    let unit = if say.system == System::Us { "F" } else { "K" };
    match of {
        Set::Room(c) => say.temperature(*c),
        Set::Below(k) => format!("{} {unit} below the heads", below(*k)),
        Set::BelowBetween(a, b) => format!("{} to {} {unit} below the heads", below(*a), below(*b)),
        Set::OffAbove(c) => format!("off above {}", say.temperature(*c)),
        Set::Never => "never off".to_owned(),
        Set::Off => "none".to_owned(),
    }
}

fn switchover(found: &Backup, loaded: &Loaded, say: Say, out: &mut String) {
    if found.sensitivity.is_empty() {
        return;
    }
    out.push_str(&heading(
        "Above which outdoor temperature the unit is the cheaper heat",
    ));
    let mut table = Table::new(["prices", "same cost at COP", "unit", "cheaper"]).words(&[2, 3]);
    for s in &found.sensitivity {
        for (electricity, fuel, cop, at) in &s.cases {
            let prices = match (*electricity, *fuel) {
                (1.0, 1.0) => "as in the job".to_owned(),
                (e, 1.0) => format!("electricity {:+.0} %", 100.0 * (e - 1.0)),
                (_, f) => format!("fuel of {} {:+.0} %", s.heater, 100.0 * (f - 1.0)),
            };
            let where_ = match at {
                Crossing::At(c) => format!("above {}", say.temperature(*c)),
                Crossing::ColderThan(c) => format!("down to {}, the coldest", say.temperature(*c)),
                Crossing::WarmerThan(_) => "nowhere in the heating season".to_owned(),
                Crossing::None => "cannot tell".to_owned(),
            };
            table.row([prices, format!("{cop:.2}"), cut(&s.unit, 16), where_]);
        }
    }
    out.push_str(&table.text());
    if loaded.job.prices.tariff.is_some() {
        out.push_str(&wrapped(
            "  ",
            "By the flat price under [prices]; with a tariff the hours of its periods differ.",
        ));
    }
    out.push('\n');
}

fn cold(found: &Backup, say: Say, out: &mut String) {
    let Some(snap) = &found.snap else { return };
    out.push_str(&heading(&format!(
        "Three days and nights at {} without sun, and the same without power",
        say.temperature(snap.outdoor_c)
    )));
    let heads = [
        "room".to_owned(),
        format!("least\n{}", say.degree()),
        format!("heads alone\n{}", say.degree()),
        format!("no power: at\n{}", say.temperature(10.0)),
        "freezes".to_owned(),
    ];
    let mut table = Table::new(heads.iter().map(String::as_str));
    let after = |h: Option<usize>| h.map_or("over 2 weeks".to_owned(), |h| format!("after {h} h"));
    for r in &snap.rooms {
        table.row([
            cut(&r.room, 20),
            say.degrees(r.least_c),
            say.degrees(r.heads_alone_c),
            after(r.at_10c_h),
            after(r.freezes_h),
        ]);
    }
    out.push_str(&table.text());
    let says = if snap.heaters_h == 0 {
        format!(
            "Heads give {} {} in the three days; no heater answers.",
            say.year_heat(snap.heads_j),
            say.year_heat_unit()
        )
    } else {
        format!(
            "In the three days heads give {} {}, heaters {} in {} hours, {} at most.",
            say.year_heat(snap.heads_j),
            say.year_heat_unit(),
            say.year_heat(snap.heaters_j),
            snap.heaters_h,
            say.load(snap.heaters_most_w)
        )
    };
    out.push_str(&wrapped("  ", &says));
    out.push_str(&wrapped(
        "  ",
        "The air of a room freezes before or after a pipe in an outer wall, by where the pipe runs; \
         free heat of people and appliances goes on.",
    ));
    out.push('\n');
}

fn hot_water(found: &Backup, loaded: &Loaded, say: Say, out: &mut String) {
    let Some(water) = &found.hot_water else {
        return;
    };
    out.push_str(&heading("Hot water"));
    let heat = say.of(water.heat_j, Dim::Heat);
    let by = loaded
        .job
        .existing
        .as_ref()
        .map_or("heater", |h| h.kind.word());
    let says = if water.lost {
        let cost = loaded
            .job
            .prices
            .per_j(jobfile::Carrier::Electricity)
            .map_or(String::new(), |p| {
                format!(
                    ", {}{} a year by plain electric resistance",
                    loaded.job.prices.currency,
                    whole(p * water.heat_j)
                )
            });
        format!(
            "The {by} goes and takes the hot water with it: about {heat} in the water of a year for \
             {} people{cost}. Price a water heater in the same quote.",
            whole(water.people)
        )
    } else {
        format!(
            "The {by} goes on making the hot water, in summer too: about {heat} in the water of a \
             year for {} people. Its lockout must stop the heating alone.",
            whole(water.people)
        )
    };
    out.push_str(&wrapped("  ", &says));
}

fn whole(x: f64) -> String {
    Say::hours(x.round().max(0.0) as u32)
}
