//! Friction of one phase: factor, gradient, bends.

use crate::OutOfRange;
use crate::range::within;

/// Roughness of drawn copper, m. `crane-410` (from memory).
pub const DRAWN_COPPER_ROUGHNESS_M: f64 = 1.5e-6;

/// Reynolds number up to which flow is taken as laminar. The factor jumps here, as nature does
/// somewhere between 2,000 and 4,000; lines in use are far above it.
pub const LAMINAR_UP_TO: f64 = 2040.0;

/// Darcy friction factor of a round pipe.
///
/// # Equation
/// Laminar `f = 64 / Re`; turbulent `1/sqrt(f) = -2 log10(e / 3.7 + 2.51 / (Re sqrt(f)))`
/// (Colebrook), by Newton's method to the last bits
/// # Symbols
/// `Re` Reynolds number; `e` roughness over inside diameter; `f` Darcy factor (four times
/// Fanning's).
/// # Range
/// `Re` 1 to 1e8, `e` 0 to 0.05.
/// # Source
/// `colebrook-1939`; iterated rather than approximated because three steps cost no more than the
/// explicit formulas and agree to 1e-12.
/// # Example
/// ```
/// let f = physics::pipe::friction_factor(27_696.6, 1.5e-6 / 0.00475).unwrap();
/// assert!((f - 0.02473152).abs() < 1e-7);
/// ```
/// # Errors
/// An input outside the range.
pub fn friction_factor(reynolds: f64, relative_roughness: f64) -> Result<f64, OutOfRange> {
    let re = within("Reynolds number", "of 1", reynolds, 1.0, 1e8)?;
    let rough = within("relative roughness", "of 1", relative_roughness, 0.0, 0.05)?;
    if re < LAMINAR_UP_TO {
        return Ok(64.0 / re);
    }
    // y = 1/sqrt(f); start with Haaland, within 1.5 % of f.
    let mut y = -1.8 * libm::log10(libm::pow(rough / 3.7, 1.11) + 6.9 / re);
    let per_y = 2.51 / re;
    for _ in 0..8 {
        let inside = rough / 3.7 + per_y * y;
        let off = y + 2.0 * libm::log10(inside);
        let slope = 1.0 + 2.0 / std::f64::consts::LN_10 * per_y / inside;
        let step = off / slope;
        y -= step;
        // Newton squares the error: a step of 1e-6 leaves less than 1e-12.
        if step.abs() < 1e-6 {
            break;
        }
    }
    Ok(1.0 / (y * y))
}

/// Mean velocity in a round pipe.
///
/// # Equation
/// `v = 4 m / (pi r D^2)`
/// # Symbols
/// `m` mass flow, kg/s; `r` density, kg/m3; `D` inside diameter, m; `v` m/s.
/// # Range
/// Flow 0 to 10 kg/s, density 0.1 to 2,000 kg/m3, diameter 1 to 100 mm.
/// # Source
/// `common-practice`: continuity.
/// # Example
/// ```
/// let v = physics::pipe::velocity_m_per_s(0.01, 975.716, 0.00475).unwrap();
/// assert!((v - 0.57836).abs() < 1e-5);
/// ```
/// # Errors
/// An input outside the range.
pub fn velocity_m_per_s(
    mass_flow_kg_per_s: f64,
    density_kg_per_m3: f64,
    inside_m: f64,
) -> Result<f64, OutOfRange> {
    let m = within("mass flow", "kg/s", mass_flow_kg_per_s, 0.0, 10.0)?;
    let r = within("density", "kg/m3", density_kg_per_m3, 0.1, 2000.0)?;
    let d = within("inside diameter", "m", inside_m, 0.001, 0.1)?;
    Ok(4.0 * m / (std::f64::consts::PI * r * d * d))
}

/// Pressure lost per metre of straight pipe, one phase.
///
/// # Equation
/// `dp/dx = f r v^2 / (2 D)`, `Re = r v D / u`
/// # Symbols
/// `f` Darcy factor; `r` density, kg/m3; `v` velocity, m/s; `D` inside diameter, m; `u`
/// viscosity, Pa s; result, Pa/m.
/// # Range
/// As [`friction_factor`] and [`velocity_m_per_s`]; viscosity 1e-6 to 0.1 Pa s. No flow, no loss.
/// # Source
/// `colebrook-1939` with the Darcy-Weisbach equation.
/// # Example
/// ```
/// // R-410A liquid at 40 C, 10 g/s in 1/4 in tube: 8.4967 kPa per 10 m.
/// let g = physics::pipe::gradient_pa_per_m(0.01, 975.716, 9.6781e-5, 0.00475, 1.5e-6).unwrap();
/// assert!((g - 849.67).abs() < 0.02);
/// ```
/// # Errors
/// An input outside the range.
pub fn gradient_pa_per_m(
    mass_flow_kg_per_s: f64,
    density_kg_per_m3: f64,
    viscosity_pa_s: f64,
    inside_m: f64,
    roughness_m: f64,
) -> Result<f64, OutOfRange> {
    let v = velocity_m_per_s(mass_flow_kg_per_s, density_kg_per_m3, inside_m)?;
    let u = within("viscosity", "Pa s", viscosity_pa_s, 1e-6, 0.1)?;
    if v == 0.0 {
        return Ok(0.0);
    }
    let reynolds = density_kg_per_m3 * v * inside_m / u;
    let f = friction_factor(reynolds, roughness_m / inside_m)?;
    Ok(f * density_kg_per_m3 * v * v / (2.0 * inside_m))
}

/// Loss coefficient of a smooth bend, in velocity heads.
///
/// # Equation
/// `K = f a r + (0.10 + 2.4 f) sin(a/2) + 6.6 f (sqrt(sin(a/2)) + sin(a/2)) / r^(4 a / pi)`
/// # Symbols
/// `f` Darcy factor; `a` angle, rad; `r` radius of the bend over inside diameter; `K` of 1.
/// # Range
/// Angle 0 to pi, `r` 0.5 to 50, `f` 0.001 to 0.2.
/// # Source
/// `rennels-hudson-2012`, smooth bends (from memory). Chosen because it goes smoothly to a
/// straight pipe; other published bends differ by up to 90 % at small `r`.
/// # Example
/// ```
/// let f = physics::pipe::friction_factor(1e4, 1.5e-6 / 0.00792).unwrap();
/// let k = physics::pipe::bend_loss(f, std::f64::consts::FRAC_PI_2, 3.0).unwrap();
/// assert!((k - 0.305909).abs() < 1e-5);
/// ```
/// # Errors
/// An input outside the range.
pub fn bend_loss(friction: f64, angle_rad: f64, radius_diameters: f64) -> Result<f64, OutOfRange> {
    let f = within("friction factor", "of 1", friction, 0.001, 0.2)?;
    let a = within(
        "angle of the bend",
        "rad",
        angle_rad,
        0.0,
        std::f64::consts::PI,
    )?;
    let r = within(
        "radius of the bend",
        "diameters",
        radius_diameters,
        0.5,
        50.0,
    )?;
    let half = libm::sin(0.5 * a);
    let turn = 6.6 * f * (libm::sqrt(half) + half) / libm::pow(r, 4.0 * a / std::f64::consts::PI);
    Ok(f * a * r + (0.10 + 2.4 * f) * half + turn)
}
