//! The line through the job's bills, the heat loss it tells, and the survey beside it.

use axum::Json;
use axum::extract::State;
use jobfile::Carrier;
use plan::{Billed, Plan};
use review::{Band, Bills, By, Days, Note, YearOfDays};
use serde::Serialize;
use utoipa::ToSchema;

use super::refused;
use super::temperatures::{Measured, TemperaturesView, measured};
use crate::app::App;
use crate::caller::Caller;
use crate::given::Path;
use crate::making::Made;
use crate::refused::Refused;

/// A value with its 90 % band, SI.
#[derive(Debug, Clone, Copy, Serialize, ToSchema)]
pub struct BandView {
    /// Lower end.
    pub low: f64,
    /// Most likely.
    pub mid: f64,
    /// Upper end.
    pub high: f64,
}

impl BandView {
    /// None where an end is not a number: then the band says nothing.
    fn of(b: Band) -> Option<Self> {
        [b.low, b.mid, b.high]
            .into_iter()
            .all(f64::is_finite)
            .then_some(Self {
                low: b.low,
                mid: b.mid,
                high: b.high,
            })
    }
}

/// One bill against its line.
#[derive(Debug, Serialize, ToSchema)]
pub struct OnLineView {
    /// Beginning of the keys of its figures: `.used`, `.outdoor`, `.line`.
    pub key: String,
    /// First day.
    pub from: String,
    /// Day of the next reading.
    pub to: String,
    /// Mean use, W of what is bought.
    pub used_w: f64,
    /// Mean outdoor temperature, C; null where it was not known.
    pub outdoor_c: Option<f64>,
    /// What the line says, W; null where there is none.
    pub fitted_w: Option<f64>,
}

/// Bills of one carrier with their line.
#[derive(Debug, Serialize, ToSchema)]
pub struct BilledView {
    /// What was bought.
    pub carrier: String,
    /// The bills.
    pub bills: Vec<OnLineView>,
    /// `fit` to many bills, `fill to fill`; empty where there is no line.
    pub by: String,
    /// More when colder, W of what is bought per K; null where there is no line.
    pub slope_w_per_k: Option<BandView>,
    /// The same all year, W of what is bought.
    pub base_w: Option<BandView>,
    /// Outdoor temperature below which heating begins, C.
    pub balance_c: Option<BandView>,
    /// Why there is no line; empty where there is.
    pub cannot_tell: String,
    /// Rules of a usable fit that it does not meet, with how to mend it.
    pub short_of: Vec<String>,
    /// Remarks.
    pub notes: Vec<String>,
}

/// What would bring both sides together.
#[derive(Debug, Serialize, ToSchema)]
pub struct CloserView {
    /// `survey` or `bills`.
    pub side: String,
    /// What it is.
    pub what: String,
    /// It would have to be so many times what is said.
    pub factor: f64,
    /// seen, label, assumed.
    pub known: String,
    /// What would tell.
    pub would_tell: String,
}

/// What the bills say of the house.
#[derive(Debug, Serialize, ToSchema)]
pub struct BillsView {
    /// Revision of the job it was made from.
    pub revision: i64,
    /// Whether the temperatures were those of a typical year: then every band is wider.
    pub typical: bool,
    /// Where the temperatures of the bills' dates are from: files by name, the weather file of those
    /// dates, or its typical year; empty without bills.
    pub temperatures_from: String,
    /// Files of temperatures: those kept here and those the job names.
    pub temperatures: Vec<TemperaturesView>,
    /// Bills by carrier; empty where the job has none.
    pub carriers: Vec<BilledView>,
    /// Heat loss by the bills, W/K; null where they cannot tell.
    pub loss_w_per_k: Option<BandView>,
    /// Load at the design temperature by the bills, W; null where they cannot tell.
    pub load_w: Option<BandView>,
    /// Why there is no heat loss, and what would tell; empty where there is.
    pub cannot_tell: String,
    /// Heat loss of the survey through the same line, W/K.
    pub survey_w_per_k: Option<f64>,
    /// Load of the survey, W.
    pub survey_load_w: Option<f64>,
    /// Whether both agree: `holds`, `fails`, `cannot tell`; empty where one is missing.
    pub agree: String,
    /// What would bring both together, the least strain first.
    pub closers: Vec<CloserView>,
    /// Remarks.
    pub notes: Vec<String>,
}

fn told(why: &review::Refused) -> String {
    let mut out = format!("{}: {}", why.says, why.got);
    if !why.mend.is_empty() {
        out = format!("{out}; {}", why.mend);
    }
    out
}

/// What the bills of the job say: the line with its band, and the heat loss beside the survey's
#[utoipa::path(get, path = "/api/jobs/{id}/bills", tag = "bills", params(("id" = String, Path)),
    responses((status = 200, body = BillsView), (status = "default", body = Refused)))]
pub async fn bills(
    State(app): State<App>,
    caller: Caller,
    Path(id): Path<String>,
) -> Result<Json<BillsView>, Refused> {
    let made = crate::plans::made(&app, &caller, &id).await?;
    let measured = measured(&app, &caller.firm, &made.job, &id).await?;
    let view = app.desk.apart(move || of_job(&made, measured)).await?;
    Ok(Json(view?))
}

/// The line through the job's bills with its figures, and the remarks on the days.
struct Fitted {
    billed: Billed,
    book: reckon::Book,
    notes: Vec<String>,
    days_from: String,
    none: bool,
}

