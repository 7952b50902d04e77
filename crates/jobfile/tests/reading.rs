//! What a job means once read. Values are those written in the file beside each test, turned to
//! SI by hand; tolerance is the last bits of the conversion.

use house::describe::{Compass, GlazingData, Layer, Leakage, Over, Side, Stands, Under};
use jobfile::{AsBuiltValue, Carrier, HeaterKind, Job, Stage};
use reckon::Known;

fn example(name: &str) -> String {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../jobs")
        .join(name);
    std::fs::read_to_string(path).expect("example job")
}

fn read(text: &str) -> Job {
    jobfile::read(text).unwrap_or_else(|problems| {
        let all: Vec<String> = problems.iter().map(ToString::to_string).collect();
        panic!("{}", all.join("\n"))
    })
}

fn near(got: f64, wanted: f64) {
    assert!(
        (got - wanted).abs() <= 1e-9 * wanted.abs().max(1.0),
        "got {got}, wanted {wanted}"
    );
}

#[test]
fn lake_street_reads_to_si() {
    let job = read(&example("lake-street/job.toml"));
    assert_eq!(job.stage, Stage::Estimate);
    assert_eq!(job.house.rooms.len(), 9);
    near(job.place.elevation_m.unwrap_or(0.0), 205.0);
    near(job.place.snow_depth_m.unwrap_or(0.0), 20.0 * 0.0254);
    near(
        job.place.heating_design.as_ref().map_or(0.0, |d| d.c),
        -20.0,
    );
    near(job.house.plan_north_deg, 10.0);
    near(job.house.furnishing_j_per_m2k, 10_000.0);
    assert!(matches!(job.house.storeys[2].over, Over::Attic));
    let living = job.room("living").expect("living");
    near(living.outline[2][0], 18.0 * 0.3048);
    near(
        living
            .heated
            .as_ref()
            .and_then(|s| s.by_hour_c[12])
            .unwrap_or(0.0),
        190.0 / 9.0,
    );
    // 60 W from 7 to 17 h, 220 W from 17 to 23 h, else nothing.
    let hours = living.gains[0].by_hour_w;
    assert_eq!(
        (hours[6], hours[7], hours[16], hours[17], hours[23]),
        (0.0, 60.0, 60.0, 220.0, 0.0)
    );
    assert!(job.room("cellar").expect("cellar").heated.is_none());
    let bed_door = job
        .house
        .doors
        .iter()
        .find(|d| d.rooms[0] == "bed 1")
        .expect("door");
    assert_eq!(bed_door.stands, Stands::Closed);
    near(bed_door.undercut_m, 0.0127);
    let picture = job
        .house
        .windows
        .iter()
        .find(|w| w.name == "picture window")
        .expect("window");
    assert_eq!(picture.side, Side::Facing(Compass::West));
    assert_eq!(picture.known, Known::Seen);
    let label = job
        .house
        .windows
        .iter()
        .find(|w| w.room == "kitchen")
        .expect("window");
    assert_eq!((label.known, label.count), (Known::Label, 2));
    match job.house.leakage {
        Leakage::BlowerDoor {
            flow_m3_per_s,
            at_pa,
            exponent,
            known,
        } => {
            near(flow_m3_per_s, 2100.0 * 0.3048_f64.powi(3) / 60.0);
            assert_eq!((at_pa, exponent, known), (50.0, 0.65, Known::Seen));
        }
        Leakage::Fixed { .. } => panic!("a blower door was given"),
    }
    let boiler = job.existing.as_ref().expect("boiler");
    assert_eq!(
        (boiler.kind, boiler.carrier, boiler.stays),
        (HeaterKind::Boiler, Carrier::Oil, true)
    );
    near(boiler.efficiency, 0.8);
    near(boiler.set_below_k, 4.0 / 1.8);
    // 3.90 a gallon of 138,000 Btu of 1055.05585262 J.
    near(
        job.prices.per_j(Carrier::Oil).unwrap_or(0.0) * 138_000.0 * 1_055.055_852_62,
        3.9,
    );
    // Illinois in eGRID2023: 474.436 lb/MWh.
    let grid = job.prices.carbon_of(Carrier::Electricity).expect("grid");
    near(grid.kg_per_j * 3.6e9, 474.436 * 0.453_592_37);
    assert_eq!(job.equipment.heads_on("east wall").count(), 2);
    assert_eq!(job.options.len(), 2);
    assert_eq!(job.options[1].equipment.heads.len(), 5);
    assert_eq!(job.choices().len(), 3);
    near(job.bills[0].energy_j, 498.0 * 138_000.0 * 1_055.055_852_62);
}

