//! A jet of air that is warmer or colder than the room: how far it carries, and how far it bends.
//!
//! One method for all: the jet's momentum and its surplus of heat are kept while it draws in room
//! air, and buoyancy turns it upward or downward step by step.

use crate::OutOfRange;
use crate::range::within;

/// Widening of a round free jet: radius at which the speed is 1/e, by distance.
const WIDENING: f64 = 0.107;
/// How much wider warmth spreads than speed, squared.
const WARMTH_WIDER: f64 = 1.35;
/// Gravity, m/s2.
const GRAVITY: f64 = 9.80665;
/// A cubic metre of room air, J/K.
const AIR_J_PER_M3K: f64 = 1206.0;

/// A jet as it leaves its outlet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Jet {
    /// Air, m3/s.
    pub air_m3_per_s: f64,
    /// Free area of the outlet, m2.
    pub outlet_m2: f64,
    /// Heat it brings, W; below zero it cools.
    pub heat_w: f64,
    /// Room, C.
    pub room_c: f64,
    /// Below level, degrees; above level if below zero.
    pub down_deg: f64,
    /// Distance at which the outlet's own test found its speed at 0.25 m/s, m; without one the
    /// jet is a round free one.
    pub throw_m: Option<f64>,
    /// It leaves along a ceiling: a warm jet stays there, a cold one until it lets go.
    pub along_ceiling: bool,
}

/// A point of the middle line of a jet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// Away from the outlet, level, m.
    pub away_m: f64,
    /// Above the outlet, m; below zero beneath it.
    pub up_m: f64,
    /// Speed in the middle, m/s.
    pub speed_m_per_s: f64,
    /// Warmer than the room in the middle, K.
    pub warmer_k: f64,
    /// Upright distance from the middle at which the speed is 1/e, m.
    pub half_height_m: f64,
    /// The same sideways, m.
    pub half_width_m: f64,
}

/// Speed at which a throw ends, m/s.
pub const THROW_ENDS_M_PER_S: f64 = 0.25;

impl Jet {
    /// Momentum over density where it leaves, m4/s2.
    fn momentum(&self) -> f64 {
        self.air_m3_per_s * self.air_m3_per_s / self.outlet_m2
    }

    /// Speed in the middle times distance, m2/s.
    fn reach(&self) -> f64 {
        if let Some(throw) = self.throw_m {
            THROW_ENDS_M_PER_S * throw
        } else {
            let sides = if self.along_ceiling { 2.0 } else { 1.0 };
            libm::sqrt(2.0 * sides * self.momentum() / core::f64::consts::PI) / WIDENING
        }
    }

    fn checked(&self) -> Result<(), OutOfRange> {
        within("air of the jet", "m3/s", self.air_m3_per_s, 1e-3, 2.0)?;
        within("outlet of the jet", "m2", self.outlet_m2, 1e-3, 1.0)?;
        within("heat of the jet", "W", self.heat_w, -20_000.0, 20_000.0)?;
        within("room", "C", self.room_c, -10.0, 45.0)?;
        within("jet below level", "degrees", self.down_deg, -90.0, 90.0)?;
        if let Some(throw) = self.throw_m {
            within("throw", "m", throw, 0.3, 60.0)?;
        }
        Ok(())
    }
}

