//! The paper for who lives there: what was promised, the rooms, settings, care, whom to call.

use reckon::{Level, in_key};
use season::RoomYear;
use units::Dim;

use crate::block::{Block, Fact, Step};
use crate::desk::Input;
use crate::parts;

pub(crate) fn blocks(input: &Input<'_>) -> Vec<Block> {
    let mut out = vec![verdict(input)];
    out.extend(promised(input));
    out.extend(rooms(input));
    out.extend(settings(input));
    out.extend(care(input));
    out.extend(call(input));
    out.extend(parts::plates(input, false));
    out.extend(baseline(input));
    out.extend(parts::conditions(input));
    out
}

fn verdict(input: &Input<'_>) -> Block {
    let words = input.words();
    let share = input.chosen("house.heads-share");
    let stays = input.job.heaters_beside().next();
    let text = match (&share, stays) {
        (None, _) => words.say("owner.share-none"),
        (Some(share), None) => words.fill("owner.share-all", &[("share", share)]),
        (Some(share), Some(h)) => {
            let values = [("share", share.as_str()), ("heater", h.kind.word())];
            words.fill("owner.share", &values)
        }
    };
    let cop = input.chosen("house.cop");
    let small = cop.map_or_else(String::new, |cop| {
        words.fill("owner.share-small", &[("cop", &cop)])
    });
    Block::Verdict { text, small }
}

fn promised(input: &Input<'_>) -> Vec<Block> {
    let words = input.words();
    let at = words.fill("owner.at", &[("t", &input.design())]);
    let mut rows = Vec::new();
    let mut put = |key: &str, says: Option<String>, band: String| {
        let band = match banded(input, key) {
            Some(own) if band.is_empty() => own,
            Some(own) => format!("{own}; {band}"),
            None => band,
        };
        if let Some(says) = says {
            rows.push(Fact {
                name: words.say(key),
                says,
                band,
            });
        }
    };
    put(
        "owner.loses",
        input.figure("loads.house.heating"),
        at.clone(),
    );
    put("owner.gives", gives(input), at);
    put(
        "owner.carries",
        input.chosen("house.heads-share"),
        String::new(),
    );
    put(
        "owner.cop",
        input.chosen("house.cop"),
        words.say("owner.cop-band"),
    );
    put(
        "owner.balance",
        input.chosen("house.balance"),
        words.say("owner.balance-band"),
    );
    let before = (input.plan.season.done())
        .and_then(|s| s.baseline.as_ref())
        .and_then(season::Year::cost)
        .map(|cost| {
            words.fill(
                "owner.cost-before",
                &[("cost", &input.show(cost, Dim::Money))],
            )
        });
    put(
        "owner.cost",
        input.chosen("house.cost"),
        before.unwrap_or_default(),
    );
    put("owner.carbon", input.chosen("house.carbon"), String::new());
    for h in input.job.heaters_beside() {
        let lower = input.show(h.set_below_k, Dim::TemperatureDifference);
        let band = words.fill("owner.backup-set", &[("k", &lower)]);
        put("owner.backup", Some(h.kind.word().to_owned()), band);
    }
    let mut out = vec![
        parts::heading(words.say("owner.promised")),
        Block::Facts { rows },
    ];
    let chart = (input.year()).and_then(|y| plan::draw::capacity(input.plan, y, input.system));
    out.extend(parts::picture(input, "picture.capacity", chart));
    out
}

/// The band of a promise, where the houses this could be were run.
fn banded(input: &Input<'_>, key: &str) -> Option<String> {
    let of = match key {
        "owner.loses" => "load",
        "owner.carries" => "chosen.heads-share",
        "owner.cop" => "chosen.cop",
        "owner.cost" => "chosen.cost",
        _ => return None,
    };
    let low = input.figure(&format!("bands.{of}.low"))?;
    let high = input.figure(&format!("bands.{of}.high"))?;
    let values = [("low", low.as_str()), ("high", &high)];
    // the bills may tell of a house that loses less than the survey does: say whose word it is
    let billed = input.plan.value("bills.load").is_some();
    let key = ["owner.band", "owner.band-bills"][usize::from(billed)];
    Some(input.words().fill(key, &values))
}

/// What the units give at the design temperature: said by each unit of the year.
pub(crate) fn gives(input: &Input<'_>) -> Option<String> {
    let year = input.year()?;
    let [only] = year.units.as_slice() else {
        let all: Option<Vec<String>> = year
            .units
            .iter()
            .map(|u| {
                Some(format!(
                    "{}: {}",
                    u.name,
                    input.show(u.at_design?.max_w, Dim::Power)
                ))
            })
            .collect();
        return all.map(|a| a.join("; "));
    };
    Some(input.show(only.at_design?.max_w, Dim::Power))
}

