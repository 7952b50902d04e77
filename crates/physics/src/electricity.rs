//! The branch circuit of a unit: wire, voltage drop, plate ampacity and breaker.

use crate::OutOfRange;
use crate::range::within;

/// Copper wire by American gauge.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Wire {
    /// 14 AWG.
    Awg14,
    /// 12 AWG.
    Awg12,
    /// 10 AWG.
    Awg10,
    /// 8 AWG.
    Awg8,
    /// 6 AWG.
    Awg6,
}

/// Temperature the insulation and the terminals may have.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Column {
    /// 60 C.
    C60,
    /// 75 C.
    C75,
    /// 90 C.
    C90,
}

/// Wires, thinnest first.
pub const WIRES: [Wire; 5] = [
    Wire::Awg14,
    Wire::Awg12,
    Wire::Awg10,
    Wire::Awg8,
    Wire::Awg6,
];

/// Standard sizes of breakers and fuses, A. `nec`, section 240.6(A), up to 125 A.
pub const BREAKERS_A: [f64; 15] = [
    15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 60.0, 70.0, 80.0, 90.0, 100.0, 110.0, 125.0,
];

impl Wire {
    /// Cross section, circular mils. `nec`, chapter 9, table 8.
    pub fn circular_mils(self) -> f64 {
        match self {
            Wire::Awg14 => 4110.0,
            Wire::Awg12 => 6530.0,
            Wire::Awg10 => 10_380.0,
            Wire::Awg8 => 16_510.0,
            Wire::Awg6 => 26_240.0,
        }
    }

    /// Resistance of uncoated copper at 75 C, ohm/m. `nec`, chapter 9, table 8 (12 AWG second
    /// hand, the others from memory).
    pub fn resistance_ohm_per_m(self) -> f64 {
        let milliohm_per_1000_ft = match self {
            Wire::Awg14 => 3140.0,
            Wire::Awg12 => 1980.0,
            Wire::Awg10 => 1240.0,
            Wire::Awg8 => 778.0,
            Wire::Awg6 => 491.0,
        };
        milliohm_per_1000_ft / 304_800.0
    }

    /// Ampacity of copper at 30 C ambient, up to three wires, A. `nec`, table 310.16.
    /// Protection of 14, 12 and 10 AWG is otherwise held to 15, 20 and 30 A (240.4(D)).
    pub fn ampacity_a(self, column: Column) -> f64 {
        let (c60, c75, c90) = match self {
            Wire::Awg14 => (15.0, 20.0, 25.0),
            Wire::Awg12 => (20.0, 25.0, 30.0),
            Wire::Awg10 => (30.0, 35.0, 40.0),
            Wire::Awg8 => (40.0, 50.0, 55.0),
            Wire::Awg6 => (55.0, 65.0, 75.0),
        };
        match column {
            Column::C60 => c60,
            Column::C75 => c75,
            Column::C90 => c90,
        }
    }
}

/// Factor on ampacity for a hot place.
///
/// # Equation
/// table by steps of 5 K
/// # Symbols
/// ambient temperature, C; column of the insulation; result, factor, 1.
/// # Range
/// 26 to 45 C (1.0 up to 30 C; the gain of cooler places is not taken).
/// # Source
/// `nec`, table 310.15(B)(1) (second hand).
/// # Example
/// ```
/// use physics::electricity::{ambient_factor, Column};
/// assert_eq!(ambient_factor(38.0, Column::C75).unwrap(), 0.88);
/// ```
/// # Errors
/// Hotter than 45 C or colder than -60 C.
pub fn ambient_factor(ambient_c: f64, column: Column) -> Result<f64, OutOfRange> {
    let t = within("ambient temperature", "C", ambient_c, -60.0, 45.0)?;
    let (c60, c75, c90) = if t <= 30.0 {
        (1.0, 1.0, 1.0)
    } else if t <= 35.0 {
        (0.91, 0.94, 0.96)
    } else if t <= 40.0 {
        (0.82, 0.88, 0.91)
    } else {
        (0.71, 0.82, 0.87)
    };
    Ok(match column {
        Column::C60 => c60,
        Column::C75 => c75,
        Column::C90 => c90,
    })
}

