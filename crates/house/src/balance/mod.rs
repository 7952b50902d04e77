//! The hourly heat balance of a house.
//!
//! The matrix that ties the zones together is constant between fortnights, and inverted once for
//! each (per state of the fans) with the coefficients met since.
//! What is not constant (natural convection, wind on the glass, leakage, air through doors) is
//! written as its difference to a constant coefficient, put on the right-hand side and iterated
//! until it moves by less than [`SETTLED_W`] in every zone. Whatever is taken from a face is given
//! to the air, so the balance closes whether or not it has settled to the last digit.
//!
//! One step: [`Balance::step`] solves, [`Balance::accept`] moves on. Between the two the caller
//! may change the supply and solve again.

mod bank;
mod doors;
mod given;
mod group;
mod network;
mod openings;
mod pace;
mod passes;
mod spread;
mod sums;
mod supply;
mod tune;
mod walls;
mod work;

pub use doors::Doors;
pub use network::Network;
pub use openings::Passage;
pub use sums::Sums;
pub use supply::Supply;
pub use walls::{Outer, OuterWall, Partition, WindowFace};

use crate::assembly::AssemblyError;
use crate::drive::Drive;
use crate::film::InsideFilm;
use crate::glazing::Glass;
use crate::leakage::Leakage;
use crate::model::Model;
use given::{gains_by_hour, ground_temperatures};
use openings::beyond_constant_w;
use pace::Pace;
use supply::{Thermostats, add_product};
use tune::Met;
use work::Work;

/// The films of a step are taken as settled when no zone's faces move by more than this, W (sum of
/// the sizes over its faces).
pub const SETTLED_W: f64 = 20.0;
/// The air through leaks and doors is settled when no zone's moves by more than this, W.
pub const AIR_SETTLED_W: f64 = 2.0;
/// Most iterations of a step.
const MOST_ITERATIONS: usize = 200;

