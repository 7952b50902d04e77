//! The hourly heat balance of a house.
//!
//! The matrix that ties the zones together is constant and inverted once (per state of the fans).
//! What is not constant (natural convection, wind on the glass, leakage, air through doors) is
//! written as its difference to a constant coefficient, put on the right-hand side and iterated
//! until it moves by less than [`SETTLED_W`] in every zone. Whatever is taken from a face is given
//! to the air, so the balance closes whether or not it has settled to the last digit.
//!
//! One step: [`Balance::step`] solves, [`Balance::accept`] moves on. Between the two the caller
//! may change the supply and solve again.

mod bank;
mod network;
mod openings;
mod sums;
mod supply;

pub use network::{Network, Outer};
pub use openings::{Passage, doorway_m3_per_s, stairwell_m3_per_s};
pub use sums::Sums;
pub use supply::Supply;

use crate::assembly::AssemblyError;
use crate::describe::Stands;
use crate::drive::Drive;
use crate::film::InsideFilm;
use crate::glazing::Glass;
use crate::leakage::Leakage;
use crate::model::{Behind, Model};
use supply::Thermostats;

/// The iteration of an hour ends when no zone's lagged heat moves by more than this, W.
pub const SETTLED_W: f64 = 0.5;
/// Most iterations of an hour; past half of them the moves are halved.
const MOST_ITERATIONS: usize = 24;

/// How the doors stand in a run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Doors {
    /// As each door usually stands.
    AsUsual,
    /// All doors open.
    Open,
    /// All doors shut.
    Closed,
}

impl Doors {
    /// How a door that usually stands like this stands in the run.
    pub fn of(self, usual: Stands) -> Stands {
        match self {
            Doors::AsUsual => usual,
            Doors::Open => Stands::Open,
            Doors::Closed => Stands::Closed,
        }
    }
}

/// A house in the middle of a year.
#[derive(Debug, Clone)]
pub struct Balance<'a> {
    network: Network,
    drive: &'a Drive,
    film: InsideFilm,
    leakage: Leakage,
    passages: Vec<Passage>,
    /// Response matrices, one per state of the fans, and which belongs to each hour of the day.
    responses: Vec<Vec<f64>>,
    of_hour: [usize; 24],
    /// Outdoor air in the matrix of each response, W/K per zone.
    outdoor: Vec<Vec<f64>>,
    /// Nominal leakage in the matrix, W/K per zone.
    leak_nominal: Vec<f64>,
    gains_air: Vec<Vec<f64>>,
    gains_radiant: Vec<Vec<f64>>,
    glass_core: Vec<[f64; 2]>,
    window_face: Vec<usize>,
    window_aperture: Vec<usize>,
    ground_c: Vec<Vec<f64>>,
    thermostats: Thermostats,
    /// Zone air at the end of the last accepted hour, C.
    pub air_c: Vec<f64>,
    star_c: Vec<f64>,
    face_c: Vec<f64>,
    outer_c: Vec<f64>,
    work: Work,
    /// Sums over the accepted hours since [`Balance::begin_sums`].
    pub sums: Sums,
    /// Steps whose iteration did not settle.
    pub unsettled_steps: usize,
    /// Iterations in all.
    pub iterations: usize,
}

/// What an hour is worked out in; kept to spare allocation.
#[derive(Debug, Clone, Default)]
struct Work {
    force: Vec<f64>,
    sun: Vec<f64>,
    slack_y: Vec<f64>,
    den: Vec<f64>,
    drive_out: Vec<f64>,
    part: Vec<f64>,
    lag_face: Vec<f64>,
    lag_convection: Vec<f64>,
    lag_leak: Vec<f64>,
    lag_doors: Vec<f64>,
    next_face: Vec<f64>,
    next_convection: Vec<f64>,
    next_leak: Vec<f64>,
    next_doors: Vec<f64>,
    other: Vec<f64>,
    right: Vec<f64>,
    free: Vec<f64>,
    air: Vec<f64>,
    star: Vec<f64>,
    face: Vec<f64>,
    base: Vec<f64>,
    leak: Vec<f64>,
    sun_zone: Vec<[f64; 2]>,
    moved: Vec<f64>,
}