/// Voltage lost in a two-wire copper run.
///
/// # Equation
/// `VD = 2 x 12.9 I L / CM`
/// # Symbols
/// `I` current, A; `L` one-way length, ft; `CM` circular mils; 12.9 ohm circular mil per foot of
/// copper at 75 C; `VD` V. The function takes the length in m.
/// # Range
/// Current 0 to 200 A, length 0 to 300 m. Direct current; inductance is below 1 % for these
/// gauges.
/// # Source
/// `common-practice` (the 12.9 constant); trade card F18.
/// # Example
/// ```
/// use physics::electricity::{voltage_drop_v, Wire};
/// // Trade note E: 18 A, 80 ft, 240 V, 12 AWG: 2.37 %.
/// let v = voltage_drop_v(18.0, 80.0 * 0.3048, Wire::Awg12).unwrap();
/// assert!((v / 240.0 - 0.0237).abs() < 5e-5);
/// ```
/// # Errors
/// An input outside the range.
pub fn voltage_drop_v(current_a: f64, one_way_m: f64, wire: Wire) -> Result<f64, OutOfRange> {
    let i = within("current", "A", current_a, 0.0, 200.0)?;
    let l = within("one-way length", "m", one_way_m, 0.0, 300.0)?;
    Ok(2.0 * 12.9 * i * (l / 0.3048) / wire.circular_mils())
}

/// Minimum circuit ampacity, as on the plate.
///
/// # Equation
/// `MCA = 1.25 I1 + I2`
/// # Symbols
/// `I1` largest motor, `I2` all the rest, A.
/// # Range
/// 0 to 200 A each.
/// # Source
/// `nec`, section 440.33 (second hand).
/// # Example
/// ```
/// assert_eq!(physics::electricity::minimum_ampacity_a(20.0, 2.5).unwrap(), 27.5);
/// ```
/// # Errors
/// An input outside the range.
pub fn minimum_ampacity_a(largest_motor_a: f64, rest_a: f64) -> Result<f64, OutOfRange> {
    let (largest, rest) = motors(largest_motor_a, rest_a)?;
    Ok(1.25 * largest + rest)
}

fn motors(largest_motor_a: f64, rest_a: f64) -> Result<(f64, f64), OutOfRange> {
    Ok((
        within("largest motor current", "A", largest_motor_a, 0.0, 200.0)?,
        within("current of the rest", "A", rest_a, 0.0, 200.0)?,
    ))
}

/// Largest breaker or fuse: the usual one, and the one if the motor will not start.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Overcurrent {
    /// At 1.75 times the largest motor, A.
    pub usual_a: f64,
    /// At 2.25 times, only if the usual one trips at start, A.
    pub at_most_a: f64,
}

/// Overcurrent protection of a unit with a hermetic compressor.
///
/// # Equation
/// `1.75 I1 + I2` and at most `2.25 I1 + I2`, each to the next standard size down
/// # Symbols
/// `I1` largest motor, `I2` all the rest, A.
/// # Range
/// A sum between the smallest (15 A) and the largest (125 A) standard size listed here.
/// # Source
/// `nec`, section 440.22 (second hand).
/// # Example
/// ```
/// // Code quiz in the trade press: compressor 20 A, fan 2.5 A: 35 A, at most 45 A.
/// let o = physics::electricity::overcurrent_a(20.0, 2.5).unwrap();
/// assert_eq!((o.usual_a, o.at_most_a), (35.0, 45.0));
/// ```
/// # Errors
/// An input outside the range.
pub fn overcurrent_a(largest_motor_a: f64, rest_a: f64) -> Result<Overcurrent, OutOfRange> {
    let (largest, rest) = motors(largest_motor_a, rest_a)?;
    let most = 2.25 * largest + rest;
    within("overcurrent setting", "A", most, 15.0, 125.0)?;
    // A motor so small that 1.75 times is below 15 A still gets the smallest breaker.
    let usual = breaker_at_most_a(1.75 * largest + rest).unwrap_or(15.0);
    let at_most = breaker_at_most_a(most).unwrap_or(15.0);
    Ok(Overcurrent {
        usual_a: usual,
        at_most_a: at_most,
    })
}

/// Largest standard breaker not above a current, A; `None` below 15 A.
pub fn breaker_at_most_a(current_a: f64) -> Option<f64> {
    BREAKERS_A
        .iter()
        .rev()
        .copied()
        .find(|size| *size <= current_a)
}
