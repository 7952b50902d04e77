//! The papers of a job as files, where this build can set them.
//!
//! The document engine is not part of the server: whoever starts it hands in a [`Printer`], or
//! none.

use std::sync::Arc;

use axum::Json;
use axum::extract::State;
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};
use climate::Weather;
use jobfile::Job;
use plan::{Catalogue, Plan};
use serde::{Deserialize, Serialize};
use startup::record::{Chain, Record};
use utoipa::{IntoParams, ToSchema};
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::app::App;
use crate::bills::{measured, with_bills};
use crate::caller::Caller;
use crate::given::{Path, Query, short};
use crate::jobs::file_name;
use crate::making::Made;
use crate::plans::Units;
use crate::refused::Refused;

/// What the papers are made from.
#[derive(Debug, Clone, Copy)]
#[allow(missing_docs)]
pub struct From<'a> {
    pub text: &'a str,
    pub job: &'a Job,
    pub plan: &'a Plan,
    pub catalogue: &'a Catalogue,
    pub weather: &'a Weather,
    /// The chain as it is exported, and as read.
    pub records: Option<(&'a str, &'a Chain)>,
    /// What the photos show that are kept here, beside those the job names.
    pub photos: &'a [String],
    /// Files of temperatures that the job names and that are kept here.
    pub named: &'a [(String, Vec<u8>)],
    /// SI units.
    pub si: bool,
}

/// Makes papers.
pub trait Printer: std::fmt::Debug + Send + Sync {
    /// What stands against each.
    fn against(&self, from: &From<'_>) -> PapersView;
    /// The PDF for a reader, on A4 or Letter; nothing where there is no such reader.
    ///
    /// # Errors
    /// A defect of the program, in words.
    fn paper(&self, from: &From<'_>, reader: &str, a4: bool) -> Result<Option<Vec<u8>>, String>;
}

/// The papers of a job, before anything is printed.
#[derive(Debug, Serialize, ToSchema)]
pub struct PapersView {
    /// Code on every sheet; `northwall papers JOB --verify CODE` knows it.
    pub code: String,
    /// The papers.
    pub papers: Vec<PaperLine>,
    /// Remarks on all of them.
    pub notes: Vec<String>,
}

/// A paper and what stands against it.
#[derive(Debug, Serialize, ToSchema)]
pub struct PaperLine {
    /// `owner`, `inspector`, `rebate`, `crew`.
    pub reader: String,
    /// Whose it is, in words.
    pub name: String,
    /// What is missing or contradicts; where there is something it prints as a draft.
    pub against: Vec<AgainstLine>,
}

/// Something that stands against a paper.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct AgainstLine {
    /// `missing`, `contradicts`, `standing`.
    pub kind: String,
    /// What.
    pub says: String,
    /// Where in the job file it belongs.
    pub place: String,
    /// What to do.
    pub mend: String,
}

/// How a paper is wanted.
#[derive(Debug, Default, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub struct Wanted {
    /// A4 in place of US Letter.
    #[serde(default)]
    pub a4: bool,
    /// SI units in place of US customary.
    #[serde(default)]
    pub si: bool,
    /// Only if it can be issued: refused while something stands against it. Otherwise it prints as
    /// a draft with the list.
    #[serde(default)]
    pub issue: bool,
}

pub(crate) fn routes() -> OpenApiRouter<App> {
    OpenApiRouter::new()
        .routes(routes!(papers))
        .routes(routes!(paper))
}

/// What a job's papers are made from, owned.
struct Ready {
    app: App,
    made: Arc<Made>,
    plan: Plan,
    text: String,
    name: String,
    lines: String,
    chain: Chain,
    photos: Vec<String>,
    named: Vec<(String, Vec<u8>)>,
    si: bool,
}

