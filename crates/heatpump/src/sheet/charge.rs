//! Refrigerant charge, its trim by line length, and the sheet's own example.

use serde::Serialize;
use units::Dim;

use super::table::{Reading, Table, Usable};
use super::usable::{RUN, TUBE};

const MASS: Usable = Usable {
    lo: 0.05,
    hi: 30.0,
    words: "a mass from 0.05 to 30 kg",
};
const TRIM: Usable = Usable {
    lo: -10.0,
    hi: 10.0,
    words: "a mass from -10 to 10 kg",
};

/// Refrigerant charge and its trim by line length.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Charge {
    /// Charge from the factory, kg.
    pub factory_kg: f64,
    /// Line length the factory charge is meant for, m (whole system).
    pub free_length_m: Option<f64>,
    /// Most charge allowed, kg.
    pub most_kg: Option<f64>,
    /// Trim per metre by liquid line.
    pub rates: Vec<ChargeRate>,
    /// Whether charge is to be removed for lines shorter than the free length.
    pub remove_below_free: Option<bool>,
    /// The sheet's own worked example.
    pub example: Option<ChargeExample>,
    /// Page.
    pub page: Option<String>,
}

/// Charge trim per metre of one liquid line size.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct ChargeRate {
    /// Outside diameter of the liquid line, m.
    pub liquid_line_m: f64,
    /// Trim, kg per m.
    pub kg_per_m: f64,
}

/// The sheet's own worked charge example, to be done again.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ChargeExample {
    /// Line length of the example, m.
    pub length_m: f64,
    /// Liquid line of the example, m; the first rate when not said.
    pub liquid_line_m: Option<f64>,
    /// Trim the sheet prints, kg, signed.
    pub printed_kg: f64,
    /// The same trim in the sheet's second unit system, kg, where it prints one.
    pub printed_again_kg: Option<f64>,
    /// Page.
    pub page: Option<String>,
    /// Line of the file.
    pub line: usize,
}

pub(super) fn charge<'t>(r: &mut Reading<'t>, t: &mut Table<'t>) -> Option<Charge> {
    let mut s = r.sub(t, "charge")?;
    let factory = r.quantity(&mut s, "factory", Dim::Mass, MASS);
    if factory.is_none() && !s.has("factory") {
        r.missing(&s, "factory", MASS.words);
    }
    let free_length_m = r.quantity(&mut s, "free_length", Dim::Length, RUN);
    let most_kg = r.quantity(&mut s, "most", Dim::Mass, MASS);
    let remove_below_free = r.flag(&mut s, "remove_below_free");
    let mut rates = Vec::new();
    for mut row in r.rows(&mut s, "rate") {
        let liquid = r.quantity(&mut row, "liquid_line", Dim::SmallLength, TUBE);
        let trim = r.quantity(&mut row, "trim", Dim::Mass, TRIM);
        let per = r.quantity(&mut row, "per", Dim::Length, RUN);
        for key in ["liquid_line", "trim", "per"] {
            if !row.has(key) {
                r.missing(&row, key, "trim = \"0.65 oz\" with per = \"5 ft\"");
            }
        }
        r.finish(&row);
        if let (Some(liquid_line_m), Some(trim), Some(per)) = (liquid, trim, per)
            && per > 0.0
        {
            rates.push(ChargeRate {
                liquid_line_m,
                kg_per_m: trim / per,
            });
        }
    }
    let example = r.sub(&mut s, "example").and_then(|mut e| {
        let length = r.quantity(&mut e, "length", Dim::Length, RUN);
        let liquid_line_m = r.quantity(&mut e, "liquid_line", Dim::SmallLength, TUBE);
        let printed = r.quantity(&mut e, "printed", Dim::Mass, TRIM);
        let printed_again_kg = r.quantity(&mut e, "printed_again", Dim::Mass, TRIM);
        let page = r.text(&mut e, "page");
        for key in ["length", "printed"] {
            if !e.has(key) {
                r.missing(
                    &e,
                    key,
                    "the length and the trim of the sheet's own example",
                );
            }
        }
        r.finish(&e);
        Some(ChargeExample {
            length_m: length?,
            liquid_line_m,
            printed_kg: printed?,
            printed_again_kg,
            page,
            line: e.line,
        })
    });
    let page = r.text(&mut s, "page");
    r.finish(&s);
    Some(Charge {
        factory_kg: factory?,
        free_length_m,
        most_kg,
        rates,
        remove_below_free,
        example,
        page,
    })
}
