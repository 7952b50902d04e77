//! Bills: read, fitted and banded as others do it.

mod recovery;

use ::review::calendar::read_iso;
use ::review::{
    Bills, Days, Kind, Line, Observation, Period, candidates, fit, observations, read_espi,
    student_quantile, unit_j,
};
use jobfile::Carrier;

use super::{Check, number, rows};

const METERS: &str = include_str!("../../../../checks/values/review_meters.csv");
const DAYS: &str = include_str!("../../../../checks/values/review_temperatures.csv");
const DEGREES: &str = include_str!("../../../../checks/values/review_degree_days.csv");
const FITS: &str = include_str!("../../../../checks/values/review_fits.csv");
const BANDS: &str = include_str!("../../../../checks/values/review_bands.csv");
const TOTALS: &str = include_str!("../../../../checks/values/review_totals.csv");
const STUDENT: &str = include_str!("../../../../checks/values/review_student.csv");
const FEEDS: &str = include_str!("../../../../checks/values/review_green_button.csv");
const GAS: &[u8] = include_bytes!("../../../review/tests/feeds/gas.xml");
const HOUSE: &[u8] = include_bytes!("../../../review/tests/feeds/house.xml");

const EEMETER: &str = "eemeter 4.1.1 on its sample meters";
const STATS: &str = "statsmodels 0.15 on eemeter's columns";
const SCIPY: &str = "scipy 1.17";
const OBJECTS: &str = "greenbutton-objects 2024.7";
const CARD: &str = "trade card F2, worked example";
const GUIDELINE: &str = "ASHRAE Guideline 14, monthly data (second hand)";

fn carrier(meter: &str) -> Carrier {
    if meter.contains("gas") {
        Carrier::Gas
    } else {
        Carrier::Electricity
    }
}

fn one_j(meter: &str) -> f64 {
    let unit = if meter.contains("gas") {
        "therm"
    } else {
        "kWh"
    };
    unit_j(carrier(meter), unit).unwrap_or(f64::NAN)
}

fn bills(meter: &str, span: &str) -> Option<Bills> {
    let periods = rows(METERS)
        .filter(|r| r.first() == Some(&meter) && r.get(1) == Some(&span))
        .filter_map(|r| {
            Some(Period {
                from: read_iso(r.get(2)?)?,
                to: read_iso(r.get(3)?)?,
                energy_j: number(&r, 4) * one_j(meter),
                estimated: false,
                line: 0,
            })
        })
        .collect();
    Bills::from_exact(carrier(meter), periods, Vec::new()).ok()
}

fn seen(row: &[&str], days: &Days) -> Option<Vec<Observation>> {
    let bills = bills(row.first()?, row.get(1)?)?;
    Some(observations(&bills, days).0)
}

pub(super) fn checks() -> Vec<Check> {
    let mut all = vec![student(), card()];
    all.extend(limits());
    match Days::read_csv(DAYS.as_bytes()) {
        Ok(days) => {
            all.push(degree_days(&days));
            all.extend(fits(&days));
            all.push(bands(&days));
            all.extend(totals(&days));
        }
        Err(why) => {
            let check = Check::new(
                "bills-degree-days",
                "temperatures of the sample meters",
                EEMETER,
            );
            all.push(check.cannot_tell("", why.to_string()));
        }
    }
    all.push(feeds());
    all.extend(recovery::checks());
    all
}

fn student() -> Check {
    let (mut worst, mut of) = (0.0_f64, 0);
    for r in rows(STUDENT) {
        let want = number(&r, 2);
        worst = worst.max((student_quantile(number(&r, 1), number(&r, 0)) / want - 1.0).abs());
        of += 1;
    }
    Check::new("bills-student", "quantiles of Student's t, share", SCIPY).worst(1e-9, worst, of, "")
}

/// 720 gal between two fills in which 7,400 F day pass, no hot water, at 80 %.
fn card() -> Check {
    let check = Check::new(
        "bills-fill-to-fill",
        "780 gal less 60, 80 %, 7,400 F day",
        CARD,
    );
    let days = 200;
    let below_k = 7400.0 / 1.8 / f64::from(days);
    let winter = Observation {
        from: 0,
        to: days,
        // the card counts 138,500 Btu in a gallon
        power_w: 720.0 * 138_500.0 * units::constants::BTU_IT_J / (f64::from(days) * 86_400.0),
        days_c: vec![16.5 - below_k; days as usize],
        line: 0,
    };
    match Line::of_fills(&[winter], false) {
        Ok(line) => {
            let w_per_k = line.slope_w_per_k.mid * 0.8;
            let us = w_per_k / units::constants::BTU_PER_H_W / 1.8;
            check.near(449.0, 0.5, us, 1, "Btu/(h F)")
        }
        Err(why) => check.cannot_tell("449 Btu/(h F)", why.to_string()),
    }
}

fn limits() -> [Check; 2] {
    let row = |id: &str, what: &str, want: f64, got: f64| {
        Check::new(id, what, GUIDELINE).near(want, 1e-9, got * 100.0, 0, "%")
    };
    [
        row(
            "bills-limit-scatter",
            "scatter allowed, CV(RMSE)",
            15.0,
            ::review::MOST_CV_RMSE,
        ),
        row(
            "bills-limit-bias",
            "bias allowed, NMBE",
            5.0,
            ::review::MOST_NMBE,
        ),
    ]
}

