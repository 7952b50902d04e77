//! Bills that do not suffice, beside what eemeter's CalTRACK rules say of the same bills:
//! `checks/values/review_sufficiency.csv`, made by `checks/review_sufficiency.py` with eemeter 4.1.1.

use std::collections::BTreeSet;
use std::path::Path;

use jobfile::Carrier;
use review::calendar::read_iso;
use review::{Bills, Days, Period, complaints, fit, observations, unit_j};

fn kept(name: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../checks/values")
        .join(name);
    std::fs::read_to_string(path).expect(name)
}

/// The bills of a case, temperatures without those that are missing in it, and what eemeter says.
fn case(name: &str) -> (Vec<Period>, Days, BTreeSet<String>) {
    let mut days = Days::read_csv(kept("review_temperatures.csv").as_bytes()).expect("days");
    let therm = unit_j(Carrier::Gas, "therm").expect("unit");
    let (mut periods, mut said) = (Vec::new(), BTreeSet::new());
    for (line, row) in kept("review_sufficiency.csv").lines().enumerate() {
        let cells: Vec<&str> = row.split(',').collect();
        if row.starts_with('#') || cells[0] != name {
            continue;
        }
        let day = |at: usize| read_iso(cells[at]).expect("day");
        let (from, to) = (day(1), day(2));
        if let Ok(therms) = cells[3].parse::<f64>() {
            periods.push(Period {
                from,
                to,
                energy_j: therms * therm,
                estimated: false,
                line: line + 1,
            });
        }
        if cells[4] == "missing" {
            let at = |day: i32| usize::try_from(day - days.first).expect("within");
            let (a, b) = (at(from), at(to));
            days.mean_c[a..b].fill(None);
        }
        said.extend(
            cells[5]
                .split(';')
                .filter(|s| !s.is_empty())
                .map(str::to_owned),
        );
    }
    assert!(!periods.is_empty(), "{name}");
    (periods, days, said)
}

/// All that we say of the bills: a refusal, what was left out, gaps, and rules that are not met.
fn ours(periods: Vec<Period>, days: &Days) -> Vec<String> {
    let bills = match Bills::from_periods(Carrier::Gas, periods, Vec::new()) {
        Ok(bills) => bills,
        Err(why) => return vec![format!("refused: {why}")],
    };
    let (seen, dropped) = observations(&bills, days);
    let fit = fit(seen, false, false).expect("fits");
    let mut all: Vec<String> = bills.notes.iter().map(|n| n.text.clone()).collect();
    all.extend(dropped.iter().map(|n| n.text.clone()));
    all.extend(complaints(&bills, &fit).iter().map(|c| c.rule.to_owned()));
    all
}

/// *Reference library.* What eemeter speaks of, we speak of, and the year that it takes we take
/// without a word. One departure, told in `docs/bills.md`: two months on one bill of a monthly meter.
#[test]
fn what_eemeter_disqualifies_is_told_or_refused() {
    // case, eemeter's word among others, ours
    let cases = [
        (
            "ten-months",
            "incorrect_number_of_total_days",
            "less-than-a-year",
        ),
        (
            "seven-months",
            "incorrect_number_of_total_days",
            "less-than-a-year",
        ),
        (
            "reading-missing",
            "too_many_days_with_missing_meter_data",
            "no bill covers",
        ),
        (
            "two-readings-missing",
            "too_many_days_with_missing_meter_data",
            "less-than-a-year",
        ),
        ("below-nothing", "negative_meter_values", "refused: "),
        ("ten-times", "extreme_values_detected", "extreme-bill"),
        (
            "read-after-11-days",
            "offcycle_reads_in_billing_monthly_data",
            "11 days, fewer than 25",
        ),
        (
            "three-months-on-one",
            "offcycle_reads_in_billing_monthly_data",
            "more than 70",
        ),
        (
            "no-temperatures-of-a-bill",
            "missing_monthly_temperature_data",
            "the temperature of 0",
        ),
        (
            "no-temperatures-of-two-bills",
            "too_many_days_with_missing_data",
            "less-than-a-year",
        ),
    ];
    for (name, theirs, word) in cases {
        let (periods, days, said) = case(name);
        assert!(said.contains(theirs), "{name}: {said:?}");
        let ours = ours(periods, &days);
        assert!(ours.iter().any(|s| s.contains(word)), "{name}: {ours:?}");
    }
    let (periods, days, said) = case("whole");
    assert_eq!((said.len(), ours(periods, &days)), (0, Vec::new()));
    // An estimate joined with its true reading makes such a bill, and the method joins up to 70 days.
    let (periods, days, said) = case("two-months-on-one");
    assert!(said.contains("offcycle_reads_in_billing_monthly_data"));
    assert_eq!(ours(periods, &days), Vec::<String>::new());
}
