//! `charge`: joints, weighing in, label and ledger.

use std::path::Path;

use serde_json::json;
use startup::caution::Step;
use startup::charge::{Movement, WeighIn, balance, label, weigh_in};
use startup::joints::{Joint, complaints, usual_torque_nm, wrench_setting_nm};
use units::Dim;

use super::Day;
use crate::refusal::Refusal;
use crate::report::Report;
use crate::say::{heading, wrapped};

fn joints(day: &Day) -> Result<(String, Vec<Joint>, bool), Refusal> {
    let mut text = String::new();
    let mut made = Vec::new();
    let mut bad = false;
    for f in &day.file.flare {
        let tube = day.tube("flare.tube", &f.tube)?;
        let Some(sheet_nm) = f.sheet.or_else(|| usual_torque_nm(tube)) else {
            return Err(day
                .fault(
                    "flare.sheet",
                    &f.tube,
                    "no usual torque is known for this tube",
                )
                .mend("sheet = [least, most] in N m")
                .into());
        };
        let middle = 0.5 * (sheet_nm.0 + sheet_nm.1);
        let mut line = format!(
            "{}: {:.0} to {:.0} N m ({:.0} to {:.0} ft lb)",
            f.place,
            sheet_nm.0,
            sheet_nm.1,
            sheet_nm.0 / 1.355_818,
            sheet_nm.1 / 1.355_818
        );
        if let Some(w) = &day.file.wrench {
            let l = day.value("wrench.length", &w.length, Dim::SmallLength)?;
            let e = day.value("wrench.crowfoot", &w.crowfoot, Dim::SmallLength)?;
            let set = wrench_setting_nm(middle, l, e).map_err(|e| day.wrong("wrench", &e))?;
            line.push_str(&format!("; set this wrench to {set:.0} N m"));
        }
        line.push_str(&format!("; made {:.0} N m, {}", f.torque, f.initials));
        text.push_str(&wrapped("  ", &line));
        made.push(Joint::Flare {
            place: f.place.clone(),
            torque_nm: f.torque,
            sheet_nm,
            initials: f.initials.clone(),
        });
    }
    for b in &day.file.brazed {
        let flow = day.value("brazed.nitrogen", &b.nitrogen, Dim::VolumeFlow)?;
        text.push_str(&wrapped(
            "  ",
            &format!("{}: brazed, {}", b.place, b.initials),
        ));
        made.push(Joint::Brazed {
            place: b.place.clone(),
            nitrogen_m3_per_s: flow,
            initials: b.initials.clone(),
        });
    }
    for joint in &made {
        for c in complaints(joint) {
            bad = true;
            text.push_str(&wrapped("  fails: ", &c));
        }
    }
    Ok((text, made, bad))
}

/// `charge`.
pub fn answer(day: &Day, record: Option<&Path>) -> Result<Report, Refusal> {
    let mut text = String::new();
    let (said, made, mut fails) = joints(day)?;
    if !made.is_empty() {
        text.push_str(&heading("Joints"));
        text.push_str(&day.cautions(Step::Joints)?);
        text.push_str(&said);
    }
    text.push_str(&heading("Charge"));
    text.push_str(&day.cautions(Step::Charge)?);
    let now = day.now()?;
    let mut weighed = None;
    let mut label_text = None;
    if let Some(c) = &day.file.charge {
        let mass = |place: &str, t| day.value(place, t, Dim::Mass);
        let w = WeighIn {
            factory_kg: mass("charge.factory", &c.factory)?,
            trim_kg: mass("charge.trim", &c.trim)?,
            most_kg: c
                .most
                .as_ref()
                .map(|t| mass("charge.most", t))
                .transpose()?,
            before_kg: mass("charge.before", &c.before)?,
            after_kg: mass("charge.after", &c.after)?,
            scale_kg: mass("charge.scale_within", &c.scale_within)?,
        };
        let a = weigh_in(&w).map_err(|e| day.wrong("charge", &e))?;
        fails |= a.verdict == reckon::Verdict::Fails;
        text.push_str(&wrapped(
            "",
            &format!("{}. {} {}", a.verdict.words(), a.says, a.mend),
        ));
        let written = now.written();
        let l = label(
            day.refrigerant()?,
            &w,
            written.get(..10).unwrap_or(&written),
            &day.file.who,
        );
        text.push_str("Label:\n");
        for line in l.lines() {
            text.push_str(&format!("  {line}\n"));
        }
        label_text = Some(l);
        weighed = Some(a);
    }
    let mut ledger = None;
    if !day.file.movement.is_empty() {
        let mut movements = Vec::new();
        for m in &day.file.movement {
            movements.push(Movement {
                cylinder: m.cylinder.clone(),
                before_kg: day.value("movement.before", &m.before, Dim::Mass)?,
                after_kg: day.value("movement.after", &m.after, Dim::Mass)?,
                system_kg: day.value("movement.system", &m.system, Dim::Mass)?,
            });
        }
        let (verdict, off, says) = balance(&movements).map_err(|e| day.wrong("movement", &e))?;
        fails |= verdict == reckon::Verdict::Fails;
        text.push_str(&wrapped("", &format!("{}. {says}", verdict.words())));
        ledger = Some(json!({ "verdict": verdict, "unaccounted_kg": off }));
    }
    let json = json!({ "joints": made, "weighed": weighed, "label": label_text, "ledger": ledger });
    super::run::keep(day, record, "charge", &json, &mut text)?;
    Ok(Report {
        text,
        json,
        svg: None,
        code: u8::from(fails),
    })
}