#[test]
fn every_assumption_is_listed_with_how_it_is_known() {
    let job = read(&example("lake-street/job.toml"));
    let of = |path: &str| {
        job.given
            .iter()
            .find(|g| g.path == path)
            .map(|g| (g.known, g.how.as_str()))
    };
    assert_eq!(of("construction.wall"), Some((Known::Seen, "borescope")));
    assert_eq!(of("construction.ceiling"), Some((Known::Assumed, "")));
    assert_eq!(of("existing"), Some((Known::Label, "")));
    assert_eq!(of("window.bed 3 north"), Some((Known::Assumed, "")));
    assert_eq!(of("leakage"), Some((Known::Seen, "blower door, one point")));
    for given in &job.given {
        assert!(!given.what.is_empty(), "{}", given.path);
        assert!(
            job.places.of(&given.path).is_some(),
            "{} has no place",
            given.path
        );
    }
}

#[test]
fn places_lead_back_to_the_file() {
    let text = example("lake-street/job.toml");
    let job = read(&text);
    let line = |path: &str| {
        job.places
            .of(path)
            .and_then(|s| text.lines().nth(s.line - 1))
            .unwrap_or("")
    };
    assert!(line("room.living.heated_to").starts_with("heated_to = \"70 F\""));
    assert!(line("window.picture window.width").starts_with("width = \"8 ft\""));
    assert!(
        line("window.1.width").starts_with("[[window]]"),
        "{}",
        line("window.1.width")
    );
    assert!(line("leakage.blower_door").starts_with("blower_door"));
    assert_eq!(job.places.of("nothing.of.the.kind"), None);
}

/// Standard 140-2020: the box, its gains, air and layers as the standard gives them.
#[test]
fn standard_140_says_all_it_needs() {
    let job = read(&example("standard-140/600.toml"));
    let house = &job.house;
    assert_eq!(
        house.rooms[0].outline,
        vec![[0.0, 0.0], [8.0, 0.0], [8.0, 6.0], [0.0, 6.0]]
    );
    assert_eq!(house.storeys[0].under, Under::StillAir);
    assert_eq!(house.storeys[0].ceiling_m, 2.7);
    assert_eq!(house.leakage, Leakage::Fixed { per_h: 0.5 });
    assert_eq!(house.rooms[0].gains[0].by_hour_w, [200.0; 24]);
    assert_eq!(house.rooms[0].gains[0].radiant, 0.6);
    assert_eq!(house.furnishing_j_per_m2k, 0.0);
    let wall = house
        .constructions
        .iter()
        .find(|c| c.name == "wall")
        .expect("wall");
    let expected = Layer::Solid {
        name: "fibreglass".to_owned(),
        thickness_m: 0.066,
        k_w_per_mk: 0.04,
        density_kg_per_m3: 12.0,
        cp_j_per_kgk: 840.0,
    };
    assert_eq!(wall.layers[1], expected);
    let GlazingData::Panes { panes, gaps } = &house.glazings[0].made_of else {
        panic!("panes")
    };
    assert_eq!((panes.len(), gaps.len()), (2, 1));
    near(panes[0].thickness_m, 0.003_048);
    assert_eq!(panes[1].sun_transmittance, 0.834);

    let set_back = read(&example("standard-140/640.toml"));
    let hours = set_back.house.rooms[0]
        .heated
        .as_ref()
        .expect("heated")
        .by_hour_c;
    // The value holds at the end of the hour: 10 C to 7 h, 20 C at 8 h, 20 C to 23 h.
    assert_eq!(
        (hours[23], hours[6], hours[7], hours[22]),
        (Some(10.0), Some(10.0), Some(20.0), Some(20.0))
    );

    let night_fan = read(&example("standard-140/950.toml"));
    let fan = &night_fan.house.vents[0];
    near(fan.flow_m3_per_s, 1703.16 / 3600.0);
    assert!(fan.on[18] && fan.on[6] && !fan.on[7] && !fan.on[17]);
    let cooled = night_fan.house.rooms[0]
        .cooled
        .as_ref()
        .expect("cooled")
        .by_hour_c;
    assert_eq!(
        (cooled[6], cooled[7], cooled[17], cooled[18]),
        (None, Some(27.0), Some(27.0), None)
    );
    assert!(night_fan.house.rooms[0].heated.is_none());
}

const AS_BUILT: &str = r#"
[[as_built]]
who = "M. at the site"
when = "2026-12-03"
set = "window.picture window.width"
to = "7 ft 10 in"
note = "the trim hid 2 in"

[[as_built]]
who = "M. at the site"
when = "2026-12-03"
head = "living"
line_length = "32 ft"

