//! From wishes to what survives.

use std::collections::BTreeMap;

use house::describe::Use;
use jobfile::Choice;

use super::candidates::Shelf;
use super::layout::{Ground, LayoutYear};
use super::measure::{Aim, Grain, Grains, Measure, unbeaten, weighed};
use super::offers::Offers;
use super::reasons::{Survivor, reasons};
use super::sift::{Layout, Quick, equipment_cost, holes, quick_years, run_layouts};
use super::{Care, Wishes};
use crate::compare::{Row, year, year_to_weigh};
use crate::error::SeasonError;
use crate::hands::each;
use crate::input::Input;

/// What a search found.
#[derive(Debug, Clone, PartialEq)]
pub struct Found {
    /// Candidates looked at.
    pub looked_at: usize,
    /// Layouts of heads that the house was run for.
    pub layouts: usize,
    /// Systems run over the hours of their rooms.
    pub systems: usize,
    /// Candidates that were run whole.
    pub run_whole: usize,
    /// Candidates that have no year: units that do not go together.
    pub without_year: usize,
    /// What was weighed.
    pub aims: Vec<Aim>,
    /// What counted as a difference.
    pub grain: Grain,
    /// Sizes kept for each room.
    pub sizes_kept: usize,
    /// What survives, the one that gives up least first.
    pub survivors: Vec<Survivor>,
    /// Names of units looked at that have no price, if some have one.
    pub without_price: Vec<String>,
}

/// Sizes kept for each room, at first. Most of a search is the house run for every set of rooms, so
/// ten sizes cost little more than four.
const SIZES_KEPT: usize = 10;

/// Searches the catalogue of the input; `input.choice` is not looked at.
///
/// # Errors
/// A house that cannot be set up; a room that is not there.
pub fn search(input: &Input<'_>, wishes: &Wishes) -> Result<Found, SeasonError> {
    let ground = Ground::new(*input)?;
    let zones = rooms_for_heads(&ground, wishes)?;
    let mut known = BTreeMap::new();
    let layouts = layouts(&zones, wishes.most_heads);
    run_layouts(&ground, &layouts, wishes, &mut known)?;
    let shelf = Shelf::new(input.catalogue, wishes.kind, &ground, wishes, &zones);
    let measured = each(wishes.threads, layouts.len(), |i| {
        let of = known.get(layouts.get(i)?)?;
        Some((of, shelf.measured(&ground, of, wishes)))
    });
    let offered = |keep: usize| -> Vec<(&LayoutYear, Offers<'_>)> {
        let all = measured.iter().flatten();
        all.map(|(of, measured)| (*of, shelf.offers(of, measured, keep)))
            .collect()
    };
    let mut keep = SIZES_KEPT;
    let mut offers = offered(keep);
    while keep > 1 && offers.iter().map(|(_, o)| o.count()).sum::<usize>() > wishes.most {
        keep -= 1;
        offers = offered(keep);
    }
    let made = offers.iter().flat_map(|(of, o)| o.made(&ground, of));
    let choices: Vec<Choice> = made
        .take(wishes.most)
        .enumerate()
        .map(|(i, equipment)| Choice {
            name: format!("{}", i + 1),
            equipment,
        })
        .collect();
    let mut found = find(&ground, &choices, wishes, &mut known)?;
    found.layouts = layouts.len();
    found.sizes_kept = keep;
    Ok(found)
}

/// As [`search`], among choices that are named.
///
/// # Errors
/// A house that cannot be set up.
pub fn among(input: &Input<'_>, choices: &[Choice], wishes: &Wishes) -> Result<Found, SeasonError> {
    find(&Ground::new(*input)?, choices, wishes, &mut BTreeMap::new())
}

