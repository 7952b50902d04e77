//! **What it checks** The design temperature rests on a code value or a header, not on the hours
//! of a typical year, and the three are near each other; the station lies about as high as the house.
//!
//! **Why it matters on site** A typical year is stitched from ordinary months: its coldest hours
//! are off by degrees, and a unit sized on them is short on the night it is bought for.
//!
//! **What to do** Ask the building office for the value it applies and type it with its source.
//!
//! **Source** Decision 5; trade card F5 (3 F).

use reckon::{Finding, Level, Source};
use units::{Dim, System, show};

use crate::{DesignFrom, Site};

/// Header and hours further apart than this are said, K (3 F).
const APART_K: f64 = 5.0 / 3.0;

fn f(system: System, c: f64) -> String {
    show(c, Dim::Temperature, system)
}

/// A typed value this much warmer than the weather file is asked about, K (3 F): it makes every
/// unit too small.
const WARMER_K: f64 = APART_K;
/// So is one this much colder, K (15 F): a hollow is 8 F colder than its airport, and no more.
const COLDER_K: f64 = 15.0 / 1.8;

/// A value in C typed as F, or of another town, lies apart from the file.
fn typed_apart(site: &Site, system: System, source: Source, out: &mut Vec<Finding>) {
    let heating = &site.heating;
    let (Some(typed), Some(file)) = (heating.typed_c, heating.header_c.or(heating.hours_c)) else {
        return;
    };
    if typed - file <= WARMER_K && file - typed <= COLDER_K {
        return;
    }
    let word = if typed > file { "warmer" } else { "colder" };
    out.push(Finding {
        rule: "design-typed-apart".to_owned(),
        level: Level::Ask,
        place: "place.heating_design".to_owned(),
        says: format!("The design temperature typed is much {word} than the weather file's."),
        found: format!(
            "typed {}, weather file {}",
            f(system, typed),
            f(system, file)
        ),
        required: format!(
            "at most {} warmer and {} colder",
            show(WARMER_K, Dim::TemperatureDifference, system),
            show(COLDER_K, Dim::TemperatureDifference, system)
        ),
        mend: "Look at the unit, F or C, and at the minus; or name a station nearer by.".to_owned(),
        would_tell: "The building office, or the code's own table, would tell.".to_owned(),
        figures: vec!["site.design.heating".to_owned()],
        source,
    });
}

/// Station and house further apart in height than this are asked about, m (1,000 ft).
const FAR_M: f64 = 304.8;

fn far_in_height(site: &Site, system: System, source: Source, out: &mut Vec<Finding>) {
    let station_m = site.station.elevation_m;
    if (site.elevation_m - station_m).abs() <= FAR_M {
        return;
    }
    let height = |m: f64| show(m, Dim::Length, system);
    let mend = "Name a station nearer in height, or type heating_design with its source: this one's \
                temperatures are moved by 3.5 F for every 1,000 ft.";
    out.push(Finding {
        rule: "station-far-in-height".to_owned(),
        level: Level::Ask,
        place: "place.weather".to_owned(),
        says: "The weather station does not lie as high as the house.".to_owned(),
        found: format!(
            "station {}, house {}",
            height(station_m),
            height(site.elevation_m)
        ),
        required: format!("within {} of each other", height(FAR_M)),
        mend: mend.to_owned(),
        would_tell: "The code's own design value for the place would tell.".to_owned(),
        figures: vec!["site.design.heating".to_owned()],
        source,
    });
}

pub(super) fn check(site: &Site, system: System, out: &mut Vec<Finding>) {
    let heating = &site.heating;
    let source = Source::new("common-practice", "trade card F5");
    if heating.from == DesignFrom::Hours {
        out.push(Finding {
            rule: "design-from-hours".to_owned(),
            level: Level::Ask,
            place: "place.heating_design".to_owned(),
            says: "The heating design temperature is only a percentile of a typical year."
                .to_owned(),
            found: f(system, heating.used_c),
            required: "a value from the code or a table, with its source".to_owned(),
            mend: "Type heating_design and heating_design_source under [place].".to_owned(),
            would_tell: "The building office, or the code's own table, would tell.".to_owned(),
            figures: vec!["site.design.heating".to_owned()],
            source: source.clone(),
        });
    }
    far_in_height(site, system, source.clone(), out);
    typed_apart(site, system, source.clone(), out);
    let beside = heating.header_c.or(heating.hours_c);
    if let (Some(hours), Some(header)) = (heating.hours_c, beside)
        && (hours - header).abs() > APART_K
    {
        let both = format!(
            "{} by the header, {} by the hours",
            f(system, header),
            f(system, hours)
        );
        out.push(Finding {
            rule: "design-apart".to_owned(),
            level: Level::Note,
            place: "place.weather".to_owned(),
            says: format!(
                "Header and hours of the weather file disagree on the coldest nights: {both}."
            ),
            found: both,
            required: format!(
                "within {} of each other",
                show(APART_K, Dim::TemperatureDifference, system)
            ),
            mend: format!(
                "Nothing to mend: the plan uses {}.",
                f(system, heating.used_c)
            ),
            would_tell: String::new(),
            figures: vec![
                "site.design.heating.header".to_owned(),
                "site.design.heating.hours".to_owned(),
            ],
            source,
        });
    }
}
