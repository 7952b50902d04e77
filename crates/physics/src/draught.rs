//! How many people a stream of air disturbs.

use crate::OutOfRange;
use crate::range::within;

/// Share of people whom moving air disturbs.
///
/// # Equation
/// `DR = (34 - t) (v - 0.05)^0.62 (0.37 v Tu + 3.14) / 100`; 0 up to 0.05 m/s and from 34 C
/// # Symbols
/// `t` air there, C; `v` its mean speed, m/s; `Tu` how unsteady it is, percent (40 in rooms that
/// are mixed by jets); `DR` 0 to 1.
/// # Range
/// Air 15 to 60 C, speed 0 to 5 m/s, unsteadiness 10 to 60 %. Light sitting work, neck free. More
/// than all people counts as all.
/// # Source
/// `iso-7730`, 6.2, equation 6.
/// # Example
/// ```
/// // Category B of the standard, 20 %: at 23 C and 40 % about 0.19 m/s.
/// let dr = physics::draught::disturbed(23.0, 0.19, 40.0).unwrap();
/// assert!((dr - 0.20).abs() < 0.01);
/// ```
/// # Errors
/// An input outside the range.
pub fn disturbed(air_c: f64, speed_m_per_s: f64, unsteady_percent: f64) -> Result<f64, OutOfRange> {
    let t = within("air at the seat", "C", air_c, 15.0, 60.0)?;
    let v = within("air speed at the seat", "m/s", speed_m_per_s, 0.0, 5.0)?;
    let tu = within("unsteadiness", "%", unsteady_percent, 10.0, 60.0)?;
    if v <= 0.05 || t >= 34.0 {
        return Ok(0.0);
    }
    // 3.14 is the standard's own number, not the circle's
    #[allow(clippy::approx_constant)]
    let still = 3.14;
    let share = (34.0 - t) * libm::pow(v - 0.05, 0.62) * (0.37 * v * tu + still) / 100.0;
    Ok(share.min(1.0))
}
