//! What a choice is measured by, how finely, and when one beats another.

use crate::regime::Regime;
use crate::year::Year;

/// What choices are weighed by; less is better in each.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Aim {
    /// Kelvin below the setting times hours, all heated rooms.
    Comfort,
    /// Unit hours cycling.
    Cycling,
    /// Money a year.
    Cost,
    /// Carbon a year.
    Carbon,
    /// Money for the units, where it is given.
    Equipment,
    /// Holes in the outside wall.
    Holes,
}

impl Aim {
    /// All, in the order they are printed.
    pub const ALL: [Aim; 6] = [
        Self::Comfort,
        Self::Cycling,
        Self::Cost,
        Self::Carbon,
        Self::Equipment,
        Self::Holes,
    ];

    /// The word in `--json` and in tables.
    pub fn word(self) -> &'static str {
        match self {
            Self::Comfort => "comfort",
            Self::Cycling => "cycling",
            Self::Cost => "cost",
            Self::Carbon => "carbon",
            Self::Equipment => "equipment",
            Self::Holes => "holes",
        }
    }
}

/// A choice, measured.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Measure {
    /// Kelvin below the setting times hours, all heated rooms together, K h.
    pub comfort_k_h: f64,
    /// Unit hours cycling.
    pub cycling_h: f64,
    /// Money a year; None where a price is missing.
    pub cost: Option<f64>,
    /// Carbon a year, kg; None where an intensity is missing.
    pub carbon_kg: Option<f64>,
    /// Money for units; None where one of them has no price.
    pub equipment: Option<f64>,
    /// Holes in the outside wall.
    pub holes: f64,
}

impl Measure {
    /// From a whole year.
    pub fn of_year(year: &Year, equipment: Option<f64>, holes: f64) -> Self {
        Self {
            comfort_k_h: year.rooms.iter().map(|r| r.short_k_h).sum(),
            cycling_h: f64::from(year.hours_in(Regime::Cycling)),
            cost: year.cost(),
            carbon_kg: year.carbon_kg(),
            equipment,
            holes,
        }
    }

    /// By aim.
    pub fn by(&self, aim: Aim) -> Option<f64> {
        match aim {
            Aim::Comfort => Some(self.comfort_k_h),
            Aim::Cycling => Some(self.cycling_h),
            Aim::Cost => self.cost,
            Aim::Carbon => self.carbon_kg,
            Aim::Equipment => self.equipment,
            Aim::Holes => Some(self.holes),
        }
    }
}

/// Differences smaller than these are nothing a household would notice, and count as none. Common
/// practice, no source.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Grain {
    /// K h.
    pub comfort_k_h: f64,
    /// h.
    pub cycling_h: f64,
    /// Money a year.
    pub cost: f64,
    /// kg a year.
    pub carbon_kg: f64,
    /// Money.
    pub equipment: f64,
}

impl Default for Grain {
    fn default() -> Self {
        Self {
            comfort_k_h: 100.0,
            cycling_h: 100.0,
            cost: 20.0,
            carbon_kg: 100.0,
            equipment: 100.0,
        }
    }
}

/// The part of the spread of all candidates that counts as a difference.
const OF_SPREAD: f64 = 0.03;

impl Grain {
    /// As usual, or a hundredth or three of what parts the best from the worst, if that is more.
    pub(crate) fn for_spread<'m>(measures: &(impl Iterator<Item = &'m Measure> + Clone)) -> Self {
        let of = |aim: Aim| {
            let all = || measures.clone().filter_map(|m| m.by(aim));
            let most = all().fold(f64::NEG_INFINITY, f64::max);
            let spread = most - all().fold(f64::INFINITY, f64::min);
            let usual = Self::default().by(aim);
            if spread.is_finite() {
                usual.max(OF_SPREAD * spread)
            } else {
                usual
            }
        };
        Self {
            comfort_k_h: of(Aim::Comfort),
            cycling_h: of(Aim::Cycling),
            cost: of(Aim::Cost),
            carbon_kg: of(Aim::Carbon),
            equipment: of(Aim::Equipment),
        }
    }

    /// By aim.
    pub fn by(&self, aim: Aim) -> f64 {
        match aim {
            Aim::Comfort => self.comfort_k_h,
            Aim::Cycling => self.cycling_h,
            Aim::Cost => self.cost,
            Aim::Carbon => self.carbon_kg,
            Aim::Equipment => self.equipment,
            Aim::Holes => 1.0,
        }
    }
}

