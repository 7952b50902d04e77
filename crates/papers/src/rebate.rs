//! The paper for the rebate reviewer: loads by both methods, points of the sheets, the winter
//! against them, controls, certificates, serials, days, cost.

use heatpump::{Running, Sheet};
use reckon::{Book, Source};
use units::Dim;

use crate::block::Block;
use crate::desk::Input;
use crate::parts::{self, fact};

pub(crate) fn blocks(input: &Input<'_>) -> Vec<Block> {
    let mut out = vec![verdict(input)];
    out.extend(claim(input));
    out.extend(loads(input));
    out.extend(winter(input));
    out.extend(points(input));
    out.extend(controls(input));
    out.extend(parts::plates(input, false));
    out.extend(days(input));
    out.extend(costs(input));
    out.extend(parts::conditions(input));
    out
}

fn verdict(input: &Input<'_>) -> Block {
    let words = input.words();
    let load = input.figure("loads.house.heating").unwrap_or_default();
    let t = input.design();
    let text = match crate::owner::gives(input) {
        Some(gives) => {
            let values = [("load", load.as_str()), ("t", &t), ("gives", &gives)];
            words.fill("rebate.verdict", &values)
        }
        None => words.fill("rebate.verdict-plain", &[("load", &load), ("t", &t)]),
    };
    let both = input
        .chosen("house.heads-share")
        .zip(input.chosen("house.cop"));
    let small = both.map_or_else(String::new, |(share, cop)| {
        words.fill("rebate.verdict-small", &[("share", &share), ("cop", &cop)])
    });
    Block::Verdict { text, small }
}

fn claim(input: &Input<'_>) -> Vec<Block> {
    let words = input.words();
    let p = &input.job.paperwork;
    let mut rows = Vec::new();
    let mut put = |key: &str, says: Option<String>| {
        if let Some(says) = says {
            rows.push(fact(words.say(key), says));
        }
    };
    let programme = p.programme.as_ref();
    put("rebate.programme", programme.map(|p| p.name.clone()));
    put("rebate.number", programme.and_then(|p| p.number.clone()));
    let owner = p.owner.as_ref();
    put(
        "rebate.owner",
        owner.map(|o| format!("{}, {}", o.name, o.address)),
    );
    let enrolled = programme.map(|p| {
        let both = [p.enrolled_name.clone(), p.enrolled_address.clone()];
        both.into_iter().flatten().collect::<Vec<_>>().join(", ")
    });
    put("rebate.enrolled", enrolled.filter(|e| !e.is_empty()));
    let firm = p.firm.as_ref();
    put("rebate.firm", firm.map(|f| f.name.clone()));
    put("rebate.licence", firm.and_then(|f| f.licence.clone()));
    put(
        "rebate.technician",
        firm.and_then(|f| f.certificate.clone()),
    );
    let certificates = programme
        .map(|p| p.certificates.as_slice())
        .unwrap_or_default();
    let mut out = vec![
        parts::heading(words.say("rebate.claim")),
        Block::Facts { rows },
    ];
    if !certificates.is_empty() {
        let head = ["plates.unit", "rebate.certificate"];
        let head = head.iter().map(|k| words.say(k)).collect();
        let rows = (certificates.iter())
            .map(|(o, n)| vec![o.clone(), n.clone()])
            .collect();
        out.push(parts::heading(words.say("rebate.certificates")));
        out.push(parts::table("l1 l2", head, rows));
    }
    out
}

/// The load from bills with its band, where the plan has it.
pub(crate) fn from_bills(input: &Input<'_>) -> Option<String> {
    let load = input.figure("bills.load")?;
    let band = input
        .figure("bills.load.low")
        .zip(input.figure("bills.load.high"));
    Some(band.map_or(load.clone(), |(low, high)| {
        let values = [("load", load.as_str()), ("low", &low), ("high", &high)];
        input.words().fill("rebate.bills-band", &values)
    }))
}

