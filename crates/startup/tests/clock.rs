//! Clocks handed in as data: drift, a closed lid, a clock set back or forward, summer time, and
//! the same in a logger file.

mod support;

use reckon::Verdict;
use startup::Stamp;
use startup::clock::{Moved, Placed, Tick, logged, moved, place, timeline};
use startup::logger::{Layout, TimeColumn, Wanted, read};
use startup::pressure::{self, PressureReading};
use support::{PSI, pressure_test};
use units::Dim;

/// 2026-11-01 00:00 UTC: the night on which summer time ends in much of North America.
const NIGHT: f64 = 1_793_491_200.0;

fn written(at_s: f64) -> String {
    let stamp = Stamp {
        epoch_s: at_s,
        offset_min: -300,
    };
    stamp.written().get(11..16).unwrap_or("?").to_owned()
}

/// Readings by two clocks: each step is seconds on the wall, seconds running.
fn walk(steps: &[(f64, f64)]) -> Vec<(Placed, Moved)> {
    let (mut wall_s, mut running_s) = (NIGHT, 5.0);
    let mut out: Vec<(Placed, Moved)> = Vec::new();
    for (wall, running) in [(0.0, 0.0)].iter().chain(steps) {
        wall_s += wall;
        running_s += running;
        let tick = Tick {
            wall_s,
            running_s,
            session: 1.0,
        };
        let last = out.last().map(|p| p.0);
        out.push(place(last.as_ref(), tick).expect("forward"));
    }
    out
}

#[test]
fn small_drift_is_no_matter() {
    // a minute in a week: 99 s in a million
    let steps = vec![(600.06, 600.0); 100];
    let kept = walk(&steps);
    assert!(kept.iter().all(|k| k.1 == Moved::No));
    let last = kept.last().expect("some").0;
    assert!((last.at_s - NIGHT - 60_006.0).abs() < 1e-3);
}

/// The lid was closed for two hours: the wall goes on, the running clock does not.
#[test]
fn a_closed_lid_is_said_and_judged_both_ways() {
    let kept = walk(&[(600.0, 600.0), (7800.0, 600.0), (600.0, 600.0)]);
    assert_eq!(kept[2].1, Moved::Forward(7200.0));
    let placed: Vec<Placed> = kept.iter().map(|k| k.0).collect();
    let line = timeline(&placed, &written);
    assert_eq!(
        line.notes,
        [
            "Before the reading at 21:20 the clock on the wall gained 2 h: a closed lid, or a clock \
             set forward."
        ]
    );
    let short = line.shortest_s.expect("a doubt");
    assert!((short[3] - NIGHT - 1800.0).abs() < 1e-6);
    assert!((placed[3].at_s - NIGHT - 9000.0).abs() < 1e-6);
}

/// Summer time ends, and somebody sets the clock of the machine by hand: the running clock stands.
#[test]
fn a_clock_set_back_costs_no_reading() {
    let kept = walk(&[(600.0, 600.0), (-3000.0, 600.0), (600.0, 600.0)]);
    assert_eq!(kept[2].1, Moved::Back(3600.0));
    for (i, k) in kept.iter().enumerate() {
        assert!((k.0.at_s - NIGHT - 600.0 * i as f64).abs() < 1e-6);
    }
    let placed: Vec<Placed> = kept.iter().map(|k| k.0).collect();
    let line = timeline(&placed, &written);
    assert!(line.shortest_s.is_none());
    assert_eq!(
        line.notes,
        [
            "Before the reading at 19:20 the clock on the wall was set back 60 min: an hour, as when \
             summer time begins or ends; the time is the running clock's."
        ]
    );
}

/// Summer time by the rules of the machine moves nothing: both clocks count in UTC.
#[test]
fn summer_time_by_itself_moves_nothing() {
    // 05:50 UTC is 01:50 of summer time, 06:10 UTC is 01:10 of winter time
    let kept = walk(&[(21_000.0, 21_000.0), (1200.0, 1200.0)]);
    assert!(kept.iter().all(|k| k.1 == Moved::No));
    assert!((kept[2].0.at_s - kept[1].0.at_s - 1200.0).abs() < 1e-9);
}

#[test]
fn begun_anew_only_the_wall_is_left() {
    let first = place(
        None,
        Tick {
            wall_s: NIGHT,
            running_s: 900.0,
            session: 1.0,
        },
    )
    .expect("first")
    .0;
    let later = |wall: f64| {
        place(
            Some(&first),
            Tick {
                wall_s: NIGHT + wall,
                running_s: 2.0,
                session: 2.0,
            },
        )
    };
    let (placed, moved) = later(500.0).expect("forward");
    assert_eq!(moved, Moved::Anew);
    assert!((placed.at_s - NIGHT - 500.0).abs() < 1e-9);
    assert_eq!(
        later(-3540.0).expect_err("back").to_string(),
        "the clock on the wall is 59 min: an hour, as when summer time begins or ends earlier than at \
         the last reading, and the program was begun anew: set the clock right first"
    );
    let same = place(Some(&first), first.tick).expect_err("same moment");
    assert_eq!(same.to_string(), "there is a reading of this very moment");
}

