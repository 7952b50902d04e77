//! Units of temperature, air, water, pressure, wind, sun and sound.

use crate::constants::{
    ATMOSPHERE_PA, BTU_IT_J, BTU_PER_H_W, CFM_M3_PER_S, F_STEP_K, FOOT_M, GALLON_M3,
    INCH_MERCURY_PA, INCH_WATER_PA, KNOT_M_PER_S, MICRON_MERCURY_PA, MILE_PER_HOUR_M_PER_S,
    POUND_KG, PSI_PA, ZERO_C_K,
};
use crate::table::{Digits, Quantity, Shown, Unit, always, quantity, unit, way};

const F: Unit = Unit {
    name: "F",
    also: &["fahrenheit"],
    factor: F_STEP_K,
    zero: 32.0,
};
const C: Unit = unit("C", &["celsius"], 1.0);
const K: Unit = Unit {
    name: "K",
    also: &["kelvin"],
    factor: 1.0,
    zero: ZERO_C_K,
};

pub(crate) const TEMPERATURE: Quantity = quantity(
    "a temperature",
    &[F, C, K],
    "70 F",
    always(F, Digits::Fixed(0)),
    always(C, Digits::Fixed(1)),
);

const F_STEP: Unit = unit("F", &["fahrenheit", "R"], F_STEP_K);
const K_STEP: Unit = unit("K", &["kelvin"], 1.0);
const C_STEP: Unit = unit("C", &["celsius"], 1.0);

pub(crate) const TEMPERATURE_DIFFERENCE: Quantity = quantity(
    "a temperature difference",
    &[F_STEP, K_STEP, C_STEP],
    "5 F",
    always(F_STEP, Digits::Fixed(1)),
    always(K_STEP, Digits::Fixed(1)),
);

const F_DAY: Unit = unit("F day", &["F days", "F d"], F_STEP_K * 86_400.0);
const K_DAY: Unit = unit(
    "K day",
    &["K days", "K d", "C day", "C days", "C d"],
    86_400.0,
);

pub(crate) const DEGREE_DAYS: Quantity = quantity(
    "degree days",
    &[F_DAY, K_DAY],
    "7400 F day",
    always(F_DAY, Digits::Fixed(0)),
    always(K_DAY, Digits::Fixed(0)),
);

const CFM: Unit = unit("cfm", &["ft3/min", "cu ft/min"], CFM_M3_PER_S);
const L_PER_S: Unit = unit("L/s", &["l/sec"], 0.001);
const M3_PER_H: Unit = unit("m3/h", &["cmh"], 1.0 / 3600.0);
const M3_PER_S: Unit = unit("m3/s", &[], 1.0);

pub(crate) const VOLUME_FLOW: Quantity = quantity(
    "an air flow",
    &[CFM, L_PER_S, M3_PER_H, M3_PER_S],
    "2100 cfm",
    always(CFM, Digits::Significant(3)),
    always(L_PER_S, Digits::Significant(3)),
);

const PER_H: Unit = unit("1/h", &["/h", "ACH", "per h"], 1.0);

pub(crate) const AIR_CHANGES: Quantity = quantity(
    "air changes",
    &[PER_H],
    "0.41 1/h",
    always(PER_H, Digits::Significant(2)),
    always(PER_H, Digits::Significant(2)),
);

const GR_PER_LB: Unit = unit("gr/lb", &["grains/lb"], 1.0 / 7000.0);
const G_PER_KG: Unit = unit("g/kg", &[], 0.001);
const KG_PER_KG: Unit = unit("kg/kg", &["lb/lb"], 1.0);

pub(crate) const HUMIDITY_RATIO: Quantity = quantity(
    "a humidity ratio",
    &[GR_PER_LB, G_PER_KG, KG_PER_KG],
    "30 gr/lb",
    always(GR_PER_LB, Digits::Significant(3)),
    always(G_PER_KG, Digits::Significant(3)),
);

const BTU_PER_LB: Unit = unit("Btu/lb", &[], BTU_IT_J / POUND_KG);
const KJ_PER_KG: Unit = unit("kJ/kg", &[], 1000.0);

pub(crate) const LATENT_HEAT: Quantity = quantity(
    "a latent heat",
    &[BTU_PER_LB, KJ_PER_KG],
    "1,054 Btu/lb",
    always(BTU_PER_LB, Digits::Significant(4)),
    always(KJ_PER_KG, Digits::Significant(4)),
);

