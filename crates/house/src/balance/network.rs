//! The constant part of the house: which face touches which air, and the matrix that ties the
//! zones together, inverted once.
//!
//! Faces come in three groups, in this order: opaque surfaces to outside, ground or nothing;
//! windows; partitions, both faces of each beside the other. Unknowns are the air and the radiant
//! star of every zone; every face is eliminated by hand.

use nalgebra::DMatrix;
use physics::film::STEFAN_BOLTZMANN;

use super::bank::Bank;
use crate::assembly::{AssemblyError, Flow, resolved};
use crate::drive::Drive;
use crate::film::Looks;
use crate::glazing::Glass;
use crate::model::{Behind, Model};
use crate::wall::WallModes;

/// Mean temperature for longwave exchange inside, K (20 C).
const INSIDE_K: f64 = 293.15;
/// Longwave emittance of glass inside.
const GLASS_EMITTANCE: f64 = 0.84;
/// Share of sun that glass and its surroundings inside do not matter for: an inner face's
/// absorptance where a construction is unknown.
const USUAL_ABSORPTANCE: f64 = 0.6;

/// What drives the outer side of an opaque face.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Outer {
    /// A column of the drive.
    Weather(usize),
    /// The ground: conductance to the virtual temperature, W/(m2 K), and the contact it belongs to.
    Ground {
        /// W/(m2 K).
        conductance: f64,
        /// Index into the model's surfaces.
        surface: usize,
    },
    /// No heat passes.
    Nothing,
}

/// The network of one house.
#[derive(Debug, Clone)]
pub struct Network {
    /// Zones.
    pub zones: usize,
    /// Opaque outer faces.
    pub outer: usize,
    /// Window faces.
    pub windows: usize,
    /// Partitions (two faces each).
    pub partitions: usize,
    /// Zone of each face.
    pub zone: Vec<usize>,
    /// Area of each face, m2.
    pub area: Vec<f64>,
    /// Which way each face looks.
    pub looks: Vec<Looks>,
    /// Convection coefficient in the matrix, W/(m2 K).
    pub convection: Vec<f64>,
    /// Longwave coefficient to the star, W/(m2 K).
    pub radiant: Vec<f64>,
    /// Share of a zone's beam sun soaked up by a face, per m2 of the face.
    pub takes_beam: Vec<f64>,
    /// Share of a zone's diffuse sun, and of radiant gains, per m2 of the face.
    pub takes_diffuse: Vec<f64>,
    /// Share of radiant gains per m2.
    pub takes_radiant: Vec<f64>,
    /// Share of a zone's (beam, diffuse) sun that leaves through its windows again.
    pub escapes: Vec<[f64; 2]>,
    /// Surface of each opaque outer face, in bank order.
    pub surface_of_outer: Vec<usize>,
    /// Pane of each window face.
    pub pane_of_window: Vec<usize>,
    /// Surface of each partition.
    pub surface_of_partition: Vec<usize>,
    /// Drive of each opaque outer face.
    pub outer_drive: Vec<Outer>,
    /// Wall constants of outer faces.
    pub g_in: Vec<f64>,
    /// Wall constants of outer faces.
    pub g_out: Vec<f64>,
    /// Wall constants of outer faces.
    pub g_cross: Vec<f64>,
    /// Loss of the inside face to the wall that stands in the matrix, W/(m2 K), outer then window.
    pub y: Vec<f64>,
    /// 1 / (convection + radiant + y) of outer and window faces.
    pub inverse: Vec<f64>,
    /// Inverse of each partition's 2 by 2: first, cross, second.
    pub inverse2: Vec<[f64; 3]>,
    /// Walls of outer faces.
    pub outer_bank: Bank,
    /// Walls of partitions; inside is the first face.
    pub partition_bank: Bank,
    /// Wall modes, kept to settle the banks.
    pub outer_walls: Vec<WallModes>,
    /// Wall modes of partitions.
    pub partition_walls: Vec<WallModes>,
    /// Capacity of air and contents over the step, W/K.
    pub capacity: Vec<f64>,
    /// Outdoor air by fixed air changes, W/K.
    pub fixed_air: Vec<f64>,
}

