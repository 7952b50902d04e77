//! Jobs: the list, a new one, one with its text, its plain file, and taking one away.

use axum::Json;
use axum::extract::State;
use axum::http::{StatusCode, header};
use axum::response::IntoResponse;
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::app::App;
use crate::caller::{Caller, Right};
use crate::given::{self, Given, Path, line};
use crate::refused::Refused;

/// One line of the list.
#[derive(Debug, Serialize, ToSchema)]
pub struct JobLine {
    /// Id, as the client made it.
    pub id: String,
    /// Name.
    pub name: String,
    /// visit, estimate, ordered, installed, reviewed.
    pub stage: String,
    /// Revision, from 1.
    pub revision: i64,
    /// When it was last changed, RFC 3339.
    pub updated: String,
    /// Who changed it last.
    pub updated_by: String,
    /// Changes that wait for a person to decide.
    pub conflicts: i64,
}

/// All jobs, the one changed last first.
#[derive(Debug, Serialize, ToSchema)]
pub struct JobList {
    /// Jobs.
    pub jobs: Vec<JobLine>,
}

/// A new job.
#[derive(Debug, Deserialize, ToSchema)]
pub struct NewJob {
    /// UUID, version 7, made by the client. The same id again gives the job that is there.
    pub id: String,
    /// Text of a job file; or `template`.
    #[serde(default)]
    pub text: Option<String>,
    /// `first`: a plain box of a house with everything marked assumed; `example`: the invented
    /// house that ships.
    #[serde(default)]
    pub template: Option<String>,
    /// Name, with a template.
    #[serde(default)]
    pub name: Option<String>,
    /// Station or file of the weather, with a template.
    #[serde(default)]
    pub weather: Option<String>,
    /// When, by the client's clock, RFC 3339.
    #[serde(default)]
    pub at: Option<String>,
    /// Who, where nobody signs in.
    #[serde(default)]
    pub who: Option<String>,
}

/// A job with its text.
#[derive(Debug, Serialize, ToSchema)]
pub struct JobView {
    /// Id.
    pub id: String,
    /// Name.
    pub name: String,
    /// Stage.
    pub stage: String,
    /// Revision, from 1; goes up by one with each change that is kept.
    pub revision: i64,
    /// The job file as it stands: TOML with the person's comments and order.
    pub text: String,
    /// The same as a tree of values, as typed. Rows of lists are addressed from 1 in paths, or by
    /// name: `window.2.width`, `room.living.heated_to`.
    pub values: serde_json::Value,
    /// Path and line of every table and value of the job, by its dotted path.
    pub lines: std::collections::BTreeMap<String, usize>,
    /// When it was last changed, RFC 3339.
    pub updated: String,
    /// Who changed it last.
    pub updated_by: String,
    /// Changes held back because two people changed the same thing; a person decides.
    pub conflicts: Vec<crate::changes::ConflictView>,
}

pub fn routes() -> OpenApiRouter<App> {
    OpenApiRouter::new()
        .routes(routes!(jobs, new_job))
        .routes(routes!(job, delete_job))
        .routes(routes!(text, crate::changes::replace_text))
}

/// All jobs, the one changed last first
#[utoipa::path(get, path = "/api/jobs", tag = "jobs",
    responses((status = 200, body = JobList), (status = "default", body = Refused)))]
async fn jobs(State(app): State<App>, caller: Caller) -> Result<Json<JobList>, Refused> {
    let lines = app.store.jobs(&caller.firm).await?;
    Ok(Json(JobList {
        jobs: lines
            .into_iter()
            .map(|l| JobLine {
                id: l.id,
                name: l.name,
                stage: l.stage,
                revision: l.revision,
                updated: store::written(l.updated),
                updated_by: l.updated_by,
                conflicts: l.conflicts,
            })
            .collect(),
    }))
}

/// The invented house that ships, with all that a job can say.
const EXAMPLE: &str = include_str!("../../../jobs/lake-street/job.toml");

fn beginning(new: &NewJob) -> Result<String, Refused> {
    let text = match (&new.text, new.template.as_deref()) {
        (Some(text), None) => return Ok(text.clone()),
        (None, Some("first")) => {
            let mut answers = jobfile::new::Answers::default();
            if let Some(name) = &new.name {
                answers.name = line(name, 200);
            }
            if let Some(weather) = &new.weather {
                answers.weather = line(weather, 200);
            }
            return Ok(jobfile::new::first_job(&answers));
        }
        (None, Some("example")) => EXAMPLE.to_owned(),
        _ => {
            return Err(Refused::bad("a job begins with a text or with a template")
                .allowed("text, or template: first, example"));
        }
    };
    let Some(name) = &new.name else {
        return Ok(text);
    };
    let named = store::Edit {
        path: "job.name".to_owned(),
        value: line(name, 200).into(),
        was: None,
    };
    store::trial(&text, &[named]).map_err(Refused::unreadable)
}

