//! Seasonal ratings against printed answers.

use heatpump::{
    Climate, EN_AVERAGE, EN_COLDER, EnClimate, RESISTANCE_3412, RESISTANCE_3413, RatedPoint, Stage,
    TwoStageCooling, TwoStageHeating, region, scop_on, two_stage_hspf2, two_stage_seer2,
};

use super::Check;

const EN: &str = "EN 14825:2018 annex H (second hand)";
const BINS: &str = "EN 14825, printed equivalent hours";
const AHRI: &str = "AHRI 210/240-2023 and 10 CFR 430 appendix M1, worked numbers (second hand)";

fn s(btu_h: f64, w: f64) -> Stage {
    Stage { btu_h, w }
}

pub(super) fn checks() -> Vec<Check> {
    let mut all = vec![annex_h()];
    all.extend([("average", EN_AVERAGE), ("colder", EN_COLDER)].map(|(n, c)| hours(n, &c)));
    all.extend(two_stage());
    all
}

fn annex_h() -> Check {
    let points: Vec<RatedPoint> = [
        (-10.0, 7.8, 2.6),
        (-7.0, 9.55, 3.26),
        (-6.0, 9.7, 3.3),
        (2.0, 11.17, 4.0),
        (7.0, 12.66, 4.91),
        (12.0, 14.3, 5.5),
    ]
    .into_iter()
    .map(|(outdoor_c, kw, cop)| RatedPoint {
        outdoor_c,
        capacity_w: kw * 1000.0,
        cop,
    })
    .collect();
    let check = Check::new(
        "en14825-annex-h",
        "fixed capacity, average climate, SCOPon",
        EN,
    );
    match scop_on(&EN_AVERAGE, 11_460.0, &points, 0.9) {
        Some(got) => check
            .share(3.61, 0.004, got, 3, "")
            .remark("the printed numbers recompute to 3.598"),
        None => check.cannot_tell("3.61", "the points are refused"),
    }
}

fn hours(name: &str, c: &EnClimate) -> Check {
    let got: f64 = c
        .hours
        .iter()
        .enumerate()
        .map(|(i, h)| {
            let t = f64::from(c.first_bin_c) + i as f64;
            f64::from(*h) * (t - 16.0) / (c.design_c - 16.0)
        })
        .sum();
    Check::new(
        format!("en14825-hours-{name}"),
        format!("hours at full load, {name} climate"),
        BINS,
    )
    .near(c.equivalent_h, 0.6, got, 0, "h")
}

fn two_stage() -> Vec<Check> {
    let cooling = TwoStageCooling {
        a_full: s(48_000.0, 4300.0),
        b_full: s(52_000.0, 3900.0),
        b_low: s(30_000.0, 2200.0),
        f_low: s(34_000.0, 2500.0),
        cd_low: 0.24,
    };
    let heating = TwoStageHeating {
        h0_low: s(22_000.0, 1450.0),
        h1_full: s(25_000.0, 1800.0),
        h1_low: s(18_000.0, 1350.0),
        h2_full: s(21_500.0, 1900.0),
        h2_low: s(14_500.0, 1450.0),
        h3_full: s(19_500.0, 2100.0),
        h3_low: s(10_500.0, 1600.0),
        cooling_btu_h: 30_000.0,
        cd_low: 0.18,
        defrost_credit: 1.03,
    };
    let iv = region(Climate::Iv);
    [
        (
            "ahri-seer2",
            "two-stage SEER2",
            12.4540352056775,
            two_stage_seer2(&cooling),
        ),
        (
            "ahri-hspf2-3413",
            "two-stage HSPF2, region IV, 3.413 Btu/Wh",
            8.5695257081792,
            two_stage_hspf2(&heating, &iv, RESISTANCE_3413),
        ),
        (
            "ahri-hspf2-3412",
            "two-stage HSPF2, region IV, 3.412 Btu/Wh",
            8.56889212463095,
            two_stage_hspf2(&heating, &iv, RESISTANCE_3412),
        ),
    ]
    .into_iter()
    .map(|(id, what, want, got)| {
        let check = Check::new(id, what, AHRI);
        match got {
            Some(got) => {
                let mut check = check.share(want, 1e-9, got, 10, "Btu/Wh");
                check.expected = format!("{want:.10} Btu/Wh, to 1e-9 of it");
                check
            }
            None => check.cannot_tell("a rating", "the points are refused"),
        }
    })
    .collect()
}
