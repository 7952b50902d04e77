//! What a layout is offered, and the candidates that it makes.

use jobfile::{Equipment, HeadChoice, OutdoorChoice};

use super::layout::{Ground, LayoutYear};

/// Systems found for a layout: an outdoor unit and its heads by room of the layout.
#[derive(Debug, Clone)]
pub(super) struct Proposal<'c> {
    pub outdoor: &'c str,
    pub heads: Vec<(usize, &'c str)>,
}

/// What one layout is offered.
#[derive(Debug, Clone, Default)]
pub(super) struct Offers<'c> {
    /// By room, with an outdoor unit of its own.
    pub singles: Vec<Vec<Proposal<'c>>>,
    /// All rooms on one outdoor unit.
    pub together: Vec<Proposal<'c>>,
    /// One room alone, and all others together.
    pub both: Vec<(Vec<Proposal<'c>>, Vec<Proposal<'c>>)>,
}

impl Offers<'_> {
    /// How many candidates they make.
    pub fn count(&self) -> usize {
        let singles = self.singles.iter().map(Vec::len);
        let singles = singles.fold(1_usize, usize::saturating_mul);
        let both = self.both.iter().map(|(one, rest)| one.len() * rest.len());
        singles
            .saturating_add(self.together.len())
            .saturating_add(both.sum())
    }

    /// All candidates on their layout.
    pub fn made(&self, ground: &Ground<'_>, layout: &LayoutYear) -> Vec<Equipment> {
        let mut all = Vec::new();
        product(&self.singles, &mut Vec::new(), &mut |systems| {
            all.push(made(ground, layout, systems));
        });
        for together in &self.together {
            all.push(made(ground, layout, &[together]));
        }
        for (one, rest) in &self.both {
            for one in one {
                for rest in rest {
                    all.push(made(ground, layout, &[one, rest]));
                }
            }
        }
        all
    }
}

fn made(ground: &Ground<'_>, layout: &LayoutYear, systems: &[&Proposal<'_>]) -> Equipment {
    let mut made = Equipment::default();
    let name = |room: usize| {
        layout
            .rooms
            .get(room)
            .and_then(|r| ground.input.model.zones.get(r.zone))
            .map_or("", |z| z.name.as_str())
    };
    for system in systems {
        let rooms: Vec<&str> = system.heads.iter().map(|(r, _)| name(*r)).collect();
        let on = format!("for {}", rooms.join(", "));
        made.outdoors.push(OutdoorChoice {
            name: on.clone(),
            unit: system.outdoor.to_owned(),
            serial: None,
        });
        for ((_, unit), room) in system.heads.iter().zip(&rooms) {
            made.heads.push(HeadChoice {
                name: (*room).to_owned(),
                room: (*room).to_owned(),
                unit: (*unit).to_owned(),
                on: on.clone(),
                serial: None,
            });
        }
    }
    made
}

/// Every way of taking one of each.
fn product<'p, 'c>(
    of: &'p [Vec<Proposal<'c>>],
    taken: &mut Vec<&'p Proposal<'c>>,
    give: &mut impl FnMut(&[&'p Proposal<'c>]),
) {
    match of.get(taken.len()) {
        None => give(taken),
        Some(offers) => {
            for offer in offers {
                taken.push(offer);
                product(of, taken, give);
                taken.pop();
            }
        }
    }
}

#[cfg(test)]
mod tests;
