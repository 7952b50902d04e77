//! Drawings of the plan as SVG, the same as the command writes.

use axum::extract::State;
use axum::http::header;
use axum::response::{IntoResponse, Response};
use jobfile::Job;
use plan::Plan;
use serde::Deserialize;
use utoipa::IntoParams;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::app::App;
use crate::caller::Caller;
use crate::given::{Path, Query};
use crate::plans::said;
use crate::refused::Refused;
use crate::seen::Said;

const NAMES: [&str; 6] = ["storeys", "losses", "capacity", "year", "wall", "side"];

/// How a drawing is wanted.
#[derive(Debug, Clone, Copy, Default, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub struct Wanted {
    /// SI units in the texts instead of US customary.
    #[serde(default)]
    pub si: bool,
    /// For a phone: in a column 360 px wide. `losses` stays as it is.
    #[serde(default)]
    pub narrow: bool,
}

pub fn routes() -> OpenApiRouter<App> {
    OpenApiRouter::new().routes(routes!(drawing))
}

/// Names of the drawings a plan may have; one of them may still wait for something.
pub fn there_are(plan: &Plan) -> Vec<String> {
    let all = [
        plan.model.done().is_some(),
        plan.loads.done().is_some(),
        plan.year().is_some(),
        plan.ideal.done().is_some(),
        plan.install.done().is_some(),
        plan.install.done().is_some(),
    ];
    let there = NAMES.iter().zip(all).filter(|(_, there)| *there);
    there.map(|(name, _)| (*name).to_owned()).collect()
}

/// A drawing by its name; none where there is no such, or it waits for something.
pub fn drawn(name: &str, plan: &Plan, job: &Job, wanted: Wanted) -> Option<String> {
    use plan::draw;
    let system = Said::new(wanted.si).system;
    match (name, wanted.narrow) {
        ("storeys", false) => draw::storeys(plan, job, system),
        ("storeys", true) => draw::storeys_column(plan, job, system),
        ("losses", _) => draw::bars(plan, system),
        ("capacity", false) => draw::capacity(plan, plan.year()?, system),
        ("capacity", true) => draw::capacity_column(plan, plan.year()?, system),
        ("year", false) => draw::year(plan, plan.year(), system),
        ("year", true) => draw::year_column(plan, plan.year(), system),
        ("wall", false) => draw::wall(plan, job, system),
        ("wall", true) => draw::wall_column(plan, job, system),
        ("side", false) => draw::side(plan, job, system),
        ("side", true) => draw::side_column(plan, job, system),
        _ => None,
    }
}

/// A drawing: storeys, losses, capacity, year, wall or side, with `.svg`
#[utoipa::path(get, path = "/api/jobs/{id}/drawing/{name}", tag = "plan",
    params(("id" = String, Path), ("name" = String, Path, example = "storeys.svg"), Wanted),
    responses((status = 200, content_type = "image/svg+xml", body = String),
        (status = "default", body = Refused)))]
async fn drawing(
    State(app): State<App>,
    caller: Caller,
    Path((id, name)): Path<(String, String)>,
    Query(wanted): Query<Wanted>,
) -> Result<Response, Refused> {
    let made = said(&app, &caller, &id, wanted.si).await?;
    let bare = name.strip_suffix(".svg").unwrap_or(&name);
    let svg = drawn(bare, &made.plan, &made.job, wanted).ok_or_else(|| {
        Refused::not_there("drawing", &crate::given::short(&name))
            .allowed(NAMES.map(|n| format!("{n}.svg")).join(", "))
            .mend("a drawing may wait for something: see what the plan waits for")
    })?;
    Ok(([(header::CONTENT_TYPE, "image/svg+xml")], svg).into_response())
}
