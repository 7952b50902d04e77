//! What is under test: the lines as built and the coils at their ends.

use physics::tube::Tube;
use serde::Serialize;

use crate::wrong::Wrong;

/// A volume and how well it is known.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Volume {
    /// m3.
    pub m3: f64,
    /// Limit of error, share of the volume.
    pub share: f64,
}

/// Limit of error of tube by length: the tape, the bends and the wall.
const TUBE_SHARE: f64 = 0.05;

/// Volume of the lines as built, with coils, receivers and hoses.
///
/// # Equation
/// `V = sum(L_i a_i) + sum(v_j)`, `u = sqrt(sum(u_k^2))`
/// # Symbols
/// `L` length of a line, m; `a` volume per length of its tube, m3/m; `v` other volumes, m3; `u`
/// limits of error, m3: 5 % of each line, stated for the others.
/// # Range
/// Lengths 0.3 to 150 m; other volumes up to 20 L with a limit up to 100 %; the sum above 0.02 L.
/// # Source
/// `astm-b280`, coil tube; `common-practice` for the limits.
/// # Example
/// ```
/// use physics::tube::Tube;
/// let v = startup::volume::under_test(&[(Tube::Quarter, 10.0), (Tube::ThreeEighths, 10.0)], &[(0.0008, 0.3)]).unwrap();
/// assert!((v.m3 * 1000.0 - (0.183 + 0.490 + 0.8)).abs() < 0.01);
/// ```
/// # Errors
/// A length or a volume that cannot be.
pub fn under_test(lines: &[(Tube, f64)], others: &[(f64, f64)]) -> Result<Volume, Wrong> {
    let (mut sum, mut squares) = (0.0, 0.0);
    for (tube, length_m) in lines {
        if !(0.3..=150.0).contains(length_m) {
            return Err(Wrong::new(
                "length of a line",
                format!("{length_m} m"),
                "0.3 to 150 m",
            ));
        }
        let v = tube.volume_m3_per_m() * length_m;
        sum += v;
        squares += (v * TUBE_SHARE) * (v * TUBE_SHARE);
    }
    for (m3, share) in others {
        if !(0.0..=0.02).contains(m3) {
            return Err(Wrong::new(
                "volume of a coil or hose",
                format!("{} L", m3 * 1000.0),
                "0 to 20 L",
            ));
        }
        if !(0.0..=1.0).contains(share) {
            return Err(Wrong::new(
                "limit of error of a volume",
                format!("{:.0} %", share * 100.0),
                "0 to 100 %",
            ));
        }
        sum += m3;
        squares += (m3 * share) * (m3 * share);
    }
    if sum < 2e-5 {
        return Err(Wrong::new(
            "volume under test",
            format!("{:.3} L", sum * 1000.0),
            "0.02 L or more: name the lines and the coils that hold the gas",
        ));
    }
    Ok(Volume {
        m3: sum,
        share: squares.sqrt() / sum,
    })
}
