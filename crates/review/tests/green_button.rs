//! Green Button feeds beside `greenbutton-objects` 2024.7.11, and what is made of them.
//! Feeds and values are made by `checks/review_green_button.py`; nobody's meter is in them.

use std::fmt::Write as _;

use std::path::Path;

use jobfile::Carrier;
use review::calendar::iso;
use review::{EspiMeter, read_espi};

fn feed(name: &str) -> Vec<u8> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("tests/feeds/{name}.xml"));
    std::fs::read(path).expect("kept")
}

fn meters(name: &str) -> Vec<EspiMeter> {
    read_espi(&feed(name), None).unwrap_or_else(|r| panic!("{name}: {r}"))
}

fn said(meter: &EspiMeter) -> String {
    let all: Vec<&str> = meter.bills.notes.iter().map(|n| n.text.as_str()).collect();
    all.join("\n")
}

/// Sums of whole numbers times a power of ten: 1e-9.
#[test]
fn readings_and_sums_are_those_of_the_library() {
    let path =
        Path::new(env!("CARGO_MANIFEST_DIR")).join("../../checks/values/review_green_button.csv");
    let kept = std::fs::read_to_string(path).expect("kept");
    let mut count = 0;
    for row in kept.lines().filter(|l| !l.starts_with('#')).skip(1) {
        let r: Vec<&str> = row.split(',').collect();
        if r[2] == "received" {
            continue;
        }
        let all = meters(r[0]);
        let title = |m: &&EspiMeter| m.title.replace(',', "") == r[1];
        let got = all.iter().find(title).expect("meter");
        assert_eq!(got.readings, r[4].parse::<usize>().expect("count"), "{row}");
        let sum: f64 = r[5].parse().expect("sum");
        assert!((got.sum - sum).abs() < 1e-9 * sum, "{row}: {}", got.sum);
        count += 1;
    }
    assert_eq!(count, 5);
}

/// By hand from the generator: 70 days from 1 October, less those cut by the gap of 20 October 05:00
/// to 22 October 09:00, by standard time; one reading stands twice.
#[test]
fn hours_become_whole_days_of_standard_time() {
    let all = meters("hours");
    let [m] = all.as_slice() else {
        panic!("{}", all.len())
    };
    let spans: Vec<(String, i32)> = m
        .bills
        .periods
        .iter()
        .map(|p| (iso(p.from), p.days()))
        .collect();
    assert_eq!(
        spans,
        [("2025-10-01".to_owned(), 20), ("2025-11-01".to_owned(), 30)]
    );
    let notes = said(m);
    assert!(
        notes.contains("1 readings stand twice; counted once"),
        "{notes}"
    );
    assert!(notes.contains("count as missing"), "{notes}");
    assert!(m.bills.from_days && !m.bills.behind_sun);
}

#[test]
fn energy_sent_back_is_told_and_kept_apart() {
    let all = meters("sun");
    let [m] = all.as_slice() else {
        panic!("{}", all.len())
    };
    assert!(m.bills.behind_sun);
    // 279,371 Wh by the library
    assert!((m.back_j - 279_371.0 * 3600.0).abs() < 1e-3, "{}", m.back_j);
    assert!(said(m).contains("279 kWh were sent back"), "{}", said(m));
}

/// Bills begin at clock midnight, which summer time moves; the days must not move with it. The
/// sixth bill is an estimate and joins the seventh.
#[test]
fn bills_keep_their_days_across_daylight_saving() {
    let all = meters("gas");
    let [m] = all.as_slice() else {
        panic!("{}", all.len())
    };
    assert_eq!(m.bills.carrier, Carrier::Gas);
    assert_eq!(m.bills.periods.len(), 13);
    for p in &m.bills.periods {
        assert!(
            iso(p.from).ends_with("-14") && iso(p.to).ends_with("-14"),
            "{}",
            iso(p.from)
        );
    }
    let sum: f64 = m.bills.periods.iter().map(|p| p.energy_j).sum();
    let therms = sum / units::constants::THERM_J;
    assert!((therms - 1549.282).abs() < 1e-6, "{therms}");
    assert!(
        said(m).contains("the feed names no time zone"),
        "{}",
        said(m)
    );
}

#[test]
fn several_usage_points_come_apart() {
    let all = meters("house");
    let carriers: Vec<Carrier> = all.iter().map(|m| m.bills.carrier).collect();
    assert_eq!(carriers, [Carrier::Electricity, Carrier::Gas]);
    let days: Vec<i32> = all.iter().map(|m| m.bills.days()).collect();
    assert_eq!(days, [75, 366]);
}

/// Quarters of an hour for `days`, 0.2 kWh each but for one of 2.35 kWh: its mean is 9.4 kW.
fn quarters(days: i64, long_s: i64) -> String {
    let start = 1_735_711_200; // 2025-01-01 in Chicago
    let mut readings = String::new();
    for i in 0..days * 86_400 / long_s {
        let _ = write!(
            readings,
            "<IntervalReading><timePeriod><duration>{long_s}</duration><start>{}</start></timePeriod><value>{}</value></IntervalReading>",
            start + i * long_s,
            if i == 3000 { 2350 } else { 200 }
        );
    }
    format!(
        "<feed xmlns=\"http://www.w3.org/2005/Atom\">\
         <entry><link rel=\"self\" href=\"u\"/><link rel=\"related\" href=\"u/m\"/>\
         <content><UsagePoint><ServiceCategory><kind>0</kind></ServiceCategory></UsagePoint></content></entry>\
         <entry><link rel=\"self\" href=\"m\"/><link rel=\"up\" href=\"u/m\"/><link rel=\"related\" href=\"t\"/>\
         <link rel=\"related\" href=\"b\"/><content><MeterReading/></content></entry>\
         <entry><link rel=\"self\" href=\"t\"/><content><ReadingType><uom>72</uom></ReadingType></content></entry>\
         <entry><link rel=\"up\" href=\"b\"/><content><IntervalBlock>{readings}</IntervalBlock></content></entry></feed>"
    )
}

#[test]
fn the_highest_quarter_of_an_hour() {
    let meters = read_espi(quarters(366, 900).as_bytes(), Some(-21_600)).expect("reads");
    let d = meters[0].demand.expect("intervals");
    assert!((d.peak_w - 9400.0).abs() < 1e-9, "{d:?}");
    assert_eq!((d.interval_s, d.days, d.estimates), (900, 366, false));
    assert_eq!(d.at_s, 1_735_711_200 + 3000 * 900);
    // the same energy by the hour: the peak is hidden, and the interval says so
    let meters = read_espi(quarters(130, 3600).as_bytes(), Some(-21_600)).expect("reads");
    let d = meters[0].demand.expect("intervals");
    assert_eq!((d.interval_s, d.days), (3600, 130));
    // days and bills tell no demand
    for meter in read_espi(quarters(4000, 86_400).as_bytes(), Some(-21_600)).expect("reads") {
        assert_eq!(meter.demand, None);
    }
}