/// Everything inside starts at this, C; the warm-up makes it of no matter.
const START_C: f64 = 18.0;

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
    /// The part of it that fans and fixed changes make.
    steady_air: Vec<Vec<f64>>,
    met: Met,
    /// Goes up with every inversion, so that what is kept from one is not used with another.
    version: usize,
    /// Nominal leakage in the matrix, W/K per zone.
    leak_nominal: Vec<f64>,
    gains_air: Vec<Vec<f64>>,
    gains_radiant: Vec<Vec<f64>>,
    ground_c: Vec<Vec<f64>>,
    thermostats: Thermostats,
    /// Zone air at the end of the last accepted hour, C.
    pub air_c: Vec<f64>,
    work: Work,
    /// Sums over the accepted hours since [`Balance::begin_sums`].
    pub sums: Sums,
    /// Steps whose iteration did not settle.
    pub unsettled_steps: usize,
    /// Iterations in all.
    pub iterations: usize,
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
        let leak_nominal = leakage.nominal_w_per_k(n);
        let mut steady_air: Vec<Vec<f64>> = Vec::new();
        let mut of_hour = [0; 24];
        for (hour, slot) in of_hour.iter_mut().enumerate() {
            let mut air_w_per_k = network.fixed_air.clone();
            for v in model.vents.iter().filter(|v| v.on[hour] && v.zone < n) {
                air_w_per_k[v.zone] += v.flow_m3_per_s * (1.0 - v.recovery) * air;
            }
            *slot = steady_air
                .iter()
                .position(|o| *o == air_w_per_k)
                .unwrap_or_else(|| {
                    steady_air.push(air_w_per_k.clone());
                    steady_air.len() - 1
                });
        }
        let ground_c = ground_temperatures(model, drive);
        let mean_out = drive.monthly_outdoor_c.iter().sum::<f64>() / 12.0;
        let mut balance = Self {
            film: InsideFilm::new(),
            leakage,
            passages,
            responses: Vec::new(),
            of_hour,
            outdoor: steady_air.clone(),
            steady_air,
            leak_nominal,
            version: 1,
            met: Met::new(network.faces(), n, model.openings.len()),
            gains_air: gains_by_hour(model, false),
            gains_radiant: gains_by_hour(model, true),
            ground_c,
            thermostats: Thermostats::new(n),
            air_c: vec![START_C; n],
            work: Work::new(&network, START_C),
            sums: Sums::new(n, network.faces(), network.outer.len()),
            unsettled_steps: 0,
            iterations: 0,
            network,
            drive,
        };
        balance.invert();
        balance.settle(START_C, mean_out);
        Ok(balance)
    }

    /// Sets all walls as if inside and outdoors had stood so for ever.
    fn settle(&mut self, inside_c: f64, outdoor_c: f64) {
        let n = &mut self.network;
        let inside = vec![inside_c; n.outer.len().max(n.partitions.len())];
        let outside: Vec<f64> = n
            .outer
            .iter()
            .map(|w| match w.drive {
                Outer::Weather(_) | Outer::Ground { .. } => outdoor_c,
                Outer::Nothing => inside_c,
            })
            .collect();
        let walls: Vec<_> = n.outer.iter().map(|w| &w.wall).collect();
        n.outer_bank.settle(&walls, &inside, &outside);
        let walls: Vec<_> = n.partitions.iter().map(|p| &p.wall).collect();
        n.partition_bank.settle(&walls, &inside, &inside);
    }

    /// The network.
    pub fn network(&self) -> &Network {
        &self.network
    }

    /// Sets everything, walls too, as if it had stood at this temperature for ever.
    pub fn stand_at(&mut self, c: f64) {
        self.settle(c, c);
        self.air_c.fill(c);
        self.work.face.fill(c);
    }

    /// Forgets the sums; the energy ledger begins with the next accepted step.
    pub fn begin_sums(&mut self) {
        let n = &self.network;
        self.sums = Sums::new(n.zones, n.faces(), n.outer.len());
        self.sums.stored_at_start_j = self.stored_j();
        self.sums.air_at_start_c.copy_from_slice(&self.air_c);
    }

    /// Heat stored in walls and air, J relative to 0 C.
    pub fn stored_j(&self) -> f64 {
        let n = &self.network;
        let outer = n.outer_bank.stored_j_per_m2();
        let outer: f64 = n
            .outer
            .iter()
            .zip(outer)
            .map(|(w, s)| s * n.area[w.face])
            .sum();
        let between = n.partition_bank.stored_j_per_m2();
        let between: f64 = n
            .partitions
            .iter()
            .zip(between)
            .map(|(p, s)| s * n.area[p.faces[0]])
            .sum();
        let step = self.drive.step_s();
        let air: f64 = n
            .capacity
            .iter()
            .zip(&self.air_c)
            .map(|(c, t)| c * step * t)
            .sum();
        // What the air still owes the walls counts as taken out already.
        let owed: f64 = self.work.owed.iter().sum();
        outer + between + air - owed * step
    }

    /// Solves step `h` of the drive with this supply. Nothing moves on until [`Balance::accept`].
    pub fn step(&mut self, h: usize, supply: &[Supply]) -> Outcome<'_> {
        self.prepare(h);
        self.work.guess_losses();
        let mut settled = false;
        let mut pace = Pace::new();
        for _ in 0..MOST_ITERATIONS {
            self.iterations += 1;
            let air_settled = self.once(h, supply);
            let moved = self.work.next_films(&self.network, &self.film);
            if moved < SETTLED_W {
                settled = air_settled;
                break;
            }
            pace.take(moved);
            self.work.take_films(pace.step);
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

    /// What does not change while the step is iterated.
    fn prepare(&mut self, h: usize) {
        let (n, d, w) = (&self.network, self.drive, &mut self.work);
        let of_day = usize::from(d.hour_of_day[h]) % 24;
        let films = &d.film_w_per_m2k[h * d.faces..(h + 1) * d.faces];
        let felt = &d.felt_c[h * d.faces..(h + 1) * d.faces];
        let month = usize::from(d.month[h].saturating_sub(1)).min(11);
        for (i, o) in n.outer.iter().enumerate() {
            let (film, felt) = match o.drive {
                Outer::Weather(g) => (films[g], felt[g]),
                Outer::Ground {
                    conductance,
                    surface,
                } => (conductance, self.ground_c[surface][month]),
                Outer::Nothing => (0.0, 0.0),
            };
            let (wall, f) = (&o.wall, o.face);
            let den = 1.0 / (film + wall.g_out);
            let out = film * felt + n.outer_bank.back_out[i];
            w.den[i] = den;
            w.drive_out[i] = out;
            w.force[f] = n.outer_bank.back_in[i] - wall.g_cross * den * out;
            w.slack[f] = n.y[f] - (wall.g_in - wall.g_cross * wall.g_cross * den);
        }
        w.sun_zone.fill([0.0; 2]);
        let outdoor = d.outdoor_c[h];
        let first = h * d.apertures;
        for x in &n.windows {
            let (g, a, f) = (x.outside, first + x.aperture, x.face);
            let core = (x.core[0] + x.core[1] * (0.5 * (outdoor + 20.0) - 10.0)).max(0.1);
            let den = 1.0 / (films[g] + core);
            let out = films[g] * felt[g] + d.outer_w_per_m2[a];
            w.force[f] = core * den * out + d.inner_w_per_m2[a];
            w.slack[f] = n.y[f] - core * films[g] * den;
            w.sun_zone[x.zone][0] += d.beam_w_per_m2[a] * n.area[f];
            w.sun_zone[x.zone][1] += d.diffuse_w_per_m2[a] * n.area[f];
        }
        for (i, p) in n.partitions.iter().enumerate() {
            w.force[p.faces[0]] = n.partition_bank.back_in[i];
            w.force[p.faces[1]] = n.partition_bank.back_out[i];
        }
        w.spread_sun(n, &self.gains_radiant[of_day]);
        let to_out = &self.outdoor[self.of_hour[of_day]];
        let gains = &self.gains_air[of_day];
        for z in 0..n.zones {
            w.base[z] = n.capacity[z] * self.air_c[z] + gains[z] + to_out[z] * outdoor - w.owed[z];
        }
    }

    /// One solution with the films as they are. Air through leaks and doors ties only zones, so it
    /// is iterated on the small matrix alone; false if that did not settle.
    fn once(&mut self, h: usize, supply: &[Supply]) -> bool {
        let (n, w) = (&self.network, &mut self.work);
        let zones = n.zones;
        let of_day = usize::from(self.drive.hour_of_day[h]) % 24;
        let which = self.of_hour[of_day];
        let response = &self.responses[which];
        w.eliminate_faces(n);
        w.free.fill(0.0);
        add_product(response, 2 * zones, &w.right, &mut w.free);
        let outdoor = self.drive.outdoor_c[h];
        let wind = self.drive.wind_m_per_s[h];
        let mut settled = false;
        let mut pace = Pace::new();
        for _ in 0..MOST_ITERATIONS {
            for (q, (l, d)) in w.heat.iter_mut().zip(w.lag_leak.iter().zip(&w.lag_doors)) {
                *q = l + d;
            }
            w.free_air.copy_from_slice(&w.free[..zones]);
            add_product(response, 2 * zones, &w.heat, &mut w.free_air);
            self.thermostats.solve(
                &w.free_air,
                response,
                2 * zones,
                self.version + which,
                supply,
            );
            w.air.copy_from_slice(&self.thermostats.air_c);
            self.leakage
                .flow_w_per_k(&w.air, outdoor, wind, &mut w.leak);
            for z in 0..zones {
                w.next_leak[z] = (w.leak[z] - self.leak_nominal[z]) * (outdoor - w.air[z]);
            }
            beyond_constant_w(&self.passages, &w.air, &mut w.next_doors);
            let moved = (0..zones)
                .map(|z| (w.next_leak[z] - w.lag_leak[z] + w.next_doors[z] - w.lag_doors[z]).abs())
                .fold(0.0, f64::max);
            if moved < AIR_SETTLED_W {
                settled = true;
                break;
            }
            pace.take(moved);
            w.take_air(pace.step);
        }
        for (q, supply) in w.heat.iter_mut().zip(&self.thermostats.heat_w) {
            *q += supply;
        }
        w.star.copy_from_slice(&w.free[zones..]);
        for (row, q) in response.chunks_exact(2 * zones).zip(&w.heat) {
            for (star, m) in w.star.iter_mut().zip(&row[zones..]) {
                *star += m * q;
            }
        }
        w.face_temperatures(n);
        settled
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
