//! `test joints`: every flare with its torque and wrench, every brazed joint, and who made it.

use physics::tube::Tube;
use reckon::Verdict;
use serde_json::json;
use startup::caution::Step;
use startup::joints::{
    Joint, both, complaints, read_nitrogen_m3_per_s, read_torque_nm, usual_torque_nm,
    wrench_setting_nm,
};
use units::Dim;

use super::Day;
use super::asked::OfDay;
use super::page::{item, para, tube_of};
use super::record::Book;
use super::sheet::{FlareIn, Text};
use super::view::{JointView, JointsView, NORTHWALL};
use crate::refusal::{Fault, Refusal};
use crate::report::Report;
use crate::say::heading;

/// A flare that the job asks for.
struct Asked {
    place: String,
    tube: Tube,
    /// By the sheet of the unit whose nut it is, N m.
    sheet_nm: Option<(f64, f64)>,
}

/// Flares that the job asks for.
fn asked(day: &Day) -> Vec<Asked> {
    let Some(job) = &day.job else {
        return Vec::new();
    };
    let mut out = Vec::new();
    for line in &job.asked.lines {
        let Some((liquid, gas)) = super::job::tubes(line) else {
            continue;
        };
        for end in ["head", "outdoor"] {
            for (what, tube) in [("liquid", liquid), ("gas", gas)] {
                out.push(Asked {
                    place: format!("{}, {end}, {what}", line.head),
                    tube,
                    sheet_nm: job.flare_nm(&line.head, end == "head", tube),
                });
            }
        }
    }
    out
}

fn torque(day: &Day, place: &str, text: &Text) -> Result<f64, Refusal> {
    read_torque_nm(text.get_ref()).map_err(|e| {
        day.fault(place, text, format!("{} is {}", e.what, e.got))
            .allowed(e.usable)
            .into()
    })
}

/// What the nut asks for and what the wrench is set to.
fn wanted(day: &Day, tube: Tube, sheet: Option<(f64, f64)>) -> Result<Wanted, Refusal> {
    let Some(sheet_nm) = sheet.or_else(|| usual_torque_nm(tube)) else {
        return Err(day.missing(
            "flare.sheet",
            "no usual torque is known for this tube: sheet = [\"97 N m\", \"120 N m\"]",
        ));
    };
    let middle = 0.5 * (sheet_nm.0 + sheet_nm.1);
    let wrench_nm = match &day.file.wrench {
        None => None,
        Some(w) => {
            let l = day.value("wrench.length", &w.length, Dim::SmallLength)?;
            let e = day.value("wrench.crowfoot", &w.crowfoot, Dim::SmallLength)?;
            Some(wrench_setting_nm(middle, l, e).map_err(|e| day.wrong("wrench", &e))?)
        }
    };
    Ok(Wanted {
        sheet_nm,
        middle,
        wrench_nm,
        usual: sheet.is_none(),
    })
}

struct Wanted {
    sheet_nm: (f64, f64),
    middle: f64,
    wrench_nm: Option<f64>,
    usual: bool,
}

fn flare(day: &Day, f: &FlareIn, asked: &[Asked]) -> Result<(JointView, bool), Refusal> {
    let place = f.place.get_ref();
    let known = asked.iter().find(|a| &a.place == place);
    let tube = match (known.map(|a| a.tube), &f.tube) {
        (Some(_), Some(t)) => {
            return Err(day
                .fault("flare.tube", t, "the job says the tube already")
                .mend("take the line out here")
                .into());
        }
        (Some(tube), None) => tube,
        (None, Some(t)) => day.tube("flare.tube", t)?,
        (None, None) => {
            let names: Vec<&str> = asked.iter().map(|a| a.place.as_str()).collect();
            let fault = day.fault("flare.place", &f.place, "the job has no such joint");
            return Err(fault
                .allowed(names.join("; "))
                .mend("name it so, or say its tube")
                .into());
        }
    };
    let sheet = match &f.sheet {
        Some((a, b)) => Some((
            torque(day, "flare.sheet", a)?,
            torque(day, "flare.sheet", b)?,
        )),
        None => None,
    };
    let by_sheet = known.and_then(|a| a.sheet_nm);
    if let (Some((typed, _)), Some((least, most))) = (&f.sheet, by_sheet) {
        return Err(day
            .fault(
                "flare.sheet",
                typed,
                "the unit's sheet says the torque already",
            )
            .got(format!("{} to {}", both(least), both(most)))
            .mend("take the line out here, or mend the sheet")
            .into());
    }
    let w = wanted(day, tube, sheet.or(by_sheet))?;
    let made = match &f.torque {
        Some(t) => torque(day, "flare.torque", t)?,
        // initials without a torque: made with the wrench set as the list says
        None => w.middle,
    };
    let joint = Joint::Flare {
        place: place.clone(),
        torque_nm: made,
        sheet_nm: w.sheet_nm,
        initials: f.initials.clone(),
    };
    let mut view = view(&joint, Some(tube), w.wrench_nm);
    view.torque_nm = Some(made);
    view.sheet_nm = Some(w.sheet_nm);
    Ok((view, w.usual))
}

