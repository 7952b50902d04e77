//! Jobs as they leave: one with its plain file, photos and records; all of a firm; and taking the
//! firm away. The same archive is what `northwall archive` writes.

use axum::extract::State;
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};
use serde::Deserialize;
use utoipa::ToSchema;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::app::App;
use crate::archive::Archive;
use crate::caller::{Caller, Right};
use crate::given::{Given, Path};
use crate::jobs::file_name;
use crate::refused::Refused;

/// That it is meant.
#[derive(Debug, Deserialize, ToSchema)]
pub struct Meant {
    /// Name of the firm, typed again.
    pub firm: String,
}

pub fn routes() -> OpenApiRouter<App> {
    OpenApiRouter::new()
        .routes(routes!(job_archive))
        .routes(routes!(export))
        .routes(routes!(delete_firm))
}

fn sent(name: &str, bytes: Vec<u8>) -> Response {
    let headers = [
        (header::CONTENT_TYPE, "application/x-tar".to_owned()),
        (
            header::CONTENT_DISPOSITION,
            format!("attachment; filename=\"{name}.tar\""),
        ),
    ];
    (headers, bytes).into_response()
}

/// A job as it leaves: its plain file, its photos, its records and its history, as a tar archive
#[utoipa::path(get, path = "/api/jobs/{id}/archive", tag = "jobs", params(("id" = String, Path)),
    responses((status = 200, content_type = "application/x-tar", body = Vec<u8>),
        (status = "default", body = Refused)))]
async fn job_archive(
    State(app): State<App>,
    caller: Caller,
    Path(job): Path<String>,
) -> Result<Response, Refused> {
    caller.may(Right::Change)?;
    let whole = app.store.whole(&caller.firm, &job).await?;
    let name = app.store.job(&caller.firm, &job).await?.name;
    let mut archive = Archive::new(Vec::new());
    archive.job(&whole).map_err(Refused::defect)?;
    let bytes = archive.end().map_err(Refused::defect)?;
    app.store
        .note(&caller.firm, &caller.who(None), "took a job out", &job)
        .await?;
    Ok(sent(&file_name(&name), bytes))
}

/// Everything of the firm: all jobs as they leave, as one tar archive
#[utoipa::path(get, path = "/api/export", tag = "people",
    responses((status = 200, content_type = "application/x-tar", body = Vec<u8>),
        (status = "default", body = Refused)))]
async fn export(State(app): State<App>, caller: Caller) -> Result<Response, Refused> {
    caller.may(Right::Manage)?;
    let mut archive = Archive::new(Vec::new());
    for (firm, job) in app.store.every_job(Some(&caller.firm)).await? {
        let whole = app.store.whole(&firm, &job).await?;
        archive.job(&whole).map_err(Refused::defect)?;
    }
    let bytes = archive.end().map_err(Refused::defect)?;
    app.store
        .note(&caller.firm, &caller.who(None), "took everything out", "")
        .await?;
    Ok(sent("northwall-export", bytes))
}

/// Takes the firm away with all its jobs and people
#[utoipa::path(delete, path = "/api/firm", tag = "people", request_body = Meant,
    responses((status = 204), (status = "default", body = Refused)))]
async fn delete_firm(
    State(app): State<App>,
    caller: Caller,
    Given(meant): Given<Meant>,
) -> Result<StatusCode, Refused> {
    caller.may(Right::Manage)?;
    let name = caller.person.as_ref().map(|p| p.firm_name.as_str());
    if name != Some(meant.firm.as_str()) {
        return Err(Refused::bad("the name of the firm is not that")
            .got(crate::given::short(&meant.firm))
            .mend("type it as it stands under me; where nobody signs in, delete the folder"));
    }
    app.store.delete_firm(&caller.firm).await?;
    Ok(StatusCode::NO_CONTENT)
}
