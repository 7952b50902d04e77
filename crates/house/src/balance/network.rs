//! The constant part of the house: which face touches which air, and the matrix that ties the
//! zones together, inverted once.
//!
//! Unknowns are the air and the radiant star of every zone; every face is eliminated by hand.

use nalgebra::DMatrix;

use super::bank::Bank;
use super::eight::Table;
use super::faces::Faces;
use super::group::{alike, slabs_of, sort_by_zone};
use super::spread::{Made, Shares, star};
use super::walls::{Mates, Outer, OuterWall, Partition, Walls, WindowFace};
use crate::assembly::AssemblyError;
use crate::drive::Drive;
use crate::film::Looks;
use crate::glazing::Glass;
use crate::model::{Behind, Model};

/// Longwave emittance of glass inside.
const GLASS_EMITTANCE: f64 = 0.84;
/// Share of sun that glass and its surroundings inside do not matter for: an inner face's
/// absorptance where a construction is unknown.
const USUAL_ABSORPTANCE: f64 = 0.6;

/// The network of one house. Faces lie sorted by zone; each opaque outer wall and each window has
/// one, each partition two, which are mates. Every zone has a multiple of eight faces: what is
/// missing is filled with faces that have no area and touch nothing.
#[derive(Debug, Clone)]
pub struct Network {
    /// Zones.
    pub zones: usize,
    /// First face of each zone, and one past the last.
    pub first: Vec<usize>,
    /// Area of each face, m2.
    pub area: Vec<f64>,
    /// Which way each face looks.
    pub looks: Vec<Looks>,
    /// Its film is stated, not worked out.
    pub stated: Vec<bool>,
    /// Convection coefficient in the matrix, W/(m2 K).
    pub convection: Vec<f64>,
    /// Longwave coefficient to the star, W/(m2 K).
    pub radiant: Vec<f64>,
    /// Share of a zone's beam sun soaked up by a face, per m2 of the face.
    pub takes_beam: Vec<f64>,
    /// Share of a zone's diffuse sun per m2.
    pub takes_diffuse: Vec<f64>,
    /// Share of radiant gains per m2.
    pub takes_radiant: Vec<f64>,
    /// Share of a zone's (beam, diffuse) sun that leaves through its windows again.
    pub escapes: Vec<[f64; 2]>,
    /// The other face of a partition; itself for all others.
    pub mate: Vec<usize>,
    /// Kelvin of a face per W/m2 on it, everything else held.
    pub inverse: Vec<f64>,
    /// Kelvin of a face per W/m2 on its mate.
    pub inverse_mate: Vec<f64>,
    /// Loss of a face to what is behind it that stands in the matrix, W/(m2 K).
    pub y: Vec<f64>,
    /// Opaque outer walls, in bank order.
    pub outer: Vec<OuterWall>,
    /// Windows.
    pub windows: Vec<WindowFace>,
    /// Partitions, in bank order.
    pub partitions: Vec<Partition>,
    /// Walls of outer faces.
    pub outer_bank: Bank,
    /// Walls of partitions; inside is the first face.
    pub partition_bank: Bank,
    /// The faces eight by eight, and the partitions' mates, as the hourly passes take them.
    pub(super) eight: Vec<Faces>,
    pub(super) mates: Vec<Mates>,
    /// Capacity of air and contents over the step, W/K.
    pub capacity: Vec<f64>,
    /// Outdoor air by fixed air changes, W/K.
    pub fixed_air: Vec<f64>,
}

/// The answer of air and stars to heat on them, K/W: columns are airs first, then stars.
#[derive(Debug, Clone)]
pub(super) struct Response {
    pub air: Table,
    pub star: Table,
}