/// A new job from a text or a template; the same id again gives the one that is there
#[utoipa::path(post, path = "/api/jobs", tag = "jobs", request_body = NewJob,
    responses((status = 201, body = JobView), (status = 200, description = "It was there", body = JobView),
        (status = "default", body = Refused)))]
async fn new_job(
    State(app): State<App>,
    caller: Caller,
    Given(new): Given<NewJob>,
) -> Result<(StatusCode, Json<JobView>), Refused> {
    caller.may(Right::Change)?;
    let id = given::id(&new.id)?;
    let text = beginning(&new)?;
    let who = caller.who(new.who.as_deref());
    let at = given::at(new.at.as_deref())?.written();
    let made = app
        .store
        .new_job(
            &caller.firm,
            &store::NewJob {
                id: &id,
                text: &text,
                who: &who,
                at: &at,
            },
        )
        .await?;
    let status = match made {
        store::Made::New => StatusCode::CREATED,
        store::Made::Already => StatusCode::OK,
    };
    Ok((status, Json(view(&app, &caller, &id).await?)))
}

/// A job as it goes out.
pub async fn view(app: &App, caller: &Caller, id: &str) -> Result<JobView, Refused> {
    let row = app.store.job(&caller.firm, id).await?;
    let held = app.store.held(&caller.firm, id).await?;
    let lines = jobfile::read(&row.text).map_or_else(
        |_| std::collections::BTreeMap::new(),
        |job| {
            let paths = job.places.paths();
            paths
                .filter_map(|p| Some((p.to_owned(), job.places.of(p)?.line)))
                .collect()
        },
    );
    Ok(JobView {
        values: store::values(&row.text),
        lines,
        conflicts: held
            .into_iter()
            .map(|h| crate::changes::held_view(h, row.revision))
            .collect(),
        id: row.id,
        name: row.name,
        stage: row.stage,
        revision: row.revision,
        text: row.text,
        updated: store::written(row.updated),
        updated_by: row.updated_by,
    })
}

/// A job with its text and values
#[utoipa::path(get, path = "/api/jobs/{id}", tag = "jobs", params(("id" = String, Path)),
    responses((status = 200, body = JobView), (status = "default", body = Refused)))]
async fn job(
    State(app): State<App>,
    caller: Caller,
    Path(id): Path<String>,
) -> Result<Json<JobView>, Refused> {
    Ok(Json(view(&app, &caller, &id).await?))
}

/// The plain job file, as the command reads it
#[utoipa::path(get, path = "/api/jobs/{id}/text", tag = "jobs", params(("id" = String, Path)),
    responses((status = 200, content_type = "application/toml", body = String),
        (status = "default", body = Refused)))]
async fn text(
    State(app): State<App>,
    caller: Caller,
    Path(id): Path<String>,
) -> Result<impl IntoResponse, Refused> {
    let row = app.store.job(&caller.firm, &id).await?;
    Ok((
        [
            (
                header::CONTENT_TYPE,
                "application/toml; charset=utf-8".to_owned(),
            ),
            (
                header::CONTENT_DISPOSITION,
                format!("attachment; filename=\"{}.toml\"", file_name(&row.name)),
            ),
        ],
        row.text,
    ))
}

/// A name as a file may have it everywhere.
pub fn file_name(name: &str) -> String {
    let plain = |c: char| {
        if c.is_ascii_alphanumeric() {
            c.to_ascii_lowercase()
        } else {
            '-'
        }
    };
    let joined: String = name.chars().map(plain).take(60).collect();
    let parts: Vec<&str> = joined.split('-').filter(|p| !p.is_empty()).collect();
    if parts.is_empty() {
        "job".to_owned()
    } else {
        parts.join("-")
    }
}

/// Takes a job away with its history, readings, photos and files of temperatures
#[utoipa::path(delete, path = "/api/jobs/{id}", tag = "jobs", params(("id" = String, Path)),
    responses((status = 204), (status = "default", body = Refused)))]
async fn delete_job(
    State(app): State<App>,
    caller: Caller,
    Path(id): Path<String>,
) -> Result<StatusCode, Refused> {
    caller.may(Right::Manage)?;
    app.store.delete_job(&caller.firm, &id).await?;
    app.store
        .note(&caller.firm, &caller.who(None), "took a job away", &id)
        .await?;
    Ok(StatusCode::NO_CONTENT)
}
