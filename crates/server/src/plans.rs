//! The plan of a job, its hours, and the why of its numbers.

use std::sync::Arc;

use axum::Json;
use axum::extract::State;
use axum::http::StatusCode;
use plan::{Leaf, NoFigure, Why};
use serde::{Deserialize, Serialize};
use utoipa::{IntoParams, ToSchema};
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::app::App;
use crate::caller::Caller;
use crate::given::{Path, Query};
use crate::making::Made;
use crate::refused::Refused;
use crate::seen::{OptionRow, PlanView, Said, YearView};

/// Which units the texts are in.
#[derive(Debug, Clone, Copy, Default, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub struct Units {
    /// SI units in the texts instead of US customary.
    #[serde(default)]
    pub si: bool,
}

/// A figure unfolded.
#[derive(Debug, Serialize, ToSchema)]
pub struct WhyView {
    /// Key.
    pub key: String,
    /// Symbol in the formula above; empty at the top.
    pub symbol: String,
    /// What it is.
    pub what: String,
    /// SI value; null where there is no number.
    pub value: Option<f64>,
    /// Kind of quantity.
    pub quantity: String,
    /// The value in the units asked for.
    pub shown: String,
    /// Formula in the symbols of the inputs, SI; empty for a given value.
    pub formula: String,
    /// Where formula or value comes from, in words.
    pub source: String,
    /// What it rests on: `job`, `sheet`, `weather`, `publication`.
    pub rests_on: String,
    /// Path in the job, where it rests on the job.
    pub path: Option<String>,
    /// Line of the job file, where it rests on one.
    pub line: Option<usize>,
    /// seen, label, assumed; null where it is computed.
    pub known: Option<String>,
    /// Unfolded further up already; its inputs are left out here.
    pub again: bool,
    /// Inputs.
    #[schema(no_recursion)]
    pub inputs: Vec<WhyView>,
}

/// A figure in a list.
#[derive(Debug, Serialize, ToSchema)]
pub struct FigureView {
    /// Key.
    pub key: String,
    /// What it is.
    pub what: String,
    /// SI value; null where there is no number.
    pub value: Option<f64>,
    /// The value in the units asked for.
    pub shown: String,
}

/// Figures whose keys begin so.
#[derive(Debug, Serialize, ToSchema)]
pub struct Figures {
    /// Figures in order of key, 500 at most.
    pub figures: Vec<FigureView>,
    /// How many more begin so.
    pub more: usize,
}

/// Choices side by side.
#[derive(Debug, Serialize, ToSchema)]
pub struct OptionsView {
    /// Revision of the job they were made from.
    pub revision: i64,
    /// What heats now, what is chosen, and the options.
    pub options: Vec<OptionRow>,
}

/// Beginning of keys.
#[derive(Debug, Default, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub struct Beginning {
    /// `loads.living`; empty for all.
    #[serde(default)]
    pub beginning: String,
    /// SI units in the texts.
    #[serde(default)]
    pub si: bool,
}

pub fn routes() -> OpenApiRouter<App> {
    OpenApiRouter::new()
        .routes(routes!(plan))
        .routes(routes!(year))
        .routes(routes!(options))
        .routes(routes!(why))
        .routes(routes!(figures))
}

/// The plan of a job as it stands.
pub async fn made(app: &App, caller: &Caller, id: &str) -> Result<Arc<Made>, Refused> {
    let row = app.store.job(&caller.firm, id).await?;
    app.desk.plan(&row).await
}

/// As [`made`], its findings in the units asked for.
pub async fn said(app: &App, caller: &Caller, id: &str, si: bool) -> Result<Arc<Made>, Refused> {
    app.desk.said(made(app, caller, id).await?, si).await
}

/// As [`made`], with the years of the options.
async fn whole(app: &App, caller: &Caller, id: &str) -> Result<Arc<Made>, Refused> {
    let row = app.store.job(&caller.firm, id).await?;
    app.desk.whole(&row).await
}

/// The plan: headline, findings, rooms with outlines and losses, walls, windows, doors, charts
#[utoipa::path(get, path = "/api/jobs/{id}/plan", tag = "plan", params(("id" = String, Path), Units),
    responses((status = 200, body = PlanView), (status = "default", body = Refused)))]
async fn plan(
    State(app): State<App>,
    caller: Caller,
    Path(id): Path<String>,
    Query(units): Query<Units>,
) -> Result<Json<PlanView>, Refused> {
    let made = said(&app, &caller, &id, units.si).await?;
    Ok(Json(PlanView::new(
        &made.plan,
        &made.job,
        made.revision,
        made.notes(),
        units.si,
    )))
}

/// The choices of equipment side by side: each with a year of its own, so it is asked for apart
#[utoipa::path(get, path = "/api/jobs/{id}/options", tag = "plan", params(("id" = String, Path)),
    responses((status = 200, body = OptionsView), (status = "default", body = Refused)))]
async fn options(
    State(app): State<App>,
    caller: Caller,
    Path(id): Path<String>,
) -> Result<Json<OptionsView>, Refused> {
    let made = whole(&app, &caller, &id).await?;
    Ok(Json(OptionsView {
        revision: made.revision,
        options: crate::seen::options(&made.plan),
    }))
}

