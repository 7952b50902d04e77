//! Lengths and heights of the lines.

use serde::Serialize;
use units::Dim;

use super::table::{Reading, Table};
use super::usable::{RUN, TUBE};

/// Lengths and heights of the lines.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct LineLimits {
    /// Liquid line outside diameter, m.
    pub liquid_m: Option<f64>,
    /// Gas line outside diameter, m.
    pub gas_m: Option<f64>,
    /// Longest run to one head, m.
    pub longest_m: Option<f64>,
    /// Shortest run to one head, m.
    pub shortest_m: Option<f64>,
    /// Longest sum of all runs, m (several heads).
    pub total_m: Option<f64>,
    /// Greatest height with the outdoor unit above, m.
    pub height_outdoor_above_m: Option<f64>,
    /// Greatest height with the outdoor unit below, m.
    pub height_outdoor_below_m: Option<f64>,
    /// Greatest height between heads, m.
    pub height_between_heads_m: Option<f64>,
    /// Page.
    pub page: Option<String>,
}

pub(super) fn lines<'t>(r: &mut Reading<'t>, t: &mut Table<'t>) -> LineLimits {
    let Some(mut s) = r.sub(t, "lines") else {
        return LineLimits::default();
    };
    let liquid_m = r.quantity(&mut s, "liquid", Dim::SmallLength, TUBE);
    let gas_m = r.quantity(&mut s, "gas", Dim::SmallLength, TUBE);
    let mut run = |key: &str| r.quantity(&mut s, key, Dim::Length, RUN);
    let longest_m = run("longest");
    let shortest_m = run("shortest");
    let total_m = run("total");
    let height_outdoor_above_m = run("height_outdoor_above");
    let height_outdoor_below_m = run("height_outdoor_below");
    let height_between_heads_m = run("height_between_heads");
    let page = r.text(&mut s, "page");
    r.finish(&s);
    LineLimits {
        liquid_m,
        gas_m,
        longest_m,
        shortest_m,
        total_m,
        height_outdoor_above_m,
        height_outdoor_below_m,
        height_between_heads_m,
        page,
    }
}
