//! Numbers with the digits they deserve: whole numbers, loads, temperatures.

use crate::Dim;
use crate::constants::BTU_PER_H_W;
use crate::show::{NO_VALUE, System, grouped, show};

/// A whole number with commas between groups of three.
pub fn whole(value: f64) -> String {
    if !value.is_finite() {
        return NO_VALUE.to_owned();
    }
    let sign = if value < -0.5 { "-" } else { "" };
    grouped(&format!("{sign}{:.0}", value.abs()))
}

/// A heat flow (W) to tens of W or of Btu/h, the number alone.
pub fn load_number(w: f64, system: System) -> String {
    let value = match system {
        System::Us => w / BTU_PER_H_W,
        System::Si => w,
    };
    whole((value / 10.0).round() * 10.0)
}

/// The unit of [`load_number`].
pub fn load_unit(system: System) -> &'static str {
    match system {
        System::Us => "Btu/h",
        System::Si => "W",
    }
}

/// A figure as every list, table, page and *why* says it: a heat flow (W) as [`load_number`] with its
/// unit, and money whole, so that the same number is nowhere rounded in two ways; anything else as
/// [`show`].
///
/// # Example
/// ```
/// use units::{Dim, System, show_figure};
/// assert_eq!(show_figure(9.79, Dim::Power, System::Us), "30 Btu/h");
/// assert_eq!(show_figure(10_342.0, Dim::Power, System::Si), "10,340 W");
/// assert_eq!(show_figure(87.4, Dim::Money, System::Us), "$87");
/// assert_eq!(show_figure(-20.0, Dim::Temperature, System::Us), "-4 F");
/// ```
pub fn show_figure(value_si: f64, dim: Dim, system: System) -> String {
    match dim {
        Dim::Power if value_si.is_finite() => {
            format!("{} {}", load_number(value_si, system), load_unit(system))
        }
        Dim::Money if value_si.is_finite() => {
            show(value_si.round(), dim, system).replace(".00", "")
        }
        _ => show(value_si, dim, system),
    }
}

/// The least round step at or above a step: 1, 2 or 5 times a power of ten.
pub fn round_step(step: f64) -> f64 {
    if !(step > 0.0 && step.is_finite()) {
        return 1.0;
    }
    let ten = libm::pow(10.0, libm::floor(libm::log10(step)));
    [1.0, 2.0, 5.0, 10.0]
        .into_iter()
        .map(|m| m * ten)
        .find(|s| *s >= step * (1.0 - 1e-9))
        .unwrap_or(10.0 * ten)
}

/// A temperature (C) in whole F or tenths of C, the number alone; never minus nothing;
/// a dash for what is not a number.
pub fn degrees(c: f64, system: System) -> String {
    if !c.is_finite() {
        return "-".to_owned();
    }
    let text = match system {
        System::Us => format!("{:.0}", c * 1.8 + 32.0),
        System::Si => format!("{c:.1}"),
    };
    match text.strip_prefix('-') {
        Some(size) if size.chars().all(|c| c == '0' || c == '.') => size.to_owned(),
        _ => text,
    }
}

/// F or C.
pub fn degree(system: System) -> &'static str {
    match system {
        System::Us => "F",
        System::Si => "C",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn digits_as_deserved() {
        assert_eq!(whole(1_234_567.4), "1,234,567");
        assert_eq!(whole(-1234.0), "-1,234");
        assert_eq!(whole(-0.4), "0");
        assert_eq!(whole(f64::NAN), NO_VALUE);
        // 10,342 W are 35,288 Btu/h.
        assert_eq!(load_number(10_342.0, System::Us), "35,290");
        assert_eq!(load_number(10_342.0, System::Si), "10,340");
        assert_eq!(load_unit(System::Si), "W");
        assert_eq!(degrees(-17.9, System::Us), "0");
        assert_eq!(degrees(-0.04, System::Si), "0.0");
        assert_eq!(degrees(-20.0, System::Us), "-4");
        assert_eq!(degrees(21.11, System::Si), "21.1");
    }
}
