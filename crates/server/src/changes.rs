//! Changes: edits by path, the whole text, undo, history, and what two people both changed.

mod choosing;
mod said;

pub use said::{
    Both, ChangeIn, ConflictView, EditIn, History, Keep, Kept, RevisionView, SettleIn, Since,
    TextIn, TrialIn, TrialView, UndoIn,
};

use axum::Json;
use axum::extract::State;
use axum::http::StatusCode;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::app::App;
use crate::caller::{Caller, Right};
use crate::given::{self, Given, Path, Query};
use crate::refused::{ProblemView, Refused};
use crate::seen::{Counts, PlanView};

/// What a change comes to.
#[derive(Debug)]
pub enum Answer {
    Kept(Box<Kept>),
    Conflict(ConflictView),
}

impl axum::response::IntoResponse for Answer {
    fn into_response(self) -> axum::response::Response {
        match self {
            Self::Kept(kept) => Json(kept).into_response(),
            Self::Conflict(both) => (StatusCode::CONFLICT, Json(both)).into_response(),
        }
    }
}

pub fn routes() -> OpenApiRouter<App> {
    OpenApiRouter::new()
        .routes(routes!(change, history))
        .routes(routes!(undo))
        .routes(routes!(choosing::take))
        .routes(routes!(conflicts))
        .routes(routes!(settle))
        .routes(routes!(trial))
}

fn edits(given: Vec<EditIn>) -> Result<Vec<store::Edit>, Refused> {
    const MOST: usize = 500;
    if given.is_empty() || given.len() > MOST {
        return Err(Refused::bad("a change has edits")
            .got(given.len().to_string())
            .allowed(format!("1 to {MOST} edits")));
    }
    Ok(given
        .into_iter()
        .map(|e| store::Edit {
            path: e.path,
            value: e.value,
            was: e.was,
        })
        .collect())
}

/// What an installer may write down: what was built, not what is planned.
fn built(path: &str) -> bool {
    let table = path.split('.').next().unwrap_or("").trim();
    table == "as_built"
}

fn edit_view(e: store::Edit) -> EditIn {
    EditIn {
        path: e.path,
        value: e.value,
        was: e.was,
    }
}

/// A change held back, as it goes out.
pub fn held_view(held: store::Held, revision: i64) -> ConflictView {
    ConflictView {
        kind: "conflict".to_owned(),
        id: held.change,
        who: held.who,
        at: held.at,
        revision,
        both: held
            .both
            .into_iter()
            .map(|b| Both {
                path: b.path,
                was: b.was,
                mine: b.mine,
                theirs: b.theirs,
                theirs_by: b.theirs_by,
                theirs_at: store::written(b.theirs_at),
            })
            .collect(),
        edits: held.edits.into_iter().map(edit_view).collect(),
    }
}

/// Id, time and person of a change.
struct Signed {
    id: String,
    at: String,
    who: String,
}

impl Signed {
    fn new(
        caller: &Caller,
        id: &str,
        at: Option<&str>,
        who: Option<&str>,
    ) -> Result<Self, Refused> {
        Ok(Self {
            id: given::id(id)?,
            at: given::at(at)?.written(),
            who: caller.who(who),
        })
    }

    fn change<'a>(&'a self, base: i64, edits: &'a [store::Edit]) -> store::Change<'a> {
        store::Change {
            id: &self.id,
            base,
            at: &self.at,
            who: &self.who,
            edits,
        }
    }
}

