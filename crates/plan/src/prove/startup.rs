//! The start-up day: nitrogen, water and ice, superheat and subcooling, the trade's own figures.

use physics::nitrogen::{ideal_pressure_after_pa, pressure_after_pa};
use physics::refrigerant::{BubblePa, DewPa, Refrigerant, subcooling_k, superheat_k};
use reckon::Verdict;
use startup::first_run::air_heat_w;
use startup::joints::wrench_setting_nm;
use startup::pressure::{PressureReading, PressureTest, judge};
use startup::volume::Volume;
use startup::{Instrument, vacuum};

use super::{Check, number, rows};

const NITROGEN: &str = include_str!("../../../../checks/values/physics_nitrogen.csv");
const VAPOUR: &str = include_str!("../../../../checks/values/startup_vapour.csv");
const SATURATED: [(Refrigerant, &str); 4] = [
    (
        Refrigerant::R32,
        include_str!("../../../../checks/values/physics_reference_sat_R32.csv"),
    ),
    (
        Refrigerant::R410A,
        include_str!("../../../../checks/values/physics_reference_sat_R410A.csv"),
    ),
    (
        Refrigerant::R454B,
        include_str!("../../../../checks/values/physics_reference_sat_R454B.csv"),
    ),
    (
        Refrigerant::R290,
        include_str!("../../../../checks/values/physics_reference_sat_R290.csv"),
    ),
];

const COURSE: &str = "course example, printed as about 144 (second hand)";
const LIBRARY: &str = "reference library CoolProp 8.0.0";
const IAPWS: &str = "IAPWS R14-08 and IF97, by the library iapws 1.5.5";
const ICE: &str = "IAPWS R14-08, as micron";
const CARD_21: &str = "trade card F21, lever";
const CARD_22: &str = "trade card F22";
const CARD_24: &str = "trade card F24";

const PSI: f64 = 6_894.757_293_168_361;
const AIR_PA: f64 = 101_325.0;

fn celsius(f: f64) -> f64 {
    (f - 32.0) / 1.8
}

pub(super) fn checks() -> Vec<Check> {
    let mut all = nitrogen();
    all.extend(pressure_test());
    all.extend(water());
    all.extend(lines());
    all.extend(trade());
    all
}

fn nitrogen() -> Vec<Check> {
    let rule = Check::new(
        "nitrogen-course",
        "150 psig at 95 F, cooled to 75 F, by the rule",
        COURSE,
    );
    let air = 14.7 * PSI;
    let course = match ideal_pressure_after_pa(150.0 * PSI + air, 35.0, celsius(75.0)) {
        Ok(pa) => rule.near(144.06, 0.01, (pa - air) / PSI, 2, "psig"),
        Err(why) => rule.cannot_tell("144.06 psig", why.to_string()),
    };
    let (mut worst, mut n) = (0.0_f64, 0);
    for r in rows(NITROGEN) {
        let got = pressure_after_pa(number(&r, 0), number(&r, 1), number(&r, 2));
        let Ok(got) = got else { continue };
        n += 1;
        worst = worst.max((got / number(&r, 3) - 1.0).abs());
    }
    let real = Check::new(
        "nitrogen-real",
        "nitrogen shut in at another temperature, share",
        LIBRARY,
    )
    .worst(2e-5, worst, n, "");
    vec![course, real]
}

/// A tight pressure test from the reference's own pressures: what the tool says of it.
fn tight(begin: (f64, f64), end: (f64, f64)) -> Option<startup::pressure::PressureAnswer> {
    let test = PressureTest {
        volume: Volume {
            m3: 0.0015,
            share: 0.2,
        },
        plate_pa: 700.0 * PSI,
        air_pa: AIR_PA,
        gauge: Instrument::new("gauge", 2.0 * PSI, 0.1 * PSI).calibrated(0),
        thermometer: Instrument::new("thermometer", 1.0, 0.1).calibrated(0),
        wander_k: 0.5,
        refrigerant: Refrigerant::R32,
        service_c: 20.0,
        worth_g_per_year: 400.0,
        settle_s: 0.0,
        day: 0,
    };
    let readings: Vec<PressureReading> = (0..=24)
        .map(|i| {
            let x = f64::from(i) / 24.0;
            PressureReading {
                at_s: x * 86_400.0,
                gauge_pa: begin.0 + x * (end.0 - begin.0) - AIR_PA,
                line_c: Some(begin.1 + x * (end.1 - begin.1)),
            }
        })
        .collect();
    judge(&test, &readings).ok()
}