/// Middle line of a jet until it is slower than a quarter of a metre a second, or has gone so far.
///
/// # Equation
/// Along the jet, over density: `dMx/ds = 0`, `dMz/ds = (g / T) (1 + l) H / um`, `dx/ds = Mx / M`,
/// `dz/ds = Mz / M`; `um = (P / s) sqrt(M / M0)`, at most `q / A`; `M0 = q^2 / A`; `H = Q / c`.
/// While `um` is still `q / A`, `l` grows from 0 to its value. Along a ceiling `Mz` stays 0: a cold
/// jet for the way of [`keeps_to_ceiling_m`], a warm one for good.
/// Without a throw of its own, `P = sqrt(2 M0 / pi) / 0.107`.
/// # Symbols
/// `s` way along the jet, m; `Mx`, `Mz` level and upright momentum, `M` both, m4/s2; `q` air,
/// m3/s; `A` outlet, m2; `Q` heat, W; `c` 1,206 J/(m3 K); `H` surplus warmth, m3 K/s; `T` room,
/// K; `l` 1.35, how much wider warmth spreads than speed, squared; `P` speed in the middle times
/// distance, m2/s (0.25 m/s times the throw); `um` speed in the middle, m/s.
/// # Range
/// Air 0.001 to 2 m3/s, outlet 0.001 to 1 m2, heat up to 20 kW either way, room -10 to 45 C. Away
/// from walls and people; one jet alone; past the first few outlet widths.
/// # Source
/// `rodi-1982`, integral method for buoyant jets with similar profiles; held against the bend of
/// `koestel-1955` and the height of a fountain of `turner-1966`.
/// # Example
/// ```
/// use physics::jet::{Jet, path};
/// // 200 L/s through 0.04 m2, 4 kW of heat, blown 45 degrees down: it turns up before 3 m down.
/// let jet = Jet { air_m3_per_s: 0.2, outlet_m2: 0.04, heat_w: 4000.0, room_c: 21.0,
///     down_deg: 45.0, throw_m: None, along_ceiling: false };
/// let low = path(&jet, 8.0).unwrap().iter().map(|p| p.up_m).fold(0.0, f64::min);
/// assert!(low < -2.5 && low > -4.0);
/// ```
/// # Errors
/// An input outside the range.
pub fn path(jet: &Jet, farthest_m: f64) -> Result<Vec<Point>, OutOfRange> {
    jet.checked()?;
    let farthest = within("farthest way", "m", farthest_m, 0.1, 100.0)?;
    let (m0, reach) = (jet.momentum(), jet.reach());
    let warmth = jet.heat_w / AIR_J_PER_M3K;
    let lift = GRAVITY / (jet.room_c + 273.15) * warmth;
    let angle = jet.down_deg.to_radians();
    let (level, mut upright) = (m0 * libm::cos(angle), -m0 * libm::sin(angle));
    // the middle keeps its first speed until the mixing has reached it
    let first_speed = jet.air_m3_per_s / jet.outlet_m2;
    let core = (reach / first_speed).max(1e-6);
    let kept = if !jet.along_ceiling {
        0.0
    } else if warmth < 0.0 {
        keeps_to_ceiling_m(jet)?
    } else {
        f64::INFINITY
    };
    let (step, mut s, mut x, mut z) = (0.05, 0.0, 0.0, 0.0);
    let mut out = Vec::new();
    while s < farthest {
        let momentum = libm::hypot(level, upright);
        let along = s.max(core);
        let speed = (reach / along) * libm::sqrt(momentum / m0);
        let high = WIDENING * along;
        let wide = 2.0 * momentum / (core::f64::consts::PI * speed * speed * high);
        out.push(Point {
            away_m: x,
            up_m: z,
            speed_m_per_s: speed,
            warmer_k: warmth * (1.0 + WARMTH_WIDER)
                / (speed * core::f64::consts::PI * WARMTH_WIDER * high * wide),
            half_height_m: high,
            half_width_m: wide,
        });
        if speed < THROW_ENDS_M_PER_S {
            break;
        }
        // at the outlet the jet is as warm as it is fast throughout; bell-shaped once mixed
        let free = if s < kept { 0.0 } else { step * lift };
        let turning = free * (1.0 + WARMTH_WIDER * (s / core).min(1.0)) / speed;
        let turn = upright + 0.5 * turning;
        let middle = libm::hypot(level, turn).max(1e-12);
        x += step * level / middle;
        z += step * turn / middle;
        upright += turning;
        s += step;
    }
    Ok(out)
}