fn find(
    ground: &Ground<'_>,
    choices: &[Choice],
    wishes: &Wishes,
    known: &mut BTreeMap<Layout, LayoutYear>,
) -> Result<Found, SeasonError> {
    let (quick, effort) = if wishes.care == Care::AllWhole {
        (vec![None; choices.len()], super::sift::Effort::default())
    } else {
        quick_years(ground, choices, wishes, known)?
    };
    let grain = wishes
        .grain
        .unwrap_or_else(|| Grain::for_spread(&quick.iter().flatten().map(|q| &q.measure)));
    let mut whole = Whole {
        ground,
        choices,
        wishes,
        grain,
        asked: 0,
        run: Vec::new(),
    };
    whole.run(&sifted(&quick, &grain));
    if wishes.care == Care::Sure {
        whole.rest(&quick);
    }
    let aims = weighed(&whole.run.iter().map(|(_, m, _)| m));
    let grains: Vec<Grains> = whole
        .run
        .iter()
        .map(|(_, m, _)| Grains::of(m, &grain, &aims, |_| 0.0))
        .collect();
    Ok(Found {
        looked_at: choices.len(),
        layouts: effort.layouts,
        systems: effort.systems,
        run_whole: whole.asked,
        without_year: whole.asked - whole.run.len(),
        survivors: reasons(&whole.run, &unbeaten(&grains), choices, &aims, &grain),
        aims,
        grain,
        sizes_kept: 0,
        without_price: without_price(choices, wishes),
    })
}

/// Units looked at that have no price, where some have one.
fn without_price(choices: &[Choice], wishes: &Wishes) -> Vec<String> {
    let mut without: Vec<String> = Vec::new();
    if wishes.prices.is_empty() {
        return without;
    }
    for choice in choices {
        let e = &choice.equipment;
        let outdoors = e.outdoors.iter().map(|o| &o.unit);
        for unit in outdoors.chain(e.heads.iter().map(|h| &h.unit)) {
            if !wishes.prices.contains_key(unit) && !without.contains(unit) {
                without.push(unit.clone());
            }
        }
    }
    without
}

/// Places of those that no other beats by its quick year, and of those that have none.
fn sifted(quick: &[Option<Quick>], grain: &Grain) -> Vec<usize> {
    let with: Vec<(usize, &Quick)> = quick
        .iter()
        .enumerate()
        .filter_map(|(i, q)| Some((i, q.as_ref()?)))
        .collect();
    let aims = weighed(&with.iter().map(|(_, q)| &q.measure));
    let grains: Vec<Grains> = with
        .iter()
        .map(|(_, q)| Grains::of(&q.measure, grain, &aims, |_| 0.0))
        .collect();
    let mut left: Vec<usize> = unbeaten(&grains)
        .into_iter()
        .filter_map(|i| Some(with.get(i)?.0))
        .collect();
    left.extend(
        quick
            .iter()
            .enumerate()
            .filter(|(_, q)| q.is_none())
            .map(|(i, _)| i),
    );
    left.sort_unstable();
    left
}

/// Candidates taken together; the same for any number of threads.
const BATCH: usize = 32;

/// Whole years run so far.
struct Whole<'w, 'a> {
    ground: &'w Ground<'a>,
    choices: &'w [Choice],
    wishes: &'w Wishes,
    grain: Grain,
    asked: usize,
    /// Place, measure, line.
    run: Vec<(usize, Measure, Row)>,
}

impl Whole<'_, '_> {
    fn run(&mut self, places: &[usize]) {
        let years = each(self.wishes.threads, places.len(), |i| {
            let choice = places.get(i).and_then(|c| self.choices.get(*c))?;
            let year = year_to_weigh(&Input {
                choice,
                ..self.ground.input
            })
            .ok()?;
            let cost = equipment_cost(&choice.equipment, self.wishes);
            Some((
                Measure::of_year(&year, cost, holes(&choice.equipment)),
                Row::of(&year),
            ))
        });
        self.asked += places.len();
        self.run.extend(
            places
                .iter()
                .zip(years)
                .filter_map(|(c, y)| y.map(|(m, r)| (*c, m, r))),
        );
        self.run.sort_by_key(|(c, _, _)| *c);
    }

