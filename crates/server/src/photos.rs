//! Photos: taken in, turned upright, made smaller, freed of their position, and given out.

use axum::Json;
use axum::extract::{DefaultBodyLimit, Request, State};
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};
use serde::{Deserialize, Serialize};
use utoipa::{IntoParams, ToSchema};
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::app::App;
use crate::caller::{Caller, Right};
use crate::given::{self, Path, Query, line};
use crate::picture;
use crate::refused::Refused;

/// A photo without its bytes.
#[derive(Debug, Serialize, ToSchema)]
pub struct PhotoView {
    /// Id.
    pub id: String,
    /// What it shows: a path of the job, or words.
    pub shows: String,
    /// Remark.
    pub note: String,
    /// Who took it.
    pub who: String,
    /// When.
    pub at: String,
    /// Width as kept, pixels.
    pub width: i64,
    /// Height as kept, pixels.
    pub height: i64,
    /// Bytes as kept.
    pub bytes: i64,
}

/// What goes with a photo.
#[derive(Debug, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub struct PhotoIn {
    /// UUID made by the client; the same again changes nothing.
    pub id: String,
    /// What it shows: a path of the job, or words.
    pub shows: String,
    /// Remark.
    #[serde(default)]
    pub note: String,
    /// When it was taken, RFC 3339.
    #[serde(default)]
    pub at: Option<String>,
    /// Who.
    #[serde(default)]
    pub who: Option<String>,
    /// Keep what the camera wrote beside the picture, its position among it. Otherwise all of it
    /// is left out.
    #[serde(default)]
    pub keep_position: bool,
}

/// Which size.
#[derive(Debug, Default, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub struct Size {
    /// The small one, 320 pixels at most.
    #[serde(default)]
    pub small: bool,
}

fn view(p: store::PhotoLine) -> PhotoView {
    PhotoView {
        id: p.id,
        shows: p.shows,
        note: p.note,
        who: p.who,
        at: p.at,
        width: p.width,
        height: p.height,
        bytes: p.bytes,
    }
}

pub fn routes() -> OpenApiRouter<App> {
    OpenApiRouter::new()
        .routes(routes!(keep_photo, photos))
        .routes(routes!(photo, delete_photo))
        .layer(DefaultBodyLimit::max(picture::MOST_BYTES))
}

/// A photo: the bytes of a JPEG or PNG as the body. Turned upright, at most 2048 pixels, without
/// what the camera wrote beside it
#[utoipa::path(post, path = "/api/jobs/{id}/photos", tag = "photos", params(("id" = String, Path), PhotoIn),
    request_body(content = Vec<u8>, content_type = "image/jpeg"),
    responses((status = 201, body = PhotoView), (status = "default", body = Refused)))]
async fn keep_photo(
    State(app): State<App>,
    caller: Caller,
    Path(job): Path<String>,
    Query(about): Query<PhotoIn>,
    request: Request,
) -> Result<(StatusCode, Json<PhotoView>), Refused> {
    caller.may(Right::Measure)?;
    let id = given::id(&about.id)?;
    app.store.job(&caller.firm, &job).await?;
    let bytes = given::bytes(request, &()).await?;
    let ready = app.desk.picture(bytes, about.keep_position).await?;
    let photo = store::NewPhoto {
        id: &id,
        shows: &line(&about.shows, 200),
        note: &line(&about.note, 1000),
        who: &caller.who(about.who.as_deref()),
        at: &given::at(about.at.as_deref())?.written(),
        kind: "image/jpeg",
        size: ready.size,
        bytes: &ready.bytes,
        small: &ready.small,
    };
    let kept = app.store.keep_photo(&caller.firm, &job, &photo).await?;
    Ok((StatusCode::CREATED, Json(view(kept))))
}

/// The photos of a job, oldest first
#[utoipa::path(get, path = "/api/jobs/{id}/photos", tag = "photos", params(("id" = String, Path)),
    responses((status = 200, body = Vec<PhotoView>), (status = "default", body = Refused)))]
async fn photos(
    State(app): State<App>,
    caller: Caller,
    Path(job): Path<String>,
) -> Result<Json<Vec<PhotoView>>, Refused> {
    let all = app.store.photos(&caller.firm, &job).await?;
    Ok(Json(all.into_iter().map(view).collect()))
}

/// A photo, whole or small
#[utoipa::path(get, path = "/api/jobs/{id}/photos/{photo}", tag = "photos",
    params(("id" = String, Path), ("photo" = String, Path), Size),
    responses((status = 200, content_type = "image/jpeg", body = Vec<u8>),
        (status = "default", body = Refused)))]
async fn photo(
    State(app): State<App>,
    caller: Caller,
    Path((job, photo)): Path<(String, String)>,
    Query(size): Query<Size>,
) -> Result<Response, Refused> {
    let found = app
        .store
        .photo(&caller.firm, &job, &photo, size.small)
        .await?;
    let headers = [
        (header::CONTENT_TYPE, found.kind),
        (header::CONTENT_DISPOSITION, "inline".to_owned()),
        (
            header::CACHE_CONTROL,
            "private, max-age=31536000, immutable".to_owned(),
        ),
    ];
    Ok((headers, found.bytes).into_response())
}

/// Takes a photo away
#[utoipa::path(delete, path = "/api/jobs/{id}/photos/{photo}", tag = "photos",
    params(("id" = String, Path), ("photo" = String, Path)),
    responses((status = 204), (status = "default", body = Refused)))]
async fn delete_photo(
    State(app): State<App>,
    caller: Caller,
    Path((job, photo)): Path<(String, String)>,
) -> Result<StatusCode, Refused> {
    caller.may(Right::Change)?;
    app.store.delete_photo(&caller.firm, &job, &photo).await?;
    Ok(StatusCode::NO_CONTENT)
}
