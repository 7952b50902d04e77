//! The stage of the bills: lines, heat loss, and the survey beside it.

use std::borrow::Cow;

use house::loads::Through;
use jobfile::{Carrier, Job};
use reckon::{Book, Figure, Known, Source};
use review::{
    Bills, By, Complaint, Days, Fit, HeatLoss, Line, LossAsked, Note, Reconciled, Refused, Survey,
    SurveyPart, YearOfDays,
};
use units::Dim;

use crate::Plan;

/// Bills of one carrier with their line.
#[derive(Debug, Clone)]
pub struct BilledCarrier {
    /// The bills.
    pub bills: Bills,
    /// The fit, or why there is none.
    pub fit: Result<Fit, Refused>,
    /// The line that speaks of heat, or why it does not.
    pub line: Result<Line, Refused>,
    /// Rules that the fit does not meet.
    pub complaints: Vec<Complaint>,
    /// Remarks on bills that were not fitted.
    pub notes: Vec<Note>,
}

/// What the bills say of the house.
#[derive(Debug, Clone)]
pub struct Billed {
    /// Carriers in the order given.
    pub carriers: Vec<BilledCarrier>,
    /// Heat loss, or why there is none.
    pub loss: Result<HeatLoss, Refused>,
    /// The same line through the plan's own year.
    pub of_plan: Option<Fit>,
    /// The survey's side.
    pub survey: Option<Survey>,
    /// Both sides.
    pub reconciled: Option<Reconciled>,
    /// Indoor less outdoor on the design night, K.
    pub across_k: Option<f64>,
    /// Load of the survey, W, and its loss per degree on the design night, W/K.
    pub survey_load: Option<(f64, f64)>,
    /// Whether the temperatures were those of a typical year.
    pub typical: bool,
}

/// Fits one carrier's bills.
pub fn billed_carrier(bills: Bills, days: &Days, hot_water: bool) -> BilledCarrier {
    let (seen, notes) = review::observations(&bills, days);
    let fit = review::fit(
        seen.clone(),
        bills.carrier == Carrier::Electricity,
        days.typical,
    );
    let fitted = fit.as_ref().map_err(Clone::clone);
    let line = fitted.and_then(|f| Line::of_fit(&bills, f)).or_else(|why| {
        if bills.deliveries
            && !bills.behind_sun
            && fit
                .as_ref()
                .map_or(true, |f| f.heating_periods() < review::LEAST_HEATING_BILLS)
        {
            let line = Line::of_fills(&seen, hot_water)?;
            Ok(if days.typical {
                line.on_typical_days()
            } else {
                line
            })
        } else {
            Err(why)
        }
    });
    let complaints = fit
        .as_ref()
        .map_or(Vec::new(), |f| review::complaints(&bills, f));
    BilledCarrier {
        bills,
        fit,
        line,
        complaints,
        notes,
    }
}

/// Puts the bills beside the plan. `sets` are bills of before a heat pump heated; figures go into
/// the book.
pub fn billed(
    job: &Job,
    plan: &Plan,
    sets: Vec<Bills>,
    days: &Days,
    year: &YearOfDays,
    book: &mut Book,
) -> Billed {
    let hot_water = |c: Carrier| {
        job.existing
            .as_ref()
            .is_some_and(|h| h.hot_water && h.carrier == c)
    };
    let carriers: Vec<BilledCarrier> = sets
        .into_iter()
        .map(|b| {
            let water = hot_water(b.carrier);
            billed_carrier(b, days, water)
        })
        .collect();
    let loads = plan.loads.done();
    let across_k = loads
        .filter(|l| l.heating.loss_w_per_k > 0.0)
        .map(|l| l.heating.heat_w / l.heating.loss_w_per_k);
    let design_c = plan.site.heating.used_c;
    let lines: Vec<(Carrier, Line)> = carriers
        .iter()
        .filter_map(|c| Some((c.bills.carrier, c.line.as_ref().ok()?.clone())))
        .collect();
    let asked = LossAsked {
        heater: job.existing.as_ref(),
        wood_j: job.winters.wood_before_j,
        // without a survey: rooms at 20 C
        across_k: across_k.unwrap_or(20.0 - design_c),
        design_c,
        year,
    };
    let loss = if lines.is_empty() {
        Err(carriers
            .iter()
            .find_map(|c| c.line.as_ref().err().cloned())
            .unwrap_or_else(no_bills))
    } else {
        review::heat_loss(lines, &asked)
    };
    // a formula that does not read is a defect; the numbers stand without their why
    for c in &carriers {
        let drawn = c.line.as_ref().is_ok_and(|l| matches!(l.by, By::Fit(_)));
        let _ = review::write_bills(&c.bills, c.fit.as_ref().ok(), drawn, book);
    }
    if let Ok(loss) = &loss {
        let _ = review::write_loss(loss, asked.across_k, book);
    }
    let of_plan = heat_w(plan).and_then(|w| review::fit_of_hours(&w, year).ok());
    let survey = of_plan
        .as_ref()
        .filter(|f| f.heating_w_per_k > 0.0)
        .map(|f| survey(job, plan, f));
    if let Some(survey) = &survey {
        book.put(Figure {
            key: "bills.survey".to_owned(),
            what: "heat loss of the survey, drawn as through bills".to_owned(),
            value: survey.loss_w_per_k,
            dim: Dim::Conductance,
            formula: "over the year: the same line, through the days of the plan's own year with what heats now".into(),
            inputs: Vec::new(),
            source: Source::new("caltrack-2", "3.3 and 3.4"),
            known: None,
        });
    }
    let reconciled = match (&survey, &loss) {
        (Some(s), Ok(l)) => Some(review::reconcile(s, l)),
        _ => None,
    };
    Billed {
        loss,
        of_plan,
        survey,
        reconciled,
        across_k,
        survey_load: loads.map(|l| (l.heating.heat_w, l.heating.loss_w_per_k)),
        typical: days.typical,
        carriers,
    }
}

