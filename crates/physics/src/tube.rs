//! Copper tube for refrigerant lines.

use crate::OutOfRange;
use crate::range::within;

const INCH: f64 = 0.0254;
const PSI: f64 = 6894.757293168361;

/// Coil tube by its outside diameter.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Tube {
    /// 1/4 in.
    Quarter,
    /// 3/8 in.
    ThreeEighths,
    /// 1/2 in.
    Half,
    /// 5/8 in.
    FiveEighths,
    /// 3/4 in, wall 0.035 in.
    ThreeQuarters,
    /// 3/4 in, wall 0.042 in.
    ThreeQuartersHeavy,
    /// 7/8 in.
    SevenEighths,
}

impl Tube {
    /// All sizes, smallest first.
    pub const ALL: [Tube; 7] = [
        Tube::Quarter,
        Tube::ThreeEighths,
        Tube::Half,
        Tube::FiveEighths,
        Tube::ThreeQuarters,
        Tube::ThreeQuartersHeavy,
        Tube::SevenEighths,
    ];

    /// Outside diameter and wall, in. Source: `astm-b280`, table of coil tube (second hand).
    fn outside_and_wall_in(self) -> (f64, f64) {
        match self {
            Tube::Quarter => (0.250, 0.030),
            Tube::ThreeEighths => (0.375, 0.032),
            Tube::Half => (0.500, 0.032),
            Tube::FiveEighths => (0.625, 0.035),
            Tube::ThreeQuarters => (0.750, 0.035),
            Tube::ThreeQuartersHeavy => (0.750, 0.042),
            Tube::SevenEighths => (0.875, 0.045),
        }
    }

    /// Outside diameter, m.
    pub fn outside_m(self) -> f64 {
        self.outside_and_wall_in().0 * INCH
    }

    /// Wall thickness, m.
    pub fn wall_m(self) -> f64 {
        self.outside_and_wall_in().1 * INCH
    }

    /// Inside diameter, m.
    pub fn inside_m(self) -> f64 {
        let (outside, wall) = self.outside_and_wall_in();
        (outside - 2.0 * wall) * INCH
    }

    /// Volume inside per length, m3/m.
    pub fn volume_m3_per_m(self) -> f64 {
        let d = self.inside_m();
        std::f64::consts::FRAC_PI_4 * d * d
    }
}

/// Greatest pressure that annealed copper tube may have inside, above the air outside.
///
/// # Equation
/// `P = 2 S t / (D - 0.8 t)`
/// # Symbols
/// `S` allowable stress, 6,000 psi for annealed copper near room temperature; `t` wall, `D`
/// outside diameter, m; `P` Pa above the air.
/// # Range
/// Up to 38 C; hotter tube is weaker. Flares and fittings have limits of their own.
/// # Source
/// `from-memory` (the tube trade's formula and stress); 3/4 by 0.035 in gives 582 psi, which is
/// less than some test pressures.
/// # Example
/// ```
/// use physics::tube::{allowable_pressure_pa, Tube};
/// let psi = allowable_pressure_pa(Tube::ThreeQuarters.outside_m(), Tube::ThreeQuarters.wall_m())
///     .unwrap() / 6894.757;
/// assert!((psi - 582.0).abs() < 0.5);
/// ```
/// # Errors
/// A diameter outside 3 to 60 mm or a wall outside 0.3 mm to a quarter of the diameter.
pub fn allowable_pressure_pa(outside_m: f64, wall_m: f64) -> Result<f64, OutOfRange> {
    let d = within("outside diameter", "m", outside_m, 0.003, 0.060)?;
    let t = within("wall", "m", wall_m, 0.0003, 0.25 * d)?;
    Ok(2.0 * 6000.0 * PSI * t / (d - 0.8 * t))
}
