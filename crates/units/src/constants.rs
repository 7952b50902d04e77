//! Exact conversion factors, each with where it is defined.
//!
//! The foot, pound, gallon and Btu have several historic sizes. The ones here are the
//! international foot and pound (1959), the US liquid gallon, and the international table Btu,
//! which is what heating and cooling equipment is rated in.

/// One inch, m. Exact. Source: `nist-sp811` appendix B.
pub const INCH_M: f64 = 0.0254;
/// One foot, m. Exact. Source: `nist-sp811` appendix B.
pub const FOOT_M: f64 = 0.3048;
/// One pound, kg. Exact. Source: `nist-sp811` appendix B.
pub const POUND_KG: f64 = 0.45359237;
/// One ounce (avoirdupois), kg. Exact. Source: `nist-sp811` appendix B.
pub const OUNCE_KG: f64 = POUND_KG / 16.0;
/// One grain, kg. Exact. Source: `nist-sp811` appendix B.
pub const GRAIN_KG: f64 = POUND_KG / 7000.0;
/// One Btu, international table, J. Exact by definition (4.1868 x 453.59237 / 1.8).
/// Source: `nist-sp811` appendix B, footnote 9. Not the thermochemical Btu (1054.35 J).
pub const BTU_IT_J: f64 = 1055.05585262;
/// One Btu (international table) per hour, W.
pub const BTU_PER_H_W: f64 = BTU_IT_J / 3600.0;
/// One ton of refrigeration, 12,000 Btu/h, W. Source: `nist-sp811` appendix B.
pub const TON_COOLING_W: f64 = 12_000.0 * BTU_PER_H_W;
/// One therm taken as 100,000 international table Btu, J. The legal US therm uses another Btu
/// and is 0.02 % smaller, far below what a gas bill can tell.
pub const THERM_J: f64 = 100_000.0 * BTU_IT_J;
/// One kilowatt-hour, J. Exact.
pub const KWH_J: f64 = 3.6e6;
/// One degree Fahrenheit as a difference, K. Exact.
pub const F_STEP_K: f64 = 5.0 / 9.0;
/// Kelvin at 0 C. Exact. Source: `nist-sp811` clause B.7.
pub const ZERO_C_K: f64 = 273.15;
/// Standard acceleration of gravity, m/s2. Exact by convention. Source: `nist-sp811` appendix B.
pub const GRAVITY_M_PER_S2: f64 = 9.80665;
/// One pound-force per square inch, Pa.
pub const PSI_PA: f64 = POUND_KG * GRAVITY_M_PER_S2 / (INCH_M * INCH_M);
/// One foot pound-force of torque, N m.
pub const FOOT_POUND_NM: f64 = POUND_KG * GRAVITY_M_PER_S2 * FOOT_M;
/// One inch of water (conventional density 1000 kg/m3), Pa. Source: `nist-sp811` appendix B.
pub const INCH_WATER_PA: f64 = 249.08891;
/// One inch of mercury (conventional), Pa. Source: `nist-sp811` appendix B.
pub const INCH_MERCURY_PA: f64 = 3386.389;
/// One micron of mercury (thousandth of a millimetre), Pa. Source: `nist-sp811` appendix B.
pub const MICRON_MERCURY_PA: f64 = 0.1333224;
/// One standard atmosphere, Pa. Exact. Source: `nist-sp811` appendix B.
pub const ATMOSPHERE_PA: f64 = 101_325.0;
/// One US liquid gallon, m3. Exact (231 cubic inches). Source: `nist-sp811` appendix B.
pub const GALLON_M3: f64 = 231.0 * INCH_M * INCH_M * INCH_M;
/// One mile per hour, m/s. Exact.
pub const MILE_PER_HOUR_M_PER_S: f64 = 0.44704;
/// One knot, m/s. Exact: 1852 m an hour.
pub const KNOT_M_PER_S: f64 = 1852.0 / 3600.0;
/// One cubic foot per minute, m3/s. Exact.
pub const CFM_M3_PER_S: f64 = FOOT_M * FOOT_M * FOOT_M / 60.0;
