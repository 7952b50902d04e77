//! Charge trim by line length.

/// Refrigerant to add (or, negative, to take out) for a line of this length.
///
/// # Equation
/// `m = r (L - L0)`
/// # Symbols
/// `m` trim, kg, signed; `r` trim per metre, kg/m; `L` line length, m; `L0` length the factory
/// charge is meant for, m.
/// # Range
/// Any lengths. Never held at zero: some sheets take charge out for short lines. Whether this
/// unit's does is on its sheet.
/// # Source
/// `common-practice`: card F16.
/// # Example
/// ```
/// assert!((heatpump::charge_trim_kg(0.012, 12.0, 7.5) - 0.054).abs() < 1e-12);
/// assert!(heatpump::charge_trim_kg(0.012, 3.0, 7.5) < 0.0);
/// ```
pub fn charge_trim_kg(kg_per_m: f64, length_m: f64, free_length_m: f64) -> f64 {
    kg_per_m * (length_m - free_length_m)
}