fn fitted(made: &Made, measured: &Measured) -> Result<Fitted, Refused> {
    let job = &made.job;
    let installed = review::installed(job);
    let mut sets: Vec<Bills> = Vec::new();
    for carrier in Carrier::ALL {
        let bills = Bills::of_job(job, carrier).map_err(refused)?;
        sets.extend(bills.and_then(|b| b.of_the_house(job, installed)));
    }
    let year = YearOfDays::from_weather(made.weather());
    let none = sets.is_empty();
    let station = made.weather().station.name.trim();
    let (days, days_from) = match &measured.days {
        Some(days) => (days.clone(), measured.words()),
        None => match Days::of_bills(made.weather(), &year, &sets) {
            (days, true) => (days, format!("{station}, of those dates")),
            (days, false) => (days, format!("a typical year of {station}")),
        },
    };
    let mut book = reckon::Book::new();
    let billed = plan::billed(job, &made.plan, sets, &days, &year, &mut book);
    Ok(Fitted {
        billed,
        book,
        notes: days.notes.iter().map(Note::to_string).collect(),
        days_from,
        none,
    })
}

/// What the `[[bill]]` entries of a job tell beside its plan.
pub fn billed(made: &Made, measured: &Measured) -> Result<Billed, Refused> {
    fitted(made, measured).map(|f| f.billed)
}

/// The plan with what the job's own bills tell in its book; as it is where they do not read.
pub fn with_bills(made: &Made, measured: &Measured) -> Plan {
    let mut plan = made.plan.clone();
    if let Ok(f) = fitted(made, measured) {
        plan.book.take_in(f.book);
    }
    plan
}

fn of_job(made: &Made, measured: Measured) -> Result<BillsView, Refused> {
    let job = &made.job;
    let Fitted {
        billed,
        notes: of_days,
        days_from,
        none,
        ..
    } = fitted(made, &measured)?;
    let mut notes = Vec::new();
    if !job.bill_files.is_empty() {
        notes.push(
            "The job names files of bills. They are read by the command beside the job file; to \
             have them here, read them in."
                .to_owned(),
        );
    }
    if !none && job.winters.wood_before_j.is_none() {
        notes.push(
            "The job does not say whether wood was burnt: none is counted. Ask; a cord is as much \
             as 150 gal of oil."
                .to_owned(),
        );
    }
    notes.extend(of_days);
    notes.extend(measured.notes);
    let mut view = view(made.revision, &billed, notes);
    view.temperatures = measured.files;
    if !none {
        view.temperatures_from = days_from;
    }
    Ok(view)
}

fn view(revision: i64, billed: &Billed, notes: Vec<String>) -> BillsView {
    let loss = billed.loss.as_ref();
    let r = billed.reconciled.as_ref();
    BillsView {
        revision,
        typical: billed.typical,
        temperatures_from: String::new(),
        temperatures: Vec::new(),
        carriers: billed.carriers.iter().map(carrier).collect(),
        loss_w_per_k: loss.ok().and_then(|l| BandView::of(l.loss_w_per_k)),
        load_w: loss.ok().and_then(|l| BandView::of(l.load_w)),
        cannot_tell: loss.err().map_or(String::new(), told),
        survey_w_per_k: billed.survey.as_ref().map(|s| s.loss_w_per_k),
        survey_load_w: billed.survey_load.map(|(w, _)| w),
        agree: r.map_or("", |r| r.verdict.words()).to_owned(),
        closers: r.map_or(Vec::new(), |r| {
            r.closers
                .iter()
                .take(4)
                .map(|c| CloserView {
                    side: c.side.word().to_owned(),
                    what: c.what.clone(),
                    factor: c.factor,
                    known: c.known.word().to_owned(),
                    would_tell: c.would_tell.clone(),
                })
                .collect()
        }),
        notes,
    }
}

fn carrier(c: &plan::BilledCarrier) -> BilledView {
    let iso = review::calendar::iso;
    let (fit, line) = (c.fit.as_ref().ok(), c.line.as_ref());
    let on_line = |p: &review::Period| {
        let o = fit.and_then(|f| f.observations.iter().find(|o| o.from == p.from));
        OnLineView {
            key: review::bill_key(&c.bills, p),
            from: iso(p.from),
            to: iso(p.to),
            used_w: p.mean_w(),
            outdoor_c: o.map(review::Observation::mean_c),
            fitted_w: fit.zip(o).map(|(f, o)| f.fitted_w(o)),
        }
    };
    BilledView {
        carrier: c.bills.carrier.word().to_owned(),
        bills: c.bills.periods.iter().map(on_line).collect(),
        by: match line.ok().map(|l| &l.by) {
            Some(By::Fit(_)) => "fit",
            Some(By::FillToFill { .. }) => "fill to fill",
            None => "",
        }
        .to_owned(),
        slope_w_per_k: line.ok().and_then(|l| BandView::of(l.slope_w_per_k)),
        base_w: line.ok().and_then(|l| BandView::of(l.base_w)),
        balance_c: line.ok().and_then(|l| BandView::of(l.balance_c)),
        cannot_tell: line.err().map_or(String::new(), told),
        short_of: c
            .complaints
            .iter()
            .map(|s| format!("{}; {}", s.says, s.mend))
            .collect(),
        notes: c
            .bills
            .notes
            .iter()
            .chain(&c.notes)
            .map(Note::to_string)
            .collect(),
    }
}
