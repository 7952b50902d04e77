//! Pressure and vacuum tests: what they rest on, readings as they come, and the verdict so far.
//! A record only grows; a correction is a new record.

use axum::Json;
use axum::extract::State;
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};
use startup::record::{Chain, Record};
use utoipa::ToSchema;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::app::App;
use crate::caller::{Caller, Right};
use crate::given::{self, Given, Path, line};
use crate::judging::{self, RestsOn};
use crate::refused::Refused;

/// Begins a test, or says anew what it rests on.
#[derive(Debug, Deserialize, ToSchema)]
pub struct TestIn {
    /// UUID made by the client; the same again changes nothing.
    pub id: String,
    /// Name of the test: `pressure 1`.
    pub test: String,
    /// When, RFC 3339 with the offset of the place.
    #[serde(default)]
    pub at: Option<String>,
    /// Who.
    #[serde(default)]
    pub who: Option<String>,
    /// What it rests on.
    pub rests_on: RestsOn,
}

/// One reading.
#[derive(Debug, Deserialize, ToSchema)]
pub struct ReadingIn {
    /// UUID made by the client; the same again changes nothing.
    pub id: String,
    /// When it was read, RFC 3339 with the offset of the place.
    pub at: String,
    /// Pressure with its unit: `550.2 psi` above the air, `480 micron` for a vacuum.
    pub pressure: String,
    /// Temperature of the lines, with a pressure test: `70.1 F`.
    #[serde(default)]
    pub line: Option<String>,
    /// Number of the record this reading corrects.
    #[serde(default)]
    pub corrects: Option<u64>,
    /// Why, for a correction.
    #[serde(default)]
    pub why: Option<String>,
}

/// Readings of a test.
#[derive(Debug, Deserialize, ToSchema)]
pub struct ReadingsIn {
    /// Name of the test.
    pub test: String,
    /// Who.
    #[serde(default)]
    pub who: Option<String>,
    /// In the order they were read.
    pub readings: Vec<ReadingIn>,
}

/// A reading that is on the disk.
#[derive(Debug, Serialize, ToSchema)]
pub struct KeptReading {
    /// Its id.
    pub id: String,
    /// Number of its record.
    pub n: u64,
}

/// What came of readings.
#[derive(Debug, Serialize, ToSchema)]
pub struct KeptReadings {
    /// On the disk.
    pub kept: Vec<KeptReading>,
    /// The test with them.
    pub test: TestView,
}

/// A reading as it stands.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct ReadingView {
    /// Number of its record.
    pub n: u64,
    /// When.
    pub at: String,
    /// Seconds since 1970.
    pub at_s: f64,
    /// Pressure, Pa: above the air for a pressure test, absolute for a vacuum.
    pub pressure_pa: f64,
    /// Temperature of the lines, C.
    pub line_c: Option<f64>,
    /// As it was typed.
    pub typed: String,
    /// Who.
    pub who: String,
}

/// A step of a pressure test.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct StepView {
    /// Pressure above the air, Pa.
    pub gauge_pa: f64,
    /// How long to hold, s.
    pub hold_s: f64,
    /// What to do.
    pub says: String,
}

/// A test with its verdict so far.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct TestView {
    /// Name.
    pub test: String,
    /// `pressure` or `vacuum`.
    pub kind: String,
    /// What it rests on, as typed.
    pub rests_on: RestsOn,
    /// Steps up to the test pressure.
    pub steps: Vec<StepView>,
    /// What to be careful of.
    pub cautions: Vec<String>,
    /// Readings after corrections, in order of time.
    pub readings: Vec<ReadingView>,
    /// `holds`, `fails`, `cannot tell`.
    pub verdict: String,
    /// The verdict in a sentence or two.
    pub says: String,
    /// What would tell.
    pub would_tell: String,
    /// How long the test has run by its readings, s.
    pub length_s: f64,
    /// Whole length wanted, s; null where none is known.
    pub wait_s: Option<f64>,
    /// Smallest leak it could have seen so far, g a year.
    pub visible_g_per_year: Option<f64>,
    /// Leak worth a call-back, g a year.
    pub worth_g_per_year: Option<f64>,
    /// For the curve of a pressure test: seconds and gas left, share of the first.
    pub gas_left: Vec<(f64, f64)>,
    /// What to know about instruments and readings.
    pub notes: Vec<String>,
    /// Hash of the last record of the job: written down elsewhere it proves that none was cut off.
    pub last_hash: String,
    /// The answer whole, as it is recorded.
    #[serde(skip)]
    pub answer: Value,
}

