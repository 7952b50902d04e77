//! The steps up to the test pressure.

use physics::tube::{Tube, allowable_pressure_pa};

use units::constants::PSI_PA as PSI;

use crate::wrong::{Wrong, pressure};

/// One step.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Stage {
    /// Pressure above the air, Pa.
    pub gauge_pa: f64,
    /// Hold at least so long before going on, s.
    pub hold_s: f64,
    /// What to do there.
    pub says: &'static str,
}

/// Steps up to a test pressure, never above what the plate or the tube allows.
///
/// # Equation
/// 100 psi, 300 psi, target; those above the target left out
/// # Symbols
/// target and plate, Pa above the air.
/// # Range
/// Target at most the plate and at most what each tube may have; 50 psi to 700 psi.
/// # Source
/// `common-practice`: trade card F22; the tube by `physics::tube::allowable_pressure_pa`.
/// # Example
/// ```
/// use physics::tube::Tube;
/// let psi = 6894.757293168361;
/// let s = startup::pressure::stages(550.0 * psi, 600.0 * psi, &[Tube::Quarter, Tube::Half]).unwrap();
/// assert_eq!(s.len(), 3);
/// assert!(startup::pressure::stages(610.0 * psi, 600.0 * psi, &[]).is_err());
/// ```
/// # Errors
/// A target above the plate or above what a tube may have, or one that is no test.
pub fn stages(target_pa: f64, plate_pa: f64, tubes: &[Tube]) -> Result<Vec<Stage>, Wrong> {
    if !(50.0 * PSI..=700.0 * PSI).contains(&target_pa) {
        return Err(Wrong::new(
            "test pressure",
            pressure(target_pa),
            "50 to 700 psi (345 to 4826 kPa) above the air",
        ));
    }
    if target_pa.partial_cmp(&plate_pa) == Some(std::cmp::Ordering::Greater) || plate_pa.is_nan() {
        return Err(Wrong::new(
            "test pressure",
            pressure(target_pa),
            format!("at most {}, the plate's", pressure(plate_pa)),
        ));
    }
    for tube in tubes {
        let most = allowable_pressure_pa(tube.outside_m(), tube.wall_m())?;
        if target_pa > most {
            return Err(Wrong::new(
                "test pressure",
                pressure(target_pa),
                format!(
                    "at most {} for soft copper tube of {:.3} in with a wall of {:.3} in, or a heavier wall",
                    pressure(most),
                    tube.outside_m() / 0.0254,
                    tube.wall_m() / 0.0254
                ),
            ));
        }
    }
    let mut steps = Vec::new();
    for (psi, hold_s, says) in [
        (
            100.0,
            180.0,
            "listen and look for a large leak; stop and mend it before going on",
        ),
        (300.0, 300.0, "bubble solution on every joint"),
    ] {
        if psi * PSI < 0.95 * target_pa {
            steps.push(Stage {
                gauge_pa: psi * PSI,
                hold_s,
                says,
            });
        }
    }
    steps.push(Stage {
        gauge_pa: target_pa,
        hold_s: 600.0,
        says: "close the regulator and the cylinder, let it settle, then read; bubble solution on every joint",
    });
    Ok(steps)
}
