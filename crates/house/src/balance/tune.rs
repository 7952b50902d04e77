//! Keeping the constant matrix near the truth: now and then the coefficients that stand in it are
//! set to what was met since the last time, so that few iterations are left to do. What is solved
//! does not change by this, only how fast.

use super::arithmetic::Arithmetic;
use super::eight::{Oct, SIDE, each};
use super::faces::beyond_matrix;
use super::openings::{beyond_constant_w, lay_out};
use super::{Balance, Passage};
use pulp::Scalar512b;

/// Steps between two looks at the coefficients: three weeks of hours.
const EVERY: usize = 21 * 24;
/// Before the first look.
const FIRST: usize = 3 * 24;
/// Every so many steps are looked at: in three weeks every hour of the day three times.
const SAMPLE: usize = 7;
/// Film coefficients in the matrix stay above this, W/(m2 K).
const LEAST_FILM: f64 = 0.2;

/// Sums of what was met.
#[derive(Debug, Clone, Default)]
pub(super) struct Met {
    since: usize,
    before: bool,
    samples: f64,
    /// By eight faces.
    faces: Vec<MetFaces>,
    /// Leakage, W/K.
    leak: Vec<Oct>,
    /// Root of the difference across each passage.
    root_k: Vec<f64>,
}

/// What eight faces met.
#[derive(Debug, Clone, Copy, Default)]
#[repr(C, align(64))]
struct MetFaces {
    /// Air minus face, and its size, K.
    apart: Oct,
    size: Oct,
    /// Slack of the losses, W/(m2 K).
    slack: Oct,
}

impl Met {
    pub fn new(faces: usize, zones: usize, passages: usize) -> Self {
        Self {
            faces: vec![MetFaces::default(); faces / SIDE],
            leak: vec![[0.0; SIDE]; zones.div_ceil(SIDE)],
            root_k: vec![0.0; passages],
            ..Self::default()
        }
    }

    fn clear(&mut self) {
        let (faces, zones, passages) =
            (self.faces.len() * SIDE, self.leak.len(), self.root_k.len());
        *self = Self {
            before: true,
            ..Self::new(faces, zones, passages)
        };
    }
}

impl Balance<'_> {
    /// Looks at the step just accepted, and sets the coefficients anew when it is time.
    #[inline(always)]
    pub(super) fn watch<S: Arithmetic>(&mut self, s: S) {
        let (n, w, met) = (&self.network, &self.work, &mut self.met);
        met.since += 1;
        if met.since.is_multiple_of(SAMPLE) {
            met.samples += 1.0;
            let air = w.air.as_flattened();
            let lists = n.eight.iter().zip(&w.hours.face).zip(&w.hours.slack);
            for (met, ((faces, face), slack)) in met.faces.iter_mut().zip(lists) {
                let apart = s.all(air[faces.zone]) - s.take(face);
                met.apart = (s.take(&met.apart) + apart).put();
                met.size = (s.take(&met.size) + apart.abs()).put();
                met.slack = (s.take(&met.slack) + s.take(slack)).put();
            }
            for (met, zones) in met.leak.iter_mut().zip(&w.zones) {
                *met = (s.take(met) + s.take(&zones.leak)).put();
            }
            for (root, p) in met.root_k.iter_mut().zip(&self.passages) {
                *root += (air[p.zones[0]] - air[p.zones[1]]).abs().sqrt();
            }
        }
        if met.since >= if met.before { EVERY } else { FIRST } {
            self.retune();
        }
    }

    #[inline(never)]
    fn retune(&mut self) {
        let s = Scalar512b;
        let (n, met) = (&mut self.network, &mut self.met);
        let samples = met.samples.max(1.0);
        for f in 0..n.area.len() {
            let (faces, i) = (&met.faces[f / SIDE], f % SIDE);
            if !n.stated[f] {
                let at = (faces.size[i] / samples).max(0.05).copysign(faces.apart[i]);
                n.convection[f] = n.looks[f].slope_w_per_m2k(at).max(LEAST_FILM);
            }
            if n.mate[f] == f {
                n.y[f] -= faces.slack[i] / samples;
            }
        }
        n.constants();
        self.outside.tune(n);
        for (zones, sum) in self.work.zones.iter_mut().zip(&met.leak) {
            zones.leak_nominal = sum.map(|sum| sum / samples);
        }
        for (p, root) in self.passages.iter_mut().zip(&met.root_k) {
            p.tune(root / samples);
        }
        met.clear();
        self.invert();
        // What was lagged was the difference to the old coefficients.
        let (n, w) = (&self.network, &mut self.work);
        for q in 0..n.eight.len() {
            let (faces, hour) = (&n.eight[q], &mut w.hours.rest[q]);
            let air = w.air.as_flattened()[faces.zone];
            let apart = s.all(air) - s.take(&w.hours.face[q]);
            hour.lag_film = beyond_matrix(s, faces, apart).put();
            hour.lag_face = hour.lag_film;
        }
        self.passage_octs = lay_out(&self.passages);
        let air = w.air.as_flattened();
        beyond_constant_w(s, &self.passage_octs, air, &mut w.next_doors);
        for (zones, doors) in w.zones.iter_mut().zip(&w.next_doors) {
            (zones.lag_leak, zones.lag_doors) = ([0.0; SIDE], *doors);
        }
    }

    /// Inverts the matrix for every state of the fans.
    pub(super) fn invert(&mut self) {
        let open: Vec<(usize, usize, f64)> = self
            .passages
            .iter()
            .map(|p: &Passage| (p.zones[0], p.zones[1], p.constant_w_per_k))
            .collect();
        self.version += self.steady_air.len();
        self.responses.clear();
        for (steady, out) in self.steady_air.iter().zip(&mut self.outdoor) {
            for ((out, steady), zones) in out.iter_mut().zip(steady).zip(&self.work.zones) {
                *out = each(|i| steady[i] + zones.leak_nominal[i]);
            }
            let out = out.as_flattened();
            self.responses.push(self.network.response(out, &open));
        }
    }
}
