//! Before and after, in the same typical year: what a unit of electricity carried.

use jobfile::Carrier;
use reckon::Verdict;

use crate::{Band, Bills, Fit, YearOfDays, difference, product, quotient, sum};

/// Bills of one carrier, before and after, each fitted.
#[derive(Debug, Clone, PartialEq)]
pub struct Winters {
    /// What was bought.
    pub carrier: Carrier,
    /// Before the heat pump.
    pub before: Option<(Bills, Fit)>,
    /// After.
    pub after: Option<(Bills, Fit)>,
    /// Heat the house gets per energy bought, other than by the heat pump.
    pub efficiency: Band,
}

/// A carrier in the typical year.
#[derive(Debug, Clone, PartialEq)]
pub struct Normal {
    /// What.
    pub carrier: Carrier,
    /// All of it before, J.
    pub before_j: Band,
    /// All of it after, J.
    pub after_j: Band,
    /// What followed the cold before, J.
    pub heating_before_j: Band,
    /// What followed the cold after, J.
    pub heating_after_j: Band,
}

/// Something that cannot be told.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Untold {
    /// What cannot be told.
    pub what: String,
    /// Why.
    pub why: String,
    /// What would tell.
    pub would_tell: String,
}

/// What was promised, and whether it was kept.
#[derive(Debug, Clone, PartialEq)]
pub struct Promise {
    /// Seasonal COP of the plan.
    pub cop: f64,
    /// Kept, not kept, cannot tell.
    pub verdict: Verdict,
}

/// The review.
#[derive(Debug, Clone, PartialEq)]
pub struct Review {
    /// Carriers in the typical year.
    pub normal: Vec<Normal>,
    /// Heat that fuel gave before and no longer gives, J a typical year.
    pub moved_heat_j: Band,
    /// Electricity that follows the cold, more than before, J a typical year.
    pub more_electricity_j: Band,
    /// Heat moved over electricity, where it can be told.
    pub cop: Option<Band>,
    /// Share of the heat that fuel still gives, where it can be told.
    pub fuel_share: Option<Band>,
    /// Set against the plan.
    pub promise: Option<Promise>,
    /// What cannot be told.
    pub untold: Vec<Untold>,
}

/// What the person said.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Said {
    /// What else changed between; empty where nothing did.
    pub changed: Option<String>,
    /// Wood before and after, J a winter, where said.
    pub wood_j: (Option<f64>, Option<f64>),
    /// Electric backup has its own meter or there is none.
    pub backup_metered: bool,
    /// Seasonal COP of the plan.
    pub promised_cop: Option<f64>,
}

/// Fewest months after, in days.
const LEAST_AFTER_DAYS: f64 = 270.0;
/// Widest band of a COP that still says something: from end to end over its middle.
const WIDEST: f64 = 0.8;

fn untold(what: &str, why: impl Into<String>, would_tell: &str) -> Untold {
    Untold {
        what: what.to_owned(),
        why: why.into(),
        would_tell: would_tell.to_owned(),
    }
}

/// Reviews the second winter.
///
/// **Equation** `COP = sum(eta (Fb - Fa)) / (Ea - Eb)`
///
/// **Symbols**
/// - Fb, Fa: fuel that follows the cold in the typical year, before and after, J
/// - Eb, Ea: electricity that follows the cold, before and after, J
/// - eta: heat per fuel over a season
///
/// **Range** told only where the bands of both differences stay above 0; the band of the quotient
/// by `donner-zou-2012`, of differences and sums by `zou-donner-2008` (MOVER)
///
/// **Source** `trade-cards`, F28
///
/// **Example** 100 GJ of oil at 0.8 replaced by 30 GJ of electricity: 2.67
pub fn second_winter(winters: &[Winters], year: &YearOfDays, said: &Said) -> Review {
    let mut lacks = Vec::new();
    let mut normal = Vec::new();
    for w in winters {
        short_bills(w, &mut lacks);
        let of = |side: &Option<(Bills, Fit)>| {
            side.as_ref()
                .map_or((Band::exact(0.0), Band::exact(0.0)), |(_, fit)| {
                    fit.year(year)
                })
        };
        let ((before_j, heating_before_j), (after_j, heating_after_j)) =
            (of(&w.before), of(&w.after));
        normal.push(Normal {
            carrier: w.carrier,
            before_j,
            after_j,
            heating_before_j,
            heating_after_j,
        });
    }
    let mut moved = Vec::new();
    let mut still = Vec::new();
    let mut once = Vec::new();
    let mut more_electricity_j = Band::exact(0.0);
    for (w, n) in winters.iter().zip(&normal) {
        if w.carrier == Carrier::Electricity {
            more_electricity_j = difference(n.heating_after_j, n.heating_before_j);
            continue;
        }
        let heat =
            |b: Band| product(&[b, w.efficiency]).unwrap_or_else(|_| b.times(w.efficiency.mid));
        // the efficiency is the same before and after, so it multiplies the difference
        moved.push(heat(difference(n.heating_before_j, n.heating_after_j)));
        still.push(n.heating_after_j.times(w.efficiency.mid));
        once.push(n.heating_before_j.times(w.efficiency.mid));
    }
    let moved_heat_j = sum(&moved);
    said_and_lacking(winters, said, &mut lacks);
    let cop = told(moved_heat_j, more_electricity_j, &mut lacks);
    let fuel_share = fuel_share(&still, &once, said, &lacks);
    if winters.iter().any(|w| w.carrier == Carrier::Electricity) && !said.backup_metered {
        lacks.push(untold(
            "share of electric backup",
            "its use is on the same meter as the heat pump's",
            "A meter on the backup's circuit, or hourly readings of the coldest week.",
        ));
    }
    let promise = said.promised_cop.map(|promised| Promise {
        cop: promised,
        verdict: match cop {
            Some(b) if b.high < promised => Verdict::Fails,
            Some(b) if b.low >= promised * 0.9 => Verdict::Holds,
            _ => Verdict::CannotTell,
        },
    });
    Review {
        normal,
        moved_heat_j,
        more_electricity_j,
        cop,
        fuel_share,
        promise,
        untold: lacks,
    }
}

