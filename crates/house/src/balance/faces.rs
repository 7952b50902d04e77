//! Faces eight by eight, and the passes over them: what is done anew in every iteration of every
//! hour. Each pass goes once over the faces and does all there is to do at that point.

use super::arithmetic::{Arithmetic, Eight};
use super::eight::{Oct, Octs, SIDE, cube_roots};
use super::network::Network;

/// Eight faces of one zone: what stands between two tunings.
#[derive(Debug, Clone, Copy, Default)]
#[repr(C, align(64))]
pub(super) struct Faces {
    /// m2.
    pub area: Oct,
    /// Convection and longwave coefficient in the matrix, W/(m2 K).
    pub convection: Oct,
    pub radiant: Oct,
    /// Kelvin of the face per W/m2 on it, everything else held.
    pub inverse: Oct,
    /// The part of `convection` that the film is reckoned from: all of it, or 0 for a stated film.
    pub from_film: Oct,
    /// Natural convection at 1 K, air warmer and face warmer, W/(m2 K).
    pub air_warmer: Oct,
    pub face_warmer: Oct,
    /// Share of the zone's beam, diffuse light and radiant gains, per m2.
    pub takes_beam: Oct,
    pub takes_diffuse: Oct,
    pub takes_radiant: Oct,
    /// Their zone.
    pub zone: usize,
    /// They are the last of their zone.
    pub last: bool,
}

/// The same eight faces in an hour.
#[derive(Debug, Clone, Copy, Default)]
#[repr(C, align(64))]
pub(super) struct Hour {
    /// Sun and radiant gains, W/m2.
    pub sun: Oct,
    /// They and what is given from behind, W/m2.
    pub force: Oct,
    /// The face's part that the zones do not make, C.
    pub part: Oct,
    /// Lagged heat to the face, W/m2: film and loss.
    pub lag_face: Oct,
    /// The film's part of it, taken from the air.
    pub lag_film: Oct,
    /// The same two as the last solution asks for them.
    pub next_face: Oct,
    pub next_film: Oct,
    /// Heat into the face from its room, sun included, W h/m2, since the ledger began.
    pub into: Oct,
    /// Heat the wall took beyond that, W h/m2.
    pub beyond: Oct,
}

/// All faces in an hour. What walls and partitions write and read one by one lies in lists of its
/// own. The last oct belongs to no zone: places that stand for no wall write there.
#[derive(Debug, Clone, Default)]
pub(super) struct Hours {
    /// Heat on the face from behind it that does not depend on the unknowns, W/m2.
    pub given: Octs,
    /// Loss in the matrix less the true loss of this hour, W/(m2 K).
    pub slack: Octs,
    /// C.
    pub face: Octs,
    /// What pushes a face, W/m2, or what its zone pulls at it, W/m2: its mate feels it too.
    push: Octs,
    /// What the other face of a partition adds, C; 0 for all others.
    mate: Octs,
    /// All else.
    pub rest: Vec<Hour>,
}

impl Hours {
    /// At the start, everything at one temperature.
    pub fn new(n: &Network, start_c: f64) -> Self {
        let octs = n.faces() / SIDE + 1;
        let none = Octs::new(octs, 0.0);
        Self {
            given: none.clone(),
            slack: none.clone(),
            face: Octs::new(octs, start_c),
            push: none.clone(),
            mate: none.clone(),
            rest: vec![Hour::default(); octs],
        }
    }

    /// What one face of each partition feels of the other.
    #[inline(always)]
    fn exchange(&mut self, n: &Network) {
        let (push, mate) = (self.push.as_flattened(), self.mate.as_flattened_mut());
        for p in &n.mates {
            let [a, b] = p.faces.map(|f| f as usize);
            mate[a] = p.inverse * push[b];
            mate[b] = p.inverse * push[a];
        }
    }

    /// Sun and radiant gains on every face, and the first guess of what is lagged: the losses of
    /// this hour with the faces as they were.
    #[inline(always)]
    pub fn begin<S: Arithmetic>(
        &mut self,
        s: S,
        n: &Network,
        beam: &[Oct],
        diffuse: &[Oct],
        radiant: &[Oct],
    ) {
        let (beam, diffuse) = (beam.as_flattened(), diffuse.as_flattened());
        let radiant = radiant.as_flattened();
        let lists = self.given.iter().zip(&self.slack).zip(&self.face);
        for ((c, h), ((given, slack), face)) in n.eight.iter().zip(&mut self.rest).zip(lists) {
            let z = c.zone;
            let sun = (s.take(&c.takes_beam) * beam[z])
                .plus(s.take(&c.takes_diffuse), s.all(diffuse[z]))
                .plus(s.take(&c.takes_radiant), s.all(radiant[z]));
            h.sun = sun.put();
            h.force = (s.take(given) + sun).put();
            h.lag_face = s.take(&h.lag_film).plus(s.take(slack), s.take(face)).put();
        }
    }

