//! How longwave and sunlight are shared between the faces of a zone.

use physics::film::STEFAN_BOLTZMANN;

use crate::film::Looks;

/// Mean temperature for longwave exchange inside, K (20 C).
const INSIDE_K: f64 = 293.15;

/// One face while the list is made.
#[derive(Clone, Copy)]
pub(super) struct Made {
    pub zone: usize,
    pub area: f64,
    pub looks: Looks,
    pub emittance: f64,
    pub absorptance: f64,
    /// Share of light from the room that leaves through it.
    pub leaves: f64,
    pub floor: bool,
    /// Stated convection and longwave.
    pub stated: Option<[f64; 2]>,
}

impl Made {
    /// A face that only fills a oct.
    pub fn nothing(zone: usize) -> Self {
        Self {
            zone,
            area: 0.0,
            looks: Looks::Level,
            emittance: 1.0,
            absorptance: 0.0,
            leaves: 0.0,
            floor: false,
            stated: Some([0.0; 2]),
        }
    }
}

/// Longwave coefficients to the star of each zone.
///
/// **Equation** h = 4 sigma T^3 / ((1 - e)/e + 1/F), F_i = 1 / (1 - A_i F_i / sum A_j F_j)
///
/// **Symbols** T 293.15 K; e emittance; A area, m2; F shape factor to the mean radiant
/// temperature
///
/// **Range** emittance above 0
///
/// **Source** carroll-1980: mean radiant temperature network, eq. for F_i (from memory)
pub(super) fn star(made: &[Made], zones: usize) -> Vec<f64> {
    let four = 4.0 * STEFAN_BOLTZMANN * INSIDE_K * INSIDE_K * INSIDE_K;
    let mut shape = vec![1.0_f64; made.len()];
    for _ in 0..30 {
        let mut sums = vec![0.0; zones];
        for (m, f) in made.iter().zip(&shape) {
            sums[m.zone] += m.area * f;
        }
        for (m, f) in made.iter().zip(&mut shape) {
            // A face that is nearly the whole enclosure sees mostly itself: at most 3.
            let share = (m.area * *f / sums[m.zone].max(1e-9)).min(0.66);
            *f = 1.0 / (1.0 - share);
        }
    }
    made.iter()
        .zip(shape)
        .map(|(m, f)| {
            let e = m.emittance.clamp(0.02, 1.0);
            four / ((1.0 - e) / e + 1.0 / f)
        })
        .collect()
}

/// How sun and radiant gains are spread over the faces of their zone.
pub(super) struct Shares {
    pub beam: Vec<f64>,
    pub diffuse: Vec<f64>,
    pub radiant: Vec<f64>,
    pub escapes: Vec<[f64; 2]>,
}

impl Shares {
    /// Beam falls on the floor, diffuse on all faces by area; what is not soaked up at once is
    /// spread evenly until it is soaked up or leaves through glass.
    pub fn new(made: &[Made], zones: usize) -> Self {
        let mut area = vec![0.0; zones];
        let mut floor = vec![0.0; zones];
        let mut takes = vec![0.0; zones];
        for m in made {
            area[m.zone] += m.area;
            takes[m.zone] += m.area * (m.absorptance + m.leaves);
            if m.floor {
                floor[m.zone] += m.area;
            }
        }
        // Share of the beam that falls on a face first, per m2.
        let first = |m: &Made| {
            if floor[m.zone] <= 0.0 {
                1.0 / area[m.zone]
            } else if m.floor {
                1.0 / floor[m.zone]
            } else {
                0.0
            }
        };
        // Left over after the first meeting, as a share of the light let in.
        let mut left = vec![[0.0_f64; 2]; zones];
        for m in made {
            let keeps = m.area * (1.0 - m.absorptance - m.leaves);
            left[m.zone][0] += first(m) * keeps;
            left[m.zone][1] += keeps / area[m.zone];
        }
        let mut shares = Self {
            beam: Vec::new(),
            diffuse: Vec::new(),
            radiant: Vec::new(),
            escapes: vec![[0.0; 2]; zones],
        };
        for m in made {
            let z = m.zone;
            let later = 1.0 / takes[z].max(1e-9);
            let beam = first(m) + left[z][0] * later;
            let diffuse = 1.0 / area[z] + left[z][1] * later;
            shares.beam.push(m.absorptance * beam);
            shares.diffuse.push(m.absorptance * diffuse);
            shares.radiant.push(1.0 / area[z]);
            shares.escapes[z][0] += m.area * m.leaves * beam;
            shares.escapes[z][1] += m.area * m.leaves * diffuse;
        }
        shares
    }
}