impl Ready {
    async fn of(app: &App, caller: &Caller, job: &str, si: bool) -> Result<Self, Refused> {
        let row = app.store.job(&caller.firm, job).await?;
        let records = app.store.records(&caller.firm, job).await?;
        let photos = app.store.photos(&caller.firm, job).await?;
        let lines = records.iter().map(Record::line).collect();
        let made = app.desk.said(app.desk.plan(&row).await?, si).await?;
        let of = Arc::clone(&made);
        let mut measured = measured(app, &caller.firm, &made.job, job).await?;
        let named = std::mem::take(&mut measured.named);
        let plan = app.desk.apart(move || with_bills(&of, &measured)).await?;
        Ok(Self {
            app: app.clone(),
            made,
            plan,
            text: row.text,
            name: row.name,
            lines,
            chain: Chain {
                records,
                unfinished: 0,
            },
            photos: photos.into_iter().map(|p| p.shows).collect(),
            named,
            si,
        })
    }

    fn from(&self) -> From<'_> {
        From {
            text: &self.text,
            job: &self.made.job,
            plan: &self.plan,
            catalogue: self.app.desk.catalogue(),
            weather: self.made.weather(),
            records: (!self.chain.records.is_empty()).then_some((&*self.lines, &self.chain)),
            photos: &self.photos,
            named: &self.named,
            si: self.si,
        }
    }
}

/// The printer of this build. The refusal is the same for every job, and says what to do.
fn printer(app: &App) -> Result<Arc<dyn Printer>, Refused> {
    app.printer.clone().ok_or_else(|| {
        Refused::new(
            StatusCode::NOT_FOUND,
            "not-built",
            "this program was built without the papers",
        )
        .mend(
            "build it with them: cargo build -p northwall --features papers; or take the job out \
             and make them elsewhere: northwall papers JOB",
        )
    })
}

/// What stands against each paper, before anything is printed
#[utoipa::path(get, path = "/api/jobs/{id}/papers", tag = "papers",
    params(("id" = String, Path), Units),
    responses((status = 200, body = PapersView), (status = "default", body = Refused)))]
async fn papers(
    State(app): State<App>,
    caller: Caller,
    Path(job): Path<String>,
    Query(asked): Query<Units>,
) -> Result<Json<PapersView>, Refused> {
    let printer = printer(&app)?;
    let ready = Ready::of(&app, &caller, &job, asked.si).await?;
    let work = move || printer.against(&ready.from());
    app.desk.apart(work).await.map(Json)
}

/// A paper as PDF: for the owner, the inspector, the rebate or the crew
#[utoipa::path(get, path = "/api/jobs/{id}/papers/{reader}", tag = "papers",
    params(("id" = String, Path), ("reader" = String, Path, example = "owner"), Wanted),
    responses((status = 200, content_type = "application/pdf", body = Vec<u8>),
        (status = "default", body = Refused)))]
async fn paper(
    State(app): State<App>,
    caller: Caller,
    Path((job, reader)): Path<(String, String)>,
    Query(wanted): Query<Wanted>,
) -> Result<Response, Refused> {
    let printer = printer(&app)?;
    let ready = Ready::of(&app, &caller, &job, wanted.si).await?;
    let name = format!("{}-{}", file_name(&ready.name), file_name(&reader));
    let work = move || set(printer.as_ref(), &ready.from(), &reader, &wanted);
    let pdf = app.desk.apart(work).await??;
    let headers = [
        (header::CONTENT_TYPE, "application/pdf".to_owned()),
        (
            header::CONTENT_DISPOSITION,
            format!("attachment; filename=\"{name}.pdf\""),
        ),
    ];
    Ok((headers, pdf).into_response())
}

fn set(
    printer: &dyn Printer,
    from: &From<'_>,
    reader: &str,
    wanted: &Wanted,
) -> Result<Vec<u8>, Refused> {
    if wanted.issue {
        let all = printer.against(from).papers;
        let own = all.iter().find(|p| p.reader == reader);
        if let Some(first) = own.and_then(|p| p.against.first()) {
            let many = own.map_or(0, |p| p.against.len());
            return Err(Refused::new(
                StatusCode::CONFLICT,
                "waits",
                format!("it cannot be issued: {many} stand against it"),
            )
            .got(first.says.clone())
            .mend(first.mend.clone()));
        }
    }
    let pdf = printer.paper(from, reader, wanted.a4);
    pdf.map_err(Refused::defect)?.ok_or_else(|| {
        Refused::not_there("paper", &short(reader)).allowed("owner, inspector, rebate, crew")
    })
}
