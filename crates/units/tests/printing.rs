//! Printing: the words on the sheet, and that they read back to the same value.

use proptest::prelude::*;
use units::{ALL, Dim, System, column_unit, parse, quantity_of, show, show_number};

#[test]
fn as_the_trade_writes_it() {
    let foot = 0.3048;
    let btu_h = 1055.05585262 / 3600.0;
    for (si, dim, us, metric) in [
        (12.5 * foot, Dim::Length, "12 ft 6 in", "3.81 m"),
        (8.0 * foot, Dim::Length, "8 ft", "2.44 m"),
        (0.0254 * 6.5, Dim::Length, "6 1/2 in", "0.17 m"),
        (0.0, Dim::Length, "0 in", "0 mm"),
        (-0.001, Dim::Length, "0 in", "-1 mm"),
        (0.0254, Dim::Length, "1 in", "25 mm"),
        (45.64, Dim::Sound, "45.6 dB(A)", "45.6 dB(A)"),
        (45.0, Dim::Sound, "45 dB(A)", "45 dB(A)"),
        (0.0, Dim::Heat, "0 MMBtu", "0 kWh"),
        (11.999 * foot, Dim::Length, "12 ft", "3.66 m"),
        (205.0, Dim::Length, "673 ft", "205 m"),
        (1650.0, Dim::Length, "5,413 ft", "1,650 m"),
        (0.0889, Dim::SmallLength, "3.5 in", "88.9 mm"),
        (9449.6 * btu_h, Dim::Power, "9,450 Btu/h", "2.77 kW"),
        (400.0, Dim::Power, "1,360 Btu/h", "400 W"),
        (12.0, Dim::ElectricPower, "12.0 W", "12.0 W"),
        (190.0 / 9.0, Dim::Temperature, "70 F", "21.1 C"),
        (-17.9, Dim::Temperature, "0 F", "-17.9 C"),
        (2.7, Dim::Ratio, "2.70", "2.70"),
        (0.31, Dim::Share, "31 %", "31 %"),
        (0.062, Dim::Share, "6.2 %", "6.2 %"),
        (1234.4, Dim::Money, "$1,234", "$1,234"),
        (-3.5, Dim::Money, "-$3.50", "-$3.50"),
        (0.25 / 3.6e6, Dim::EnergyPrice, "0.250 $/kWh", "0.250 $/kWh"),
        (0.0117, Dim::Volume, "0.413 ft3", "11.7 L"),
        (272.0, Dim::Volume, "9,610 ft3", "272 m3"),
        (1.0, Dim::Mass, "2 lb 3.3 oz", "1.00 kg"),
        (0.02, Dim::Mass, "0.7 oz", "20.0 g"),
        (0.02, Dim::MassPerLength, "0.215 oz/ft", "20.0 g/m"),
        (0.0, Dim::Hours, "0 h", "0 h"),
        (12.0, Dim::Hours, "12 s", "12 s"),
        (12.34 * 3600.0, Dim::Hours, "12.3 h", "12.3 h"),
        (999.6 * 3600.0, Dim::Hours, "1,000 h", "1,000 h"),
        (4849.0 * 3600.0, Dim::Hours, "4,849 h", "4,849 h"),
        (8.25 * 3.6e6, Dim::ElectricEnergy, "8.25 kWh", "8.25 kWh"),
        (
            12_345.4 * 3.6e6,
            Dim::ElectricEnergy,
            "12,345 kWh",
            "12,345 kWh",
        ),
        (1234.56 * 3.6e6, Dim::Heat, "4.2 MMBtu", "1,235 kWh"),
        (
            123.46e6 * 1055.05585262,
            Dim::Heat,
            "123.5 MMBtu",
            "36,183 kWh",
        ),
        (0.375 * 0.0254, Dim::SmallLength, "0.375 in", "9.52 mm"),
        (0.0079, Dim::SmallLength, "0.311 in", "7.9 mm"),
        (0.00635, Dim::SmallLength, "0.25 in", "6.35 mm"),
        (0.02539, Dim::SmallLength, "1 in", "25.4 mm"),
        (f64::NAN, Dim::Power, "no value", "no value"),
        (f64::INFINITY, Dim::Length, "no value", "no value"),
    ] {
        assert_eq!(show(si, dim, System::Us), us);
        assert_eq!(show(si, dim, System::Si), metric);
    }
}

#[test]
fn columns_have_one_unit() {
    assert_eq!(
        show_number(3.81, Dim::Length, System::Us),
        ("12.5".to_owned(), "ft")
    );
    assert_eq!(
        show_number(12.0, Dim::ElectricPower, System::Us),
        ("0.0120".to_owned(), "kW")
    );
    assert_eq!(
        show_number(f64::NAN, Dim::Power, System::Si),
        ("no value".to_owned(), "")
    );
    assert_eq!(column_unit(Dim::Power, System::Us), "Btu/h");
}

#[test]
fn printed_units_can_be_read() {
    for dim in ALL {
        for system in [System::Us, System::Si] {
            let unit = column_unit(*dim, system);
            let known = quantity_of(*dim).units.iter().any(|u| u.name == unit);
            assert!(
                known || unit.is_empty(),
                "{dim:?} prints {unit}, which does not read"
            );
        }
    }
}

