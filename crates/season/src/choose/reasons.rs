//! Why a survivor survives, against whom, and what the nearest beaten one lacks.

use jobfile::Choice;

use super::measure::{Aim, Grain, Measure};
use crate::compare::Row;

/// How another choice differs, aim by aim: the other less this one; differences below a grain are
/// left out.
#[derive(Debug, Clone, PartialEq)]
pub struct Against {
    /// The other choice.
    pub choice: Choice,
    /// Its measures.
    pub measure: Measure,
    /// The other less this one.
    pub differs: Vec<(Aim, f64)>,
}

impl Against {
    fn new(choice: &Choice, other: &Measure, own: &Measure, aims: &[Aim], grain: &Grain) -> Self {
        let differs = aims
            .iter()
            .filter_map(|aim| {
                let by = other.by(*aim)? - own.by(*aim)?;
                (by.abs() >= 0.5 * grain.by(*aim)).then_some((*aim, by))
            })
            .collect();
        Self {
            choice: choice.clone(),
            measure: *other,
            differs,
        }
    }

    /// Aims in which the other is worse.
    pub fn worse(&self) -> impl Iterator<Item = (Aim, f64)> {
        self.differs.iter().copied().filter(|(_, by)| *by > 0.0)
    }

    /// Aims in which the other is better.
    pub fn better(&self) -> impl Iterator<Item = (Aim, f64)> {
        self.differs.iter().copied().filter(|(_, by)| *by < 0.0)
    }
}

/// A choice that no other beats.
#[derive(Debug, Clone, PartialEq)]
pub struct Survivor {
    /// Its units.
    pub choice: Choice,
    /// Its measures, of the whole year.
    pub measure: Measure,
    /// Its line in a table of choices.
    pub row: Row,
    /// Aims in which no other is better.
    pub best_in: Vec<Aim>,
    /// The nearest other survivor; None where it is alone.
    pub beside: Option<Against>,
    /// The nearest choice that it beats.
    pub runner_up: Option<Against>,
}

/// Survivors with their reasons, the one that gives up least in all aims together first.
pub(super) fn reasons(
    run: &[(usize, Measure, Row)],
    kept: &[usize],
    choices: &[Choice],
    aims: &[Aim],
    grain: &Grain,
) -> Vec<Survivor> {
    let measure = |i: usize| run.get(i).map(|(_, m, _)| m);
    let span: Vec<(Aim, f64, f64)> = aims
        .iter()
        .map(|aim| {
            let of = || kept.iter().filter_map(|k| measure(*k)?.by(*aim));
            let least = of().fold(f64::INFINITY, f64::min);
            let most = of().fold(f64::NEG_INFINITY, f64::max);
            (*aim, least, (most - least).max(grain.by(*aim)))
        })
        .collect();
    let far = |a: &Measure, b: &Measure| -> f64 {
        span.iter()
            .map(|(aim, _, width)| match (a.by(*aim), b.by(*aim)) {
                (Some(x), Some(y)) => ((x - y) / width).abs(),
                _ => 0.0,
            })
            .sum()
    };
    let nearest = |own: &Measure, of: &mut dyn Iterator<Item = usize>| -> Option<Against> {
        let near = of
            .filter_map(|i| Some((far(measure(i)?, own), i)))
            .min_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)))?;
        let (at, other, _) = run.get(near.1)?;
        Some(Against::new(choices.get(*at)?, other, own, aims, grain))
    };
    let mut found: Vec<(f64, Survivor)> = kept
        .iter()
        .filter_map(|&k| {
            let (at, own, row) = run.get(k)?;
            let gives_up = span
                .iter()
                .filter_map(|(aim, least, width)| Some((own.by(*aim)? - least) / width))
                .sum();
            let best_in = span
                .iter()
                .filter(|(aim, least, _)| {
                    own.by(*aim)
                        .is_some_and(|x| x - least < 0.5 * grain.by(*aim))
                })
                .map(|(aim, _, _)| *aim)
                .collect();
            let beats = |i: &usize| {
                measure(*i).is_some_and(|m| {
                    let by = |aim: &Aim| m.by(*aim).zip(own.by(*aim)).map_or(0.0, |(x, y)| x - y);
                    aims.iter().all(|a| by(a) > -0.5 * grain.by(*a))
                        && aims.iter().any(|a| by(a) >= grain.by(*a))
                })
            };
            let mut others = kept.iter().copied().filter(|i| *i != k);
            let mut beaten = (0..run.len()).filter(|i| !kept.contains(i)).filter(beats);
            let survivor = Survivor {
                choice: choices.get(*at)?.clone(),
                measure: *own,
                row: row.clone(),
                best_in,
                beside: nearest(own, &mut others),
                runner_up: nearest(own, &mut beaten),
            };
            Some((gives_up, survivor))
        })
        .collect();
    found.sort_by(|a, b| a.0.total_cmp(&b.0));
    found.into_iter().map(|(_, s)| s).collect()
}

#[cfg(test)]
mod tests;
