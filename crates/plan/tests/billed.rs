//! The stage of the bills on the example job.
//! Invented bills made by `checks/bills_invented.py`, from lines that stand in that script.

use std::path::Path;

use jobfile::Carrier;
use reckon::{Book, Verdict};
use review::{Asked, Days, Side, YearOfDays};

fn folder() -> std::path::PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../jobs/lake-street")
}

fn bytes(name: &str) -> Vec<u8> {
    std::fs::read(folder().join(name)).expect(name)
}

fn billed() -> (plan::Billed, Book) {
    billed_with(1.0)
}

/// With so many times the oil.
fn billed_with(times: f64) -> (plan::Billed, Book) {
    let text = String::from_utf8(bytes("job.toml")).expect("text");
    let job = jobfile::read(&text).expect("reads");
    let weather = plan::shipped::weather("chicago-725300").expect("ships");
    let weather = climate::read_any(weather).expect("reads").value;
    let plan = plan::plan_of_chosen(&job, &plan::Catalogue::default(), &weather);
    let days = Days::read_csv(&bytes("bills/days.csv")).expect("days");
    let year = YearOfDays::from_weather(&weather);
    let mut oil =
        review::read_deliveries(&bytes("bills/oil-slips.csv"), &Asked::default()).expect("oil");
    for fill in &mut oil.bills.periods {
        fill.energy_j *= times;
    }
    let power =
        review::read_meter(&bytes("bills/electricity.csv"), &Asked::default()).expect("power");
    let mut book = Book::new();
    let billed = plan::billed(
        &job,
        &plan,
        vec![oil.bills, power.bills],
        &days,
        &year,
        &mut book,
    );
    (billed, book)
}

/// `OIL_HOUSE` of the script: 220 W/K, 15.2 C, 77.5 % over the season.
#[test]
fn the_bills_of_the_example_tell_what_made_them() {
    let (billed, book) = billed();
    let loss = billed.loss.as_ref().expect("tells");
    assert_eq!(loss.heats[0].carrier, Carrier::Oil);
    assert!(loss.loss_w_per_k.holds(220.0), "{:?}", loss.loss_w_per_k);
    assert!(loss.balance_c.holds(15.2), "{:?}", loss.balance_c);
    let slope = loss.heats[0].line.slope_w_per_k;
    assert!(slope.holds(220.0 / 0.775), "{slope:?}");
    // the figure is the number, and rests on the job and on the bills
    let load = book.value("bills.load").expect("written");
    assert!((load - loss.load_w.mid).abs() < 1e-6 * load, "{load}");
}

/// The line rests on each bill, and each bill on what was bought between two readings.
#[test]
fn the_line_unfolds_to_the_bills() {
    let (billed, book) = billed();
    for c in &billed.carriers {
        for p in &c.bills.periods {
            let key = review::bill_key(&c.bills, p);
            let used = book.value(&format!("{key}.used")).expect("written");
            assert!((used - p.mean_w()).abs() < 1e-9 * used.max(1.0), "{key}");
        }
    }
    let slope = book.get("bills.oil.slope").expect("written");
    let oil = &billed.carriers[0].bills;
    assert_eq!(slope.inputs.len(), oil.periods.len());
    for f in book.iter() {
        for input in &f.inputs {
            let there = book.get(&input.key).is_some();
            assert!(there, "{}: no figure {}", f.key, input.key);
        }
    }
    // No line is drawn through the electricity, so none is told.
    let told =
        |f: &&reckon::Figure| f.key.starts_with("bills.electricity") && f.key.contains("line");
    assert_eq!(book.iter().filter(told).count(), 0);
    assert!(book.get("bills.survey").is_some());
}

/// The survey's leaks and what nobody looked at come before what was seen and cannot be so far off.
#[test]
fn what_closes_the_gap_is_ranked() {
    let (agrees, _) = billed();
    let (billed, _) = billed_with(0.75);
    let both = |b: &plan::Billed| b.reconciled.clone().expect("both sides");
    assert_eq!(both(&agrees).verdict, Verdict::Holds);
    let r = both(&billed);
    assert_eq!(r.verdict, Verdict::Fails, "{:?}", r.ratio);
    let place = |word: &str| r.closers.iter().position(|c| c.what.contains(word));
    assert!(place("leaks") < place("walls"), "{:?}", r.closers);
    let of_survey = r.closers.iter().filter(|c| c.side == Side::Survey).count();
    let of_bills = r.closers.iter().filter(|c| c.side == Side::Bills).count();
    assert!(of_survey >= 3 && of_bills >= 1, "{:?}", r.closers);
    assert!(r.closers.is_sorted_by(|a, b| a.strain <= b.strain));
}

#[test]
fn electricity_that_hardly_follows_the_cold_says_so() {
    let (billed, _) = billed();
    let power = billed
        .carriers
        .iter()
        .find(|c| c.bills.carrier == Carrier::Electricity);
    let why = power
        .expect("billed")
        .line
        .as_ref()
        .expect_err("lights and pumps");
    assert!(why.to_string().contains("usable: "), "{why}");
}
