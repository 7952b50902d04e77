//! Loads as they are shown: no hour that is none, and rounded alike wherever they stand.

mod support;

use serde_json::Value;
use support::{DEMO, json, project, run};

/// The bath of the demo, which 95 F does not trouble, has no hour of its cooling peak; nor has a house
/// all of whose rooms are so.
#[test]
fn what_needs_no_cooling_has_no_hour_of_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let text = std::fs::read_to_string(project().join(DEMO)).expect("the demo");
    let text = text.replace("../../weather/chicago-725300.epw.gz", "chicago-725300");
    let bath = text.replace(
        "\nused_for = \"bath\"\n",
        "\ncooled_to = \"95 F\"\nused_for = \"bath\"\n",
    );
    assert_ne!(bath, text);
    let job = folder.path().join("job.toml");
    let path = job.to_str().expect("text");
    std::fs::write(&job, bath).expect("written");
    let told = run(&["loads", path]).1;
    let row = told
        .lines()
        .rfind(|l| l.starts_with("  bath  ") && l.ends_with("  -"));
    assert!(row.is_some_and(|r| r.contains(" 0 ")), "{told}");
    assert!(!told.contains("Jan 1"), "{told}");
    let answer = json(&["loads", path]);
    let of = |name: &str| {
        let rooms = answer["rooms"].as_array().expect("rooms");
        rooms
            .iter()
            .find(|r| r["room"] == name)
            .expect("is there")
            .clone()
    };
    assert_eq!(of("bath")["cooling_sensible_w"], 0.0);
    assert_eq!(of("bath").get("cooling_peak_at"), Some(&Value::Null));
    assert!(of("living")["cooling_peak_at"].is_string());
    let why = run(&["why", path, "loads.bath.cooling"]).1;
    assert!(why.contains("no hour of them needs cooling"), "{why}");

    let none = text
        .replace("\nheated_to", "\ncooled_to = \"120 F\"\nheated_to")
        .replace("\ncooled_to = \"76 F\"\n", "\n");
    std::fs::write(&job, none).expect("written");
    let told = run(&["loads", path]).1;
    assert!(
        told.contains("No hour of the worst clear days needs cooling."),
        "{told}"
    );
    let answer = json(&["loads", path]);
    for key in ["cooling_peak_at", "cooling_latent_w"] {
        assert_eq!(answer.get(key), Some(&Value::Null), "{key}");
    }
    assert_eq!(answer["cooling_sensible_w"], 0.0);
}

/// A load is rounded alike in its own why, in the list of a beginning and in their JSON.
#[test]
fn a_figure_is_rounded_alike_wherever_it_is_shown() {
    let list = json(&["why", DEMO, "loads.bath"]);
    let listed = list["figures"].as_array().expect("a list");
    assert!(listed.len() > 5, "{list}");
    for figure in listed {
        let key = figure["key"].as_str().expect("a key");
        let shown = figure["shown"].as_str().expect("text");
        assert_eq!(json(&["why", DEMO, key])["shown"], shown, "{key}");
        let told = run(&["why", DEMO, key]).1;
        assert_eq!(told.lines().next(), Some(&*format!("{key} = {shown}")));
    }
}
