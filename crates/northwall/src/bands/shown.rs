//! Bands for the terminal.

use reckon::Verdict;
use season::bands::{Band, Bands, Matters};
use units::{Dim, System};

use crate::files::Loaded;
use crate::say::{Say, Table, cut, heading, wrapped};

pub fn text(found: &Bands, loaded: &Loaded, bills: Option<&str>, say: Say) -> String {
    let mut out = heading(&loaded.job.name);
    let says = format!(
        "The year of {} houses that this one could be, by how each value of the job is known. Low \
         and high: one house in ten lies below, one in ten above. Seed {}; the same seed gives the \
         same numbers.",
        found.samples, found.seed
    );
    out.push_str(&wrapped("  ", &says));
    out.push('\n');
    if let Some(bills) = bills {
        out.push_str(&wrapped("  ", bills));
        out.push('\n');
    }
    if let Some(agreed) = &found.agreed {
        let by_survey = of(&agreed.survey_w_per_k, say, Dim::Conductance);
        let says = match agreed.verdict {
            Verdict::CannotTell => format!(
                "Cannot tell: the heat loss by the survey is {by_survey}, and of {} houses fewer than \
                 {} agree with the bills ({:.0} count in full). The bands below are the survey's \
                 alone. Look for what is wrong in one of the two.",
                agreed.looked_at,
                season::bands::FEWEST,
                agreed.effective
            ),
            _ => format!(
                "By the survey alone the heat loss is {by_survey}. Each house counts by how well it \
                 agrees with the bills; {:.0} of {} count in full.{}",
                agreed.effective,
                found.samples,
                if found.samples > found.asked {
                    format!(" Of the first {} too few did.", found.asked)
                } else {
                    String::new()
                }
            ),
        };
        out.push_str(&wrapped("  ", &says));
        out.push('\n');
    }
    house(found, say, &mut out);
    choices(found, loaded, say, &mut out);
    inputs(found, say, &mut out);
    out
}

fn house(found: &Bands, say: Say, out: &mut String) {
    out.push_str(&heading("The house"));
    let mut table = Table::new(["", "low", "middle", "high", "as entered"]);
    let mut row = |name: &str, unit: &str, b: &Band, number: &dyn Fn(f64) -> String| {
        table.row([
            format!("{name}, {unit}"),
            number(b.low),
            number(b.middle),
            number(b.high),
            number(b.as_entered),
        ]);
    };
    let loss = &found.house.loss_w_per_k;
    row(
        "heat loss as bills show it",
        say.unit(Dim::Conductance),
        loss,
        &|x| say.number(x, Dim::Conductance),
    );
    if let Some(load) = &found.house.load_w {
        row("asked on the design night", say.load_unit(), load, &|x| {
            say.load_number(x)
        });
    }
    out.push_str(&table.text());
    if let Some(says) = of_what("It comes of", &found.house.matters) {
        out.push_str(&wrapped("  ", &says));
    }
    out.push('\n');
}

fn choices(found: &Bands, loaded: &Loaded, say: Say, out: &mut String) {
    out.push_str(&heading("What is proposed"));
    let money = &loaded.job.prices.currency;
    for (name, of) in &found.choices {
        let bands = match of {
            Ok(bands) => bands,
            Err(why) => {
                out.push_str(&wrapped("  ", &format!("{name}: no year, {why}.")));
                continue;
            }
        };
        let says = format!(
            "{name}: carries the house in {:.0} of 100 of the houses this could be{}.",
            100.0 * bands.carries,
            if bands.carries_as_entered {
                ""
            } else {
                "; not as entered"
            }
        );
        out.push_str(&wrapped("  ", &says));
        let mut table = Table::new(["", "low", "middle", "high", "as entered"]);
        let whole = |x: f64| Say::hours(x.round().max(0.0) as u32);
        let mut row = |name: String, b: &Band, number: &dyn Fn(f64) -> String| {
            table.row([
                name,
                number(b.low),
                number(b.middle),
                number(b.high),
                number(b.as_entered),
            ]);
        };
        row("hours a room is short".to_owned(), &bands.short_h, &whole);
        row("unit hours cycling".to_owned(), &bands.cycling_h, &whole);
        if let Some(b) = &bands.cop {
            row("COP".to_owned(), b, &|x| format!("{x:.2}"));
        }
        if let Some(b) = &bands.heads_share {
            row("heads carry".to_owned(), b, &|x| say.of(x, Dim::Share));
        }
        if let Some(b) = &bands.cost {
            row("cost a year".to_owned(), b, &|x| {
                format!("{money}{}", whole(x))
            });
        }
        let coldest = format!("coldest hour of a room, {}", say.degree());
        row(coldest, &bands.least_c, &|x| say.degrees(x));
        out.push_str(&table.text());
        if let Some(says) = of_what("The cost comes of", &bands.cost_matters) {
            out.push_str(&wrapped("  ", &says));
        }
        out.push('\n');
    }
    out.push_str(&wrapped(
        "  ",
        &format!(
            "Carries: no room with a head is short by more than {} in more than 35 hours of the \
             year, and a heater gives such rooms 2 % of their heat at most.",
            say.of(1.0, units::Dim::TemperatureDifference)
        ),
    ));
    out.push('\n');
}

fn inputs(found: &Bands, say: Say, out: &mut String) {
    out.push_str(&heading("What is not known for certain"));
    let mut table = Table::new(["", "known", "1 in 10 under", "1 in 10 over"]).words(&[1]);
    for u in &found.inputs {
        let number = |x: f64| {
            if u.difference {
                let (x, unit) = if say.system == System::Us {
                    (1.8 * x, "F")
                } else {
                    (x, "K")
                };
                format!("{x:+.1} {unit}")
            } else {
                format!("{:+.0} %", 100.0 * (x - 1.0))
            }
        };
        table.row([
            cut(&u.name, 38),
            u.known.word().to_owned(),
            number(u.low),
            number(u.high),
        ]);
    }
    out.push_str(&table.text());
    out.push_str(&wrapped(
        "  ",
        "The widths are from memory and common practice, none from a source; see the decisions.",
    ));
}

fn of(b: &Band, say: Say, dim: Dim) -> String {
    format!("{} to {}", say.number(b.low, dim), say.of(b.high, dim))
}

/// The three inputs that matter most, if they do.
fn of_what(lead: &str, all: &[Matters]) -> Option<String> {
    let words: Vec<String> = all
        .iter()
        .filter(|m| m.share >= 0.05)
        .take(3)
        .map(|m| format!("{} ({:.0} %)", m.name, 100.0 * m.share))
        .collect();
    (!words.is_empty()).then(|| format!("{lead}: {}.", words.join(", ")))
}