/// One face while the list is made.
struct Made {
    zone: usize,
    area: f64,
    looks: Looks,
    emittance: f64,
    absorptance: f64,
    floor: bool,
}

impl Network {
    /// Builds the network of a house.
    ///
    /// # Errors
    /// A construction whose layers cannot be used.
    pub fn new(model: &Model, glasses: &[Glass], drive: &Drive) -> Result<Self, AssemblyError> {
        let step_s = drive.step_s();
        let mut walls: Vec<(usize, WallModes)> = Vec::new();
        for (i, s) in model.surfaces.iter().enumerate() {
            let Some(c) = model.constructions.get(s.construction) else {
                continue;
            };
            let mut slabs = resolved(c, Flow::of_tilt(s.tilt_deg))?;
            if let Behind::Ground(contact) = &s.behind {
                slabs.insert(
                    0,
                    crate::assembly::Slab {
                        r_m2k_per_w: contact.soil_m / model.soil.k_w_per_mk,
                        c_j_per_m2k: contact.soil_m * model.soil.capacity_j_per_m3k,
                    },
                );
            }
            walls.push((i, WallModes::new(&slabs, step_s)));
        }
        walls.sort_by(|(i, a), (j, b)| b.modes.len().cmp(&a.modes.len()).then(i.cmp(j)));
        let (between, outside): (Vec<_>, Vec<_>) = walls
            .into_iter()
            .partition(|(i, _)| matches!(model.surfaces[*i].behind, Behind::Zone(_)));

        let mut made: Vec<Made> = Vec::new();
        let inside = |i: usize| {
            let s = &model.surfaces[i];
            let c = &model.constructions[s.construction];
            Made {
                zone: s.zone,
                area: s.area_m2,
                looks: Looks::of_tilt(s.tilt_deg),
                emittance: c.emittance_in,
                absorptance: c.sun_absorptance_in,
                floor: s.tilt_deg > 150.0,
            }
        };
        for (i, _) in &outside {
            made.push(inside(*i));
        }
        for p in &model.panes {
            let glass = glasses.get(p.glazing);
            made.push(Made {
                zone: p.zone,
                area: p.area_m2,
                looks: Looks::of_tilt(p.tilt_deg),
                emittance: GLASS_EMITTANCE,
                absorptance: glass.map_or(USUAL_ABSORPTANCE, |g| g.from_room_soaked),
                floor: false,
            });
        }
        for (i, _) in &between {
            made.push(inside(*i));
            let s = &model.surfaces[*i];
            let c = &model.constructions[s.construction];
            let Behind::Zone(other) = s.behind else {
                continue;
            };
            made.push(Made {
                zone: other,
                area: s.area_m2,
                looks: Looks::of_tilt(180.0 - s.tilt_deg),
                emittance: c.emittance_out,
                absorptance: c.sun_absorptance_out,
                floor: s.tilt_deg < 30.0,
            });
        }
        let zones = model.zones.len();
        let share = Shares::new(&made, model, glasses, outside.len(), zones);
        let air = drive.air_j_per_m3k;
        let mut network = Self {
            zones,
            outer: outside.len(),
            windows: model.panes.len(),
            partitions: between.len(),
            zone: made.iter().map(|m| m.zone).collect(),
            area: made.iter().map(|m| m.area).collect(),
            looks: made.iter().map(|m| m.looks).collect(),
            convection: made.iter().map(|m| m.looks.constant_w_per_m2k()).collect(),
            radiant: star(&made, zones),
            takes_beam: share.beam,
            takes_diffuse: share.diffuse,
            takes_radiant: share.radiant,
            escapes: share.escapes,
            surface_of_outer: outside.iter().map(|(i, _)| *i).collect(),
            pane_of_window: (0..model.panes.len()).collect(),
            surface_of_partition: between.iter().map(|(i, _)| *i).collect(),
            outer_drive: outside
                .iter()
                .map(|(i, _)| outer_of(*i, model, drive))
                .collect(),
            g_in: outside.iter().map(|(_, w)| w.g_in).collect(),
            g_out: outside.iter().map(|(_, w)| w.g_out).collect(),
            g_cross: outside.iter().map(|(_, w)| w.g_cross).collect(),
            y: Vec::new(),
            inverse: Vec::new(),
            inverse2: Vec::new(),
            outer_bank: Bank::new(&outside.iter().map(|(_, w)| w).collect::<Vec<_>>()),
            partition_bank: Bank::new(&between.iter().map(|(_, w)| w).collect::<Vec<_>>()),
            outer_walls: outside.into_iter().map(|(_, w)| w).collect(),
            partition_walls: between.into_iter().map(|(_, w)| w).collect(),
            capacity: model
                .zones
                .iter()
                .map(|z| (z.volume_m3 * air + z.contents_j_per_k) / step_s)
                .collect(),
            fixed_air: model
                .zones
                .iter()
                .map(|z| z.fixed_air_m3_per_s * air)
                .collect(),
        };
        network.constants(model, glasses);
        Ok(network)
    }

