//! `northwall sheet --json`.

use schemars::JsonSchema;
use serde::Serialize;

use super::FindingView;

/// A data sheet looked at.
#[derive(Debug, Serialize, JsonSchema)]
pub struct SheetView {
    /// Version of the program.
    pub northwall: &'static str,
    /// File.
    pub file: String,
    /// Name of the unit.
    pub name: String,
    /// Kind.
    pub kind: &'static str,
    /// Identification of the sheet.
    pub sheet: String,
    /// Whether its data are invented.
    pub invented: bool,
    /// Charge of the sheet's worked example, done again, kg.
    pub charge_example_kg: Option<f64>,
    /// What the sheet prints for it, kg.
    pub charge_printed_kg: Option<f64>,
    /// Ratings from its own points beside those it prints.
    pub ratings: Vec<RatingView>,
    /// Curve at one-kelvin steps; empty where the sheet cannot tell.
    pub curve: Vec<CurveView>,
    /// Why there is no curve, where there is none.
    pub cannot_tell: Option<String>,
    /// What is odd, loudest first.
    pub findings: Vec<FindingView>,
}

/// A seasonal rating.
#[derive(Debug, Serialize, JsonSchema)]
pub struct RatingView {
    /// HSPF2, SEER2 or SCOP.
    pub rating: &'static str,
    /// From the sheet's own points; null where they do not reach.
    pub computed: Option<f64>,
    /// As the sheet prints it.
    pub printed: Option<f64>,
}

/// One place of the curve.
#[derive(Debug, Serialize, JsonSchema)]
pub struct CurveView {
    /// Outdoor temperature, C.
    pub outdoor_c: f64,
    /// Least output, W.
    pub min_w: f64,
    /// Most output, W.
    pub max_w: f64,
    /// COP at the least.
    pub min_cop: f64,
    /// COP at the most.
    pub max_cop: f64,
}
