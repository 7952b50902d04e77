//! An auditor's HPXML file as a first job: size, leakage, walls, windows, what heats.
//!
//! The format has no outlines of rooms, so the job is a plain box of the same floor area for the
//! survey to correct. Each thing taken says so; what is not taken is named, and the file itself is
//! to be kept: [`super::export()`] gives what it says of other things out again.

use jobfile::new::{Answers, Below, Built, first_job};
use jobfile::{Carrier, HeaterKind};
use units::Dim;

use super::tree::{Element, NotHpxml};

/// What an import gives.
#[derive(Debug, Clone)]
pub struct Imported {
    /// Text of the job file.
    pub job: String,
    /// What was taken, in words.
    pub taken: Vec<String>,
    /// Elements that are there and were not taken, by name.
    pub left: Vec<String>,
    /// The file as read, to be kept for the export.
    pub kept: Element,
}

/// Floor area, ft2, of a house whose file names none.
const USUAL_FLOOR_FT2: f64 = 1500.0;
/// Below this resistance with films, h ft2 F/Btu, a wall has nothing in it; from the next, foam.
const WALL_R: [f64; 3] = [7.0, 13.0, 19.0];

/// Reads a file.
///
/// # Errors
/// Not well-formed, with a document type, of another kind, or without a building.
pub fn import(text: &str) -> Result<Imported, NotHpxml> {
    let kept = Element::read(text)?;
    if kept.name != "HPXML" {
        return Err(NotHpxml::Other(kept.name.clone()));
    }
    let building = kept
        .child("Building")
        .ok_or(NotHpxml::Missing("Building"))?;
    let details = building
        .child("BuildingDetails")
        .ok_or(NotHpxml::Missing("BuildingDetails"))?;
    let mut desk = Desk::default();
    let answers = desk.answers(building, details);
    let mut job = first_job(&answers);
    desk.windows(details, &mut job);
    desk.serials(details, &mut job);
    desk.not_taken(details);
    let note = format!(
        "# Taken from an HPXML file: {}.\n# Rooms are a plain box of the same floor area.\n",
        desk.taken.join("; ")
    );
    Ok(Imported {
        job: note + &job,
        taken: desk.taken,
        left: desk.left,
        kept,
    })
}

#[derive(Default)]
struct Desk {
    taken: Vec<String>,
    left: Vec<String>,
}

impl Desk {
    fn answers(&mut self, building: &Element, details: &Element) -> Answers {
        let mut answers = Answers {
            name: name_of(building),
            ..Answers::default()
        };
        let of = ["BuildingSummary", "BuildingConstruction"];
        let summary = details.at(&of);
        let number = |names: &[&str]| {
            let mut all = names.iter();
            all.find_map(|n| summary.and_then(|s| s.number_at(&[n])))
        };
        if let Some(storeys) = number(&[
            "NumberofConditionedFloorsAboveGrade",
            "NumberofConditionedFloors",
        ]) {
            answers.storeys = storeys.clamp(1.0, 3.0) as u32;
            self.took(format!("{storeys} heated storeys"));
        }
        let floor_ft2 = number(&["ConditionedFloorArea", "FinishedFloorArea"]);
        if let Some(ft2) = floor_ft2 {
            self.took(format!("{ft2} ft2 heated floor"));
        }
        let floor_m2 = in_si(floor_ft2.unwrap_or(USUAL_FLOOR_FT2), "ft2", Dim::Area);
        answers = answers.with_floor_area(floor_m2);
        if let Some(door) = self.blower_door(details, summary) {
            answers.blower_door = Some(door);
        }
        if let Some(built) = self.walls(details) {
            answers.built = built;
        }
        answers.under = self.under(details);
        if let Some(heats) = self.heats(details) {
            answers.heat_now = Some(heats);
        }
        answers
    }

    fn took(&mut self, what: String) {
        self.taken.push(what);
    }

    /// The first measurement at a pressure that can be said as a flow.
    fn blower_door(&mut self, details: &Element, summary: Option<&Element>) -> Option<String> {
        let list = details.at(&["Enclosure", "AirInfiltration"])?;
        for m in list.all("AirInfiltrationMeasurement") {
            let Some(leak) = m.number_at(&["BuildingAirLeakage", "AirLeakage"]) else {
                continue;
            };
            let pa = m.number_at(&["HousePressure"]).unwrap_or(50.0);
            let unit = m.text_at(&["BuildingAirLeakage", "UnitofMeasure"]);
            let cfm = match unit {
                Some("CFM") => leak,
                Some("ACH") => {
                    let volume = m
                        .number_at(&["InfiltrationVolume"])
                        .or_else(|| summary?.number_at(&["ConditionedBuildingVolume"]));
                    let Some(ft3) = volume else { continue };
                    // Air changes an hour of a volume are a flow; 60 minutes to the hour.
                    leak * ft3 / 60.0
                }
                _ => continue,
            };
            let flow = format!("{cfm:.0} cfm at {pa:.0} Pa");
            self.took(format!("leakage {flow}"));
            return Some(flow);
        }
        None
    }

    /// The class of building whose wall comes nearest to that of the largest wall.
    fn walls(&mut self, details: &Element) -> Option<Built> {
        let list = details.at(&["Enclosure", "Walls"])?;
        let resistance = |w: &Element| w.number_at(&["Insulation", "AssemblyEffectiveRValue"]);
        let area = |w: &&Element| w.number_at(&["Area"]).unwrap_or(0.0);
        let largest = list
            .all("Wall")
            .filter(|w| resistance(w).is_some())
            .max_by(|a, b| area(a).total_cmp(&area(b)))?;
        let r = resistance(largest)?;
        let below = WALL_R.iter().filter(|limit| r >= **limit).count();
        let built = Built::ALL.get(below).copied()?;
        self.took(format!(
            "walls of R {r}: build-up of the class \"{}\", to be looked at",
            built.words()
        ));
        Some(built)
    }