/// Every hour of the year, for the field of hours
#[utoipa::path(get, path = "/api/jobs/{id}/year", tag = "plan", params(("id" = String, Path)),
    responses((status = 200, body = YearView), (status = "default", body = Refused)))]
async fn year(
    State(app): State<App>,
    caller: Caller,
    Path(id): Path<String>,
) -> Result<Json<YearView>, Refused> {
    let made = made(&app, &caller, &id).await?;
    crate::seen::year(&made.plan).map(Json).ok_or_else(|| {
        Refused::new(
            StatusCode::CONFLICT,
            "waits",
            "there is no year yet: the plan waits for something",
        )
        .mend("look at what the plan waits for")
    })
}

/// Formula, inputs and source of a number, unfolded down to the job file or the data sheet
#[utoipa::path(get, path = "/api/jobs/{id}/why/{key}", tag = "plan",
    params(("id" = String, Path), ("key" = String, Path, description = "Key of a figure"), Units),
    responses((status = 200, body = WhyView), (status = "default", body = Refused)))]
async fn why(
    State(app): State<App>,
    caller: Caller,
    Path((id, key)): Path<(String, String)>,
    Query(units): Query<Units>,
) -> Result<Json<WhyView>, Refused> {
    let mut made = made(&app, &caller, &id).await?;
    if key.starts_with("bills.") {
        let measured = crate::bills::measured(&app, &caller.firm, &made.job, &id).await?;
        let plan = app
            .desk
            .apart(move || crate::bills::with_bills(&made, &measured));
        return told(plan::why(&plan.await?, &key), &key, units).map(Json);
    }
    if plan::why(&made.plan, &key).is_err() {
        // it may be a figure of an option
        made = whole(&app, &caller, &id).await?;
    }
    told(plan::why(&made.plan, &key), &key, units).map(Json)
}

/// A why as it goes out; or that there is none, and what is near.
pub fn told(why: Result<Why, NoFigure>, key: &str, units: Units) -> Result<WhyView, Refused> {
    why.map(|tree| unfolded(&tree, Said::new(units.si)))
        .map_err(|none| {
            let near = none.beginning.into_iter().map(|b| b.0).chain(none.near);
            let near: Vec<String> = near.collect();
            let refused = Refused::not_there("figure", &crate::given::short(key));
            if near.is_empty() {
                refused
            } else {
                refused.mend(format!("near: {}", near.join(", ")))
            }
        })
}

fn unfolded(w: &Why, say: Said) -> WhyView {
    let quantity = serde_json::to_value(w.dim).ok();
    let (rests_on, path, line, source) = match &w.leaf {
        Leaf::Job { path, line } => ("job", Some(path.clone()), *line, path.clone()),
        Leaf::Sheet { place } => ("sheet", None, None, format!("data sheet, {place}")),
        Leaf::Weather { place } => ("weather", None, None, format!("weather, {place}")),
        Leaf::Publication { key, title, place } => {
            let title = if title.is_empty() { key } else { title };
            ("publication", None, None, format!("{title}, {place}"))
        }
    };
    WhyView {
        key: w.key.clone(),
        symbol: w.symbol.clone(),
        what: w.what.clone(),
        value: Some(w.value).filter(|v| v.is_finite()),
        quantity: quantity
            .and_then(|q| q.as_str().map(str::to_owned))
            .unwrap_or_default(),
        shown: say.figure(w.value, w.dim),
        formula: if w.holds_as_printed(say.system) {
            w.formula.clone()
        } else {
            format!("{}, in SI units", w.formula)
        },
        source,
        rests_on: rests_on.to_owned(),
        path,
        line,
        known: w.known.map(|k| k.word().to_owned()),
        again: w.again,
        inputs: w.inputs.iter().map(|i| unfolded(i, say)).collect(),
    }
}

/// Figures of the plan by the beginning of their key
#[utoipa::path(get, path = "/api/jobs/{id}/figures", tag = "plan", params(("id" = String, Path), Beginning),
    responses((status = 200, body = Figures), (status = "default", body = Refused)))]
async fn figures(
    State(app): State<App>,
    caller: Caller,
    Path(id): Path<String>,
    Query(asked): Query<Beginning>,
) -> Result<Json<Figures>, Refused> {
    const MOST: usize = 500;
    // only figures of the year are of options too
    let made = if asked.beginning.is_empty() || asked.beginning.starts_with("season") {
        whole(&app, &caller, &id).await?
    } else {
        made(&app, &caller, &id).await?
    };
    let say = Said::new(asked.si);
    let begin = || {
        made.plan
            .book
            .iter()
            .filter(|f| f.key.starts_with(&asked.beginning))
    };
    Ok(Json(Figures {
        figures: begin()
            .take(MOST)
            .map(|f| FigureView {
                key: f.key.clone(),
                what: f.what.clone(),
                value: Some(f.value).filter(|v| v.is_finite()),
                shown: say.figure(f.value, f.dim),
            })
            .collect(),
        more: begin().count().saturating_sub(MOST),
    }))
}
