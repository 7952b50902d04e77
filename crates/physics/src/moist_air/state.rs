//! A state of moist air and what follows from it.

use super::saturation::{dew_point_of_pressure_c, saturation_pressure_pa};
use super::wet_bulb;
use crate::OutOfRange;
use crate::range::within;

/// Molar mass of water over that of dry air. `ashrae-fundamentals-2017`, chapter 1, equation 20.
pub(super) const MASS_RATIO: f64 = 0.621945;
/// Gas constant of dry air, J/(kg K). `ashrae-fundamentals-2017`, chapter 1, equation 1.
pub(super) const R_DRY_AIR: f64 = 287.042;
/// Specific heat of dry air, J/(kg K). `ashrae-fundamentals-2017`, chapter 1, equation 30.
pub(super) const CP_DRY_AIR: f64 = 1006.0;
/// Specific heat of water vapour, J/(kg K). Same place.
pub(super) const CP_VAPOUR: f64 = 1860.0;
/// Heat of evaporation at 0 C, J/kg. Same place.
pub(super) const EVAPORATION_0C: f64 = 2_501_000.0;

/// A state of moist air: dry bulb, pressure and humidity ratio fix all the rest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MoistAir {
    dry_bulb_c: f64,
    pressure_pa: f64,
    humidity_ratio: f64,
}

/// Humidity ratio of saturated air.
///
/// # Equation
/// `Ws = 0.621945 ps / (p - ps)`
/// # Symbols
/// `ps` saturation pressure at the temperature, Pa; `p` air pressure, Pa; `Ws` kg/kg.
/// # Range
/// -100 to 200 C, 30 to 120 kPa, and `ps` below `p`.
/// # Source
/// `ashrae-fundamentals-2017`, chapter 1, equation 21.
/// # Example
/// ```
/// let w = physics::moist_air::saturation_humidity_ratio(25.0, 101_325.0).unwrap();
/// assert!((w - 0.020081).abs() < 5e-6);
/// ```
/// # Errors
/// Temperature or pressure outside the range.
pub fn saturation_humidity_ratio(temperature_c: f64, pressure_pa: f64) -> Result<f64, OutOfRange> {
    let p = air_pressure(pressure_pa)?;
    ratio_of_vapour(saturation_pressure_pa(temperature_c)?, p)
}

fn air_pressure(pressure_pa: f64) -> Result<f64, OutOfRange> {
    within("air pressure", "Pa", pressure_pa, 30_000.0, 120_000.0)
}

fn ratio_of_vapour(vapour_pa: f64, pressure_pa: f64) -> Result<f64, OutOfRange> {
    // At boiling the ratio is without bound: stop just short of it.
    let pv = within("vapour pressure", "Pa", vapour_pa, 0.0, 0.99 * pressure_pa)?;
    Ok(MASS_RATIO * pv / (pressure_pa - pv))
}

impl MoistAir {
    /// State from dry bulb and relative humidity.
    ///
    /// # Equation
    /// `W = 0.621945 pv / (p - pv)`, `pv = RH ps(t)`
    /// # Symbols
    /// `t` dry bulb, C; `RH` relative humidity, 0 to 1; `p` air pressure, Pa; `W` kg/kg.
    /// # Range
    /// -100 to 200 C; 0 to 1; 30 to 120 kPa. Below 0.01 C the humidity is over ice.
    /// # Source
    /// `ashrae-fundamentals-2017`, chapter 1, equations 20 and 22.
    /// # Example
    /// ```
    /// let air = physics::moist_air::MoistAir::from_relative_humidity(21.0, 0.4, 101_325.0).unwrap();
    /// assert!((air.humidity_ratio() - 0.00616).abs() < 5e-5);
    /// ```
    /// # Errors
    /// An input outside the range.
    #[inline]
    pub fn from_relative_humidity(
        dry_bulb_c: f64,
        relative_humidity: f64,
        pressure_pa: f64,
    ) -> Result<Self, OutOfRange> {
        let rh = within("relative humidity", "of 1", relative_humidity, 0.0, 1.0)?;
        let pressure_pa = air_pressure(pressure_pa)?;
        let humidity_ratio =
            ratio_of_vapour(rh * saturation_pressure_pa(dry_bulb_c)?, pressure_pa)?;
        Ok(Self {
            dry_bulb_c,
            pressure_pa,
            humidity_ratio,
        })
    }

