//! The test houses of Standard 140-2020, run as ordinary job files.

use climate::Weather;
use house::glazing::Glass;
use reckon::Verdict;

use super::{Check, number, rows};
use crate::year::{IdealYear, ideal_year};

const SOURCE: &str = "ANSI/ASHRAE Standard 140-2020, tables B8-1 to B8-6, six programs";
const LOADS: &str = include_str!("../../../../checks/values/std140_2020_loads.csv");
const FREE: &str = include_str!("../../../../checks/values/std140_2020_freefloat.csv");
const ACCEPTED: &str = include_str!("../../../../checks/values/std140_acceptance.csv");

macro_rules! case {
    ($name:literal) => {
        (
            $name,
            include_str!(concat!("../../../../jobs/standard-140/", $name, ".toml")),
        )
    };
}

/// The job files, by case.
pub(super) const CASES: [(&str, &str); 17] = [
    case!("600"),
    case!("610"),
    case!("620"),
    case!("630"),
    case!("640"),
    case!("650"),
    case!("900"),
    case!("910"),
    case!("920"),
    case!("930"),
    case!("940"),
    case!("950"),
    case!("960"),
    case!("600ff"),
    case!("650ff"),
    case!("900ff"),
    case!("950ff"),
];

/// The Denver year, read once by each caller.
pub(super) fn denver() -> Option<Weather> {
    let bytes = crate::shipped::weather("denver-725650")?;
    Some(climate::read_any(bytes).ok()?.value)
}

/// The model of a case.
pub(super) fn model(text: &str) -> Result<house::model::Model, String> {
    let job =
        jobfile::read(text).map_err(|p| p.first().map(ToString::to_string).unwrap_or_default())?;
    house::geometry::model(&job.house)
        .map_err(|e| e.first().map(ToString::to_string).unwrap_or_default())
}

pub(super) fn year_of(text: &str, weather: &Weather) -> Result<IdealYear, String> {
    ideal_year(&model(text)?, weather).map_err(|e| e.to_string())
}

struct Ask {
    end: &'static str,
    what: &'static str,
    quantity: &'static str,
    unit: &'static str,
    digits: usize,
    of: fn(&IdealYear) -> f64,
}

const OF_LOADS: [Ask; 4] = [
    Ask {
        end: "heating",
        what: "heating of the year",
        quantity: "annual_heating_MWh",
        unit: "MWh",
        digits: 3,
        of: |y| y.house.heating_j / 3.6e9,
    },
    Ask {
        end: "cooling",
        what: "cooling of the year",
        quantity: "annual_cooling_MWh",
        unit: "MWh",
        digits: 3,
        of: |y| y.house.cooling_j / 3.6e9,
    },
    Ask {
        end: "heating-peak",
        what: "largest hour of heating",
        quantity: "peak_heating_kW",
        unit: "kW",
        digits: 3,
        of: |y| y.house.heating_peak.heat_w / 1e3,
    },
    Ask {
        end: "cooling-peak",
        what: "largest hour of cooling",
        quantity: "peak_cooling_kW",
        unit: "kW",
        digits: 3,
        of: |y| y.house.cooling_peak.heat_w / 1e3,
    },
];

/// The room without heating and cooling: the only one, or the sunspace of 960.
fn floating(y: &IdealYear) -> Option<&crate::RoomYear> {
    y.rooms.iter().find(|r| r.drawn && !r.heated)
}

const OF_FREE: [Ask; 3] = [
    Ask {
        end: "least",
        what: "least air temperature",
        quantity: "minimum_temperature",
        unit: "C",
        digits: 1,
        of: |y| floating(y).map_or(f64::NAN, |r| r.least_c.0),
    },
    Ask {
        end: "mean",
        what: "mean air temperature",
        quantity: "average_temperature",
        unit: "C",
        digits: 1,
        of: |y| floating(y).map_or(f64::NAN, |r| r.mean_c),
    },
    Ask {
        end: "greatest",
        what: "greatest air temperature",
        quantity: "maximum_temperature",
        unit: "C",
        digits: 1,
        of: |y| floating(y).map_or(f64::NAN, |r| r.greatest_c.0),
    },
];

fn range(text: &'static str, case: &str, quantity: &str) -> Option<(f64, f64)> {
    rows(text)
        .find(|r| {
            r.first().is_some_and(|c| c.eq_ignore_ascii_case(case)) && r.get(1) == Some(&quantity)
        })
        .map(|r| (number(&r, 3), number(&r, 4)))
}

/// Acceptance limits of a yearly load, MWh; a reversed pair is turned, see the file.
fn accepted(case: &str, end: &str) -> Option<(f64, f64)> {
    let row = rows(ACCEPTED).find(|r| r.first() == Some(&case))?;
    let at = match end {
        "heating" => 1,
        "cooling" => 3,
        _ => return None,
    };
    let (a, b) = (number(&row, at), number(&row, at + 1));
    Some((a.min(b), a.max(b)))
}

