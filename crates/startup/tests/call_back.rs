//! Causes of a call-back against the baseline, and the firm's own log.

use reckon::Verdict;
use startup::call_back::{Cause, Change, Day, Logged, Symptom, comparable, rank};

#[test]
fn causes_are_ranked_and_the_log_is_learned_from() {
    let low = rank(
        &[
            (Symptom::Difference, Change::Down),
            (Symptom::Power, Change::Down),
            (Symptom::Flow, Change::Same),
        ],
        &[],
    );
    assert_eq!(low.causes[0].cause, Cause::LowCharge);
    assert!(
        low.causes[0]
            .evidence
            .iter()
            .any(|e| e == "supply less return down: speaks for it")
    );
    let dirty = rank(
        &[
            (Symptom::Difference, Change::Up),
            (Symptom::Flow, Change::Down),
        ],
        &[],
    );
    assert_eq!(
        (dirty.verdict, dirty.causes[0].cause),
        (Verdict::Fails, Cause::DirtyIndoors)
    );
    let same = rank(
        &[
            (Symptom::Difference, Change::Same),
            (Symptom::Power, Change::Same),
            (Symptom::Flow, Change::Same),
        ],
        &[],
    );
    assert_eq!(same.verdict, Verdict::Holds);
    let none = rank(&[], &[]);
    assert_eq!(none.verdict, Verdict::CannotTell);
    assert!(none.next.starts_with("Measure "));
    let sum: f64 = none.causes.iter().map(|c| c.weight).sum();
    assert!((sum - 1.0).abs() < 1e-12);
    let log: Vec<Logged> = (0..40)
        .map(|_| Logged {
            cause: Cause::Drain,
            hours: 3.0,
            cost: 400.0,
        })
        .collect();
    let learned = rank(&[], &log);
    assert_eq!(learned.causes[0].cause, Cause::Drain);
    assert_eq!(learned.causes[0].usual_hours, Some(3.0));
    let day = |c: f64| Day {
        heating: true,
        outdoor_c: c,
        test_mode: false,
    };
    assert!(comparable(day(0.0), day(2.0)).is_ok());
    assert_eq!(
        comparable(day(0.0), day(10.0)).expect_err("apart"),
        "The baseline is of 32 F (0 C) outdoors, today is 50 F (10 C): more than 5 F apart."
    );
}
