//! The load by the bills beside the load by the survey, and what would close a gap.

use reckon::{Known, Verdict};

use crate::{Band, HeatLoss};

/// One way out for heat as the survey has it.
#[derive(Debug, Clone, PartialEq)]
pub struct SurveyPart {
    /// In words: `ceiling and roof`.
    pub what: String,
    /// Place in the job: `construction.ceiling`.
    pub place: String,
    /// Loss, W/K.
    pub loss_w_per_k: f64,
    /// How the weakest of its values is known.
    pub known: Known,
    /// Whether it is air through leaks.
    pub leaks: bool,
}

/// The survey's side.
#[derive(Debug, Clone, PartialEq)]
pub struct Survey {
    /// Loss by the same line drawn through the plan's own year, W/K.
    pub loss_w_per_k: f64,
    /// Balance point of that line, C.
    pub balance_c: Option<f64>,
    /// Parts.
    pub parts: Vec<SurveyPart>,
}

/// Which side an assumption is on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// The survey.
    Survey,
    /// The bills.
    Bills,
}

impl Side {
    /// The word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Survey => "survey",
            Self::Bills => "bills",
        }
    }
}

/// An assumption that would close the gap by itself.
#[derive(Debug, Clone, PartialEq)]
pub struct Closer {
    /// Side.
    pub side: Side,
    /// What.
    pub what: String,
    /// Place in the job, where it has one.
    pub place: String,
    /// Factor on it that closes the gap.
    pub factor: f64,
    /// How it is known.
    pub known: Known,
    /// How far it must move over how well it is known: below 1 is easily so.
    pub strain: f64,
    /// What would tell.
    pub would_tell: String,
}

/// Both sides.
#[derive(Debug, Clone, PartialEq)]
pub struct Reconciled {
    /// Bills over survey.
    pub ratio: Band,
    /// Holds: they agree within 15 %. Fails: they do not, whatever the band. Cannot tell: the
    /// band reaches across.
    pub verdict: Verdict,
    /// Assumptions, least strained first.
    pub closers: Vec<Closer>,
}

/// Most by which bills and survey may differ and still agree.
pub const AGREE: f64 = 0.15;

/// Past this an assumption has no part in the gap.
const MOST_STRAIN: f64 = 8.0;

impl Closer {
    /// Share of the gap that it closes if it is as far off as it may be, at most 1.
    pub fn closes(&self) -> f64 {
        if self.strain <= 1.0 {
            1.0
        } else {
            1.0 / self.strain
        }
    }
}

/// How far a value known so may be off, as a share: half of a range that holds it nine times of
/// ten.
///
/// **Equation** a share by how it is known
///
/// **Symbols**
/// - known: seen, label, assumed; leaks: a test at 50 Pa says less of a winter night
///
/// **Range** the survey's parts
///
/// **Source** `common-practice`; `trade-cards`, step 3 (assumed R hidden as fact: 30 % of a load)
///
/// **Example** an assumed ceiling: 45 %
pub fn off_by(known: Known, leaks: bool) -> f64 {
    match (known, leaks) {
        (Known::Seen, true) => 0.30,
        (Known::Seen, false) => 0.15,
        (Known::Label, _) => 0.10,
        (Known::Assumed, true) => 0.60,
        (Known::Assumed, false) => 0.45,
    }
}

/// Sets the bills beside the survey.
///
/// **Equation** factor of a part that closes the gap by itself: `1 - (Hs - Hb) / q`; strain:
/// `|factor - 1| / off`
///
/// **Symbols**
/// - Hs, Hb: heat loss by survey and by bills, W/K; q: loss of the part, W/K
/// - off: how far the part may be off by how it is known
///
/// **Range** strains up to 8; a factor below 0: not even without that loss would the gap close
///
/// **Source** `trade-cards`, F6
///
/// **Example** 20 W/K too much in the survey and a ceiling of 50 W/K: a ceiling of 0.6 as much
pub fn reconcile(survey: &Survey, loss: &HeatLoss) -> Reconciled {
    let ratio = loss.loss_w_per_k.times(1.0 / survey.loss_w_per_k);
    let (low, high) = (1.0 - AGREE, 1.0 + AGREE);
    let verdict = if ratio.high < low || ratio.low > high {
        Verdict::Fails
    } else if (low..=high).contains(&ratio.mid) && ratio.share() <= 1.5 * AGREE {
        Verdict::Holds
    } else {
        Verdict::CannotTell
    };
    let gap = survey.loss_w_per_k - loss.loss_w_per_k.mid;
    let mut closers: Vec<Closer> = survey
        .parts
        .iter()
        .filter(|p| p.loss_w_per_k > 0.0)
        .map(|p| {
            let factor = 1.0 - gap / p.loss_w_per_k;
            Closer {
                side: Side::Survey,
                what: p.what.clone(),
                place: p.place.clone(),
                factor,
                known: p.known,
                strain: (factor - 1.0).abs() / off_by(p.known, p.leaks),
                would_tell: would_tell(p),
            }
        })
        .collect();
    let others: f64 = loss.loss_w_per_k.mid;
    for h in &loss.heats {
        let share = h.efficiency.share();
        if share <= 0.0 {
            continue;
        }
        let factor = 1.0 + gap / h.loss_w_per_k.mid;
        let needed = h.efficiency.mid * factor;
        if (0.3..=0.98).contains(&needed) {
            closers.push(Closer {
                side: Side::Bills,
                what: format!("what the heater gives of the {}", h.carrier.word()),
                place: "existing.efficiency".to_owned(),
                factor,
                known: Known::Label,
                strain: (factor - 1.0).abs() / share,
                would_tell:
                    "A year's fuel metered against heat delivered; a combustion test tells \
                             only the burning."
                        .to_owned(),
            });
        }
    }
    let rate = loss.heats.first().map_or(0.0, |h| {
        (h.line.slope_w_per_k.high - h.line.slope_w_per_k.low) / 2.0 * h.efficiency.mid
    });
    if rate > 0.0 && others > 0.0 {
        closers.push(Closer {
            side: Side::Bills,
            what: "scatter of the bills about their line".to_owned(),
            place: "bills".to_owned(),
            factor: 1.0 + gap / others,
            known: Known::Seen,
            strain: gap.abs() / rate,
            would_tell: "Another winter of bills with true readings.".to_owned(),
        });
    }
    closers.retain(|c| c.strain.is_finite() && c.strain <= MOST_STRAIN);
    closers.sort_by(|a, b| a.strain.total_cmp(&b.strain));
    Reconciled {
        ratio,
        verdict,
        closers,
    }
}

fn would_tell(part: &SurveyPart) -> String {
    if part.leaks {
        return "A blower door at several pressures, and a look at where the leaks are.".to_owned();
    }
    match part.known {
        Known::Assumed => "Looking at it: nobody has.",
        Known::Label => "The label again, and whether it is of this one.",
        Known::Seen => "A second hole, or an infrared look on a cold night.",
    }
    .to_owned()
}
