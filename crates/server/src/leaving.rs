//! Jobs as they leave: one with its plain file, photos and records; all of a firm; and taking the
//! firm away. The same archive is what `northwall archive` writes.

use std::pin::Pin;
use std::task::{Context, Poll};

use axum::body::{Body, Bytes};
use axum::extract::State;
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};
use http_body::Frame;
use serde::Deserialize;
use tokio::sync::mpsc::Receiver;
use utoipa::ToSchema;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::app::App;
use crate::archive::Pieces;
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

/// Pieces that wait to be sent: whoever takes them slowly holds the next ones back.
const AHEAD: usize = 2;

/// What comes over a channel, as a body. An error breaks the answer off.
struct Coming(Receiver<Result<Bytes, std::io::Error>>);

impl http_body::Body for Coming {
    type Data = Bytes;
    type Error = std::io::Error;

    fn poll_frame(
        mut self: Pin<&mut Self>,
        cx: &mut Context<'_>,
    ) -> Poll<Option<Result<Frame<Bytes>, std::io::Error>>> {
        let come = self.0.poll_recv(cx);
        come.map(|piece| piece.map(|bytes| bytes.map(Frame::data)))
    }
}

fn sent(name: &str, mut pieces: Pieces) -> Response {
    let headers = [
        (header::CONTENT_TYPE, "application/x-tar".to_owned()),
        (
            header::CONTENT_DISPOSITION,
            format!("attachment; filename=\"{name}.tar\""),
        ),
    ];
    let (to, from) = tokio::sync::mpsc::channel(AHEAD);
    tokio::spawn(async move {
        while let Some(piece) = pieces.next().await.transpose() {
            let piece = piece.map(Bytes::from).map_err(std::io::Error::other);
            let broken = piece.is_err();
            if to.send(piece).await.is_err() || broken {
                return;
            }
        }
    });
    (headers, Body::new(Coming(from))).into_response()
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
    let name = app.store.job(&caller.firm, &job).await?.name;
    app.store
        .note(&caller.firm, &caller.who(None), "took a job out", &job)
        .await?;
    let jobs = vec![(caller.firm, job)];
    Ok(sent(&file_name(&name), Pieces::of(&app.store, jobs)))
}

/// Everything of the firm: all jobs as they leave, as one tar archive
#[utoipa::path(get, path = "/api/export", tag = "people",
    responses((status = 200, content_type = "application/x-tar", body = Vec<u8>),
        (status = "default", body = Refused)))]
async fn export(State(app): State<App>, caller: Caller) -> Result<Response, Refused> {
    caller.may(Right::Manage)?;
    let jobs = app.store.every_job(Some(&caller.firm)).await?;
    app.store
        .note(&caller.firm, &caller.who(None), "took everything out", "")
        .await?;
    Ok(sent("northwall-export", Pieces::of(&app.store, jobs)))
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