impl<'a> Balance<'a> {
    /// Sets a house up at a steady start: everything at 18 C inside, outdoors as on average.
    ///
    /// # Errors
    /// A construction whose layers cannot be used.
    pub fn new(
        model: &Model,
        glasses: &[Glass],
        drive: &'a Drive,
        doors: Doors,
    ) -> Result<Self, AssemblyError> {
        let network = Network::new(model, glasses, drive)?;
        let n = network.zones;
        let air = drive.air_j_per_m3k;
        let leakage = Leakage::new(model, drive);
        let passages: Vec<Passage> = model
            .openings
            .iter()
            .map(|o| Passage::new(o, doors.of(o.stands), model, air))
            .collect();
        let open: Vec<(usize, usize, f64)> = passages
            .iter()
            .map(|p| (p.zones[0], p.zones[1], p.constant_w_per_k))
            .collect();
        let leak_nominal = leakage.nominal_w_per_k(n);
        let mut responses: Vec<Vec<f64>> = Vec::new();
        let mut outdoor: Vec<Vec<f64>> = Vec::new();
        let mut of_hour = [0; 24];
        for (hour, slot) in of_hour.iter_mut().enumerate() {
            let mut to_out: Vec<f64> = (0..n)
                .map(|z| network.fixed_air[z] + leak_nominal[z])
                .collect();
            for v in model.vents.iter().filter(|v| v.on[hour] && v.zone < n) {
                to_out[v.zone] += v.flow_m3_per_s * (1.0 - v.recovery) * air;
            }
            *slot = outdoor
                .iter()
                .position(|o| *o == to_out)
                .unwrap_or_else(|| {
                    responses.push(network.response(&to_out, &open));
                    outdoor.push(to_out.clone());
                    outdoor.len() - 1
                });
        }
        let hours_of = |radiant: bool| -> Vec<Vec<f64>> {
            (0..24)
                .map(|h| {
                    model
                        .zones
                        .iter()
                        .map(|z| {
                            z.gains
                                .iter()
                                .map(|g| {
                                    g.by_hour_w[h]
                                        * if radiant { g.radiant } else { 1.0 - g.radiant }
                                })
                                .sum()
                        })
                        .collect()
                })
                .collect()
        };
        let ground_c = ground_temperatures(model, drive);
        let faces = network.faces();
        let outer_and_windows = network.outer + network.windows;
        let mean_out = drive.monthly_outdoor_c.iter().sum::<f64>() / 12.0;
        let mut balance = Self {
            film: InsideFilm::new(),
            leakage,
            passages,
            responses,
            of_hour,
            outdoor,
            leak_nominal,
            gains_air: hours_of(false),
            gains_radiant: hours_of(true),
            glass_core: model
                .panes
                .iter()
                .map(|p| {
                    glasses
                        .get(p.glazing)
                        .map_or([6.0, 0.0], |g| [g.core_w_per_m2k, g.core_slope])
                })
                .collect(),
            window_face: drive.of_pane.clone(),
            window_aperture: drive.aperture_of_pane.clone(),
            ground_c,
            thermostats: Thermostats::new(n),
            air_c: vec![18.0; n],
            star_c: vec![18.0; n],
            face_c: vec![18.0; faces],
            outer_c: vec![mean_out; outer_and_windows],
            work: Work {
                force: vec![0.0; faces],
                sun: vec![0.0; faces],
                slack_y: vec![0.0; outer_and_windows],
                den: vec![0.0; outer_and_windows],
                drive_out: vec![0.0; outer_and_windows],
                part: vec![0.0; faces],
                lag_face: vec![0.0; faces],
                lag_convection: vec![0.0; faces],
                lag_leak: vec![0.0; n],
                lag_doors: vec![0.0; n],
                next_face: vec![0.0; faces],
                next_convection: vec![0.0; faces],
                next_leak: vec![0.0; n],
                next_doors: vec![0.0; n],
                other: vec![0.0; network.partitions],
                right: vec![0.0; 2 * n],
                free: vec![0.0; 2 * n],
                air: vec![18.0; n],
                star: vec![18.0; n],
                face: vec![18.0; faces],
                base: vec![0.0; n],
                leak: vec![0.0; n],
                sun_zone: vec![[0.0; 2]; n],
                moved: vec![0.0; n],
            },
            sums: Sums::new(n, faces, outer_and_windows),
            unsettled_steps: 0,
            iterations: 0,
            network,
            drive,
        };
        balance.settle(mean_out);
        Ok(balance)
    }

