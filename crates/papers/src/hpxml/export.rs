//! The plan as an HPXML file.

use units::{Dim, System, show_number};

use super::tree::Element;
use super::{enclosure, systems};
use crate::desk::Input;

/// Version of the format that goes out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Version {
    /// 4.2.
    #[default]
    Four,
    /// 5.0.
    Five,
}

impl Version {
    fn namespace(self) -> &'static str {
        match self {
            Self::Four => "http://hpxmlonline.com/2023/09",
            Self::Five => "http://hpxmlonline.com/2025/12",
        }
    }

    fn number(self) -> &'static str {
        match self {
            Self::Four => "4.2",
            Self::Five => "5.0",
        }
    }
}

/// Writes the file. With `kept`, a file that was imported before, what stands there and we do not
/// write goes out again; what we write takes the place of what was there.
pub fn export(input: &Input<'_>, version: Version, kept: Option<&Element>) -> String {
    let made = whole(input, version);
    match kept {
        None => made.written(),
        Some(kept) => merged(kept, &made).written(),
    }
}

/// A number in the units of the format, which are US customary, without commas.
pub(super) fn number(value: f64, dim: Dim) -> String {
    show_number(value, dim, System::Us).0.replace(',', "")
}

/// Identifier of one system, with its name in the job.
pub(super) fn identifier(element: &str, id: &str, name: &str) -> Element {
    let element = Element::new(element).with("id", id);
    if name.is_empty() {
        return element;
    }
    element
        .says("SendingSystemIdentifierType", "Northwall")
        .says("SendingSystemIdentifierValue", name)
}

fn whole(input: &Input<'_>, version: Version) -> Element {
    let day = input.days().last().map_or("2000-01-01", |(_, d)| d);
    let program = format!("Northwall {}", input.issue.version);
    let header = Element::new("XMLTransactionHeaderInformation")
        .says("XMLType", "HPXML")
        .says("XMLGeneratedBy", program)
        // The day of the job: the same job gives the same file.
        .says("CreatedDateAndTime", format!("{day}T00:00:00"))
        .says("Transaction", "create");
    let software = Element::new("SoftwareInfo")
        .says("SoftwareProgramUsed", "Northwall")
        .says("SoftwareProgramVersion", input.issue.version);
    Element::new("HPXML")
        .with("xmlns", version.namespace())
        .with("schemaVersion", version.number())
        .holds(header)
        .holds(software)
        .holds(building(input, day))
}

fn building(input: &Input<'_>, day: &str) -> Element {
    let event = match input.job.stage {
        jobfile::Stage::Visit => "audit",
        jobfile::Stage::Estimate => "proposed workscope",
        jobfile::Stage::Ordered => "approved workscope",
        jobfile::Stage::Installed | jobfile::Stage::Reviewed => {
            "job completion testing/final inspection"
        }
    };
    let mut site = Element::new("Site").holds(identifier("SiteID", "site", ""));
    if let Some(owner) = &input.job.paperwork.owner {
        site = site.holds(Element::new("Address").says("Address1", owner.address.clone()));
    }
    let details = Element::new("BuildingDetails")
        .holds(summary(input))
        .holds(weather(input))
        .holds(enclosure::enclosure(input))
        .holds(systems::systems(input));
    Element::new("Building")
        .holds(identifier("BuildingID", "building", &input.job.name))
        .holds(site)
        .holds(
            Element::new("ProjectStatus")
                .says("EventType", event)
                .says("Date", day),
        )
        .holds(details)
}

fn summary(input: &Input<'_>) -> Element {
    let mut construction = Element::new("BuildingConstruction");
    if let Some(model) = input.plan.model.done() {
        let heated: Vec<_> = model.zones.iter().filter(|z| z.heated.is_some()).collect();
        let mut storeys: Vec<_> = heated.iter().filter_map(|z| z.storey).collect();
        storeys.sort_unstable();
        storeys.dedup();
        let bedrooms = (heated.iter())
            .filter(|z| z.used_for == house::describe::Use::Sleeping)
            .count();
        let floor: f64 = heated.iter().map(|z| z.floor_m2).sum();
        let volume: f64 = heated.iter().map(|z| z.volume_m3).sum();
        if !storeys.is_empty() {
            construction = construction
                .says("NumberofConditionedFloors", storeys.len().to_string())
                .says("NumberofBedrooms", bedrooms.to_string())
                .says("ConditionedFloorArea", number(floor, Dim::Area))
                .says("ConditionedBuildingVolume", number(volume, Dim::Volume));
        }
    }
    Element::new("BuildingSummary").holds(construction)
}

fn weather(input: &Input<'_>) -> Element {
    let station = Element::new("WeatherStation")
        .holds(identifier("SystemIdentifier", "weather", ""))
        .says("Name", input.plan.site.station.name.clone());
    Element::new("ClimateandRiskZones").holds(station)
}

/// Elements that stand several times side by side and are told apart by their identifier.
const LISTED: [&str; 12] = [
    "Building",
    "Wall",
    "Roof",
    "Floor",
    "Slab",
    "FoundationWall",
    "Window",
    "Door",
    "HeatingSystem",
    "HeatPump",
    "AirInfiltrationMeasurement",
    "WeatherStation",
];

/// What was kept, with what we write in the place of what it says of the same thing.
fn merged(kept: &Element, made: &Element) -> Element {
    let mut out = made.clone();
    for old in &kept.children {
        let same = out.children.iter().position(|c| c.name == old.name);
        match same {
            // Our list takes the place of theirs: both describe the same house.
            Some(_) if LISTED.contains(&old.name.as_str()) && old.name != "Building" => {}
            Some(at) => {
                if let Some(own) = out.children.get(at).cloned() {
                    let both = if own.children.is_empty() {
                        own
                    } else {
                        merged(old, &own)
                    };
                    if let Some(place) = out.children.get_mut(at) {
                        *place = both;
                    }
                }
            }
            None => {
                let after = before(kept, old, &out);
                out.children.insert(after, old.clone());
            }
        }
    }
    out
}

/// Where an element that we do not write goes: after the last of its elders that is there.
fn before(kept: &Element, old: &Element, out: &Element) -> usize {
    let elders = kept.children.iter().take_while(|c| !std::ptr::eq(*c, old));
    let mut place = 0;
    for elder in elders {
        if let Some(at) = out.children.iter().rposition(|c| c.name == elder.name) {
            place = place.max(at + 1);
        }
    }
    place
}
