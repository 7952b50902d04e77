//! Readings and limits that cannot be used, and what is said of each.

mod support;

use physics::refrigerant::Refrigerant;
use physics::tube::Tube;
use startup::leak_scale::{TestGas, leak_ratio};
use startup::pressure::{PressureReading, PressureTest, judge, stages};
use startup::vacuum;
use startup::volume::under_test;
use support::{MICRON, PSI, pressure_test};

fn good() -> Vec<PressureReading> {
    (0..20)
        .map(|i| PressureReading {
            at_s: f64::from(i) * 300.0,
            gauge_pa: 550.0 * PSI,
            line_c: Some(20.0),
        })
        .collect()
}

type Spoil = fn(&mut PressureTest, &mut Vec<PressureReading>);

#[test]
fn pressure_tests_that_cannot_be_used() {
    let cases: &[(Spoil, &str)] = &[
        (|_, r| r.clear(), "readings is none; usable: two or more"),
        (
            |_, r| r.truncate(1),
            "readings after settling is 1 in all; usable: two or more, 10 min after the pressure was put on; the gas is still warm (10 min left)",
        ),
        (
            |_, r| r.swap(4, 5),
            "time of reading 6 is earlier than the one before; usable: times that go forward: was the clock set back?",
        ),
        (
            |_, r| r[3].at_s = r[2].at_s,
            "time of reading 4 is that of the one before; usable: one reading at a time: take one of the two out",
        ),
        (
            |_, r| r[3].at_s = f64::NAN,
            "time of reading 4 is not a number; usable: seconds",
        ),
        (
            |_, r| r[3].line_c = None,
            "temperature of reading 4 is missing; usable: the temperature of the lines with every reading: 10 F move 600 psi by 13 psi (10 C move 4000 kPa by 150 kPa)",
        ),
        (
            |_, r| r[3].line_c = Some(70.0),
            "temperature of reading 4 is 70 C; usable: -40 to 60 C",
        ),
        (
            |_, r| r[3].line_c = Some(f64::NAN),
            "temperature of reading 4 is NaN C; usable: -40 to 60 C",
        ),
        (
            |_, r| r[3].gauge_pa = 41.4,
            "pressure of reading 4 is 0 psi (0 kPa); usable: 5 to 900 psi (34 to 6205 kPa) above the air: psi, bar or kPa mixed up?",
        ),
        (
            |_, r| r[3].gauge_pa = 41.4 * 1e6,
            "pressure of reading 4 is 6004.6 psi (41400 kPa); usable: 5 to 900 psi (34 to 6205 kPa) above the air: psi, bar or kPa mixed up?",
        ),
        (
            |_, r| r[3].gauge_pa = f64::NAN,
            "pressure of reading 4 is NaN psi (NaN kPa); usable: 5 to 900 psi (34 to 6205 kPa) above the air: psi, bar or kPa mixed up?",
        ),
        (
            |_, r| r[3].gauge_pa = 640.0 * PSI,
            "pressure of reading 4 is 640 psi (4413 kPa); usable: at most 620 psi (4275 kPa), the plate's: let pressure off now, slowly, and start again lower",
        ),
        (
            |t, _| t.volume.m3 = 1.5,
            "volume under test is 1.5 m3; usable: 0.00002 to 0.05 m3",
        ),
        (
            |t, _| t.air_pa = 14.7,
            "air pressure is 14.7 Pa; usable: 55000 to 110000 Pa",
        ),
        (
            |t, _| t.gauge.accuracy = 0.0,
            "gauge accuracy is 0 psi; usable: 0.01 to 50 psi",
        ),
        (
            |t, _| t.gauge.resolution = -PSI,
            "gauge step is -1 psi; usable: 0 to 30 psi",
        ),
        (
            |t, _| t.thermometer.accuracy = 0.0,
            "thermometer accuracy is 0 K; usable: 0.01 to 6 K",
        ),
        (
            |t, _| t.wander_k = 0.0,
            "wander of the thermometer is 0 K; usable: 0.02 to 20 K",
        ),
        (
            |t, _| t.worth_g_per_year = 0.0,
            "leak worth a call-back is 0 g a year; usable: 0.1 to 20000 g a year",
        ),
        (
            |t, _| t.settle_s = f64::NAN,
            "settling time is NaN s; usable: 0 to 86400 s",
        ),
        (
            |t, _| t.service_c = 90.0,
            "temperature in service is 90 C; usable: -40 to 60 C",
        ),
        (
            |t, _| {
                t.refrigerant = Refrigerant::R290;
                t.service_c = -40.0;
            },
            "pressure in service is 111150 Pa; usable: above 1.2 times that of the air: a warmer temperature in service",
        ),
    ];
    assert!(judge(&pressure_test(), &good()).is_ok());
    for (spoil, says) in cases {
        let (mut test, mut readings) = (pressure_test(), good());
        spoil(&mut test, &mut readings);
        let got = judge(&test, &readings).expect_err(says).to_string();
        // the pressure of propane has more digits than matter here
        if says.starts_with("pressure in service") {
            assert!(got.contains("a warmer temperature in service"), "{got}");
        } else {
            assert_eq!(got, *says);
        }
    }
}

