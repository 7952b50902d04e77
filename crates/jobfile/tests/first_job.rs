//! The first job reads for every answer, and says what is assumed.

use jobfile::new::{Answers, Below, Built, first_job};
use jobfile::{Carrier, HeaterKind};
use proptest::prelude::*;
use reckon::Known;

#[test]
fn the_usual_answers_make_a_job_of_assumptions() {
    let text = first_job(&Answers::default());
    let job = jobfile::read(&text).expect("reads");
    assert_eq!(job.house.storeys.len(), 3);
    assert_eq!(
        job.house
            .rooms
            .iter()
            .filter(|r| r.heated.is_some())
            .count(),
        8
    );
    assert!(
        job.given.iter().all(|g| g.known == Known::Assumed),
        "{:?}",
        job.given
    );
    assert_eq!(job.existing, None);
    insta::with_settings!({ omit_expression => true, prepend_module_to_snapshot => false }, {
        insta::assert_snapshot!("first-job", text);
    });
}

#[test]
fn answers_stand_in_the_job() {
    let answers = Answers {
        name: "The \"old\" mill \\ upstairs".to_owned(),
        storeys: 1,
        built: Built::Empty,
        under: Below::Crawl,
        blower_door: Some("3200 cfm at 50 Pa".to_owned()),
        rooms: ["living", "kitchen", "bath", "bed 1", "bed 1", "hall", "den"]
            .map(str::to_owned)
            .to_vec(),
        heat_now: Some((HeaterKind::Furnace, Carrier::Propane)),
        ..Answers::default()
    }
    .with_floor_area(100.0);
    let job = jobfile::read(&first_job(&answers)).expect("reads");
    assert_eq!(job.name, answers.name);
    let names: Vec<&str> = job.house.rooms.iter().map(|r| r.name.as_str()).collect();
    assert_eq!(names, ["hall", "living", "kitchen", "bath", "bed 1", "den"]);
    let leakage = job
        .given
        .iter()
        .find(|g| g.path == "leakage")
        .expect("leakage");
    assert_eq!(leakage.known, Known::Seen);
    assert_eq!(
        job.existing.as_ref().map(|h| h.carrier),
        Some(Carrier::Propane)
    );
    // 100 m2 asked; walls are drawn to whole feet.
    let model = house::geometry::model(&job.house).expect("builds");
    let heated: f64 = model
        .zones
        .iter()
        .filter(|z| z.heated.is_some())
        .map(|z| z.floor_m2)
        .sum();
    assert!((heated - 100.0).abs() < 4.0, "{heated} m2");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 128, failure_persistence: None, ..ProptestConfig::default() })]
    #[test]
    fn any_answers_make_a_job_that_reads(
        name in "\\PC{0,20}",
        width_m in 5.0..40.0f64,
        depth_m in 5.0..40.0f64,
        storeys in 0u32..6,
        built in 0usize..4,
        under in 0usize..3,
        rooms in proptest::collection::vec("[a-z .]{0,8}", 0..9),
        windows in prop_oneof![Just("double clear"), Just("single"), Just("triple low-e argon")],
    ) {
        let answers = Answers {
            name, width_m, depth_m, storeys,
            built: Built::ALL[built],
            under: Below::ALL[under],
            rooms,
            windows: windows.to_owned(),
            ..Answers::default()
        };
        let text = first_job(&answers);
        if let Err(problems) = jobfile::read(&text) {
            let all: Vec<String> = problems.iter().map(ToString::to_string).collect();
            prop_assert!(false, "{}\n{}", all.join("\n"), text);
        }
    }
}
