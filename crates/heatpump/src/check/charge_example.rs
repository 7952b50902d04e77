//! # What it checks
//! The sheet's own worked charge example, done again: signed, trim per metre times the length over
//! the free length; and the two unit systems of the example against each other.
//! # Why it matters on site
//! Installation sheets carry slips of a factor of two and mixed units; the crew weighs in what the
//! example shows. Some sheets remove charge for short lines: the trim is never held at zero.
//! # What to do
//! Ask the supplier which is right before weighing in; until then use the rate.
//! # Source
//! `common-practice`: card F16.

use reckon::{Finding, Level};

use super::{Say, Shown, trade};
use crate::charge_trim::charge_trim_kg;
use crate::sheet::Sheet;

pub(super) fn check(sheet: &Sheet, _: Shown, out: &mut Vec<Finding>) {
    let Some(charge) = &sheet.charge else { return };
    let Some(example) = &charge.example else {
        return;
    };
    let rate = match example.liquid_line_m {
        Some(line) => charge
            .rates
            .iter()
            .find(|r| (r.liquid_line_m - line).abs() < 2e-4),
        None => charge.rates.first(),
    };
    let (Some(free_m), Some(rate)) = (charge.free_length_m, rate) else {
        out.push(
            Say {
                rule: "sheet-example-cannot-be-done",
                level: Level::Ask,
                says: format!("{}: the charge example cannot be done again", sheet.name),
                found: "no free length, or no rate for its liquid line".to_owned(),
                required: "free_length and a rate".to_owned(),
                mend: "Write both from the sheet".to_owned(),
                would_tell: "The charge table of the installation sheet.".to_owned(),
                source: trade("F16, signed charge trim"),
            }
            .at(sheet, example.line),
        );
        return;
    };
    let again_kg = charge_trim_kg(rate.kg_per_m, example.length_m, free_m);
    // Sheets round to whole grams or tenths of an ounce.
    let slack_kg = 0.002 + 0.02 * again_kg.abs();
    if (again_kg - example.printed_kg).abs() > slack_kg {
        out.push(
            Say {
                rule: "sheet-example-differs",
                level: Level::Fix,
                says: format!(
                    "{}: the sheet's own charge example does not follow from its rate",
                    sheet.name
                ),
                found: format!(
                    "printed {}, done again {}",
                    mass(example.printed_kg),
                    mass(again_kg)
                ),
                required: "the trim its own rate gives".to_owned(),
                mend: "Ask the supplier which is right before weighing in".to_owned(),
                would_tell: String::new(),
                source: trade("F16, re-do the manual's example"),
            }
            .at(sheet, example.line),
        );
    }
    if let Some(second_kg) = example.printed_again_kg
        && (second_kg - example.printed_kg).abs() > 0.002 + 0.02 * example.printed_kg.abs()
    {
        out.push(
            Say {
                rule: "sheet-example-two-answers",
                level: Level::Fix,
                says: format!(
                    "{}: the charge example prints two answers that are not the same",
                    sheet.name
                ),
                found: format!("{} and {}", mass(example.printed_kg), mass(second_kg)),
                required: "one mass in two units".to_owned(),
                mend: "Use the rate; ask the supplier".to_owned(),
                would_tell: String::new(),
                source: trade("F16, mixed units in manuals"),
            }
            .at(sheet, example.line),
        );
    }
}

fn mass(kg: f64) -> String {
    format!("{:+.0} g ({:+.1} oz)", kg * 1000.0, kg / 0.028_349_523_125)
}