fn view(joint: &Joint, tube: Option<Tube>, wrench_nm: Option<f64>) -> JointView {
    let complaints = complaints(joint);
    let (kind, place, initials, nitrogen) = match joint {
        Joint::Flare {
            place, initials, ..
        } => ("flare", place, initials, None),
        Joint::Brazed {
            place,
            initials,
            nitrogen_m3_per_s,
        } => ("brazed", place, initials, Some(*nitrogen_m3_per_s)),
    };
    JointView {
        place: place.clone(),
        kind,
        tube_m: tube.map(Tube::outside_m),
        sheet_nm: None,
        wrench_nm,
        torque_nm: None,
        nitrogen_m3_per_s: nitrogen,
        initials: initials.clone(),
        verdict: if complaints.is_empty() {
            Verdict::Holds
        } else {
            Verdict::Fails
        }
        .words(),
        complaints,
    }
}

/// Every joint, as asked and as made; whether a usual torque stands in for the sheet's.
fn all(day: &Day) -> Result<(Vec<JointView>, bool), Refusal> {
    let asked = asked(day);
    let mut made = Vec::new();
    let mut usual = false;
    for f in &day.file.flare {
        let (view, by_usual) = flare(day, f, &asked)?;
        usual |= by_usual;
        made.push(view);
    }
    for b in &day.file.brazed {
        let flow = read_nitrogen_m3_per_s(b.nitrogen.get_ref()).map_err(|e| {
            day.fault(
                "brazed.nitrogen",
                &b.nitrogen,
                format!("{} is {}", e.what, e.got),
            )
            .allowed(e.usable)
        })?;
        let joint = Joint::Brazed {
            place: b.place.get_ref().clone(),
            nitrogen_m3_per_s: flow,
            initials: b.initials.clone(),
        };
        made.push(view(&joint, None, None));
    }
    for (i, joint) in made.iter().enumerate() {
        if made.iter().take(i).any(|m| m.place == joint.place) {
            let text = (day.file.flare.iter().map(|f| &f.place))
                .chain(day.file.brazed.iter().map(|b| &b.place))
                .rfind(|t| t.get_ref() == &joint.place);
            return Err(text.map_or_else(
                || day.missing("flare", "one entry for a joint"),
                |t| {
                    day.fault("flare.place", t, "this joint is noted twice")
                        .mend("one entry for a joint; a correction is made with --corrects")
                        .into()
                },
            ));
        }
    }
    let mut out = Vec::new();
    for Asked {
        place,
        tube,
        sheet_nm,
    } in asked
    {
        if let Some(at) = made.iter().position(|m| m.place == place) {
            out.push(made.remove(at));
            continue;
        }
        let w = wanted(day, tube, sheet_nm)?;
        usual |= w.usual;
        out.push(JointView {
            place,
            kind: "flare",
            tube_m: Some(tube.outside_m()),
            sheet_nm: Some(w.sheet_nm),
            wrench_nm: w.wrench_nm,
            torque_nm: None,
            nitrogen_m3_per_s: None,
            initials: String::new(),
            verdict: Verdict::CannotTell.words(),
            complaints: vec!["nobody has noted it yet".to_owned()],
        });
    }
    out.extend(made);
    Ok((out, usual))
}

