//! Bills for people.

use std::path::Path;

use plan::{Billed, BilledCarrier, Plan};
use reckon::Verdict;
use review::{Band, By, Fit, Line, Reconciled, Refused};
use units::Dim;

use super::gather::Gathered;
use crate::say::{Say, Table, command_line, heading, plot, typed_path, wrapped};

/// A value with its band: `402 (350 to 455)`.
pub fn banded(band: Band, of: impl Fn(f64) -> String) -> String {
    format!("{} ({} to {})", of(band.mid), of(band.low), of(band.high))
}

pub fn text(plan: &Plan, gathered: &Gathered, billed: &Billed, path: &Path, say: Say) -> String {
    let mut out = heading(&plan.name);
    out.push_str(&wrapped(
        "",
        &format!("Temperatures: {}.", gathered.days_from),
    ));
    for note in &gathered.notes {
        out.push_str(&wrapped("", note));
    }
    for set in &gathered.sets {
        let Some(c) = billed
            .carriers
            .iter()
            .find(|c| c.bills.carrier == set.bills.carrier)
        else {
            continue;
        };
        out.push('\n');
        carrier(c, &set.how, say, &mut out);
    }
    out.push('\n');
    loss(plan, billed, path, say, &mut out);
    out
}

fn refusal(why: &Refused, out: &mut String) {
    out.push_str(&wrapped("  ", &format!("Cannot tell: {}.", why.says)));
    out.push_str(&wrapped(
        "    ",
        &format!(
            "Got {}; usable: {}. What would do: {}.",
            why.got, why.usable, why.mend
        ),
    ));
}

fn name(c: &BilledCarrier) -> String {
    let word = c.bills.carrier.word();
    let first = word.get(..1).unwrap_or("").to_uppercase();
    format!("{first}{}", word.get(1..).unwrap_or(""))
}

fn carrier(c: &BilledCarrier, how: &[String], say: Say, out: &mut String) {
    let iso = review::calendar::iso;
    let from = c
        .bills
        .periods
        .first()
        .map_or(String::new(), |p| iso(p.from));
    let to = c.bills.periods.last().map_or(String::new(), |p| iso(p.to));
    let what = if c.bills.deliveries { "fills" } else { "bills" };
    out.push_str(&heading(&format!(
        "{}: {} {what}, {from} to {to}",
        name(c),
        c.bills.periods.len()
    )));
    for line in how {
        out.push_str(&wrapped("  ", line));
    }
    for note in c.bills.notes.iter().chain(&c.notes) {
        out.push_str(&wrapped("  ", &format!("Note: {note}.")));
    }
    if let Ok(fit) = &c.fit {
        points(fit, say, out);
    }
    match (&c.line, &c.fit) {
        (Ok(line), _) => line_table(line, say, out),
        (Err(why), Ok(fit)) => {
            out.push_str(&wrapped(
                "  ",
                &format!("By least squares: {}.", fit.kind.word()),
            ));
            refusal(why, out);
        }
        (Err(why), Err(_)) => refusal(why, out),
    }
    // of a line that is not used nobody needs to hear where it falls short
    for complaint in c.complaints.iter().filter(|_| c.line.is_ok()) {
        let text = format!(
            "Short of the rules: {}; {}.",
            complaint.says, complaint.mend
        );
        out.push_str(&wrapped("  ", &text));
    }
}

/// Use a day over outdoor temperature, with the line.
fn points(fit: &Fit, say: Say, out: &mut String) {
    const COLUMNS: usize = 60;
    let means: Vec<f64> = fit
        .observations
        .iter()
        .map(review::Observation::mean_c)
        .collect();
    let low = means.iter().copied().fold(f64::INFINITY, f64::min);
    let high = means.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let span = (high - low).max(1.0);
    let column = |c: f64| (((c - low) / span) * (COLUMNS - 1) as f64).round() as usize;
    let (mut bills, mut line) = (vec![f64::NAN; COLUMNS], vec![f64::NAN; COLUMNS]);
    for (o, c) in fit.observations.iter().zip(&means) {
        if let (Some(b), Some(l)) = (bills.get_mut(column(*c)), line.get_mut(column(*c))) {
            *b = o.power_w;
            *l = fit.fitted_w(o);
        }
    }
    let top = bills
        .iter()
        .copied()
        .filter(|v| v.is_finite())
        .fold(0.0, f64::max)
        * 1.05;
    let label = |w: f64| say.load(w);
    out.push_str(&plot(&[('-', line), ('o', bills)], top, 9, &label));
    let foot = format!(
        "{} to {} outdoors, each o a bill, - the line",
        say.temperature(low),
        say.temperature(high)
    );
    out.push_str(&wrapped("           ", &foot));
}

fn line_table(line: &Line, say: Say, out: &mut String) {
    let mut table = Table::new(["", "value", "low", "high", ""]).words(&[0, 4]);
    let mut row = |what: &str, band: Band, of: &dyn Fn(f64) -> String, unit: &str| {
        table.row([
            what.to_owned(),
            of(band.mid),
            of(band.low),
            of(band.high),
            unit.to_owned(),
        ]);
    };
    let per = |v: f64| say.number(v, Dim::Conductance);
    row(
        "more for each degree colder",
        line.slope_w_per_k,
        &per,
        say.unit(Dim::Conductance),
    );
    row(
        "the same all year",
        line.base_w,
        &|v| say.load_number(v),
        say.load_unit(),
    );
    row(
        "begins below",
        line.balance_c,
        &|v| say.degrees(v),
        say.degree(),
    );
    out.push_str(&table.text());
    match &line.by {
        By::Fit(fit) => out.push_str(&wrapped(
            "  ",
            &format!(
                "The cold explains {:.1} %; scatter {:.1} % of the mean (15 % is the most for \
                 months); {} bills, {} of the heating season. Low and high: 9 times in 10.",
                fit.r2 * 100.0,
                fit.cv_rmse * 100.0,
                fit.bills(),
                fit.heating_periods()
            ),
        )),
        By::FillToFill { fills, summer } => {
            let text = format!(
                "Too few bills for a fit: use over degree days of {fills} fills, balance point \
                 assumed{}.",
                if *summer {
                    ", the summer fill taken off"
                } else {
                    ""
                }
            );
            out.push_str(&wrapped("  ", &text));
        }
    }
    for note in &line.notes {
        out.push_str(&wrapped("  ", &format!("Note: {note}.")));
    }
}

