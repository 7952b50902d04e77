//! What only the sheet of an outdoor unit for several heads has.

use serde::Serialize;
use units::Dim;

use super::Kind;
use super::table::{Reading, Table};
use super::usable::{HEAT, POWER};

/// Data that only an outdoor unit for several heads has.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct MultiZone {
    /// Most heads.
    pub most_heads: u32,
    /// Least heads that must be connected.
    pub least_heads: u32,
    /// Least heat with one head calling, W.
    pub heating_min_one_w: Option<f64>,
    /// Least cooling with one head calling, W.
    pub cooling_min_one_w: Option<f64>,
    /// Combination table, smallest total first.
    pub combinations: Vec<Combination>,
    /// Page.
    pub page: Option<String>,
}

/// One row of the combination table.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Combination {
    /// Sum of nominal head sizes, W.
    pub total_w: f64,
    /// Heat the outdoor unit gives at most at its rating temperature, W.
    pub heating_max_w: f64,
    /// Electric power at that heat, W.
    pub heating_electric_w: Option<f64>,
    /// Cooling at most at its rating temperature, W.
    pub cooling_max_w: Option<f64>,
    /// Line of the file.
    pub line: usize,
}

pub(super) fn multi<'t>(
    r: &mut Reading<'t>,
    t: &mut Table<'t>,
    kind: Option<Kind>,
) -> Option<MultiZone> {
    let wanted = kind == Some(Kind::OutdoorMulti);
    if !t.has("multi") {
        if wanted {
            r.missing(t, "multi", "a table [multi] with most_heads");
        }
        return r.sub(t, "multi").map(|_| MultiZone::default());
    }
    let mut s = r.sub(t, "multi")?;
    if kind.is_some() && !wanted {
        let allowed = "only in the sheet of a multi-zone outdoor unit";
        r.complain(s.line, "multi", "[multi]", allowed, "Take it out");
    }
    let most = r.whole(&mut s, "most_heads", 1, 12);
    if most.is_none() && !s.has("most_heads") {
        r.missing(&s, "most_heads", "a whole number from 1 to 12");
    }
    let least_heads = r.whole(&mut s, "least_heads", 1, 12).unwrap_or(1);
    let heating_min_one_w = r.quantity(&mut s, "heating_min_one", Dim::Power, HEAT);
    let cooling_min_one_w = r.quantity(&mut s, "cooling_min_one", Dim::Power, HEAT);
    let mut combinations: Vec<Combination> = Vec::new();
    for mut row in r.rows(&mut s, "combination") {
        let total = r.quantity(&mut row, "total", Dim::Power, HEAT);
        let heating_max = r.quantity(&mut row, "heating_max", Dim::Power, HEAT);
        let heating_electric_w = r.quantity(&mut row, "heating_power", Dim::ElectricPower, POWER);
        let cooling_max_w = r.quantity(&mut row, "cooling_max", Dim::Power, HEAT);
        for key in ["total", "heating_max"] {
            if !row.has(key) {
                r.missing(&row, key, HEAT.words);
            }
        }
        r.finish(&row);
        if let (Some(total_w), Some(heating_max_w)) = (total, heating_max) {
            let line = row.line;
            combinations.push(Combination {
                total_w,
                heating_max_w,
                heating_electric_w,
                cooling_max_w,
                line,
            });
        }
    }
    combinations.sort_by(|a, b| a.total_w.total_cmp(&b.total_w));
    let page = r.text(&mut s, "page");
    r.finish(&s);
    Some(MultiZone {
        most_heads: most?,
        least_heads,
        heating_min_one_w,
        cooling_min_one_w,
        combinations,
        page,
    })
}
