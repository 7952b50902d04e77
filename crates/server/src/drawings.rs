//! Drawings of the plan as SVG, the same as the command writes.

use axum::extract::State;
use axum::http::header;
use axum::response::{IntoResponse, Response};
use jobfile::Job;
use plan::Plan;
use serde::Deserialize;
use units::System;
use utoipa::IntoParams;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::app::App;
use crate::caller::Caller;
use crate::given::{Path, Query};
use crate::plans::made;
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
    /// For a phone: in a column 360 px wide. `wall` and `side` have one, others stay as they are.
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

pub fn drawn(name: &str, plan: &Plan, job: &Job, system: System) -> Option<String> {
    match name {
        "storeys" => plan::draw::storeys(plan, job, system),
        "losses" => plan::draw::bars(plan, system),
        "capacity" => plan::draw::capacity(plan, plan.year()?, system),
        "year" => plan::draw::year(plan, plan.year(), system),
        "wall" => plan::draw::wall(plan, job, system),
        "side" => plan::draw::side(plan, job, system),
        _ => None,
    }
}

/// As [`drawn`], in a column where there is one.
fn in_column(name: &str, plan: &Plan, job: &Job, system: System) -> Option<String> {
    match name {
        "wall" => plan::draw::wall_column(plan, job, system),
        "side" => plan::draw::side_column(plan, job, system),
        _ => drawn(name, plan, job, system),
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
    let made = made(&app, &caller, &id).await?;
    let bare = name.strip_suffix(".svg").unwrap_or(&name);
    let system = Said::new(wanted.si).system;
    let of = if wanted.narrow { in_column } else { drawn };
    let svg = of(bare, &made.plan, &made.job, system).ok_or_else(|| {
        Refused::not_there("drawing", &crate::given::short(&name))
            .allowed(NAMES.map(|n| format!("{n}.svg")).join(", "))
            .mend("a drawing may wait for something: see what the plan waits for")
    })?;
    Ok(([(header::CONTENT_TYPE, "image/svg+xml")], svg).into_response())
}