fn pressure_test() -> Vec<Check> {
    // every kept pair of the reference that a line may meet in a day
    let (mut n, mut accused) = (0, 0);
    for r in rows(NITROGEN) {
        let (p1, t1, t2, p2) = (number(&r, 0), number(&r, 1), number(&r, 2), number(&r, 3));
        if p1 < 30e5 || !(-40.0..=60.0).contains(&t1.min(t2)) || t1.max(t2) > 60.0 {
            continue;
        }
        if let Some(a) = tight((p1, t1), (p2, t2)) {
            n += 1;
            accused += usize::from(a.verdict == Verdict::Fails);
        }
    }
    let mut check = Check::new(
        "pressure-test-tight",
        "tight days by the reference's pressures, called leaking",
        LIBRARY,
    );
    "none".clone_into(&mut check.expected);
    check.got = format!("{accused} of {n}");
    check.verdict = match (n, accused) {
        (0, _) => Verdict::CannotTell,
        (_, 0) => Verdict::Holds,
        _ => Verdict::Fails,
    };
    let mut all = vec![check];
    for (to_f, want) in [(50.0, 577.0), (30.0, 554.0)] {
        let card = Check::new(
            format!("pressure-card-{to_f}"),
            format!("600 psig at 70 F, cooled to {to_f} F, by the rule"),
            CARD_22,
        );
        let got = ideal_pressure_after_pa(600.0 * PSI + AIR_PA, celsius(70.0), celsius(to_f));
        all.push(match got {
            Ok(pa) => card.near(want, 0.5, (pa - AIR_PA) / PSI, 1, "psig"),
            Err(why) => card.cannot_tell(&format!("{want} psig"), why.to_string()),
        });
    }
    all
}

fn water() -> Vec<Check> {
    let (mut ice, mut liquid) = ((0.0_f64, 0), (0.0_f64, 0));
    for r in rows(VAPOUR) {
        let (t, want) = (number(&r, 0), number(&r, 2));
        let Ok(told) = vacuum::ice(Some(t), 0.0, 66.7) else {
            continue;
        };
        let Some(got) = told.vapour_pa else { continue };
        let side = if r.get(1) == Some(&"ice") {
            &mut ice
        } else {
            &mut liquid
        };
        side.0 = side.0.max((got / want - 1.0).abs());
        side.1 += 1;
    }
    let mut all = vec![
        Check::new("vapour-ice", "vapour pressure over ice, share", IAPWS)
            .worst(1e-3, ice.0, ice.1, ""),
        Check::new("vapour-water", "vapour pressure over water, share", IAPWS)
            .worst(1e-3, liquid.0, liquid.1, ""),
    ];
    for (c, want, by) in [
        (-24.5, 500.0, 6.0),
        (-17.3, 1000.0, 10.0),
        (0.01, 4588.0, 5.0),
    ] {
        let check = Check::new(
            format!("ice-{want}-micron"),
            format!("ice at {c} C hides under"),
            ICE,
        );
        let told = vacuum::ice(Some(c), 0.0, 66.7)
            .ok()
            .and_then(|i| i.vapour_pa);
        all.push(match told {
            Some(pa) => check.near(want, by, pa / vacuum::MICRON_PA, 0, "micron"),
            None => check.cannot_tell(&format!("{want} micron"), "no answer"),
        });
    }
    all
}

/// Superheat by the dew point and subcooling by the bubble point, at every row of the tables.
fn lines() -> Vec<Check> {
    let mut all = Vec::new();
    for (fluid, text) in SATURATED {
        let (mut worst_hot, mut worst_cold, mut n) = (0.0_f64, 0.0_f64, 0);
        for r in rows(text) {
            let t = number(&r, 0);
            let (bubble, dew) = (number(&r, 1) * 1000.0, number(&r, 2) * 1000.0);
            let (Ok(at_dew), Ok(at_bubble)) = (
                fluid.dew_temperature(DewPa(dew)),
                fluid.bubble_temperature(BubblePa(bubble)),
            ) else {
                continue;
            };
            n += 1;
            worst_hot = worst_hot.max((superheat_k(t + 6.0, at_dew) - 6.0).abs());
            worst_cold = worst_cold.max((subcooling_k(t - 5.0, at_bubble) - 5.0).abs());
        }
        let name = fluid.name();
        let slug = name.to_lowercase();
        all.push(
            Check::new(
                format!("superheat-{slug}"),
                format!("{name}: 6 K of superheat by the dew point"),
                LIBRARY,
            )
            .worst(0.05, worst_hot, n, "K"),
        );
        all.push(
            Check::new(
                format!("subcooling-{slug}"),
                format!("{name}: 5 K of subcooling by the bubble point"),
                LIBRARY,
            )
            .worst(0.05, worst_cold, n, "K"),
        );
    }
    all
}

fn trade() -> Vec<Check> {
    let heat = Check::new(
        "air-side-heat",
        "300 cfm and 30 F: heat, and its error with 15 % and 1 F",
        CARD_24,
    );
    let read = air_heat_w(
        (0.141_584, 0.15 * 0.141_584),
        (20.0, 0.5 / 0.9),
        (20.0 + 30.0 / 1.8, 0.5 / 0.9),
        0.0,
    );
    let heat_error = Check::new("air-side-error", "its limit of error", CARD_24);
    let mut all = match read {
        Ok((w, u)) => vec![
            heat.near(9.7, 0.05, w / 293.071, 1, "kBtu/h"),
            heat_error.near(16.0, 0.5, 100.0 * u / w, 0, "%"),
        ],
        Err(why) => vec![heat.cannot_tell("9.7 kBtu/h", why.to_string())],
    };
    let wrench = Check::new(
        "crowfoot",
        "38 N m, wrench 10 in, crowfoot 2 in straight on: set",
        CARD_21,
    );
    all.push(match wrench_setting_nm(38.0, 0.254, 0.0508) {
        Ok(nm) => wrench.near(38.0 * 10.0 / 12.0, 0.01, nm, 2, "N m"),
        Err(why) => wrench.cannot_tell("31.67 N m", why.to_string()),
    });
    all
}
