//! Heat between a face and the air, ready for the hourly loop: the formulas of
//! [`physics::film`], tabulated.

use physics::film::{Roughness, WindSide, natural_w_per_m2k, outside_w_per_m2k};

/// Pieces of the inside table per kelvin, and how many there are: -32 to 32 K.
const PIECES_PER_K: f64 = 16.0;
const PIECES: usize = 1024;
/// Added to a number of this size, a double keeps whole numbers only, in its lowest bits.
const WHOLE: f64 = 4_503_599_627_370_496.0;

/// Where the pieces of a stated film begin: all zero, since nothing is beyond the stated coefficient.
pub const NO_PIECES: u32 = 3 * PIECES as u32;

/// Which way an inside face looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Looks {
    /// Sideways (a wall).
    Level,
    /// Down into the room (a ceiling).
    Down,
    /// Up into the room (a floor).
    Up,
}

impl Looks {
    /// For an inside face whose outside face has this tilt (0 roof, 90 wall, 180 floor).
    pub fn of_tilt(tilt_deg: f64) -> Self {
        if tilt_deg < 30.0 {
            Self::Down
        } else if tilt_deg > 150.0 {
            Self::Up
        } else {
            Self::Level
        }
    }

    /// Where its pieces begin in the table.
    pub fn first_piece(self) -> u32 {
        self as u32 * PIECES as u32
    }

    /// Coefficient that stands in the constant matrix; the table's difference to it goes to the
    /// right-hand side. At least half of the steepest slope met in a house, so that the
    /// iteration settles.
    pub fn constant_w_per_m2k(self) -> f64 {
        match self {
            Self::Level => 2.2,
            Self::Down | Self::Up => 1.8,
        }
    }
}

/// Heat from air to an inside face by natural convection, as straight pieces over the temperature
/// difference (air minus face). Beyond 32 K the last piece goes on.
#[derive(Debug, Clone)]
pub struct InsideFilm {
    /// Heat and slope in the middle of each piece, one way to look after the other (the fourth is
    /// never used and makes the number of pieces a power of two).
    pieces: Box<[[f64; 2]; 4 * PIECES]>,
}

impl InsideFilm {
    /// Tabulates [`physics::film::natural_w_per_m2k`].
    #[allow(clippy::large_stack_arrays, reason = "64 kB, once a house")]
    pub fn new() -> Self {
        let mut pieces = Box::new([[0.0; 2]; 4 * PIECES]);
        for (looks, tilt_deg) in [(Looks::Level, 90.0), (Looks::Down, 0.0), (Looks::Up, 180.0)] {
            let heat = |dt: f64| dt * inside_natural_w_per_m2k(tilt_deg, dt);
            let half = 0.5 / PIECES_PER_K;
            for i in 0..PIECES {
                let middle = (i as f64 - PIECES as f64 / 2.0) / PIECES_PER_K;
                let (low, high) = (heat(middle - half), heat(middle + half));
                pieces[looks.first_piece() as usize + i] =
                    [f64::midpoint(low, high), (high - low) * PIECES_PER_K];
            }
        }
        Self { pieces }
    }

    /// All pieces; those for one way to look begin at [`Looks::first_piece`].
    #[inline]
    pub fn all(&self) -> &[[f64; 2]; 4 * PIECES] {
        &self.pieces
    }

    /// Heat from air to face, W/m2, at air minus face `dt_k`.
    #[inline]
    pub fn heat_w_per_m2(&self, looks: Looks, dt_k: f64) -> f64 {
        on_pieces(&self.pieces, looks.first_piece(), dt_k)
    }
}

/// Heat on the piece that `dt_k` falls on. The nearest whole number is read from the bits, which
/// spares the checks of a conversion; the mask keeps it inside the table.
#[inline]
pub fn on_pieces(pieces: &[[f64; 2]; 4 * PIECES], first: u32, dt_k: f64) -> f64 {
    let reach = PIECES as f64 / 2.0;
    let x = (dt_k * PIECES_PER_K).max(-reach).min(reach - 1.0);
    let whole = x + reach + WHOLE;
    let i = (whole.to_bits() as u32).wrapping_add(first) as usize & (4 * PIECES - 1);
    let [heat, slope] = pieces[i];
    let middle = (whole - WHOLE - reach) * (1.0 / PIECES_PER_K);
    heat + slope * (dt_k - middle)
}

impl InsideFilm {
    /// How fast that heat grows with the difference, W/(m2 K).
    pub fn slope_w_per_m2k(&self, looks: Looks, dt_k: f64) -> f64 {
        let d = 0.5 * dt_k.abs().max(0.1);
        (self.heat_w_per_m2(looks, dt_k + d) - self.heat_w_per_m2(looks, dt_k - d)) / (2.0 * d)
    }
}

impl Default for InsideFilm {
    fn default() -> Self {
        Self::new()
    }
}