    /// State from dry bulb and dew point.
    ///
    /// # Equation
    /// `W = 0.621945 ps(td) / (p - ps(td))`
    /// # Symbols
    /// `td` dew point (frost point below 0.01 C), C; `p` air pressure, Pa; `W` kg/kg.
    /// # Range
    /// Dew point from -100 C to the dry bulb.
    /// # Source
    /// `ashrae-fundamentals-2017`, chapter 1, equations 20 and 36.
    /// # Example
    /// ```
    /// let air = physics::moist_air::MoistAir::from_dew_point(21.0, 6.9, 101_325.0).unwrap();
    /// assert!((air.relative_humidity() - 0.40).abs() < 0.002);
    /// ```
    /// # Errors
    /// A dew point above the dry bulb, or an input outside the range.
    pub fn from_dew_point(
        dry_bulb_c: f64,
        dew_point_c: f64,
        pressure_pa: f64,
    ) -> Result<Self, OutOfRange> {
        let dry_bulb_c = within("dry bulb", "C", dry_bulb_c, -100.0, 200.0)?;
        let dew = within("dew point", "C", dew_point_c, -100.0, dry_bulb_c)?;
        let humidity_ratio = saturation_humidity_ratio(dew, pressure_pa)?;
        Ok(Self {
            dry_bulb_c,
            pressure_pa,
            humidity_ratio,
        })
    }

    /// State from dry bulb and wet bulb, as on a data sheet's rating point.
    ///
    /// # Equation
    /// Over water `W = ((2501 - 2.326 tw) Ws - 1.006 (t - tw)) / (2501 + 1.86 t - 4.186 tw)`;
    /// over ice `W = ((2830 - 0.24 tw) Ws - 1.006 (t - tw)) / (2830 + 1.86 t - 2.1 tw)`.
    /// # Symbols
    /// `t` dry bulb, C; `tw` wet bulb, C (over ice below 0 C); `Ws` saturated humidity ratio at
    /// `tw`, kg/kg; `W` kg/kg.
    /// # Range
    /// Wet bulb from the wet bulb of dry air up to the dry bulb.
    /// # Source
    /// `ashrae-fundamentals-2017`, chapter 1, equations 33 and 35.
    /// # Example
    /// ```
    /// // The rating point 8.33 C with wet bulb 6.11 C; psychrolib 2.5 gives 0.726648.
    /// let air = physics::moist_air::MoistAir::from_wet_bulb(8.33, 6.11, 101_325.0).unwrap();
    /// assert!((air.relative_humidity() - 0.726648).abs() < 1e-5);
    /// ```
    /// # Errors
    /// A wet bulb above the dry bulb or colder than dry air can have, or an input outside range.
    pub fn from_wet_bulb(
        dry_bulb_c: f64,
        wet_bulb_c: f64,
        pressure_pa: f64,
    ) -> Result<Self, OutOfRange> {
        let dry_bulb_c = within("dry bulb", "C", dry_bulb_c, -100.0, 200.0)?;
        let wet = within("wet bulb", "C", wet_bulb_c, -100.0, dry_bulb_c)?;
        let saturated = saturation_humidity_ratio(wet, pressure_pa)?;
        let humidity_ratio = wet_bulb::humidity_ratio(dry_bulb_c, wet, saturated);
        if humidity_ratio < 0.0 {
            let dry = Self {
                dry_bulb_c,
                pressure_pa,
                humidity_ratio: 0.0,
            };
            within("wet bulb", "C", wet_bulb_c, dry.wet_bulb_c()?, dry_bulb_c)?;
        }
        Ok(Self {
            dry_bulb_c,
            pressure_pa,
            humidity_ratio: humidity_ratio.max(0.0),
        })
    }

    /// State from dry bulb and humidity ratio, as after heating or cooling air without
    /// condensation.
    ///
    /// # Equation
    /// none: the inputs are the state.
    /// # Symbols
    /// dry bulb, C; humidity ratio, kg/kg; air pressure, Pa.
    /// # Range
    /// -100 to 200 C, 0 to 1 kg/kg, 30 to 120 kPa. More than saturated (fog) is allowed.
    /// # Source
    /// `ashrae-fundamentals-2017`, chapter 1, parameters of state.
    /// # Example
    /// ```
    /// // Published: 30 C, W 0.02 kg/kg, 81,316 J/kg.
    /// let air = physics::moist_air::MoistAir::from_humidity_ratio(30.0, 0.02, 101_325.0).unwrap();
    /// assert!((air.enthalpy_j_per_kg() - 81_316.0).abs() < 1.0);
    /// ```
    /// # Errors
    /// An input outside the range.
    pub fn from_humidity_ratio(
        dry_bulb_c: f64,
        humidity_ratio: f64,
        pressure_pa: f64,
    ) -> Result<Self, OutOfRange> {
        let dry_bulb_c = within("dry bulb", "C", dry_bulb_c, -100.0, 200.0)?;
        let pressure_pa = air_pressure(pressure_pa)?;
        let humidity_ratio = within("humidity ratio", "kg/kg", humidity_ratio, 0.0, 1.0)?;
        Ok(Self {
            dry_bulb_c,
            pressure_pa,
            humidity_ratio,
        })
    }

