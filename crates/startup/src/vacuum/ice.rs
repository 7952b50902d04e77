//! Whether the cold hides water.

use physics::moist_air::saturation_pressure_pa;
use reckon::Verdict;
use serde::Serialize;

use super::MICRON_PA;
use crate::wrong::{Wrong, within};

/// Below this ice gives up its vapour too slowly to be seen in a hold, C. Common practice, no
/// source; trade card F23.
pub const BLIND_BELOW_C: f64 = -10.0;

/// What the coldest tube means for a limit.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Ice {
    /// Holds: water would show. Fails: frozen water would pass. Cannot tell: no temperature.
    pub water_would_show: Verdict,
    /// Pressure that water or ice in the coldest tube makes in the end, Pa, at the cold end of
    /// its doubt; `None` without a temperature.
    pub vapour_pa: Option<f64>,
    /// In words.
    pub says: String,
}

/// Whether water in the coldest tube would rise above the limit.
///
/// # Equation
/// `pv = psat(t - u) > limit` and `t - u >= -10 C`
/// # Symbols
/// `t` coldest tube, C; `u` its limit of error, K; `psat` over ice below 0.01 C, over water above;
/// `limit` Pa.
/// # Range
/// -60 to 60 C.
/// # Source
/// `ashrae-fundamentals-2017`, chapter 1, equations 5 and 6, within 0.1 % of IAPWS here;
/// `common-practice` for -10 C (trade card F23).
/// # Example
/// ```
/// use reckon::Verdict;
/// // 500 micron is the vapour of ice at -24.5 C.
/// let i = startup::vacuum::ice(Some(-26.0), 0.5, 66.66).unwrap();
/// assert_eq!(i.water_would_show, Verdict::Fails);
/// assert_eq!(startup::vacuum::ice(Some(5.0), 1.0, 66.66).unwrap().water_would_show, Verdict::Holds);
/// ```
/// # Errors
/// A temperature that cannot be.
pub fn ice(coldest_c: Option<f64>, doubt_k: f64, limit_pa: f64) -> Result<Ice, Wrong> {
    let Some(t) = coldest_c else {
        return Ok(Ice {
            water_would_show: Verdict::CannotTell,
            vapour_pa: None,
            says: "Nobody measured the coldest tube, and ice in it could hide under the limit."
                .to_owned(),
        });
    };
    within("temperature of the coldest tube", "C", t, -60.0, 60.0)?;
    within(
        "limit of error of the coldest tube",
        "K",
        doubt_k,
        0.0,
        10.0,
    )?;
    let cold = t - doubt_k;
    let pv = saturation_pressure_pa(cold)?;
    let at = format!("{:.0} F ({cold:.0} C)", cold * 1.8 + 32.0);
    let microns = pv / MICRON_PA;
    let (water_would_show, says) = if pv <= limit_pa {
        (
            Verdict::Fails,
            format!(
                "At {at} ice makes no more than {microns:.0} micron: frozen water passes under the limit for ever."
            ),
        )
    } else if cold < BLIND_BELOW_C {
        (
            Verdict::Fails,
            format!(
                "At {at} ice would reach {microns:.0} micron, but too slowly to be seen in a hold."
            ),
        )
    } else {
        (
            Verdict::Holds,
            format!(
                "Water in the coldest tube, {at} or more, would rise toward {microns:.0} micron and show."
            ),
        )
    };
    Ok(Ice {
        water_would_show,
        vapour_pa: Some(pv),
        says,
    })
}
