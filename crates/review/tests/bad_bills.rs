//! Bills that cannot be used: each is refused with the line, what came, what is usable and what
//! would do. Words are looked for one by one; whole messages stand in the unit tests.

use review::{Asked, Days, Refused, read_deliveries, read_espi, read_meter};

fn words(refused: &Refused) -> String {
    refused.to_string()
}

fn table(text: &str, want: &[&str]) {
    let says = match read_meter(text.as_bytes(), &Asked::default()) {
        Ok(read) => panic!("read as {:?}\n{text}", read.bills.periods),
        Err(refused) => words(&refused),
    };
    holds(&says, want);
}

fn slips(text: &str, want: &[&str]) {
    let says = match read_deliveries(text.as_bytes(), &Asked::default()) {
        Ok(read) => panic!("read as {:?}\n{text}", read.bills.periods),
        Err(refused) => words(&refused),
    };
    holds(&says, want);
}

fn feed(text: &str, want: &[&str]) {
    let says = match read_espi(text.as_bytes(), None) {
        Ok(meters) => panic!("read as {meters:?}"),
        Err(refused) => words(&refused),
    };
    holds(&says, want);
}

fn holds(says: &str, want: &[&str]) {
    for w in want {
        assert!(says.contains(w), "no \"{w}\" in: {says}");
    }
    assert!(says.contains("usable: ") && says.len() < 500, "{says}");
}

const HEAD: &str = "from,to,use kWh\n";

fn rows(rows: &str) -> String {
    format!("{HEAD}{rows}")
}

#[test]
fn tables_that_are_none() {
    table("", &["the file is empty"]);
    table("  \n\n", &["the file is empty"]);
    table("%PDF-1.4\u{1}\u{2}", &["not a text file", "byte 0x01"]);
    table("hello\nworld\n", &["no line of headings", "hello"]);
    table("1,2,3\n4,5,6\n", &["no line of headings"]);
    table(
        "from,to,cost\n2025-01-01,2025-02-01,5\n",
        &["how much was used", "from, to, cost"],
    );
    table("name,use kWh,date of birth\n", &["no usable bill"]);
    table(
        "cost kWh use,start\n",
        &["no heading tells how much was used"],
    );
    table("month,use kWh\nJan,100\n", &["no heading tells the days"]);
    table(&format!("from,{}\n", "x,".repeat(500)), &["too many cells"]);
    table(
        "from,to,use\n2025-01-01,2025-02-01,5\n",
        &["in which unit", "use"],
    );
    table(
        "from,to,use gal\n2025-01-01,2025-02-01,5\n",
        &["what was bought", "gal"],
    );
    let far = Asked {
        amount: Some("Kilowatts".to_owned()),
        ..Asked::default()
    };
    let says = read_meter(rows("2025-01-01,2025-02-01,5\n").as_bytes(), &far).map(|_| ());
    holds(
        &words(&says.expect_err("no such column")),
        &["\"Kilowatts\"", "from, to, use kWh"],
    );
}

#[test]
fn dates_that_are_none() {
    table(
        &rows("2025-02-30,2025-03-01,5\n"),
        &["line 2", "not a day of the calendar", "2025-02-30"],
    );
    table(&rows("soon,2025-03-01,5\n"), &["line 2", "\"soon\""]);
    table(
        &rows("1825-01-01,1825-02-01,5\n"),
        &["line 2", "1900 to 2200"],
    );
    table(
        &rows("13/1/2025,2/2/2025,5\n2/2/2025,2/28/2025,5\n"),
        &["not all in one order", "2025-10-01"],
    );
    table(&rows(",2025-03-01,5\n"), &["line 2", "not a day"]);
    table(
        &rows("2025-03-01,2025-02-01,5\n"),
        &["line 2", "ends before it begins"],
    );
    table(
        &rows("2023-01-01,2025-02-01,5\n"),
        &["line 2", "more than a year", "762 days"],
    );
}