    /// Dry bulb, C.
    pub fn dry_bulb_c(&self) -> f64 {
        self.dry_bulb_c
    }

    /// Air pressure, Pa.
    pub fn pressure_pa(&self) -> f64 {
        self.pressure_pa
    }

    /// Water per dry air, kg/kg.
    pub fn humidity_ratio(&self) -> f64 {
        self.humidity_ratio
    }

    /// Pressure of the water vapour, Pa: `pv = p W / (0.621945 + W)`.
    /// Source: `ashrae-fundamentals-2017`, chapter 1, equation 36.
    #[inline]
    pub fn vapour_pressure_pa(&self) -> f64 {
        self.pressure_pa * self.humidity_ratio / (MASS_RATIO + self.humidity_ratio)
    }

    /// Relative humidity, 0 to 1 (above 1 in fog), over ice below 0.01 C: `pv / ps(t)`.
    /// Source: `ashrae-fundamentals-2017`, chapter 1, equation 12.
    pub fn relative_humidity(&self) -> f64 {
        // The dry bulb was checked when the state was made.
        self.vapour_pressure_pa() / libm::exp(super::saturation::ln_pressure(self.dry_bulb_c).0)
    }

    /// Dew point, C (frost point below 0.01 C). See [`dew_point_of_pressure_c`].
    ///
    /// # Errors
    /// Air too dry to have one above -100 C.
    #[inline]
    pub fn dew_point_c(&self) -> Result<f64, OutOfRange> {
        dew_point_of_pressure_c(self.vapour_pressure_pa())
    }

    /// Wet bulb, C: the inverse of [`MoistAir::from_wet_bulb`], by Newton's method.
    ///
    /// Between the two equations at 0 C there is a step; air that both fit is taken as over
    /// water.
    ///
    /// # Errors
    /// Air so dry or hot that its wet bulb is outside -100 to 200 C.
    #[inline]
    pub fn wet_bulb_c(&self) -> Result<f64, OutOfRange> {
        wet_bulb::wet_bulb_c(self.dry_bulb_c, self.humidity_ratio, self.pressure_pa)
    }

    /// Enthalpy per kg of dry air, J/kg, zero for dry air at 0 C:
    /// `h = 1006 t + W (2501000 + 1860 t)`.
    /// Source: `ashrae-fundamentals-2017`, chapter 1, equation 30.
    #[inline]
    pub fn enthalpy_j_per_kg(&self) -> f64 {
        CP_DRY_AIR * self.dry_bulb_c
            + self.humidity_ratio * (EVAPORATION_0C + CP_VAPOUR * self.dry_bulb_c)
    }

    /// Volume per kg of dry air, m3/kg: `v = 287.042 T (1 + 1.607858 W) / p`.
    /// Source: `ashrae-fundamentals-2017`, chapter 1, equation 26.
    #[inline]
    pub fn specific_volume_m3_per_kg(&self) -> f64 {
        R_DRY_AIR * (self.dry_bulb_c + 273.15) * (1.0 + 1.607858 * self.humidity_ratio)
            / self.pressure_pa
    }

    /// Density of the mixture, kg/m3: `(1 + W) / v`.
    /// Source: `ashrae-fundamentals-2017`, chapter 1, equation 11.
    #[inline]
    pub fn density_kg_per_m3(&self) -> f64 {
        (1.0 + self.humidity_ratio) / self.specific_volume_m3_per_kg()
    }

    /// Specific heat per kg of dry air, J/(kg K): `1006 + 1860 W`, the slope of the enthalpy.
    /// Source: `ashrae-fundamentals-2017`, chapter 1, equation 30.
    #[inline]
    pub fn specific_heat_j_per_kgk(&self) -> f64 {
        CP_DRY_AIR + CP_VAPOUR * self.humidity_ratio
    }
}