impl Network {
    /// Builds the network of a house.
    ///
    /// # Errors
    /// A construction whose layers cannot be used.
    pub fn new(model: &Model, glasses: &[Glass], drive: &Drive) -> Result<Self, AssemblyError> {
        let mut made: Vec<Made> = Vec::new();
        let mut outer: Vec<OuterWall> = Vec::new();
        let mut partitions: Vec<Partition> = Vec::new();
        let mut walls = Walls::new(drive.step_s());
        for group in alike(model, drive) {
            let i = group[0];
            let s = &model.surfaces[i];
            let Some(c) = model.constructions.get(s.construction) else {
                continue;
            };
            let area = group.iter().map(|i| model.surfaces[*i].area_m2).sum();
            let wall = walls.of(slabs_of(model, i)?);
            let inside = Made {
                zone: s.zone,
                area,
                looks: Looks::of_tilt(s.tilt_deg),
                emittance: c.emittance_in,
                absorptance: c.sun_absorptance_in,
                leaves: 0.0,
                floor: s.tilt_deg > 150.0,
                stated: model
                    .stated_films
                    .iter()
                    .find(|f| f.construction == s.construction)
                    .map(|f| [f.convection_w_per_m2k, f.radiant_w_per_m2k]),
            };
            let face = made.len();
            made.push(inside);
            if let Behind::Zone(other) = s.behind {
                made.push(Made {
                    zone: other,
                    looks: Looks::of_tilt(180.0 - s.tilt_deg),
                    emittance: c.emittance_out,
                    absorptance: c.sun_absorptance_out,
                    floor: s.tilt_deg < 30.0,
                    ..inside
                });
                partitions.push(Partition {
                    faces: [face, face + 1],
                    wall,
                    surfaces: group,
                });
            } else {
                outer.push(OuterWall {
                    face,
                    drive: outer_of(i, model, drive),
                    wall,
                    surfaces: group,
                });
            }
        }
        let mut windows: Vec<WindowFace> = Vec::new();
        for (i, p) in model.panes.iter().enumerate() {
            let (outside, aperture) = (drive.of_pane[i], drive.aperture_of_pane[i]);
            if let Some(w) = windows
                .iter_mut()
                .find(|w| (w.zone, w.outside, w.aperture) == (p.zone, outside, aperture))
            {
                made[w.face].area += p.area_m2;
                w.panes.push(i);
                continue;
            }
            let glass = glasses.get(p.glazing);
            windows.push(WindowFace {
                face: made.len(),
                zone: p.zone,
                outside,
                aperture,
                core: glass.map_or([6.0, 0.0], |g| [g.core_w_per_m2k, g.core_slope]),
                panes: vec![i],
            });
            made.push(Made {
                zone: p.zone,
                area: p.area_m2,
                looks: Looks::of_tilt(p.tilt_deg),
                emittance: GLASS_EMITTANCE,
                absorptance: glass.map_or(USUAL_ABSORPTANCE, |g| g.from_room_soaked),
                leaves: glass.map_or(0.0, |g| g.from_room_out),
                floor: false,
                stated: None,
            });
        }
        let zones = model.zones.len();
        let place = sort_by_zone(&mut made, zones);
        for w in &mut outer {
            w.face = place[w.face];
        }
        for w in &mut windows {
            w.face = place[w.face];
        }
        for p in &mut partitions {
            p.faces = p.faces.map(|f| place[f]);
        }
        outer.sort_by_key(|w| core::cmp::Reverse(w.wall.modes.len()));
        partitions.sort_by_key(|p| core::cmp::Reverse(p.wall.modes.len()));
        let share = Shares::new(&made, zones);
        let air = drive.air_j_per_m3k;
        let mut mate: Vec<usize> = (0..made.len()).collect();
        for p in &partitions {
            mate[p.faces[0]] = p.faces[1];
            mate[p.faces[1]] = p.faces[0];
        }
        let mut network = Self {
            zones,
            first: (0..=zones)
                .map(|z| made.partition_point(|m| m.zone < z))
                .collect(),
            area: made.iter().map(|m| m.area).collect(),
            looks: made.iter().map(|m| m.looks).collect(),
            stated: made.iter().map(|m| m.stated.is_some()).collect(),
            convection: made
                .iter()
                .map(|m| m.stated.map_or(m.looks.constant_w_per_m2k(), |[c, _]| c))
                .collect(),
            radiant: made
                .iter()
                .zip(star(&made, zones))
                .map(|(m, worked_out)| m.stated.map_or(worked_out, |[_, r]| r))
                .collect(),
            takes_beam: share.beam,
            takes_diffuse: share.diffuse,
            takes_radiant: share.radiant,
            escapes: share.escapes,
            mate,
            inverse: vec![0.0; made.len()],
            inverse_mate: vec![0.0; made.len()],
            y: vec![0.0; made.len()],
            outer_bank: Bank::new(
                &outer.iter().map(|w| &w.wall).collect::<Vec<_>>(),
                drive.step_s(),
            ),
            partition_bank: Bank::new(
                &partitions.iter().map(|p| &p.wall).collect::<Vec<_>>(),
                drive.step_s(),
            ),
            eight: Vec::new(),
            mates: Vec::new(),
            outer,
            windows,
            partitions,
            capacity: model
                .zones
                .iter()
                .map(|z| (z.volume_m3 * air + z.contents_j_per_k) / drive.step_s())
                .collect(),
            fixed_air: model
                .zones
                .iter()
                .map(|z| z.fixed_air_m3_per_s * air)
                .collect(),
        };
        network.losses();
        network.constants();
        Ok(network)
    }

