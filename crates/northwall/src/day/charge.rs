//! `charge`: whether the tests hold, the release, weighing in, label and ledger.

use std::path::Path;

use reckon::Verdict;
use serde_json::{Value, json};
use startup::caution::Step;
use startup::charge::{Movement, WeighIn, balance, label, release_steps, weigh_in};
use units::Dim;

use super::Day;
use super::asked::OfDay;
use super::page::{item, para};
use super::record::{Book, keep, of_unit, told};
use super::sheet::{ChargeIn, Text};
use super::view::{BeforeView, ChargeView, LedgerView, NORTHWALL, WeighedView};
use crate::refusal::Refusal;
use crate::report::Report;
use crate::say::heading;

/// The last word of the record on the two tests.
fn before(day: &Day, record: Option<&Path>) -> Result<Vec<BeforeView>, Refusal> {
    let mut out = vec![
        BeforeView {
            what: "pressure",
            verdict: Verdict::CannotTell.words(),
            record: None,
        },
        BeforeView {
            what: "vacuum",
            verdict: Verdict::CannotTell.words(),
            record: None,
        },
    ];
    let Some(path) = record else { return Ok(out) };
    let book = Book::open(path, day.now()?, &day.file.who)?;
    for view in &mut out {
        let kind = format!("{}-verdict", view.what);
        let Some((n, says)) = book.standing(&kind).last().map(|r| (r.n, r.says.clone())) else {
            continue;
        };
        view.record = Some(n);
        view.verdict = match says.pointer("/answer/verdict").and_then(Value::as_str) {
            Some("holds") => Verdict::Holds.words(),
            Some("fails") => Verdict::Fails.words(),
            _ => Verdict::CannotTell.words(),
        };
    }
    Ok(out)
}

fn before_words(b: &BeforeView) -> String {
    match (b.verdict, b.record) {
        ("holds", Some(n)) => format!("{} test: holds (record {n})", b.what),
        ("fails", Some(n)) => {
            format!(
                "{} test: fails (record {n}): leave the valves shut, mend, test again",
                b.what
            )
        }
        (_, Some(n)) => format!(
            "{} test: cannot tell (record {n}): leave the valves shut until it holds",
            b.what
        ),
        (_, None) => format!(
            "{} test: not in the record: leave the valves shut until it holds",
            b.what
        ),
    }
}

/// The weighing, from the file and what the job asks.
fn weighing(day: &Day, c: &ChargeIn) -> Result<WeighIn, Refusal> {
    let mass = |place: &str, t: &Text| day.value(place, t, Dim::Mass);
    let of = |place: &str, typed: &Option<Text>, known: Option<f64>| match (known, typed) {
        (Some(kg), _) => Ok(Some(kg)),
        (None, Some(t)) => mass(place, t).map(Some),
        (None, None) => Ok(None),
    };
    let job = day.job.as_ref();
    let missing = |key: &str| {
        let why = job.map_or(String::new(), |j| {
            format!("; `northwall lines {}` says why the job has none", j.shown)
        });
        day.missing(key, &format!("{key} = \"...\" with its mass{why}"))
    };
    Ok(WeighIn {
        factory_kg: of(
            "charge.factory",
            &c.factory,
            job.and_then(|j| j.asked.factory_kg),
        )?
        .ok_or_else(|| missing("charge.factory"))?,
        trim_kg: of("charge.trim", &c.trim, job.and_then(|j| j.asked.trim_kg))?
            .ok_or_else(|| missing("charge.trim"))?,
        most_kg: of("charge.most", &c.most, job.and_then(|j| j.asked.most_kg))?,
        before_kg: mass("charge.before", &c.before)?,
        after_kg: mass("charge.after", &c.after)?,
        scale_kg: mass("charge.scale_within", &c.scale_within)?,
    })
}

/// All that moved: the charge's own cylinder first, then the others.
fn movements(day: &Day, own: Option<(&ChargeIn, &WeighIn)>) -> Result<Vec<Movement>, Refusal> {
    let mut out: Vec<Movement> = own
        .map(|(c, w)| Movement {
            cylinder: c.cylinder.clone(),
            before_kg: w.before_kg,
            after_kg: w.after_kg,
            system_kg: w.trim_kg,
        })
        .into_iter()
        .collect();
    for m in &day.file.movement {
        out.push(Movement {
            cylinder: m.cylinder.clone(),
            before_kg: day.value("movement.before", &m.before, Dim::Mass)?,
            after_kg: day.value("movement.after", &m.after, Dim::Mass)?,
            system_kg: day.value("movement.system", &m.system, Dim::Mass)?,
        });
    }
    Ok(out)
}