    /// Parts of the faces that the zones do not make, and what they give to air and star of each
    /// zone: the right-hand side, air first.
    #[inline(always)]
    pub fn gifts<S: Arithmetic>(&mut self, s: S, n: &Network, base: &[Oct], right: &mut [f64]) {
        for (push, h) in self.push.iter_mut().zip(&self.rest) {
            *push = (s.take(&h.force) + s.take(&h.lag_face)).put();
        }
        self.exchange(n);
        let (air, star) = right.split_at_mut(n.zones);
        air.copy_from_slice(&base.as_flattened()[..n.zones]);
        let lists = self.push.iter().zip(&self.mate);
        let faces = n.eight.iter().zip(&mut self.rest);
        let (mut to_air, mut to_star) = (s.all(0.0), s.all(0.0));
        for ((c, h), (push, mate)) in faces.zip(lists) {
            let part = s.take(mate).plus(s.take(&c.inverse), s.take(push));
            let area = s.take(&c.area);
            h.part = part.put();
            to_air = to_air.plus(area, s.take(&c.convection) * part - s.take(&h.lag_film));
            to_star = to_star.plus(area, s.take(&c.radiant) * part);
            if c.last {
                air[c.zone] += to_air.sum();
                star[c.zone] = to_star.sum();
                (to_air, to_star) = (s.all(0.0), s.all(0.0));
            }
        }
    }

    /// Face temperatures from air and stars, and the film and loss they ask for. Tells by how much
    /// these differ from the ones used, in the zone where they differ most, W.
    #[inline(always)]
    pub fn answers<S: Arithmetic>(&mut self, s: S, n: &Network, air: &[Oct], star: &[Oct]) -> f64 {
        let (air, star) = (air.as_flattened(), star.as_flattened());
        for (c, push) in n.eight.iter().zip(&mut self.push) {
            let (hc, hr) = (s.take(&c.convection), s.take(&c.radiant));
            *push = (hc * air[c.zone]).plus(hr, s.all(star[c.zone])).put();
        }
        self.exchange(n);
        let lists = self.push.iter().zip(&self.mate).zip(&self.slack);
        let faces = n.eight.iter().zip(&mut self.rest).zip(&mut self.face);
        let (mut most, mut moved) = (0.0, s.all(0.0));
        for (((c, h), face), ((pull, mate), slack)) in faces.zip(lists) {
            let t = (s.take(&h.part) + s.take(mate)).plus(s.take(&c.inverse), s.take(pull));
            let film = beyond_matrix(s, c, s.all(air[c.zone]) - t);
            let all = film.plus(s.take(slack), t);
            *face = t.put();
            h.next_film = film.put();
            h.next_face = all.put();
            moved = moved.plus(s.take(&c.area), (all - s.take(&h.lag_face)).abs());
            if c.last {
                let here = moved.sum();
                most = if here > most { here } else { most };
                moved = s.all(0.0);
            }
        }
        most
    }

    /// Goes by `step` towards the films the solution asks for.
    #[inline(always)]
    pub fn take_films<S: Arithmetic>(&mut self, s: S, step: f64) {
        let step = s.all(step);
        for h in &mut self.rest {
            let (face, film) = (s.take(&h.lag_face), s.take(&h.lag_film));
            h.lag_face = face.plus(s.take(&h.next_face) - face, step).put();
            h.lag_film = film.plus(s.take(&h.next_film) - film, step).put();
        }
    }

    /// Writes the accepted hour into the ledger, takes over its films, and tells what the walls of
    /// each zone took beyond what their faces gave, because the loss was lagged, W.
    #[inline(always)]
    pub fn close<S: Arithmetic>(
        &mut self,
        s: S,
        n: &Network,
        dt_h: f64,
        air: &[Oct],
        star: &[Oct],
        owed: &mut [Oct],
    ) {
        let (air, star) = (air.as_flattened(), star.as_flattened());
        let dt = s.all(dt_h);
        let lists = self.slack.iter().zip(&self.face);
        let faces = n.eight.iter().zip(&mut self.rest);
        let (owed, mut beyond_w) = (owed.as_flattened_mut(), s.all(0.0));
        for ((c, h), (slack, t)) in faces.zip(lists) {
            let (t, film) = (s.take(t), s.take(&h.lag_film));
            let beyond = (s.take(&h.lag_face) - film).less(s.take(slack), t);
            let room = (film + s.take(&h.sun))
                .plus(s.take(&c.convection), s.all(air[c.zone]) - t)
                .plus(s.take(&c.radiant), s.all(star[c.zone]) - t);
            h.into = s.take(&h.into).plus(room, dt).put();
            h.beyond = s.take(&h.beyond).plus(beyond, dt).put();
            h.lag_film = h.next_film;
            beyond_w = beyond_w.plus(s.take(&c.area), beyond);
            if c.last {
                owed[c.zone] = beyond_w.sum();
                beyond_w = s.all(0.0);
            }
        }
    }
}

/// Film heat beyond the coefficient in the matrix, W/m2, with the air `apart` K warmer.
#[inline(always)]
pub(super) fn beyond_matrix<S: Arithmetic>(s: S, c: &Faces, apart: Eight<S>) -> Eight<S> {
    let none = s.all(0.0);
    let (air_warmer, face_warmer) = (s.take(&c.air_warmer), s.take(&c.face_warmer));
    let natural = apart.below(none, face_warmer, air_warmer);
    none.less(s.take(&c.from_film), apart)
        .plus(cube_roots(s, apart) * natural, apart)
}
