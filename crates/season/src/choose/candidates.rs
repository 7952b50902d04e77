//! Candidates from a catalogue: which rooms, one outdoor unit a head or several heads on one, which
//! sizes.

use std::collections::BTreeMap;

use heatpump::{HeadKind, Kind, Sheet};
use jobfile::{Choice, Equipment, HeadChoice, OutdoorChoice};

use super::Wishes;
use super::layout::{Ground, LayoutYear, Served};
use super::measure::Measure;
use super::offers::{Offers, Proposal};
use super::sizes::{Bins, best, bins, by_bins, most_at_w};
use crate::hands::each;
use crate::input::Catalogue;
use crate::plant::{Plant, resolve};

/// A unit is looked at for a room if its most, at the room's coldest asking, is this share of it.
const SIZES: (f64, f64) = (0.6, 3.5);
/// Outdoor units for several heads looked at more closely in a layout.
const CLOSER: usize = 12;

/// An outdoor unit for one head, with a head it was tested with.
#[derive(Debug, Clone, Copy)]
struct Pair<'c> {
    outdoor: &'c Sheet,
    head: &'c Sheet,
}

/// What the sheets offer.
pub(super) struct Shelf<'c> {
    pairs: Vec<Pair<'c>>,
    several: Vec<&'c Sheet>,
    heads: Vec<&'c Sheet>,
    /// Plants of pairs, by pair and by the first room of the model that is kept as this one is.
    ready: BTreeMap<(usize, usize), Plant>,
    /// That room for each.
    like: BTreeMap<usize, usize>,
}

/// What a pair comes to in a room of a layout, by place in the shelf.
type Measured = Vec<(usize, Measure)>;

impl<'c> Shelf<'c> {
    /// Sorts a catalogue and tables every pair for every room.
    pub fn new(
        catalogue: &'c Catalogue,
        kind: HeadKind,
        ground: &Ground<'_>,
        wishes: &Wishes,
        zones: &[usize],
    ) -> Self {
        let mut heads: Vec<&Sheet> = catalogue
            .values()
            .filter(|s| s.kind == Kind::Head(kind))
            .collect();
        heads.sort_by(|a, b| nominal_w(a).total_cmp(&nominal_w(b)));
        let pairs: Vec<Pair<'c>> = catalogue
            .values()
            .filter(|s| s.kind == Kind::OutdoorSingle)
            .filter_map(|outdoor| {
                Some(Pair {
                    outdoor,
                    head: tested(outdoor, &heads)?,
                })
            })
            .collect();
        let several = catalogue
            .values()
            .filter(|s| s.kind == Kind::OutdoorMulti)
            .collect();
        // A table hangs on how warm its room is kept, and on nothing else of it.
        let kept = |z: usize| {
            let of = &ground.schedule;
            (of.mean_heat_c(&[z]), of.mean_cool_c(&[z]))
        };
        let like: BTreeMap<usize, usize> = zones
            .iter()
            .map(|z| {
                let first = zones.iter().find(|first| kept(**first) == kept(*z));
                (*z, *first.unwrap_or(z))
            })
            .collect();
        let mut rooms: Vec<usize> = like.values().copied().collect();
        rooms.sort_unstable();
        rooms.dedup();
        let all = pairs.len() * rooms.len();
        let plants = each(wishes.threads, all, |i| {
            let (p, z) = (i / rooms.len(), rooms[i % rooms.len()]);
            let pair = pairs.get(p)?;
            let room = &ground.input.model.zones.get(z)?.name;
            let choice = single("", room, &pair.outdoor.name, &pair.head.name);
            let plant =
                resolve(&ground.input, &choice, std::iter::empty(), &ground.schedule).ok()?;
            Some(((p, z), plant))
        });
        Self {
            pairs,
            several,
            heads,
            ready: plants.into_iter().flatten().collect(),
            like,
        }
    }

    /// What the pairs of the right size come to in each room of a layout.
    pub fn measured(
        &self,
        ground: &Ground<'_>,
        layout: &LayoutYear,
        wishes: &Wishes,
    ) -> Vec<Measured> {
        let outdoor_c = &ground.input.drive.outdoor_c;
        let rooms = layout.rooms.iter();
        rooms
            .map(|r| self.pairs_in(r, &bins(outdoor_c, &r.need_w), wishes))
            .collect()
    }