fn short_bills(w: &Winters, lacks: &mut Vec<Untold>) {
    for (side, word) in [(&w.before, "before"), (&w.after, "after")] {
        let Some((bills, fit)) = side else { continue };
        let days: f64 = fit.observations.iter().map(crate::Observation::days).sum();
        if days < LEAST_AFTER_DAYS {
            lacks.push(untold(
                "effective COP",
                format!("only {days:.0} days of {} {word}", w.carrier.word()),
                "Twelve months of bills on each side.",
            ));
        }
        if bills.behind_sun {
            lacks.push(untold(
                "effective COP",
                format!(
                    "the house's own sun is in no bill of {} {word}",
                    w.carrier.word()
                ),
                "The inverter's own count and the gross meter.",
            ));
        }
        if fit.typical {
            lacks.push(untold(
                "effective COP",
                format!("no temperatures of the days of {} {word}", w.carrier.word()),
                "Daily means of the nearest station for the months of the bills.",
            ));
        }
    }
}

fn said_and_lacking(winters: &[Winters], said: &Said, lacks: &mut Vec<Untold>) {
    let has = |c: fn(&Winters) -> bool| winters.iter().any(c);
    if !has(|w| w.carrier == Carrier::Electricity && w.before.is_some() && w.after.is_some()) {
        lacks.push(untold(
            "effective COP",
            "electricity bills of before or after are missing",
            "Twelve months of electricity bills before and twelve after.",
        ));
    }
    if !has(|w| w.carrier != Carrier::Electricity && w.before.is_some()) {
        lacks.push(untold(
            "effective COP",
            "bills of what heated before are missing",
            "The fuel bills or slips of the winter before.",
        ));
    }
    let nothing = |t: &str| {
        matches!(
            t.trim().to_lowercase().as_str(),
            "" | "nothing" | "none" | "no"
        )
    };
    if let Some(changed) = said.changed.as_deref().filter(|c| !nothing(c)) {
        lacks.push(untold(
            "effective COP",
            format!("something else changed too: {changed}"),
            "A year in which only the heating changed, or a heat meter.",
        ));
    }
    let (before, after) = (said.wood_j.0.unwrap_or(0.0), said.wood_j.1.unwrap_or(0.0));
    if (before - after).abs() > 0.2 * before.max(after) {
        lacks.push(untold(
            "effective COP",
            "the wood burnt was not the same in both winters",
            "Two winters with as much wood, or none.",
        ));
    }
}

fn told(heat: Band, electricity: Band, lacks: &mut Vec<Untold>) -> Option<Band> {
    if lacks.iter().any(|u| u.what == "effective COP") {
        return None;
    }
    if heat.low <= 0.0 {
        lacks.push(untold(
            "effective COP",
            "the band of the heat moved reaches to nothing",
            "Another winter of bills, with true readings.",
        ));
        return None;
    }
    if electricity.low <= 0.0 {
        lacks.push(untold(
            "effective COP",
            "the band of the electricity more than before reaches to nothing",
            "Another winter of bills, or a meter on the heat pump's circuit.",
        ));
        return None;
    }
    let cop = quotient(heat, electricity);
    match cop {
        Some(b) if (b.high - b.low) / b.mid <= WIDEST => Some(b),
        Some(b) => {
            lacks.push(untold(
                "effective COP",
                format!(
                    "the band is {:.2} to {:.2}, too wide to say anything",
                    b.low, b.high
                ),
                "Another winter of bills, or a meter on the heat pump's circuit.",
            ));
            None
        }
        None => {
            lacks.push(untold(
                "effective COP",
                "the bills scatter too much",
                "Another winter of bills, or a meter on the heat pump's circuit.",
            ));
            None
        }
    }
}

/// Fuel's heat after over its heat before: the house lost the same in the same typical year.
fn fuel_share(still: &[Band], once: &[Band], said: &Said, lacks: &[Untold]) -> Option<Band> {
    let blind = said.wood_j.0.is_some_and(|j| j > 0.0) || said.wood_j.1.is_some_and(|j| j > 0.0);
    if blind
        || lacks
            .iter()
            .any(|u| u.why.contains("days of") || u.why.contains("changed"))
    {
        return None;
    }
    quotient(sum(still), sum(once)).filter(|b| b.mid >= 0.0)
}
