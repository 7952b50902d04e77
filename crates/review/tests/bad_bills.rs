//! Bills that cannot be used: each is refused with the line, what came, what is usable and what
//! would do. Words are looked for one by one; whole messages stand in the unit tests.

mod support;

use review::{Asked, Days, read_deliveries, read_meter};
use support::holds;

fn table(text: &str, want: &[&str]) {
    let says = match read_meter(text.as_bytes(), &Asked::default()) {
        Ok(read) => panic!("read as {:?}\n{text}", read.bills.periods),
        Err(refused) => refused.to_string(),
    };
    holds(&says, want);
}

fn slips(text: &str, want: &[&str]) {
    let says = match read_deliveries(text.as_bytes(), &Asked::default()) {
        Ok(read) => panic!("read as {:?}\n{text}", read.bills.periods),
        Err(refused) => refused.to_string(),
    };
    holds(&says, want);
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
        &says.expect_err("no such column").to_string(),
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
        holds(&says.to_string(), &[want]);
        // columns of temperatures have no names in the job
        assert!(!says.mend.contains("[[bills]]"), "{says}");
    }
}
