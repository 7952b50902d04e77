//! The why of a band: the houses behind it, the widths of what is not known, and the plan below.

use axum::Json;
use axum::extract::State;
use axum::http::StatusCode;

use crate::app::App;
use crate::caller::Caller;
use crate::given::{Path, Query};
use crate::plans::{Units, WhyView, told};
use crate::refused::Refused;

/// Formula, inputs and source of a number of the bands, down to the job file, the data sheet or the
/// widths of what is not known. There are none until the bands of the job as it stands are there
#[utoipa::path(get, path = "/api/jobs/{id}/bands/why/{key}", tag = "plan",
    params(("id" = String, Path), ("key" = String, Path, description = "Key of a figure of the bands"), Units),
    responses((status = 200, body = WhyView), (status = "default", body = Refused)))]
pub async fn why(
    State(app): State<App>,
    caller: Caller,
    Path((id, key)): Path<(String, String)>,
    Query(units): Query<Units>,
) -> Result<Json<WhyView>, Refused> {
    let row = app.store.job(&caller.firm, &id).await?;
    let found = app.bands.found(&row).ok_or_else(|| {
        Refused::new(
            StatusCode::CONFLICT,
            "waits",
            "the bands of this job as it stands are not there",
        )
        .mend("ask for the bands, and again once they are worked out")
    })?;
    let made = app.desk.whole(&row).await?;
    let measured = crate::bills::measured(&app, &caller.firm, &made.job, &id).await?;
    let tree = app.desk.apart(move || {
        // with the bills' own figures, which the houses are held against
        let plan = crate::bills::with_bills(&made, &measured);
        let book = plan::band_figures(&found.bands, &plan);
        told(plan::why_beside(&plan, &book, &key), &key, units)
    });
    Ok(Json(tree.await??))
}