    fn settle(&mut self, outdoor_c: f64) {
        let n = &mut self.network;
        let inside = vec![18.0; n.outer.max(n.partitions)];
        let outside: Vec<f64> = n
            .outer_drive
            .iter()
            .map(|d| match d {
                Outer::Weather(_) | Outer::Ground { .. } => outdoor_c,
                Outer::Nothing => 18.0,
            })
            .collect();
        let walls: Vec<_> = n.outer_walls.iter().collect();
        n.outer_bank.settle(&walls, &inside, &outside);
        let walls: Vec<_> = n.partition_walls.iter().collect();
        n.partition_bank.settle(&walls, &inside, &inside);
    }

    /// The network.
    pub fn network(&self) -> &Network {
        &self.network
    }

    /// Forgets the sums; the energy ledger begins with the next accepted hour.
    pub fn begin_sums(&mut self) {
        self.sums = Sums::new(
            self.network.zones,
            self.network.faces(),
            self.network.outer + self.network.windows,
        );
        self.sums.stored_at_start_j = self.stored_j();
    }

    /// Heat stored in walls and air, J relative to 0 C.
    pub fn stored_j(&self) -> f64 {
        let n = &self.network;
        let outer: f64 = n
            .outer_bank
            .stored_j_per_m2()
            .iter()
            .zip(&n.area)
            .map(|(s, a)| s * a)
            .sum();
        let between: f64 = n
            .partition_bank
            .stored_j_per_m2()
            .iter()
            .enumerate()
            .map(|(p, s)| s * n.area[n.outer + n.windows + 2 * p])
            .sum();
        let air: f64 = n
            .capacity
            .iter()
            .zip(&self.air_c)
            .map(|(c, t)| c * self.drive.step_s() * t)
            .sum();
        outer + between + air
    }

