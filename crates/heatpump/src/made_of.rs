//! The most a system gives at one outdoor temperature, term by term, for who asks why.

use crate::capability::{Conditions, Duty, Ready};
use crate::combination::combination_factors;
use crate::frost::frost;
use crate::shape::indoor_factor;
use crate::system::System;

/// A printed heating point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PrintedMost {
    /// Outdoor temperature, C.
    pub outdoor_c: f64,
    /// Most it gives there, W, or the rated output where the sheet has no more.
    pub most_w: f64,
    /// Line of the sheet, from 1.
    pub line: usize,
}

/// Terms of the most: `(colder + share (warmer - colder)) heads indoor altitude frost`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MadeOf {
    /// PrintedMost point at or under the temperature.
    pub colder: PrintedMost,
    /// PrintedMost point over it; the same past the last and on a point.
    pub warmer: PrintedMost,
    /// Factor of the heads that hang on it, by the sheet's table of combinations.
    pub heads: f64,
    /// Indoor temperature of the sheet's points, C.
    pub tested_c: f64,
    /// Indoor temperature in the rooms, C.
    pub indoor_c: f64,
    /// Air pressure at the place, Pa.
    pub pressure_pa: f64,
    /// Factor of frost, 1 where the sheet's points include it.
    pub frost: f64,
}

/// What the most is made of; none where the sheet cannot tell, or where its table of combinations
/// pulls a point under its own least.
///
/// # Range
/// As [`crate::capability()`].
///
/// # Source
/// As [`crate::capability()`].
pub fn most_made_of(system: &System, outdoor_c: f64, conditions: Conditions) -> Option<MadeOf> {
    let ready = Ready::new(system, Duty::Heating, conditions).ok()?;
    let most_w = ready.at(outdoor_c).ok()?.max.capacity_w;
    let mut points: Vec<(PrintedMost, f64)> = system
        .outdoor
        .sheet
        .heating
        .iter()
        .filter_map(|p| {
            let printed = PrintedMost {
                outdoor_c: p.outdoor_c,
                most_w: p.max.or(p.rated)?.capacity_w,
                line: p.line,
            };
            Some((printed, p.indoor_c))
        })
        .collect();
    points.sort_by(|a, b| a.0.outdoor_c.total_cmp(&b.0.outdoor_c));
    let over = points.iter().position(|(p, _)| p.outdoor_c >= outdoor_c);
    let over = over.or(points.len().checked_sub(1))?;
    let (warmer, warmer_in) = *points.get(over)?;
    let on_it = warmer.outdoor_c <= outdoor_c || over == 0;
    let (colder, colder_in) = if on_it {
        (warmer, warmer_in)
    } else {
        *points.get(over - 1)?
    };
    let (heads, _) = combination_factors(system, Duty::Heating).ok()?;
    let share = share(&colder, &warmer, outdoor_c);
    let made = MadeOf {
        colder,
        warmer,
        heads,
        tested_c: colder_in + share * (warmer_in - colder_in),
        indoor_c: conditions.indoor_c,
        pressure_pa: conditions.pressure_pa,
        frost: if ready.frost_to_take() {
            frost(outdoor_c, conditions.humidity).capacity
        } else {
            1.0
        },
    };
    let again = made.most_w(outdoor_c)?;
    ((again - most_w).abs() <= 1e-9 * most_w.abs()).then_some(made)
}

/// How far a temperature lies from the colder point to the warmer, 0 to 1.
fn share(colder: &PrintedMost, warmer: &PrintedMost, outdoor_c: f64) -> f64 {
    let span = warmer.outdoor_c - colder.outdoor_c;
    if span > 0.0 {
        (outdoor_c - colder.outdoor_c) / span
    } else {
        0.0
    }
}

impl MadeOf {
    /// The terms put together again, W.
    fn most_w(&self, outdoor_c: f64) -> Option<f64> {
        let share = share(&self.colder, &self.warmer, outdoor_c);
        let by_points = self.colder.most_w + share * (self.warmer.most_w - self.colder.most_w);
        let indoor = indoor_factor(Duty::Heating, self.indoor_c, self.tested_c)?;
        let altitude = crate::altitude::altitude_factor(self.pressure_pa)?;
        Some(by_points * self.heads * indoor * altitude * self.frost)
    }
}
