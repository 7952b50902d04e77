//! Where the house stands: station, elevation, design temperatures, degree days.

use climate::altitude::at_height_c;
use climate::design::{design_temperatures, heating_degree_days};
use climate::{DesignKind, Weather};
use jobfile::{Job, TypedDesign};
use reckon::{Book, Source};
use units::Dim;

/// Where a design temperature comes from.
#[derive(Debug, Clone, PartialEq)]
pub enum DesignFrom {
    /// Typed in the job file; the person's words on its source.
    Typed(String),
    /// The header of the weather file; its words on its source.
    Header(String),
    /// The hours of the weather file: a makeshift.
    Hours,
}

/// A design temperature with its rivals beside it.
#[derive(Debug, Clone, PartialEq)]
pub struct DesignChoice {
    /// Which percentile.
    pub kind: DesignKind,
    /// The one used, at the house, C.
    pub used_c: f64,
    /// Where it comes from.
    pub from: DesignFrom,
    /// Typed in the job, C.
    pub typed_c: Option<f64>,
    /// Header of the weather file, at the house, C.
    pub header_c: Option<f64>,
    /// Hours of the weather file, at the house, C.
    pub hours_c: Option<f64>,
}

/// The site.
#[derive(Debug, Clone, PartialEq)]
pub struct Site {
    /// Station of the weather.
    pub station: climate::Station,
    /// Elevation of the house, m.
    pub elevation_m: f64,
    /// For the heating load.
    pub heating: DesignChoice,
    /// For the cooling load.
    pub cooling: DesignChoice,
    /// Heating degree days to 18.3 C (65 F), K d.
    pub heating_degree_days_k_d: f64,
    /// Coldest hour of the file, C.
    pub coldest_c: f64,
    /// Hours of the year in spans of 5 F: lower end, C, and hours; coldest first.
    pub hours_by_5_f: Vec<(f64, u32)>,
}

/// Base of the degree days, C (65 F).
const BASE_C: f64 = 55.0 / 3.0;

impl Site {
    /// Works the site out and puts its figures into the book.
    pub(crate) fn new(job: &Job, weather: &Weather, book: &mut Book) -> Self {
        let station = weather.station.clone();
        let elevation_m = job.place.elevation_m.unwrap_or(station.elevation_m);
        let elevation_source = if job.place.elevation_m.is_some() {
            Source::job("place.elevation")
        } else {
            Source::new("weather", format!("{}, header", station.name))
        };
        book.given(
            "site.elevation",
            "elevation of the house",
            elevation_m,
            Dim::Length,
            elevation_source,
            None,
        );
        let all = design_temperatures(weather);
        let choose = |kind: DesignKind, typed: Option<&TypedDesign>| {
            let own = all.iter().find(|d| d.kind == kind);
            let here = |c: f64| at_height_c(c, station.elevation_m, elevation_m);
            let hours_c = own.map(|d| here(d.own_c));
            let header_c = own.and_then(|d| d.header).map(|h| here(h.dry_bulb_c));
            let words = weather.header_design.as_ref().map(|h| h.source.clone());
            let (used_c, from) = match (typed, header_c, hours_c) {
                (Some(t), _, _) => (t.c, DesignFrom::Typed(t.source.clone())),
                (None, Some(c), _) => (c, DesignFrom::Header(words.unwrap_or_default())),
                (None, None, Some(c)) => (c, DesignFrom::Hours),
                (None, None, None) => (f64::NAN, DesignFrom::Hours),
            };
            DesignChoice {
                kind,
                used_c,
                from,
                typed_c: typed.map(|t| t.c),
                header_c,
                hours_c,
            }
        };
        let heating = choose(DesignKind::Heating996, job.place.heating_design.as_ref());
        let cooling = choose(DesignKind::Cooling1, job.place.cooling_design.as_ref());
        for (key, what, choice, typed) in [
            (
                "site.design.heating",
                "outdoor temperature for the heating load",
                &heating,
                "place.heating_design",
            ),
            (
                "site.design.cooling",
                "outdoor temperature for the cooling load",
                &cooling,
                "place.cooling_design",
            ),
        ] {
            let source = match &choice.from {
                DesignFrom::Typed(_) => Source::job(typed),
                DesignFrom::Header(words) => Source::new(
                    "weather",
                    format!("{}, header, {} ({words})", station.name, choice.kind.name()),
                ),
                DesignFrom::Hours => Source::new(
                    "weather",
                    format!("{}, {} of its hours", station.name, choice.kind.name()),
                ),
            };
            book.given(key, what, choice.used_c, Dim::Temperature, source, None);
            for (end, words, c) in [
                (
                    "header",
                    "as the header of the weather file has it",
                    choice.header_c,
                ),
                ("hours", "by the hours of the weather file", choice.hours_c),
            ] {
                if let Some(c) = c {
                    let place = format!("{}, {}", station.name, choice.kind.name());
                    let what = format!("{what}, {words}");
                    let source = Source::new("weather", place);
                    book.given(
                        format!("{key}.{end}"),
                        what,
                        c,
                        Dim::Temperature,
                        source,
                        None,
                    );
                }
            }
        }
        let degree_days = heating_degree_days(weather, BASE_C).by_daily_mean_k_d;
        book.given(
            "site.degree_days",
            "heating degree days of the weather file to 65 F (18.3 C)",
            degree_days * 86_400.0,
            Dim::DegreeDays,
            Source::new("weather", format!("{}, daily means", station.name)),
            None,
        );
        let coldest_c = weather
            .dry_bulb_c
            .iter()
            .copied()
            .fold(f64::INFINITY, f64::min);
        book.given(
            "site.coldest",
            "coldest hour of the weather file",
            coldest_c,
            Dim::Temperature,
            Source::new("weather", format!("{}, dry bulb", station.name)),
            None,
        );
        Self {
            station,
            elevation_m,
            heating,
            cooling,
            heating_degree_days_k_d: degree_days,
            coldest_c,
            hours_by_5_f: climate::bins::hours_5_f(weather),
        }
    }
}
