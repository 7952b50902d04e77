//! What the house is given before the year: gains by hour of the day, the ground by month.

use super::eight::{Oct, octs};
use crate::drive::Drive;
use crate::model::{Behind, Model};

/// Gains of every zone for each hour of the day, W: to the air, or to the faces.
pub(super) fn gains_by_hour(model: &Model, radiant: bool) -> Vec<Vec<Oct>> {
    let share = |r: f64| if radiant { r } else { 1.0 - r };
    (0..24)
        .map(|h| {
            let by_zone: Vec<f64> = model
                .zones
                .iter()
                .map(|z| {
                    z.gains
                        .iter()
                        .map(|g| g.by_hour_w[h] * share(g.radiant))
                        .sum()
                })
                .collect();
            octs(&by_zone, 0.0)
        })
        .collect()
}

/// Virtual ground temperature of every ground surface for each month.
pub(super) fn ground_temperatures(model: &Model, drive: &Drive) -> Vec<Vec<f64>> {
    model
        .surfaces
        .iter()
        .map(|s| match &s.behind {
            Behind::Ground(c) => {
                crate::ground::virtual_temperatures_c(c, &drive.monthly_outdoor_c).to_vec()
            }
            _ => Vec::new(),
        })
        .collect()
}