    /// Solves step `h` of the drive with this supply. Nothing moves on until [`Balance::accept`].
    pub fn step(&mut self, h: usize, supply: &[Supply]) -> Outcome<'_> {
        self.prepare(h);
        let mut settled = false;
        for round in 0..MOST_ITERATIONS {
            self.iterations += 1;
            self.once(h, supply);
            if self.next_lag(h) < SETTLED_W {
                settled = true;
                break;
            }
            self.work.take_next(if round < MOST_ITERATIONS / 2 {
                1.0
            } else {
                0.5
            });
        }
        if !settled {
            self.unsettled_steps += 1;
        }
        Outcome {
            heat_w: &self.thermostats.heat_w,
            air_c: &self.work.air,
            stats: &self.thermostats,
        }
    }

    /// What does not change while the hour is iterated.
    fn prepare(&mut self, h: usize) {
        let (n, d, w) = (&self.network, self.drive, &mut self.work);
        let of_day = usize::from(d.hour_of_day[h]) % 24;
        let films = &d.film_w_per_m2k[h * d.faces..(h + 1) * d.faces];
        let felt = &d.felt_c[h * d.faces..(h + 1) * d.faces];
        let month = usize::from(d.month[h].saturating_sub(1)).min(11);
        for f in 0..n.outer {
            let (film, felt) = match n.outer_drive[f] {
                Outer::Weather(g) => (films[g], felt[g]),
                Outer::Ground {
                    conductance,
                    surface,
                } => (conductance, self.ground_c[surface][month]),
                Outer::Nothing => (0.0, 0.0),
            };
            let den = 1.0 / (film + n.g_out[f]);
            let out = film * felt + n.outer_bank.back_out[f];
            let cross = n.g_cross[f];
            w.den[f] = den;
            w.drive_out[f] = out;
            w.force[f] = n.outer_bank.back_in[f] - cross * den * out;
            w.slack_y[f] = n.y[f] - (n.g_in[f] - cross * cross * den);
        }
        w.sun_zone.fill([0.0; 2]);
        let outdoor = d.outdoor_c[h];
        let (first, last) = (h * d.apertures, (h + 1) * d.apertures);
        let beam = &d.beam_w_per_m2[first..last];
        let diffuse = &d.diffuse_w_per_m2[first..last];
        let outer_sun = &d.outer_w_per_m2[first..last];
        let inner_sun = &d.inner_w_per_m2[first..last];
        for i in 0..n.windows {
            let f = n.outer + i;
            let (g, a) = (self.window_face[i], self.window_aperture[i]);
            let [core, slope] = self.glass_core[i];
            let core = (core + slope * (0.5 * (outdoor + 20.0) - 10.0)).max(0.1);
            let den = 1.0 / (films[g] + core);
            let out = films[g] * felt[g] + outer_sun[a];
            w.den[f] = den;
            w.drive_out[f] = out;
            w.force[f] = core * den * out + inner_sun[a];
            w.slack_y[f] = n.y[f] - core * films[g] * den;
            let z = n.zone[f];
            w.sun_zone[z][0] += beam[a] * n.area[f];
            w.sun_zone[z][1] += diffuse[a] * n.area[f];
        }
        let between = n.outer + n.windows;
        for p in 0..n.partitions {
            w.force[between + 2 * p] = n.partition_bank.back_in[p];
            w.force[between + 2 * p + 1] = n.partition_bank.back_out[p];
        }
        let radiant = &self.gains_radiant[of_day];
        for f in 0..n.zone.len() {
            let z = n.zone[f];
            let sun = n.takes_beam[f] * w.sun_zone[z][0]
                + n.takes_diffuse[f] * w.sun_zone[z][1]
                + n.takes_radiant[f] * radiant[z];
            w.sun[f] = sun;
            w.force[f] += sun;
        }
        let to_out = &self.outdoor[self.of_hour[of_day]];
        let gains = &self.gains_air[of_day];
        for z in 0..n.zones {
            w.base[z] = n.capacity[z] * self.air_c[z] + gains[z] + to_out[z] * outdoor;
        }
    }

    /// One solution of the constant matrix with the lagged heat as it is.
    fn once(&mut self, h: usize, supply: &[Supply]) {
        let (n, w) = (&self.network, &mut self.work);
        let zones = n.zones;
        let of_day = usize::from(self.drive.hour_of_day[h]) % 24;
        let response = &self.responses[self.of_hour[of_day]];
        w.right[..zones].copy_from_slice(&w.base);
        for z in 0..zones {
            w.right[z] += w.lag_leak[z] + w.lag_doors[z];
            w.right[zones + z] = 0.0;
        }
        let single = n.outer + n.windows;
        for f in 0..single {
            w.part[f] = (w.force[f] + w.lag_face[f]) * n.inverse[f];
        }
        for (p, inverse) in n.inverse2.iter().enumerate() {
            let f = single + 2 * p;
            let (a, b) = (
                w.force[f] + w.lag_face[f],
                w.force[f + 1] + w.lag_face[f + 1],
            );
            w.part[f] = inverse[0] * a + inverse[1] * b;
            w.part[f + 1] = inverse[1] * a + inverse[2] * b;
        }
        for f in 0..n.zone.len() {
            let z = n.zone[f];
            w.right[z] += n.area[f] * (n.convection[f] * w.part[f] - w.lag_convection[f]);
            w.right[zones + z] += n.area[f] * n.radiant[f] * w.part[f];
        }
        let two = 2 * zones;
        for (i, free) in w.free.iter_mut().enumerate() {
            let row = &response[i * two..(i + 1) * two];
            *free = dot(row, &w.right);
        }
        self.thermostats
            .solve(&w.free[..zones], response, two, supply);
        w.air.copy_from_slice(&self.thermostats.air_c);
        for z in 0..zones {
            let row = &response[(zones + z) * two..(zones + z) * two + zones];
            w.star[z] = w.free[zones + z] + dot(row, &self.thermostats.heat_w);
        }
        for f in 0..single {
            let z = n.zone[f];
            w.face[f] =
                w.part[f] + n.inverse[f] * (n.convection[f] * w.air[z] + n.radiant[f] * w.star[z]);
        }
        for (p, inverse) in n.inverse2.iter().enumerate() {
            let f = single + 2 * p;
            let pull =
                |f: usize| n.convection[f] * w.air[n.zone[f]] + n.radiant[f] * w.star[n.zone[f]];
            let (a, b) = (pull(f), pull(f + 1));
            w.face[f] = w.part[f] + inverse[0] * a + inverse[1] * b;
            w.face[f + 1] = w.part[f + 1] + inverse[1] * a + inverse[2] * b;
        }
    }

    /// Works out the heat to be lagged from the present temperatures; returns by how much it
    /// differs from the one just used, in the zone where it differs most, W.
    fn next_lag(&mut self, h: usize) -> f64 {
        let (n, w) = (&self.network, &mut self.work);
        w.moved.fill(0.0);
        let single = n.outer + n.windows;
        for f in 0..n.zone.len() {
            let z = n.zone[f];
            let dt = w.air[z] - w.face[f];
            let convection = self.film.heat_w_per_m2(n.looks[f], dt) - n.convection[f] * dt;
            let slack = if f < single {
                w.slack_y[f] * w.face[f]
            } else {
                0.0
            };
            w.next_convection[f] = convection;
            w.next_face[f] = convection + slack;
            w.moved[z] += n.area[f] * (w.next_face[f] - w.lag_face[f]).abs();
        }
        let outdoor = self.drive.outdoor_c[h];
        self.leakage
            .flow_w_per_k(&w.air, outdoor, self.drive.wind_m_per_s[h], &mut w.leak);
        for z in 0..n.zones {
            w.next_leak[z] = (w.leak[z] - self.leak_nominal[z]) * (outdoor - w.air[z]);
        }
        w.next_doors.fill(0.0);
        for p in &self.passages {
            let [a, b] = p.zones;
            let heat = p.heat_w(w.air[a], w.air[b]) - p.constant_w_per_k * (w.air[a] - w.air[b]);
            w.next_doors[a] -= heat;
            w.next_doors[b] += heat;
        }
        let mut most = 0.0_f64;
        for z in 0..n.zones {
            let air = (w.next_leak[z] - w.lag_leak[z]) + (w.next_doors[z] - w.lag_doors[z]);
            most = most.max(w.moved[z] + air.abs());
        }
        most
    }
}

