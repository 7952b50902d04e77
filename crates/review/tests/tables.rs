//! Tables as utilities and dealers write them, read with the columns guessed.

use std::fmt::Write as _;

use jobfile::Carrier;
use review::calendar::iso;
use review::{Asked, FileKind, ReadBills, kind_of, read_deliveries, read_meter};

fn meter(text: &str) -> ReadBills {
    read_meter(text.as_bytes(), &Asked::default()).unwrap_or_else(|r| panic!("{r}\n{text}"))
}

fn spans(read: &ReadBills) -> Vec<(String, i32, f64)> {
    let kwh = |j: f64| (j / 3.6e6 * 1000.0).round() / 1000.0;
    read.bills
        .periods
        .iter()
        .map(|p| (iso(p.from), p.days(), kwh(p.energy_j)))
        .collect()
}

fn said(read: &ReadBills) -> String {
    let all: Vec<&str> = read.bills.notes.iter().map(|n| n.text.as_str()).collect();
    all.join("\n")
}

#[test]
fn a_bill_a_row_with_lines_above_the_headings() {
    let read = meter(
        "Name,Invented Person\nAccount,000\n\nTYPE,START DATE,END DATE,USAGE (kWh),COST,NOTES\n\
         Electric usage,2025-01-03,2025-02-03,\"1,040.5\",$200.10,\n\
         Electric usage,2025-02-03,2025-03-05,900,$180.00,Estimated read\n\
         Electric usage,2025-03-05,2025-04-04,700,$140.00,\nTotal,,,2640.5,,\n",
    );
    assert_eq!(read.bills.carrier, Carrier::Electricity);
    assert_eq!(
        spans(&read),
        [
            ("2025-01-03".to_owned(), 31, 1040.5),
            ("2025-02-03".to_owned(), 60, 1600.0)
        ]
    );
    assert_eq!(
        read.mapping.words(),
        "days from \"START DATE\" to \"END DATE\" (year first); amount \"USAGE (kWh)\" in kwh; \
         estimates by \"NOTES\""
    );
}

#[test]
fn readings_on_days_begin_where_the_one_before_ended() {
    let read = meter(
        "Read Date;Read Type;Therms\n13.01.2025;Actual;90\n12.02.2025;Actual;110\n14.03.2025;Actual;80\n",
    );
    assert_eq!(read.bills.carrier, Carrier::Gas);
    let days: Vec<i32> = read
        .bills
        .periods
        .iter()
        .map(review::Period::days)
        .collect();
    assert_eq!(days, [30, 30]);
    assert_eq!(read.mapping.dates, "day first");
    assert!(said(&read).contains("nothing says when the bill read on 2025-01-13 began"));
}

#[test]
fn the_day_of_the_bill_is_not_taken_for_the_reading_in_silence() {
    let read = meter("Bill Date,CCF\n1/15/2025,90\n2/14/2025,80\n3/16/2025,70\n");
    assert!(
        said(&read).contains("is the day of the bill, not of the reading"),
        "{}",
        said(&read)
    );
    assert_eq!(read.mapping.dates, "month first");
}

#[test]
fn a_guess_of_the_order_is_told() {
    let read = meter("from,to,kWh\n1/2/2025,2/2/2025,100\n2/2/2025,3/2/2025,90\n");
    assert!(
        said(&read).contains("guessed: the month stands first"),
        "{}",
        said(&read)
    );
}

#[test]
fn hours_and_days_become_months() {
    let mut text = "Date,Start Time,Usage kWh\n".to_owned();
    for day in 1..=31 {
        for hour in 0..24 {
            // the hour that does not exist
            if day == 9 && hour == 2 {
                continue;
            }
            let _ = writeln!(text, "2025-03-{day:02},{hour:02}:00,0.5");
        }
    }
    let read = meter(&text);
    assert_eq!(spans(&read), [("2025-03-01".to_owned(), 31, 371.5)]);
    assert!(read.bills.from_days);
    let mut text = "Day\tConsumption (kWh)\n".to_owned();
    for day in 1..=28 {
        if day != 15 {
            let _ = writeln!(text, "Feb {day}, 2025\t10");
        }
    }
    assert_eq!(
        spans(&meter(&text)),
        [
            ("2025-02-01".to_owned(), 14, 140.0),
            ("2025-02-16".to_owned(), 13, 130.0)
        ]
    );
}

#[test]
fn what_the_job_says_wins_over_the_guess() {
    let asked = Asked {
        of: Some(Carrier::Propane),
        unit: Some("gal".to_owned()),
        from: Some("a".to_owned()),
        to: Some("b".to_owned()),
        amount: Some("date c".to_owned()),
        ..Asked::default()
    };
    let text = "a,b,date c,usage\n2025-01-01,2025-02-01,100,7\n2025-02-01,2025-03-01,50,7\n";
    let read = read_meter(text.as_bytes(), &asked).expect("reads");
    let gallon = review::unit_j(Carrier::Propane, "gal").expect("unit");
    assert_eq!(read.bills.periods[0].energy_j, 100.0 * gallon);
}

#[test]
fn sun_behind_the_meter_is_seen() {
    let read = meter(
        "From,To,Delivered kWh use,Received kWh\n2025-06-01,2025-07-01,200,350\n2025-07-01,2025-08-01,210,330\n",
    );
    assert!(read.bills.behind_sun);
    assert!(said(&read).contains("\"Received kWh\" shows energy sent back"));
}

/// 5 slips: two partial ones count with the next full fill, the last is after the last full one.
#[test]
fn what_was_burnt_lies_between_full_fills() {
    let text = "Delivery date,Gallons of oil,Tank\n2025-09-20,80,full\n2025-12-01,100,partial\n\
                2026-01-05,120,full\n2026-02-20,150,Full\n2026-03-01,50,part fill\n";
    assert_eq!(kind_of(text.as_bytes()), Ok(FileKind::Deliveries));
    let read = read_deliveries(text.as_bytes(), &Asked::default()).expect("reads");
    let gallon = review::unit_j(Carrier::Oil, "gal").expect("unit");
    let got: Vec<(i32, f64)> = read
        .bills
        .periods
        .iter()
        .map(|p| (p.days(), (p.energy_j / gallon).round()))
        .collect();
    assert_eq!(got, [(107, 220.0), (46, 150.0)]);
    assert!(read.bills.deliveries);
    let notes = said(&read);
    assert!(notes.contains("1 fills were not full"), "{notes}");
    assert!(
        notes.contains("nothing after 2026-02-20 is a full fill"),
        "{notes}"
    );
}

#[test]
fn old_spreadsheets_read_too() {
    let mut bytes = b"\xef\xbb\xbffrom,to,\"use, in kWh\"\r\n2025-01-01,2025-02-01,10\r\n".to_vec();
    bytes.extend_from_slice(b"2025-02-01,2025-03-01,11\r\n,,\r\n");
    let read = read_meter(&bytes, &Asked::default()).expect("reads");
    assert_eq!(read.bills.periods.len(), 2);
    // Latin-1: a degree sign is no UTF-8
    let latin =
        b"from,to,use kWh,mean \xb0F\n2025-01-01,2025-02-01,10,30\n2025-02-01,2025-03-01,9,31\n";
    assert!(read_meter(latin, &Asked::default()).is_ok());
}
