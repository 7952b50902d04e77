//! A half-surveyed house gives half a plan.

use climate::{Station, Weather};
use plan::{Catalogue, DesignFrom, Stage, plan};

const BOX: &str = "\
northwall = 1
[job]
name = \"Half a house\"
[place]
weather = \"none\"
elevation = \"100 m\"
[[storey]]
name = \"ground\"
ceiling = \"8 ft\"
under = \"open air\"
over = \"flat roof\"
[[room]]
name = \"living\"
storey = \"ground\"
outline = [\"0 ft, 0 ft\", \"20 ft, 0 ft\", \"20 ft, 15 ft\", \"0 ft, 15 ft\"]
";

fn weather() -> Weather {
    let station = Station {
        name: "Testplace".into(),
        place: "none".into(),
        wmo: "0".into(),
        latitude_deg: 45.0,
        longitude_deg: -90.0,
        utc_offset_h: -6.0,
        elevation_m: 100.0,
        source: "test".into(),
    };
    // A sky as warm as the air: nothing pulls the room away from it.
    Weather::constant(station, -5.0, -10.0, 3.0, 293.2).expect("in range")
}

fn of(extra: &str) -> plan::Plan {
    let text = format!("{BOX}{extra}[leakage]\nblower_door = \"900 cfm at 50 Pa\"\n");
    let job = jobfile::read(&text).expect("reads");
    plan(&job, &Catalogue::default(), &weather())
}

#[test]
fn a_room_without_a_setting_floats_and_the_loads_wait() {
    let plan = of("");
    assert!(matches!(&plan.loads, Stage::Waiting(w) if w[0].place == "room"));
    let year = plan.ideal.done().expect("a year needs no setting");
    assert_eq!(year.house.heating_j, 0.0);
    // No sun, nothing inside: the room ends at the air around it, within half a degree of sky.
    assert!(
        (year.house.mean_c - -5.0).abs() < 2.0,
        "{}",
        year.house.mean_c
    );
    assert!(matches!(&plan.season, Stage::Waiting(w) if w[0].place == "head"));
    assert_eq!(plan.waits().len(), 2);
}

#[test]
fn what_nobody_looked_at_is_asked_for() {
    let plan = of("heated_to = \"70 F\"\n");
    let rules: Vec<&str> = plan
        .findings
        .iter()
        .map(|f| f.finding.rule.as_str())
        .collect();
    assert!(rules.contains(&"leakage-not-tested"), "{rules:?}");
    assert!(rules.contains(&"design-from-hours"), "{rules:?}");
    assert_eq!(plan.site.heating.from, DesignFrom::Hours);
    assert!((plan.site.heating.used_c - -5.0).abs() < 1e-9);
    assert!(plan.loads.done().expect("done").heating.heat_w > 500.0);
}

/// Card F5: a station 1,000 ft above or below the house is not taken without a word.
#[test]
fn a_station_far_in_height_is_asked_about() {
    let asked = |elevation: &str| {
        let text =
            format!("{BOX}heated_to = \"70 F\"\n[leakage]\nblower_door = \"900 cfm at 50 Pa\"\n")
                .replace(
                    "elevation = \"100 m\"",
                    &format!("elevation = \"{elevation}\""),
                );
        let job = jobfile::read(&text).expect("reads");
        let station_m = weather().station.elevation_m;
        let plan = plan(&job, &Catalogue::default(), &weather());
        let asks = plan
            .findings
            .iter()
            .any(|f| f.finding.rule == "station-far-in-height");
        (asks, (plan.site.elevation_m - station_m).abs())
    };
    for (elevation, want) in [("10 m", false), ("300 m", false), ("600 m", true)] {
        let (asks, apart) = asked(elevation);
        assert_eq!(asks, want, "{elevation}: {apart} m apart");
    }
}

/// C typed as F, a lost minus, cents for dollars: read, planned, and asked about.
#[test]
fn slips_of_the_pen_are_asked_about() {
    let asks = |place: &str, prices: &str| -> Vec<String> {
        let text = format!(
            "{BOX}heated_to = \"70 F\"\n[leakage]\nblower_door = \"900 cfm at 50 Pa\"\n[prices]\n\
             as_of = \"2026-11-01\"\n{prices}\n"
        )
        .replace("[place]\n", &format!("[place]\n{place}\n"));
        let job = jobfile::read(&text).expect("reads");
        plan(&job, &Catalogue::default(), &weather())
            .findings
            .iter()
            .map(|f| f.finding.rule.clone())
            .filter(|r| r == "design-typed-apart" || r == "price-unlikely")
            .collect()
    };
    // the hours of this weather are all at -5 C
    let typed = |c: &str| {
        let place = format!("heating_design = \"{c}\"\nheating_design_source = \"office\"");
        asks(&place, "")
    };
    for near in ["-5 C", "-3.4 C", "-13.2 C"] {
        assert!(typed(near).is_empty(), "{near}");
    }
    for far in ["-3.2 C", "-13.4 C", "5 C", "20 C"] {
        assert_eq!(typed(far), ["design-typed-apart"], "{far}");
    }
    for (prices, want) in [
        ("electricity = \"0.22 /kWh\"\noil = \"3.90 /gal\"", 0),
        ("electricity = \"1.4 /kWh\"", 0),
        ("electricity = \"22 /kWh\"", 1),
        ("electricity = \"22 /kWh\"\noil = \"390 /gal\"", 2),
        ("electricity = \"0.001 /kWh\"", 1),
        ("currency = \"CAD\"\nelectricity = \"22 /kWh\"", 0),
    ] {
        assert_eq!(asks("", prices).len(), want, "{prices}");
    }
}

/// Build-ups that stand in where the job describes none are asked for, not only those it calls
/// assumed; inner walls, and what was seen, are not. So is glass.
#[test]
fn what_stands_in_for_a_build_up_is_asked_for() {
    let asked = |extra: &str| -> Vec<String> {
        of(extra)
            .findings
            .iter()
            .filter(|f| f.finding.rule == "build-up-not-seen")
            .map(|f| f.finding.place.clone())
            .collect()
    };
    let window = "heated_to = \"70 F\"\n[[window]]\nroom = \"living\"\nwall = \"south\"\n\
                  width = \"3 ft\"\nheight = \"4 ft\"\n";
    let all = asked(&format!("{window}glazing = \"double clear\"\n"));
    assert!(all.contains(&"construction.wall".to_owned()), "{all:?}");
    assert!(all.contains(&"window.living south".to_owned()), "{all:?}");
    assert!(!all.iter().any(|p| p.contains("partition")), "{all:?}");
    let seen = asked(&format!(
        "{window}glazing = \"double clear\"\nseen = \"label\"\n[construction.wall]\n\
         like = \"2x4 wall with batt\"\nseen = \"borescope\"\n"
    ));
    assert_eq!(seen.len(), all.len() - 2, "{all:?} {seen:?}");
}

#[test]
fn a_unit_without_a_sheet_is_asked_for_and_the_rest_is_planned() {
    let plan = of(
        "heated_to = \"70 F\"\n[[outdoor]]\nname = \"a\"\nunit = \"Heron\"\n\
                   [[head]]\nroom = \"living\"\nunit = \"Teal 12\"\non = \"a\"\n",
    );
    let ask = plan
        .findings
        .iter()
        .filter(|f| f.finding.rule == "sheet-missing")
        .count();
    assert_eq!(ask, 2);
    assert!(plan.year().is_none());
    assert!(plan.loads.done().is_some() && plan.ideal.done().is_some());
    assert!(!plan.chosen[0].whole);
}