impl Work {
    /// Moves the lagged heat to (or, by `step`, towards) the one worked out last.
    fn take_next(&mut self, step: f64) {
        for (used, next) in [
            (&mut self.lag_face, &self.next_face),
            (&mut self.lag_convection, &self.next_convection),
            (&mut self.lag_leak, &self.next_leak),
            (&mut self.lag_doors, &self.next_doors),
        ] {
            for (u, n) in used.iter_mut().zip(next) {
                *u += step * (n - *u);
            }
        }
    }
}

/// What an hour came to, before it is accepted.
#[derive(Debug)]
pub struct Outcome<'b> {
    /// Heat into each zone's air, W; cooling below zero.
    pub heat_w: &'b [f64],
    /// Air of each zone at the end of the hour, C.
    pub air_c: &'b [f64],
    stats: &'b Thermostats,
}

impl Outcome<'_> {
    /// The part of a zone's heat that is backup, W.
    pub fn backup_w(&self, zone: usize, supply: &Supply) -> f64 {
        self.stats.backup_w(zone, supply)
    }
}

#[inline]
fn dot(a: &[f64], b: &[f64]) -> f64 {
    // Four running sums: the processor adds them side by side, and the order is fixed.
    let n = a.len().min(b.len());
    let (a, b) = (&a[..n], &b[..n]);
    let mut s = [0.0; 4];
    let (ca, cb) = (a.chunks_exact(4), b.chunks_exact(4));
    let tail: f64 = ca
        .remainder()
        .iter()
        .zip(cb.remainder())
        .map(|(x, y)| x * y)
        .sum();
    for (x, y) in ca.zip(cb) {
        for k in 0..4 {
            s[k] += x[k] * y[k];
        }
    }
    (s[0] + s[1]) + (s[2] + s[3]) + tail
}

/// Virtual ground temperature of every ground surface for each month.
fn ground_temperatures(model: &Model, drive: &Drive) -> Vec<Vec<f64>> {
    model
        .surfaces
        .iter()
        .map(|s| match &s.behind {
            Behind::Ground(c) => {
                crate::ground::virtual_temperatures_c(c, &drive.monthly_outdoor_c).to_vec()
            }
            _ => Vec::new(),
        })
        .collect()
}
