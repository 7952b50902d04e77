//! Three choices and one that is beaten, worked by hand.

use jobfile::{Choice, Equipment};

use super::{Aim, Grain, Measure, Survivor, reasons};
use crate::compare::Row;

const AIMS: [Aim; 2] = [Aim::Comfort, Aim::Cost];

fn row() -> Row {
    Row {
        choice: String::new(),
        units: 1,
        heads: 1,
        heads_share: None,
        seasonal_cop: None,
        cycling_h: 0,
        full_h: 0,
        cannot_tell_h: 0,
        cycling_share: None,
        electricity_j: 0.0,
        fuel_j: 0.0,
        cost: None,
        carbon_kg: None,
        electric_peak_w: 0.0,
        coldest_room: None,
        short_2k_h: 0,
    }
}

/// The usual grains: 100 K h, 20 of money. Choices by (K h, money); `kept` survive.
fn of(all: &[(f64, f64)], kept: &[usize]) -> Vec<Survivor> {
    let choices: Vec<Choice> = (0..all.len())
        .map(|i| Choice {
            name: ["warm", "cheap", "between", "beaten"][i].to_owned(),
            equipment: Equipment::default(),
        })
        .collect();
    let run: Vec<(usize, Measure, Row)> = all
        .iter()
        .enumerate()
        .map(|(i, (comfort_k_h, cost))| {
            let measure = Measure {
                comfort_k_h: *comfort_k_h,
                cost: Some(*cost),
                ..Measure::default()
            };
            (i, measure, row())
        })
        .collect();
    reasons(&run, kept, &choices, &AIMS, &Grain::default())
}

#[test]
fn who_gives_up_least_comes_first_and_stands_beside_its_nearest() {
    let all = [
        (0.0, 3000.0),
        (2000.0, 2000.0),
        (400.0, 2300.0),
        // beaten by the one between, in both
        (600.0, 2400.0),
    ];
    let found = of(&all, &[0, 1, 2]);
    // Given up, as parts of the span between the survivors: warm 0 + 1, cheap 1 + 0, between
    // 0.2 + 0.3.
    let names: Vec<&str> = found.iter().map(|s| s.choice.name.as_str()).collect();
    assert_eq!(names, ["between", "warm", "cheap"]);
    let [between, warm, cheap] = found.as_slice() else {
        panic!("{found:?}")
    };
    assert!(between.best_in.is_empty());
    assert_eq!(warm.best_in, [Aim::Comfort]);
    assert_eq!(cheap.best_in, [Aim::Cost]);
    // From the one between it is 0.2 + 0.7 to the warm one and 0.8 + 0.3 to the cheap one.
    let beside = between.beside.as_ref().expect("two others");
    assert_eq!(beside.choice.name, "warm");
    assert_eq!(beside.differs, [(Aim::Comfort, -400.0), (Aim::Cost, 700.0)]);
    assert_eq!(
        beside.better().collect::<Vec<_>>(),
        [(Aim::Comfort, -400.0)]
    );
    assert_eq!(beside.worse().collect::<Vec<_>>(), [(Aim::Cost, 700.0)]);
    for end in [warm, cheap] {
        let beside = end.beside.as_ref().expect("others");
        assert_eq!(beside.choice.name, "between");
        // The one beaten is dearer than the cheap one but warmer, and colder than the warm one but
        // cheaper: neither beats it.
        assert!(end.runner_up.is_none(), "{end:?}");
    }
    let beaten = between.runner_up.as_ref().expect("one");
    assert_eq!(beaten.choice.name, "beaten");
    assert_eq!(beaten.worse().count(), 2);
    assert_eq!(beaten.better().count(), 0);
}

#[test]
fn what_nobody_would_notice_is_no_difference() {
    // Less than half a grain apart in comfort, two grains in cost.
    let found = of(&[(0.0, 1040.0), (49.0, 1000.0)], &[0, 1]);
    let warm = found.iter().find(|s| s.choice.name == "warm").expect("is");
    let beside = warm.beside.as_ref().expect("another");
    assert_eq!(beside.differs, [(Aim::Cost, -40.0)]);
    // So the cheap one is best in both.
    let cheap = found.iter().find(|s| s.choice.name == "cheap").expect("is");
    assert_eq!(cheap.best_in, AIMS);
    // Half a grain is one.
    let found = of(&[(0.0, 1040.0), (50.0, 1000.0)], &[0, 1]);
    let cheap = found.iter().find(|s| s.choice.name == "cheap").expect("is");
    assert_eq!(cheap.best_in, [Aim::Cost]);
    // Alone there is nothing beside.
    assert!(of(&[(0.0, 1000.0)], &[0])[0].beside.is_none());
    // Beaten by a whole grain in one aim and by nothing in the other, it is a runner-up; by less
    // than a grain it is not.
    for (cost, is) in [(1020.0, true), (1019.0, false)] {
        let found = of(&[(0.0, 1000.0), (0.0, cost)], &[0]);
        assert_eq!(found[0].runner_up.is_some(), is, "{cost}");
    }
}