// Water at 1 kg a litre: condensate between 5 and 20 C is within 0.2 % of it.
const GAL_PER_H: Unit = unit("gal/h", &["gph"], GALLON_M3 * 1000.0 / 3600.0);
const L_PER_H: Unit = unit("L/h", &[], 1.0 / 3600.0);
const KG_PER_H: Unit = unit("kg/h", &[], 1.0 / 3600.0);
const LB_PER_H: Unit = unit("lb/h", &["lbs/h"], POUND_KG / 3600.0);
const KG_PER_S: Unit = unit("kg/s", &[], 1.0);

pub(crate) const WATER_FLOW: Quantity = quantity(
    "a water flow",
    &[GAL_PER_H, L_PER_H, LB_PER_H, KG_PER_H, KG_PER_S],
    "0.3 gal/h",
    always(GAL_PER_H, Digits::Significant(2)),
    always(L_PER_H, Digits::Significant(2)),
);

const PSI: Unit = unit("psi", &["lb/in2"], PSI_PA);
const KPA: Unit = unit("kPa", &[], 1000.0);
const PA: Unit = unit("Pa", &["pascal", "pascals"], 1.0);
const BAR: Unit = unit("bar", &[], 1e5);
const MPA: Unit = unit("MPa", &[], 1e6);
const IN_HG: Unit = unit("in Hg", &[], INCH_MERCURY_PA);
const MICRON: Unit = unit("micron", &["microns", "um Hg"], MICRON_MERCURY_PA);
const ATM: Unit = unit("atm", &[], ATMOSPHERE_PA);
const IN_WATER: Unit = unit("in wc", &["in H2O", "in wg"], INCH_WATER_PA);

pub(crate) const PRESSURE: Quantity = quantity(
    "a pressure",
    &[PSI, KPA, PA, BAR, MPA, IN_HG, MICRON, ATM],
    "600 psi",
    always(PSI, Digits::Significant(3)),
    always(KPA, Digits::Significant(3)),
);

pub(crate) const SMALL_PRESSURE: Quantity = quantity(
    "a small pressure",
    &[PA, IN_WATER, KPA],
    "50 Pa",
    always(PA, Digits::Significant(3)),
    always(PA, Digits::Significant(3)),
);

const MPH: Unit = unit("mph", &["mi/h"], MILE_PER_HOUR_M_PER_S);
const M_PER_S: Unit = unit("m/s", &[], 1.0);
const KM_PER_H: Unit = unit("km/h", &["kph"], 1.0 / 3.6);
const KNOT: Unit = unit("knot", &["knots", "kn", "kt"], KNOT_M_PER_S);
const FPM: Unit = unit("ft/min", &["fpm"], FOOT_M / 60.0);

pub(crate) const SPEED: Quantity = quantity(
    "a speed",
    &[MPH, M_PER_S, KM_PER_H, KNOT],
    "15 mph",
    always(MPH, Digits::Significant(2)),
    always(M_PER_S, Digits::Significant(2)),
);

pub(crate) const AIR_SPEED: Quantity = quantity(
    "an air speed",
    &[FPM, M_PER_S],
    "40 ft/min",
    always(FPM, Digits::Significant(2)),
    always(M_PER_S, Digits::Significant(2)),
);

const W_PER_M2: Unit = unit("W/m2", &[], 1.0);
const BTU_PER_H_FT2: Unit = unit("Btu/(h ft2)", &[], BTU_PER_H_W / (FOOT_M * FOOT_M));

pub(crate) const IRRADIANCE: Quantity = quantity(
    "a solar irradiance",
    &[BTU_PER_H_FT2, W_PER_M2],
    "800 W/m2",
    always(BTU_PER_H_FT2, Digits::Significant(3)),
    always(W_PER_M2, Digits::Significant(3)),
);

const DBA: Unit = unit("dB(A)", &["dB"], 1.0);
const SOUND_SHOWN: Shown = Shown {
    // tenths: levels are summed, and one may lie just above its limit
    column: way(DBA, Digits::UpTo(1)),
    below: &[],
};

pub(crate) const SOUND: Quantity = quantity(
    "a sound level",
    &[DBA],
    "46 dB(A)",
    SOUND_SHOWN,
    SOUND_SHOWN,
);
