//! The leaks as one power law, and the flow when warm air rises through them.

use crate::OutOfRange;
use crate::range::within;

/// Flow through leaks: `Q = C dP^n`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PowerLaw {
    coefficient: f64,
    exponent: f64,
}

impl PowerLaw {
    /// Exponent where the test gives none. `common-practice`.
    pub const USUAL_EXPONENT: f64 = 0.65;

    /// The power law of a blower-door test at one pressure.
    ///
    /// # Equation
    /// `C = Q / dP^n`
    /// # Symbols
    /// `Q` flow at the test, m3/s; `dP` test pressure, Pa; `n` exponent, 1; `C` m3/(s Pa^n).
    /// # Range
    /// Flow 0 to 20 m3/s; pressure 4 to 100 Pa; exponent 0.5 (orifice) to 1 (slit).
    /// # Source
    /// `ashrae-fundamentals-2017`, chapter 16, power law (equation 40).
    /// # Example
    /// ```
    /// use physics::leak::PowerLaw;
    /// let leaks = PowerLaw::from_test(1.0, 50.0, 0.65).unwrap();
    /// assert!((leaks.flow_m3_per_s(50.0) - 1.0).abs() < 1e-12);
    /// assert!((leaks.flow_m3_per_s(-4.0) + 0.1937).abs() < 1e-4);
    /// ```
    /// # Errors
    /// An input outside the range.
    pub fn from_test(
        flow_m3_per_s: f64,
        pressure_pa: f64,
        exponent: f64,
    ) -> Result<Self, OutOfRange> {
        let q = within("blower-door flow", "m3/s", flow_m3_per_s, 0.0, 20.0)?;
        let p = within("blower-door pressure", "Pa", pressure_pa, 4.0, 100.0)?;
        let n = within("leakage exponent", "of 1", exponent, 0.5, 1.0)?;
        Ok(Self {
            coefficient: q / libm::pow(p, n),
            exponent: n,
        })
    }

    /// `C`, m3/(s Pa^n).
    pub fn coefficient(&self) -> f64 {
        self.coefficient
    }

    /// `n`, 1.
    pub fn exponent(&self) -> f64 {
        self.exponent
    }

    /// A part of these leaks: a wall's share, a storey's.
    ///
    /// # Errors
    /// A share outside 0 to 1.
    pub fn share(&self, share: f64) -> Result<Self, OutOfRange> {
        let share = within("share of the leaks", "of 1", share, 0.0, 1.0)?;
        Ok(Self {
            coefficient: self.coefficient * share,
            exponent: self.exponent,
        })
    }

    /// The same leaks with air of another density.
    ///
    /// # Equation
    /// `C2 = C1 (r1 / r2)^(1 - n)`
    /// # Symbols
    /// `r1` density at the test, `r2` density now, kg/m3; `n` exponent.
    /// # Range
    /// Densities 0.5 to 2 kg/m3. The viscosity's part, `(m1/m2)^(2n-1)`, is left out: 3 % for
    /// 40 K at n 0.65.
    /// # Source
    /// `astm-e779`, conversion to standard conditions (from memory).
    /// # Example
    /// ```
    /// use physics::leak::PowerLaw;
    /// let warm = PowerLaw::from_test(1.0, 50.0, 0.5).unwrap();
    /// let thin = warm.at_density(1.2, 0.9).unwrap();
    /// assert!((thin.flow_m3_per_s(50.0) - (1.2_f64 / 0.9).sqrt()).abs() < 1e-12);
    /// ```
    /// # Errors
    /// A density outside the range.
    pub fn at_density(&self, test_kg_per_m3: f64, now_kg_per_m3: f64) -> Result<Self, OutOfRange> {
        let test = within("air density", "kg/m3", test_kg_per_m3, 0.5, 2.0)?;
        let now = within("air density", "kg/m3", now_kg_per_m3, 0.5, 2.0)?;
        let factor = libm::pow(test / now, 1.0 - self.exponent);
        Ok(Self {
            coefficient: self.coefficient * factor,
            exponent: self.exponent,
        })
    }

    /// Flow at a pressure difference, with its sign.
    ///
    /// # Equation
    /// `Q = C |dP|^n sign(dP)`
    /// # Symbols
    /// `dP` pressure difference, Pa; `Q` m3/s.
    /// # Range
    /// Any finite difference; tests hold between about 4 and 75 Pa.
    /// # Source
    /// `ashrae-fundamentals-2017`, chapter 16, power law (equation 40).
    /// # Example
    /// See [`PowerLaw::from_test`].
    #[inline]
    pub fn flow_m3_per_s(&self, pressure_pa: f64) -> f64 {
        libm::copysign(
            self.coefficient * libm::pow(pressure_pa.abs(), self.exponent),
            pressure_pa,
        )
    }

    /// Outdoor air that the stack draws in when the leaks are spread evenly over the height.
    ///
    /// # Equation
    /// `Q = C (dP/2)^n / (2 (n + 1))`, the flow summed from the floor to the neutral level
    /// half way up
    /// # Symbols
    /// `dP` whole stack pressure ([`super::stack_pa`]), Pa; `Q` m3/s.
    /// # Range
    /// Any finite stack; its size counts, in winter the air enters low, in summer high.
    /// # Source
    /// `ashrae-fundamentals-2017`, chapter 16, stack pressure with the power law, integrated.
    /// # Example
    /// ```
    /// // Trade card F4: 2,160 cfm at 50 Pa and 10.68 Pa of stack give 153 cfm.
    /// let leaks = physics::leak::PowerLaw::from_test(1.0, 50.0, 0.65).unwrap();
    /// assert!((leaks.stack_flow_spread_m3_per_s(10.68) * 2160.0 - 153.0).abs() < 0.5);
    /// ```
    pub fn stack_flow_spread_m3_per_s(&self, stack_pa: f64) -> f64 {
        self.stack_flow_ends_m3_per_s(stack_pa) / (self.exponent + 1.0)
    }

    /// Outdoor air that the stack draws in when half of the leaks are at the bottom and half at
    /// the top: the most the same test can mean.
    ///
    /// # Equation
    /// `Q = (C/2) (dP/2)^n`
    /// # Symbols
    /// `dP` whole stack pressure, Pa; `Q` m3/s.
    /// # Range
    /// As [`PowerLaw::stack_flow_spread_m3_per_s`].
    /// # Source
    /// `ashrae-fundamentals-2017`, chapter 16, stack pressure with the power law.
    /// # Example
    /// ```
    /// // Trade card F4: 252 cfm.
    /// let leaks = physics::leak::PowerLaw::from_test(1.0, 50.0, 0.65).unwrap();
    /// assert!((leaks.stack_flow_ends_m3_per_s(10.68) * 2160.0 - 252.0).abs() < 0.7);
    /// ```
    pub fn stack_flow_ends_m3_per_s(&self, stack_pa: f64) -> f64 {
        0.5 * self.coefficient * libm::pow(0.5 * stack_pa.abs(), self.exponent)
    }
}
