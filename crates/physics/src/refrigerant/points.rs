//! Bubble and dew points as types of their own, so that they cannot be mixed up.

/// Temperature at which liquid begins to boil, C.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct BubbleC(pub f64);

/// Temperature at which vapour begins to condense, C.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct DewC(pub f64);

/// Pressure at which liquid begins to boil, Pa absolute: read at a liquid line.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct BubblePa(pub f64);

/// Pressure at which vapour begins to condense, Pa absolute: read at a suction line.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct DewPa(pub f64);

/// Superheat: how far a vapour line is above its dew point.
///
/// # Equation
/// `s = t - td`
/// # Symbols
/// `t` temperature of the line, `td` dew point at its pressure, C; `s` K, negative when wet.
/// # Range
/// Any.
/// # Source
/// `common-practice`: definition.
/// # Example
/// ```
/// use physics::refrigerant::{superheat_k, DewC};
/// assert_eq!(superheat_k(10.0, DewC(5.0)), 5.0);
/// ```
pub fn superheat_k(line_c: f64, dew: DewC) -> f64 {
    line_c - dew.0
}

/// Subcooling: how far a liquid line is below its bubble point.
///
/// # Equation
/// `s = tb - t`
/// # Symbols
/// `t` temperature of the line, `tb` bubble point at its pressure, C; `s` K.
/// # Range
/// Any.
/// # Source
/// `common-practice`: definition.
/// # Example
/// ```
/// use physics::refrigerant::{subcooling_k, BubbleC};
/// assert_eq!(subcooling_k(35.0, BubbleC(40.0)), 5.0);
/// ```
pub fn subcooling_k(line_c: f64, bubble: BubbleC) -> f64 {
    bubble.0 - line_c
}