    /// Losses of faces that stand in the matrix, under a usual outside film.
    fn constants(&mut self, model: &Model, glasses: &[Glass]) {
        const USUAL_OUT: f64 = 18.0;
        for f in 0..self.outer {
            let out = match self.outer_drive[f] {
                Outer::Weather(_) => USUAL_OUT,
                Outer::Ground { conductance, .. } => conductance,
                Outer::Nothing => 0.0,
            };
            let c = self.g_cross[f];
            self.y.push(self.g_in[f] - c * c / (out + self.g_out[f]));
        }
        for w in 0..self.windows {
            let g = glasses
                .get(model.panes[self.pane_of_window[w]].glazing)
                .map_or(6.0, |g| g.core_w_per_m2k);
            self.y.push(g * USUAL_OUT / (g + USUAL_OUT));
        }
        for f in 0..self.outer + self.windows {
            self.inverse
                .push(1.0 / (self.convection[f] + self.radiant[f] + self.y[f]));
        }
        for p in 0..self.partitions {
            let f = self.outer + self.windows + 2 * p;
            let wall = &self.partition_walls[p];
            let a = self.convection[f] + self.radiant[f] + wall.g_in;
            let b = self.convection[f + 1] + self.radiant[f + 1] + wall.g_out;
            let c = wall.g_cross;
            let d = a * b - c * c;
            self.inverse2.push([b / d, -c / d, a / d]);
        }
    }

    /// The matrix of zones (air first, then stars) with these outdoor-air conductances (W/K) and
    /// opening conductances (zone, zone, W/K), inverted; row by row.
    pub fn response(&self, outdoor_w_per_k: &[f64], openings: &[(usize, usize, f64)]) -> Vec<f64> {
        let n = self.zones;
        let mut m = DMatrix::<f64>::zeros(2 * n, 2 * n);
        for z in 0..n {
            m[(z, z)] = self.capacity[z] + outdoor_w_per_k[z];
            // A zone without faces has no star to speak of; keep the matrix regular.
            m[(n + z, n + z)] = 1e-6;
        }
        for &(a, b, g) in openings {
            m[(a, a)] += g;
            m[(b, b)] += g;
            m[(a, b)] -= g;
            m[(b, a)] -= g;
        }
        let mut tie = |f: usize, e: usize, inverse: f64| {
            let (zf, ze) = (self.zone[f], self.zone[e]);
            let area = self.area[f];
            let left = [(zf, self.convection[f]), (n + zf, self.radiant[f])];
            let right = [(ze, self.convection[e]), (n + ze, self.radiant[e])];
            for (i, hi) in left {
                for (j, hj) in right {
                    m[(i, j)] -= area * hi * inverse * hj;
                }
                if f == e {
                    m[(i, i)] += area * hi;
                }
            }
        };
        for f in 0..self.outer + self.windows {
            tie(f, f, self.inverse[f]);
        }
        for (p, inverse) in self.inverse2.iter().enumerate() {
            let f = self.outer + self.windows + 2 * p;
            tie(f, f, inverse[0]);
            tie(f + 1, f + 1, inverse[2]);
            tie(f, f + 1, inverse[1]);
            tie(f + 1, f, inverse[1]);
        }
        let inverse = m.clone().cholesky().map_or_else(
            || {
                m.try_inverse()
                    .unwrap_or_else(|| DMatrix::zeros(2 * n, 2 * n))
            },
            |c| c.inverse(),
        );
        (0..2 * n)
            .flat_map(|i| (0..2 * n).map(move |j| (i, j)))
            .map(|ij| inverse[ij])
            .collect()
    }

