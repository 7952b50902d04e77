//! Refrigerant against the rooms it may escape into, by edition.

use heatpump::Sheet;
use jobfile::{HeadChoice, OutdoorChoice};
use reckon::{Level, Source, Verdict};
use units::Dim;

use super::key_of;
use crate::desk::{Desk, Rule, card, sheet};
use crate::rules::{Rules, source};
use crate::{Input, lines};

const ROOM: Rule = Rule {
    name: "room-area",
    level: Level::Stop,
    what: "floor of the room against refrigerant that may escape into it",
    mend: "A smaller system, a higher head, another room, or detection and circulation as the \
           unit's sheet asks. Refrigerant in a small room can burn and takes the air away.",
    tell: "Use the table of the unit's own sheet for this edition, with its sensor and fan.",
};
const EDITION: Rule = Rule {
    name: "room-area-edition",
    level: Level::Ask,
    what: "edition of the rule on refrigerant and rooms",
    mend: "Write room_area in [codes].",
    tell: "Ask the building office which edition is in force; the default is used until then.",
};
const SENSOR: Rule = Rule {
    name: "refrigerant-sensor",
    level: Level::Ask,
    what: "detector and circulation above the free limit",
    mend: "Test the sensor and put it down.",
    tell: "The unit's sheet says whether a detector and a fan that starts by it are asked.",
};

/// Every room that a unit serves.
pub(super) fn judge(
    input: &Input<'_>,
    rules: &Rules,
    desk: &mut Desk,
    outdoor: &OutdoorChoice,
    unit: &Sheet,
    known: bool,
) {
    let key = |what: &str| key_of(outdoor, what);
    let place = format!("outdoor.{}", outdoor.name);
    let wanted = input.job.installation.codes.room_area.as_deref();
    let name = wanted.unwrap_or(&rules.room_area.default);
    let edition = rules.room_area.edition.get(name);
    let Some(edition) = edition else {
        desk.must(
            &EDITION,
            &place,
            None,
            name,
            "an edition of data/rules/room_area",
            card("F16"),
        );
        desk.must(
            &ROOM,
            &place,
            None,
            "edition not known here",
            "the unit's own table",
            card("F16"),
        );
        return;
    };
    let of = source(
        &edition.source,
        &format!("{}: {}", edition.name, edition.place),
    );
    if wanted.is_none() {
        desk.must(
            &EDITION,
            &place,
            None,
            &format!("default: {}", edition.name),
            "the edition in force",
            of.clone(),
        );
    }
    let Some(fluid) = lines::refrigerant(Some(unit)) else {
        desk.must(
            &ROOM,
            &place,
            None,
            "refrigerant not known here",
            "its flammability limit",
            of,
        );
        return;
    };
    let Some(lfl) = fluid.lower_flammability_kg_per_m3() else {
        desk.must(
            &ROOM,
            &place,
            Some(true),
            &format!("{} does not burn", fluid.name()),
            "no area by this rule",
            of,
        );
        return;
    };
    let Some(free) = edition.free_volumes_m3.filter(|_| known) else {
        let found = if known {
            "this edition's rule is not established here"
        } else {
            "total charge not known"
        };
        desk.must(&ROOM, &place, None, found, "the unit's own table", of);
        return;
    };
    desk.given(
        key("lfl"),
        "lower flammability limit",
        lfl,
        Dim::Density,
        Source::new("ashrae-34", "table 4-1 and 4-2, second hand"),
    );
    desk.given(
        key("free-volume"),
        "volume of the free limit",
        free,
        Dim::Volume,
        of.clone(),
    );
    let limit = desk.reckon(
        key("free-limit"),
        "charge without an area rule",
        Dim::Mass,
        "V * LFL",
        &[("V", &key("free-volume")), ("LFL", &key("lfl"))],
        of.clone(),
    );
    let total = desk.book.value(&key("total"));
    if let (Some(limit), Some(total)) = (limit, total)
        && total <= limit
    {
        desk.say(
            &ROOM,
            &place,
            Verdict::Holds,
            desk.both(total, Dim::Mass),
            format!("no area asked up to {}", desk.both(limit, Dim::Mass)),
            vec![key("total"), key("free-limit")],
            of,
        );
        return;
    }
    desk.must(
        &SENSOR,
        &place,
        None,
        "not said",
        "as the unit's sheet asks",
        of.clone(),
    );
    for head in input.heads_on(&outdoor.name) {
        room(input, rules, desk, outdoor, head, &of);
    }
}

fn room(
    input: &Input<'_>,
    rules: &Rules,
    desk: &mut Desk,
    outdoor: &OutdoorChoice,
    head: &HeadChoice,
    of: &Source,
) {
    let key = |what: &str| format!("charge.{}.{what}", head.name);
    let place = format!("room.{}", head.room);
    let unit = input.sheet(&head.unit);
    let typed = unit.and_then(|s| s.head.as_ref()?.release_height_m);
    let height = typed.or_else(|| {
        let kind = unit?.kind.words();
        let mut editions = rules.room_area.edition.values();
        editions.find_map(|e| e.release_height_m.get(kind).copied())
    });
    let need = height.and_then(|h| {
        let from = match typed {
            Some(_) => sheet(
                &head.unit,
                unit.and_then(|u| u.head.as_ref()?.page.as_ref()),
            ),
            None => of.clone(),
        };
        desk.given(key("release"), "release height", h, Dim::Length, from);
        desk.reckon(
            key("area"),
            "least floor for this charge",
            Dim::Area,
            "(m / (2.5 * LFL^1.25 * h))^2",
            &[
                ("m", &key_of(outdoor, "total")),
                ("LFL", &key_of(outdoor, "lfl")),
                ("h", &key("release")),
            ],
            of.clone(),
        )?;
        Some(key("area"))
    });
    let zone = input
        .model
        .and_then(|m| m.zones.iter().find(|z| z.name == head.room));
    let floor = zone.map(|z| {
        desk.given(
            key("floor"),
            "floor of the room",
            z.floor_m2,
            Dim::Area,
            Source::job(format!("{place}.outline")),
        )
    });
    desk.at_least(&ROOM, &place, floor.as_deref(), need.as_deref(), of.clone());
}
