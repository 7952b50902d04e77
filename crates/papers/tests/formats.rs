//! HPXML, calendar and CSV of the demo.

mod support;

use papers::hpxml::{Element, NotHpxml, Version, export, import};
use papers::{Reader, calendar, csv};
use proptest::prelude::*;
use support::{Made, demo, demo_text};

fn plant(file: &Element) -> &Element {
    let path = [
        "Building",
        "BuildingDetails",
        "Systems",
        "HVAC",
        "HVACPlant",
    ];
    file.at(&path).expect("systems")
}

/// What the job and the sheet say stands in the file: leakage as typed, every state of every point
/// of the sheet, the boiler that stays.
#[test]
fn the_file_holds_what_the_job_says() {
    let input = demo().input(None);
    let text = export(&input, Version::Four, None);
    let file = Element::read(&text).expect("well-formed");
    let leak = [
        "Building",
        "BuildingDetails",
        "Enclosure",
        "AirInfiltration",
        "AirInfiltrationMeasurement",
        "BuildingAirLeakage",
        "AirLeakage",
    ];
    assert_eq!(
        file.number_at(&leak),
        Some(2100.0),
        "typed: 2100 cfm at 50 Pa"
    );
    let pumps: Vec<&Element> = plant(&file).all("HeatPump").collect();
    assert_eq!(pumps.len(), 1);
    let sheet = demo().catalogue.get("Grebe 30").expect("in the catalogue");
    let states = sheet.heating.iter().flat_map(|p| [p.min, p.rated, p.max]);
    let points = pumps[0]
        .child("HeatingDetailedPerformanceData")
        .expect("points");
    assert_eq!(points.children.len(), states.flatten().count());
    let boiler = plant(&file).child("HeatingSystem").expect("boiler");
    assert!(boiler.at(&["HeatingSystemType", "Boiler"]).is_some());
    assert_eq!(boiler.text_at(&["HeatingSystemFuel"]), Some("fuel oil"));
    assert_eq!(
        boiler.number_at(&["AnnualHeatingEfficiency", "Value"]),
        Some(0.80)
    );
    // the same job, the same file
    assert_eq!(text, export(&input, Version::Four, None));
}

/// Walls of the file with their windows, ft2: 108 ft of wall around 8 ft ground storey and 7 ft
/// 9 in upper storey is 1,701 ft2 before the attic's gables; rounding of each wall is below 0.5.
#[test]
fn walls_add_up() {
    let file = Element::read(&export(&demo().input(None), Version::Five, None)).expect("reads");
    let walls = file
        .at(&["Building", "BuildingDetails", "Enclosure", "Walls"])
        .expect("walls");
    let heated = |w: &&Element| w.text_at(&["InteriorAdjacentTo"]) == Some("conditioned space");
    let sum: f64 = walls
        .all("Wall")
        .filter(heated)
        .filter_map(|w| w.number_at(&["Area"]))
        .sum();
    let doors = file
        .at(&["Building", "BuildingDetails", "Enclosure", "Doors"])
        .expect("doors");
    let doors: f64 = doors
        .all("Door")
        .filter_map(|d| d.number_at(&["Area"]))
        .sum();
    let wanted = 108.0 * (8.0 + 7.75);
    assert!(
        (sum + doors - wanted).abs() < 12.0,
        "{sum} + {doors}, wanted {wanted}"
    );
}

/// There and back: a job of the same size, tightness and plant.
#[test]
fn an_export_imports() {
    let input = demo().input(None);
    for version in [Version::Four, Version::Five] {
        let got = import(&export(&input, version, None)).expect("it imports");
        let made = Made::of(got.job.clone());
        let floor = |made: &Made| {
            let model = made.plan.model.done().expect("a house");
            let heated = model.zones.iter().filter(|z| z.heated.is_some());
            heated.map(|z| z.floor_m2).sum::<f64>()
        };
        let (there, back) = (floor(demo()), floor(&made));
        // The first job rounds its walls to half feet.
        assert!((back / there - 1.0).abs() < 0.05, "{there} m2, {back} m2");
        assert_eq!(
            made.job.house.leakage,
            demo().job.house.leakage_as_assumed()
        );
        let heats = made.job.existing.as_ref().expect("a boiler");
        assert_eq!(heats.kind, jobfile::HeaterKind::Boiler);
        assert!(
            got.taken.iter().any(|t| t.contains("Grebe 30")),
            "{:?}",
            got.taken
        );
        // and out again: what we write is the same, what was there is kept
        let again = export(&made.input(None), version, Some(&got.kept));
        Element::read(&again).expect("well-formed");
    }
}

/// The leakage of the demo without how it is known, which the format does not carry.
trait AsAssumed {
    fn leakage_as_assumed(&self) -> house::describe::Leakage;
}

