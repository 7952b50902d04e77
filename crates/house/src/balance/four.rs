//! Faces four by four, and the passes over them: what is done anew in every iteration of every
//! hour. Each pass goes once over the faces and does all there is to do at that point. What it reads
//! it takes out first and what it writes it puts back last: only then does the compiler see that
//! four can go at once.

use super::network::Network;
use super::quad::{Quad, SIDE, clear, cube_roots, each};

/// Four faces of one zone: what stands between two tunings.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Faces {
    /// Their zone.
    pub zone: usize,
    /// m2.
    pub area: Quad,
    /// Convection and longwave coefficient in the matrix, W/(m2 K).
    pub convection: Quad,
    pub radiant: Quad,
    /// Kelvin of the face per W/m2 on it, everything else held.
    pub inverse: Quad,
    /// The part of `convection` that the film is reckoned from: all of it, or 0 for a stated film.
    pub from_film: Quad,
    /// Natural convection at 1 K, air warmer and face warmer, W/(m2 K).
    pub air_warmer: Quad,
    pub face_warmer: Quad,
    /// Share of the zone's beam, diffuse light and radiant gains, per m2.
    pub takes_beam: Quad,
    pub takes_diffuse: Quad,
    pub takes_radiant: Quad,
}

/// The same four faces in an hour.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Hour {
    /// Sun and radiant gains, W/m2.
    pub sun: Quad,
    /// They and what is given from behind, W/m2.
    pub force: Quad,
    /// The face's part that the zones do not make, C.
    pub part: Quad,
    /// Lagged heat to the face, W/m2: film and loss.
    pub lag_face: Quad,
    /// The film's part of it, taken from the air.
    pub lag_film: Quad,
    /// The same two as the last solution asks for them.
    pub next_face: Quad,
    pub next_film: Quad,
    /// Heat into the face from its room, sun included, W h/m2, since the ledger began.
    pub into: Quad,
    /// Heat the wall took beyond that, W h/m2.
    pub beyond: Quad,
}

/// All faces in an hour. What walls and partitions write and read one by one lies in lists of its
/// own. The last quad belongs to no zone: places that stand for no wall write there.
#[derive(Debug, Clone, Default)]
pub(super) struct Hours {
    /// Heat on the face from behind it that does not depend on the unknowns, W/m2.
    pub given: Vec<Quad>,
    /// Loss in the matrix less the true loss of this hour, W/(m2 K).
    pub slack: Vec<Quad>,
    /// C.
    pub face: Vec<Quad>,
    /// What pushes a face, W/m2, or what its zone pulls at it, W/m2: its mate feels it too.
    push: Vec<Quad>,
    /// What the other face of a partition adds, C; 0 for all others.
    mate: Vec<Quad>,
    /// What each face gives to air and star, W. Added up by zone in a loop of its own: added up
    /// at once, the compiler takes the faces two by two.
    to_air: Vec<Quad>,
    to_star: Vec<Quad>,
    /// By how much the lagged heat of each zone's faces moved, W.
    moved: Vec<Quad>,
    /// All else.
    pub rest: Vec<Hour>,
}

