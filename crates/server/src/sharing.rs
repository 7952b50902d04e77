//! A link for the homeowner: what the house loses and what is planned, nothing of the firm's own;
//! it can be withdrawn.

use axum::Json;
use axum::extract::State;
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::app::App;
use crate::caller::{Caller, Right};
use crate::drawings::{Wanted, drawn};
use crate::given::{Given, Path, Query};
use crate::hashing;
use crate::plans::Units;
use crate::refused::Refused;
use crate::seen::{OptionRow, PlanView, RoomView, StoreyView, WallView, WindowView};

const DAY_MS: i64 = 86_400_000;
/// Drawings a homeowner sees.
const SHOWN: [&str; 3] = ["storeys", "capacity", "year"];

/// How long a link is to hold.
#[derive(Debug, Deserialize, ToSchema)]
pub struct NewLink {
    /// Days, 1 to 400.
    pub days: u16,
}

/// A new link. The token is shown once; only its hash is kept.
#[derive(Debug, Serialize, ToSchema)]
pub struct LinkMade {
    /// Id, to withdraw it.
    pub id: String,
    /// Path to open on this server.
    pub path: String,
    /// Until when, RFC 3339.
    pub until: String,
}

/// A link.
#[derive(Debug, Serialize, ToSchema)]
pub struct LinkView {
    /// Id.
    pub id: String,
    /// When it was made.
    pub made: String,
    /// By whom.
    pub made_by: String,
    /// Until when.
    pub until: String,
    /// When it was withdrawn.
    pub withdrawn: Option<String>,
}

/// What a homeowner sees.
#[derive(Debug, Serialize, ToSchema)]
pub struct SharedView {
    /// Name of the job.
    pub job: String,
    /// How far it is.
    pub stage: String,
    /// `us` or `si`.
    pub units: String,
    /// Headline in words.
    pub lines: Vec<crate::seen::Line>,
    /// Storeys.
    pub storeys: Vec<StoreyView>,
    /// Rooms with what they lose.
    pub rooms: Vec<RoomView>,
    /// Outside walls.
    pub walls: Vec<WallView>,
    /// Windows.
    pub windows: Vec<WindowView>,
    /// What heats now, what is chosen, and the options.
    pub options: Vec<OptionRow>,
    /// Drawings, for `/api/shared/{token}/drawing/{name}.svg`.
    pub drawings: Vec<String>,
    /// What applies before this program.
    pub caution: String,
}

pub fn routes() -> OpenApiRouter<App> {
    OpenApiRouter::new()
        .routes(routes!(links, make_link))
        .routes(routes!(withdraw))
        .routes(routes!(shared))
        .routes(routes!(shared_drawing))
}

/// Makes a link for the homeowner
#[utoipa::path(post, path = "/api/jobs/{id}/links", tag = "sharing", params(("id" = String, Path)),
    request_body = NewLink,
    responses((status = 201, body = LinkMade), (status = "default", body = Refused)))]
async fn make_link(
    State(app): State<App>,
    caller: Caller,
    Path(job): Path<String>,
    Given(given): Given<NewLink>,
) -> Result<(StatusCode, Json<LinkMade>), Refused> {
    caller.may(Right::Change)?;
    if !(1..=400).contains(&given.days) {
        return Err(Refused::bad("a link holds for a time")
            .got(given.days.to_string())
            .allowed("1 to 400 days"));
    }
    let (token, who) = (hashing::token()?, caller.who(None));
    let id = hashing::id()?;
    let ends = store::now_ms() + i64::from(given.days) * DAY_MS;
    let hash = hashing::of_token(&token);
    app.store
        .make_link(&caller.firm, &job, (&id, &hash, &who), ends)
        .await?;
    app.store
        .note(&caller.firm, &who, "made a link for the homeowner", &job)
        .await?;
    Ok((
        StatusCode::CREATED,
        Json(LinkMade {
            id,
            path: format!("/shared/{token}"),
            until: store::written(ends),
        }),
    ))
}