fn loss(plan: &Plan, billed: &Billed, path: &Path, say: Say, out: &mut String) {
    let design = say.temperature(plan.site.heating.used_c);
    out.push_str(&heading("Heat loss of the house"));
    let Ok(loss) = &billed.loss else {
        if let Err(why) = &billed.loss {
            refusal(why, out);
        }
        return;
    };
    let unit = say.unit(Dim::Conductance);
    let load = format!("load at {design}\n{}", say.load_unit());
    let per = format!("loss\n{unit}");
    let mut table = Table::new([
        "",
        per.as_str(),
        "low",
        "high",
        load.as_str(),
        "low",
        "high",
    ]);
    let h = |v: f64| say.number(v, Dim::Conductance);
    let q = |v: f64| say.load_number(v);
    let (b, l) = (loss.loss_w_per_k, loss.load_w);
    table.row([
        "by the bills".to_owned(),
        h(b.mid),
        h(b.low),
        h(b.high),
        q(l.mid),
        q(l.low),
        q(l.high),
    ]);
    let blank = String::new;
    if let (Some(s), Some(across)) = (&billed.survey, billed.across_k) {
        let w = s.loss_w_per_k;
        table.row([
            "survey, same way".to_owned(),
            h(w),
            blank(),
            blank(),
            q(w * across),
            blank(),
            blank(),
        ]);
    }
    if let Some((w, per_k)) = billed.survey_load {
        table.row([
            "survey, design night".to_owned(),
            h(per_k),
            blank(),
            blank(),
            q(w),
            blank(),
            blank(),
        ]);
    }
    out.push_str(&table.text());
    if billed.survey.is_some() {
        out.push_str(&wrapped(
            "  ",
            "\"Same way\" is the line through the plan's own year, so average wind and leaks: it is \
             what the bills are set against. The design night has more wind and leaks than that.",
        ));
    }
    for u in &loss.unknowns {
        let percent = |v: f64| format!("{:.0}", v * 100.0);
        let text = format!(
            "In the band: {}, {} % ({}).",
            u.what,
            banded(u.band, percent),
            u.known.word()
        );
        out.push_str(&wrapped("  ", &text));
    }
    out.push_str(&wrapped(
        "  ",
        "Not in the bills: wood and plug-in heaters nobody told of, rooms kept shut, months away. \
         Ask.",
    ));
    if billed.typical {
        out.push_str(&wrapped(
            "  ",
            "Daily means of the nearest station for those months would narrow the band: --temperatures.",
        ));
    }
    if let (Some(r), Some(s)) = (&billed.reconciled, &billed.survey) {
        out.push('\n');
        beside(r, s.balance_c, loss.balance_c, say, out);
    }
    out.push_str(&format!(
        "\nWhy:\n{}",
        command_line(&format!("why {} bills.load", typed_path(path)))
    ));
}

fn beside(r: &Reconciled, survey_c: Option<f64>, bills_c: Band, say: Say, out: &mut String) {
    let ratio = banded(r.ratio, |v| format!("{:.0}", v * 100.0));
    let words = match r.verdict {
        Verdict::Holds => "Bills and survey agree within 15 %",
        Verdict::Fails => "Bills and survey do not agree",
        Verdict::CannotTell => "Cannot tell whether bills and survey agree",
    };
    out.push_str(&heading(&format!(
        "{words}: bills are {ratio} % of the survey"
    )));
    let off = (r.ratio.mid - 1.0).abs();
    if r.verdict != Verdict::Holds || off > 0.05 {
        out.push_str(&wrapped(
            "  ",
            "What could close the gap, what needs to move least for how it is known first:",
        ));
        for (i, c) in r.closers.iter().take(6).enumerate() {
            let side = c.side.word();
            let place = if c.place.is_empty() {
                String::new()
            } else {
                format!(", {}", c.place)
            };
            let share = c.closes();
            let words = if share >= 1.0 {
                format!(
                    "{:.2} times would close it, and it may well be so",
                    c.factor
                )
            } else if c.factor > 0.0 {
                format!(
                    "{:.2} times would close it; as far as it may be off it closes {:.0} %",
                    c.factor,
                    share * 100.0
                )
            } else {
                format!("as far as it may be off it closes {:.0} %", share * 100.0)
            };
            let text = format!(
                "{}. {} ({side}{place}; {}): {words}. {}",
                i + 1,
                c.what,
                c.known.word(),
                c.would_tell
            );
            let body = wrapped("     ", &text);
            out.push_str(&format!("  {}", body.trim_start()));
        }
    }
    if let Some(s) = survey_c {
        let apart = bills_c.mid - s;
        let words = if bills_c.holds(s) {
            "no telling difference"
        } else if apart < 0.0 {
            "rooms are kept cooler, or there is more free heat, than the job says"
        } else {
            "rooms are kept warmer, or there is less free heat, than the job says"
        };
        let text = format!(
            "Heating begins below {} by the bills, {} by the survey: {words}.",
            banded(bills_c, |c| say.degrees(c)),
            say.temperature(s)
        );
        out.push_str(&wrapped("  ", &text));
    }
}
