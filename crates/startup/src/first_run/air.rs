//! What the air carries, and how much of it a head moves.

use physics::standard_air::{air_heat_w_per_k, density_ratio};

use super::Read;
use crate::wrong::{Wrong, within};

/// Heat the head gives to its air, and the limit of error.
///
/// # Equation
/// `Q = q d c (ts - tr)`; `u = |Q| sqrt((uq/q)^2 + (us^2 + ur^2)/(ts - tr)^2)`
/// # Symbols
/// `q` air flow, m3/s; `d` density over that at sea level; `c` heat of standard air, J/(m3 K);
/// `ts`, `tr` supply and return, C, with limits of error `us`, `ur`; `Q` W, negative when cooling
/// (sensible only).
/// # Range
/// Flow 0.01 to 2 m3/s, altitude -500 to 4,500 m, a difference of 0.5 K or more.
/// # Source
/// `common-practice`: trade card F24; 1.08 Btu/h per cfm F at sea level.
/// # Example
/// ```
/// // Card F24: 300 cfm and 30 F give 9.7 kBtu/h; with 15 % and 1 F: 16 %.
/// let (q, u) = startup::first_run::air_heat_w((0.14158, 0.021237), (21.0, 0.5556), (37.667, 0.5556), 0.0).unwrap();
/// assert!((q * 3.412 - 9_720.0).abs() < 100.0);
/// assert!((u / q - 0.158).abs() < 0.005);
/// ```
/// # Errors
/// Readings outside the range.
pub fn air_heat_w(flow: Read, back: Read, supply: Read, altitude_m: f64) -> Result<Read, Wrong> {
    within("air flow", "m3/s", flow.0, 0.01, 2.0)?;
    within("altitude", "m", altitude_m, -500.0, 4_500.0)?;
    let dt = supply.0 - back.0;
    if dt.is_nan() || dt.abs() < 0.5 {
        return Err(Wrong::new(
            "supply less return",
            format!("{dt:.1} K"),
            "half a kelvin or more: the unit is not heating or cooling",
        ));
    }
    let q = air_heat_w_per_k(flow.0, density_ratio(altitude_m)?)? * dt;
    let of_flow = flow.1 / flow.0;
    let of_dt = libm::hypot(back.1, supply.1) / dt;
    Ok((q, q.abs() * libm::hypot(of_flow, of_dt)))
}

/// A head's own air flow at one of its speeds, with its doubt: heads in the field move less air than
/// their sheet prints.
///
/// # Equation
/// `q = sheet's flow at the speed`, limit a quarter of it
/// # Symbols
/// speed counted from 1, the slowest; m3/s.
/// # Range
/// The speeds of the sheet.
/// # Source
/// `sheet`; `common-practice` for the quarter (trade card F24).
/// # Example
/// ```
/// let q = startup::first_run::sheet_flow(&[0.08, 0.12], 2).unwrap();
/// assert_eq!(q, (0.12, 0.03));
/// assert!(startup::first_run::sheet_flow(&[0.08, 0.12], 3).is_err());
/// ```
/// # Errors
/// A speed that the sheet does not have.
pub fn sheet_flow(air_m3_per_s: &[f64], speed: usize) -> Result<Read, Wrong> {
    let flow = speed.checked_sub(1).and_then(|i| air_m3_per_s.get(i));
    flow.map(|q| (*q, 0.25 * q)).ok_or_else(|| {
        Wrong::new(
            "speed of the head",
            speed.to_string(),
            match air_m3_per_s.len() {
                0 => "none: the sheet gives no air flow".to_owned(),
                n => format!("1, the slowest, to {n}"),
            },
        )
    })
}
