//! Keeping the constant matrix near the truth: now and then the coefficients that stand in it are
//! set to what was met since the last time, so that few iterations are left to do. What is solved
//! does not change by this, only how fast.

use super::openings::beyond_constant_w;
use super::{Balance, Passage, passes};
use crate::film::NO_PIECES;

/// Steps between two looks at the coefficients: a fortnight of hours.
const EVERY: usize = 14 * 24;
/// Before the first look.
const FIRST: usize = 3 * 24;
/// Every so many steps are looked at.
const SAMPLE: usize = 3;
/// Film coefficients in the matrix stay above this, W/(m2 K).
const LEAST_FILM: f64 = 0.2;

/// Sums of what was met.
#[derive(Debug, Clone, Default)]
pub(super) struct Met {
    since: usize,
    before: bool,
    samples: f64,
    /// Air minus face, and its size, K.
    face_k: Vec<[f64; 2]>,
    /// Slack of the losses, W/(m2 K).
    slack: Vec<f64>,
    /// Leakage, W/K.
    leak: Vec<f64>,
    /// Root of the difference across each passage.
    root_k: Vec<f64>,
}

impl Met {
    pub fn new(faces: usize, zones: usize, passages: usize) -> Self {
        Self {
            face_k: vec![[0.0; 2]; faces],
            slack: vec![0.0; faces],
            leak: vec![0.0; zones],
            root_k: vec![0.0; passages],
            ..Self::default()
        }
    }

    fn clear(&mut self) {
        let (faces, zones, passages) = (self.face_k.len(), self.leak.len(), self.root_k.len());
        *self = Self {
            before: true,
            ..Self::new(faces, zones, passages)
        };
    }
}

impl Balance<'_> {
    /// Looks at the step just accepted, and sets the coefficients anew when it is time.
    pub(super) fn watch(&mut self) {
        let (n, w, met) = (&self.network, &self.work, &mut self.met);
        met.since += 1;
        if met.since.is_multiple_of(SAMPLE) {
            met.samples += 1.0;
            for z in 0..n.zones {
                for f in n.first[z]..n.first[z + 1] {
                    let dt = w.air[z] - w.face[f];
                    met.face_k[f][0] += dt;
                    met.face_k[f][1] += dt.abs();
                    met.slack[f] += w.slack[f];
                }
                met.leak[z] += w.leak[z];
            }
            for (root, p) in met.root_k.iter_mut().zip(&self.passages) {
                *root += (w.air[p.zones[0]] - w.air[p.zones[1]]).abs().sqrt();
            }
        }
        if met.since >= if met.before { EVERY } else { FIRST } {
            self.retune();
        }
    }

    fn retune(&mut self) {
        let (n, met) = (&mut self.network, &mut self.met);
        let samples = met.samples.max(1.0);
        for f in 0..n.area.len() {
            let [signed, size] = met.face_k[f];
            let at = (size / samples).max(0.05).copysign(signed);
            if n.first_piece[f] != NO_PIECES {
                n.convection[f] = self.film.slope_w_per_m2k(n.looks[f], at).max(LEAST_FILM);
                n.tabled[f] = n.convection[f];
            }
            if n.mate[f] == f {
                n.y[f] -= met.slack[f] / samples;
            }
        }
        n.constants();
        for (leak, sum) in self.leak_nominal.iter_mut().zip(&met.leak) {
            *leak = sum / samples;
        }
        for (p, root) in self.passages.iter_mut().zip(&met.root_k) {
            p.tune(root / samples);
        }
        met.clear();
        self.invert();
        // What was lagged was the difference to the old coefficients.
        let (n, w) = (&self.network, &mut self.work);
        passes::films(
            &mut w.lag_film,
            &self.film,
            &n.first_piece,
            &w.air_f,
            &w.face,
            &n.tabled,
        );
        w.lag_face.copy_from_slice(&w.lag_film);
        w.lag_leak.fill(0.0);
        beyond_constant_w(&self.passages, &w.air, &mut w.lag_doors);
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
            for ((o, s), l) in out.iter_mut().zip(steady).zip(&self.leak_nominal) {
                *o = s + l;
            }
            self.responses.push(self.network.response(out, &open));
        }
    }
}