/// What goes back into the job file.
fn for_the_job(day: &Day, c: &ChargeIn, w: &WeighIn, on: &str) -> Result<Option<String>, Refusal> {
    let Some(job) = &day.job else { return Ok(None) };
    let (who, name) = (&day.file.who, day.refrigerant()?.name());
    let (outdoor, cylinder) = (&job.asked.outdoor, &c.cylinder);
    Ok(Some(format!(
        "[[as_built]]\nwho = {who:?}\nwhen = \"{on}\"\noutdoor = {outdoor:?}\ncharge = \"{:.0} g\"\n\n\
         [[weighing]]\ncylinder = {cylinder:?}\noutdoor = {outdoor:?}\nrefrigerant = \"{name}\"\n\
         day = \"{on}\"\nbefore = \"{:.3} kg\"\nafter = \"{:.3} kg\"\nwho = {who:?}\n",
        1000.0 * (w.before_kg - w.after_kg),
        w.before_kg,
        w.after_kg
    )))
}

/// `charge`.
pub fn answer(day: &Day, of: &OfDay) -> Result<Report, Refusal> {
    let before = before(day, of.record.as_deref())?;
    let mut fails = before.iter().any(|b| b.verdict == "fails");
    let mut text = heading("Charge and release");
    text.push_str(&day.cautions(Step::Charge)?);
    for b in &before {
        text.push_str(&item("  ", &before_words(b)));
    }
    let steps = release_steps();
    for (i, step) in steps.iter().enumerate() {
        text.push_str(&item(&format!("{}. ", i + 1), step));
    }
    let written = day.now()?.written();
    let on = written.get(..10).unwrap_or(&written);
    let mut view = ChargeView {
        northwall: NORTHWALL,
        before,
        steps: steps.to_vec(),
        weighed: None,
        opened: None,
        ledger: None,
        label: None,
        for_the_job: None,
        kept: None,
    };
    let own = match &day.file.charge {
        Some(c) => Some((c, weighing(day, c)?)),
        None => None,
    };
    if let Some((c, w)) = &own {
        let a = weigh_in(w).map_err(|e| day.wrong("charge", &e))?;
        fails |= a.verdict == Verdict::Fails;
        text.push_str(&para(&format!(
            "{}. {} {}",
            a.verdict.words(),
            a.says,
            a.mend
        )));
        view.opened = c.opened.clone().filter(|o| !o.trim().is_empty());
        let early: Vec<&str> = (view.before.iter())
            .filter(|b| b.verdict != "holds")
            .map(|b| b.what)
            .collect();
        text.push_str(&para(&match &view.opened {
            None => {
                "Nobody has noted that the valves are open and the caps on: opened = \"initials\"."
                    .to_owned()
            }
            Some(who) if early.is_empty() => format!("Valves open, caps on: {who}."),
            Some(who) => {
                fails = true;
                format!(
                    "fails: {who} opened the valves, and nothing in the record says that the {} \
                     test holds. If it did, keep it with --record; if not, recover, and test.",
                    early.join(" and the ")
                )
            }
        }));
        let l = label(day.refrigerant()?, w, on, &day.file.who);
        text.push_str("Label:\n");
        for line in l.lines() {
            text.push_str(&format!("  {line}\n"));
        }
        view.label = Some(l);
        view.for_the_job = for_the_job(day, c, w, on)?;
        view.weighed = Some(WeighedView {
            verdict: a.verdict.words(),
            factory_kg: w.factory_kg,
            trim_kg: w.trim_kg,
            added_kg: a.added_kg,
            total_kg: a.total_kg,
            says: a.says,
            mend: a.mend,
        });
    }
    let moved = movements(day, own.as_ref().map(|(c, w)| (*c, w)))?;
    if !moved.is_empty() {
        let (verdict, off, says) = balance(&moved).map_err(|e| day.wrong("movement", &e))?;
        fails |= verdict == Verdict::Fails;
        text.push_str(&para(&format!("Ledger: {}. {says}", verdict.words())));
        view.ledger = Some(LedgerView {
            verdict: verdict.words(),
            unaccounted_kg: off,
            says,
        });
    }
    if let (Some(lines), Some(job)) = (&view.for_the_job, &day.job) {
        text.push_str(&para(&format!("For {}, once it is right:", job.shown)));
        for line in lines.lines() {
            text.push_str(&format!("  {line}\n"));
        }
    }
    view.kept = keep(day, of, "charge", of_unit(day, json!(view)))?;
    text.push_str(&told(view.kept.as_slice()));
    let mut report = Report::new(text, &view);
    report.code = u8::from(fails);
    Ok(report)
}
