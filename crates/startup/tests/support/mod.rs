//! Seeded noise for simulated tests.
#![allow(dead_code)]

use physics::refrigerant::Refrigerant;
use rand_pcg::Pcg64;
use rand_pcg::rand_core::{Rng, SeedableRng};
use startup::instrument::Instrument;
use startup::pressure::PressureTest;
use startup::volume::Volume;

pub const PSI: f64 = 6894.757293168361;
pub const MICRON: f64 = 0.133_322_387_415;

pub struct Dice(Pcg64);

impl Dice {
    pub fn new(seed: u64) -> Self {
        Self(Pcg64::seed_from_u64(seed))
    }
    pub fn even(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * (self.0.next_u64() >> 11) as f64 / (1_u64 << 53) as f64
    }
    /// Normal, by the sum of twelve.
    pub fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.even(0.0, 1.0)).sum::<f64>() - 6.0
    }
    pub fn log(&mut self, low: f64, high: f64) -> f64 {
        libm::exp(self.even(libm::log(low), libm::log(high)))
    }
}

pub fn step(x: f64, by: f64) -> f64 {
    libm::round(x / by) * by
}

/// 1.5 L, a digital gauge of 2 psi with steps of 0.1, a thermometer of 1 K with steps of 0.1.
pub fn pressure_test() -> PressureTest {
    PressureTest {
        volume: Volume {
            m3: 0.0015,
            share: 0.2,
        },
        plate_pa: 620.0 * PSI,
        air_pa: 101_325.0,
        gauge: Instrument::new("gauge 1", 2.0 * PSI, 0.1 * PSI).calibrated(20_700),
        thermometer: Instrument::new("thermometer 1", 1.0, 0.1).calibrated(20_700),
        wander_k: 0.5,
        refrigerant: Refrigerant::R32,
        service_c: 20.0,
        worth_g_per_year: 100.0,
        settle_s: 600.0,
        day: 20_782,
    }
}
