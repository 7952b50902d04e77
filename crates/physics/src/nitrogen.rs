//! Nitrogen shut into lines for a pressure test.
//!
//! The trade's rule takes an ideal gas. At 600 psi that is off by 2.4 psi for 20 F of cooling,
//! as much as a gauge's own error, so the verdict of a test needs the real gas.

use crate::OutOfRange;
use crate::range::within;

/// Gas constant, J/(mol K). Exact since the 2019 SI.
const R: f64 = 8.314462618;

/// Second, third and fourth virial coefficients, per mol/L, over 300 K / T.
fn virial(t_k: f64) -> (f64, f64, f64) {
    let x = 300.0 / t_k;
    (
        0.0409121052 + x * (-0.0319290484 + x * (-0.0151331336 + x * 0.00161436612)),
        0.0012765132 + x * (-0.000398691199 + x * 0.000504073404),
        1.91347062e-05,
    )
}

fn pressure(t_k: f64, mol_per_l: f64) -> f64 {
    let (b, c, d) = virial(t_k);
    let z = 1.0 + mol_per_l * (b + mol_per_l * (c + mol_per_l * d));
    1000.0 * mol_per_l * R * t_k * z
}

fn checked(pressure_pa: f64, then_c: f64, now_c: f64) -> Result<(f64, f64, f64), OutOfRange> {
    Ok((
        within(
            "nitrogen pressure",
            "Pa absolute",
            pressure_pa,
            50_000.0,
            7e6,
        )?,
        within("temperature of the lines", "C", then_c, -40.0, 70.0)? + 273.15,
        within("temperature of the lines", "C", now_c, -40.0, 70.0)? + 273.15,
    ))
}

/// Density of nitrogen as a real gas.
///
/// # Equation
/// `p = r R T (1 + B r + C r^2 + D r^3)`, solved for `r`
/// # Symbols
/// `p` absolute pressure, Pa; `T` K; `B`, `C`, `D` virial coefficients, fitted; `r` molar
/// density; result, kg/m3.
/// # Range
/// 0.5 to 70 bar absolute, -40 to 70 C.
/// # Source
/// `coolprop`, nitrogen; the fit is within 1e-5 of it (`checks/tables/physics_nitrogen.py`).
/// # Example
/// ```
/// let rho = physics::nitrogen::density_kg_per_m3(4_238_180.0, 21.11).unwrap();
/// assert!((rho - 48.9).abs() < 0.2);
/// ```
/// # Errors
/// Pressure or temperature outside the range.
pub fn density_kg_per_m3(pressure_pa: f64, temperature_c: f64) -> Result<f64, OutOfRange> {
    let (p, t, _) = checked(pressure_pa, temperature_c, temperature_c)?;
    Ok(molar_density(p, t) * 28.01348)
}

/// mol/L. The compressibility is within 3 % of 1 here, so repeating with it converges fast.
fn molar_density(p: f64, t_k: f64) -> f64 {
    let ideal = p / (1000.0 * R * t_k);
    let mut r = ideal;
    for _ in 0..12 {
        r *= p / pressure(t_k, r);
    }
    r
}

/// Pressure of nitrogen shut in, at another temperature, as a real gas.
///
/// # Equation
/// the same density at the new temperature: `p2 = r R T2 (1 + B2 r + C2 r^2 + D r^3)`
/// # Symbols
/// `p1` absolute pressure, Pa, at `t1`, C; `t2` new temperature, C; `p2` Pa absolute.
/// # Range
/// 0.5 to 70 bar absolute, -40 to 70 C. The lines' own expansion (0.005 % per K) is left out.
/// # Source
/// `coolprop`, nitrogen; the fit is within 1e-5 of it.
/// # Example
/// ```
/// // 600 psig at 70 F fall to 574.4 psig at 50 F; the ideal gas says 576.8.
/// let psi = 6894.757293;
/// let p = physics::nitrogen::pressure_after_pa(600.0 * psi + 101_325.0, 190.0 / 9.0, 10.0).unwrap();
/// assert!(((p - 101_325.0) / psi - 574.43).abs() < 0.02);
/// ```
/// # Errors
/// An input outside the range.
pub fn pressure_after_pa(pressure_pa: f64, then_c: f64, now_c: f64) -> Result<f64, OutOfRange> {
    let (p, then, now) = checked(pressure_pa, then_c, now_c)?;
    Ok(pressure(now, molar_density(p, then)))
}

/// Pressure of nitrogen shut in, at another temperature, as the trade's rule has it.
///
/// # Equation
/// `p2 = p1 T2 / T1`
/// # Symbols
/// `p1`, `p2` absolute pressures, Pa; `T1`, `T2` K.
/// # Range
/// 0.5 to 70 bar absolute, -40 to 70 C.
/// # Source
/// `common-practice`; trade card F22.
/// # Example
/// ```
/// // Trade note E: 600 psig at 70 F fall to 576.8 psig at 50 F.
/// let psi = 6894.757293;
/// let p = physics::nitrogen::ideal_pressure_after_pa(600.0 * psi + 101_325.0, 190.0 / 9.0, 10.0)
///     .unwrap();
/// assert!(((p - 101_325.0) / psi - 576.8).abs() < 0.05);
/// ```
/// # Errors
/// An input outside the range.
pub fn ideal_pressure_after_pa(
    pressure_pa: f64,
    then_c: f64,
    now_c: f64,
) -> Result<f64, OutOfRange> {
    let (p, then, now) = checked(pressure_pa, then_c, now_c)?;
    Ok(p * now / then)
}