impl Hours {
    /// At the start, everything at one temperature.
    pub fn new(n: &Network, start_c: f64) -> Self {
        let quads = n.faces() / SIDE + 1;
        let none: Vec<Quad> = vec![[0.0; SIDE]; quads];
        Self {
            given: none.clone(),
            slack: none.clone(),
            face: vec![[start_c; SIDE]; quads],
            push: none.clone(),
            mate: none.clone(),
            to_air: none.clone(),
            to_star: none.clone(),
            moved: vec![[0.0; SIDE]; n.zone_quads()],
            rest: vec![Hour::default(); quads],
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
    pub fn begin(&mut self, n: &Network, beam: &[Quad], diffuse: &[Quad], radiant: &[Quad]) {
        let (beam, diffuse) = (beam.as_flattened(), diffuse.as_flattened());
        let radiant = radiant.as_flattened();
        let lists = self.given.iter().zip(&self.slack).zip(&self.face);
        let four = n.four.iter().zip(&mut self.rest);
        for ((c, h), ((given, slack), face)) in four.zip(lists) {
            let (beam, diffuse, gains) = (beam[c.zone], diffuse[c.zone], radiant[c.zone]);
            let (tb, td, tr) = (c.takes_beam, c.takes_diffuse, c.takes_radiant);
            let film = h.lag_film;
            let sun = each(|i| tb[i] * beam + td[i] * diffuse + tr[i] * gains);
            let force = each(|i| given[i] + sun[i]);
            let lag = each(|i| film[i] + slack[i] * face[i]);
            h.sun = sun;
            h.force = force;
            h.lag_face = lag;
        }
    }

    /// Parts of the faces that the zones do not make, and what they give to air and star of each
    /// zone: the right-hand side, air first.
    #[inline(always)]
    pub fn gifts(&mut self, n: &Network, base: &[Quad], right: &mut [f64]) {
        for (push, h) in self.push.iter_mut().zip(&self.rest) {
            let (force, lag) = (h.force, h.lag_face);
            *push = each(|i| force[i] + lag[i]);
        }
        self.exchange(n);
        let lists = self.push.iter().zip(&self.mate);
        let sums = self.to_air.iter_mut().zip(&mut self.to_star);
        let four = n.four.iter().zip(&mut self.rest);
        for (((c, h), (push, mate)), (to_air, to_star)) in four.zip(lists).zip(sums) {
            let (inverse, area, hc, hr) = (c.inverse, c.area, c.convection, c.radiant);
            let film = h.lag_film;
            let part = each(|i| inverse[i] * push[i] + mate[i]);
            h.part = part;
            *to_air = each(|i| area[i] * (hc[i] * part[i] - film[i]));
            *to_star = each(|i| area[i] * (hr[i] * part[i]));
        }
        let (air, star) = right.split_at_mut(n.zones);
        for ((air, star), base) in air.iter_mut().zip(&mut *star).zip(base.as_flattened()) {
            (*air, *star) = (*base, 0.0);
        }
        n.add_by_zone(&self.to_air, air);
        n.add_by_zone(&self.to_star, star);
    }

    /// Face temperatures from air and stars, and the film and loss they ask for. Tells by how much
    /// these differ from the ones used, in the zone where they differ most, W.
    #[inline(always)]
    pub fn answers(&mut self, n: &Network, air: &[Quad], star: &[Quad]) -> f64 {
        let (air, star) = (air.as_flattened(), star.as_flattened());
        for (c, push) in n.four.iter().zip(&mut self.push) {
            let (air, star) = (air[c.zone], star[c.zone]);
            let (hc, hr) = (c.convection, c.radiant);
            *push = each(|i| hc[i] * air + hr[i] * star);
        }
        self.exchange(n);
        let lists = self.push.iter().zip(&self.mate).zip(&self.slack);
        let writes = self.face.iter_mut().zip(&mut self.to_air);
        let four = n.four.iter().zip(&mut self.rest);
        for (((c, h), ((pull, mate), slack)), (face, moved)) in four.zip(lists).zip(writes) {
            let air = air[c.zone];
            let (inverse, area) = (c.inverse, c.area);
            let (part, lag) = (h.part, h.lag_face);
            let t = each(|i| part[i] + inverse[i] * pull[i] + mate[i]);
            let film = beyond_matrix(c, each(|i| air - t[i]));
            let all = each(|i| film[i] + slack[i] * t[i]);
            *face = t;
            h.next_film = film;
            h.next_face = all;
            *moved = each(|i| area[i] * (all[i] - lag[i]).abs());
        }
        clear(&mut self.moved);
        n.add_by_zone(&self.to_air, self.moved.as_flattened_mut());
        let mut most = 0.0;
        for moved in self.moved.as_flattened() {
            most = if *moved > most { *moved } else { most };
        }
        most
    }

    /// Goes by `step` towards the films the solution asks for.
    #[inline(always)]
    pub fn take_films(&mut self, step: f64) {
        for h in &mut self.rest {
            let (face, film, to_face, to_film) = (h.lag_face, h.lag_film, h.next_face, h.next_film);
            h.lag_face = each(|i| face[i] + step * (to_face[i] - face[i]));
            h.lag_film = each(|i| film[i] + step * (to_film[i] - film[i]));
        }
    }

    /// Writes the accepted hour into the ledger, takes over its films, and tells what the walls of
    /// each zone took beyond what their faces gave, because the loss was lagged, W.
    #[inline(always)]
    pub fn close(
        &mut self,
        n: &Network,
        dt_h: f64,
        air: &[Quad],
        star: &[Quad],
        owed: &mut [Quad],
    ) {
        let (air, star) = (air.as_flattened(), star.as_flattened());
        let lists = self.slack.iter().zip(&self.face);
        let four = n.four.iter().zip(&mut self.rest);
        for (((c, h), (slack, t)), beyond_w) in four.zip(lists).zip(&mut self.to_air) {
            let (air, star) = (air[c.zone], star[c.zone]);
            let (area, hc, hr) = (c.area, c.convection, c.radiant);
            let (lag, film, sun, next) = (h.lag_face, h.lag_film, h.sun, h.next_film);
            let (into, past) = (h.into, h.beyond);
            let beyond = each(|i| lag[i] - film[i] - slack[i] * t[i]);
            let room = each(|i| hc[i] * (air - t[i]) + hr[i] * (star - t[i]));
            h.into = each(|i| into[i] + dt_h * (room[i] + film[i] + sun[i]));
            h.beyond = each(|i| past[i] + dt_h * beyond[i]);
            h.lag_film = next;
            *beyond_w = each(|i| area[i] * beyond[i]);
        }
        clear(owed);
        n.add_by_zone(&self.to_air, owed.as_flattened_mut());
    }
}

/// Film heat beyond the coefficient in the matrix, W/m2, with the air `apart` K warmer.
#[inline(always)]
pub(super) fn beyond_matrix(c: &Faces, apart: Quad) -> Quad {
    let (air_warmer, face_warmer, from_film) = (c.air_warmer, c.face_warmer, c.from_film);
    let root = cube_roots(apart);
    let warmer = each(|i| if apart[i] > 0.0 { apart[i] } else { 0.0 });
    let colder = each(|i| if apart[i] < 0.0 { apart[i] } else { 0.0 });
    let heat = each(|i| root[i] * (air_warmer[i] * warmer[i] + face_warmer[i] * colder[i]));
    each(|i| heat[i] - from_film[i] * apart[i])
}
