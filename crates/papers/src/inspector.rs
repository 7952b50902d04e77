//! The paper for the inspector: site, plates, circuit and panel, refrigerant and rooms, records.

use install::{Installation, Judged};
use reckon::Verdict;
use units::Dim;

use crate::block::Block;
use crate::desk::Input;
use crate::parts::{self, fact};

pub(crate) fn blocks(input: &Input<'_>) -> Vec<Block> {
    let words = input.words();
    let mut out = Vec::new();
    let Some(done) = input.plan.install.done() else {
        out.extend(job(input));
        out.extend(parts::plates(input, true));
        out.extend(records(input));
        return out;
    };
    out.push(verdict(input, done));
    out.extend(job(input));
    out.push(parts::heading(words.say("inspector.site")));
    let wall = plan::draw::wall(input.plan, input.job, input.system);
    out.extend(parts::picture(input, "picture.wall", wall));
    let outside = |j: &&Judged| j.place.starts_with("outdoor.") || j.place.starts_with("listener.");
    out.extend(parts::judged(
        input,
        done.place.iter().filter(outside),
        true,
    ));
    out.extend(parts::plates(input, true));
    out.push(parts::heading(words.say("inspector.circuit")));
    out.extend(parts::judged(input, &done.wires, true));
    out.push(parts::heading(words.say("inspector.rooms")));
    let room = |j: &&Judged| of_refrigerant(j);
    out.extend(parts::judged(input, done.lines.iter().filter(room), true));
    for label in &done.labels {
        out.push(Block::Facts {
            rows: vec![fact(words.say("inspector.label"), label.clone())],
        });
    }
    out.push(parts::heading(words.say("inspector.lines")));
    let side = plan::draw::side(input.plan, input.job, input.system);
    out.extend(parts::picture(input, "picture.side", side));
    out.extend(parts::judged(
        input,
        done.lines.iter().filter(|j| !of_refrigerant(j)),
        true,
    ));
    out.push(parts::heading(words.say("inspector.indoors")));
    out.extend(parts::judged(
        input,
        done.place.iter().filter(|j| !outside(j)),
        true,
    ));
    out.extend(records(input));
    out
}

fn of_refrigerant(j: &Judged) -> bool {
    j.place.starts_with("room.") || j.place.starts_with("outdoor.")
}

fn verdict(input: &Input<'_>, done: &Installation) -> Block {
    let words = input.words();
    let all = [&done.place, &done.lines, &done.wires];
    let count = |v: Verdict| {
        let judged = all.iter().flat_map(|rows| rows.iter());
        judged.filter(|j| j.verdict == v).count().to_string()
    };
    let (holds, fails) = (count(Verdict::Holds), count(Verdict::Fails));
    let open = count(Verdict::CannotTell);
    let values = [
        ("holds", holds.as_str()),
        ("fails", &fails),
        ("open", &open),
    ];
    Block::Verdict {
        text: words.fill("inspector.verdict", &values),
        small: words.say("inspector.verdict-small"),
    }
}

fn job(input: &Input<'_>) -> Vec<Block> {
    let words = input.words();
    let codes = &input.job.installation.codes;
    let paperwork = &input.job.paperwork;
    let none = || words.say("inspector.not-named");
    let or = |text: Option<&String>| text.cloned().unwrap_or_else(none);
    let permits = if codes.permits.is_empty() {
        none()
    } else {
        codes.permits.join("; ")
    };
    let owner = paperwork.owner.as_ref();
    let firm = paperwork.firm.as_ref();
    let rows = vec![
        fact(words.say("inspector.permits"), permits),
        fact(
            words.say("inspector.address"),
            or(owner.map(|o| &o.address)),
        ),
        fact(words.say("rebate.owner"), or(owner.map(|o| &o.name))),
        fact(words.say("rebate.firm"), or(firm.map(|f| &f.name))),
        fact(
            words.say("inspector.licence"),
            or(firm.and_then(|f| f.licence.as_ref())),
        ),
        fact(
            words.say("inspector.electrical"),
            or(codes.electrical.as_ref()),
        ),
        fact(
            words.say("inspector.room-area"),
            or(codes.room_area.as_ref()),
        ),
        fact(words.say("inspector.day"), or(codes.install_day.as_ref())),
    ];
    vec![
        parts::heading(words.say("inspector.job")),
        Block::Facts { rows },
    ]
}

fn records(input: &Input<'_>) -> Vec<Block> {
    let words = input.words();
    let kinds = [
        ("pressure-verdict", "inspector.pressure"),
        ("vacuum-verdict", "inspector.vacuum-test"),
        ("charge", "inspector.charge"),
        ("run", "inspector.run"),
        ("baseline", "inspector.baseline"),
    ];
    let mut out = vec![
        parts::heading(words.say("inspector.records")),
        parts::records(input, &kinds),
    ];
    let rows = joints(input);
    if !rows.is_empty() {
        let head = [
            "inspector.place",
            "inspector.torque",
            "inspector.torque-sheet",
            "inspector.initials",
        ];
        let head = head.iter().map(|k| words.say(k)).collect();
        out.push(parts::heading(words.say("inspector.joints")));
        out.push(parts::table("l1 r r l", head, rows));
    }
    out
}

/// The joints of the standing records: place, torque, what was wanted, initials.
fn joints(input: &Input<'_>) -> Vec<Vec<String>> {
    let words = input.words();
    let mut rows = Vec::new();
    for record in input.standing("charge") {
        let joints = record.says.get("joints").and_then(|j| j.as_array());
        for joint in joints.into_iter().flatten() {
            // `{"flare": {..}}` or `{"kind": "flare", ..}`: the inner table has the keys.
            let inner = joint
                .as_object()
                .filter(|o| o.len() == 1)
                .and_then(|o| o.values().next())
                .unwrap_or(joint);
            let text = |key: &str| inner.get(key).and_then(|v| v.as_str()).unwrap_or("");
            let number = |v: &serde_json::Value| v.as_f64().map(|n| format!("{n:.0} N m"));
            let made = inner.get("torque_nm").and_then(number);
            let sheet = inner.get("sheet_nm").and_then(|v| v.as_array());
            let wanted = sheet.map(|s| {
                let ends: Vec<String> = s.iter().filter_map(number).collect();
                ends.join(" – ")
            });
            rows.push(vec![
                text("place").to_owned(),
                made.unwrap_or_else(|| words.say("inspector.brazed")),
                wanted.unwrap_or_default(),
                text("initials").to_owned(),
            ]);
        }
    }
    rows
}

/// A length of the plan, for the crew's table.
pub(crate) fn small_length(input: &Input<'_>, m: Option<f64>) -> String {
    m.map_or_else(String::new, |m| input.show(m, Dim::SmallLength))
}
