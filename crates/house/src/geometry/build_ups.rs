//! Which construction stands where: the described one, else the usual one, marked assumed.

use super::draft::Draft;
use super::problem::GeometryError;
use crate::assembly::{self, Flow};
use crate::describe::{Construction, Layer};
use crate::library;
use reckon::Known;

/// Construction names with a set meaning.
pub(super) const SET_NAMES: [&str; 9] = [
    "wall",
    "roof",
    "ceiling",
    "floor",
    "partition",
    "slab",
    "basement wall",
    "open floor",
    "attic roof",
];

impl Draft<'_> {
    /// Index of a construction by name. A name that is not described gets the usual build-up.
    pub fn build_up(&mut self, name: &str) -> usize {
        if let Some(i) = self.model.constructions.iter().position(|c| c.name == name) {
            return i;
        }
        match library::usual_construction(name) {
            Ok(c) => self.model.constructions.push(c),
            Err(e) => {
                // only reached when the library itself is at fault; say so rather than stop
                self.bad.push(GeometryError::new(
                    format!("construction.{name}"),
                    "no usual build-up for this name",
                    e.to_string(),
                    "a described construction",
                    "describe it in the job",
                ));
                return 0;
            }
        }
        self.model.constructions.len() - 1
    }

    /// As [`Draft::build_up`], unless one is described for this room alone: `open floor of porch`.
    pub fn build_up_of(&mut self, name: &str, room: usize) -> usize {
        let own = format!("{name} of {}", self.name(room));
        match self.model.constructions.iter().position(|c| c.name == own) {
            Some(i) => i,
            None => self.build_up(name),
        }
    }

    /// A door leaf of a room that with the films of a wall (0.13 inside, 0.04 outside) has this U.
    /// Doors alike and known alike are of one leaf, which is named by their rooms.
    pub fn leaf(&mut self, u_w_per_m2k: f64, known: Known, room: usize) -> usize {
        let r = 1.0 / u_w_per_m2k - assembly::FILM_LEVEL_M2K_PER_W - assembly::FILM_OUT_M2K_PER_W;
        let layers = vec![Layer::Resistance {
            name: "door leaf".to_owned(),
            r_m2k_per_w: r,
        }];
        let alike = |c: &Construction| c.known == known && c.layers == layers;
        let constructions = &self.model.constructions;
        let is = |(i, _): &(usize, Vec<usize>)| constructions.get(*i).is_some_and(alike);
        let there = self.leaves.iter().position(is);
        let (at, mut rooms) = match there {
            Some(k) => self.leaves.swap_remove(k),
            None => (constructions.len(), Vec::new()),
        };
        if !rooms.contains(&room) {
            rooms.push(room);
        }
        let name = self.leaf_name(&rooms, at);
        self.leaves.push((at, rooms));
        match self.model.constructions.get_mut(at) {
            Some(leaf) => leaf.name = name,
            None => self.model.constructions.push(Construction {
                name,
                layers,
                sun_absorptance_out: 0.6,
                emittance_out: 0.9,
                sun_absorptance_in: 0.6,
                emittance_in: 0.9,
                known,
            }),
        }
        at
    }

    /// "door leaf of hall and kitchen"; numbered where another construction is called so.
    fn leaf_name(&self, rooms: &[usize], at: usize) -> String {
        let rooms: Vec<&str> = rooms.iter().map(|r| self.name(*r)).collect();
        let plain = format!("door leaf of {}", rooms.join(" and "));
        let taken = |name: &str| {
            let all = self.model.constructions.iter().enumerate();
            all.into_iter().any(|(i, c)| i != at && c.name == name)
        };
        let numbered = (2..).map(|n| format!("{plain}, {n}"));
        std::iter::once(plain.clone())
            .chain(numbered)
            .find(|name| !taken(name))
            .unwrap_or(plain)
    }

    /// Resistance without films of a construction by index, m2 K/W.
    pub fn resistance(&mut self, construction: usize, flow: Flow) -> f64 {
        let Some(c) = self.model.constructions.get(construction) else {
            return 0.0;
        };
        match assembly::r_without_films_m2k_per_w(c, flow) {
            Ok(r) => r,
            Err(e) => {
                let place = format!("construction.{}", c.name);
                self.bad.push(GeometryError::new(
                    place,
                    e.what,
                    e.got,
                    e.usable,
                    "correct the layer",
                ));
                0.0
            }
        }
    }
}
