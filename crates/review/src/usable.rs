//! What must be so before bills may speak: rules that refuse, and rules that are told.

use crate::fit::{Fit, Kind};
use crate::{Bills, Refused};

/// Fewest bills of the heating season behind a heat loss.
pub const LEAST_HEATING_BILLS: usize = 6;
/// Least share of the variance that the line must explain behind a heat loss.
pub const LEAST_R2: f64 = 0.7;
/// Largest scatter over the mean of monthly bills.
pub const MOST_CV_RMSE: f64 = 0.15;
/// Largest bias over the mean of monthly bills.
pub const MOST_NMBE: f64 = 0.05;
/// Days of a baseline and the share of them that must be covered.
const YEAR: i32 = 365;
const COVERED: f64 = 0.9;

/// A rule that a fit does not meet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Complaint {
    /// Stable name.
    pub rule: &'static str,
    /// What is so.
    pub says: String,
    /// What would do.
    pub mend: String,
}

fn complaint(rule: &'static str, says: String, mend: &str) -> Complaint {
    Complaint {
        rule,
        says,
        mend: mend.to_owned(),
    }
}

/// What is short of the rules, though a line can be drawn.
///
/// **Equation** scatter `CV = sqrt(sum r2 / (n - p)) / mean` at most 15 %, bias `sum r / ((n - p)
/// mean)` at most 5 %; days covered at least 90 % of 365; no bill above `median + 3 (q3 - q1)`
///
/// **Symbols**
/// - r: residual of the energy of a bill; n, p: bills and parameters
/// - q1, q3: quartiles of the use a day
///
/// **Range** monthly bills
///
/// **Source** `ashrae-guideline-14`, limits for monthly data; `caltrack-2`, 2.2.1 and 2.3.6
///
/// **Example** twelve months of gas with 16 % scatter: one complaint
pub fn complaints(bills: &Bills, fit: &Fit) -> Vec<Complaint> {
    let mut out = Vec::new();
    if fit.kind != Kind::Base && fit.cv_rmse > MOST_CV_RMSE {
        out.push(complaint(
            "scatter",
            format!(
                "the bills scatter {:.0} % about the line; {:.0} % is the most for monthly bills",
                fit.cv_rmse * 100.0,
                MOST_CV_RMSE * 100.0
            ),
            "ask what changed: guests, wood, a room shut; give readings instead of estimates",
        ));
    }
    if fit.nmbe.abs() > MOST_NMBE {
        out.push(complaint(
            "bias",
            format!("the line is off by {:.1} % in the sum", fit.nmbe * 100.0),
            "bills are missing where the line is pulled: give them all",
        ));
    }
    let days: f64 = fit.observations.iter().map(crate::Observation::days).sum();
    if days < COVERED * f64::from(YEAR) {
        out.push(complaint(
            "less-than-a-year",
            format!("{days:.0} days are covered, less than nine tenths of a year"),
            "give twelve months, so that summer shows what does not heat",
        ));
    }
    if !fit.balance_is_held() {
        out.push(complaint(
            "balance-open",
            "the bills do not hold the balance point: it may lie outside 30 to 90 F".to_owned(),
            "give bills of milder months",
        ));
    }
    for line in extreme(fit) {
        out.push(complaint(
            "extreme-bill",
            format!("the bill of line {line} is far above all others"),
            "look at it: two months on one bill, a wrong digit, a catch-up after estimates",
        ));
    }
    if bills.behind_sun {
        out.push(complaint(
            "behind-sun",
            "the house makes electricity that is on no bill".to_owned(),
            "give the gross meter or the inverter's own count",
        ));
    }
    out
}

/// Lines of bills far above the others.
fn extreme(fit: &Fit) -> Vec<usize> {
    let mut use_w: Vec<f64> = fit.observations.iter().map(|o| o.power_w).collect();
    use_w.sort_by(f64::total_cmp);
    let at = |share: f64| -> f64 {
        let place = share * (use_w.len().saturating_sub(1)) as f64;
        let (low, high) = (place.floor() as usize, place.ceil() as usize);
        let of = |i: usize| use_w.get(i).copied().unwrap_or(0.0);
        of(low) + (of(high) - of(low)) * (place - place.floor())
    };
    let limit = at(0.5) + 3.0 * (at(0.75) - at(0.25));
    let far = fit.observations.iter().filter(|o| o.power_w > limit);
    far.map(|o| o.line).collect()
}

/// Whether a fit may speak of heat loss.
///
/// # Errors
/// No branch that heats, fewer than six bills of the heating season, an R2 below 0.7, sun behind
/// the meter.
pub fn speaks_of_heat(bills: &Bills, fit: &Fit) -> Result<(), Refused> {
    let word = bills.carrier.word();
    if bills.behind_sun {
        return Err(Refused::new(
            format!("the bills of {word} hide what the house made for itself"),
            "net metering",
            "gross use",
            "give the inverter's own count and the gross meter",
        ));
    }
    if !fit.kind.heats() {
        return Err(Refused::new(
            format!("the use of {word} does not follow the cold"),
            fit.kind.word(),
            "more use when colder",
            "is this what heats the house? If so, bills of cold months are missing",
        ));
    }
    if fit.r2 < LEAST_R2 {
        return Err(Refused::new(
            format!("the cold explains too little of the use of {word}"),
            format!("{:.0} % of the variance", fit.r2 * 100.0),
            format!("at least {:.0} %", LEAST_R2 * 100.0),
            "ask about wood, plug-in heaters, guests, months away; give true readings",
        ));
    }
    let heating = fit.heating_periods();
    if heating < LEAST_HEATING_BILLS {
        return Err(Refused::new(
            format!("too few bills of {word} lie in the heating season"),
            format!("{heating}"),
            format!("at least {LEAST_HEATING_BILLS}"),
            "give two winters, or the dealer's slips of all fills",
        ));
    }
    Ok(())
}