/// A test in the list.
#[derive(Debug, Serialize, ToSchema)]
pub struct TestLine {
    /// Name.
    pub test: String,
    /// `pressure` or `vacuum`.
    pub kind: String,
    /// Readings.
    pub readings: usize,
    /// Verdict so far.
    pub verdict: String,
}

pub fn routes() -> OpenApiRouter<App> {
    OpenApiRouter::new()
        .routes(routes!(begin, tests))
        .routes(routes!(readings))
        .routes(routes!(test))
}

fn named(name: &str) -> Result<String, Refused> {
    let name = line(name, 60);
    if name.is_empty() || name.contains('/') {
        return Err(Refused::bad("a test has a name")
            .got(name)
            .allowed("up to 60 letters without a slash"));
    }
    Ok(name)
}

/// Begins a pressure or vacuum test, or says anew what it rests on
#[utoipa::path(post, path = "/api/jobs/{id}/tests", tag = "start-up", params(("id" = String, Path)),
    request_body = TestIn,
    responses((status = 200, body = TestView), (status = "default", body = Refused)))]
async fn begin(
    State(app): State<App>,
    caller: Caller,
    Path(job): Path<String>,
    Given(given): Given<TestIn>,
) -> Result<Json<TestView>, Refused> {
    caller.may(Right::Measure)?;
    let (id, name) = (given::id(&given.id)?, named(&given.test)?);
    let at = given::at(given.at.as_deref())?;
    let who = caller.who(given.who.as_deref());
    judging::checked(&given.rests_on, at.day())?;
    let rests_on = serde_json::to_value(&given.rests_on).map_err(Refused::defect)?;
    let record = store::NewRecord {
        id: &id,
        at,
        who: &who,
        kind: "test",
        says: json!({ "test": name, "rests_on": rests_on }),
        corrects: None,
    };
    app.store.record(&caller.firm, &job, &[record]).await?;
    judged(&app, &caller, &job, &name, (at, &who))
        .await
        .map(Json)
}

/// Readings; when this answers, they are on the disk
#[utoipa::path(post, path = "/api/jobs/{id}/readings", tag = "start-up", params(("id" = String, Path)),
    request_body = ReadingsIn,
    responses((status = 200, body = KeptReadings), (status = "default", body = Refused)))]
async fn readings(
    State(app): State<App>,
    caller: Caller,
    Path(job): Path<String>,
    Given(given): Given<ReadingsIn>,
) -> Result<Json<KeptReadings>, Refused> {
    const MOST: usize = 2_000;
    caller.may(Right::Measure)?;
    let name = named(&given.test)?;
    if given.readings.len() > MOST {
        return Err(Refused::bad("too many readings at once")
            .got(given.readings.len().to_string())
            .allowed(format!("up to {MOST}")));
    }
    let who = caller.who(given.who.as_deref());
    let before = look(&app, &caller, &job, &name).await?;
    let mut ids = Vec::new();
    for r in &given.readings {
        let says = judging::reading(&before.kind, &name, r)?;
        ids.push((given::id(&r.id)?, given::at(Some(&r.at))?, says));
    }
    let kind = format!("{}-reading", before.kind);
    let new: Vec<store::NewRecord<'_>> = ids
        .iter()
        .zip(&given.readings)
        .map(|((id, at, says), r)| store::NewRecord {
            id,
            at: *at,
            who: &who,
            kind: &kind,
            says: says.clone(),
            corrects: r.corrects.map(|n| (n, r.why.as_deref().unwrap_or(""))),
        })
        .collect();
    let kept = app.store.record(&caller.firm, &job, &new).await?;
    let test = match ids.last() {
        Some((_, at, _)) => judged(&app, &caller, &job, &name, (*at, &who)).await?,
        None => before,
    };
    Ok(Json(KeptReadings {
        kept: kept
            .into_iter()
            .map(|k| KeptReading { id: k.id, n: k.n })
            .collect(),
        test,
    }))
}

