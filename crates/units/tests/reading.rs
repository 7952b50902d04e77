//! Reading: what a person writes on a job, and what goes wrong.

use units::constants::{BTU_IT_J, FOOT_M, INCH_M};
use units::{ALL, Dim, UnitError, parse, quantity_of};

/// Tolerance: one part in 1e12, the rounding of a few multiplications.
fn reads(text: &str, dim: Dim, si: f64) {
    let got = parse(text, dim);
    let close = got
        .as_ref()
        .is_ok_and(|v| (v - si).abs() <= 1e-12 * si.abs().max(1e-300));
    assert!(close, "{text}: {got:?}, wanted {si}");
}

fn says(text: &str, dim: Dim, message: &str) {
    match parse(text, dim) {
        Ok(value) => panic!("{text} read as {value}"),
        Err(e) => assert_eq!(e.to_string(), message),
    }
}

#[test]
fn lengths_in_parts_and_spellings() {
    for text in [
        "12 ft 6 in",
        "12'6\"",
        "12' 6\"",
        "12′ 6″",
        "12 feet 6 inches",
        "12 ft, 6 in.",
        "12ft6in",
        "12 ft - 6 in",
        "12.5 ft",
        "12 1/2 ft",
        "12½ ft",
        "150 in",
        "3.81 m",
        "3 810 mm",
    ] {
        if text == "3 810 mm" {
            assert!(
                parse(text, Dim::Length).is_err(),
                "a space does not group digits"
            );
        } else {
            reads(text, Dim::Length, 12.5 * FOOT_M);
        }
    }
    reads("-2 ft 6 in", Dim::Length, -2.5 * FOOT_M);
    reads("6 1/2 in", Dim::Length, 6.5 * INCH_M);
    reads("6-1/2\"", Dim::Length, 6.5 * INCH_M);
    reads("3/4 in.", Dim::SmallLength, 0.75 * INCH_M);
    reads("8 ft 0 in", Dim::Length, 8.0 * FOOT_M);
    reads("4,000 ft", Dim::Length, 4000.0 * FOOT_M);
    reads("205 m", Dim::Length, 205.0);
}

#[test]
fn heat_and_fabric() {
    let u = BTU_IT_J / 3600.0 / (FOOT_M * FOOT_M) * 1.8;
    for text in [
        "0.30 Btu/(h ft2 F)",
        "0.30 Btu/h·ft²·°F",
        "0.3 BTU/hr-ft2-F",
        "0.30 btu/h/ft2/degF",
        "0.30 Btu/(hr sq ft F)",
    ] {
        reads(text, Dim::UValue, 0.3 * u);
    }
    reads("2.1 W/(m2 K)", Dim::UValue, 2.1);
    reads("2.1 W/m²K", Dim::UValue, 2.1);
    for text in ["R 13", "R-13", "r13", "13 h ft2 F/Btu", "13 hr·ft²·°F/Btu"] {
        reads(text, Dim::RValue, 13.0 / u);
    }
    reads("RSI 2.3", Dim::RValue, 2.3);
    reads("800 J/(kg K)", Dim::SpecificHeat, 800.0);
    reads("1.5 W/(m K)", Dim::Conductivity, 1.5);
    reads("9000 Btu/h", Dim::Power, 9000.0 * BTU_IT_J / 3600.0);
    reads("2 ton", Dim::Power, 24000.0 * BTU_IT_J / 3600.0);
    reads("1.2 kW", Dim::ElectricPower, 1200.0);
    reads("12 MMBtu", Dim::Heat, 12e6 * BTU_IT_J);
}