/// Eleven hours by the wall, eleven minutes running: the two give two verdicts, so none is given.
#[test]
fn a_doubtful_hour_gives_no_verdict() {
    let mut test = pressure_test();
    test.settle_s = 0.0;
    test.worth_g_per_year = 1_000.0;
    let readings = |at: &[f64]| -> Vec<PressureReading> {
        at.iter()
            .map(|at_s| PressureReading {
                at_s: *at_s,
                gauge_pa: 550.0 * PSI,
                line_c: Some(20.0),
            })
            .collect()
    };
    let wall: Vec<f64> = (0..12).map(|i| f64::from(i) * 3600.0).collect();
    let short: Vec<f64> = (0..12).map(|i| f64::from(i) * 60.0).collect();
    let sure = pressure::judge(&test, &readings(&wall)).expect("usable");
    let both = pressure::judge_either(&test, &readings(&wall), Some(&short)).expect("usable");
    let quick = pressure::judge(&test, &readings(&short)).expect("usable");
    assert_ne!(sure.verdict, quick.verdict, "{} {}", sure.says, quick.says);
    assert_eq!(both.verdict, Verdict::CannotTell);
    assert!(
        both.says.starts_with("By the clock on the wall it "),
        "{}",
        both.says
    );
    // where both agree the verdict stands, with the smaller promise
    let shorter: Vec<f64> = wall.iter().map(|t| 0.9 * t).collect();
    let a = pressure::judge(&test, &readings(&wall)).expect("usable");
    let b = pressure::judge_either(&test, &readings(&wall), Some(&shorter)).expect("usable");
    assert_eq!(a.verdict, b.verdict);
    assert!(b.visible_g_per_year > a.visible_g_per_year);
}

fn log_of(text: &str, offset: Option<i32>) -> Result<startup::logger::Log, String> {
    let layout = Layout {
        time: TimeColumn::Stamp("Time".into(), offset),
        wanted: vec![Wanted {
            column: "P".into(),
            dim: Dim::Pressure,
            unit: "psi".into(),
        }],
        separator: ',',
        decimal_comma: false,
    };
    read(text, &layout).map_err(|e| e.to_string())
}

/// A logger on local time over the night in spring: an hour seems to pass that did not.
#[test]
fn the_missing_hour_of_spring_in_a_logger_file() {
    let mut text = "Time,P\n".to_owned();
    for clock in ["01:30", "01:40", "01:50", "03:00", "03:10", "03:20"] {
        text += &["2026-03-08 ", clock, ",550\n"].concat();
    }
    let log = log_of(&text, Some(-300)).expect("reads");
    assert!(log.local);
    let at: Vec<f64> = log.rows.iter().map(|r| r.at_s).collect();
    let line = logged(&at, log.local, None, &written);
    assert_eq!(
        line.notes,
        [
            "An hour is missing after 01:50. If the clocks went forward then, no hour passed: export \
             the file with its offset from UTC."
        ]
    );
    let short = line.shortest_s.expect("a doubt");
    assert!((short[5] - short[0] - 3000.0).abs() < 1e-6);
    // with offsets there is no doubt, and ten minutes passed
    let mut text = "Time,P\n".to_owned();
    for clock in [
        "01:30:00-05:00",
        "01:40:00-05:00",
        "01:50:00-05:00",
        "03:00:00-04:00",
        "03:10:00-04:00",
        "03:20:00-04:00",
    ] {
        text += &["2026-03-08T", clock, ",550\n"].concat();
    }
    let log = log_of(&text, None).expect("reads");
    assert!(!log.local);
    let at: Vec<f64> = log.rows.iter().map(|r| r.at_s).collect();
    assert!((at[5] - at[0] - 3000.0).abs() < 1e-6);
    assert_eq!(logged(&at, log.local, None, &written).shortest_s, None);
}

/// In autumn the hour comes twice: refused, and the offset mends it.
#[test]
fn the_double_hour_of_autumn_in_a_logger_file() {
    let e = log_of(
        "Time,P\n2026-11-01 01:40,550\n2026-11-01 01:50,550\n2026-11-01 01:00,550\n",
        Some(-300),
    )
    .expect_err("earlier");
    assert_eq!(e, "line 4, time: it is earlier than the line before");
    assert!(
        log_of(
            "Time,P\n2026-11-01T01:50:00-04:00,550\n2026-11-01T01:00:00-05:00,550\n",
            None
        )
        .is_ok_and(|l| (l.rows[1].at_s - l.rows[0].at_s - 600.0).abs() < 1e-6)
    );
}

#[test]
fn a_logger_ahead_of_the_machine_is_said() {
    let at = [NIGHT, NIGHT + 600.0];
    let line = logged(&at, true, Some(NIGHT - 6000.0), &written);
    assert_eq!(
        line.notes,
        [
            "The last reading is 110 min later than this machine's clock: one of the two is wrong; \
             the length of the test does not hang on it."
        ]
    );
    assert!(
        logged(&at, true, Some(NIGHT + 700.0), &written)
            .notes
            .is_empty()
    );
}

#[test]
fn the_clocks_of_one_run_only_are_compared() {
    let tick = |session| Tick {
        wall_s: NIGHT,
        running_s: 0.0,
        session,
    };
    assert_eq!(moved(&tick(1.0), &tick(2.0)), Moved::Anew);
}
