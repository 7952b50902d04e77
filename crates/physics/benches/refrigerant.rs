//! Time of refrigerant look-ups. Beside them: the reference library takes 0.45 to 1.4 us for a
//! pure fluid's saturation and 30 us for pressure with enthalpy; for R-454B 463 us and 61 ms.

use divan::{Bencher, black_box};
use physics::refrigerant::{BubbleC, DewC, DewPa, Refrigerant};

fn main() {
    divan::main();
}

#[divan::bench(args = [Refrigerant::R32, Refrigerant::R454B])]
fn dew_pressure(bencher: Bencher, fluid: Refrigerant) {
    bencher.bench(|| black_box(fluid).dew_pressure(DewC(black_box(3.3))));
}

#[divan::bench(args = [Refrigerant::R32, Refrigerant::R454B])]
fn dew_temperature(bencher: Bencher, fluid: Refrigerant) {
    bencher.bench(|| black_box(fluid).dew_temperature(DewPa(black_box(812_000.0))));
}

/// Pressure, density, enthalpy, specific heat and viscosity together.
#[divan::bench(args = [Refrigerant::R32, Refrigerant::R454B])]
fn saturated_liquid(bencher: Bencher, fluid: Refrigerant) {
    bencher.bench(|| black_box(fluid).saturated_liquid(BubbleC(black_box(3.3))));
}

#[divan::bench(args = [210_000.0, 350_000.0, 550_000.0])]
fn pressure_enthalpy(bencher: Bencher, enthalpy: f64) {
    bencher
        .bench(|| black_box(Refrigerant::R454B).state(black_box(1_200_000.0), black_box(enthalpy)));
}
