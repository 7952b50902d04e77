//! What the sheet asks on the start-up day: flare torques, vacuum, targets in the test mode.

use serde::Serialize;
use units::Dim;

use super::table::{Reading, Table, Usable};
use super::usable::TUBE;

const TORQUE: Usable = Usable {
    lo: 5.0,
    hi: 200.0,
    words: "a torque from 5 to 200 N m",
};
const VACUUM: Usable = Usable {
    lo: 5.0,
    hi: 1000.0,
    words: "a pressure from 40 to 7500 micron",
};
const HOLD: Usable = Usable {
    lo: 60.0,
    hi: 172_800.0,
    words: "a time from 1 min to 48 h",
};
const COIL: Usable = Usable {
    lo: 2e-5,
    hi: 0.02,
    words: "a volume from 0.02 to 20 L",
};
const KELVIN: Usable = Usable {
    lo: 0.0,
    hi: 40.0,
    words: "a temperature difference from 0 to 72 F",
};

/// Torque of one size of flare nut.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct FlareTorque {
    /// Outside diameter of the tube, m.
    pub tube_m: f64,
    /// Least, N m.
    pub least_nm: f64,
    /// Most, N m.
    pub most_nm: f64,
}

/// When the sheet calls an evacuation done.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct VacuumAsked {
    /// Pump down to this, Pa absolute.
    pub reach_pa: f64,
    /// Not above this in the hold, Pa absolute.
    pub limit_pa: f64,
    /// Hold with the pump shut off, s.
    pub hold_s: f64,
}

/// What the sheet asks on the start-up day.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct StartUp {
    /// Torque by tube.
    pub flares: Vec<FlareTorque>,
    /// Evacuation.
    pub vacuum: Option<VacuumAsked>,
    /// Refrigerant side of the coil, m3.
    pub coil_m3: Option<f64>,
    /// Superheat in the unit's test mode, least and most, K.
    pub superheat_k: Option<(f64, f64)>,
    /// Subcooling in the unit's test mode, least and most, K.
    pub subcooling_k: Option<(f64, f64)>,
    /// Page.
    pub page: Option<String>,
}

impl StartUp {
    /// Torque of a tube, least and most, N m.
    pub fn flare_nm(&self, tube_m: f64) -> Option<(f64, f64)> {
        self.flares
            .iter()
            .find(|f| (f.tube_m - tube_m).abs() < 2e-4)
            .map(|f| (f.least_nm, f.most_nm))
    }
}

pub(super) fn start_up<'t>(r: &mut Reading<'t>, t: &mut Table<'t>) -> StartUp {
    let Some(mut s) = r.sub(t, "start_up") else {
        return StartUp::default();
    };
    let mut flares = Vec::new();
    for mut row in r.rows(&mut s, "flare") {
        let tube_m = r.quantity(&mut row, "tube", Dim::SmallLength, TUBE);
        let ends = ends(r, &mut row, Dim::Torque, TORQUE);
        if !row.has("tube") {
            r.missing(&row, "tube", TUBE.words);
        }
        r.finish(&row);
        if let (Some(tube_m), Some((least_nm, most_nm))) = (tube_m, ends) {
            flares.push(FlareTorque {
                tube_m,
                least_nm,
                most_nm,
            });
        }
    }
    let start_up = StartUp {
        flares,
        vacuum: vacuum(r, &mut s),
        coil_m3: r.quantity(&mut s, "coil", Dim::Volume, COIL),
        superheat_k: target(r, &mut s, "superheat"),
        subcooling_k: target(r, &mut s, "subcooling"),
        page: r.text(&mut s, "page"),
    };
    r.finish(&s);
    start_up
}

fn vacuum<'t>(r: &mut Reading<'t>, s: &mut Table<'t>) -> Option<VacuumAsked> {
    let mut v = r.sub(s, "vacuum")?;
    let reach = r.quantity(&mut v, "reach", Dim::Pressure, VACUUM);
    let limit = r.quantity(&mut v, "limit", Dim::Pressure, VACUUM);
    let hold = r.quantity(&mut v, "hold", Dim::Hours, HOLD);
    for (key, words) in [("reach", VACUUM.words), ("hold", HOLD.words)] {
        if !v.has(key) {
            r.missing(&v, key, words);
        }
    }
    if let (Some(reach), Some(limit)) = (reach, limit)
        && limit < reach
    {
        let mend = "Leave it out where the sheet allows no rise";
        out_of_order(r, &v, "limit", "at least what the pump reaches", mend);
    }
    r.finish(&v);
    let reach_pa = reach?;
    Some(VacuumAsked {
        reach_pa,
        // where the sheet gives one figure, it is not to be passed
        limit_pa: limit.unwrap_or(reach_pa),
        hold_s: hold?,
    })
}

fn target<'t>(r: &mut Reading<'t>, s: &mut Table<'t>, key: &str) -> Option<(f64, f64)> {
    let mut row = r.sub(s, key)?;
    let found = ends(r, &mut row, Dim::TemperatureDifference, KELVIN);
    r.finish(&row);
    found
}

/// `least` and `most` of a range; both are needed and in order.
fn ends<'t>(
    r: &mut Reading<'t>,
    row: &mut Table<'t>,
    dim: Dim,
    usable: Usable,
) -> Option<(f64, f64)> {
    let least = r.quantity(row, "least", dim, usable);
    let most = r.quantity(row, "most", dim, usable);
    for key in ["least", "most"] {
        if !row.has(key) {
            r.missing(row, key, usable.words);
        }
    }
    let (least, most) = (least?, most?);
    if most < least {
        out_of_order(
            r,
            row,
            "most",
            "no less than least",
            "least first, then most",
        );
        return None;
    }
    Some((least, most))
}

/// A value that contradicts the one before it.
fn out_of_order(r: &mut Reading<'_>, row: &Table<'_>, key: &str, usable: &str, mend: &str) {
    let place = format!("{}.{key}", row.place);
    let line = r.lines_of.get(&place).copied().unwrap_or(row.line);
    let got = r.typed.get(&place).cloned().unwrap_or_default();
    r.complain(line, &place, format!("\"{got}\""), usable, mend);
}