    /// Runs what may still survive: what no whole year beats even when its quick year is wrong by
    /// as much as it can be, to its disadvantage.
    fn rest(&mut self, quick: &[Option<Quick>]) {
        let aims = weighed(
            &quick
                .iter()
                .flatten()
                .map(|q| &q.measure)
                .chain(self.run.iter().map(|(_, m, _)| m)),
        );
        let mut left: Vec<(usize, Grains)> = quick
            .iter()
            .enumerate()
            .filter(|(i, _)| self.run.binary_search_by_key(i, |(c, _, _)| *c).is_err())
            .filter_map(|(i, q)| {
                let q = q.as_ref()?;
                Some((
                    i,
                    Grains::of(&q.measure, &self.grain, &aims, |aim| -q.off(aim)),
                ))
            })
            .collect();
        left.sort_by(|a, b| a.1.sum.total_cmp(&b.1.sum).then(a.0.cmp(&b.0)));
        loop {
            let exact: Vec<Grains> = self
                .run
                .iter()
                .map(|(_, m, _)| Grains::of(m, &self.grain, &aims, |_| 0.0))
                .collect();
            let front: Vec<&Grains> = unbeaten(&exact)
                .into_iter()
                .filter_map(|i| exact.get(i))
                .collect();
            left.retain(|(_, low)| !front.iter().any(|f| f.better(low)));
            if left.is_empty() {
                return;
            }
            let batch: Vec<usize> = left
                .drain(..BATCH.min(left.len()))
                .map(|(i, _)| i)
                .collect();
            self.run(&batch);
        }
    }
}

/// Zones that may have a head.
fn rooms_for_heads(ground: &Ground<'_>, wishes: &Wishes) -> Result<Vec<usize>, SeasonError> {
    let zones = &ground.input.model.zones;
    if wishes.rooms.is_empty() {
        return Ok(zones
            .iter()
            .enumerate()
            .filter(|(_, z)| {
                z.room.is_some()
                    && z.heated.is_some()
                    && !matches!(z.used_for, Use::Bath | Use::Storage)
            })
            .map(|(i, _)| i)
            .collect());
    }
    let mut all: Vec<usize> = Vec::new();
    for room in &wishes.rooms {
        let at = zones
            .iter()
            .position(|z| z.room.is_some() && z.name == *room);
        let at = at.ok_or_else(|| SeasonError::NoRoom {
            what: "head",
            name: "looked for".to_owned(),
            room: room.clone(),
        })?;
        if !all.contains(&at) {
            all.push(at);
        }
    }
    all.sort_unstable();
    Ok(all)
}

/// All sets of rooms up to so many, the small ones first.
fn layouts(zones: &[usize], most: usize) -> Vec<Layout> {
    fn add(zones: &[usize], from: usize, left: usize, taken: &mut Layout, all: &mut Vec<Layout>) {
        if left == 0 {
            all.push(taken.clone());
            return;
        }
        for (i, zone) in zones.iter().enumerate().skip(from) {
            taken.push((*zone, true));
            add(zones, i + 1, left - 1, taken, all);
            taken.pop();
        }
    }
    let mut all = Vec::new();
    for n in 1..=most.min(zones.len()) {
        add(zones, 0, n, &mut Layout::new(), &mut all);
    }
    all
}

/// Quick and whole year of one choice in one aim.
#[derive(Debug, Clone, PartialEq)]
pub struct Apart {
    /// Name of the choice.
    pub name: String,
    /// Aim.
    pub aim: Aim,
    /// By the quick year.
    pub quick: f64,
    /// By the whole year.
    pub whole: f64,
    /// What the sifting allows between them.
    pub bound: f64,
}

/// Quick and whole year of every choice side by side. For proof; the search itself runs whole only
/// what is left.
///
/// # Errors
/// A house that cannot be set up.
pub fn quick_against_whole(
    input: &Input<'_>,
    choices: &[Choice],
    wishes: &Wishes,
) -> Result<Vec<Apart>, SeasonError> {
    let ground = Ground::new(*input)?;
    let (quick, _) = quick_years(&ground, choices, wishes, &mut BTreeMap::new())?;
    let mut all = Vec::new();
    for (choice, quick) in choices.iter().zip(quick) {
        let Some(quick) = quick else { continue };
        let year = year(&Input { choice, ..*input })?;
        let of = Measure::of_year(&year, quick.measure.equipment, quick.measure.holes);
        for aim in Aim::ALL {
            if let (Some(q), Some(w)) = (quick.measure.by(aim), of.by(aim)) {
                all.push(Apart {
                    name: choice.name.clone(),
                    aim,
                    quick: q,
                    whole: w,
                    bound: quick.off(aim),
                });
            }
        }
    }
    Ok(all)
}

#[cfg(test)]
mod tests;