pub(super) fn checks() -> Vec<Check> {
    let Some(weather) = denver() else {
        return vec![
            Check::new("std140", "the test houses", SOURCE)
                .cannot_tell("", "the Denver year does not read"),
        ];
    };
    let (mut all, mut closed) = (Vec::new(), Vec::new());
    for (case, text) in CASES {
        match year_of(text, &weather) {
            Ok(year) => {
                of_case(case, &year, &mut all);
                closed.push(closure(case, &year));
            }
            Err(why) => all.push(
                Check::new(format!("std140-{case}"), format!("case {case}"), SOURCE)
                    .cannot_tell("a year", why),
            ),
        }
    }
    all.extend(shading(&weather));
    all.extend(closed);
    all
}

fn closure(case: &str, year: &IdealYear) -> Check {
    let id = format!("closure-{case}");
    let what = format!("case {case}, heat in less out less stored, of heat through");
    let by = year.closure.abs();
    Check::new(
        id,
        what,
        "a property of ours: heat is neither made nor lost, below 0.01 %",
    )
    .worst(1e-4, by, 1, "")
}

fn of_case(case: &str, year: &IdealYear, all: &mut Vec<Check>) {
    let asks = OF_LOADS
        .iter()
        .map(|a| (a, LOADS))
        .chain(OF_FREE.iter().map(|a| (a, FREE)));
    for (ask, table) in asks {
        let Some((lo, hi)) = range(table, case, ask.quantity) else {
            continue;
        };
        if lo == 0.0 && hi == 0.0 {
            continue;
        }
        let got = (ask.of)(year);
        let id = format!("std140-{case}-{}", ask.end);
        let mut check = Check::new(id, format!("case {case}, {}", ask.what), SOURCE)
            .within(lo, hi, got, ask.digits, ask.unit);
        if let (Verdict::Fails, Some((least, most))) = (check.verdict, accepted(case, ask.end))
            && got >= least
            && got <= most
        {
            let by = if got < lo { lo - got } else { got - hi };
            check.verdict = Verdict::Holds;
            check.remark = format!(
                "inside acceptance {least:.2} to {most:.2}, outside examples by {by:.3} {}",
                ask.unit
            );
        } else if check.verdict == Verdict::Holds {
            "inside the range of the six programs".clone_into(&mut check.remark);
        }
        all.push(check);
    }
}

/// Sun let through a case's windows in the year, kWh and per area.
fn let_through(text: &str, weather: &Weather) -> Option<(f64, f64)> {
    let model = model(text).ok()?;
    let glasses: Vec<Glass> = model.glazings.iter().map(Glass::new).collect();
    let drive = house::drive::Drive::new(&model, &glasses, weather)
        .ok()?
        .finer(model.steps_an_hour);
    let (mut kwh, mut area) = (0.0, 0.0);
    for (pane, a) in model.panes.iter().zip(&drive.aperture_of_pane) {
        area += pane.area_m2;
        for h in 0..drive.steps {
            let i = h * drive.apertures + a;
            let through = drive.beam_w_per_m2.get(i)? + drive.diffuse_w_per_m2.get(i)?;
            kwh += through * pane.area_m2 / 1000.0;
        }
    }
    Some((kwh, kwh / area))
}

fn shading(weather: &Weather) -> Vec<Check> {
    let of = |case: &str| {
        let text = CASES.iter().find(|(c, _)| *c == case)?.1;
        let_through(text, weather)
    };
    let mut all = Vec::new();
    let through = Check::new(
        "std140-600-window-sun",
        "sun through the south windows of case 600",
        SOURCE,
    );
    all.push(match of("600") {
        Some((_, per_m2)) => through.within(804.0, 826.0, per_m2, 0, "kWh/m2"),
        None => through.cannot_tell("804 to 826 kWh/m2", "the case does not run"),
    });
    for (id, what, shaded, plain, lo, hi) in [
        (
            "std140-610-shading",
            "sun kept out by the overhang of 610",
            "610",
            "600",
            0.176,
            0.224,
        ),
        (
            "std140-630-shading",
            "sun kept out by overhang and fins of 630",
            "630",
            "620",
            0.268,
            0.342,
        ),
    ] {
        let check = Check::new(id, what, SOURCE);
        all.push(match (of(shaded), of(plain)) {
            (Some((with, _)), Some((without, _))) => {
                check.within(lo, hi, 1.0 - with / without, 3, "")
            }
            _ => check.cannot_tell("", "a case does not run"),
        });
    }
    all
}