/// Way a cold jet keeps to the ceiling before it lets go.
///
/// # Equation
/// `x = 1.6 M0^(3/4) / B^(1/2)`, `M0 = q^2 / A`, `B = (g / T) Q / c`
/// # Symbols
/// `q` air, m3/s; `A` outlet, m2; `Q` cooling, W; `T` room, K; `c` 1,206 J/(m3 K); `x` m.
/// # Range
/// As of [`path`]; cooling above zero. Level along a smooth ceiling.
/// # Source
/// `rodi-1982`, three-dimensional cold wall jet; the number 1.6 is from memory and published
/// values scatter by a third.
/// # Example
/// ```
/// use physics::jet::{Jet, keeps_to_ceiling_m};
/// let jet = Jet { air_m3_per_s: 0.05, outlet_m2: 0.016, heat_w: -700.0, room_c: 24.0,
///     down_deg: 0.0, throw_m: None, along_ceiling: true };
/// let x = keeps_to_ceiling_m(&jet).unwrap();
/// assert!(x > 2.0 && x < 6.0);
/// ```
/// # Errors
/// An input outside the range; a jet that does not cool.
pub fn keeps_to_ceiling_m(jet: &Jet) -> Result<f64, OutOfRange> {
    jet.checked()?;
    let cooling = within("cooling of the jet", "W", -jet.heat_w, 1.0, 20_000.0)?;
    let sinking = GRAVITY / (jet.room_c + 273.15) * cooling / AIR_J_PER_M3K;
    Ok(1.6 * libm::pow(jet.momentum(), 0.75) / libm::sqrt(sinking))
}

/// Speed beside the middle line.
///
/// # Equation
/// `u = um exp(-(z / bz)^2 - (y / by)^2)`
/// # Symbols
/// `um` speed in the middle, m/s; `z`, `y` upright and sideways distance from it, m; `bz`, `by`
/// where the speed is 1/e, m; `u` m/s.
/// # Range
/// Any distances.
/// # Source
/// `rodi-1982`, similar bell-shaped profiles.
/// # Example
/// ```
/// use physics::jet::{Point, beside_m_per_s};
/// let p = Point { away_m: 3.0, up_m: 0.0, speed_m_per_s: 1.0, warmer_k: 5.0,
///     half_height_m: 0.3, half_width_m: 0.6 };
/// assert!((beside_m_per_s(&p, 0.3, 0.0) - 0.368).abs() < 0.001);
/// ```
pub fn beside_m_per_s(p: &Point, upright_m: f64, sideways_m: f64) -> f64 {
    p.speed_m_per_s * bell(p, upright_m, sideways_m)
}

/// Warmer than the room beside the middle line.
///
/// # Equation
/// `t = tm exp(-((z / bz)^2 + (y / by)^2) / 1.35)`
/// # Symbols
/// `tm` warmer in the middle, K; the rest as of [`beside_m_per_s`].
/// # Range
/// Any distances.
/// # Source
/// `rodi-1982`, similar bell-shaped profiles.
/// # Example
/// ```
/// use physics::jet::{Point, beside_k};
/// let p = Point { away_m: 3.0, up_m: 0.0, speed_m_per_s: 1.0, warmer_k: 5.0,
///     half_height_m: 0.3, half_width_m: 0.6 };
/// assert!((beside_k(&p, 0.0, 0.0) - 5.0).abs() < 1e-12);
/// ```
pub fn beside_k(p: &Point, upright_m: f64, sideways_m: f64) -> f64 {
    p.warmer_k * libm::pow(bell(p, upright_m, sideways_m), 1.0 / WARMTH_WIDER)
}

fn bell(p: &Point, upright_m: f64, sideways_m: f64) -> f64 {
    let (z, y) = (upright_m / p.half_height_m, sideways_m / p.half_width_m);
    libm::exp(-z * z - y * y)
}
