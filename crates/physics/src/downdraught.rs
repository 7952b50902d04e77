//! Cold glass: how cold it is inside, the draught it makes, and when it fogs.

use crate::OutOfRange;
use crate::range::within;

/// Temperature of the inside face of a window.
///
/// # Equation
/// `ts = Ti - U Rsi (Ti - To)`
/// # Symbols
/// `Ti` room, `To` outdoor temperature, C; `U` transmittance of the pane, W/(m2 K); `Rsi` inside
/// film resistance, m2 K/W (0.13 by convention); `ts` C.
/// # Range
/// `U Rsi` from 0 to 1; temperatures -60 to 60 C.
/// # Source
/// `iso-13788`, clause 4.3; trade card F12.
/// # Example
/// ```
/// // Trade card F12: at 21 and -20 C, U 2.8 gives 6 C.
/// let ts = physics::downdraught::surface_c(21.0, -20.0, 2.8, 0.13).unwrap();
/// assert!((ts - 6.0).abs() < 0.5);
/// ```
/// # Errors
/// An input outside the range.
pub fn surface_c(
    inside_c: f64,
    outside_c: f64,
    u_w_per_m2k: f64,
    inside_film_m2k_per_w: f64,
) -> Result<f64, OutOfRange> {
    let ti = within("room temperature", "C", inside_c, -60.0, 60.0)?;
    let to = within("outdoor temperature", "C", outside_c, -60.0, 60.0)?;
    let part = within(
        "film's share of the resistance",
        "of 1",
        u_w_per_m2k * inside_film_m2k_per_w,
        0.0,
        1.0,
    )?;
    Ok(ti - part * (ti - to))
}

/// Speed of the air that falls down cold glass and spreads over the floor.
///
/// # Equation
/// `v = 0.055 sqrt(h d)` up to 0.4 m from the glass, `0.095 sqrt(h d) / (x + 1.32)` from 0.4 to
/// 2 m, `0.028 sqrt(h d)` beyond.
/// # Symbols
/// `h` height of the cold pane, m; `d` room minus glass temperature, K; `x` distance from the
/// glass along the floor, m; `v` greatest speed, m/s.
/// # Range
/// Height 0 to 10 m, difference 0 to 60 K, distance 0 to 20 m. No heater below the glass.
/// # Source
/// `heiselberg-1994`, draught risk from cold vertical surfaces (from memory); trade card F12.
/// # Example
/// ```
/// // Trade card F12: 1.5 m pane of U 2.8 at 21 and -20 C: 0.26 m/s at the glass.
/// let v = physics::downdraught::speed_m_per_s(1.5, 14.9, 0.0).unwrap();
/// assert!((v - 0.26).abs() < 0.005);
/// ```
/// # Errors
/// An input outside the range.
pub fn speed_m_per_s(
    pane_height_m: f64,
    room_minus_glass_k: f64,
    distance_m: f64,
) -> Result<f64, OutOfRange> {
    let h = within("height of the pane", "m", pane_height_m, 0.0, 10.0)?;
    let d = within(
        "room to glass difference",
        "K",
        room_minus_glass_k,
        0.0,
        60.0,
    )?;
    let x = within("distance from the glass", "m", distance_m, 0.0, 20.0)?;
    let drive = libm::sqrt(h * d);
    Ok(if x < 0.4 {
        0.055 * drive
    } else if x <= 2.0 {
        0.095 * drive / (x + 1.32)
    } else {
        0.028 * drive
    })
}

/// Saturation pressure by the building-physics formula, for surface humidity. For air states use
/// [`crate::moist_air`].
///
/// # Equation
/// `p = 610.5 exp(17.269 t / (237.3 + t))` from 0 C, `p = 610.5 exp(21.875 t / (265.5 + t))`
/// below.
/// # Symbols
/// `t` temperature, C; `p` Pa.
/// # Range
/// -60 to 60 C.
/// # Source
/// `iso-13788`, annex E, equations E.7 and E.8.
/// # Example
/// ```
/// let p = physics::downdraught::saturation_pa(20.0).unwrap();
/// assert!((p - 2337.0).abs() < 0.5);
/// ```
/// # Errors
/// Temperature outside the range.
pub fn saturation_pa(temperature_c: f64) -> Result<f64, OutOfRange> {
    let t = within("surface temperature", "C", temperature_c, -60.0, 60.0)?;
    let power = if t >= 0.0 {
        17.269 * t / (237.3 + t)
    } else {
        21.875 * t / (265.5 + t)
    };
    Ok(610.5 * libm::exp(power))
}

/// Dew point by the same formula.
///
/// # Equation
/// `t = 237.3 x / (17.269 - x)` from 610.5 Pa, `t = 265.5 x / (21.875 - x)` below,
/// `x = ln(p / 610.5)`
/// # Symbols
/// `p` vapour pressure, Pa; `t` C.
/// # Range
/// 1.08 Pa (-60 C) to 19,920 Pa (60 C).
/// # Source
/// `iso-13788`, annex E, equations E.9 and E.10.
/// # Example
/// ```
/// use physics::downdraught::{dew_point_c, saturation_pa};
/// // Room 21 C at 30 %: 2.8 C (trade note E).
/// let t = dew_point_c(0.30 * saturation_pa(21.0).unwrap()).unwrap();
/// assert!((t - 2.8).abs() < 0.05);
/// ```
/// # Errors
/// Pressure outside the range.
pub fn dew_point_c(vapour_pressure_pa: f64) -> Result<f64, OutOfRange> {
    let p = within("vapour pressure", "Pa", vapour_pressure_pa, 1.0, 20_000.0)?;
    let x = libm::log(p / 610.5);
    Ok(if x >= 0.0 {
        237.3 * x / (17.269 - x)
    } else {
        265.5 * x / (21.875 - x)
    })
}

/// Greatest relative humidity of a room at which a surface stays dry.
///
/// # Equation
/// `RH = p(ts) / p(Ti)`
/// # Symbols
/// `ts` surface, `Ti` room temperature, C; `RH` 0 to 1.
/// # Range
/// -60 to 60 C; a surface warmer than the room gives 1.
/// # Source
/// `iso-13788`, clause 5 with annex E.
/// # Example
/// ```
/// let rh = physics::downdraught::humidity_limit(6.9, 21.0).unwrap();
/// assert!((rh - 0.40).abs() < 0.005);
/// ```
/// # Errors
/// A temperature outside the range.
pub fn humidity_limit(surface_c: f64, room_c: f64) -> Result<f64, OutOfRange> {
    let limit = saturation_pa(surface_c)? / saturation_pa(room_c)?;
    // More than saturated air cannot be: a warm surface never limits.
    Ok(limit.min(1.0))
}