async fn look(app: &App, caller: &Caller, job: &str, name: &str) -> Result<TestView, Refused> {
    view(name, &app.store.records(&caller.firm, job).await?)
}

fn view(name: &str, records: &[Record]) -> Result<TestView, Refused> {
    let rests_on = rests_on(records, name)
        .ok_or_else(|| Refused::not_there("test", name).mend("begin it first"))?;
    judging::view(name, rests_on, records)
}

/// The test, and its verdict kept in the form of the command: who reads the record later has no
/// server to judge the readings. A *cannot tell* is kept only where it takes back a verdict, so
/// that not every reading has one; the same verdict is kept once, so that the same again changes
/// nothing.
async fn judged(
    app: &App,
    caller: &Caller,
    job: &str,
    name: &str,
    (at, who): (startup::Stamp, &str),
) -> Result<TestView, Refused> {
    let chain = Chain {
        records: app.store.records(&caller.firm, job).await?,
        unfinished: 0,
    };
    let view = view(name, &chain.records)?;
    let kind = format!("{}-verdict", view.kind);
    let mine = |r: &&&Record| r.kind == kind && r.says.get("test") == Some(&json!(name));
    let all = chain.standing();
    let last = all.iter().rfind(mine);
    let says = json!({ "test": name, "answer": view.answer });
    let told = last.is_some() || view.verdict != reckon::Verdict::CannotTell.words();
    if !told || last.is_some_and(|r| r.says == says) {
        return Ok(view);
    }
    let id = crate::hashing::id()?;
    let record = store::NewRecord {
        id: &id,
        at,
        who,
        kind: &kind,
        says,
        corrects: None,
    };
    app.store.record(&caller.firm, job, &[record]).await?;
    look(app, caller, job, name).await
}

fn rests_on(records: &[Record], name: &str) -> Option<RestsOn> {
    let mine =
        |r: &&Record| r.kind == "test" && r.says.get("test").and_then(Value::as_str) == Some(name);
    let last = records.iter().rev().find(mine)?;
    serde_json::from_value(last.says.get("rests_on")?.clone()).ok()
}

/// The test of a kind that was begun last, and its verdict so far.
pub fn latest(records: &[Record], kind: &str) -> Option<(String, String)> {
    let of = |r: &&Record| r.says.pointer("/rests_on/kind").and_then(Value::as_str) == Some(kind);
    let last = records.iter().rev().filter(|r| r.kind == "test").find(of)?;
    let name = last.says.get("test").and_then(Value::as_str)?;
    let view = judging::view(name, rests_on(records, name)?, records).ok()?;
    Some((view.test, view.verdict))
}

/// A test with its readings and the verdict so far
#[utoipa::path(get, path = "/api/jobs/{id}/tests/{test}", tag = "start-up",
    params(("id" = String, Path), ("test" = String, Path)),
    responses((status = 200, body = TestView), (status = "default", body = Refused)))]
async fn test(
    State(app): State<App>,
    caller: Caller,
    Path((job, name)): Path<(String, String)>,
) -> Result<Json<TestView>, Refused> {
    look(&app, &caller, &job, &named(&name)?).await.map(Json)
}

/// The tests of a job
#[utoipa::path(get, path = "/api/jobs/{id}/tests", tag = "start-up", params(("id" = String, Path)),
    responses((status = 200, body = Vec<TestLine>), (status = "default", body = Refused)))]
async fn tests(
    State(app): State<App>,
    caller: Caller,
    Path(job): Path<String>,
) -> Result<Json<Vec<TestLine>>, Refused> {
    let records = app.store.records(&caller.firm, &job).await?;
    let mut names: Vec<&str> = Vec::new();
    for r in records.iter().filter(|r| r.kind == "test") {
        if let Some(name) = r.says.get("test").and_then(Value::as_str)
            && !names.contains(&name)
        {
            names.push(name);
        }
    }
    let mut out = Vec::new();
    for name in names {
        let Some(on) = rests_on(&records, name) else {
            continue;
        };
        let view = judging::view(name, on, &records)?;
        out.push(TestLine {
            test: view.test,
            kind: view.kind,
            readings: view.readings.len(),
            verdict: view.verdict,
        });
    }
    Ok(Json(out))
}
