//! One small file per kind of table: its keys, and how it becomes part of the job.
//! Long because: it lists every table of the file once.
//!
//! To add a table: write its file with a `TABLE` and a `read`, name it in [`FILE`] and call it in
//! [`assemble`]. Reader, messages, editing and the JSON Schema follow.

mod as_built;
mod bill;
mod bills;
mod construction;
mod door;
mod equipment;
mod glazing;
mod habits;
mod heater;
mod house;
mod install;
mod job;
mod landmark;
mod leakage;
mod outer_door;
mod paperwork;
mod photo;
mod place;
mod prices;
mod room;
mod soil;
mod storey;
mod tariff;
mod vent;
mod wall;
mod window;

use reckon::Known;

use crate::cell::Row;
use crate::field::{Kind, Table, may, must};
use crate::{Given, Job, Problem};

pub(crate) use as_built::overlay;
pub(crate) use install::PLACED;

/// The file itself.
pub(crate) static FILE: Table = Table {
    name: "",
    about: "A Northwall job",
    label: &[],
    assumed: false,
    fields: &[
        must(
            "northwall",
            Kind::Whole(1, crate::VERSION as i64),
            "Version of this format",
        ),
        must(
            "job",
            Kind::Sub(&job::TABLE),
            "What the job is called and how far it is",
        ),
        must("place", Kind::Sub(&place::TABLE), "Where the house stands"),
        may(
            "house",
            Kind::Sub(&house::TABLE),
            "What holds for the whole house",
        ),
        must(
            "storey",
            Kind::Rows(&storey::TABLE),
            "Storeys, lowest first",
        ),
        must(
            "room",
            Kind::Rows(&room::TABLE),
            "Rooms and unheated spaces, by outline",
        ),
        may(
            "wall",
            Kind::Rows(&wall::TABLE),
            "Walls that are not like the rest",
        ),
        may("window", Kind::Rows(&window::TABLE), "Windows"),
        may(
            "outer_door",
            Kind::Rows(&outer_door::TABLE),
            "Doors to outside",
        ),
        may("door", Kind::Rows(&door::TABLE), "Openings between rooms"),
        may(
            "construction",
            Kind::Map(&construction::TABLE),
            "Build-ups by name",
        ),
        may("glazing", Kind::Map(&glazing::TABLE), "Glazings by name"),
        must(
            "leakage",
            Kind::Sub(&leakage::TABLE),
            "Air leakage of the heated rooms",
        ),
        may(
            "vent",
            Kind::Rows(&vent::TABLE),
            "Fans that bring outdoor air in",
        ),
        may(
            "soil",
            Kind::Sub(&soil::TABLE),
            "The ground under and around",
        ),
        may(
            "outdoor",
            Kind::Rows(&equipment::OUTDOOR),
            "Outdoor units chosen",
        ),
        may("head", Kind::Rows(&equipment::HEAD), "Heads chosen"),
        may(
            "option",
            Kind::Rows(&equipment::OPTION),
            "Other choices to set beside",
        ),
        may(
            "existing",
            Kind::Sub(&heater::EXISTING),
            "What heats the house now",
        ),
        may(
            "backup",
            Kind::Rows(&heater::BACKUP),
            "Heaters added beside the heat pump",
        ),
        may(
            "prices",
            Kind::Sub(&prices::TABLE),
            "Prices and carbon of energy",
        ),
        may(
            "tariff",
            Kind::Sub(&tariff::TABLE),
            "How electricity is charged, where it is more than one price",
        ),
        may(
            "habits",
            Kind::Sub(&habits::TABLE),
            "How people live in the house",
        ),
        may("bill", Kind::Rows(&bill::TABLE), "Bills and deliveries"),
        may("bills", Kind::Rows(&bills::TABLE), "Files of bills"),
        may(
            "winters",
            Kind::Sub(&bills::WINTERS),
            "What happened in the time the bills cover",
        ),
        may(
            "as_built",
            Kind::Rows(&as_built::TABLE),
            "What was built, over what was planned",
        ),
        may(
            "codes",
            Kind::Sub(&install::CODES),
            "Editions the work is judged by",
        ),
        may(
            "outdoor_place",
            Kind::Rows(&install::OUTDOOR),
            "Where outdoor units stand",
        ),
        may(
            "landmark",
            Kind::Rows(&landmark::TABLE),
            "What stands around the house, on the plan",
        ),
        may("head_place", Kind::Rows(&install::HEAD), "Where heads hang"),
        may(
            "listener",
            Kind::Rows(&install::LISTENER),
            "Who hears the units",
        ),
        may("line", Kind::Rows(&install::LINE), "Refrigerant lines"),
        may("drain", Kind::Rows(&install::DRAIN), "Condensate drains"),
        may(
            "circuit",
            Kind::Rows(&install::CIRCUIT),
            "Circuits of outdoor units",
        ),
        may("panel", Kind::Sub(&install::PANEL), "The electrical panel"),
        may(
            "requirement",
            Kind::Rows(&install::REQUIREMENT),
            "Distances required here",
        ),
        may(
            "weighing",
            Kind::Rows(&install::WEIGHING),
            "Refrigerant weighed",
        ),
        may("tool", Kind::Rows(&install::TOOL), "Instruments"),
        may(
            "owner",
            Kind::Sub(&paperwork::OWNER),
            "Who the house belongs to",
        ),
        may("firm", Kind::Sub(&paperwork::FIRM), "Who does the work"),
        may(
            "programme",
            Kind::Sub(&paperwork::PROGRAMME),
            "The programme that pays a rebate",
        ),
        may(
            "days",
            Kind::Sub(&paperwork::DAYS_TABLE),
            "Days of the job, in their order",
        ),
        may("cost", Kind::Rows(&paperwork::COST), "Items of the bill"),
        may(
            "setting",
            Kind::Rows(&paperwork::SETTING),
            "Settings as left",
        ),
        may(
            "plate",
            Kind::Rows(&paperwork::PLATE),
            "Serial numbers as copied from the plates",
        ),
        may(
            "photo",
            Kind::Rows(&photo::TABLE),
            "Photos kept with the job",
        ),
    ],
};

