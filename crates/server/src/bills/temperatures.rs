//! Files of temperatures beside the bills: read, kept as means of days beside the job, and named by
//! it, so that the fit takes them in place of a typical year, and the command does too.

use axum::Json;
use axum::extract::{Request, State};
use axum::http::StatusCode;
use jobfile::Job;
use review::Days;
use review::calendar::iso;
use serde::{Deserialize, Serialize};
use store::{NewTemperatures, Temperatures};
use utoipa::{IntoParams, ToSchema};

use super::refused;
use crate::app::App;
use crate::caller::{Caller, Right};
use crate::given::{self, Path, Query, line};
use crate::jobs::file_name;
use crate::refused::Refused;

/// Most files of a job: a station's years, one each.
const MOST_FILES: usize = 24;

/// What goes with a file.
#[derive(Debug, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub struct TemperaturesIn {
    /// UUID made by the client; the same again changes nothing.
    pub id: String,
    /// Name of the file.
    #[serde(default)]
    pub name: String,
    /// Who.
    #[serde(default)]
    pub who: Option<String>,
}

/// A file of temperatures: kept here, named by the job, or both.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct TemperaturesView {
    /// Id; null where the job names a file that is not here.
    pub id: Option<String>,
    /// As the job names it under `winters.temperatures`, and as it lies beside the job file when
    /// the job is taken out.
    pub file: String,
    /// Whether the job names it: then its days stand for those of the bills.
    pub named: bool,
    /// First day; empty where it is not here.
    pub from: String,
    /// Last day.
    pub to: String,
    /// Days with a mean.
    pub days: usize,
    /// Who brought it.
    pub who: String,
    /// Remarks on how it was read.
    pub notes: Vec<String>,
}

/// Days of the files that the job names and that are here.
#[derive(Debug, Default)]
pub struct Measured {
    /// The days; none where no file is named and here.
    pub days: Option<Days>,
    /// All files, for a person.
    pub files: Vec<TemperaturesView>,
    /// Those that count, by their names in the job: papers made with them cover them.
    pub named: Vec<(String, Vec<u8>)>,
    /// Remarks.
    pub notes: Vec<String>,
}

impl Measured {
    /// Where the temperatures are from, in words.
    pub fn words(&self) -> String {
        let names: Vec<&str> = self.named.iter().map(|n| n.0.as_str()).collect();
        let days = self.days.iter().flat_map(|d| &d.mean_c).flatten().count();
        format!("{}, {days} days", names.join(", "))
    }
}

/// The files of a job as they stand.
pub async fn measured(app: &App, firm: &str, job: &Job, id: &str) -> Result<Measured, Refused> {
    let kept = app.store.temperatures(firm, id).await?;
    let wanted = job.winters.temperatures.clone();
    if kept.is_empty() && wanted.is_empty() {
        return Ok(Measured::default());
    }
    app.desk.apart(move || together(&kept, &wanted)).await
}

/// In the order in which the job names them, as the command joins them.
fn together(kept: &[Temperatures], wanted: &[String]) -> Measured {
    let mut all = Measured::default();
    for file in wanted {
        match kept.iter().find(|t| t.name == *file) {
            Some(t) => all.take(t),
            None => all.missing(file),
        }
    }
    for t in kept.iter().filter(|t| !wanted.contains(&t.name)) {
        if let Some(days) = all.days_of(t) {
            all.files.push(view(t, &days, false));
        }
    }
    all
}

impl Measured {
    /// It was read when it came; one that an archive brought may be no table.
    fn days_of(&mut self, t: &Temperatures) -> Option<Days> {
        let read = Days::read_csv(t.days.as_bytes());
        if let Err(why) = &read {
            let says = format!("{} does not read: {}", t.name, why.says);
            self.notes.push(says);
        }
        read.ok()
    }

    fn take(&mut self, t: &Temperatures) {
        let Some(days) = self.days_of(t) else { return };
        self.files.push(view(t, &days, true));
        let joined = match &self.days {
            None => Ok(days),
            Some(before) => before.clone().join(&days),
        };
        match joined {
            Ok(days) => {
                self.days = Some(days);
                self.named
                    .push((t.name.clone(), t.days.clone().into_bytes()));
            }
            Err(why) => {
                let says = format!("{} is left out: {}, {}", t.name, why.says, why.got);
                self.notes.push(says);
            }
        }
    }

    fn missing(&mut self, file: &str) {
        self.notes.push(format!(
            "The job names {file}, which is not here: the command reads it beside the job file; to \
             have it here, read it in."
        ));
        self.files.push(TemperaturesView {
            id: None,
            file: file.to_owned(),
            named: true,
            from: String::new(),
            to: String::new(),
            days: 0,
            who: String::new(),
            notes: Vec::new(),
        });
    }
}

