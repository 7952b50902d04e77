//! Taking an option of the job.

use axum::extract::State;

use super::said::{Kept, TakeIn};
use super::{Answer, Signed, answer};
use crate::app::App;
use crate::caller::{Caller, Right};
use crate::given::{Given, Path};
use crate::refused::Refused;

/// Takes an option in one step: its equipment becomes what is chosen, and what was chosen becomes
/// an option. Undo of this change brings all of it back, places and lines too
#[utoipa::path(post, path = "/api/jobs/{id}/options/taken", tag = "changes", params(("id" = String, Path)),
    request_body = TakeIn,
    responses((status = 200, body = Kept),
        (status = 422, description = "No such option, or the job would not read so", body = Refused),
        (status = "default", body = Refused)))]
pub async fn take(
    State(app): State<App>,
    caller: Caller,
    Path(job): Path<String>,
    Given(given): Given<TakeIn>,
) -> Result<Answer, Refused> {
    let by = Signed::new(
        &caller,
        &given.id,
        given.at.as_deref(),
        given.who.as_deref(),
    )?;
    caller.may(Right::Change)?;
    let change = by.change(0, &[]);
    let outcome = app
        .store
        .remake(&caller.firm, &job, &change, |text| {
            jobfile::edit::take_option(text, &given.option)
        })
        .await?;
    answer(&app, &caller, &job, &by.id, outcome).await
}