/// What the tables put together while they are read.
#[derive(Debug, Default)]
pub(crate) struct Desk {
    pub problems: Vec<Problem>,
    pub given: Vec<Given>,
    /// Windows, doors and the like by number, as the geometry counts them, with their paths.
    pub numbered: Vec<(String, String)>,
}

impl Desk {
    /// How a table's values are known; also put down in the list of assumptions.
    pub fn known(&mut self, row: &Row, what: impl Into<String>) -> Known {
        let (known, how) = self.known_of(row);
        self.given.push(Given {
            path: row.path.clone(),
            known,
            how,
            what: what.into(),
        });
        known
    }

    fn known_of(&mut self, row: &Row) -> (Known, String) {
        let seen = row.words("seen");
        let by_seen = match seen.as_str() {
            "" => None,
            "label" => Some(Known::Label),
            "assumed" => Some(Known::Assumed),
            _ => Some(Known::Seen),
        };
        let by_known = match row.text("known") {
            Some("seen") => Some(Known::Seen),
            Some("label") => Some(Known::Label),
            Some("assumed") => Some(Known::Assumed),
            _ => None,
        };
        let how = if matches!(by_seen, Some(Known::Seen)) {
            seen.clone()
        } else {
            String::new()
        };
        if let (Some(a), Some(b), Some(cell)) = (by_seen, by_known, row.cell("known"))
            && a != b
        {
            let says = crate::check::Says::new("`seen` and `known` say different things")
                .got(format!("seen = \"{seen}\", known = \"{}\"", b.word()))
                .allowed("one of them, or both the same")
                .mend("keep the one that is true and take the other out");
            self.problems.push(says.at(&cell.path, cell.span));
        }
        (by_known.or(by_seen).unwrap_or(Known::Assumed), how)
    }

    /// A problem at a value.
    pub fn at(&mut self, row: &Row, key: &str, says: crate::check::Says) {
        let (path, span) = match row.cell(key) {
            Some(cell) => (cell.path.clone(), cell.span),
            None => (row.path.clone(), row.span),
        };
        self.problems.push(says.at(&path, span));
    }
}

