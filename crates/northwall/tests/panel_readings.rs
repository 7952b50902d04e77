//! The panel by measurement, from the meter's own readings.

mod support;

use std::fmt::Write as _;

use support::{project, run};

const TYPED: &str = "peak = \"7.4 kW\"\ninterval = \"1 h\"\ndays = 365\n";

/// Quarters of an hour over so many days; one of 1.5 kWh, the others 0.2 kWh.
fn feed(days: i64, flow: &str) -> String {
    let mut readings = String::new();
    for i in 0..days * 96 {
        let _ = write!(
            readings,
            "<IntervalReading><timePeriod><duration>900</duration><start>{}</start></timePeriod><value>{}</value></IntervalReading>",
            1_735_711_200 + i * 900,
            if i == 3000 { 1500 } else { 200 }
        );
    }
    format!(
        "<feed xmlns=\"http://www.w3.org/2005/Atom\">\
         <entry><link rel=\"self\" href=\"u\"/><link rel=\"related\" href=\"u/m\"/>\
         <content><UsagePoint><ServiceCategory><kind>0</kind></ServiceCategory></UsagePoint></content></entry>\
         <entry><link rel=\"self\" href=\"m\"/><link rel=\"up\" href=\"u/m\"/><link rel=\"related\" href=\"t\"/>\
         <link rel=\"related\" href=\"b\"/><content><MeterReading/></content></entry>\
         <entry><link rel=\"self\" href=\"t\"/><content><ReadingType>{flow}<uom>72</uom></ReadingType></content></entry>\
         <entry><link rel=\"up\" href=\"b\"/><content><IntervalBlock>{readings}</IntervalBlock></content></entry></feed>"
    )
}

/// `wires` on the demo with this file of readings and this in place of what was typed.
fn wires(meter: &str, panel: &str) -> (i32, String) {
    let folder = tempfile::tempdir().expect("a folder");
    let job = std::fs::read_to_string(project().join(support::DEMO)).expect("the demo");
    assert!(job.contains(TYPED), "the demo's panel");
    std::fs::write(
        folder.path().join("job.toml"),
        job.replacen(TYPED, panel, 1),
    )
    .expect("job");
    std::fs::write(folder.path().join("meter.xml"), meter).expect("meter");
    let at = folder.path().join("job.toml").display().to_string();
    let catalogue = project().join("catalogue").display().to_string();
    let (code, out, err) = run(&["wires", &at, "--catalogue", &catalogue]);
    let words = format!("{out}{err}");
    (code, words.split_whitespace().collect::<Vec<_>>().join(" "))
}

/// 1.25 times 6 kW at 240 V and 24 A of the unit are 55.25 A.
#[test]
fn a_year_of_quarters_is_judged() {
    let (code, says) = wires(&feed(366, ""), "readings = \"meter.xml\"\n");
    assert_eq!(code, 1, "the ground-fault stop of the demo: {says}");
    assert!(
        says.contains("holds panel by measurement: 55.2 A; required at most 100 A"),
        "{says}"
    );
}

#[test]
fn what_cannot_tell_says_why() {
    let (_, says) = wires(&feed(40, ""), "readings = \"meter.xml\"\n");
    assert!(
        says.contains("cannot tell panel by measurement: 40 days of readings"),
        "{says}"
    );
    // a net meter hides the demand, whatever the job says of solar
    let (_, says) = wires(
        &feed(366, "<flowDirection>4</flowDirection>"),
        "readings = \"meter.xml\"\n",
    );
    assert!(says.contains("solar or storage behind the meter"), "{says}");
}

#[test]
fn bad_readings_say_where() {
    for (meter, panel, words) in [
        (
            feed(40, ""),
            "readings = \"meter.xml\"\ndays = 365\n",
            "panel.days: the readings tell this already",
        ),
        (
            feed(40, ""),
            "readings = \"none.xml\"\n",
            "there is no such file of readings",
        ),
        (
            "<feed".to_owned(),
            "readings = \"meter.xml\"\n",
            "meter.xml",
        ),
        (String::new(), "readings = \"meter.xml\"\n", "meter.xml"),
    ] {
        let (code, says) = wires(&meter, panel);
        assert_eq!(code, 2, "{panel}: {says}");
        assert!(says.contains(words), "{panel}: {says}");
    }
}
