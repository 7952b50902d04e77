//! The hourly heat balance of a house.
//!
//! The matrix that ties the zones together is constant for three weeks at a time, and inverted once
//! for each (per state of the fans) with the coefficients met since.
//! What is not constant (natural convection, wind on the glass, leakage, air through doors) is
//! written as its difference to a constant coefficient, put on the right-hand side and iterated
//! until it moves by less than [`SETTLED_W`] in every zone. Whatever is taken from a face is given
//! to the air, so the balance closes whether or not it has settled to the last digit.
//!
//! One step: [`Balance::step`] solves, [`Balance::accept`] moves on. Between the two the caller
//! may change the supply and solve again.

mod arithmetic;
mod bank;
mod doors;
mod eight;
mod faces;
mod given;
mod group;
mod layout;
mod network;
pub(crate) mod openings;
mod outside;
mod pace;
mod solve;
mod spread;
mod sums;
mod supply;
mod terms;
mod thermostats;
mod tune;
mod walls;
mod work;

pub use doors::Doors;
pub use network::Network;
pub use openings::Passage;
pub use solve::Outcome;
pub use sums::{FaceLedger, Sums, ZoneLedger, ZoneSums};
pub use supply::Supply;
pub use walls::{Outer, OuterWall, Partition, WindowFace};

use crate::assembly::AssemblyError;
use crate::drive::Drive;
use crate::glazing::Glass;
use crate::leakage::Leakage;
use crate::model::Model;
use eight::{Oct, SIDE, octs};
use given::{gains_by_hour, ground_temperatures};
use network::Response;
use openings::PassageOct;
use outside::Outside;
use thermostats::Thermostats;
use tune::Met;
use work::Work;

/// The films of a step are taken as settled when no zone's faces move by more than this, W (sum of
/// the sizes over its faces, most of which cancel). What is left over is made good in the next
/// step: against 2 W the demo's heating and its peak move by 1 in 10,000, its cooling by 1 in 5,000
/// and the peak of that by 1 in 500; 20 W came no nearer and took a sixth longer.
pub const SETTLED_W: f64 = 50.0;
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
    outside: Outside,
    leakage: Leakage,
    passages: Vec<Passage>,
    passage_octs: Vec<PassageOct>,
    /// Response matrices, one per state of the fans, and which belongs to each hour of the day.
    responses: Vec<Response>,
    of_hour: [usize; 24],
    /// Outdoor air in the matrix of each response, W/K per zone.
    outdoor: Vec<Vec<Oct>>,
    /// The part of it that fans and fixed changes make.
    steady_air: Vec<Vec<Oct>>,
    met: Met,
    /// Goes up with every inversion, so that what is kept from one is not used with another.
    version: usize,
    /// Gains of every zone for each hour of the day, to the air and to the faces, W.
    gains_air: Vec<Vec<Oct>>,
    gains_radiant: Vec<Vec<Oct>>,
    thermostats: Thermostats,
    /// Zone air at the end of the last accepted hour, C.
    air_then: Vec<Oct>,
    work: Work,
    /// Sums over the accepted hours since [`Balance::begin_sums`].
    pub sums: Sums,
    /// The widest arithmetic this processor has. It makes the passes faster and changes no bit:
    /// every lane does what it would do alone.
    processor: pulp::Arch,
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
        let mut work = Work::new(&network, START_C);
        let nominal = leakage.nominal_w_per_k(n);
        for (z, nominal) in nominal.into_iter().enumerate() {
            let (zones, i) = (&mut work.zones[z / SIDE], z % SIDE);
            zones.leak_nominal[i] = nominal;
            (zones.stack_share[i], zones.wind_share[i]) = leakage.shares(z);
        }
        let mut steady_air: Vec<Vec<Oct>> = Vec::new();
        let mut of_hour = [0; 24];
        for (hour, slot) in of_hour.iter_mut().enumerate() {
            let mut air_w_per_k = network.fixed_air.clone();
            for v in model.vents.iter().filter(|v| v.on[hour] && v.zone < n) {
                air_w_per_k[v.zone] += v.flow_m3_per_s * (1.0 - v.recovery) * air;
            }
            let air_w_per_k = octs(&air_w_per_k, 0.0);
            *slot = steady_air
                .iter()
                .position(|o| *o == air_w_per_k)
                .unwrap_or_else(|| {
                    steady_air.push(air_w_per_k.clone());
                    steady_air.len() - 1
                });
        }
        let mean_out = drive.monthly_outdoor_c.iter().sum::<f64>() / 12.0;
        let mut balance = Self {
            outside: Outside::new(&network, drive, &ground_temperatures(model, drive)),
            leakage,
            passage_octs: openings::lay_out(&passages),
            passages,
            responses: Vec::new(),
            of_hour,
            outdoor: steady_air.clone(),
            steady_air,
            version: 1,
            met: Met::new(network.faces(), n, model.openings.len()),
            gains_air: gains_by_hour(model, false),
            gains_radiant: gains_by_hour(model, true),
            thermostats: Thermostats::new(n),
            air_then: vec![[START_C; SIDE]; network.zone_octs()],
            work,
            sums: Sums::new(n),
            processor: pulp::Arch::new(),
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

    /// Zone air at the end of the last accepted step, C.
    pub fn air_c(&self) -> &[f64] {
        &self.air_then.as_flattened()[..self.network.zones]
    }

    /// The network.
    pub fn network(&self) -> &Network {
        &self.network
    }

    /// Sets everything, walls too, as if it had stood at this temperature for ever.
    pub fn stand_at(&mut self, c: f64) {
        self.settle(c, c);
        self.air_then.fill([c; SIDE]);
        self.work.hours.face.fill([c; SIDE]);
    }

    /// Goes on with plain arithmetic, whatever the processor has: slower, and the same bits.
    #[must_use]
    pub fn plainly(mut self) -> Self {
        self.processor = pulp::Arch::Scalar;
        self
    }

    /// Forgets the sums; the energy ledger begins with the next accepted step.
    pub fn begin_sums(&mut self) {
        self.sums = Sums::new(self.network.zones);
        self.outside.begin_sums();
        for hour in &mut self.work.hours.rest {
            (hour.into, hour.beyond) = ([0.0; SIDE], [0.0; SIDE]);
        }
        self.sums.stored_at_start_j = self.stored_j();
        self.sums.air_at_start_c = self.air_c().to_vec();
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
            .zip(self.air_c())
            .map(|(c, t)| c * step * t)
            .sum();
        // What the air still owes the walls counts as taken out already.
        let owed: f64 = self.work.owed.as_flattened().iter().sum();
        outer + between + air - owed * step
    }
}