fn degree_days(days: &Days) -> Check {
    let (mut worst, mut of) = (0.0_f64, 0);
    for r in rows(DEGREES) {
        let (Some(meter), Some(span)) = (r.first(), r.get(1)) else {
            continue;
        };
        let from = r.get(2).and_then(|d| read_iso(d));
        let own = bills(meter, span);
        let Some(p) = own
            .as_ref()
            .and_then(|b| b.periods.iter().find(|p| Some(p.from) == from))
        else {
            continue;
        };
        let base_c = (number(&r, 3) - 32.0) / 1.8;
        let got = Days::degree_days(&days.measured(p.from, p.to), base_c) * 1.8;
        worst = worst.max((got - number(&r, 4)).abs());
        of += 1;
    }
    Check::new(
        "bills-degree-days",
        "degree days a day of each bill",
        EEMETER,
    )
    .worst(1e-6, worst, of, "F")
}

fn fits(days: &Days) -> Vec<Check> {
    let (mut slopes, mut r2, mut of) = (0.0_f64, 0.0_f64, 0);
    let (mut right, mut chosen) = (0, 0);
    for r in rows(FITS) {
        let (Some(meter), Some(seen)) = (r.first(), seen(&r, days)) else {
            continue;
        };
        let kind = match r.get(2) {
            Some(&"heating") => Kind::Heating,
            Some(&"cooling") => Kind::Cooling,
            Some(&"both") => Kind::Both,
            _ => Kind::Base,
        };
        let all = candidates(&seen, carrier(meter) == Carrier::Electricity);
        let Some(got) = all.iter().find(|c| c.kind == kind) else {
            continue;
        };
        let unit = 86_400.0 / one_j(meter);
        let apart = |got: f64, want: f64| {
            if want.is_nan() {
                0.0
            } else {
                (got / want - 1.0).abs()
            }
        };
        slopes = slopes
            .max(apart(got.base_w * unit, number(&r, 5)))
            .max(apart(got.slopes_w_per_k[0] * unit / 1.8, number(&r, 6)))
            .max(apart(got.slopes_w_per_k[1] * unit / 1.8, number(&r, 7)));
        r2 = r2.max((got.adjusted_r2 - number(&r, 8)).abs());
        of += 1;
        if r.get(10) == Some(&"chosen") {
            let best = all
                .iter()
                .filter(|c| c.qualifies)
                .max_by(|a, b| a.adjusted_r2.total_cmp(&b.adjusted_r2));
            chosen += 1;
            right += usize::from(best.is_some_and(|b| b.kind == kind));
        }
    }
    let share = Check::new(
        "bills-chosen",
        "which branches are chosen, of all spans",
        STATS,
    );
    vec![
        Check::new(
            "bills-fit",
            "base and slopes, best of each kind, share",
            STATS,
        )
        .worst(1e-6, slopes, of, ""),
        Check::new("bills-adjusted-r2", "adjusted R2, best of each kind", STATS)
            .worst(1e-8, r2, of, ""),
        share.near(f64::from(chosen), 0.0, right as f64, 0, "spans"),
    ]
}

fn bands(days: &Days) -> Check {
    let (mut worst, mut of) = (0.0_f64, 0);
    for r in rows(BANDS) {
        let (Some(meter), Some(seen)) = (r.first(), seen(&r, days)) else {
            continue;
        };
        let Ok(fit) = fit(seen, false, false) else {
            continue;
        };
        let band = fit
            .band_if_even(&|_, _| [0.0, 1.0, 0.0])
            .times(86_400.0 / one_j(meter) / 1.8);
        for (got, at) in [(band.low, 2), (band.mid, 3), (band.high, 4)] {
            worst = worst.max((got / number(&r, at) - 1.0).abs());
            of += 1;
        }
    }
    Check::new("bills-band", "slope and ends of its band, share", SCIPY)
        .worst(0.005, worst, of, "")
        .remark("our grid of a quarter of a degree against a free balance point")
}

fn totals(days: &Days) -> Vec<Check> {
    let mut out = Vec::new();
    for r in rows(TOTALS) {
        let (Some(meter), Some(seen)) = (r.first(), seen(&r, days)) else {
            continue;
        };
        let kind = meter
            .trim_start_matches("il-")
            .trim_end_matches("-billing_monthly");
        let check = Check::new(
            format!("bills-total-{kind}"),
            format!("use of the span, {kind}"),
            EEMETER,
        );
        out.push(
            match fit(seen, carrier(meter) == Carrier::Electricity, false) {
                Ok(fit) => {
                    // that model leaves the last bill out
                    let but_last = fit.observations.iter().rev().skip(1);
                    let sum: f64 = but_last.map(|o| fit.fitted_w(o) * o.days()).sum();
                    let got = sum * 86_400.0 / one_j(meter);
                    let unit = if meter.contains("gas") {
                        "therm"
                    } else {
                        "kWh"
                    };
                    check
                        .share(number(&r, 3), 0.01, got, 0, unit)
                        .remark("its own model of today is another method")
                }
                Err(why) => check.cannot_tell("", why.to_string()),
            },
        );
    }
    out
}

fn feeds() -> Check {
    let (mut worst, mut of) = (0.0_f64, 0);
    for r in rows(FEEDS) {
        let bytes = match r.first() {
            Some(&"gas") => GAS,
            Some(&"house") => HOUSE,
            _ => continue,
        };
        let meters = read_espi(bytes, None).unwrap_or_default();
        let title = |m: &&::review::EspiMeter| Some(&m.title.replace(',', "").as_str()) == r.get(1);
        let got = meters.iter().find(title);
        let apart = got.map_or(f64::NAN, |m| (m.sum / number(&r, 5) - 1.0).abs());
        worst = if apart.is_nan() {
            f64::NAN
        } else {
            worst.max(apart)
        };
        of += 1;
    }
    Check::new(
        "green-button",
        "sums of meters in Green Button feeds, share",
        OBJECTS,
    )
    .worst(1e-9, worst, of, "")
}
