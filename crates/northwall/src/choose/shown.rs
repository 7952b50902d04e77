//! What survives, for the terminal.

use season::choose::{Against, Aim, Found, Survivor};
use units::{Dim, System};

use super::units::words;
use crate::files::Loaded;
use crate::say::{Say, Table, cut, heading, wrapped, wrapped_to};

pub fn text(found: &Found, loaded: &Loaded, show: usize, say: Say) -> String {
    let mut out = heading(&loaded.job.name);
    let says = format!(
        "{} sets of units out of {} sheets were looked at over the year of {}, heads in {} sets of \
         rooms. {} survive: none of the others is as good in everything and better in something. \
         Only these were run whole; their numbers are those `season` would give.",
        Say::hours(found.looked_at as u32),
        loaded.catalogue.len(),
        loaded.weather.station.name,
        found.layouts,
        found.survivors.len(),
    );
    out.push_str(&wrapped("  ", &says));
    if let Some(left_out) = left_out(found) {
        out.push_str(&wrapped("  ", &left_out));
    }
    out.push('\n');
    if found.survivors.is_empty() {
        out.push_str(&wrapped("  ", "No set of units has a year: see whether heads and outdoor units of the catalogue go together."));
        return out;
    }
    out.push_str(&heading(
        "What survives, the one that gives up least in all together first",
    ));
    table(found, loaded, show, say, &mut out);
    out.push('\n');
    for (i, s) in found.survivors.iter().take(show).enumerate() {
        reasons(i, s, found, loaded, say, &mut out);
    }
    if found.survivors.len() > show {
        let more = format!(
            "{} more survive; --show {} says why, --json has them all.",
            found.survivors.len() - show,
            found.survivors.len()
        );
        out.push_str(&wrapped("  ", &more));
    }
    out
}

fn left_out(found: &Found) -> Option<String> {
    let missing: Vec<&str> = Aim::ALL
        .iter()
        .filter(|a| !found.aims.contains(a))
        .map(|a| match a {
            Aim::Cost => "running cost (a price is missing)",
            Aim::Carbon => "carbon (an intensity is missing)",
            Aim::Equipment if found.without_price.is_empty() => {
                "the price of units (give --prices)"
            }
            Aim::Equipment => "the price of units (some have none)",
            other => other.word(),
        })
        .collect();
    if missing.is_empty() {
        return None;
    }
    let mut says = format!("Not weighed: {}.", missing.join("; "));
    if !found.without_price.is_empty() {
        let names: Vec<&str> = found
            .without_price
            .iter()
            .take(6)
            .map(String::as_str)
            .collect();
        says.push_str(&format!(" Without a price: {}.", names.join(", ")));
    }
    Some(says)
}

fn table(found: &Found, loaded: &Loaded, show: usize, say: Say, out: &mut String) {
    let comfort = comfort_unit(say);
    let money = &loaded.job.prices.currency;
    let heads = [
        String::new(),
        "rooms".to_owned(),
        "units".to_owned(),
        format!("cold\n{comfort}"),
        "cycling\nh".to_owned(),
        "cost".to_owned(),
        format!("carbon\n{}", say.unit(Dim::Carbon)),
        "holes".to_owned(),
    ];
    let mut table = Table::new(heads.iter().map(String::as_str)).words(&[0, 1, 2]);
    for (i, s) in found.survivors.iter().take(show.max(12)).enumerate() {
        let e = &s.choice.equipment;
        let rooms: Vec<&str> = e.heads.iter().map(|h| h.room.as_str()).collect();
        let units: Vec<&str> = e.outdoors.iter().map(|o| o.unit.as_str()).collect();
        let m = &s.measure;
        table.row([
            (i + 1).to_string(),
            cut(&rooms.join(", "), 16),
            cut(&units.join(", "), 15),
            whole(comfort_of(m.comfort_k_h, say)),
            whole(m.cycling_h),
            m.cost
                .map_or("-".to_owned(), |c| format!("{money}{}", whole(c))),
            m.carbon_kg
                .map_or("-".to_owned(), |kg| say.number(kg, Dim::Carbon)),
            whole(m.holes),
        ]);
    }
    out.push_str(&table.text());
    let note = format!(
        "cold: {} below the setting times hours, all heated rooms; with a heater set lower behind \
         the heads, rooms without a head count too.",
        if say.system == System::Us {
            "degrees F"
        } else {
            "kelvin"
        }
    );
    out.push_str(&wrapped("  ", &note));
}