    /// What a layout is offered, keeping so many sizes a place.
    pub fn offers(&self, layout: &LayoutYear, measured: &[Measured], keep: usize) -> Offers<'c> {
        let singles: Vec<Vec<Proposal<'c>>> = measured
            .iter()
            .enumerate()
            .map(|(room, pairs)| self.singles(room, pairs, keep))
            .collect();
        let rooms: Vec<usize> = (0..layout.rooms.len()).collect();
        let mut offers = Offers::default();
        if rooms.len() >= 2 {
            offers.together = self.together(layout, &rooms, keep);
        }
        if rooms.len() >= 3 {
            let few = keep.div_ceil(2);
            for (alone, one) in singles.iter().enumerate() {
                let rest: Vec<usize> = rooms.iter().copied().filter(|r| *r != alone).collect();
                let one = one.iter().take(few).cloned().collect();
                offers.both.push((one, self.together(layout, &rest, few)));
            }
        }
        offers.singles = singles;
        offers
    }

    /// The pairs of the right size for a room, by its bins.
    fn pairs_in(&self, served: &Served, bins: &Bins, wishes: &Wishes) -> Measured {
        let fits = |sheet: &Sheet| most_at_w(sheet, served.peak.1) / served.peak.0.max(1.0);
        let mut looked: Vec<usize> = (0..self.pairs.len())
            .filter(|p| (SIZES.0..=SIZES.1).contains(&fits(self.pairs[*p].outdoor)))
            .collect();
        if looked.is_empty() {
            // Nothing of the right size: the nearest.
            let off = |p: &usize| libm::fabs(libm::log(fits(self.pairs[*p].outdoor).max(1e-3)));
            looked.extend((0..self.pairs.len()).min_by(|a, b| off(a).total_cmp(&off(b))));
        }
        let like = self.like.get(&served.zone).copied().unwrap_or(served.zone);
        let cost = |name: &str| wishes.prices.get(name).copied().unwrap_or(0.0);
        looked
            .into_iter()
            .filter_map(|p| {
                let pair = &self.pairs[p];
                let mut measure = by_bins(self.ready.get(&(p, like))?, bins)?;
                measure.equipment = Some(cost(&pair.outdoor.name) + cost(&pair.head.name));
                Some((p, measure))
            })
            .collect()
    }

    /// Those that none beats.
    fn singles(&self, room: usize, measured: &Measured, keep: usize) -> Vec<Proposal<'c>> {
        best(measured, keep)
            .into_iter()
            .map(|p| Proposal {
                outdoor: &self.pairs[p].outdoor.name,
                heads: vec![(room, self.pairs[p].head.name.as_str())],
            })
            .collect()
    }

    /// Rooms together on one outdoor unit.
    fn together(&self, layout: &LayoutYear, rooms: &[usize], keep: usize) -> Vec<Proposal<'c>> {
        let peak: f64 = rooms.iter().map(|r| layout.rooms[*r].peak.0).sum();
        let coldest = rooms
            .iter()
            .map(|r| layout.rooms[*r].peak.1)
            .fold(f64::NAN, f64::min);
        let mut outdoors: Vec<(f64, &Sheet)> = self
            .several
            .iter()
            .filter(|s| {
                s.multi.as_ref().is_some_and(|m| {
                    rooms.len() <= m.most_heads as usize && rooms.len() >= m.least_heads as usize
                })
            })
            .map(|s| {
                (
                    libm::fabs(libm::log(
                        (most_at_w(s, coldest) / peak.max(1.0)).max(1e-3) / 1.2,
                    )),
                    *s,
                )
            })
            .collect();
        outdoors.sort_by(|a, b| a.0.total_cmp(&b.0).then_with(|| a.1.name.cmp(&b.1.name)));
        outdoors.truncate(CLOSER.min(keep));
        let sizes: Vec<Vec<&'c str>> = rooms
            .iter()
            .map(|r| self.sizes(layout.rooms[*r].peak.0))
            .collect();
        let mut all = Vec::new();
        for (_, outdoor) in outdoors {
            let Some(name) = self
                .several
                .iter()
                .find(|s| s.name == outdoor.name)
                .map(|s| s.name.as_str())
            else {
                continue;
            };
            for small in 0..2 {
                let heads: Option<Vec<(usize, &'c str)>> = rooms
                    .iter()
                    .zip(&sizes)
                    .map(|(r, s)| Some((*r, *s.get(small)?)))
                    .collect();
                if let Some(heads) = heads {
                    all.push(Proposal {
                        outdoor: name,
                        heads,
                    });
                }
            }
        }
        all
    }

    /// The smallest head that carries so much, and the next below it.
    fn sizes(&self, peak_w: f64) -> Vec<&'c str> {
        let most = |s: &Sheet| {
            s.head
                .as_ref()
                .and_then(|h| h.heating_max_w)
                .unwrap_or_else(|| nominal_w(s))
        };
        let at = self
            .heads
            .iter()
            .position(|s| most(s) >= peak_w)
            .unwrap_or(self.heads.len().saturating_sub(1));
        let below = (0..at)
            .rev()
            .find(|i| nominal_w(self.heads[*i]) < 0.95 * nominal_w(self.heads[at]));
        [Some(at), below]
            .into_iter()
            .flatten()
            .filter_map(|i| self.heads.get(i).map(|s| s.name.as_str()))
            .collect()
    }
}

fn single(name: &str, room: &str, outdoor: &str, head: &str) -> Choice {
    Choice {
        name: name.to_owned(),
        equipment: Equipment {
            outdoors: vec![OutdoorChoice {
                name: room.to_owned(),
                unit: outdoor.to_owned(),
                serial: None,
            }],
            heads: vec![HeadChoice {
                name: room.to_owned(),
                room: room.to_owned(),
                unit: head.to_owned(),
                on: room.to_owned(),
                serial: None,
            }],
        },
    }
}

fn nominal_w(sheet: &Sheet) -> f64 {
    sheet.head.as_ref().map_or(0.0, |h| h.nominal_w)
}

/// The head a sheet was tested with that the catalogue has; without such a list, the nearest size.
fn tested<'c>(outdoor: &Sheet, heads: &[&'c Sheet]) -> Option<&'c Sheet> {
    if outdoor.tested_with.is_empty() {
        let rated = outdoor
            .heating
            .iter()
            .rev()
            .find_map(|p| p.rated)
            .map_or(0.0, |r| r.capacity_w);
        return heads.iter().copied().min_by(|a, b| {
            (nominal_w(a) - rated)
                .abs()
                .total_cmp(&(nominal_w(b) - rated).abs())
        });
    }
    outdoor
        .tested_with
        .iter()
        .find_map(|name| heads.iter().copied().find(|h| h.name == *name))
}

#[cfg(test)]
mod tests;