impl AsAssumed for house::describe::House {
    fn leakage_as_assumed(&self) -> house::describe::Leakage {
        let mut leakage = self.leakage;
        if let house::describe::Leakage::BlowerDoor { known, .. } = &mut leakage {
            *known = reckon::Known::Seen;
        }
        leakage
    }
}

#[test]
fn what_we_do_not_know_is_kept() {
    let input = demo().input(None);
    let text = export(&input, Version::Four, None);
    let more = "<Lighting><LightingGroup><SystemIdentifier id=\"l1\"/></LightingGroup></Lighting>";
    let text = text.replace("</BuildingDetails>", &format!("{more}</BuildingDetails>"));
    let customer = "<Customer><CustomerDetails/></Customer><Building>";
    let text = text.replacen("<Building>", customer, 1);
    let got = import(&text).expect("it imports");
    assert_eq!(got.left, ["Lighting", "Roofs", "Floors", "Doors"]);
    let again = Element::read(&export(&input, Version::Four, Some(&got.kept))).expect("reads");
    let details = ["Building", "BuildingDetails"];
    let names: Vec<&str> = (again.at(&details).expect("details").children.iter())
        .map(|c| c.name.as_str())
        .collect();
    assert_eq!(names.last(), Some(&"Lighting"), "{names:?}");
    let outer: Vec<&str> = again.children.iter().map(|c| c.name.as_str()).collect();
    assert_eq!(
        outer,
        [
            "XMLTransactionHeaderInformation",
            "SoftwareInfo",
            "Customer",
            "Building"
        ]
    );
}

#[test]
fn bombs_and_other_files_are_refused() {
    let bomb = "<!DOCTYPE a [<!ENTITY x \"xxxxxxxx\"><!ENTITY y \"&x;&x;&x;\">]><HPXML>&y;</HPXML>";
    assert_eq!(import(bomb).err(), Some(NotHpxml::DocumentType));
    let outside = "<HPXML><a>&secret;</a></HPXML>";
    assert_eq!(
        import(outside).err(),
        Some(NotHpxml::Entity("secret".to_owned()))
    );
    let deep = "<a>".repeat(100_000);
    assert_eq!(import(&deep).err(), Some(NotHpxml::Too("deep")));
    assert_eq!(
        import("<gbXML/>").err(),
        Some(NotHpxml::Other("gbXML".to_owned()))
    );
    assert_eq!(
        import("<HPXML/>").err(),
        Some(NotHpxml::Missing("Building"))
    );
    assert!(matches!(import("not xml").err(), Some(NotHpxml::Xml(_))));
    assert!(matches!(
        import("<HPXML><a></HPXML>").err(),
        Some(NotHpxml::Xml(_))
    ));
}

proptest! {
    /// Any text inside an element comes back as it went out, but for spaces at its ends and
    /// characters that XML cannot hold; and no bytes at all make the reader fall.
    #[test]
    fn texts_come_back(text in "[^\\x00-\\x1f\\x7f-\\x9f\u{fffe}\u{ffff}]{0,40}", any in ".{0,200}") {
        let made = Element::new("a").with("b", text.clone()).says("c", text.clone());
        let back = Element::read(&made.written()).expect("our own reads");
        prop_assert_eq!(back.text_at(&["c"]).unwrap_or(""), text.trim());
        let _ = import(&any);
        let _ = import(&format!("<HPXML>{any}</HPXML>"));
    }
}

#[test]
fn the_calendar_names_its_days() {
    let text = calendar(&demo().input(None)).expect("the job names its day");
    assert!(text.lines().all(|l| l.len() <= 75), "lines are folded");
    assert_eq!(text.matches("\r\n").count(), text.matches('\n').count());
    assert_eq!(text.matches("BEGIN:VEVENT").count(), 4);
    // installed 2026-12-07: the winter of 2027 to 2028 is the second
    assert!(text.contains("DTSTART;VALUE=DATE:20280501"), "{text}");
    let without = demo_text().replace("install_day = \"2026-12-07\"\n", "");
    let job = jobfile::read(&without).expect("reads");
    let mut input = demo().input(None);
    input.job = &job;
    assert_eq!(calendar(&input), None);
}

#[test]
fn every_table_and_figure_is_there() {
    let input = demo().input(None);
    let files = csv(&input, &Reader::ALL);
    let names: Vec<&str> = files.iter().map(|(n, _)| n.as_str()).collect();
    for wanted in [
        "crew-cut-list.csv",
        "figures.csv",
        "inspector-circuit-and-panel.csv",
        "owner-your-rooms.csv",
        "rebate-cost-item-by-item.csv",
        "rebate-loads-by-both-methods.csv",
    ] {
        assert!(names.contains(&wanted), "{wanted} is not among {names:?}");
    }
    let figures = files
        .iter()
        .find(|(n, _)| n == "figures.csv")
        .expect("figures");
    assert_eq!(figures.1.lines().count(), input.plan.book.len() + 1);
}
