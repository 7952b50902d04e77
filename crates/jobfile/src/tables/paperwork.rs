//! `[owner]`, `[firm]`, `[programme]`, `[days]`, `[[cost]]`, `[[setting]]`, `[[plate]]`: what only
//! the papers need.

use units::Dim;

use super::Desk;
use crate::cell::Row;
use crate::check::Says;
use crate::field::{Family, Kind, Table, may, must};
use crate::job::{Cost, Firm, Owner, Paperwork, Plate, Programme, Setting};

pub(super) static OWNER: Table = Table {
    name: "owner",
    about: "Who the house belongs to",
    label: &[],
    assumed: false,
    fields: &[
        must("name", Kind::Text, "Name, as it stands on every paper"),
        must("address", Kind::Text, "Address of the house"),
        may("phone", Kind::Text, "Telephone"),
    ],
};

pub(super) static FIRM: Table = Table {
    name: "firm",
    about: "Who does the work, and whom the owner calls",
    label: &[],
    assumed: false,
    fields: &[
        must("name", Kind::Text, "Name of the firm"),
        may("phone", Kind::Text, "Telephone for the owner"),
        may("licence", Kind::Text, "Licence of the firm"),
        may("who", Kind::Text, "Who signs"),
        may(
            "certificate",
            Kind::Text,
            "Refrigerant certificate of who handled it",
        ),
    ],
};

static CERTIFICATE: Table = Table {
    name: "certificates",
    about: "Certificate of a matched system",
    label: &["outdoor"],
    assumed: false,
    fields: &[
        must("outdoor", Kind::Ref(Family::Outdoor), "Outdoor unit"),
        must("number", Kind::Text, "Number of the certificate"),
    ],
};

pub(super) static PROGRAMME: Table = Table {
    name: "programme",
    about: "The programme that pays a rebate",
    label: &[],
    assumed: false,
    fields: &[
        must("name", Kind::Text, "Name of the programme"),
        may("number", Kind::Text, "Number of the application"),
        may(
            "enrolled_name",
            Kind::Text,
            "Owner's name as enrolled there",
        ),
        may("enrolled_address", Kind::Text, "Address as enrolled there"),
        may(
            "certificates",
            Kind::Rows(&CERTIFICATE),
            "Certificates of the matched systems",
        ),
    ],
};

/// In the order in which the days should come.
const DAYS: [(&str, &str); 6] = [
    ("quoted", "Day of the quote"),
    ("approved", "Day the programme approved it"),
    ("begun", "Day the work began"),
    ("started", "Day of the first run"),
    ("inspected", "Day the inspector signed"),
    ("handed_over", "Day of the hand-over"),
];

pub(super) static DAYS_TABLE: Table = Table {
    name: "days",
    about: "Days of the job, which come in this order",
    label: &[],
    assumed: false,
    fields: &[
        may(DAYS[0].0, Kind::Day, DAYS[0].1),
        may(DAYS[1].0, Kind::Day, DAYS[1].1),
        may(DAYS[2].0, Kind::Day, DAYS[2].1),
        may(DAYS[3].0, Kind::Day, DAYS[3].1),
        may(DAYS[4].0, Kind::Day, DAYS[4].1),
        may(DAYS[5].0, Kind::Day, DAYS[5].1),
    ],
};

pub(super) static COST: Table = Table {
    name: "cost",
    about: "One item of the bill",
    label: &["what"],
    assumed: false,
    fields: &[
        must("what", Kind::Text, "What was paid for"),
        must("amount", Kind::Q(Dim::Money, -1e7, 1e7), "Amount"),
    ],
};

pub(super) static SETTING: Table = Table {
    name: "setting",
    about: "A setting as left",
    label: &["of"],
    assumed: false,
    fields: &[
        must(
            "of",
            Kind::Text,
            "What is set: a head, or words such as boiler thermostat",
        ),
        must("to", Kind::Text, "What it is set to"),
        may("why", Kind::Text, "Why, for the owner"),
    ],
};

pub(super) static PLATE: Table = Table {
    name: "plate",
    about: "A serial number as copied from the name plate",
    label: &["outdoor", "head"],
    assumed: false,
    fields: &[
        may(
            "outdoor",
            Kind::Ref(Family::Outdoor),
            "Outdoor unit it is of",
        ),
        may("head", Kind::Ref(Family::Head), "Head it is of"),
        must("serial", Kind::Text, "Serial number, letter by letter"),
        may("made", Kind::Whole(1990, 2100), "Year of manufacture"),
    ],
};

fn maybe(row: &Row, key: &str) -> Option<String> {
    row.text(key).map(str::to_owned)
}

pub(super) fn read(file: &Row, desk: &mut Desk) -> Paperwork {
    Paperwork {
        owner: file.row("owner").map(|r| Owner {
            name: r.words("name"),
            address: r.words("address"),
            phone: maybe(r, "phone"),
        }),
        firm: file.row("firm").map(|r| Firm {
            name: r.words("name"),
            phone: maybe(r, "phone"),
            licence: maybe(r, "licence"),
            who: maybe(r, "who"),
            certificate: maybe(r, "certificate"),
        }),
        programme: file.row("programme").map(|r| Programme {
            name: r.words("name"),
            number: maybe(r, "number"),
            enrolled_name: maybe(r, "enrolled_name"),
            enrolled_address: maybe(r, "enrolled_address"),
            certificates: r
                .rows("certificates")
                .map(|c| (c.words("outdoor"), c.words("number")))
                .collect(),
        }),
        days: file.row("days").map_or_else(Vec::new, |r| {
            let typed = DAYS.iter().map(|(key, _)| (*key, r.text(key)));
            typed
                .filter_map(|(key, day)| Some((key, day?.to_owned())))
                .collect()
        }),
        costs: file
            .rows("cost")
            .map(|r| Cost {
                what: r.words("what"),
                amount: r.si_or_0("amount"),
            })
            .collect(),
        settings: file
            .rows("setting")
            .map(|r| Setting {
                of: r.words("of"),
                to: r.words("to"),
                why: r.words("why"),
            })
            .collect(),
        plates: file.rows("plate").filter_map(|r| plate(r, desk)).collect(),
    }
}

fn plate(row: &Row, desk: &mut Desk) -> Option<Plate> {
    let unit = match (row.text("outdoor"), row.text("head")) {
        (Some(o), None) => format!("outdoor.{o}"),
        (None, Some(h)) => format!("head.{h}"),
        _ => {
            let says = Says::new("this does not say which unit the plate is on")
                .allowed("`outdoor` or `head`, one of the two")
                .mend("name the unit the plate was read from");
            desk.problems.push(says.at(&row.path, row.span));
            return None;
        }
    };
    Some(Plate {
        unit,
        serial: row.words("serial"),
        made: row.whole("made").map(|n| n as u32),
    })
}
