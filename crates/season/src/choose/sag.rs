//! How far a room sags when it is given less heat than it asks.

/// Hours a room is watched while it is given less.
pub(crate) const WATCHED_H: usize = 72;
/// Time constants that are tried for the fast and the slow part, h.
const FAST_H: [f64; 6] = [0.4, 0.8, 1.5, 3.0, 5.0, 8.0];
const SLOW_H: [f64; 6] = [12.0, 24.0, 48.0, 96.0, 160.0, 300.0];

/// A room's answer to a lack of heat: two parts that fade with their own time.
///
/// **Equation** s(h) = x(h) + y(h); x(h) = a x(h-1) + b D(h), y the same with its own a, b
///
/// **Symbols**
/// - s: how far the room is below what it would be, K
/// - D: heat it lacks in the hour, W
/// - a: what is left of it after an hour; b: K per W in the hour itself
///
/// **Range** a from 0 to 1, b from 0 up
///
/// **Source** `from-memory`: linear response; the constants are fitted to the house's own balance
///
/// **Example** b 0.001 K/W and a 0: 500 W missing is 0.5 K, and gone the next hour
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Sag {
    pub a: [f64; 2],
    pub b: [f64; 2],
    /// Kelvin hours other rooms sag for one of this room.
    pub others: f64,
}

/// How far a room is below what it would be, at the end of an hour.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Sagged {
    part_k: [f64; 2],
}

impl Sagged {
    /// What is left at the end of the hour if the room lacks nothing in it, K.
    #[inline]
    pub fn carried_k(self, sag: &Sag) -> f64 {
        sag.a[0] * self.part_k[0] + sag.a[1] * self.part_k[1]
    }

    /// Takes an hour in which the room lacked so much, W (below zero: got more); the sag in K.
    #[inline]
    pub fn take(&mut self, sag: &Sag, lacked_w: f64) -> f64 {
        for i in 0..2 {
            self.part_k[i] = sag.a[i] * self.part_k[i] + sag.b[i] * lacked_w;
        }
        let k = self.part_k[0] + self.part_k[1];
        // What is left of a sag that nobody feels is dropped.
        if lacked_w <= 0.0 && k.abs() < 1e-4 && self.part_k[0].abs() < 1e-2 {
            self.part_k = [0.0; 2];
        }
        k
    }
}

impl Sag {
    /// K per W in the hour itself.
    pub fn at_once_k_per_w(&self) -> f64 {
        self.b[0] + self.b[1]
    }

    /// Fits the two parts to what was watched: heat lacking and the sag that followed, by hour.
    pub fn fit(lacked_w: &[f64], sag_k: &[f64]) -> Self {
        let mut best = (f64::INFINITY, Self::default());
        for fast in FAST_H {
            for slow in SLOW_H {
                let a = [libm::exp(-1.0 / fast), libm::exp(-1.0 / slow)];
                let Some(b) = weights(a, lacked_w, sag_k) else {
                    continue;
                };
                let sag = Self { a, b, others: 0.0 };
                let off = sag.off(lacked_w, sag_k);
                if off < best.0 {
                    best = (off, sag);
                }
            }
        }
        best.1
    }

    /// Sum of squares between the model and what was watched, K2.
    fn off(&self, lacked_w: &[f64], sag_k: &[f64]) -> f64 {
        let mut state = Sagged::default();
        let pairs = lacked_w.iter().zip(sag_k);
        pairs
            .map(|(d, s)| {
                let e = state.take(self, *d) - s;
                e * e
            })
            .sum()
    }
}

/// Weights of the two parts by least squares; a part below zero is left out.
fn weights(a: [f64; 2], lacked_w: &[f64], sag_k: &[f64]) -> Option<[f64; 2]> {
    let (mut u, mut v) = (0.0, 0.0);
    let (mut uu, mut uv, mut vv, mut us, mut vs) = (0.0, 0.0, 0.0, 0.0, 0.0);
    for (d, s) in lacked_w.iter().zip(sag_k) {
        u = a[0] * u + d;
        v = a[1] * v + d;
        uu += u * u;
        uv += u * v;
        vv += v * v;
        us += u * s;
        vs += v * s;
    }
    let det = uu * vv - uv * uv;
    if uu <= 0.0 || vv <= 0.0 {
        return None;
    }
    let both = (
        (us * vv - vs * uv) / det.max(1e-300),
        (vs * uu - us * uv) / det.max(1e-300),
    );
    Some(if both.0 < 0.0 || det <= 1e-12 * uu * vv {
        [0.0, (vs / vv).max(0.0)]
    } else if both.1 < 0.0 {
        [(us / uu).max(0.0), 0.0]
    } else {
        [both.0, both.1]
    })
}

#[cfg(test)]
mod tests {
    use super::{FAST_H, SLOW_H, Sag, Sagged};

    #[test]
    fn gives_back_what_it_was_made_from() {
        let made = Sag {
            a: [libm::exp(-1.0 / FAST_H[2]), libm::exp(-1.0 / SLOW_H[3])],
            b: [8e-4, 2e-5],
            others: 0.0,
        };
        let lacked: Vec<f64> = (0..72).map(|h| 300.0 + f64::from(h % 7) * 20.0).collect();
        let mut state = Sagged::default();
        let sag: Vec<f64> = lacked.iter().map(|d| state.take(&made, *d)).collect();
        let got = Sag::fit(&lacked, &sag);
        assert_eq!(got.a, made.a);
        // Rounding of a two by two system: 1e-9 of the weights.
        assert!((got.b[0] / made.b[0] - 1.0).abs() < 1e-6, "{got:?}");
        assert!((got.b[1] / made.b[1] - 1.0).abs() < 1e-6, "{got:?}");
    }
}
