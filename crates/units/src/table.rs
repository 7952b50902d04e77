//! What a unit is, how a quantity is printed, and which table belongs to which [`Dim`].

use crate::Dim;
use crate::{table_air as air, table_energy as energy, table_fabric as fabric, table_size as size};

/// One unit: the value in SI is `(number - zero) * factor`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// How it is printed.
    pub name: &'static str,
    /// Other ways it may be written. Case, spaces, brackets and dots do not matter.
    pub also: &'static [&'static str],
    /// SI per unit.
    pub factor: f64,
    /// Number in this unit at SI zero; not 0 only for temperatures.
    pub zero: f64,
}

/// A unit without offset.
pub(crate) const fn unit(name: &'static str, also: &'static [&'static str], factor: f64) -> Unit {
    Unit {
        name,
        also,
        factor,
        zero: 0.0,
    }
}

impl Unit {
    /// A number in this unit to SI.
    pub fn to_si(&self, number: f64) -> f64 {
        (number - self.zero) * self.factor
    }
    /// SI to a number in this unit.
    pub fn from_si(&self, value_si: f64) -> f64 {
        value_si / self.factor + self.zero
    }
}

/// How many digits a printed number carries.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Digits {
    /// So many significant digits.
    Significant(usize),
    /// So many significant digits, and every digit before the point: what is counted up over a
    /// year is rounded to one of it.
    Whole(usize),
    /// So many decimals.
    Fixed(usize),
    /// At most so many decimals, zeros at the end left out.
    UpTo(usize),
    /// Feet, inches and half inches.
    FeetInches,
    /// Pounds and ounces to a tenth.
    PoundsOunces,
}

/// A way of printing: unit and digits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Way {
    pub unit: Unit,
    pub digits: Digits,
}

/// Prints in `unit` with these digits.
pub(crate) const fn way(unit: Unit, digits: Digits) -> Way {
    Way { unit, digits }
}

/// How one system prints a quantity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Shown {
    /// The way for table columns, the same for every value.
    pub column: Way,
    /// Ways for single values, each for magnitudes below the SI bound; ascending bounds.
    pub below: &'static [(f64, Way)],
}

/// Always the same way.
pub(crate) const fn always(unit: Unit, digits: Digits) -> Shown {
    Shown {
        column: way(unit, digits),
        below: &[],
    }
}

/// Everything the edge knows about one kind of quantity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Quantity {
    /// In words, with article: "a length".
    pub what: &'static str,
    /// Units that may be written, the usual one first.
    pub units: &'static [Unit],
    /// How to write one.
    pub example: &'static str,
    /// Whether a number without unit is taken as SI.
    pub bare: bool,
    /// Whether it may be written in parts: "12 ft 6 in".
    pub parts: bool,
    pub(crate) us: Shown,
    pub(crate) si: Shown,
}

/// A quantity that needs a unit and comes in one part.
pub(crate) const fn quantity(
    what: &'static str,
    units: &'static [Unit],
    example: &'static str,
    us: Shown,
    si: Shown,
) -> Quantity {
    Quantity {
        what,
        units,
        example,
        bare: false,
        parts: false,
        us,
        si,
    }
}

/// Every kind of quantity, in the order of [`Dim`].
pub const ALL: &[Dim] = &[
    Dim::Temperature,
    Dim::TemperatureDifference,
    Dim::Power,
    Dim::ElectricPower,
    Dim::Heat,
    Dim::ElectricEnergy,
    Dim::Length,
    Dim::SmallLength,
    Dim::Area,
    Dim::Volume,
    Dim::VolumeFlow,
    Dim::Conductance,
    Dim::UValue,
    Dim::RValue,
    Dim::Conductivity,
    Dim::Density,
    Dim::SpecificHeat,
    Dim::Pressure,
    Dim::SmallPressure,
    Dim::Speed,
    Dim::AirSpeed,
    Dim::Mass,
    Dim::MassPerLength,
    Dim::Irradiance,
    Dim::Ratio,
    Dim::Share,
    Dim::Hours,
    Dim::Angle,
    Dim::AirChanges,
    Dim::Money,
    Dim::EnergyPrice,
    Dim::Carbon,
    Dim::CarbonIntensity,
    Dim::Sound,
    Dim::Current,
    Dim::Voltage,
    Dim::Count,
    Dim::DegreeDays,
    Dim::HumidityRatio,
    Dim::WaterFlow,
    Dim::Torque,
    Dim::LatentHeat,
];

/// The units, words and printing of a kind of quantity.
pub fn quantity_of(dim: Dim) -> &'static Quantity {
    match dim {
        Dim::Temperature => &air::TEMPERATURE,
        Dim::TemperatureDifference => &air::TEMPERATURE_DIFFERENCE,
        Dim::Power => &energy::POWER,
        Dim::ElectricPower => &energy::ELECTRIC_POWER,
        Dim::Heat => &energy::HEAT,
        Dim::ElectricEnergy => &energy::ELECTRIC_ENERGY,
        Dim::Length => &size::LENGTH,
        Dim::SmallLength => &size::SMALL_LENGTH,
        Dim::Area => &size::AREA,
        Dim::Volume => &size::VOLUME,
        Dim::VolumeFlow => &air::VOLUME_FLOW,
        Dim::Conductance => &fabric::CONDUCTANCE,
        Dim::UValue => &fabric::U_VALUE,
        Dim::RValue => &fabric::R_VALUE,
        Dim::Conductivity => &fabric::CONDUCTIVITY,
        Dim::Density => &fabric::DENSITY,
        Dim::SpecificHeat => &fabric::SPECIFIC_HEAT,
        Dim::Pressure => &air::PRESSURE,
        Dim::SmallPressure => &air::SMALL_PRESSURE,
        Dim::Speed => &air::SPEED,
        Dim::AirSpeed => &air::AIR_SPEED,
        Dim::Mass => &size::MASS,
        Dim::MassPerLength => &size::MASS_PER_LENGTH,
        Dim::Irradiance => &air::IRRADIANCE,
        Dim::Ratio => &size::RATIO,
        Dim::Share => &size::SHARE,
        Dim::Hours => &size::HOURS,
        Dim::Angle => &size::ANGLE,
        Dim::AirChanges => &air::AIR_CHANGES,
        Dim::Money => &energy::MONEY,
        Dim::EnergyPrice => &energy::ENERGY_PRICE,
        Dim::Carbon => &energy::CARBON,
        Dim::CarbonIntensity => &energy::CARBON_INTENSITY,
        Dim::Sound => &air::SOUND,
        Dim::Current => &energy::CURRENT,
        Dim::Voltage => &energy::VOLTAGE,
        Dim::Count => &size::COUNT,
        Dim::DegreeDays => &air::DEGREE_DAYS,
        Dim::HumidityRatio => &air::HUMIDITY_RATIO,
        Dim::WaterFlow => &air::WATER_FLOW,
        Dim::Torque => &size::TORQUE,
        Dim::LatentHeat => &air::LATENT_HEAT,
    }
}
