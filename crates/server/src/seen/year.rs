//! The year as a field of hours.

use plan::Plan;
use season::Regime;
use serde::Serialize;
use utoipa::ToSchema;

/// Hours of the year, midnight of the first of January first. Whole W, tenths of C.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct YearView {
    /// Hours.
    pub hours: usize,
    /// `chosen` with the chosen units; `ideal` where none is chosen: what the house needs.
    pub run: String,
    /// Outdoor air, C; empty in the ideal run.
    pub outdoor_c: Vec<f64>,
    /// Heat into the house of each hour, all sources, W; below zero cooling (ideal run).
    pub heat_w: Vec<i32>,
    /// Of it by heads, W.
    pub heads_w: Vec<i32>,
    /// Of it by heaters beside them, W.
    pub heaters_w: Vec<i32>,
    /// Electricity of units and electric heaters, W.
    pub electric_w: Vec<i32>,
    /// What the unit with most to say does: index into `states`.
    pub state: Vec<u8>,
    /// How many units go on and off; empty in the ideal run.
    pub cycling: Vec<u8>,
    /// Words for `state`.
    pub states: Vec<String>,
    /// Heat the rooms are short of: hours in which a unit gives all it can and a heater helps, or
    /// no unit can give heat. 1 for each such hour.
    pub short: Vec<u8>,
}

/// The hours; none while the geometry does not read.
pub fn year(plan: &Plan) -> Option<YearView> {
    let whole = |v: &[f64]| v.iter().map(|w| w.round() as i32).collect::<Vec<i32>>();
    let states = Regime::ALL.map(|r| r.word().to_owned()).to_vec();
    if let Some(y) = plan.year() {
        let hours = y.outdoor_c.len();
        let state: Vec<u8> = (0..hours).map(|h| loudest(y, h)).collect();
        let at = |v: &[f64], h: usize| v.get(h).copied().unwrap_or(0.0);
        let short = (0..hours)
            .map(|h| {
                let s = state.get(h).copied().unwrap_or(0);
                let full = s == Regime::Full as u8 && at(&y.heaters_w, h) > 0.0;
                let none = [Regime::CutOut, Regime::CannotTell, Regime::SwitchedOff]
                    .iter()
                    .any(|r| s == *r as u8);
                u8::from(full || none)
            })
            .collect();
        return Some(YearView {
            hours,
            run: jobfile::CHOSEN.to_owned(),
            outdoor_c: y
                .outdoor_c
                .iter()
                .map(|c| (c * 10.0).round() / 10.0)
                .collect(),
            heat_w: whole(&y.heat_w()),
            heads_w: whole(&y.heads_w),
            heaters_w: whole(&y.heaters_w),
            electric_w: whole(&y.electric_w),
            state,
            cycling: (0..hours).map(|h| y.units_in(Regime::Cycling, h)).collect(),
            states,
            short,
        });
    }
    let ideal = plan.ideal.done()?;
    Some(YearView {
        hours: ideal.hourly_heat_w.len(),
        run: "ideal".to_owned(),
        outdoor_c: Vec::new(),
        heat_w: whole(&ideal.hourly_heat_w),
        heads_w: Vec::new(),
        heaters_w: Vec::new(),
        electric_w: Vec::new(),
        state: Vec::new(),
        cycling: Vec::new(),
        states,
        short: Vec::new(),
    })
}

/// Of several units the one with most to say.
fn loudest(year: &season::Year, hour: usize) -> u8 {
    let rank = |r: Regime| match r {
        Regime::Off => 0,
        Regime::Cooling => 1,
        Regime::Cycling => 2,
        Regime::Modulating => 3,
        Regime::Full => 4,
        Regime::SwitchedOff => 5,
        Regime::CutOut => 6,
        Regime::CannotTell => 7,
    };
    year.units
        .iter()
        .filter_map(|u| u.by_hour.get(hour).and_then(|n| Regime::from_number(*n)))
        .max_by_key(|r| rank(*r))
        .map_or(0, |r| r as u8)
}
