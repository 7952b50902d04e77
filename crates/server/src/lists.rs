//! What there is to choose from, and whether all is well.

use axum::Json;
use axum::extract::State;
use plan::Catalogue;
use serde::Serialize;
use utoipa::ToSchema;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::app::App;
use crate::caller::Caller;
use crate::refused::Refused;

/// The sheets of this project, all of invented units, for a start without a catalogue.
#[derive(rust_embed::Embed)]
#[folder = "../../catalogue"]
struct Sheets;

/// The catalogue that ships.
pub fn that_ships() -> Catalogue {
    let mut texts: Vec<(String, String)> = Sheets::iter()
        .filter_map(|name| {
            let file = Sheets::get(&name).filter(|_| name.ends_with(".toml"))?;
            let text = String::from_utf8(file.data.into_owned()).ok()?;
            Some((name.into_owned(), text))
        })
        .collect();
    texts.sort();
    Catalogue::read(texts.iter().map(|(f, t)| (f.as_str(), t.as_str()))).unwrap_or_default()
}

/// A weather station.
#[derive(Debug, Serialize, ToSchema)]
pub struct WeatherView {
    /// Name to write in `place.weather`.
    pub name: String,
    /// Ships with the program; otherwise a file in the server's folder.
    pub ships: bool,
}

/// A unit of the catalogue.
#[derive(Debug, Serialize, ToSchema)]
pub struct SheetView {
    /// Name to write in `unit`.
    pub name: String,
    /// outdoor single-zone, outdoor multi-zone, wall head, floor console, ceiling cassette, slim
    /// duct.
    pub kind: String,
    /// Refrigerant.
    pub refrigerant: Option<String>,
    /// Invented, for demonstration.
    pub invented: bool,
    /// Coldest outdoor temperature with a heating point, C.
    pub coldest_c: Option<f64>,
    /// Most heat at that point, W.
    pub most_at_coldest_w: Option<f64>,
    /// Heads this single-zone unit was tested with.
    pub tested_with: Vec<String>,
    /// Identification of the sheet.
    pub sheet: String,
}

/// How the server is.
#[derive(Debug, Serialize, ToSchema)]
pub struct Health {
    /// Version of the program.
    pub northwall: String,
    /// sqlite or postgres.
    pub database: String,
    /// People sign in.
    pub sign_in: bool,
    /// In a sentence.
    pub says: String,
}

pub fn routes() -> OpenApiRouter<App> {
    OpenApiRouter::new()
        .routes(routes!(weather))
        .routes(routes!(catalogue))
        .routes(routes!(health))
}

/// Weather a job may name
#[utoipa::path(get, path = "/api/weather", tag = "lists",
    responses((status = 200, body = Vec<WeatherView>), (status = "default", body = Refused)))]
async fn weather(State(app): State<App>, _caller: Caller) -> Json<Vec<WeatherView>> {
    let mut all: Vec<WeatherView> = plan::shipped::STATIONS
        .iter()
        .map(|s| WeatherView {
            name: s.name.to_owned(),
            ships: true,
        })
        .collect();
    let own = app.desk.folder().and_then(|f| std::fs::read_dir(f).ok());
    let mut names: Vec<String> = own
        .into_iter()
        .flatten()
        .flatten()
        .filter(|e| e.file_type().is_ok_and(|t| t.is_file()))
        .filter_map(|e| e.file_name().into_string().ok())
        .collect();
    names.sort();
    all.extend(
        names
            .into_iter()
            .map(|name| WeatherView { name, ships: false }),
    );
    Json(all)
}

/// Units a job may name
#[utoipa::path(get, path = "/api/catalogue", tag = "lists",
    responses((status = 200, body = Vec<SheetView>), (status = "default", body = Refused)))]
async fn catalogue(State(app): State<App>, _caller: Caller) -> Json<Vec<SheetView>> {
    Json(
        app.desk
            .catalogue()
            .iter()
            .map(|s| SheetView {
                name: s.name.clone(),
                kind: s.kind.words().to_owned(),
                refrigerant: s.refrigerant.clone(),
                invented: s.invented,
                coldest_c: s.coldest().map(|p| p.outdoor_c),
                most_at_coldest_w: s.coldest().and_then(|p| p.max.map(|r| r.capacity_w)),
                tested_with: s.tested_with.clone(),
                sheet: s.sheet_id.clone(),
            })
            .collect(),
    )
}

/// Whether the server and its database answer
#[utoipa::path(get, path = "/api/health", tag = "lists",
    responses((status = 200, body = Health), (status = "default", body = Refused)))]
async fn health(State(app): State<App>) -> Result<Json<Health>, Refused> {
    app.store.answers().await?;
    let says = if app.sign_in {
        "People sign in."
    } else {
        "Nobody signs in: only this machine is answered."
    };
    Ok(Json(Health {
        northwall: env!("CARGO_PKG_VERSION").to_owned(),
        database: app.store.kind().word().to_owned(),
        sign_in: app.sign_in,
        says: says.to_owned(),
    }))
}
