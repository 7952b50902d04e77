//! Parts that several papers share.

use install::Judged;
use plan::Numbered;
use reckon::{Level, Verdict};
use units::Dim;

use crate::block::{Block, Fact, Note};
use crate::desk::Input;
use crate::gate::Gap;

pub(crate) fn heading(text: String) -> Block {
    Block::Heading { text }
}

pub(crate) fn fact(name: String, says: impl Into<String>) -> Fact {
    Fact {
        name,
        says: says.into(),
        band: String::new(),
    }
}

/// About the outdoor unit: what is around it and who hears it.
pub(crate) fn outside(j: &Judged) -> bool {
    j.place.starts_with("outdoor.") || j.place.starts_with("listener.")
}

/// A table whose first column is left, the rest as told: `l` or `r`; a star makes it take what
/// the others leave.
pub(crate) fn table(columns: &str, head: Vec<String>, rows: Vec<Vec<String>>) -> Block {
    let columns: Vec<&str> = columns.split(' ').collect();
    let right = |c: &&str| c.starts_with('r');
    let share = |c: &&str| c.get(1..).and_then(|n| n.parse().ok()).unwrap_or(0);
    Block::Table {
        head,
        align: (columns.iter())
            .map(|c| if right(c) { "right" } else { "left" })
            .collect(),
        widths: columns.iter().map(share).collect(),
        rows,
        total: false,
        quiet: false,
        folded: false,
    }
}

/// A drawing, where there is one.
pub(crate) fn picture(input: &Input<'_>, key: &str, svg: Option<String>) -> Option<Block> {
    let caption = input.words().say(key);
    svg.map(|svg| Block::Picture {
        tall: tall(&svg),
        svg,
        alt: caption.clone(),
        caption,
    })
}

/// Height of a drawing over its width, by its own field of view; as wide as tall where it says
/// none.
fn tall(svg: &str) -> f64 {
    let field = svg.split_once("viewBox=\"").map_or("", |(_, rest)| rest);
    let field = field.split('"').next().unwrap_or("");
    let mut sides = field.split(' ').skip(2).map(|n| n.parse::<f64>().ok());
    match (sides.next().flatten(), sides.next().flatten()) {
        (Some(wide), Some(high)) if wide > 0.0 && high > 0.0 => high / wide,
        _ => 1.0,
    }
}

/// The line and the drain of each head from the side, a drawing a head: all in one would be too
/// small to read.
pub(crate) fn sides(input: &Input<'_>) -> Vec<Block> {
    let done = &input.job.installation;
    let mut out = Vec::new();
    for head in &input.job.equipment.heads {
        let drawn = done.lines.iter().any(|l| l.head == head.name)
            || done.drains.iter().any(|d| d.head == head.name);
        if !drawn {
            continue;
        }
        let mut alone = input.job.clone();
        alone.equipment.heads.retain(|h| h.name == head.name);
        let svg = plan::draw::side(input.plan, &alone, input.system);
        let mut block = picture(input, "picture.side", svg);
        if let Some(Block::Picture { alt, caption, .. }) = &mut block {
            for text in [alt, caption] {
                *text = format!("{}: {text}", head.name);
            }
        }
        out.extend(block);
    }
    out
}

/// Findings as notes.
pub(crate) fn notes<'n>(
    input: &Input<'_>,
    found: impl IntoIterator<Item = &'n Numbered>,
) -> Option<Block> {
    let words = input.words();
    let items: Vec<Note> = found
        .into_iter()
        .map(|f| {
            let level = f.finding.level.word();
            let tell = &f.finding.would_tell;
            Note {
                number: f.number,
                level,
                word: words.say(&format!("level.{level}")),
                place: f.finding.place.clone(),
                says: f.finding.says.clone(),
                mend: if f.finding.level == Level::Ask && !tell.is_empty() {
                    tell.clone()
                } else {
                    f.finding.mend.clone()
                },
            }
        })
        .collect();
    (!items.is_empty()).then_some(Block::Notes { items })
}

/// What stands against the paper, at its head.
pub(crate) fn draft(input: &Input<'_>, gaps: &[Gap]) -> Vec<Block> {
    if gaps.is_empty() {
        return Vec::new();
    }
    let words = input.words();
    let count = gaps.len().to_string();
    let items = gaps
        .iter()
        .enumerate()
        .map(|(i, g)| Note {
            number: i + 1,
            level: match g.kind {
                "missing" => "ask",
                "contradicts" => "fix",
                _ => "stop",
            },
            word: words.say(match g.kind {
                "missing" => "gate.missing",
                "contradicts" => "gate.contradicts",
                _ => "gate.standing",
            }),
            place: g.place.clone(),
            says: g.says.clone(),
            mend: g.mend.clone(),
        })
        .collect();
    vec![Block::Draft {
        text: words.say("gate.heading"),
        says: words.fill("gate.says", &[("count", &count)]),
        items,
    }]
}