fn shown(joint: &JointView) -> String {
    let tube = joint
        .tube_m
        .map_or(String::new(), |m| format!(", {}", tube_of(m)));
    let mut text = item("", &format!("{}{tube}", joint.place));
    if let Some((low, high)) = joint.sheet_nm {
        let set = joint.wrench_nm.map_or(String::new(), |s| {
            format!("; set this wrench to {}", both(s))
        });
        text.push_str(&item(
            "  ",
            &format!("{} to {}{set}", both(low), both(high)),
        ));
    }
    let how = match (joint.torque_nm, joint.nitrogen_m3_per_s) {
        (Some(t), _) => format!("made with {}, {}", both(t), joint.initials),
        (_, Some(q)) => format!(
            "brazed with nitrogen at {:.1} ft3/h, {}",
            q * 3600.0 / 0.028_316_846_592,
            joint.initials
        ),
        _ => joint.complaints.join("; "),
    };
    text.push_str(&item("  ", &format!("{}: {how}", joint.verdict)));
    if joint.verdict == Verdict::Fails.words() {
        for c in &joint.complaints {
            text.push_str(&item("  ! ", c));
        }
    }
    text
}

/// Joints noted of all, for the other steps to remind of.
pub fn noted(day: &Day) -> Result<Option<String>, Refusal> {
    let (joints, _) = all(day)?;
    let open = joints.iter().filter(|j| j.verdict != "holds").count();
    Ok((open > 0).then(|| {
        format!(
            "{open} of {} joints are not noted or do not hold: `northwall test joints`.",
            joints.len()
        )
    }))
}

/// `test joints`.
pub fn answer(day: &Day, of: &OfDay) -> Result<Report, Refusal> {
    let (joints, usual) = all(day)?;
    let mut text = heading("Joints");
    text.push_str(&day.cautions(Step::Joints)?);
    if joints.is_empty() {
        return Err(day.missing(
            "flare",
            "a [[flare]] or [[brazed]] for each joint, or job = \"job.toml\"",
        ));
    }
    for joint in &joints {
        text.push_str(&shown(joint));
    }
    let count = |v: Verdict| joints.iter().filter(|j| j.verdict == v.words()).count();
    text.push_str(&para(&format!(
        "{} joints: {} hold, {} fail, {} not noted.",
        joints.len(),
        count(Verdict::Holds),
        count(Verdict::Fails),
        count(Verdict::CannotTell)
    )));
    if usual {
        text.push_str(&para(
            "Where a unit's data say no torque, the usual one of the tube stands in; what the sheet in the carton says goes first.",
        ));
    }
    let mut kept = Vec::new();
    if let Some(path) = &of.record {
        let at = day.now()?;
        let mut book = Book::open(path, at, &day.file.who)?;
        for joint in joints
            .iter()
            .filter(|j| !j.initials.is_empty() || j.verdict == "fails")
        {
            let says = json!(joint);
            let old = book
                .standing("joint")
                .iter()
                .find(|r| r.says.get("place") == says.get("place"))
                .map(|r| (r.n, r.says == says));
            match (old, of.correction()) {
                (Some((_, true)), _) => continue,
                (Some((n, false)), Some((which, why))) if which == n => {
                    book.add(at, &day.file.who, "joint", says, Some((n, why)))?;
                }
                (Some((n, false)), _) => {
                    return Err(Fault::flag(
                        "--corrects",
                        format!("{} stands otherwise in record {n}", joint.place),
                    )
                    .mend(format!("--corrects {n} --why TEXT, which keeps both"))
                    .into());
                }
                (None, _) => {
                    book.add(at, &day.file.who, "joint", says, None)?;
                }
            }
            kept.push(book.last());
        }
        text.push_str(&super::record::told(&kept));
    }
    let fails = count(Verdict::Fails) > 0;
    let mut report = Report::new(
        text,
        &JointsView {
            northwall: NORTHWALL,
            joints,
            kept,
        },
    );
    report.code = u8::from(fails);
    Ok(report)
}
