//! From a leak of test gas to a leak of refrigerant.

use physics::refrigerant::{DewC, Refrigerant};
use serde::Serialize;

use crate::wrong::{Wrong, within};

/// Seconds of a year.
pub const YEAR_S: f64 = 31_557_600.0;

/// The gas that goes through the hole in a test.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TestGas {
    /// Nitrogen outwards.
    Nitrogen,
    /// Air inwards.
    Air,
}

impl TestGas {
    /// Molar mass, kg/mol, and Sutherland's constants: viscosity at 273.15 K, Pa s, and K.
    fn facts(self) -> (f64, f64, f64) {
        match self {
            Self::Nitrogen => (0.028_013_48, 1.663e-5, 107.0),
            Self::Air => (0.028_965_5, 1.716e-5, 111.0),
        }
    }

    /// Viscosity.
    ///
    /// # Equation
    /// `m = m0 (T / 273.15)^1.5 (273.15 + S) / (T + S)`
    /// # Symbols
    /// `T` K; `m0` viscosity at 273.15 K, Pa s; `S` Sutherland's constant, K.
    /// # Range
    /// -60 to 80 C, near atmospheric pressure; at 40 bar nitrogen is about 5 % more viscous,
    /// which is small beside the two bounds.
    /// # Source
    /// `from-memory`: Sutherland's law and constants.
    /// # Example
    /// ```
    /// let m = startup::leak_scale::TestGas::Nitrogen.viscosity_pa_s(20.0);
    /// assert!((m - 1.76e-5).abs() < 2e-7);
    /// ```
    pub fn viscosity_pa_s(self, temperature_c: f64) -> f64 {
        let (_, m0, s) = self.facts();
        let t = temperature_c + 273.15;
        m0 * libm::pow(t / 273.15, 1.5) * (273.15 + s) / (t + s)
    }
}

/// Ratio of specific heats of the ideal vapour. From memory; it moves the bound by 5 % at most.
fn kappa(r: Refrigerant) -> f64 {
    match r {
        Refrigerant::R32 => 1.24,
        Refrigerant::R410A => 1.17,
        Refrigerant::R454B => 1.19,
        Refrigerant::R290 => 1.13,
    }
}

/// Molar mass, kg/mol. Source: `ashrae-34` (second hand); blends by mass share.
fn molar_mass(r: Refrigerant) -> f64 {
    match r {
        Refrigerant::R32 => 0.052_024,
        Refrigerant::R410A => 0.072_585,
        Refrigerant::R454B => 0.062_61,
        Refrigerant::R290 => 0.044_096,
    }
}

/// Choked flow through a nozzle over `p / sqrt(R T / M)`.
fn choked(k: f64) -> f64 {
    k.sqrt() * libm::pow(2.0 / (k + 1.0), (k + 1.0) / (2.0 * (k - 1.0)))
}

/// kg of refrigerant for each kg of test gas, through the same hole: two bounds.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct LeakRatio {
    /// Long and narrow: laminar.
    pub laminar: f64,
    /// Short and sharp: choked.
    pub choked: f64,
}

impl LeakRatio {
    /// The smaller bound.
    pub fn low(self) -> f64 {
        self.laminar.min(self.choked)
    }
    /// The larger bound.
    pub fn high(self) -> f64 {
        self.laminar.max(self.choked)
    }
}

/// How much refrigerant vapour a hole loses in service for what test gas went through it.
///
/// # Equation
/// laminar `(Mr / Mg) (mg / mr) (ps^2 - pa^2) / (p1^2 - p2^2)`;
/// choked `(ps / p1) sqrt(Mr / Mg) f(kr) / f(kg)`, `f(k) = sqrt(k) (2/(k+1))^((k+1)/(2(k-1)))`
/// # Symbols
/// `M` molar mass; `m` viscosity; `k` ratio of specific heats; `r` refrigerant vapour, `g` test
/// gas; `p1`, `p2` absolute pressures before and behind the hole in the test; `ps` vapour pressure
/// in service, `pa` air, Pa. Both at about the same temperature.
/// # Range
/// `p1` at least twice `p2`; service -40 to 60 C with `ps` above 1.2 `pa`.
/// # Source
/// `common-practice`: Poiseuille's law for a gas and the choked nozzle. Which of the two a leak
/// follows is not known beforehand, so both are shown. Liquid below a leak loses more: up to
/// about five times the laminar bound.
/// # Example
/// ```
/// use physics::refrigerant::Refrigerant;
/// use startup::leak_scale::{leak_ratio, TestGas};
/// // Trade card F22 counts about a third of a kg for each kg of nitrogen, laminar, at rest.
/// let r = leak_ratio(TestGas::Nitrogen, 4.238e6, 101_325.0, Refrigerant::R410A, 20.0).unwrap();
/// assert!(r.laminar > 0.25 && r.laminar < 0.5 && r.choked > r.laminar);
/// ```
/// # Errors
/// Pressures or temperature outside the range.
pub fn leak_ratio(
    gas: TestGas,
    before_pa: f64,
    behind_pa: f64,
    refrigerant: Refrigerant,
    service_c: f64,
) -> Result<LeakRatio, Wrong> {
    const AIR_PA: f64 = 101_325.0;
    let t = within("temperature in service", "C", service_c, -40.0, 60.0)?;
    if !(behind_pa >= 0.0 && before_pa >= 2.0 * behind_pa && before_pa > 0.0) {
        return Err(Wrong::new(
            "pressure across the leak",
            format!("{before_pa:.0} Pa to {behind_pa:.0} Pa"),
            "at least twice the pressure behind it",
        ));
    }
    let vapour = refrigerant.saturated_vapour(DewC(t))?;
    let ps = vapour.pressure.0;
    if ps < 1.2 * AIR_PA {
        return Err(Wrong::new(
            "pressure in service",
            format!("{ps:.0} Pa"),
            "above 1.2 times that of the air: a warmer temperature in service",
        ));
    }
    let (mg, ..) = gas.facts();
    let mr = molar_mass(refrigerant);
    let drive = (ps * ps - AIR_PA * AIR_PA) / (before_pa * before_pa - behind_pa * behind_pa);
    Ok(LeakRatio {
        laminar: mr / mg * gas.viscosity_pa_s(t) / vapour.viscosity_pa_s * drive,
        choked: ps / before_pa * (mr / mg).sqrt() * choked(kappa(refrigerant)) / choked(1.4),
    })
}