#[test]
fn air_money_and_plain_numbers() {
    reads(
        "2100 cfm",
        Dim::VolumeFlow,
        2100.0 * FOOT_M * FOOT_M * FOOT_M / 60.0,
    );
    reads("0.41 1/h", Dim::AirChanges, 0.41);
    reads("0.5 ACH", Dim::AirChanges, 0.5);
    reads("70 F", Dim::Temperature, 190.0 / 9.0);
    reads("70 °F", Dim::Temperature, 190.0 / 9.0);
    reads("-40 F", Dim::Temperature, -40.0);
    reads("294.15 K", Dim::Temperature, 21.0);
    reads("5 F", Dim::TemperatureDifference, 25.0 / 9.0);
    reads("5 K", Dim::TemperatureDifference, 5.0);
    reads("45 deg", Dim::Angle, std::f64::consts::FRAC_PI_4);
    reads("45°", Dim::Angle, std::f64::consts::FRAC_PI_4);
    for text in [
        "0.25 /kWh",
        "$0.25/kWh",
        "$ 0.25 /kWh",
        "25 cents/kWh",
        "0.25 $/kWh",
    ] {
        reads(text, Dim::EnergyPrice, 0.25 / 3.6e6);
    }
    reads("$1,200", Dim::Money, 1200.0);
    reads("1200 USD", Dim::Money, 1200.0);
    reads("0.9", Dim::Ratio, 0.9);
    reads("30 %", Dim::Share, 0.3);
    reads("0.3", Dim::Share, 0.3);
    reads("3", Dim::Count, 3.0);
    reads("7400 F day", Dim::DegreeDays, 7400.0 * 86400.0 / 1.8);
    reads("2 lb 4 oz", Dim::Mass, 2.25 * 0.45359237);
    reads("1 h 30 min", Dim::Hours, 5400.0);
    reads("1e3 Pa", Dim::SmallPressure, 1000.0);
}

#[test]
fn messages_word_for_word() {
    says(
        "8",
        Dim::Length,
        "`8` has no unit; allowed units: ft, in, m, cm, mm, yd, mi, km; for example `12 ft 6 in`",
    );
    says(
        "8 lb",
        Dim::Length,
        "`8 lb`: `lb` is a unit of mass, and this is a length; allowed units: ft, in, m, cm, mm, \
         yd, mi, km; for example `12 ft 6 in`",
    );
    says(
        "9000 Btuh/h",
        Dim::Power,
        "`9000 Btuh/h`: `Btuh/h` is not a unit of heat flow (did you mean `Btu/h`?); allowed \
         units: Btu/h, kBtu/h, ton, W, kW; for example `9000 Btu/h`",
    );
    says(
        "  ",
        Dim::Temperature,
        "nothing is written where a temperature belongs; allowed units: F, C, K; for example \
         `70 F`",
    );
    says(
        "warm",
        Dim::Temperature,
        "`warm` does not begin with a number; allowed units: F, C, K; for example `70 F`",
    );
    says(
        "-500 F",
        Dim::Temperature,
        "`-500 F` is below absolute zero (-459.67 F, -273.15 C)",
    );
    says(
        "5 ft 14 in",
        Dim::Length,
        "`5 ft 14 in`: the part after the first must be smaller than one unit of the part before \
         it; write it like `12 ft 6 in`",
    );
    says(
        "30",
        Dim::Share,
        "`30` is more than the whole; write `30 %` if percent is meant, or a number from 0 to 1",
    );
    says(
        "2.5",
        Dim::Count,
        "`2.5` is not a whole number; write it like `3`",
    );
    says(
        "1e999 m",
        Dim::Length,
        "`1e999 m` is too large to be a length; allowed units: ft, in, m, cm, mm, yd, mi, km; for \
         example `12 ft 6 in`",
    );
}

#[test]
fn refused() {
    for (text, dim) in [
        ("nan", Dim::Ratio),
        ("inf m", Dim::Length),
        ("NaN ft", Dim::Length),
        ("1,2 ft", Dim::Length),
        ("12,34 ft", Dim::Length),
        ("1e400 m", Dim::Length),
        ("12 ft 6", Dim::Length),
        ("ft", Dim::Length),
        ("70", Dim::Temperature),
        ("5 mMBtu x", Dim::Heat),
        ("3 mJ", Dim::Heat),
        ("3 ft2", Dim::Length),
        ("1/0 in", Dim::Length),
        ("R", Dim::RValue),
        ("13", Dim::RValue),
        ("$", Dim::Money),
        ("100 psig", Dim::Pressure),
    ] {
        assert!(
            parse(text, dim).is_err(),
            "{text} read as {:?}",
            parse(text, dim)
        );
    }
    assert!(matches!(
        parse("3 ft2", Dim::Length),
        Err(UnitError::WrongKind { .. })
    ));
}

#[test]
fn every_unit_in_every_spelling_and_every_example_reads() {
    for dim in ALL {
        let q = quantity_of(*dim);
        assert!(parse(q.example, *dim).is_ok(), "{dim:?} {}", q.example);
        for unit in q.units {
            for name in std::iter::once(&unit.name).chain(unit.also) {
                let text = format!("0.5 {name}");
                assert_eq!(parse(&text, *dim), Ok(unit.to_si(0.5)), "{dim:?} {text}");
            }
        }
    }
}