/// Measures of one choice in whole grains, by [`Aim::ALL`]; what is not weighed is 0.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Grains {
    cells: [i64; 6],
    /// Sum of the measures in grains, to choose between equals.
    pub sum: f64,
}

impl Grains {
    /// Measures moved by so many of their own errors, in whole grains.
    pub fn of(measure: &Measure, grain: &Grain, aims: &[Aim], moved: impl Fn(Aim) -> f64) -> Self {
        let mut cells = [0; 6];
        let mut sum = 0.0;
        for (cell, aim) in cells.iter_mut().zip(Aim::ALL) {
            if aims.contains(&aim)
                && let Some(x) = measure.by(aim)
            {
                let x = (x + moved(aim)) / grain.by(aim);
                // Half a grain up, so that nought and a little are one.
                *cell = libm::floor(x + 0.5) as i64;
                sum += x;
            }
        }
        Self { cells, sum }
    }

    /// No worse in anything.
    pub fn no_worse(&self, than: &Self) -> bool {
        self.cells.iter().zip(&than.cells).all(|(a, b)| a <= b)
    }

    /// No worse in anything and better in something.
    pub fn better(&self, than: &Self) -> bool {
        self.no_worse(than) && self.cells != than.cells
    }

    /// As [`Grains::better`]; among equals the lesser sum, then the earlier, beats.
    fn beats(&self, at: usize, than: &Self, than_at: usize) -> bool {
        if self.cells != than.cells {
            return self.no_worse(than);
        }
        match self.sum.total_cmp(&than.sum) {
            std::cmp::Ordering::Less => true,
            std::cmp::Ordering::Equal => at < than_at,
            std::cmp::Ordering::Greater => false,
        }
    }
}

/// The aims that every choice has a measure for: others cannot be weighed.
pub(crate) fn weighed<'m>(measures: &(impl Iterator<Item = &'m Measure> + Clone)) -> Vec<Aim> {
    Aim::ALL
        .into_iter()
        .filter(|aim| measures.clone().all(|m| m.by(*aim).is_some()))
        .collect()
}

/// Places of the choices that no other beats, in their order.
///
/// **Equation** a beats b if a is no worse than b in every aim and better in one; among those that
/// are equal in whole grains the one with the lesser sum of grains stays
///
/// **Symbols** measures in whole grains: see [`Grain`]
///
/// **Range** any number of choices
///
/// **Source** `common-practice`: non-dominated set
///
/// **Example** of (1, 2), (2, 1) and (2, 2) the first two stay
pub(crate) fn unbeaten(all: &[Grains]) -> Vec<usize> {
    // In the order of their sums a beaten one comes after one that beats it.
    let mut order: Vec<usize> = (0..all.len()).collect();
    order.sort_by(|a, b| all[*a].sum.total_cmp(&all[*b].sum).then(a.cmp(b)));
    let mut kept: Vec<usize> = Vec::new();
    for i in order {
        if !kept.iter().any(|k| all[*k].beats(*k, &all[i], i)) {
            kept.retain(|k| !all[i].beats(i, &all[*k], *k));
            kept.push(i);
        }
    }
    kept.sort_unstable();
    kept
}

#[cfg(test)]
mod tests {
    use super::{Aim, Grain, Grains, Measure, unbeaten};

    fn grains(comfort_k_h: f64, cycling_h: f64) -> Grains {
        let measure = Measure {
            comfort_k_h,
            cycling_h,
            ..Measure::default()
        };
        Grains::of(&measure, &Grain::default(), &Aim::ALL, |_| 0.0)
    }

    #[test]
    fn the_unbeaten_stay() {
        let all = [
            grains(100.0, 200.0),
            grains(200.0, 100.0),
            grains(200.0, 200.0),
        ];
        assert_eq!(unbeaten(&all), vec![0, 1]);
        // Equal in whole grains: the lesser sum stays.
        let all = [grains(110.0, 200.0), grains(105.0, 200.0)];
        assert_eq!(unbeaten(&all), vec![1]);
        let all = [grains(110.0, 200.0), grains(110.0, 200.0)];
        assert_eq!(unbeaten(&all), vec![0]);
    }
}
