//! The paper for the inspector: site, plates, circuit and panel, refrigerant and rooms, records.

use install::{Installation, Judged};
use reckon::Verdict;

use crate::block::Block;
use crate::desk::Input;
use crate::parts::{self, fact};
use crate::recorded;

pub(crate) fn blocks(input: &Input<'_>) -> Vec<Block> {
    let words = input.words();
    let mut out = Vec::new();
    let Some(done) = input.plan.install.done() else {
        out.extend(job(input));
        out.extend(parts::plates(input, true));
        out.extend(recorded::blocks(input));
        return out;
    };
    out.push(verdict(input, done));
    out.extend(job(input));
    out.push(parts::heading(words.say("inspector.site")));
    let wall = plan::draw::wall_alone(input.plan, input.job, input.system);
    out.extend(parts::picture(input, "picture.wall", wall));
    out.extend(parts::judged(
        input,
        done.place.iter().filter(|j| parts::outside(j)),
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
    out.extend(parts::sides(input));
    out.extend(parts::judged(
        input,
        done.lines.iter().filter(|j| !of_refrigerant(j)),
        true,
    ));
    out.push(parts::heading(words.say("inspector.indoors")));
    out.extend(parts::judged(
        input,
        done.place.iter().filter(|j| !parts::outside(j)),
        true,
    ));
    out.extend(recorded::blocks(input));
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
