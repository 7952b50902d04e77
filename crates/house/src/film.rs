//! Heat between a face and the air, ready for the hourly loop.

/// Steps of the table per kelvin.
const PER_K: f64 = 8.0;
/// Reach of the table, K; beyond it the last coefficient goes on.
const REACH_K: usize = 40;

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

/// Heat from air to an inside face by natural convection, tabulated over the temperature
/// difference (air minus face).
#[derive(Debug, Clone)]
pub struct InsideFilm {
    /// Values at -REACH_K .. REACH_K for each of the three ways to look.
    table: [Vec<f64>; 3],
}

impl InsideFilm {
    /// Tabulates [`physics::film::inside_natural_w_per_m2k`].
    pub fn new() -> Self {
        let cells = 2 * REACH_K * PER_K as usize;
        let fill = |tilt_deg: f64| {
            (0..=cells)
                .map(|i| {
                    let dt = i as f64 / PER_K - REACH_K as f64;
                    dt * inside_natural_w_per_m2k(tilt_deg, dt)
                })
                .collect()
        };
        Self {
            table: [fill(90.0), fill(0.0), fill(180.0)],
        }
    }

    /// Heat from air to face, W/m2, at air minus face `dt_k`.
    #[inline]
    pub fn heat_w_per_m2(&self, looks: Looks, dt_k: f64) -> f64 {
        let table = &self.table[looks as usize];
        let x = (dt_k + REACH_K as f64) * PER_K;
        let i = (x.max(0.0) as usize).min(table.len() - 2);
        table[i] + (x - i as f64) * (table[i + 1] - table[i])
    }
}

impl Default for InsideFilm {
    fn default() -> Self {
        Self::new()
    }
}

/// Natural convection inside. `tilt_deg` is that of the outside face: 0 a ceiling, 180 a floor.
/// `dt_k` is air minus face.
fn inside_natural_w_per_m2k(tilt_deg: f64, dt_k: f64) -> f64 {
    let third = libm::cbrt(dt_k.abs());
    let level = (libm::cos(tilt_deg.to_radians())).abs();
    if level < 0.1 {
        return 1.31 * third;
    }
    // Warm ceiling (air colder than face) or cold floor: layered air, little exchange.
    let ceiling = tilt_deg < 90.0;
    let layered = if ceiling { dt_k < 0.0 } else { dt_k > 0.0 };
    if layered {
        1.81 * third / (1.382 + level)
    } else {
        9.482 * third / (7.283 - level)
    }
}