#[test]
fn amounts_that_are_none() {
    table(
        &rows("2025-01-01,2025-02-01,lots\n"),
        &["line 2", "not an amount", "\"lots\""],
    );
    table(
        &rows("2025-01-01,2025-02-01,$40\n"),
        &["line 2", "not an amount", "\"$40\""],
    );
    table(
        &rows("2025-01-01,2025-02-01,\"12,5\"\n"),
        &["write 12.5, not 12,5"],
    );
    table(
        &rows("2025-01-01,2025-02-01,1e999\n"),
        &["line 2", "not an amount"],
    );
    table(
        &rows("2025-01-01,2025-02-01,nan\n"),
        &["line 2", "not an amount"],
    );
    table(
        &rows("2025-01-01,2025-02-01,-40\n"),
        &["line 2", "use below nothing", "net metering hides"],
    );
    table(
        &rows("2025-01-01,2025-02-01,(40)\n"),
        &["use below nothing"],
    );
    table(
        "from,to,use therms\n2025-01-01,2025-02-01,-4\n",
        &["use below nothing", "a credit or a corrected bill"],
    );
    table(&rows("2025-01-01,2025-02-01,\n"), &["no usable bill"]);
    table(
        "from,to,use,unit\n2025-01-01,2025-02-01,5,kWh\n2025-02-01,2025-03-01,5,kVA\n",
        &["line 3", "electricity is not sold in this unit", "kVA"],
    );
    table(
        "from,to,use therms,unit\n2025-01-01,2025-02-01,5,gal\n",
        &["what was bought"],
    );
}

#[test]
fn bills_that_contradict_each_other() {
    table(
        &rows("2025-01-01,2025-02-01,5\n2025-01-20,2025-03-01,6\n"),
        &["line 3", "two bills overlap", "keep the corrected one"],
    );
    table(
        &rows("2025-01-01,2025-02-01,5\n2025-01-01,2025-02-01,6\n"),
        &["two bills overlap"],
    );
    table(
        "date,kWh\n2025-01-01,5\n2025-01-02,5\n2025-01-02,6\n2025-01-03,5\n2025-01-04,5\n",
        &["one day stands twice", "2025-01-02"],
    );
    for (heading, cell) in [
        ("estimated", "yes"),
        ("est", "E"),
        ("Est.", "y"),
        ("type", "E"),
    ] {
        table(
            &format!(
                "from,to,use kWh,{heading}\n2025-01-01,2025-02-01,5,{cell}\n\
                 2025-02-01,2025-03-01,5,{cell}\n"
            ),
            &["no usable bill", "give bills with meter readings"],
        );
    }
}

#[test]
fn slips_that_tell_nothing() {
    slips(
        "date,gallons oil\n2025-01-01,100\n",
        &["one delivery says nothing", "two full fills"],
    );
    slips(
        "date,gallons oil,full\n2025-01-01,100,yes\n2025-02-01,90,no\n",
        &["no two full fills", "1 full of 2"],
    );
    slips(
        "date,gallons oil\n2025-01-01,100\n2025-02-01,-90\n",
        &["line 3", "a delivery of nothing or less"],
    );
    slips(
        "date,gallons oil\n2025-01-01,0\n",
        &["line 2", "a delivery of nothing or less"],
    );
    slips(
        "date,gallons\n2025-01-01,100\n2025-02-01,100\n",
        &["which fuel was delivered"],
    );
    slips(
        "gallons oil,delivered by\n100,x\n",
        &["the day of the delivery"],
    );
    slips(
        "date,oil price\n2025-01-01,100\n",
        &["how much was delivered"],
    );
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
    assert!(read_espi(&bytes, None).is_err_and(|r| words(&r).contains("not UTF-8")));
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

#[test]
fn temperatures_that_are_none() {
    for (text, want) in [
        ("", "the file is empty"),
        ("date,rain\n2025-01-01,3\n", "no heading tells temperatures"),
        (
            "day of week,temperature_F\nMon,3\n",
            "not a day of the calendar",
        ),
        ("date,temperature\n2025-01-01,3\n", "does not say its unit"),
        ("date,temperature_C\n2025-01-01,warm\n", "not a temperature"),
        (
            "date,temperature_C\n2025-01-01,99.9\n",
            "no outdoor temperature",
        ),
        (
            "date,temperature_F\n2025-01-01,-99\n",
            "no outdoor temperature",
        ),
        ("date,temperature_C\n2025-01-01,\n", "no temperatures"),
        (
            "date,temperature_C\n1901-01-01,5\n2190-01-01,5\n",
            "more than a hundred years",
        ),
    ] {
        let says = Days::read_csv(text.as_bytes()).map(|_| ()).expect_err(text);
        holds(&words(&says), &[want]);
    }
}