/// Puts the job together from the file as read.
pub(crate) fn assemble(file: &Row, desk: &mut Desk) -> Job {
    for key in ["wall", "window", "outer_door", "vent"] {
        let paths = file.rows(key).enumerate();
        desk.numbered
            .extend(paths.map(|(i, r)| (format!("{key}.{}", i + 1), r.path.clone())));
    }
    let mut job = Job {
        version: file.whole("northwall").unwrap_or(1) as u32,
        ..Job::default()
    };
    if let Some(row) = file.row("job") {
        job::read(row, &mut job);
    }
    job.house.ground_albedo = place::USUAL_ALBEDO;
    if let Some(row) = file.row("place") {
        place::read(row, &mut job, desk);
    }
    house::read(file.row("house"), &mut job, desk);
    job.house.storeys = storey::read(file.rows("storey"), desk);
    room::read(file.rows("room"), &mut job, desk);
    job.house.walls = file.rows("wall").map(wall::read).collect();
    glazing::read(file.rows("glazing"), &mut job, desk);
    window::read(file.rows("window"), &mut job, desk);
    job.house.outer_doors = file
        .rows("outer_door")
        .map(|r| outer_door::read(r, desk))
        .collect();
    for row in file.rows("door") {
        door::read(row, &mut job, desk);
    }
    job.house.constructions = file
        .rows("construction")
        .filter_map(|r| construction::read(r, desk))
        .collect();
    if let Some(row) = file.row("leakage") {
        leakage::read(row, &mut job, desk);
    }
    job.house.vents = file.rows("vent").map(vent::read).collect();
    soil::read(file.row("soil"), &mut job, desk);
    job.equipment = equipment::read(file, desk);
    job.options = equipment::options(file, desk);
    job.existing = file.row("existing").and_then(|r| heater::existing(r, desk));
    job.backup = file
        .rows("backup")
        .map(|r| heater::backup(r, desk))
        .collect();
    prices::read(file.row("prices"), &mut job, desk);
    job.prices.tariff = file.row("tariff").map(|r| tariff::read(r, desk));
    if let Some(row) = file.row("habits") {
        job.habits = habits::read(row);
    }
    job.bills = file
        .rows("bill")
        .filter_map(|r| bill::read(r, desk))
        .collect();
    job.bill_files = file.rows("bills").map(bills::read).collect();
    if let Some(row) = file.row("winters") {
        job.winters = bills::winters(row, desk);
    }
    job.as_built = file
        .rows("as_built")
        .filter_map(|r| as_built::read(r, desk))
        .collect();
    job.installation = install::read(file, desk);
    job.paperwork = paperwork::read(file, desk);
    job.photos = file.rows("photo").map(photo::read).collect();
    job
}

#[cfg(test)]
mod tests {
    use super::FILE;
    use crate::check::{Check, Names};
    use crate::field::{Kind, Need, Table};
    use crate::tree::{Lines, Node, Raw};

    fn every(table: &'static Table, seen: &mut Vec<&'static Table>) {
        if seen.iter().any(|t| std::ptr::eq(*t, table)) {
            return;
        }
        seen.push(table);
        for field in table.fields {
            match &field.kind {
                Kind::Sub(t)
                | Kind::Rows(t)
                | Kind::Map(t)
                | Kind::TextOr(t)
                | Kind::List(Kind::Sub(t) | Kind::TextOr(t), _) => every(t, seen),
                _ => {}
            }
        }
    }

    /// A usual value that did not read would make every job bad that leaves it out.
    #[test]
    fn every_usual_value_reads() {
        let mut tables = Vec::new();
        every(&FILE, &mut tables);
        assert!(tables.len() > 30, "{}", tables.len());
        let lines = Lines::new("");
        for table in tables {
            let mut check = Check::new(&lines, Names::default());
            let empty = Node {
                span: 0..0,
                raw: Raw::Table(Vec::new()),
            };
            let row = check.table(&empty, table, "t", "");
            let missing = table.all_fields().filter(|f| f.need == Need::Must).count();
            assert_eq!(
                check.problems.len(),
                missing,
                "[{}]: {:?}",
                table.name,
                check.problems
            );
            for field in table.all_fields() {
                let stands_in = matches!(field.need, Need::Usual(_));
                assert_eq!(row.cell(field.key).is_some(), stands_in, "{}", field.key);
            }
        }
    }

    /// Keys are plain words, once in a table.
    #[test]
    fn keys_are_plain_and_once() {
        let mut tables = Vec::new();
        every(&FILE, &mut tables);
        for table in tables {
            let mut keys: Vec<&str> = table.all_fields().map(|f| f.key).collect();
            for key in &keys {
                assert!(
                    key.chars().all(|c| c.is_ascii_lowercase() || c == '_'),
                    "{key}"
                );
            }
            let count = keys.len();
            keys.sort_unstable();
            keys.dedup();
            assert_eq!(keys.len(), count, "[{}]", table.name);
        }
    }
}
