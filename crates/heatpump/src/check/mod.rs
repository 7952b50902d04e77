//! What is odd about a sheet. One rule a file; each says what it checks, why it matters on site,
//! what to do, and where the rule comes from.

mod charge_example;
mod coldest_point;
mod combination_table;
mod cop_range;
mod defrost_stated;
mod head_limits;
mod heat_units;
mod high_minimum;
mod invented;
mod minimum_given;
mod one_point;
mod order;
mod pairing;
mod plate;
mod power_order;
mod printed_rating;
mod rises_when_colder;
mod seasonal_as_cop;
mod unit_mix;
mod wet_bulb;

use reckon::{Finding, Level, Source};
use units::{Dim, System as Shown, show_figure};

use crate::capability::Duty;
use crate::sheet::{Running, Sheet, TestPoint};
use crate::system::System;

/// All findings about one sheet, loudest first, then in the order of the file; in the words of
/// these units.
pub fn check_sheet(sheet: &Sheet, shown: Shown) -> Vec<Finding> {
    let rules: [fn(&Sheet, Shown, &mut Vec<Finding>); 19] = [
        order::check,
        power_order::check,
        rises_when_colder::check,
        cop_range::check,
        heat_units::check,
        seasonal_as_cop::check,
        wet_bulb::check,
        charge_example::check,
        plate::check,
        one_point::check,
        coldest_point::check,
        minimum_given::check,
        defrost_stated::check,
        combination_table::check,
        head_limits::check,
        high_minimum::check,
        unit_mix::check,
        printed_rating::check,
        invented::check,
    ];
    let mut out = Vec::new();
    for rule in rules {
        rule(sheet, shown, &mut out);
    }
    out.sort_by_key(|f: &Finding| f.level);
    out
}

/// All findings about units put together: pairing and combination. The sheets' own findings are
/// [`check_sheet`]'s.
pub fn check_system(system: &System, shown: Shown) -> Vec<Finding> {
    let mut out = Vec::new();
    pairing::check(system, shown, &mut out);
    out.sort_by_key(|f: &Finding| f.level);
    out
}

/// The words of one finding. Empty where a rule has nothing to say.
struct Say {
    rule: &'static str,
    level: Level,
    says: String,
    found: String,
    required: String,
    mend: String,
    would_tell: String,
    source: Source,
}

impl Say {
    fn at(self, sheet: &Sheet, line: usize) -> Finding {
        Finding {
            rule: self.rule.to_owned(),
            level: self.level,
            place: format!("{}:{line}", sheet.file),
            says: self.says,
            found: self.found,
            required: self.required,
            mend: self.mend,
            would_tell: self.would_tell,
            figures: Vec::new(),
            source: self.source,
        }
    }
}

fn points(sheet: &Sheet) -> [(Duty, &[TestPoint]); 2] {
    [
        (Duty::Heating, sheet.heating.as_slice()),
        (Duty::Cooling, sheet.cooling.as_slice()),
    ]
}

/// The stated levels of a point, least first.
fn levels(point: &TestPoint) -> impl Iterator<Item = (&'static str, Running)> {
    [
        ("minimum", point.min),
        ("rated", point.rated),
        ("maximum", point.max),
    ]
    .into_iter()
    .filter_map(|(word, run)| Some((word, run?)))
}

/// Outdoor temperature in the words of a message.
fn f(c: f64, shown: Shown) -> String {
    show_figure(c, Dim::Temperature, shown)
}

/// Heat in the words of a message.
fn btu(w: f64, shown: Shown) -> String {
    show_figure(w, Dim::Power, shown)
}

fn trade(place: &'static str) -> Source {
    Source::new("common-practice", place)
}
