//! The change-point model of bills, and how far its parameters may lie.

mod bands;
mod candidates;
mod solve;
mod uneven;

use crate::calendar::iso;
use crate::{Bills, Days, Note, Refused, student_quantile};
pub use bands::TYPICAL_SHARE;
pub use candidates::{Candidate, candidates};
use candidates::{Grid, best_of_kind, region};
use uneven::Uneven;

/// Rate at which a band holds the truth.
pub const RATE: f64 = 0.90;

/// Which branches a model has.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// The same every day.
    Base,
    /// More when colder.
    Heating,
    /// More when warmer.
    Cooling,
    /// Both.
    Both,
}

impl Kind {
    /// In words.
    pub fn word(self) -> &'static str {
        match self {
            Self::Base => "the same all year",
            Self::Heating => "more when colder",
            Self::Cooling => "more when warmer",
            Self::Both => "more when colder and when warmer",
        }
    }

    /// Coefficients and balance points.
    pub fn parameters(self) -> usize {
        match self {
            Self::Base => 1,
            Self::Heating | Self::Cooling => 3,
            Self::Both => 5,
        }
    }

    pub(crate) fn heats(self) -> bool {
        matches!(self, Self::Heating | Self::Both)
    }

    pub(crate) fn cools(self) -> bool {
        matches!(self, Self::Cooling | Self::Both)
    }
}

/// One bill beside its days.
#[derive(Debug, Clone, PartialEq)]
pub struct Observation {
    /// First day.
    pub from: i32,
    /// Day after the last.
    pub to: i32,
    /// Mean power, W.
    pub power_w: f64,
    /// Means of its days, C, those measured.
    pub days_c: Vec<f64>,
    /// Line it was read from.
    pub line: usize,
}

impl Observation {
    /// Weight: its days.
    pub fn days(&self) -> f64 {
        f64::from(self.to - self.from)
    }

    /// Mean of its days, C.
    pub fn mean_c(&self) -> f64 {
        self.days_c.iter().sum::<f64>() / self.days_c.len() as f64
    }
}

/// Least share of the days of a bill whose temperature must be known.
const LEAST_DAYS: f64 = 0.9;
/// Longest and shortest bill that is fitted, days; deliveries may be longer.
const LONGEST: i32 = 70;
const SHORTEST: i32 = 25;

/// Puts bills beside the temperatures of their days, and drops what must not be fitted.
///
/// A bill with fewer than 90 % of its days measured is dropped; of meters also what is shorter
/// than 25 days or longer than 70 days.
pub fn observations(bills: &Bills, days: &Days) -> (Vec<Observation>, Vec<Note>) {
    let mut notes = Vec::new();
    let mut out = Vec::new();
    for p in &bills.periods {
        let mut drop = |why: String| {
            notes.push(Note::new(
                Some(p.line),
                format!("{} to {} was not fitted: {why}", iso(p.from), iso(p.to)),
            ));
        };
        if !bills.deliveries && p.days() > LONGEST {
            drop(format!(
                "{} days without a true reading, more than {LONGEST}",
                p.days()
            ));
            continue;
        }
        if !bills.deliveries && !bills.from_days && p.days() < SHORTEST {
            drop(format!("{} days, fewer than {SHORTEST}", p.days()));
            continue;
        }
        let days_c = days.measured(p.from, p.to);
        if (days_c.len() as f64) < LEAST_DAYS * f64::from(p.days()) {
            drop(format!(
                "the temperature of {} of its {} days is known",
                days_c.len(),
                p.days()
            ));
            continue;
        }
        out.push(Observation {
            from: p.from,
            to: p.to,
            power_w: p.mean_w(),
            days_c,
            line: p.line,
        });
    }
    (out, notes)
}