    /// Losses of outer faces that stand in the matrix, under a usual outside film.
    fn losses(&mut self) {
        const USUAL_OUT: f64 = 18.0;
        for w in &self.outer {
            let out = match w.drive {
                Outer::Weather(_) => USUAL_OUT,
                Outer::Ground { conductance, .. } => conductance,
                Outer::Nothing => 0.0,
            };
            let c = w.wall.g_cross;
            self.y[w.face] = w.wall.g_in - c * c / (out + w.wall.g_out);
        }
        for w in &self.windows {
            self.y[w.face] = w.core[0] * USUAL_OUT / (w.core[0] + USUAL_OUT);
        }
        for p in &self.partitions {
            self.y[p.faces[0]] = p.wall.g_in;
            self.y[p.faces[1]] = p.wall.g_out;
        }
    }

    /// What follows from the convection coefficients; to be called when they are changed.
    pub fn constants(&mut self) {
        let own: Vec<f64> = (0..self.area.len())
            .map(|f| self.convection[f] + self.radiant[f] + self.y[f])
            .collect();
        for (f, own) in own.iter().enumerate() {
            // A face that only fills a oct touches nothing.
            self.inverse[f] = if *own > 0.0 { 1.0 / own } else { 0.0 };
        }
        for p in &self.partitions {
            let [f, e] = p.faces;
            let c = p.wall.g_cross;
            let d = own[f] * own[e] - c * c;
            self.inverse[f] = own[e] / d;
            self.inverse[e] = own[f] / d;
            self.inverse_mate[f] = -c / d;
            self.inverse_mate[e] = -c / d;
        }
        self.lay_out();
    }

    /// The matrix of zones (air first, then stars) with these outdoor-air conductances (W/K) and
    /// opening conductances (zone, zone, W/K), inverted.
    pub(super) fn response(
        &self,
        outdoor_w_per_k: &[f64],
        openings: &[(usize, usize, f64)],
    ) -> Response {
        let n = self.zones;
        let mut m = DMatrix::<f64>::zeros(2 * n, 2 * n);
        for z in 0..n {
            m[(z, z)] = self.capacity[z] + outdoor_w_per_k[z];
            // A zone without faces has no star to speak of; keep the matrix regular. Elsewhere the
            // star must not lose anything.
            let faces = self.first[z]..self.first[z + 1];
            let radiant: f64 = faces.map(|f| self.area[f] * self.radiant[f]).sum();
            m[(n + z, n + z)] = if radiant > 0.0 { 0.0 } else { 1e-6 };
        }
        for &(a, b, g) in openings {
            m[(a, a)] += g;
            m[(b, b)] += g;
            m[(a, b)] -= g;
            m[(b, a)] -= g;
        }
        for z in 0..n {
            for f in self.first[z]..self.first[z + 1] {
                let e = self.mate[f];
                let ze = self.zone_of(e);
                let own = [(z, self.convection[f]), (n + z, self.radiant[f])];
                let other = [(ze, self.convection[e]), (n + ze, self.radiant[e])];
                for (i, hi) in own {
                    m[(i, i)] += self.area[f] * hi;
                    for (j, hj) in own {
                        m[(i, j)] -= self.area[f] * hi * self.inverse[f] * hj;
                    }
                    for (j, hj) in other {
                        m[(i, j)] -= self.area[f] * hi * self.inverse_mate[f] * hj;
                    }
                }
            }
        }
        let inverse = m.clone().cholesky().map_or_else(
            || {
                m.try_inverse()
                    .unwrap_or_else(|| DMatrix::zeros(2 * n, 2 * n))
            },
            |c| c.inverse(),
        );
        let rows = |from: usize| {
            Table::new(self.zone_octs(), 2 * n, |z, column| {
                if z < n {
                    inverse[(from + z, column)]
                } else {
                    0.0
                }
            })
        };
        Response {
            air: rows(0),
            star: rows(n),
        }
    }

    /// Zone of a face.
    pub fn zone_of(&self, face: usize) -> usize {
        self.first.partition_point(|first| *first <= face) - 1
    }

    /// Number of faces, those that only fill a oct too.
    pub fn faces(&self) -> usize {
        self.area.len()
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