    fn under(&mut self, details: &Element) -> Below {
        let enclosure = details.child("Enclosure");
        let has = |list: &str| enclosure.is_some_and(|e| e.child(list).is_some());
        let kind = enclosure
            .and_then(|e| e.at(&["Foundations", "Foundation", "FoundationType"]))
            .and_then(|t| t.children.first())
            .map_or("", |k| k.name.as_str());
        let below = match kind {
            "Crawlspace" => Below::Crawl,
            "SlabOnGrade" => Below::Slab,
            "" if !has("FoundationWalls") && has("Slabs") => Below::Slab,
            _ => Below::Basement,
        };
        self.took(format!("under it: {}", below.word()));
        below
    }

    fn heats(&mut self, details: &Element) -> Option<(HeaterKind, Carrier)> {
        let plant = details.at(&["Systems", "HVAC", "HVACPlant"])?;
        let system = plant.child("HeatingSystem")?;
        let kind = system.child("HeatingSystemType")?.children.first()?;
        let kind = match kind.name.as_str() {
            "Boiler" => HeaterKind::Boiler,
            "Furnace" | "WallFurnace" | "FloorFurnace" => HeaterKind::Furnace,
            "ElectricResistance" => HeaterKind::Baseboard,
            _ => HeaterKind::Stove,
        };
        let fuel = system.text_at(&["HeatingSystemFuel"])?;
        let carrier = match fuel {
            "electricity" | "renewable electricity" => Carrier::Electricity,
            "natural gas" | "renewable natural gas" => Carrier::Gas,
            "propane" => Carrier::Propane,
            f if f.starts_with("fuel oil") || f == "kerosene" => Carrier::Oil,
            f if f.starts_with("wood") => Carrier::Wood,
            _ => return None,
        };
        self.took(format!("heats now: {} with {fuel}", kind.word()));
        Some((kind, carrier))
    }

    /// The label of the largest window goes to all of them.
    fn windows(&mut self, details: &Element, job: &mut String) {
        let Some(list) = details.at(&["Enclosure", "Windows"]) else {
            return;
        };
        let area = |w: &&Element| w.number_at(&["Area"]).unwrap_or(0.0);
        let label = |w: &Element| Some((w.number_at(&["UFactor"])?, w.number_at(&["SHGC"])?));
        let largest = list
            .all("Window")
            .filter(|w| label(w).is_some())
            .max_by(|a, b| area(a).total_cmp(&area(b)));
        let Some((u, shgc)) = largest.and_then(label) else {
            return;
        };
        let glazing = format!("{{ u = \"{u} Btu/(h ft2 F)\", shgc = {shgc} }}");
        let mut changed = job.clone();
        for n in 1.. {
            match jobfile::edit::set(&changed, &format!("window.{n}.glazing"), &glazing) {
                Ok(text) => changed = text,
                Err(_) => break,
            }
        }
        if changed != *job {
            *job = changed;
            self.took(format!("windows U {u}, SHGC {shgc}"));
        }
    }

    /// A heat pump that is there is told, not placed: which room its heads are in is not said.
    fn serials(&mut self, details: &Element, job: &mut String) {
        let Some(plant) = details.at(&["Systems", "HVAC", "HVACPlant"]) else {
            return;
        };
        for pump in plant.all("HeatPump") {
            let model = pump
                .text_at(&["ModelNumber"])
                .unwrap_or("without a model number");
            let serial = pump.text_at(&["SerialNumber"]).unwrap_or("not given");
            let says = format!("a heat pump {model}, serial {serial}: choose it in the job");
            job.push_str(&format!("\n# In the HPXML file: {}\n", one_line(&says)));
            self.took(says);
        }
    }

    /// Names of what stands in the file and was not taken.
    fn not_taken(&mut self, details: &Element) {
        const TAKEN: [&str; 4] = [
            "BuildingSummary",
            "ClimateandRiskZones",
            "Enclosure",
            "Systems",
        ];
        const OF_ENCLOSURE: [&str; 6] = [
            "AirInfiltration",
            "Foundations",
            "FoundationWalls",
            "Walls",
            "Windows",
            "Slabs",
        ];
        let mut left: Vec<&str> = Vec::new();
        let outer = details.children.iter().map(|c| c.name.as_str());
        left.extend(outer.filter(|n| !TAKEN.contains(n)));
        let lists = [
            (details.child("Enclosure"), &OF_ENCLOSURE[..]),
            (details.child("Systems"), &["HVAC"][..]),
        ];
        for (list, taken) in lists {
            let names = list.iter().flat_map(|l| l.children.iter());
            left.extend(
                names
                    .map(|c| c.name.as_str())
                    .filter(|n| !taken.contains(n)),
            );
        }
        left.dedup();
        self.left = left.into_iter().map(str::to_owned).collect();
    }
}

/// Name of the job: what the sender calls it, or its address.
fn name_of(building: &Element) -> String {
    let sent = building.text_at(&["BuildingID", "SendingSystemIdentifierValue"]);
    let address = building.text_at(&["Site", "Address", "Address1"]);
    one_line(sent.or(address).unwrap_or("House of an HPXML file"))
}

/// Text that stands in one line of a job file.
fn one_line(text: &str) -> String {
    let plain = text.chars().map(|c| if c.is_control() { ' ' } else { c });
    plain.take(120).collect()
}

/// A number with a unit that the reader of units knows, in SI.
fn in_si(value: f64, unit: &str, dim: Dim) -> f64 {
    units::parse(&format!("{value} {unit}"), dim).unwrap_or(value)
}