    /// Number of faces.
    pub fn faces(&self) -> usize {
        self.zone.len()
    }
}

fn outer_of(i: usize, model: &Model, drive: &Drive) -> Outer {
    match &model.surfaces[i].behind {
        Behind::Outdoor { .. } => drive.of_surface[i].map_or(Outer::Nothing, Outer::Weather),
        Behind::Ground(c) => Outer::Ground {
            conductance: 1.0 / c.virtual_r_m2k_per_w.max(1e-3),
            surface: i,
        },
        Behind::Zone(_) | Behind::Adiabatic => Outer::Nothing,
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
fn star(made: &[Made], zones: usize) -> Vec<f64> {
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
struct Shares {
    beam: Vec<f64>,
    diffuse: Vec<f64>,
    radiant: Vec<f64>,
    escapes: Vec<[f64; 2]>,
}

impl Shares {
    /// Beam falls on the floor, diffuse on all faces by area; what is not soaked up at once is
    /// spread evenly until it is soaked up or leaves through glass.
    fn new(made: &[Made], model: &Model, glasses: &[Glass], outer: usize, zones: usize) -> Self {
        let mut area = vec![0.0; zones];
        let mut floor = vec![0.0; zones];
        let mut takes = vec![0.0; zones];
        let leaves = |f: usize| {
            let pane = f.checked_sub(outer).and_then(|w| model.panes.get(w));
            pane.and_then(|p| glasses.get(p.glazing))
                .map_or(0.0, |g| g.from_room_out)
        };
        for (f, m) in made.iter().enumerate() {
            area[m.zone] += m.area;
            takes[m.zone] += m.area * (m.absorptance + leaves(f));
            if m.floor {
                floor[m.zone] += m.area;
            }
        }
        // Left over after the first meeting, as a share of the light let in.
        let mut left = vec![[0.0_f64; 2]; zones];
        for (f, m) in made.iter().enumerate() {
            let z = m.zone;
            let keeps = 1.0 - m.absorptance - leaves(f);
            if floor[z] <= 0.0 {
                left[z][0] += m.area / area[z] * keeps;
            } else if m.floor {
                left[z][0] += m.area / floor[z] * keeps;
            }
            left[z][1] += m.area / area[z] * keeps;
        }
        let mut shares = Self {
            beam: Vec::new(),
            diffuse: Vec::new(),
            radiant: Vec::new(),
            escapes: vec![[0.0; 2]; zones],
        };
        for (f, m) in made.iter().enumerate() {
            let z = m.zone;
            let first = if floor[z] <= 0.0 {
                1.0 / area[z]
            } else if m.floor {
                1.0 / floor[z]
            } else {
                0.0
            };
            let later = 1.0 / takes[z].max(1e-9);
            let beam = first + left[z][0] * later;
            let diffuse = 1.0 / area[z] + left[z][1] * later;
            shares.beam.push(m.absorptance * beam);
            shares.diffuse.push(m.absorptance * diffuse);
            shares.radiant.push(1.0 / area[z]);
            shares.escapes[z][0] += m.area * leaves(f) * beam;
            shares.escapes[z][1] += m.area * leaves(f) * diffuse;
        }
        shares
    }
}
