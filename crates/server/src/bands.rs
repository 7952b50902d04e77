//! Bands beside the options: worked out when asked for, in the background, one job at a time and on
//! one thread, so that edits go on. Kept for the newest revision of a job that was asked about.

mod seen;
mod unfolded;
mod working;

use axum::Json;
use axum::extract::State;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::app::App;
use crate::caller::Caller;
use crate::given::Path;
use crate::refused::Refused;
use seen::BandsView;
pub use working::Bandstand;

pub fn routes() -> OpenApiRouter<App> {
    OpenApiRouter::new()
        .routes(routes!(bands))
        .routes(routes!(unfolded::why))
}

/// The choices in the houses this could be. The first asking begins the work and says so; ask again
/// until it is done. An edit gives up what was being worked out for the revision before
#[utoipa::path(get, path = "/api/jobs/{id}/bands", tag = "plan", params(("id" = String, Path)),
    responses((status = 200, body = BandsView), (status = "default", body = Refused)))]
async fn bands(
    State(app): State<App>,
    caller: Caller,
    Path(id): Path<String>,
) -> Result<Json<BandsView>, Refused> {
    let row = app.store.job(&caller.firm, &id).await?;
    Ok(Json(app.bands.asked(&app, &caller.firm, row)))
}
