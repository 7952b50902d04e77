//! Any text and any readings: an answer or an error, never a panic; any tight system is not accused.

mod support;

use proptest::prelude::*;
use reckon::Verdict;
use startup::logger::{Layout, TimeColumn, Wanted, read};
use startup::pressure::{PressureReading, judge};
use startup::record::verify;
use startup::{Stamp, vacuum};
use support::{PSI, pressure_test};
use units::Dim;

proptest! {
    #[test]
    fn any_text(text in ".{0,200}", lines in "(Time,P\n)?([0-9T:,.; -]{0,40}\n){0,6}") {
        let layout = Layout {
            time: TimeColumn::Stamp("Time".into(), Some(0)),
            wanted: vec![Wanted { column: "P".into(), dim: Dim::Pressure, unit: "psi".into() }],
            separator: ',',
            decimal_comma: false,
        };
        for t in [&text, &lines] {
            if let Ok(log) = read(t, &layout) {
                prop_assert!(log.rows.windows(2).all(|w| w[0].at_s < w[1].at_s));
            }
            prop_assert!(verify(t).is_err() || !t.contains('\n'));
            let _ = Stamp::read(t, Some(0));
        }
    }

    #[test]
    fn any_record_proves_itself(
        numbers in prop::collection::vec(any::<f64>(), 0..60),
        text in ".{0,40}",
        at in 0_i64..4_000_000_000,
    ) {
        let mut chain = verify("").expect("empty");
        let mut file = String::new();
        for n in 0..3_u32 {
            let finite: Vec<f64> = numbers.iter().copied().filter(|x| x.is_finite()).collect();
            let entry = startup::record::Entry {
                at: Stamp { epoch_s: at as f64, offset_min: 0 },
                who: "A. Fitter",
                kind: "pressure-verdict",
                says: serde_json::json!({ "curve": finite, "says": text }),
                corrects: (n == 2).then_some((1, "misread")),
            };
            let (record, line) = chain.next(&entry).expect("usable");
            chain.records.push(record);
            file.push_str(&line);
        }
        let read = verify(&file);
        prop_assert!(read.is_ok(), "{:?}", read.err());
        prop_assert_eq!(read.map(|c| c.records.len()), Ok(3));
    }

    #[test]
    fn times_read_back(epoch in 700_000_000_i64..4_000_000_000, offset in -14_i32..=14) {
        let stamp = Stamp { epoch_s: epoch as f64, offset_min: offset * 60 };
        prop_assert_eq!(Stamp::read(&stamp.written(), None), Ok(stamp));
    }

    #[test]
    fn any_readings(values in prop::collection::vec((any::<f64>(), any::<f64>(), any::<f64>()), 0..20)) {
        let readings: Vec<PressureReading> = values
            .iter()
            .map(|(t, p, c)| PressureReading { at_s: *t, gauge_pa: *p, line_c: Some(*c) })
            .collect();
        if let Ok(a) = judge(&pressure_test(), &readings) {
            prop_assert!(a.visible_g_per_year >= 0.0);
        }
        let points: Vec<(f64, f64, f64)> = values.iter().map(|(t, p, _)| (*t, *p, 1.0)).collect();
        let _ = vacuum::rise(&points);
    }

    /// No leak, no errors, any temperatures that go evenly: never called leaking.
    #[test]
    fn a_tight_system_is_not_accused(psi in 300.0..600.0_f64, c0 in -10.0..30.0_f64, swing in -10.0..10.0_f64) {
        let test = pressure_test();
        let first = psi * PSI + test.air_pa;
        let mut readings = Vec::new();
        for i in 0..30 {
            let c = c0 + swing * f64::from(i) / 29.0;
            let p = physics::nitrogen::pressure_after_pa(first, c0, c).expect("in range");
            readings.push(PressureReading { at_s: f64::from(i) * 600.0, gauge_pa: p - test.air_pa, line_c: Some(c) });
        }
        if readings.iter().all(|r| r.gauge_pa <= test.plate_pa) {
            prop_assert_ne!(judge(&test, &readings).expect("usable").verdict, Verdict::Fails);
        }
    }
}
