//! The rules of the year, one a file.

mod backup_setting;
mod cold_limit;
mod cycles;
mod floats;
mod fuel_cheaper;
mod head_minimum;
mod head_setting;
mod hot_water;
mod multi_minimum;
mod no_heating;
mod no_price;
mod room_short;
mod room_too_cold;
mod sheet_end;
mod short_at_design;
mod switched_off;

pub use room_too_cold::RULE as ROOM_TOO_COLD;

use reckon::{Finding, Level, Source};
use units::{Dim, System, show, show_figure, whole};

use crate::input::Input;
use crate::year::Year;

/// Everything the rules have to say about a year, loudest first. The figures they name are those
/// that [`crate::explain()`] writes.
pub fn findings(input: &Input<'_>, year: &Year) -> Vec<Finding> {
    let rules: [fn(&Input<'_>, &Year, &mut Vec<Finding>); 16] = [
        room_too_cold::check,
        short_at_design::check,
        cold_limit::check,
        cycles::check,
        head_minimum::check,
        multi_minimum::check,
        room_short::check,
        backup_setting::check,
        hot_water::check,
        sheet_end::check,
        no_heating::check,
        head_setting::check,
        no_price::check,
        switched_off::check,
        floats::check,
        fuel_cheaper::check,
    ];
    let mut out = Vec::new();
    for rule in rules {
        rule(input, year, &mut out);
    }
    out.sort_by_key(|f: &Finding| f.level);
    out
}

/// The words of one finding.
struct Say {
    rule: &'static str,
    level: Level,
    place: String,
    says: String,
    found: String,
    required: String,
    mend: String,
    would_tell: String,
    figures: Vec<String>,
    source: Source,
}

impl Say {
    fn into(self, out: &mut Vec<Finding>) {
        out.push(Finding {
            rule: self.rule.to_owned(),
            level: self.level,
            place: self.place,
            says: self.says,
            found: self.found,
            required: self.required,
            mend: self.mend,
            would_tell: self.would_tell,
            figures: self.figures,
            source: self.source,
        });
    }
}

/// A temperature in words.
fn f(input: &Input<'_>, c: f64) -> String {
    show(c, Dim::Temperature, input.job.units)
}

/// A difference of temperatures in words.
fn steps(input: &Input<'_>, k: f64) -> String {
    show(k, Dim::TemperatureDifference, input.job.units)
}

/// Heat in words.
fn heat(input: &Input<'_>, w: f64) -> String {
    show_figure(w, Dim::Power, input.job.units)
}

/// Hours of the year as every table has them.
fn counted(hours: u32) -> String {
    whole(f64::from(hours))
}

/// A share in words.
fn percent(share: f64) -> String {
    show(share, Dim::Share, System::default())
}

fn trade(place: &'static str) -> Source {
    Source::new("common-practice", place)
}

fn place_of_room(room: &str) -> String {
    format!("room.{room}")
}

fn place_of_unit(unit: &str) -> String {
    format!("outdoor.{unit}")
}
