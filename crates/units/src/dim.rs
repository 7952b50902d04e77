//! The kinds of quantity a job can hold and a plan can report.

use serde::{Deserialize, Serialize};

/// What kind of quantity a number is. The SI unit inside is in each line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Dim {
    /// Temperature, C.
    Temperature,
    /// Temperature difference, K.
    TemperatureDifference,
    /// Power or heat flow, W. Heat prints as Btu/h.
    Power,
    /// Electric power, W. Prints as W or kW in both systems.
    ElectricPower,
    /// Heat over time, J. Prints as kWh (SI) or MMBtu/kBtu (US).
    Heat,
    /// Electric energy, J. Prints as kWh in both systems.
    ElectricEnergy,
    /// Length, m. Prints as feet and inches in the US system.
    Length,
    /// Small length, m. Prints as in or mm.
    SmallLength,
    /// Area, m2.
    Area,
    /// Volume, m3.
    Volume,
    /// Volume flow, m3/s. cfm or L/s.
    VolumeFlow,
    /// Heat loss coefficient, W/K. Btu/(h F).
    Conductance,
    /// Thermal transmittance, W/(m2 K). Btu/(h ft2 F).
    UValue,
    /// Thermal resistance, m2 K/W. h ft2 F/Btu.
    RValue,
    /// Conductivity, W/(m K). Btu in/(h ft2 F).
    Conductivity,
    /// Density, kg/m3.
    Density,
    /// Specific heat, J/(kg K).
    SpecificHeat,
    /// Pressure, Pa. psi or kPa.
    Pressure,
    /// Small pressure, Pa. Pa in both (building pressures) .
    SmallPressure,
    /// Speed, m/s. mph or m/s.
    Speed,
    /// Air speed in a room, m/s. ft/min or m/s.
    AirSpeed,
    /// Mass, kg. lb/oz or kg.
    Mass,
    /// Mass for every metre of a line, kg/m. oz/ft or g/m.
    MassPerLength,
    /// Solar irradiance, W/m2.
    Irradiance,
    /// Plain ratio: 0.55, COP 2.7.
    Ratio,
    /// Share of one, prints as percent.
    Share,
    /// Time, s. Prints as hours.
    Hours,
    /// Plane angle, rad inside. Prints in degrees.
    Angle,
    /// Air changes per hour, 1/h inside.
    AirChanges,
    /// Money, in the job's currency.
    Money,
    /// Price of energy, money per J. Prints per kWh.
    EnergyPrice,
    /// Carbon dioxide equivalent, kg.
    Carbon,
    /// Carbon intensity, kg/J. Prints per kWh.
    CarbonIntensity,
    /// Sound level, dB(A).
    Sound,
    /// Electric current, A.
    Current,
    /// Voltage, V.
    Voltage,
    /// Whole number of things.
    Count,
    /// Degree days, K s inside. Prints as F day or K day.
    DegreeDays,
    /// Humidity ratio, kg/kg.
    HumidityRatio,
    /// Water flow, kg/s. Prints gal/h or L/h.
    WaterFlow,
    /// Torque, N m. Prints ft lb or N m.
    Torque,
    /// Heat to evaporate or condense, J/kg. Btu/lb or kJ/kg.
    LatentHeat,
}
