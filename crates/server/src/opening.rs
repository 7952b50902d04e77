//! Charge and first run: what job and sheet ask, what was read, and the verdict. Kept in the same
//! chain of records as the tests; with `trial` it is judged and nothing is kept.

mod asked;
mod charge;
mod run;

use axum::Json;
use axum::extract::State;
use serde::Serialize;
use startup::caution::{Step, cautions};
use startup::record::{Chain, Record};
use utoipa::ToSchema;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::app::App;
use crate::caller::{Caller, Right};
use crate::given::{self, Given, Path};
use crate::refused::Refused;
use crate::tests::latest;
use asked::Asked;
pub use asked::UnitView;
pub use charge::{ChargeIn, ChargeView, LedgerView};
pub use run::{RunIn, RunView};

/// A test that must hold before the valves are opened: the last one of its kind.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct BeforeView {
    /// `pressure` or `vacuum`.
    pub what: String,
    /// `holds`, `fails`, `cannot tell`.
    pub verdict: String,
    /// Its name; null where none was begun.
    pub test: Option<String>,
}

/// Charge and first run of a job.
#[derive(Debug, Serialize, ToSchema)]
pub struct OpeningView {
    /// Outdoor units with what their sheets ask on the day; empty where job or catalogue name none.
    pub units: Vec<UnitView>,
    /// Why the list is empty or a unit is not in it.
    pub notes: Vec<String>,
    /// Tests that must hold first.
    pub before: Vec<BeforeView>,
    /// Cautions of charging.
    pub charge_cautions: Vec<String>,
    /// The release, step by step.
    pub release: Vec<String>,
    /// Cautions of the first run.
    pub run_cautions: Vec<String>,
    /// Weighings as they stand after corrections.
    pub charges: Vec<ChargeView>,
    /// Cylinders against systems; null before anything was weighed.
    pub ledger: Option<LedgerView>,
    /// Runs as they stand after corrections.
    pub runs: Vec<RunView>,
    /// Hash of the last record of the job.
    pub last_hash: String,
}

pub fn routes() -> OpenApiRouter<App> {
    OpenApiRouter::new()
        .routes(routes!(opening))
        .routes(routes!(charged))
        .routes(routes!(ran))
}

fn before(records: &[Record]) -> Vec<BeforeView> {
    ["pressure", "vacuum"]
        .into_iter()
        .map(|what| {
            let (test, verdict) = latest(records, what).unzip();
            BeforeView {
                what: what.to_owned(),
                verdict: verdict.unwrap_or_else(|| "cannot tell".to_owned()),
                test,
            }
        })
        .collect()
}

fn standing<'r>(chain: &'r Chain, kinds: &[&str]) -> Vec<&'r Record> {
    let all = chain.standing().into_iter();
    all.filter(|r| kinds.contains(&r.kind.as_str())).collect()
}

/// Charge and first run: what the sheets ask, what was weighed and read, and the verdicts
#[utoipa::path(get, path = "/api/jobs/{id}/opening", tag = "start-up", params(("id" = String, Path)),
    responses((status = 200, body = OpeningView), (status = "default", body = Refused)))]
async fn opening(
    State(app): State<App>,
    caller: Caller,
    Path(job): Path<String>,
) -> Result<Json<OpeningView>, Refused> {
    let asked = asked(&app, &caller, &job).await?;
    let records = app.store.records(&caller.firm, &job).await?;
    let burns = asked.units.iter().any(|u| u.view.burns);
    let own = |step| {
        cautions(step, burns)
            .into_iter()
            .map(str::to_owned)
            .collect()
    };
    let chain = Chain {
        records,
        unfinished: 0,
    };
    let charges: Vec<ChargeView> = standing(&chain, &["charge"])
        .into_iter()
        .filter_map(charge::kept)
        .collect();
    Ok(Json(OpeningView {
        before: before(&chain.records),
        charge_cautions: own(Step::Charge),
        release: startup::charge::release_steps().map(str::to_owned).to_vec(),
        run_cautions: own(Step::Run),
        ledger: charge::ledger(&charges),
        charges,
        runs: standing(&chain, &["run", "baseline"])
            .into_iter()
            .filter_map(run::kept)
            .collect(),
        last_hash: chain.last_hash().to_owned(),
        units: asked.units.into_iter().map(|u| u.view).collect(),
        notes: asked.notes,
    }))
}