[[as_built]]
who = "M. at the site"
when = "2026-12-03"
outdoor = "east wall"
charge = "-2 oz"

[[as_built]]
who = "M. at the site"
when = "2026-12-03"
head = "landing"
serial = "S9-0042"
"#;

#[test]
fn as_built_wins_and_the_plan_stays_visible() {
    let job = read(&(example("lake-street/job.toml") + AS_BUILT));
    let window = job
        .house
        .windows
        .iter()
        .find(|w| w.name == "picture window")
        .expect("window");
    near(window.width_m, 94.0 * 0.0254);
    assert_eq!(job.as_built.len(), 4);
    assert_eq!(job.as_built[0].planned.as_deref(), Some("8 ft"));
    assert_eq!(
        job.as_built[0].value,
        AsBuiltValue::Replaces("7 ft 10 in".to_owned())
    );
    assert_eq!(job.as_built[1].path, "head.living.line_length");
    let AsBuiltValue::LineLength(metres) = job.as_built[1].value else {
        panic!("length")
    };
    near(metres, 32.0 * 0.3048);
    let AsBuiltValue::Charge(kg) = job.as_built[2].value else {
        panic!("charge")
    };
    near(kg, -2.0 * 0.453_592_37 / 16.0);
    assert_eq!(
        job.as_built[3].value,
        AsBuiltValue::Serial("S9-0042".to_owned())
    );
}

#[test]
fn the_same_door_named_from_both_rooms_is_one() {
    let text = example("lake-street/job.toml").replace(
        "used_for = \"kitchen\"",
        "used_for = \"kitchen\"\ndoor_to = [{ room = \"living\", width = \"4 ft\", height = \"80 in\" }]",
    );
    let once = read(&example("lake-street/job.toml")).house.doors.len();
    assert_eq!(read(&text).house.doors.len(), once);
}

/// Behind a knee wall a space is a metre high at most.
#[test]
fn a_space_behind_a_knee_wall_may_be_low() {
    let text = r#"northwall = 1
[job]
name = "Loft"
[place]
weather = "chicago-725300"
shelter = "suburban"
[leakage]
blower_door = "900 cfm at 50 Pa"
[[storey]]
name = "loft"
ceiling = "7 ft 6 in"
[[room]]
name = "knee"
storey = "loft"
outline = ["0 ft, 0 ft", "5 ft, 0 ft", "5 ft, 24 ft", "0 ft, 24 ft"]
ceiling = "2 ft 6 in"
[[room]]
name = "bed"
storey = "loft"
outline = ["5 ft, 0 ft", "25 ft, 0 ft", "25 ft, 24 ft", "5 ft, 24 ft"]
heated_to = "68 F"
"#;
    let job = read(text);
    near(job.house.rooms[0].ceiling_m.expect("said"), 0.762);
    house::geometry::model(&job.house).expect("stands");
}

#[test]
fn windows_line_ends_and_a_byte_order_mark_read_the_same() {
    let text = example("lake-street/job.toml");
    let plain = read(&text);
    let other = format!("\u{feff}{}", text.replace('\n', "\r\n"));
    let job = jobfile::read_bytes(other.as_bytes()).expect("reads");
    assert_eq!(job.house, plain.house);
}

/// Standard 140 case 960: the sunspace has its own heavy floor and walls, and the common wall is
/// one surface between the rooms.
#[test]
fn a_room_may_have_a_build_up_of_its_own() {
    let job = read(&example("standard-140/960.toml"));
    let model = house::geometry::model(&job.house).expect("builds");
    let built_of = |name: &str| {
        let surface = model.surfaces.iter().find(|s| s.name == name);
        let surface = surface.unwrap_or_else(|| {
            let names: Vec<&str> = model.surfaces.iter().map(|s| s.name.as_str()).collect();
            panic!("no {name} in {names:?}")
        });
        (
            model.constructions[surface.construction].name.as_str(),
            surface.area_m2,
        )
    };
    assert_eq!(built_of("sunspace.floor").0, "open floor of sunspace");
    assert_eq!(built_of("back.floor").0, "open floor");
    assert_eq!(built_of("sunspace.wall-west").0, "heavy wall");
    assert_eq!(built_of("back.wall-west").0, "wall");
    let (south, area) = built_of("sunspace.wall-south");
    assert_eq!(south, "heavy wall");
    near(area, 8.0 * 2.7 - 12.0);
    let common: Vec<_> = model
        .surfaces
        .iter()
        .filter(|s| model.constructions[s.construction].name == "partition")
        .collect();
    assert_eq!(common.len(), 1);
    near(common[0].area_m2, 8.0 * 2.7);
}