/// Natural convection inside. `tilt_deg` is that of the outside face: 0 a ceiling, 180 a floor.
/// `dt_k` is air minus face. Zero where physics refuses (no difference in a house is so large).
fn inside_natural_w_per_m2k(tilt_deg: f64, dt_k: f64) -> f64 {
    let normal_up = -libm::cos(tilt_deg.to_radians());
    natural_w_per_m2k(-dt_k, normal_up).unwrap_or(0.0)
}

/// Convection outside, tabulated so that a face costs two look-ups an hour.
#[derive(Debug, Clone)]
pub struct OutsideFilm {
    /// Wind part over wind speed, windward and leeward, W/(m2 K).
    wind: [Vec<f64>; 2],
    /// Cube root over temperature difference.
    root: Vec<f64>,
}

/// Steps of the table of cube roots per kelvin.
const ROOTS_PER_K: f64 = 8.0;
/// Steps of the wind table per m/s, and its reach, m/s.
const WIND_STEPS: f64 = 10.0;
const WIND_REACH: usize = 60;

impl OutsideFilm {
    /// Tabulates the parts of [`physics::film::outside_w_per_m2k`].
    pub fn new() -> Self {
        let wind = |side| {
            (0..=WIND_REACH * WIND_STEPS as usize)
                .map(|i| {
                    let v = i as f64 / WIND_STEPS;
                    outside_w_per_m2k(0.0, v, 0.0, side, Roughness::VerySmooth).unwrap_or(0.0)
                })
                .collect()
        };
        Self {
            wind: [wind(WindSide::Windward), wind(WindSide::Leeward)],
            root: (0..=40 * ROOTS_PER_K as i32)
                .map(|i| libm::cbrt(f64::from(i) / ROOTS_PER_K))
                .collect(),
        }
    }

    /// Wind part, W/(m2 K), before roughness.
    #[inline]
    pub fn wind_w_per_m2k(&self, v_m_per_s: f64, side: WindSide) -> f64 {
        look_up(
            &self.wind[usize::from(side == WindSide::Leeward)],
            v_m_per_s * WIND_STEPS,
        )
    }

    /// Wind and buoyancy together; `warmer_k` is face minus air.
    #[inline]
    pub fn both_w_per_m2k(&self, wind_part: f64, warmer_k: f64, shape: &OuterShape) -> f64 {
        let root = look_up(&self.root, warmer_k.abs() * ROOTS_PER_K);
        let natural = root
            * if warmer_k > 0.0 {
                shape.when_warm
            } else {
                shape.when_cold
            };
        let glass = (natural * natural + wind_part * wind_part).sqrt();
        natural + shape.roughness * (glass - natural)
    }
}

impl Default for OutsideFilm {
    fn default() -> Self {
        Self::new()
    }
}

/// What an outside face's tilt and roughness come to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OuterShape {
    /// Natural coefficient at 1 K, face warmer than air.
    pub when_warm: f64,
    /// Natural coefficient at 1 K, face colder than air.
    pub when_cold: f64,
    /// Multiplier on the wind's part.
    pub roughness: f64,
}

impl OuterShape {
    /// For a face of this tilt (0 looks up).
    pub fn new(tilt_deg: f64, roughness: Roughness) -> Self {
        let up = libm::cos(tilt_deg.to_radians());
        Self {
            when_warm: natural_w_per_m2k(1.0, up).unwrap_or(1.31),
            when_cold: natural_w_per_m2k(-1.0, up).unwrap_or(1.31),
            roughness: roughness.multiplier(),
        }
    }
}

#[inline]
fn look_up(table: &[f64], x: f64) -> f64 {
    let i = (x.max(0.0) as usize).min(table.len() - 2);
    table[i] + (x - i as f64) * (table[i + 1] - table[i])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tables_follow_the_formula() {
        let inside = InsideFilm::new();
        let outside = OutsideFilm::new();
        for i in -80..=80 {
            let dt = f64::from(i) / 7.0;
            let want = 1.31 * libm::cbrt(dt.abs()) * dt;
            let got = inside.heat_w_per_m2(Looks::Level, dt);
            // Straight lines of 1/8 K: below 0.02 W/m2 off, and that only next to zero.
            assert!((got - want).abs() < 0.02, "{dt}: {got} against {want}");
        }
        let shape = OuterShape::new(90.0, Roughness::Rough);
        for v in [0.3, 2.0, 7.77, 20.0] {
            for dt in [-9.0, -1.0, 3.3, 25.0] {
                let want =
                    outside_w_per_m2k(dt, v, 0.0, WindSide::Leeward, Roughness::Rough).unwrap();
                let part = outside.wind_w_per_m2k(v, WindSide::Leeward);
                let got = outside.both_w_per_m2k(part, dt, &shape);
                assert!(
                    (got / want - 1.0).abs() < 0.01,
                    "{v} m/s, {dt} K: {got} against {want}"
                );
            }
        }
    }
}