/// Links of a job
#[utoipa::path(get, path = "/api/jobs/{id}/links", tag = "sharing", params(("id" = String, Path)),
    responses((status = 200, body = Vec<LinkView>), (status = "default", body = Refused)))]
async fn links(
    State(app): State<App>,
    caller: Caller,
    Path(job): Path<String>,
) -> Result<Json<Vec<LinkView>>, Refused> {
    caller.may(Right::Change)?;
    let all = app.store.links(&caller.firm, &job).await?;
    Ok(Json(
        all.into_iter()
            .map(|l| LinkView {
                id: l.id,
                made: store::written(l.made),
                made_by: l.made_by,
                until: store::written(l.ends),
                withdrawn: l.withdrawn.map(store::written),
            })
            .collect(),
    ))
}

/// Withdraws a link: it opens nothing from this moment on
#[utoipa::path(delete, path = "/api/jobs/{id}/links/{link}", tag = "sharing",
    params(("id" = String, Path), ("link" = String, Path)),
    responses((status = 204), (status = "default", body = Refused)))]
async fn withdraw(
    State(app): State<App>,
    caller: Caller,
    Path((job, link)): Path<(String, String)>,
) -> Result<StatusCode, Refused> {
    caller.may(Right::Change)?;
    app.store.withdraw(&caller.firm, &job, &link).await?;
    app.store
        .note(&caller.firm, &caller.who(None), "withdrew a link", &job)
        .await?;
    Ok(StatusCode::NO_CONTENT)
}

async fn made(
    app: &App,
    token: &str,
    si: bool,
) -> Result<std::sync::Arc<crate::making::Made>, Refused> {
    app.pace.request("a link")?;
    let (firm, job) = app.store.linked(&hashing::of_token(token)).await?;
    let row = app.store.job(&firm, &job).await?;
    app.desk.said(app.desk.whole(&row).await?, si).await
}

/// What the homeowner sees, with the token of a link that holds
#[utoipa::path(get, path = "/api/shared/{token}", tag = "sharing",
    params(("token" = String, Path), Units),
    responses((status = 200, body = SharedView), (status = "default", body = Refused)))]
async fn shared(
    State(app): State<App>,
    Path(token): Path<String>,
    Query(units): Query<Units>,
) -> Result<Json<SharedView>, Refused> {
    let made = made(&app, &token, units.si).await?;
    let whole = PlanView::new(&made.plan, &made.job, made.revision, &[], units.si);
    Ok(Json(SharedView {
        job: whole.job,
        stage: whole.stage,
        units: whole.units,
        lines: whole.headline.lines,
        storeys: whole.storeys,
        rooms: whole.rooms,
        walls: whole.walls,
        windows: whole.windows,
        options: crate::seen::options(&made.plan),
        drawings: whole
            .drawings
            .into_iter()
            .filter(|d| SHOWN.contains(&d.as_str()))
            .collect(),
        caution: whole.caution,
    }))
}

/// A drawing for the homeowner
#[utoipa::path(get, path = "/api/shared/{token}/drawing/{name}", tag = "sharing",
    params(("token" = String, Path), ("name" = String, Path), Wanted),
    responses((status = 200, content_type = "image/svg+xml", body = String),
        (status = "default", body = Refused)))]
async fn shared_drawing(
    State(app): State<App>,
    Path((token, name)): Path<(String, String)>,
    Query(wanted): Query<Wanted>,
) -> Result<Response, Refused> {
    let made = made(&app, &token, wanted.si).await?;
    let bare = name.strip_suffix(".svg").unwrap_or(&name);
    let svg = Some(bare)
        .filter(|n| SHOWN.contains(n))
        .and_then(|n| drawn(n, &made.plan, &made.job, wanted));
    let svg = svg.ok_or_else(|| Refused::not_there("drawing", &crate::given::short(&name)))?;
    Ok(([(header::CONTENT_TYPE, "image/svg+xml")], svg).into_response())
}