async fn answer(
    app: &App,
    caller: &Caller,
    job: &str,
    change: &str,
    outcome: store::Outcome,
) -> Result<Answer, Refused> {
    match outcome {
        store::Outcome::Kept { revision } => {
            let row = app.store.job(&caller.firm, job).await?;
            let (headline, counts) = match app.desk.plan(&row).await {
                Ok(made) => (
                    PlanView::headline(&made.plan, &made.job, false),
                    Counts::of(&made.plan),
                ),
                // The change is kept whatever becomes of the plan: its weather may be missing.
                Err(_) => Default::default(),
            };
            Ok(Answer::Kept(Box::new(Kept {
                id: change.to_owned(),
                revision,
                now: row.revision,
                name: row.name,
                headline,
                counts,
            })))
        }
        store::Outcome::Conflict(_) => {
            let row = app.store.job(&caller.firm, job).await?;
            let all = app.store.held(&caller.firm, job).await?;
            let held = all.into_iter().find(|h| h.change == change);
            let held = held.ok_or_else(|| Refused::not_there("change held back", change))?;
            Ok(Answer::Conflict(held_view(held, row.revision)))
        }
        store::Outcome::Refused(problems) => Err(Refused::unreadable(problems)),
        store::Outcome::ChangedSince { now } => Err(Refused::new(
            StatusCode::CONFLICT,
            "changed-since",
            "the job was changed since; the whole text is not exchanged over that",
        )
        .got(format!("revision {now} now"))
        .mend("look at the job as it stands and send single edits, or the text on top of it")),
    }
}

/// Edits by path on top of whatever stands now. Edits of different paths by different people are
/// all kept; where both changed the same path the change is held back and both values are given
#[utoipa::path(post, path = "/api/jobs/{id}/changes", tag = "changes", params(("id" = String, Path)),
    request_body = ChangeIn,
    responses((status = 200, body = Kept), (status = 409, body = ConflictView),
        (status = 422, description = "The job would not read so", body = Refused),
        (status = "default", body = Refused)))]
async fn change(
    State(app): State<App>,
    caller: Caller,
    Path(job): Path<String>,
    Given(given): Given<ChangeIn>,
) -> Result<Answer, Refused> {
    let by = Signed::new(
        &caller,
        &given.id,
        given.at.as_deref(),
        given.who.as_deref(),
    )?;
    let edits = edits(given.edits)?;
    if !edits.iter().all(|e| built(&e.path)) {
        caller.may(Right::Change)?;
    }
    caller.may(Right::Measure)?;
    let change = by.change(given.base_revision, &edits);
    let outcome = app.store.change(&caller.firm, &job, &change).await?;
    answer(&app, &caller, &job, &by.id, outcome).await
}

/// Exchanges the whole text, if nobody changed the job since
#[utoipa::path(put, path = "/api/jobs/{id}/text", tag = "changes", params(("id" = String, Path)),
    request_body = TextIn,
    responses((status = 200, body = Kept),
        (status = 409, description = "The job was changed since", body = Refused),
        (status = 422, description = "The text does not read", body = Refused),
        (status = "default", body = Refused)))]
pub async fn replace_text(
    State(app): State<App>,
    caller: Caller,
    Path(job): Path<String>,
    Given(given): Given<TextIn>,
) -> Result<Answer, Refused> {
    let by = Signed::new(
        &caller,
        &given.id,
        given.at.as_deref(),
        given.who.as_deref(),
    )?;
    caller.may(Right::Change)?;
    let change = by.change(given.base_revision, &[]);
    let outcome = app
        .store
        .replace(&caller.firm, &job, &change, &given.text)
        .await?;
    answer(&app, &caller, &job, &by.id, outcome).await
}

/// Takes a change back: the last one to the letter, an earlier one by its inverse
#[utoipa::path(post, path = "/api/jobs/{id}/changes/{change}/undo", tag = "changes",
    params(("id" = String, Path), ("change" = String, Path)), request_body = UndoIn,
    responses((status = 200, body = Kept), (status = 409, body = ConflictView),
        (status = "default", body = Refused)))]
async fn undo(
    State(app): State<App>,
    caller: Caller,
    Path((job, undone)): Path<(String, String)>,
    Given(given): Given<UndoIn>,
) -> Result<Answer, Refused> {
    let by = Signed::new(
        &caller,
        &given.id,
        given.at.as_deref(),
        given.who.as_deref(),
    )?;
    caller.may(Right::Change)?;
    let change = by.change(0, &[]);
    let undone = given::id(&undone)?;
    let outcome = app.store.undo(&caller.firm, &job, &undone, &change).await?;
    answer(&app, &caller, &job, &by.id, outcome).await
}