fn view(t: &Temperatures, days: &Days, named: bool) -> TemperaturesView {
    TemperaturesView {
        id: Some(t.id.clone()),
        file: t.name.clone(),
        named,
        from: iso(days.first),
        to: iso(days.end() - 1),
        days: days.mean_c.iter().flatten().count(),
        who: t.who.clone(),
        notes: t.note.lines().map(str::to_owned).collect(),
    }
}

/// A name that no file of the job has.
fn free_name(said: &str, kept: &[Temperatures]) -> String {
    let bare = said.rsplit(['/', '\\']).next().unwrap_or("");
    let stem = bare.rsplit_once('.').map_or(bare, |(stem, _)| stem);
    let stem = if stem.trim().is_empty() { "days" } else { stem };
    let short: String = file_name(stem).chars().take(40).collect();
    let short = short.trim_end_matches('-');
    let numbered = (1..).map(|n| match n {
        1 => format!("temperatures/{short}.csv"),
        n => format!("temperatures/{short}-{n}.csv"),
    });
    let mut free = numbered.filter(|name| kept.iter().all(|t| t.name != *name));
    free.next().unwrap_or_default()
}

/// Keeps a file of temperatures, daily or hourly, its bytes as the body: as means of days. It counts
/// once a change names it under `winters.temperatures` of the job
#[utoipa::path(post, path = "/api/jobs/{id}/temperatures", tag = "bills",
    params(("id" = String, Path), TemperaturesIn),
    request_body(content = Vec<u8>, content_type = "application/octet-stream"),
    responses((status = 201, body = TemperaturesView), (status = "default", body = Refused)))]
pub async fn keep(
    State(app): State<App>,
    caller: Caller,
    Path(job): Path<String>,
    Query(about): Query<TemperaturesIn>,
    request: Request,
) -> Result<(StatusCode, Json<TemperaturesView>), Refused> {
    caller.may(Right::Change)?;
    let id = given::id(&about.id)?;
    let row = app.store.job(&caller.firm, &job).await?;
    let wanted = jobfile::read(&row.text).map_or_else(|_| Vec::new(), |j| j.winters.temperatures);
    let bytes = given::bytes(request, &()).await?;
    let days = app.desk.apart(move || Days::read_csv(&bytes)).await?;
    let days = days.map_err(refused)?;
    let kept = app.store.temperatures(&caller.firm, &job).await?;
    let again = kept.iter().any(|t| t.id == id);
    if !again && kept.len() >= MOST_FILES {
        return Err(Refused::new(
            StatusCode::CONFLICT,
            "not-allowed",
            "the job has as many files of temperatures as it may",
        )
        .allowed(format!("{MOST_FILES} files"))
        .mend("take one away, or put several years into one file"));
    }
    for other in kept
        .iter()
        .filter(|t| t.id != id && wanted.contains(&t.name))
    {
        if let Ok(before) = Days::read_csv(other.days.as_bytes()) {
            before.join(&days).map_err(|why| {
                let mend = format!("take {} away first, or leave this one out", other.name);
                refused(why).mend(mend)
            })?;
        }
    }
    let notes: Vec<String> = days
        .notes
        .iter()
        .map(|n| line(&n.to_string(), 300))
        .collect();
    let new = NewTemperatures {
        id: &id,
        name: &free_name(&about.name, &kept),
        note: &notes.join("\n"),
        who: &caller.who(about.who.as_deref()),
        days: &days.csv(),
    };
    let kept = app.store.keep_temperatures(&caller.firm, &job, &new);
    let kept = kept.await?;
    let days = Days::read_csv(kept.days.as_bytes()).map_err(refused)?;
    let named = wanted.contains(&kept.name);
    Ok((StatusCode::CREATED, Json(view(&kept, &days, named))))
}

/// Takes a file of temperatures away; a change takes its name out of the job
#[utoipa::path(delete, path = "/api/jobs/{id}/temperatures/{file}", tag = "bills",
    params(("id" = String, Path), ("file" = String, Path, description = "Id of the file")),
    responses((status = 204), (status = "default", body = Refused)))]
pub async fn delete(
    State(app): State<App>,
    caller: Caller,
    Path((job, file)): Path<(String, String)>,
) -> Result<StatusCode, Refused> {
    caller.may(Right::Change)?;
    let who = caller.who(None);
    app.store
        .delete_temperatures(&caller.firm, &job, &file, &who)
        .await?;
    Ok(StatusCode::NO_CONTENT)
}
