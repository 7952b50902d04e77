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

    /// A door leaf that with the films of a wall (0.13 inside, 0.04 outside) has this U.
    pub fn leaf(&mut self, u_w_per_m2k: f64, known: Known) -> usize {
        let name = format!("door leaf {u_w_per_m2k} W/m2K");
        if let Some(i) = self
            .model
            .constructions
            .iter()
            .position(|c| c.name == name && c.known == known)
        {
            return i;
        }
        let r = 1.0 / u_w_per_m2k - assembly::FILM_LEVEL_M2K_PER_W - assembly::FILM_OUT_M2K_PER_W;
        self.model.constructions.push(Construction {
            name,
            layers: vec![Layer::Resistance {
                name: "door leaf".to_owned(),
                r_m2k_per_w: r,
            }],
            sun_absorptance_out: 0.6,
            emittance_out: 0.9,
            sun_absorptance_in: 0.6,
            emittance_in: 0.9,
            known,
        });
        self.model.constructions.len() - 1
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
