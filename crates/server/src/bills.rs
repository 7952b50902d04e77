//! Bills: a file read into entries of the job, and what the job's bills say beside the survey.
//! Reading keeps nothing: the entries go into the job by a change, as everything else.

mod fitted;
mod temperatures;

use axum::Json;
use axum::extract::{DefaultBodyLimit, Request, State};
use jobfile::Carrier;
use review::{Asked, Bills, FileKind};
use serde::{Deserialize, Serialize};
use utoipa::{IntoParams, ToSchema};
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::app::App;
use crate::caller::{Caller, Right};
use crate::given::{self, Path, Query, short};
use crate::refused::Refused;
pub use fitted::{billed, with_bills};
pub use temperatures::{Measured, measured};

/// Largest file of bills, bytes; ten years of hours are 4 MB, a year of quarter hours as a feed 12.
const MOST_BYTES: usize = 24 * 1024 * 1024;

/// What the file does not say itself.
#[derive(Debug, Default, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub struct FileIn {
    /// What was bought: electricity, oil, propane, gas, wood. By the unit if left out.
    #[serde(default)]
    pub of: Option<String>,
    /// Unit of the amounts, where the file does not say it.
    #[serde(default)]
    pub unit: Option<String>,
    /// Title of the meter, where the file has several.
    #[serde(default)]
    pub meter: Option<String>,
}

/// One entry as it would stand in the job under `[[bill]]`.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct BillRow {
    /// What was bought.
    pub of: String,
    /// First day.
    pub from: String,
    /// Day of the next reading.
    pub to: String,
    /// Amount with its unit.
    pub amount: String,
}

/// Bills of one carrier in a file.
#[derive(Debug, Serialize, ToSchema)]
pub struct ReadView {
    /// What was bought.
    pub carrier: String,
    /// How the file was read: which columns, dates, units.
    pub how: String,
    /// Entries for the job. Estimates are joined with the true reading after them.
    pub bills: Vec<BillRow>,
    /// Remarks, with the line of the file.
    pub notes: Vec<String>,
}

pub fn routes() -> OpenApiRouter<App> {
    OpenApiRouter::new()
        .routes(routes!(read_file))
        .routes(routes!(temperatures::keep))
        .layer(DefaultBodyLimit::max(MOST_BYTES))
        .routes(routes!(fitted::bills))
        .routes(routes!(temperatures::delete))
}

/// What a reader refuses, in the one form.
fn refused(why: review::Refused) -> Refused {
    let at = why.line.map_or(String::new(), |l| format!("line {l}: "));
    Refused::bad(format!("{at}{}", why.says))
        .got(short(&why.got))
        .allowed(why.usable)
        .mend(why.mend)
}

/// Reads a file of bills, its bytes as the body: a utility's table, Green Button, or a dealer's
/// slips. Nothing is kept; the entries go into the job by a change
#[utoipa::path(post, path = "/api/jobs/{id}/bills/read", tag = "bills", params(("id" = String, Path), FileIn),
    request_body(content = Vec<u8>, content_type = "application/octet-stream"),
    responses((status = 200, body = Vec<ReadView>), (status = "default", body = Refused)))]
async fn read_file(
    State(app): State<App>,
    caller: Caller,
    Path(job): Path<String>,
    Query(said): Query<FileIn>,
    request: Request,
) -> Result<Json<Vec<ReadView>>, Refused> {
    caller.may(Right::Change)?;
    let of = said.of.as_deref().map(carrier).transpose()?;
    app.store.job(&caller.firm, &job).await?;
    let bytes = given::bytes(request, &()).await?;
    let read = app.desk.apart(move || of_file(&bytes, of, &said)).await?;
    Ok(Json(read?))
}

fn carrier(word: &str) -> Result<Carrier, Refused> {
    let found = Carrier::ALL.into_iter().find(|c| c.word() == word);
    found.ok_or_else(|| {
        let all: Vec<&str> = Carrier::ALL.iter().map(|c| c.word()).collect();
        Refused::bad("this is nothing that is bought")
            .got(short(word))
            .allowed(all.join(", "))
    })
}

fn of_file(bytes: &[u8], of: Option<Carrier>, said: &FileIn) -> Result<Vec<ReadView>, Refused> {
    let asked = Asked {
        of,
        unit: said.unit.clone(),
        meter: said.meter.clone(),
        ..Asked::default()
    };
    match review::kind_of(bytes).map_err(refused)? {
        FileKind::GreenButton => {
            let meters = review::read_espi(bytes, None).map_err(refused)?;
            let titles: Vec<String> = meters.iter().map(|m| m.title.clone()).collect();
            let mine = meters.into_iter().filter(|m| {
                of.is_none_or(|c| c == m.bills.carrier)
                    && asked.meter.as_ref().is_none_or(|t| *t == m.title)
            });
            let views: Vec<ReadView> = mine
                .map(|m| {
                    let how = format!("meter \"{}\", {} readings", short(&m.title), m.readings);
                    view(&m.bills, how)
                })
                .collect::<Result<_, _>>()?;
            if views.is_empty() {
                return Err(Refused::bad("the feed has no such meter").allowed(titles.join(", ")));
            }
            Ok(views)
        }
        FileKind::Meter => {
            let read = review::read_meter(bytes, &asked).map_err(refused)?;
            Ok(vec![view(&read.bills, read.mapping.words())?])
        }
        FileKind::Deliveries => {
            let read = review::read_deliveries(bytes, &asked).map_err(refused)?;
            Ok(vec![view(&read.bills, read.mapping.words_of_slips())?])
        }
    }
}

fn view(bills: &Bills, how: String) -> Result<ReadView, Refused> {
    let of = bills.carrier;
    let unit = match of {
        Carrier::Electricity => "kWh",
        Carrier::Oil | Carrier::Propane => "gal",
        Carrier::Gas => "therm",
        Carrier::Wood => "cord",
    };
    let each_j = review::unit_j(of, unit).map_err(refused)?;
    let iso = review::calendar::iso;
    let rows = bills.periods.iter().map(|p| BillRow {
        of: of.word().to_owned(),
        from: iso(p.from),
        to: iso(p.to),
        amount: format!("{:.3} {unit}", p.energy_j / each_j),
    });
    Ok(ReadView {
        carrier: of.word().to_owned(),
        how,
        bills: rows.collect(),
        notes: bills.notes.iter().map(review::Note::to_string).collect(),
    })
}