fn loads(input: &Input<'_>) -> Vec<Block> {
    let words = input.words();
    let Some(loads) = input.plan.loads.done() else {
        return Vec::new();
    };
    let load = |w: f64| input.show(w, Dim::Power);
    let mut rows: Vec<Vec<String>> = Vec::new();
    for r in &loads.heating.rooms {
        let cooling = loads.cooling.rooms.iter().find(|c| c.zone == r.zone);
        rows.push(vec![
            r.room.clone(),
            input.show(r.floor_m2, Dim::Area),
            load(r.heat_w),
            cooling.map_or_else(String::new, |c| load(c.sensible_w)),
        ]);
    }
    rows.push(vec![
        words.say("rebate.house"),
        String::new(),
        load(loads.heating.heat_w),
        load(loads.cooling.sensible_w),
    ]);
    let head = [
        "rebate.room",
        "rebate.floor",
        "rebate.heating",
        "rebate.cooling",
    ];
    let head = head.iter().map(|k| words.say(k)).collect();
    let mut table = parts::table("l2 r1 r1 r1", head, rows);
    if let Block::Table { total, .. } = &mut table {
        *total = true;
    }
    let t = input.design();
    let mut out = vec![
        parts::heading(words.say("rebate.loads")),
        table,
        Block::Soft {
            text: words.fill("rebate.loads-says", &[("t", &t)]),
        },
    ];
    out.push(Block::Para {
        text: match from_bills(input) {
            Some(load) => words.fill("rebate.bills-says", &[("load", &load)]),
            None => words.say("rebate.bills-none"),
        },
    });
    let bars = plan::draw::bars(input.plan, input.system);
    out.extend(parts::picture(input, "picture.bars", bars));
    out
}

fn winter(input: &Input<'_>) -> Vec<Block> {
    let words = input.words();
    let Some(year) = input.year() else {
        return Vec::new();
    };
    let mut rows = Vec::new();
    let mut put = |key: &str, says: Option<String>, of: &str| {
        if let Some(says) = says {
            let mut row = fact(words.say(key), says);
            of.clone_into(&mut row.band);
            rows.push(row);
        }
    };
    put("rebate.share", input.chosen("house.heads-share"), "");
    put("rebate.seasonal", input.chosen("house.cop"), "");
    for unit in &year.units {
        let key = |what: &str| format!("unit.{}.{what}", reckon::in_key(&unit.name));
        put("rebate.balance", input.chosen(&key("balance")), &unit.name);
        put(
            "rebate.cycling",
            input.chosen(&key("cycles-above")),
            &unit.name,
        );
        put(
            "rebate.cycling-share",
            input.chosen(&key("cycling-share")),
            &unit.name,
        );
    }
    let mut out = vec![
        parts::heading(words.say("rebate.match")),
        Block::Facts { rows },
    ];
    let chart = plan::draw::capacity(input.plan, year, input.system);
    out.extend(parts::picture(input, "picture.capacity", chart));
    out
}

fn points(input: &Input<'_>) -> Vec<Block> {
    let words = input.words();
    let mut out = vec![
        parts::heading(words.say("rebate.points")),
        Block::Soft {
            text: words.say("rebate.points-says"),
        },
    ];
    let mut said: Vec<&str> = Vec::new();
    for outdoor in &input.job.equipment.outdoors {
        let Some(sheet) = input.catalogue.get(&outdoor.unit) else {
            continue;
        };
        if said.contains(&sheet.name.as_str()) {
            continue;
        }
        said.push(&sheet.name);
        let values = [("unit", sheet.name.as_str()), ("sheet", &sheet.sheet_id)];
        let mut text = words.fill("rebate.sheet", &values);
        if sheet.invented {
            text = format!("{text} ({})", words.say("rebate.invented"));
        }
        out.push(Block::Para { text });
        out.push(sheet_points(input, sheet));
    }
    out
}