fn any_dim() -> impl Strategy<Value = Dim> {
    (0..ALL.len()).prop_map(|i| ALL[i])
}

/// The largest change that printing may make, SI: half a step of the coarsest printing of that
/// kind, or half of the last of two digits for those printed by significant digits.
fn printed_step(value: f64, dim: Dim, system: System) -> f64 {
    let relative = match dim {
        Dim::AirChanges | Dim::WaterFlow | Dim::Speed | Dim::AirSpeed | Dim::Hours => 0.051,
        Dim::Length
        | Dim::SmallLength
        | Dim::Temperature
        | Dim::TemperatureDifference
        | Dim::Share
        | Dim::Angle
        | Dim::Money
        | Dim::Sound
        | Dim::Count
        | Dim::DegreeDays => 0.0,
        _ => 0.0051,
    } * value.abs();
    let absolute = match (dim, system) {
        // Tenths of a percent, or millimetres.
        (Dim::Share, _) | (Dim::Length, System::Si) if value.abs() < 0.0995 => 0.0005,
        // Half of half an inch, or half a foot from 100 ft on; half a centimetre or a metre.
        (Dim::Length, System::Us) if value.abs() < 30.48 => 0.0254 / 4.0,
        (Dim::Length, System::Us) => 0.1524,
        (Dim::Length, System::Si) if value.abs() < 100.0 => 0.005,
        // A tube's are finer.
        (Dim::SmallLength, System::Us) if value.abs() < 0.025 => 0.0254 * 0.0005,
        (Dim::SmallLength, System::Si) if value.abs() < 0.025 => 0.000_005,
        (Dim::SmallLength, System::Us) => 0.0254 * 0.005,
        (Dim::SmallLength, System::Si) => 0.00005,
        (Dim::Temperature, System::Us) => 0.5 / 1.8,
        (Dim::Temperature, System::Si) | (Dim::TemperatureDifference | Dim::Sound, _) => 0.05,
        (Dim::Share, _) => 0.005,
        (Dim::Angle, _) => 0.05_f64.to_radians(),
        (Dim::Money, _) if value.abs() < 99.995 => 0.005,
        (Dim::Length, System::Si) | (Dim::Money | Dim::Count, _) => 0.5,
        (Dim::DegreeDays, System::Us) => 0.5 * 86400.0 / 1.8,
        (Dim::DegreeDays, System::Si) => 0.5 * 86400.0,
        // Ounces to a tenth.
        (Dim::Mass, System::Us) => 0.028349523125 * 0.05,
        // A tenth of a million Btu, from one on.
        (Dim::Heat, System::Us) => 0.05e6 * 1055.05585262,
        _ => 0.0,
    };
    // A hair of room for the rounding of the arithmetic itself.
    (relative + absolute) * (1.0 + 1e-9) + 1e-12 * value.abs()
}

proptest! {
    #[test]
    fn shown_reads_back(dim in any_dim(), power in -4.0..5.0f64, minus: bool, us: bool) {
        // Wide in size, within what each kind can be.
        let q = quantity_of(dim);
        let scale = q.units.first().map_or(1.0, |u| u.factor);
        let mut value = 10f64.powf(power) * scale * if minus { -1.0 } else { 1.0 };
        if dim == Dim::Temperature {
            value = value.clamp(-270.0, 1000.0);
        }
        let system = if us { System::Us } else { System::Si };
        let text = show(value, dim, system);
        prop_assert!(!text.starts_with("-0 ") && text != "-0", "{}", text);
        let back = parse(&text, dim);
        let back = match back {
            Ok(b) => b,
            Err(e) => return Err(TestCaseError::fail(format!("{dim:?} {value} {text}: {e}"))),
        };
        let step = printed_step(value, dim, system);
        prop_assert!((back - value).abs() <= step, "{:?} {} {} {} step {}", dim, value, text, back, step);
    }

    #[test]
    fn any_number_prints(dim in any_dim(), value: f64, us: bool) {
        let system = if us { System::Us } else { System::Si };
        let text = show(value, dim, system);
        prop_assert!(!text.is_empty() && text.len() < 60, "{}", text);
        prop_assert!(!text.contains("NaN") && !text.contains("inf"), "{}", text);
        let (number, _) = show_number(value, dim, system);
        prop_assert!(!number.is_empty() && number.len() < 40, "{}", number);
    }

    #[test]
    fn any_text_reads_or_is_refused(dim in any_dim(), text in "\\PC{0,24}") {
        match parse(&text, dim) {
            Ok(value) => prop_assert!(value.is_finite()),
            Err(e) => prop_assert!(!e.to_string().is_empty()),
        }
    }

    #[test]
    fn near_misses_read_or_are_refused(dim in any_dim(),
        text in "[-+]?[0-9.,/eE' \"½°²-]{0,10}[a-zA-Z/()0-9. '\"%$]{0,12}") {
        match parse(&text, dim) {
            Ok(value) => prop_assert!(value.is_finite()),
            Err(e) => prop_assert!(!e.to_string().is_empty()),
        }
    }
}