/// Heat of each hour that the bills of the house as it is would show, W: with what heats it now,
/// and where nothing does, what it needs.
fn heat_w(plan: &Plan) -> Option<Cow<'_, [f64]>> {
    let now = plan.season.done().and_then(|s| s.baseline.as_ref());
    match now {
        Some(now) => Some(now.heat_w().into()),
        None => plan.ideal.done().map(|y| y.hourly_heat_w.as_slice().into()),
    }
}

fn no_bills() -> Refused {
    Refused {
        line: None,
        says: "no bill was given".to_owned(),
        got: "none".to_owned(),
        usable: "[[bills]] or [[bill]] in the job, or --bills FILE".to_owned(),
        mend: "ask the owner for a winter's bills of what heats the house".to_owned(),
    }
}

/// The survey's parts as shares of the line through its own year.
fn survey(job: &Job, plan: &Plan, of_plan: &Fit) -> Survey {
    let mut parts: Vec<(Through, f64)> = Vec::new();
    let rooms = plan
        .loads
        .done()
        .map_or(&[][..], |l| l.heating.rooms.as_slice());
    for p in rooms.iter().flat_map(|r| &r.parts) {
        match parts.iter_mut().find(|(t, _)| *t == p.through) {
            Some((_, w)) => *w += p.heat_w,
            None => parts.push((p.through, p.heat_w)),
        }
    }
    let all: f64 = parts.iter().map(|(_, w)| w).sum();
    let total = of_plan.heating_w_per_k;
    Survey {
        loss_w_per_k: total,
        balance_c: of_plan.heating_c,
        parts: parts
            .into_iter()
            // heat between rooms cancels
            .filter(|(t, w)| *t != Through::Inner && *w > 0.0)
            .map(|(t, w)| {
                let (place, known) = known_of(job, t);
                SurveyPart {
                    what: t.word().to_owned(),
                    place,
                    loss_w_per_k: total * w / all,
                    known,
                    leaks: matches!(t, Through::Leaks),
                }
            })
            .collect(),
    }
}

/// Place and knowledge of what a kind of loss rests on: the weakest of its values.
fn known_of(job: &Job, through: Through) -> (String, Known) {
    let named = |path: &str| -> bool {
        let of = |word: &str| path.contains(word);
        match through {
            Through::Walls => of("construction.") && of("wall") && !of("basement"),
            Through::Windows => path.starts_with("window."),
            Through::Doors => path.starts_with("outer_door."),
            Through::Ceiling => of("construction.") && (of("ceiling") || of("roof") || of("attic")),
            Through::Floor => of("construction.") && of("floor"),
            Through::Ground => of("construction.") && (of("slab") || of("basement")),
            Through::Leaks => path == "leakage",
            Through::Fans => path.starts_with("vent"),
            Through::Inner => false,
        }
    };
    // later is weaker: seen, label, assumed
    job.given
        .iter()
        .filter(|g| named(&g.path))
        .max_by_key(|g| g.known)
        .map_or((String::new(), Known::Assumed), |g| {
            (g.path.clone(), g.known)
        })
}