fn sheet_points(input: &Input<'_>, sheet: &Sheet) -> Block {
    let words = input.words();
    let heat =
        |r: Option<Running>| r.map_or_else(String::new, |r| input.show(r.capacity_w, Dim::Power));
    let cop = |r: Option<Running>| {
        // A sheet may state no power: then there is no ratio.
        let cop = r.map(Running::cop).filter(|c| c.is_finite());
        cop.map_or_else(|| "–".to_owned(), |c| input.show(c, Dim::Ratio))
    };
    let rows = (sheet.heating.iter())
        .map(|p| {
            vec![
                input.show(p.outdoor_c, Dim::Temperature),
                heat(p.min),
                heat(p.rated),
                heat(p.max),
                format!("{}, {}, {}", cop(p.min), cop(p.rated), cop(p.max)),
                p.page.clone().unwrap_or_default(),
            ]
        })
        .collect();
    let head = [
        "rebate.outdoor",
        "rebate.least",
        "rebate.rated",
        "rebate.most",
        "rebate.cop",
        "rebate.page",
    ];
    let head = head.iter().map(|k| words.say(k)).collect();
    parts::table("r1 r1 r1 r1 r1 r", head, rows)
}

fn controls(input: &Input<'_>) -> Vec<Block> {
    let words = input.words();
    let mut rows = Vec::new();
    for h in input.job.heaters_beside() {
        let k = input.show(h.set_below_k, Dim::TemperatureDifference);
        let values = [("words", h.kind.word()), ("k", k.as_str())];
        rows.push(fact(
            words.say("rebate.backup"),
            words.fill("rebate.backup-says", &values),
        ));
    }
    for s in &input.job.paperwork.settings {
        rows.push(fact(s.of.clone(), s.to.clone()));
    }
    if rows.is_empty() {
        return Vec::new();
    }
    vec![
        parts::heading(words.say("rebate.controls")),
        Block::Facts { rows },
    ]
}

fn days(input: &Input<'_>) -> Vec<Block> {
    let words = input.words();
    let rows: Vec<Vec<String>> = (input.days().into_iter())
        .map(|(name, day)| vec![words.say(&format!("day.{name}")), day.to_owned()])
        .collect();
    let head = ["rebate.step", "rebate.day"];
    let head = head.iter().map(|k| words.say(k)).collect();
    vec![
        parts::heading(words.say("rebate.days")),
        if rows.is_empty() {
            Block::Para {
                text: words.say("rebate.none"),
            }
        } else {
            parts::table("l1 l2", head, rows)
        },
    ]
}

fn costs(input: &Input<'_>) -> Vec<Block> {
    let words = input.words();
    let costs = &input.job.paperwork.costs;
    let heading = parts::heading(words.say("rebate.costs"));
    if costs.is_empty() {
        return vec![
            heading,
            Block::Para {
                text: words.say("rebate.none"),
            },
        ];
    }
    let mut book = Book::new();
    let mut keys = Vec::new();
    let mut rows = Vec::new();
    for (i, c) in costs.iter().enumerate() {
        let key = format!("cost.{}", i + 1);
        let from = Source::job(format!("cost.{}", c.what));
        book.given(
            key.clone(),
            c.what.clone(),
            c.amount,
            Dim::Money,
            from,
            None,
        );
        keys.push(key);
        rows.push(vec![c.what.clone(), input.show(c.amount, Dim::Money)]);
    }
    let added = book.add_up(
        "cost",
        "cost of the job",
        Dim::Money,
        &keys,
        Source::job("cost"),
    );
    if let Ok(all) = added {
        rows.push(vec![words.say("rebate.total"), input.show(all, Dim::Money)]);
    }
    let head = ["rebate.item", "rebate.amount"];
    let head = head.iter().map(|k| words.say(k)).collect();
    let mut table = parts::table("l3 r1", head, rows);
    if let Block::Table { total, .. } = &mut table {
        *total = added_up(&book);
    }
    vec![heading, table]
}

fn added_up(book: &Book) -> bool {
    book.get("cost").is_some()
}
