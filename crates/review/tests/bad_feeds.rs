//! Green Button files that cannot be used: attacks, broken ones, and those that say nothing usable.

mod support;

use review::read_espi;
use support::holds;

fn feed(text: &str, want: &[&str]) {
    let says = match read_espi(text.as_bytes(), None) {
        Ok(meters) => panic!("read as {meters:?}"),
        Err(refused) => refused.to_string(),
    };
    holds(&says, want);
}

const ATOM: &str = "<feed xmlns=\"http://www.w3.org/2005/Atom\">";

fn reading(of_type: &str, readings: &str) -> String {
    format!(
        "{ATOM}\n<entry><link rel=\"self\" href=\"u\"/><link rel=\"related\" href=\"u/m\"/>\
         <content><UsagePoint><ServiceCategory><kind>0</kind></ServiceCategory></UsagePoint></content></entry>\n\
         <entry><link rel=\"self\" href=\"m\"/><link rel=\"up\" href=\"u/m\"/><link rel=\"related\" href=\"t\"/>\
         <link rel=\"related\" href=\"b\"/><content><MeterReading/></content></entry>\n\
         <entry><link rel=\"self\" href=\"t\"/><content><ReadingType>{of_type}</ReadingType></content></entry>\n\
         <entry><link rel=\"up\" href=\"b\"/><content><IntervalBlock>{readings}</IntervalBlock></content></entry></feed>"
    )
}

fn one(start: &str, duration: &str, value: &str) -> String {
    format!(
        "<IntervalReading><timePeriod><duration>{duration}</duration><start>{start}</start></timePeriod>\
         <value>{value}</value></IntervalReading>"
    )
}

const WH: &str = "<uom>72</uom><powerOfTenMultiplier>0</powerOfTenMultiplier>";

#[test]
fn feeds_that_are_an_attack() {
    let bomb = format!(
        "<!DOCTYPE lolz [<!ENTITY a \"ha\"><!ENTITY b \"&a;&a;&a;&a;&a;&a;&a;&a;\">]>{ATOM}<title>&b;</title></feed>"
    );
    feed(
        &bomb,
        &["line 1", "document type or entities", "do not use it"],
    );
    let outside = format!("<!DOCTYPE f SYSTEM \"file:///etc/hostname\">{ATOM}</feed>");
    feed(&outside, &["document type or entities"]);
    feed(
        &format!("{ATOM}<title>&boom;</title></feed>"),
        &["document type or entities"],
    );
    feed(
        &format!("<?xml version=\"1.0\"?><?evil run?>{ATOM}</feed>"),
        &["processing instruction"],
    );
    feed(
        &format!("{ATOM}{}", "<a>".repeat(100_000)),
        &["nested too deep"],
    );
    feed(
        &format!("{ATOM}{}</feed>", "<entry></entry>".repeat(20_001)),
        &["too many entries"],
    );
    let flood = reading(WH, &"<IntervalReading/>".repeat(2_000_001));
    feed(&flood, &["too many readings"]);
    feed(
        &format!("{ATOM}{}", " ".repeat(48_000_000)),
        &["the feed is too large"],
    );
}

#[test]
fn feeds_that_are_broken() {
    let whole = reading(WH, &one("1735711200", "3600", "500"));
    let cut = &whole[..whole.len() - 60];
    feed(cut, &["the XML does not read", "download it again"]);
    feed("<feed><entry></feed>", &["line 1", "the XML does not read"]);
    feed("<feed", &["the XML does not read"]);
    feed("<html><body/></html>", &["no Green Button feed", "<html>"]);
    feed("   ", &["no Green Button feed"]);
    feed(&format!("{ATOM}</feed>"), &["no meter reading"]);
    let bytes = [b"<feed>".as_slice(), &[0xff, 0xfe]].concat();
    assert!(read_espi(&bytes, None).is_err_and(|r| r.to_string().contains("not UTF-8")));
    feed(
        &reading(WH, &one("1735711200", "3600", "lots")),
        &["<value> holds no whole number", "\"lots\""],
    );
    feed(
        &reading(WH, &one("1735711200", "3600", "99999999999999999999")),
        &["<value> holds no whole number"],
    );
    feed(
        &reading(WH, "<IntervalReading><value>5</value></IntervalReading>"),
        &["a reading has no start"],
    );
    feed(
        &reading(WH, &one("1735711200000", "3600", "5")),
        &["in no year of ours", "milliseconds"],
    );
    feed(
        &reading(WH, &one("1735711200", "0", "5")),
        &["lasts no usable time"],
    );
    feed(
        &reading(WH, &one("1735711200", "3600", "-5")),
        &["use below nothing", "net meter"],
    );
    feed(
        &reading("<uom>29</uom>", &one("1735711200", "3600", "5")),
        &["no energy", "volts"],
    );
    feed(
        &reading(
            "<uom>72</uom><powerOfTenMultiplier>99</powerOfTenMultiplier>",
            &one("1735711200", "3600", "5"),
        ),
        &["powerOfTenMultiplier", "-12 to 12"],
    );
    feed(
        &reading(
            "<uom>72</uom><accumulationBehaviour>3</accumulationBehaviour>",
            &one("1735711200", "3600", "5"),
        ),
        &["a register that only grows"],
    );
    feed(
        &reading(
            "<uom>72</uom><flowDirection>19</flowDirection>",
            &one("1735711200", "3600", "5"),
        ),
        &["only energy sent to the grid"],
    );
    let orphan = whole.replace("<link rel=\"related\" href=\"t\"/>", "").replace(
        "<entry><link rel=\"self\" href=\"t\"/>",
        "<entry><content><ReadingType><uom>5</uom></ReadingType></content></entry><entry><link rel=\"self\" href=\"t\"/>",
    );
    feed(&orphan, &["in what this meter reading counts"]);
    let zone = whole.replace("</feed>", "<entry><content><LocalTimeParameters><tzOffset>999999</tzOffset></LocalTimeParameters></content></entry></feed>");
    feed(&zone, &["tzOffset is no time zone"]);
}

#[test]
fn hours_that_stand_twice() {
    // noon of 1 July: no clock goes back then
    let noon = one("1751385600", "3600", "5") + &one("1751385600", "3600", "6");
    feed(
        &reading(WH, &noon),
        &["two readings of one time differ", "2025-07-01"],
    );
    let mixed = one("1751385600", "3600", "5") + &one("1751386500", "900", "6");
    feed(&reading(WH, &mixed), &["two readings overlap", "2700 s"]);
}

/// In the night of 2 November 2025 the clock hour from one to two stands twice, with two uses.
#[test]
fn the_hour_that_clocks_repeat_counts_twice() {
    let midnight = 1_762_041_600; // 2025-11-02 00:00, as if the clock were Greenwich's
    let first = midnight - 20 * 86_400;
    let mut text = String::new();
    for h in 0..24 * 40 {
        let start = first + h * 3600;
        text += &one(&start.to_string(), "3600", "100");
        if start == midnight + 3600 {
            text += &one(&start.to_string(), "3600", "70");
        }
    }
    let meters = read_espi(reading(WH, &text).as_bytes(), Some(0)).expect("reads");
    let bills = &meters[0].bills;
    let sum: f64 = bills.periods.iter().map(|p| p.energy_j / 3600.0).sum();
    assert!((sum - (24.0 * 40.0 * 100.0 + 70.0)).abs() < 1e-6, "{sum}");
    assert!(
        bills
            .notes
            .iter()
            .any(|n| n.text.contains("where clocks go back"))
    );
}