fn rooms(input: &Input<'_>) -> Vec<Block> {
    let words = input.words();
    let mut out = vec![parts::heading(words.say("owner.rooms"))];
    let storeys = plan::draw::storeys(input.plan, input.job, input.system);
    let drawn = parts::picture(input, "picture.storeys", storeys);
    let Some(year) = input.year() else {
        out.extend(drawn);
        return out;
    };
    let temperature = |c: f64| input.show(c, Dim::Temperature);
    let rows = (year.rooms.iter())
        .filter(|r| r.heated)
        .map(|r| {
            let set = input.figure(&format!("room.{}.setting", in_key(&r.name)));
            vec![
                r.name.clone(),
                set.unwrap_or_else(|| words.say("owner.not-heated")),
                words.say(heat_of(r)),
                temperature(r.least_c),
                r.heads_alone_c.map_or_else(String::new, temperature),
            ]
        })
        .collect();
    let head = [
        "owner.room",
        "owner.set",
        "owner.has",
        "owner.coldest",
        "owner.alone",
    ];
    let head = head.iter().map(|k| words.say(k)).collect();
    out.push(parts::table("l2 r1 l2 r1 r2", head, rows));
    out.push(Block::Soft {
        text: words.say("owner.rooms-says"),
    });
    out.extend(drawn);
    let about = input
        .plan
        .findings
        .iter()
        .filter(|f| f.finding.place.starts_with("room.") && f.finding.level <= Level::Fix);
    if let Some(notes) = parts::notes(input, about) {
        out.push(parts::heading(words.say("owner.noticed")));
        out.push(notes);
    }
    out
}

fn heat_of(r: &RoomYear) -> &'static str {
    match (r.heads > 0, r.own_heater || r.by_heaters_j > 0.0) {
        (true, true) => "owner.both",
        (true, false) => "owner.head",
        (false, true) => "owner.heater",
        (false, false) => "owner.through",
    }
}

fn settings(input: &Input<'_>) -> Vec<Block> {
    let words = input.words();
    let all = &input.job.paperwork.settings;
    let mut out = vec![parts::heading(words.say("owner.settings"))];
    if all.is_empty() {
        out.push(Block::Para {
            text: words.say("owner.settings-none"),
        });
    } else {
        let rows = (all.iter())
            .map(|s| vec![s.of.clone(), s.to.clone(), s.why.clone()])
            .collect();
        let head = ["owner.what", "owner.to", "owner.why"];
        let head = head.iter().map(|k| words.say(k)).collect();
        out.push(parts::table("l2 l2 l3", head, rows));
    }
    out.push(Block::Para {
        text: words.say("owner.settings-says"),
    });
    out
}

fn care(input: &Input<'_>) -> Vec<Block> {
    let words = input.words();
    let steps = [
        ("owner.care-filter", "owner.care-filter-when"),
        ("owner.care-snow", "owner.care-snow-when"),
        ("owner.care-ice", "owner.care-ice-when"),
        ("owner.care-leaves", "owner.care-leaves-when"),
        ("owner.care-drain", "owner.care-drain-when"),
        ("owner.care-visit", "owner.care-visit-when"),
        ("owner.care-review", "owner.care-review-when"),
    ];
    let items = (steps.iter())
        .map(|(says, when)| Step {
            says: words.say(says),
            small: words.say(when),
        })
        .collect();
    let cold = match (
        input.chosen("house.balance"),
        input.job.heaters_beside().next(),
    ) {
        (Some(balance), Some(_)) => words.fill("owner.cold-says", &[("balance", &balance)]),
        _ => words.say("owner.cold-says-plain"),
    };
    vec![
        parts::heading(words.say("owner.care")),
        Block::Steps { items },
        parts::heading(words.say("owner.defrost")),
        Block::Para {
            text: words.say("owner.defrost-says"),
        },
        parts::heading(words.say("owner.cold")),
        Block::Para { text: cold },
    ]
}

fn call(input: &Input<'_>) -> Vec<Block> {
    let words = input.words();
    let Some(firm) = &input.job.paperwork.firm else {
        return Vec::new();
    };
    let text = match &firm.phone {
        Some(phone) => words.fill("owner.call-firm", &[("firm", &firm.name), ("phone", phone)]),
        None => firm.name.clone(),
    };
    vec![
        parts::heading(words.say("owner.call")),
        Block::Verdict {
            text,
            small: String::new(),
        },
    ]
}

fn baseline(input: &Input<'_>) -> Vec<Block> {
    let words = input.words();
    let Some(r) = input.standing("baseline").into_iter().last() else {
        return Vec::new();
    };
    let n = r.n.to_string();
    let values = [("n", n.as_str()), ("at", &r.at), ("who", &r.who)];
    vec![
        parts::heading(words.say("owner.baseline")),
        Block::Para {
            text: words.fill("owner.baseline-says", &values),
        },
    ]
}