async fn asked(app: &App, caller: &Caller, job: &str) -> Result<Asked, Refused> {
    let row = app.store.job(&caller.firm, job).await?;
    let job = jobfile::read(&row.text).map_err(Refused::unreadable)?;
    Asked::of(&job, app.desk.catalogue())
}

/// What is kept where it is no trial.
struct Kept<'a> {
    id: &'a str,
    trial: bool,
    at: startup::Stamp,
    who: String,
    corrects: Option<(u64, &'a str)>,
    kind: &'static [&'static str],
}

impl Kept<'_> {
    /// The number of the record; none for a trial. What is corrected must be of the same kind.
    async fn write(
        self,
        app: &App,
        caller: &Caller,
        job: &str,
        records: &[Record],
        kind: &str,
        says: serde_json::Value,
    ) -> Result<Option<u64>, Refused> {
        if self.trial {
            return Ok(None);
        }
        let id = given::id(self.id)?;
        if let Some((n, _)) = self.corrects {
            // the same again may come after it was kept: then its own record stands there
            let of_kind = |r: &Record| r.n == n && self.kind.contains(&r.kind.as_str());
            if !records.iter().any(of_kind) {
                return Err(
                    Refused::bad("corrects: this record is of another kind, or not there")
                        .got(n.to_string())
                        .allowed(format!(
                            "the number of a record of {}",
                            self.kind.join(" or ")
                        )),
                );
            }
        }
        let record = store::NewRecord {
            id: &id,
            at: self.at,
            who: &self.who,
            kind,
            says,
            corrects: self.corrects,
        };
        let kept = app.store.record(&caller.firm, job, &[record]).await?;
        Ok(kept.first().map(|k| k.n))
    }
}

/// Weighs in: the scale before and after against what the lines ask for
#[utoipa::path(post, path = "/api/jobs/{id}/charges", tag = "start-up", params(("id" = String, Path)),
    request_body = ChargeIn,
    responses((status = 200, body = ChargeView), (status = "default", body = Refused)))]
async fn charged(
    State(app): State<App>,
    caller: Caller,
    Path(job): Path<String>,
    Given(given): Given<ChargeIn>,
) -> Result<Json<ChargeView>, Refused> {
    caller.may(Right::Measure)?;
    let at = given::at(given.at.as_deref())?;
    let who = caller.who(given.who.as_deref());
    let asked = asked(&app, &caller, &job).await?;
    let records = app.store.records(&caller.firm, &job).await?;
    let mut view = charge::judged(
        &given,
        asked.one(&given.outdoor)?,
        at,
        &who,
        before(&records),
    )?;
    let keep = Kept {
        id: &given.id,
        trial: given.trial,
        at,
        who,
        corrects: given
            .corrects
            .map(|n| (n, given.why.as_deref().unwrap_or(""))),
        kind: &["charge"],
    };
    let says = charge::says(&view)?;
    view.n = keep
        .write(&app, &caller, &job, &records, "charge", says)
        .await?;
    Ok(Json(view))
}

/// A first run: readings against what the unit's own data expect of today
#[utoipa::path(post, path = "/api/jobs/{id}/runs", tag = "start-up", params(("id" = String, Path)),
    request_body = RunIn,
    responses((status = 200, body = RunView), (status = "default", body = Refused)))]
async fn ran(
    State(app): State<App>,
    caller: Caller,
    Path(job): Path<String>,
    Given(given): Given<RunIn>,
) -> Result<Json<RunView>, Refused> {
    caller.may(Right::Measure)?;
    let at = given::at(given.at.as_deref())?;
    let who = caller.who(given.who.as_deref());
    let asked = asked(&app, &caller, &job).await?;
    let (mut view, says) = run::judged(&given, asked.one(&given.outdoor_unit)?, at, &who)?;
    let records = app.store.records(&caller.firm, &job).await?;
    let keep = Kept {
        id: &given.id,
        trial: given.trial,
        at,
        who,
        corrects: given
            .corrects
            .map(|n| (n, given.why.as_deref().unwrap_or(""))),
        kind: &["run", "baseline"],
    };
    let kind = if given.accept { "baseline" } else { "run" };
    view.n = keep
        .write(&app, &caller, &job, &records, kind, says)
        .await?;
    Ok(Json(view))
}
