//! Series for the plot of a sheet.

use serde::Serialize;

use crate::cannot_tell::CannotTell;
use crate::capability::{Conditions, Duty, Ready};
use crate::system::System;

/// One place on the curves of a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct PlotPoint {
    /// Outdoor temperature, C.
    pub outdoor_c: f64,
    /// Least output, W.
    pub min_w: f64,
    /// Rated output, W, where the sheet has one.
    pub rated_w: Option<f64>,
    /// Most output, W.
    pub max_w: f64,
    /// COP at the least output.
    pub min_cop: f64,
    /// COP at the rated output, where the sheet has one.
    pub rated_cop: Option<f64>,
    /// COP at the most output.
    pub max_cop: f64,
}

/// A published figure, to be drawn as a mark on the curves.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct PlotMark {
    /// Outdoor temperature, C.
    pub outdoor_c: f64,
    /// Output, W.
    pub capacity_w: f64,
    /// COP.
    pub cop: f64,
    /// `min`, `rated` or `max`.
    pub level: &'static str,
}

/// What to draw for a system.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PlotData {
    /// Name of the outdoor unit.
    pub name: String,
    /// Heating or cooling.
    pub duty: Duty,
    /// Curves, coldest first; they end where the sheet ends.
    pub curves: Vec<PlotPoint>,
    /// Published figures.
    pub marks: Vec<PlotMark>,
}

/// Curves of a system over outdoor temperature at one-kelvin steps, with the published marks.
///
/// # Errors
/// The sheets cannot tell: see [`CannotTell`].
pub fn plot_data(
    system: &System,
    duty: Duty,
    conditions: Conditions,
) -> Result<PlotData, CannotTell> {
    let ready = Ready::new(system, duty, conditions)?;
    let (cold_c, warm_c) = ready.span_c();
    let mut curves = Vec::new();
    let steps = (warm_c - cold_c).max(0.0).ceil() as usize;
    for i in 0..=steps {
        let outdoor_c = (cold_c + i as f64).min(warm_c);
        let c = ready.at(outdoor_c)?;
        curves.push(PlotPoint {
            outdoor_c,
            min_w: c.min.capacity_w,
            rated_w: c.rated.map(|r| r.capacity_w),
            max_w: c.max.capacity_w,
            min_cop: c.min.cop(),
            rated_cop: c.rated.map(crate::Running::cop),
            max_cop: c.max.cop(),
        });
    }
    let sheet = &system.outdoor.sheet;
    let points = match duty {
        Duty::Heating => &sheet.heating,
        Duty::Cooling => &sheet.cooling,
    };
    let mut marks = Vec::new();
    for p in points {
        for (level, run) in [("min", p.min), ("rated", p.rated), ("max", p.max)] {
            if let Some(run) = run {
                marks.push(PlotMark {
                    outdoor_c: p.outdoor_c,
                    capacity_w: run.capacity_w,
                    cop: run.cop(),
                    level,
                });
            }
        }
    }
    Ok(PlotData {
        name: sheet.name.clone(),
        duty,
        curves,
        marks,
    })
}