/// Name plates.
pub(crate) fn plates(input: &Input<'_>, electrical: bool) -> Vec<Block> {
    let words = input.words();
    let w = |key: &str| words.say(key);
    let blank = w("plates.blank");
    let mut rows = Vec::new();
    for unit in input.units() {
        let sheet = input.catalogue.get(unit.model);
        let q = |value: Option<f64>, dim| value.map_or_else(String::new, |v| input.show(v, dim));
        let mut row = vec![
            unit.path.replacen('.', " ", 1),
            unit.model.to_owned(),
            unit.serials
                .first()
                .map_or_else(|| blank.clone(), |s| (*s).to_owned()),
        ];
        if electrical {
            let plate = sheet.map(|s| s.plate.clone()).unwrap_or_default();
            row.push(
                sheet
                    .and_then(|s| s.refrigerant.clone())
                    .unwrap_or_default(),
            );
            row.push(q(plate.mca_a, Dim::Current));
            row.push(q(plate.mocp_a, Dim::Current));
            row.push(q(plate.volts_v, Dim::Voltage));
        }
        row.push(unit.made.map_or_else(String::new, |y| y.to_string()));
        rows.push(row);
    }
    let mut head = vec![w("plates.unit"), w("plates.model"), w("plates.serial")];
    if electrical {
        head.push(w("plates.refrigerant"));
        head.push(w("plates.mca"));
        head.push(w("plates.mocp"));
        head.push(w("plates.volts"));
    }
    head.push(w("plates.made"));
    let columns = if electrical {
        "l1 l l1 l r r r r"
    } else {
        "l1 l1 l1 r"
    };
    vec![heading(w("plates.heading")), table(columns, head, rows)]
}

/// Requirements judged: a table for each place, under its name where `named`.
pub(crate) fn judged<'j>(
    input: &Input<'_>,
    rows: impl IntoIterator<Item = &'j Judged>,
    named: bool,
) -> Vec<Block> {
    let words = input.words();
    let mut places: Vec<(&str, Vec<Vec<String>>)> = Vec::new();
    for j in rows {
        let row = vec![
            j.what.clone(),
            j.found.clone(),
            j.required.clone(),
            format!("{}{}", sign(j.verdict), words.say(verdict_key(j.verdict))),
            format!("{} {}", j.source.key, j.source.place),
        ];
        match places.iter_mut().find(|(place, _)| *place == j.place) {
            Some((_, rows)) => rows.push(row),
            None => places.push((&j.place, vec![row])),
        }
    }
    let head = [
        "inspector.what",
        "inspector.found",
        "inspector.required",
        "inspector.verdict-head",
        "inspector.source",
    ];
    let head: Vec<String> = head.iter().map(|k| words.say(k)).collect();
    let mut out = Vec::new();
    for (place, rows) in places {
        if named {
            let text = place.replacen('.', " ", 1);
            out.push(Block::Place { text });
        }
        let mut table = table("l4 l2 l3 l l3", head.clone(), rows);
        if let Block::Table { quiet, .. } = &mut table {
            *quiet = true;
        }
        out.push(table);
    }
    out
}

/// A shape before the word of a verdict that is to be seen: words first, never colour alone.
fn sign(v: Verdict) -> &'static str {
    match v {
        Verdict::Holds => "",
        Verdict::Fails => "\u{25a0} ",
        Verdict::CannotTell => "\u{25cc} ",
    }
}

pub(crate) fn verdict_key(v: Verdict) -> &'static str {
    match v {
        Verdict::Holds => "verdict.holds",
        Verdict::Fails => "verdict.fails",
        Verdict::CannotTell => "verdict.cannot-tell",
    }
}

/// What the numbers rest on.
pub(crate) fn conditions(input: &Input<'_>) -> Vec<Block> {
    let words = input.words();
    let plan = input.plan;
    let mut rows = vec![fact(
        words.say("conditions.weather"),
        plan.site.station.name.clone(),
    )];
    let elevation = input.show(plan.site.elevation_m, Dim::Length);
    rows.push(fact(words.say("conditions.elevation"), elevation));
    let mut design = fact(words.say("conditions.design"), input.design());
    if let plan::DesignFrom::Typed(from) = &plan.site.heating.from {
        design.band = words.fill("conditions.design-from", &[("from", from)]);
    }
    rows.push(design);
    if let Some(as_of) = &input.job.prices.as_of {
        rows.push(fact(words.say("conditions.prices"), as_of.clone()));
    }
    let assumed: Vec<&str> = (input.job.given.iter())
        .filter(|g| g.known == reckon::Known::Assumed)
        .map(|g| g.what.as_str())
        .collect();
    let assumed = if assumed.is_empty() {
        words.say("conditions.none-assumed")
    } else {
        assumed.join("; ")
    };
    rows.push(fact(words.say("conditions.assumed"), assumed));
    vec![
        heading(words.say("conditions.heading")),
        Block::Facts { rows },
    ]
}

/// What the paper was made of, at its end.
pub(crate) fn issue(input: &Input<'_>) -> Vec<Block> {
    let words = input.words();
    let issue = input.issue;
    let values = [("code", issue.code.as_str()), ("version", issue.version)];
    vec![
        heading(words.say("issue.heading")),
        Block::Fine {
            text: words.say("issue.first"),
        },
        Block::Fine {
            text: words.fill("issue.says", &values),
        },
        Block::Fine {
            text: words.fill("issue.hash", &[("hash", &issue.hash)]),
        },
        marks(input),
    ]
}

/// The mark of each piece the paper was made of: two papers side by side show which one differs.
fn marks(input: &Input<'_>) -> Block {
    let words = input.words();
    let rows = input.issue.marks.iter();
    let rows = rows.map(|m| vec![m.name.clone(), m.mark.clone()]).collect();
    let head = ["issue.made-of", "issue.mark"].map(|k| words.say(k));
    let mut marks = table("l1 l", head.to_vec(), rows);
    if let Block::Table { folded, .. } = &mut marks {
        *folded = true;
    }
    marks
}
