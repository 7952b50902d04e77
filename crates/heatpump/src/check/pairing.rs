//! # What it checks
//! Heads and outdoor unit were tested together, use one refrigerant, and lie inside the
//! combination table.
//! # Why it matters on site
//! Another head is another coil: the figures of the sheet do not hold for it, and a rebate asks for
//! the matched pair.
//! # What to do
//! Choose a pair the sheet names, or get the sheet of this pair.
//! # Source
//! `common-practice`: card F7 and D3.

use reckon::{Finding, Level};

use super::{Say, Shown, btu, trade};
use crate::system::System;

pub(super) fn check(system: &System, shown: Shown, out: &mut Vec<Finding>) {
    let outdoor = &system.outdoor.sheet;
    for head in &system.heads {
        if let (Some(a), Some(b)) = (&outdoor.refrigerant, &head.sheet.refrigerant)
            && a != b
        {
            out.push(
                Say {
                    rule: "system-refrigerants-differ",
                    level: Level::Stop,
                    says: format!(
                        "{} and {} use different refrigerants",
                        outdoor.name, head.sheet.name
                    ),
                    found: format!("{a} and {b}"),
                    required: "one refrigerant".to_owned(),
                    mend: "Choose a head for the refrigerant of the outdoor unit".to_owned(),
                    would_tell: String::new(),
                    source: trade("F16"),
                }
                .at(&head.sheet, head.sheet.line_of("refrigerant")),
            );
        }
        if !system.outdoor.several && !outdoor.tested_with.contains(&head.sheet.name) {
            out.push(
                Say {
                    rule: "system-not-tested-together",
                    level: Level::Ask,
                    says: format!("{} was not tested with {}", outdoor.name, head.sheet.name),
                    found: format!("tested with: {}", outdoor.tested_with.join(", ")),
                    required: "a head the sheet names".to_owned(),
                    mend: "Choose a tested pair".to_owned(),
                    would_tell: "The performance sheet of this pair.".to_owned(),
                    source: trade("F7"),
                }
                .at(outdoor, outdoor.line_of("tested_with")),
            );
        }
    }
    let Some(multi) = &outdoor.multi else { return };
    let line = outdoor.line_of("multi");
    if (system.heads.len() as u64) < u64::from(multi.least_heads) {
        out.push(
            Say {
                rule: "system-too-few-heads",
                level: Level::Stop,
                says: format!(
                    "{} wants at least {} heads",
                    outdoor.name, multi.least_heads
                ),
                found: format!("{} head(s)", system.heads.len()),
                required: format!("{} or more", multi.least_heads),
                mend: "Add a head, or take a single-zone unit".to_owned(),
                would_tell: String::new(),
                source: trade("D3"),
            }
            .at(outdoor, line),
        );
    }
    let total_w = system.heads_total_w();
    let (Some(first), Some(last)) = (multi.combinations.first(), multi.combinations.last()) else {
        return;
    };
    if total_w > 1.005 * last.total_w || total_w < 0.995 * first.total_w {
        out.push(
            Say {
                rule: "system-outside-combinations",
                level: Level::Fix,
                says: format!(
                    "the heads on {} lie outside its combination table",
                    outdoor.name
                ),
                found: btu(total_w, shown),
                required: format!(
                    "{} to {}",
                    btu(first.total_w, shown),
                    btu(last.total_w, shown)
                ),
                mend: "Change a head or the outdoor unit".to_owned(),
                would_tell: String::new(),
                source: trade("D3, combination data"),
            }
            .at(outdoor, line),
        );
    }
}
