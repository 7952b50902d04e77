//! The HTTP interface and the page. `schema/openapi.json` is made from the routes here.
//!
//! Handlers are grouped by what a person does. No formula and no SQL lives here: the plan comes
//! from [`plan`], what is kept goes through [`store`].

// A refusal carries its words and is made once, at the edge.
#![allow(clippy::result_large_err)]

mod app;
pub mod archive;
mod bands;
mod bills;
mod caller;
mod changes;
mod drawings;
mod given;
mod guard;
mod hashing;
mod jobs;
mod judging;
mod leaving;
mod lists;
mod making;
mod opening;
mod pace;
mod page;
pub mod papers;
mod people;
mod photos;
mod picture;
mod plans;
mod refused;
pub mod seen;
mod sharing;
mod statuses;
mod tests;

use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::http::header;
use axum::middleware::{from_fn, from_fn_with_state};
use axum::routing::get;
use tokio::net::TcpListener;
use tower_http::compression::CompressionLayer;
use utoipa::OpenApi;
use utoipa_axum::router::OpenApiRouter;

pub use app::{App, Setting};
pub use caller::Role;
pub use people::{INVITATION_DAYS, Invited, invited};
pub use refused::{ProblemView, Refused};

/// Largest JSON body: a job is up to 4 MB, and JSON writes it longer.
const MOST_BODY: usize = 9 * 1024 * 1024;

#[derive(OpenApi)]
#[openapi(info(
    title = "Northwall",
    description = "Jobs, their plans and what was measured. SI with the unit in the name; texts a person reads are in the units asked for. Every refusal has the form Refused."
))]
struct Title;

fn interface() -> OpenApiRouter<App> {
    OpenApiRouter::with_openapi(Title::openapi())
        .merge(jobs::routes())
        .merge(changes::routes())
        .merge(plans::routes())
        .merge(bands::routes())
        .merge(drawings::routes())
        .merge(tests::routes())
        .merge(opening::routes())
        .merge(lists::routes())
        .merge(people::routes())
        .merge(sharing::routes())
        .merge(leaving::routes())
        .merge(papers::routes())
        .layer(DefaultBodyLimit::max(MOST_BODY))
        .merge(bills::routes())
        .merge(photos::routes())
}

/// The interface described, as it stands in `schema/openapi.json`.
pub fn openapi() -> String {
    let mut api = interface().into_openapi();
    statuses::named(&mut api);
    env!("CARGO_PKG_VERSION").clone_into(&mut api.info.version);
    api.to_pretty_json().unwrap_or_default() + "\n"
}

/// All routes, with the page.
pub fn router(app: App) -> Router {
    let (router, _) = interface().split_for_parts();
    router
        .route("/api/openapi.json", get(described))
        .fallback(page::page)
        .method_not_allowed_fallback(given::no_such_method)
        .layer(CompressionLayer::new())
        .layer(from_fn_with_state(app.clone(), guard::turned_away))
        .layer(from_fn(guard::headers))
        .with_state(app)
}

async fn described() -> impl axum::response::IntoResponse {
    ([(header::CONTENT_TYPE, "application/json")], openapi())
}

/// Answers until `end` comes about, then lets what is under way finish.
///
/// # Errors
/// The port is lost.
pub async fn serve(
    app: App,
    listener: TcpListener,
    end: impl Future<Output = ()> + Send + 'static,
) -> std::io::Result<()> {
    axum::serve(listener, router(app))
        .with_graceful_shutdown(end)
        .await
}