fn reasons(i: usize, s: &Survivor, found: &Found, loaded: &Loaded, say: Say, out: &mut String) {
    let first = format!("  {:<3}", i + 1);
    out.push_str(&wrapped_to(
        80,
        &first,
        "     ",
        &words(&s.choice.equipment),
    ));
    let mut says = Vec::new();
    if !s.best_in.is_empty() {
        let best: Vec<&str> = s.best_in.iter().map(|a| name(*a)).collect();
        says.push(format!(
            "None of those that survive is better in {}.",
            list(&best)
        ));
    }
    if let Some(beside) = &s.beside {
        let number = found
            .survivors
            .iter()
            .position(|o| o.choice.name == beside.choice.name);
        let which = number.map_or_else(|| words(&beside.choice.equipment), |n| (n + 1).to_string());
        let gains: Vec<String> = beside.worse().map(|d| less(d, loaded, say)).collect();
        let pays: Vec<String> = beside
            .better()
            .map(|(a, by)| more((a, -by), loaded, say))
            .collect();
        let gains = if gains.is_empty() {
            "nothing".to_owned()
        } else {
            list(&gains)
        };
        let pays = if pays.is_empty() {
            "nothing".to_owned()
        } else {
            list(&pays)
        };
        says.push(format!(
            "Beside {which}, the nearest: {gains}; for it {pays}."
        ));
    }
    if let Some(beaten) = &s.runner_up {
        says.push(runner_up(beaten, loaded, say));
    }
    if s.row.cannot_tell_h > 0 {
        says.push(format!(
            "In {} unit hours it is colder than the sheet tells: counted as no heat.",
            Say::hours(s.row.cannot_tell_h)
        ));
    }
    out.push_str(&wrapped("     ", &says.join(" ")));
    out.push('\n');
}

fn runner_up(beaten: &Against, loaded: &Loaded, say: Say) -> String {
    let lacks: Vec<String> = beaten.worse().map(|d| more(d, loaded, say)).collect();
    format!(
        "The nearest it beats, {}, has {} and is better in nothing.",
        words(&beaten.choice.equipment),
        list(&lacks)
    )
}

fn name(aim: Aim) -> &'static str {
    match aim {
        Aim::Comfort => "warmth",
        Aim::Cycling => "cycling",
        Aim::Cost => "running cost",
        Aim::Carbon => "carbon",
        Aim::Equipment => "price of units",
        Aim::Holes => "holes",
    }
}

fn less(difference: (Aim, f64), loaded: &Loaded, say: Say) -> String {
    said(difference, "less", "fewer", loaded, say)
}

fn more(difference: (Aim, f64), loaded: &Loaded, say: Say) -> String {
    said(difference, "more", "more", loaded, say)
}

fn said((aim, by): (Aim, f64), word: &str, count: &str, loaded: &Loaded, say: Say) -> String {
    let money = &loaded.job.prices.currency;
    match aim {
        Aim::Comfort => {
            let by = comfort_of(by, say);
            format!("{} {word} {} of cold", whole(by), comfort_unit(say))
        }
        Aim::Cycling => format!("{} {count} hours cycling", whole(by)),
        Aim::Cost => format!("{money}{} {word} a year", whole(by)),
        Aim::Carbon => format!("{} {word} carbon", say.of(by, Dim::Carbon)),
        Aim::Equipment => format!("{money}{} {word} for units", whole(by)),
        Aim::Holes if by < 1.5 => format!("1 {count} hole"),
        Aim::Holes => format!("{} {count} holes", whole(by)),
    }
}

fn comfort_of(k_h: f64, say: Say) -> f64 {
    if say.system == System::Us {
        1.8 * k_h
    } else {
        k_h
    }
}

fn comfort_unit(say: Say) -> &'static str {
    if say.system == System::Us {
        "F h"
    } else {
        "K h"
    }
}

fn whole(x: f64) -> String {
    Say::hours(x.round().max(0.0) as u32)
}

fn list<T: AsRef<str>>(words: &[T]) -> String {
    let words: Vec<&str> = words.iter().map(AsRef::as_ref).collect();
    match words.split_last() {
        None => String::new(),
        Some((last, [])) => (*last).to_owned(),
        Some((last, rest)) => format!("{} and {last}", rest.join(", ")),
    }
}