/// A fitted model.
///
/// **Equation** `P = base + heating h(Th) + cooling c(Tc)`, h and c: degree days a day
///
/// **Symbols**
/// - P: mean power over a bill, W; weight: its days
/// - base: use that does not follow the weather, W
/// - heating, cooling: slopes, W/K
/// - Th, Tc: balance points, C; found by least squares over 30 to 90 F, first by 1 F for the
///   choice of branches, then by a quarter
///
/// **Range** more bills than parameters
///
/// **Source** `caltrack-2`, 3.3 and 3.4: usage a day against degree days of daily means, weights by
/// days, candidates qualify with slopes and base not below 0, the largest adjusted R2 is taken
///
/// **Example** a house that burns 100 W always and 200 W/K below 15 C
///
/// **Departures** the grid is refined to a quarter of a degree after the choice
#[derive(Debug, Clone, PartialEq)]
pub struct Fit {
    /// Branches.
    pub kind: Kind,
    /// Balance point of heating, C.
    pub heating_c: Option<f64>,
    /// Balance point of cooling, C.
    pub cooling_c: Option<f64>,
    /// Use that does not follow the weather, W.
    pub base_w: f64,
    /// More when colder, W/K; 0 without that branch.
    pub heating_w_per_k: f64,
    /// More when warmer, W/K; 0 without that branch.
    pub cooling_w_per_k: f64,
    /// Share of the variance that the model explains.
    pub r2: f64,
    /// R2 with the number of slopes counted.
    pub adjusted_r2: f64,
    /// Scatter over the mean, energies of bills, all parameters counted.
    pub cv_rmse: f64,
    /// Bias over the mean, energies of bills, all parameters counted.
    pub nmbe: f64,
    /// What was fitted.
    pub observations: Vec<Observation>,
    /// Whether the temperatures were those of a typical year, not of these dates.
    pub typical: bool,
    /// Grid points whose sum of squares is within the limit, with what bands need.
    region: Vec<Grid>,
    limit: f64,
    uneven: Option<Uneven>,
}

/// Fits bills. `cooling` allows a branch for heat taken out: electricity only.
///
/// # Errors
/// Fewer than 5 bills, or none with use.
pub fn fit(observations: Vec<Observation>, cooling: bool, typical: bool) -> Result<Fit, Refused> {
    let n = observations.len();
    if n < 5 {
        return Err(Refused::new(
            "there are too few bills to fit a line",
            format!("{n} usable"),
            "at least 5, of them 6 in the heating season for a heat loss",
            "give two winters; deliveries between full fills can stand for the heat loss with fewer",
        ));
    }
    let set = solve::Set::new(&observations);
    if set.mean_w().is_nan() || set.mean_w() <= 0.0 {
        return Err(Refused::new(
            "nothing was used",
            "0 in every bill",
            "use above 0",
            "is this the right meter?",
        ));
    }
    let chosen = candidates(&observations, cooling)
        .into_iter()
        .filter(|c| c.qualifies && n > c.kind.parameters())
        .max_by(|a, b| {
            a.adjusted_r2
                .total_cmp(&b.adjusted_r2)
                .then(b.kind.cmp(&a.kind))
        })
        .map_or(Kind::Base, |c| c.kind);
    let best = best_of_kind(&set, chosen).ok_or_else(|| {
        Refused::new(
            "no line fits these bills",
            format!("{n} bills"),
            "bills of warm and of cold months",
            "give a whole year",
        )
    })?;
    let p = chosen.parameters();
    let freedom = (n - p) as f64;
    let t = student_quantile(0.5 + RATE / 2.0, freedom);
    let limit = best.ssr * (1.0 + t * t / freedom);
    let region = region(&set, chosen, limit);
    let (sum_e, sum_r, sum_r2) = set.energies(&best);
    let mean_e = sum_e / n as f64;
    Ok(Fit {
        kind: chosen,
        heating_c: best.heating_c,
        cooling_c: best.cooling_c,
        base_w: best.base(),
        heating_w_per_k: best.slopes[0],
        cooling_w_per_k: best.slopes[1],
        r2: set.r2(best.ssr),
        adjusted_r2: set.adjusted_r2(best.ssr, chosen),
        cv_rmse: (sum_r2 / freedom).sqrt() / mean_e,
        nmbe: sum_r / (freedom * mean_e),
        uneven: Uneven::new(&observations, &best, chosen),
        observations,
        typical,
        region,
        limit,
    })
}