#[test]
fn the_rest() {
    let says = |e: startup::Wrong| e.to_string();
    assert_eq!(
        says(stages(610.0 * PSI, 600.0 * PSI, &[]).expect_err("plate")),
        "test pressure is 610 psi (4206 kPa); usable: at most 600 psi (4137 kPa), the plate's"
    );
    assert_eq!(
        says(stages(590.0 * PSI, 600.0 * PSI, &[Tube::ThreeQuarters]).expect_err("tube")),
        "test pressure is 590 psi (4068 kPa); usable: at most 581.7 psi (4011 kPa) for soft copper tube of 0.750 in with a wall of 0.035 in, or a heavier wall"
    );
    assert_eq!(
        says(stages(20.0 * PSI, 600.0 * PSI, &[]).expect_err("no test")),
        "test pressure is 20 psi (138 kPa); usable: 50 to 700 psi (345 to 4826 kPa) above the air"
    );
    assert_eq!(
        says(under_test(&[], &[]).expect_err("nothing")),
        "volume under test is 0.000 L; usable: 0.02 L or more: name the lines and the coils that hold the gas"
    );
    assert_eq!(
        says(under_test(&[(Tube::Half, 500.0)], &[]).expect_err("long")),
        "length of a line is 500 m; usable: 0.3 to 150 m"
    );
    assert_eq!(
        says(under_test(&[], &[(0.5, 0.1)]).expect_err("large")),
        "volume of a coil or hose is 500 L; usable: 0 to 20 L"
    );
    assert_eq!(
        says(under_test(&[], &[(0.001, 3.0)]).expect_err("vague")),
        "limit of error of a volume is 300 %; usable: 0 to 100 %"
    );
    assert!(
        says(leak_ratio(TestGas::Air, 1.0, 2.0, Refrigerant::R32, 20.0).expect_err("backwards"))
            .starts_with("pressure across the leak is 1 Pa to 2 Pa")
    );
    assert!(
        says(vacuum::ice(Some(-90.0), 1.0, 66.0).expect_err("cold"))
            .starts_with("temperature of the coldest tube is -90 C")
    );
}

type SpoilVacuum = fn(&mut vacuum::VacuumTest, &mut Vec<vacuum::VacuumReading>);

#[test]
fn vacuum_holds_that_cannot_be_used() {
    let make = || {
        let p = pressure_test();
        let test = vacuum::VacuumTest {
            criterion: vacuum::Criterion {
                reach_pa: 500.0 * MICRON,
                limit_pa: 700.0 * MICRON,
                hold_s: 900.0,
                source: "sheet, page 3".into(),
            },
            gauge: startup::Instrument::new("g", 10.0 * MICRON, MICRON),
            gauge_share: 0.05,
            place: vacuum::GaugePlace::System,
            coldest_c: Some(10.0),
            coldest_k: 1.0,
            volume: p.volume,
            air_pa: p.air_pa,
            refrigerant: p.refrigerant,
            service_c: 20.0,
            pressure_test_g_per_year: None,
            day: 20_782,
        };
        let readings: Vec<_> = (0..20)
            .map(|i| vacuum::VacuumReading {
                at_s: f64::from(i) * 60.0,
                pa: 40.0,
            })
            .collect();
        (test, readings)
    };
    let cases: &[(SpoilVacuum, &str)] = &[
        (|_, r| r.clear(), "readings is none"),
        (
            |_, r| r.swap(2, 3),
            "time of reading 4 is not after the one before",
        ),
        (
            |_, r| r[3].at_s = r[2].at_s,
            "time of reading 4 is not after the one before",
        ),
        (
            |_, r| r[3].pa = 0.05,
            "pressure of reading 4 is 0.375 micron; usable: 1 to 100,000 micron: micron, mbar or Pa mixed up?",
        ),
        (
            |_, r| r[3].pa = 101_325.0,
            "pressure of reading 4 is 759999",
        ),
        (
            |_, r| r[3].pa = f64::NAN,
            "pressure of reading 4 is NaN micron",
        ),
        (
            |t, _| t.criterion.source.clear(),
            "source of the vacuum criterion is empty; usable: the unit's own sheet and its page: sheets differ",
        ),
        (
            |t, _| t.criterion.limit_pa = 20.0,
            "limit of the hold is 150 micron; usable: at least the 500 micron to reach",
        ),
        (
            |t, _| t.criterion.hold_s = 5.0,
            "hold is 5 s; usable: 60 to 172800 s",
        ),
        (
            |t, _| t.criterion.reach_pa = 1000.0,
            "vacuum to reach is 7500",
        ),
        (
            |t, _| t.gauge_share = 2.0,
            "share of error of the vacuum gauge is 2 of 1",
        ),
        (
            |t, _| t.coldest_c = Some(99.0),
            "temperature of the coldest tube is 99 C",
        ),
        (
            |t, _| t.coldest_k = -1.0,
            "limit of error of the coldest tube is -1 K",
        ),
    ];
    for (spoil, says) in cases {
        let (mut test, mut readings) = make();
        spoil(&mut test, &mut readings);
        match vacuum::judge(&test, &readings) {
            Err(e) => assert!(e.to_string().starts_with(says), "{e}\n{says}"),
            Ok(a) => panic!("{says}: {}", a.says),
        }
    }
}