/// Changes held back until a person decides
#[utoipa::path(get, path = "/api/jobs/{id}/conflicts", tag = "changes", params(("id" = String, Path)),
    responses((status = 200, body = Vec<ConflictView>), (status = "default", body = Refused)))]
async fn conflicts(
    State(app): State<App>,
    caller: Caller,
    Path(job): Path<String>,
) -> Result<Json<Vec<ConflictView>>, Refused> {
    let row = app.store.job(&caller.firm, &job).await?;
    let all = app.store.held(&caller.firm, &job).await?;
    let views = all.into_iter().map(|h| held_view(h, row.revision));
    Ok(Json(views.collect()))
}

/// A person decides about a change held back
#[utoipa::path(post, path = "/api/jobs/{id}/conflicts/{change}/settle", tag = "changes",
    params(("id" = String, Path), ("change" = String, Path)), request_body = SettleIn,
    responses((status = 200, body = Kept), (status = "default", body = Refused)))]
async fn settle(
    State(app): State<App>,
    caller: Caller,
    Path((job, held)): Path<(String, String)>,
    Given(given): Given<SettleIn>,
) -> Result<Answer, Refused> {
    let by = Signed::new(
        &caller,
        &given.id,
        given.at.as_deref(),
        given.who.as_deref(),
    )?;
    caller.may(Right::Change)?;
    let held = given::id(&held)?;
    let change = by.change(0, &[]);
    let mine = given.keep == Keep::Mine;
    let outcome = app
        .store
        .settle(&caller.firm, &job, &held, &change, mine)
        .await?;
    answer(&app, &caller, &job, &by.id, outcome).await
}

/// The history, newest first
#[utoipa::path(get, path = "/api/jobs/{id}/changes", tag = "changes", params(("id" = String, Path), Since),
    responses((status = 200, body = History), (status = "default", body = Refused)))]
async fn history(
    State(app): State<App>,
    caller: Caller,
    Path(job): Path<String>,
    Query(since): Query<Since>,
) -> Result<Json<History>, Refused> {
    let between = (since.after.unwrap_or(0), since.before.unwrap_or(i64::MAX));
    let all = app.store.history(&caller.firm, &job, between).await?;
    Ok(Json(History {
        revisions: all
            .into_iter()
            .map(|r| RevisionView {
                revision: r.revision,
                id: r.change,
                kind: r.kind,
                who: r.who,
                at: r.at,
                kept: store::written(r.kept),
                edits: r.edits.into_iter().map(edit_view).collect(),
            })
            .collect(),
    }))
}

/// What edits would come to, with nothing kept: for errors shown while drawing
#[utoipa::path(post, path = "/api/jobs/{id}/trial", tag = "changes", params(("id" = String, Path)),
    request_body = TrialIn,
    responses((status = 200, body = TrialView), (status = "default", body = Refused)))]
async fn trial(
    State(app): State<App>,
    caller: Caller,
    Path(job): Path<String>,
    Given(given): Given<TrialIn>,
) -> Result<Json<TrialView>, Refused> {
    let row = app.store.job(&caller.firm, &job).await?;
    let text = match store::trial(&row.text, &edits(given.edits)?) {
        Ok(text) => text,
        Err(problems) => {
            return Ok(Json(TrialView {
                problems: problems.into_iter().map(ProblemView::from).collect(),
                headline: None,
                room_loss_w: std::collections::BTreeMap::new(),
                counts: Counts::default(),
            }));
        }
    };
    let made = app.desk.make(text, &row).await?;
    let loads = made.plan.loads.done();
    Ok(Json(TrialView {
        problems: Vec::new(),
        headline: Some(PlanView::headline(&made.plan, &made.job, false)),
        room_loss_w: loads.map_or_else(std::collections::BTreeMap::new, |l| {
            let rooms = l.heating.rooms.iter();
            rooms.map(|r| (r.room.clone(), r.heat_w)).collect()
        }),
        counts: Counts::of(&made.plan),
    }))
}
