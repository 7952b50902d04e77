//! Seeded noise for simulated tests.
#![allow(dead_code)]

use physics::refrigerant::Refrigerant;
use rand_pcg::Pcg64;
use rand_pcg::rand_core::{Rng, SeedableRng};
use startup::instrument::Instrument;
use startup::pressure::PressureTest;
use startup::vacuum::{Criterion, GaugePlace, VacuumTest};
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

/// 500 micron reached, under 700 after 15 minutes, a gauge of 10 micron, 10 C at the coldest tube.
pub fn vacuum_test() -> VacuumTest {
    VacuumTest {
        criterion: Criterion {
            reach_pa: 500.0 * MICRON,
            limit_pa: 700.0 * MICRON,
            hold_s: 900.0,
            source: "Loon 12, page 14".into(),
        },
        gauge: Instrument::new("gauge 2", 10.0 * MICRON, MICRON).calibrated(20_700),
        gauge_share: 0.05,
        place: GaugePlace::System,
        coldest_c: Some(10.0),
        coldest_k: 1.0,
        volume: Volume {
            m3: 0.0015,
            share: 0.2,
        },
        air_pa: 101_325.0,
        refrigerant: Refrigerant::R32,
        service_c: 20.0,
        pressure_test_g_per_year: None,
        day: 20_782,
    }
}
