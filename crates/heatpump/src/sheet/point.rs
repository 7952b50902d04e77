//! Test points and operating limits.

use serde::Serialize;
use units::Dim;

use super::table::{Reading, Table, Usable};
use super::usable::{HEAT, OUTDOOR, POWER, SHARE};

const INDOOR: Usable = Usable {
    lo: 5.0,
    hi: 40.0,
    words: "a temperature from 41 F to 104 F",
};
const COP: Usable = Usable {
    lo: 0.05,
    hi: 40.0,
    words: "a plain number, as 3.2",
};

/// Heat (or cold) given and electricity taken at one running state.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Running {
    /// Heat given (heating) or taken away (cooling), W.
    pub capacity_w: f64,
    /// Electric power, W.
    pub electric_w: f64,
}

impl Running {
    /// Heat per electricity; not finite when no power is stated.
    pub fn cop(self) -> f64 {
        self.capacity_w / self.electric_w
    }
}

/// One published test point.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TestPoint {
    /// Outdoor dry bulb, C.
    pub outdoor_c: f64,
    /// Outdoor wet bulb, C, where stated.
    pub wet_bulb_c: Option<f64>,
    /// Indoor dry bulb, C.
    pub indoor_c: f64,
    /// Whether the figures include the loss by defrosting ("integrated"); `None`: not said.
    pub defrost_included: Option<bool>,
    /// Least the unit gives while running.
    pub min: Option<Running>,
    /// Rated.
    pub rated: Option<Running>,
    /// Most the unit gives.
    pub max: Option<Running>,
    /// Sensible share of cooling, 0 to 1, where stated.
    pub sensible_share: Option<f64>,
    /// Page of the sheet.
    pub page: Option<String>,
    /// Line of the file, from 1.
    pub line: usize,
}

/// Operating limits, C.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Limits {
    /// Heating stops below this outdoor temperature, C.
    pub heating_cut_out_c: Option<f64>,
    /// Heating is not offered above this outdoor temperature, C.
    pub heating_highest_c: Option<f64>,
    /// Cooling is not offered below this outdoor temperature, C.
    pub cooling_lowest_c: Option<f64>,
    /// Cooling is not offered above this outdoor temperature, C.
    pub cooling_highest_c: Option<f64>,
    /// Page.
    pub page: Option<String>,
}

pub(super) fn points<'t>(r: &mut Reading<'t>, t: &mut Table<'t>, key: &str) -> Vec<TestPoint> {
    let mut out: Vec<TestPoint> = Vec::new();
    for mut row in r.rows(t, key) {
        let outdoor_c = r.quantity(&mut row, "outdoor", Dim::Temperature, OUTDOOR);
        if outdoor_c.is_none() && !row.has("outdoor") {
            r.missing(&row, "outdoor", OUTDOOR.words);
        }
        let indoor_c = r.quantity(&mut row, "indoor", Dim::Temperature, INDOOR);
        if indoor_c.is_none() && !row.has("indoor") {
            r.missing(&row, "indoor", INDOOR.words);
        }
        let wet_bulb_c = r.quantity(&mut row, "wet_bulb", Dim::Temperature, OUTDOOR);
        let defrost_included = r.flag(&mut row, "defrost_included");
        let min = running(r, &mut row, "min");
        let rated = running(r, &mut row, "rated");
        let max = running(r, &mut row, "max");
        let sensible_share = r.ratio(&mut row, "sensible_share", SHARE);
        let page = r.text(&mut row, "page");
        if !row.has("min") && !row.has("rated") && !row.has("max") {
            r.missing(&row, "max", "at least one of min, rated and max");
        }
        r.finish(&row);
        if let (Some(outdoor_c), Some(indoor_c)) = (outdoor_c, indoor_c) {
            if out.iter().any(|p| p.outdoor_c == outdoor_c) {
                let place = format!("{}.outdoor", row.place);
                let got = format!("{outdoor_c:.1} C twice");
                r.complain(
                    row.line,
                    &place,
                    got,
                    "each outdoor temperature once",
                    "Keep one row",
                );
            }
            let line = row.line;
            out.push(TestPoint {
                outdoor_c,
                wet_bulb_c,
                indoor_c,
                defrost_included,
                min,
                rated,
                max,
                sensible_share,
                page,
                line,
            });
        }
    }
    out.sort_by(|a, b| a.outdoor_c.total_cmp(&b.outdoor_c));
    out
}

fn running<'t>(r: &mut Reading<'t>, row: &mut Table<'t>, key: &str) -> Option<Running> {
    let power_key = format!("{key}_power");
    let cop_key = format!("{key}_cop");
    let capacity_w = r.quantity(row, key, Dim::Power, HEAT);
    let power = r.quantity(row, &power_key, Dim::ElectricPower, POWER);
    let cop = r.ratio(row, &cop_key, COP);
    if !row.has(key) {
        if row.has(&power_key) || row.has(&cop_key) {
            r.missing(row, key, HEAT.words);
        }
        return None;
    }
    if !row.has(&power_key) && !row.has(&cop_key) {
        let allowed = format!("{power_key} or {cop_key}");
        r.missing(row, &power_key, &allowed);
        return None;
    }
    if row.has(&power_key) && row.has(&cop_key) {
        let place = format!("{}.{cop_key}", row.place);
        r.complain(
            row.line,
            &place,
            "both power and COP",
            "one of the two",
            "Keep the power",
        );
        return None;
    }
    let capacity_w = capacity_w?;
    let electric_w = match (power, cop) {
        (Some(w), _) if w > 0.0 => w,
        (Some(_), _) => {
            let place = format!("{}.{power_key}", row.place);
            r.complain(
                row.line,
                &place,
                "0 W",
                "more than 0 W",
                "A running unit takes power",
            );
            return None;
        }
        (None, Some(cop)) => capacity_w / cop,
        (None, None) => return None,
    };
    Some(Running {
        capacity_w,
        electric_w,
    })
}

pub(super) fn limits<'t>(r: &mut Reading<'t>, t: &mut Table<'t>) -> Limits {
    let Some(mut s) = r.sub(t, "limits") else {
        return Limits::default();
    };
    let mut temp = |key: &str| r.quantity(&mut s, key, Dim::Temperature, OUTDOOR);
    let heating_cut_out_c = temp("heating_cut_out");
    let heating_highest_c = temp("heating_highest");
    let cooling_lowest_c = temp("cooling_lowest");
    let cooling_highest_c = temp("cooling_highest");
    let page = r.text(&mut s, "page");
    r.finish(&s);
    Limits {
        heating_cut_out_c,
        heating_highest_c,
        cooling_lowest_c,
        cooling_highest_c,
        page,
    }
}
