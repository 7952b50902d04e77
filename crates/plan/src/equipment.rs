//! The chosen units, from their names in the job to their sheets in the catalogue.

use heatpump::{Head, OutdoorUnit, System as Pumps, check_sheet, check_system};
use jobfile::{Choice, Job};
use reckon::{Finding, Level, Source};

use crate::{Catalogue, near};

/// One outdoor unit with its heads, put together.
#[derive(Debug, Clone, PartialEq)]
pub struct System {
    /// Name of the outdoor unit in the job.
    pub name: String,
    /// The sheets together.
    pub pumps: Pumps,
    /// Room of each head, in the same order.
    pub rooms: Vec<String>,
}

/// A choice of equipment with its sheets.
#[derive(Debug, Clone, PartialEq)]
pub struct Chosen {
    /// `chosen`, or the name of the option.
    pub name: String,
    /// Systems whose sheets are all there and fit.
    pub systems: Vec<System>,
    /// Whether every unit named was found and fits.
    pub whole: bool,
}

fn say(rule: &str, level: Level, place: String, words: [String; 5], source: Source) -> Finding {
    let [says, found, required, mend, would_tell] = words;
    Finding {
        rule: rule.to_owned(),
        level,
        place,
        says,
        found,
        required,
        mend,
        would_tell,
        figures: Vec::new(),
        source,
    }
}

fn no_sheet(unit: &str, place: String, catalogue: &Catalogue) -> Finding {
    let mend = match near(unit, catalogue.names()) {
        Some(near) => format!("Did you mean `{near}`? If not, put its sheet into the catalogue."),
        None => "Put its data sheet into the catalogue, or name another unit.".to_owned(),
    };
    let words = [
        format!("No data sheet for {unit} in the catalogue."),
        unit.to_owned(),
        format!("one of {} sheets of the catalogue", catalogue.len()),
        mend,
        format!("The data sheet of {unit} would tell what it gives."),
    ];
    say(
        "sheet-missing",
        Level::Ask,
        place,
        words,
        Source::new("job", "outdoor, head"),
    )
}

/// Finds the sheets of every choice of the job. The first is the chosen one, if there is any.
pub(crate) fn all(job: &Job, catalogue: &Catalogue) -> (Vec<Chosen>, Vec<Finding>) {
    let mut findings = Vec::new();
    let mut all = Vec::new();
    for choice in job.choices() {
        if !choice.equipment.heads.is_empty() {
            all.push(one(&choice, catalogue, job.units, &mut findings));
        }
    }
    let mut seen: Vec<&str> = Vec::new();
    let choices = job.choices();
    let names = choices.iter().flat_map(|c| {
        let outdoors = c.equipment.outdoors.iter().map(|o| o.unit.as_str());
        outdoors.chain(c.equipment.heads.iter().map(|h| h.unit.as_str()))
    });
    for name in names {
        if !seen.contains(&name) {
            seen.push(name);
            if let Some(sheet) = catalogue.get(name) {
                findings.extend(check_sheet(sheet, job.units));
            }
        }
    }
    (all, findings)
}

fn one(
    choice: &Choice,
    catalogue: &Catalogue,
    shown: units::System,
    findings: &mut Vec<Finding>,
) -> Chosen {
    let within = if choice.name == jobfile::CHOSEN {
        String::new()
    } else {
        format!("option.{}.", choice.name)
    };
    let mut systems = Vec::new();
    let mut whole = true;
    for outdoor in &choice.equipment.outdoors {
        let place = format!("{within}outdoor.{}", outdoor.name);
        let mut missing = false;
        if catalogue.get(&outdoor.unit).is_none() {
            findings.push(no_sheet(&outdoor.unit, place.clone(), catalogue));
            missing = true;
        }
        let mut rooms = Vec::new();
        let mut sheets = Vec::new();
        for head in choice.equipment.heads_on(&outdoor.name) {
            rooms.push(head.room.clone());
            if let Some(sheet) = catalogue.get(&head.unit) {
                sheets.push(sheet.clone());
            } else {
                let place = format!("{within}head.{}", head.name);
                findings.push(no_sheet(&head.unit, place, catalogue));
                missing = true;
            }
        }
        let sheet = catalogue.get(&outdoor.unit);
        let put = match sheet {
            Some(sheet) if !missing => OutdoorUnit::new(sheet.clone()).and_then(|outdoor| {
                let heads = sheets
                    .into_iter()
                    .map(Head::new)
                    .collect::<Result<Vec<_>, _>>()?;
                Pumps::new(outdoor, heads)
            }),
            _ => {
                whole = false;
                continue;
            }
        };
        match put {
            Ok(pumps) => {
                findings.extend(check_system(&pumps, shown));
                systems.push(System {
                    name: outdoor.name.clone(),
                    pumps,
                    rooms,
                });
            }
            Err(why) => {
                whole = false;
                let words = [
                    format!("The units on {} do not go together: {why}.", outdoor.name),
                    outdoor.unit.clone(),
                    "an outdoor unit with heads it takes".to_owned(),
                    "Choose heads or an outdoor unit that go together.".to_owned(),
                    String::new(),
                ];
                let source = Source::new("sheet", "kind, multi");
                findings.push(say("units-do-not-fit", Level::Stop, place, words, source));
            }
        }
    }
    Chosen {
        name: choice.name.clone(),
        systems,
        whole,
    }
}
