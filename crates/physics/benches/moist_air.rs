//! Time of one moist-air state. Beside it: psychrolib takes 16 to 28 us for the same state.

use divan::{Bencher, black_box};
use physics::moist_air::{MoistAir, dew_point_of_pressure_c, saturation_pressure_pa};

fn main() {
    divan::main();
}

#[divan::bench]
fn saturation_pressure(bencher: Bencher) {
    bencher.bench(|| saturation_pressure_pa(black_box(-8.3)));
}

/// Humidity ratio, enthalpy, volume and density: what an hour of the house asks for.
#[divan::bench]
fn state_without_wet_bulb(bencher: Bencher) {
    bencher.bench(|| {
        MoistAir::from_relative_humidity(black_box(8.3), black_box(0.7), black_box(101_325.0)).map(
            |a| {
                (
                    a.humidity_ratio(),
                    a.enthalpy_j_per_kg(),
                    a.density_kg_per_m3(),
                )
            },
        )
    });
}

/// All that psychrolib's one call gives: with dew point and wet bulb.
#[divan::bench]
fn whole_state(bencher: Bencher) {
    bencher.bench(|| {
        MoistAir::from_relative_humidity(black_box(8.3), black_box(0.7), black_box(101_325.0)).map(
            |a| {
                let wet = a.wet_bulb_c();
                let dew = a.dew_point_c();
                (
                    a.humidity_ratio(),
                    a.enthalpy_j_per_kg(),
                    a.density_kg_per_m3(),
                    wet,
                    dew,
                )
            },
        )
    });
}

#[divan::bench]
fn dew_point(bencher: Bencher) {
    bencher.bench(|| dew_point_of_pressure_c(black_box(780.0)));
}

#[divan::bench]
fn wet_bulb(bencher: Bencher) {
    let air = MoistAir::from_relative_humidity(8.3, 0.7, 101_325.0).ok();
    bencher.bench(|| black_box(air).map(|a| a.wet_bulb_c()));
}
