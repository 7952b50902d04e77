//! Units of the building's fabric: conductance, transmittance, resistance, materials.

use crate::constants::{BTU_IT_J, BTU_PER_H_W, F_STEP_K, FOOT_M, INCH_M, POUND_KG};
use crate::table::{Digits, Quantity, Unit, always, quantity, unit};

const BTU_PER_H_F: Unit = unit("Btu/(h F)", &[], BTU_PER_H_W / F_STEP_K);
const W_PER_K: Unit = unit("W/K", &["W/C"], 1.0);

pub(crate) const CONDUCTANCE: Quantity = quantity(
    "a heat loss per degree",
    &[BTU_PER_H_F, W_PER_K],
    "450 Btu/(h F)",
    always(BTU_PER_H_F, Digits::Significant(3)),
    always(W_PER_K, Digits::Significant(3)),
);

/// One Btu/(h ft2 F), W/(m2 K).
const U_US: f64 = BTU_PER_H_W / (FOOT_M * FOOT_M * F_STEP_K);
const BTU_PER_H_FT2_F: Unit = unit("Btu/(h ft2 F)", &[], U_US);
const W_PER_M2_K: Unit = unit("W/(m2 K)", &["W/(m2 C)"], 1.0);

pub(crate) const U_VALUE: Quantity = quantity(
    "a U-value",
    &[BTU_PER_H_FT2_F, W_PER_M2_K],
    "0.30 Btu/(h ft2 F)",
    always(BTU_PER_H_FT2_F, Digits::Significant(3)),
    always(W_PER_M2_K, Digits::Significant(3)),
);

pub(crate) const R_US: Unit = unit("h ft2 F/Btu", &["ft2 h F/Btu", "ft2 F h/Btu"], 1.0 / U_US);
pub(crate) const R_SI: Unit = unit("m2 K/W", &["m2 C/W", "K m2/W"], 1.0);

pub(crate) const R_VALUE: Quantity = quantity(
    "a thermal resistance",
    &[R_US, R_SI],
    "R 13",
    always(R_US, Digits::Significant(3)),
    always(R_SI, Digits::Significant(3)),
);

const BTU_IN: Unit = unit("Btu in/(h ft2 F)", &[], U_US * INCH_M);
const BTU_FT: Unit = unit("Btu/(h ft F)", &[], U_US * FOOT_M);
const W_PER_M_K: Unit = unit("W/(m K)", &["W/(m C)"], 1.0);

pub(crate) const CONDUCTIVITY: Quantity = quantity(
    "a conductivity",
    &[BTU_IN, BTU_FT, W_PER_M_K],
    "0.04 W/(m K)",
    always(BTU_IN, Digits::Significant(3)),
    always(W_PER_M_K, Digits::Significant(3)),
);

const LB_PER_FT3: Unit = unit("lb/ft3", &["pcf"], POUND_KG / (FOOT_M * FOOT_M * FOOT_M));
const KG_PER_M3: Unit = unit("kg/m3", &[], 1.0);

pub(crate) const DENSITY: Quantity = quantity(
    "a density",
    &[LB_PER_FT3, KG_PER_M3],
    "32 lb/ft3",
    always(LB_PER_FT3, Digits::Significant(3)),
    always(KG_PER_M3, Digits::Significant(3)),
);

const BTU_PER_LB_F: Unit = unit("Btu/(lb F)", &[], BTU_IT_J / (POUND_KG * F_STEP_K));
const J_PER_KG_K: Unit = unit("J/(kg K)", &["J/(kg C)"], 1.0);
const KJ_PER_KG_K: Unit = unit("kJ/(kg K)", &["kJ/(kg C)"], 1000.0);

pub(crate) const SPECIFIC_HEAT: Quantity = quantity(
    "a specific heat",
    &[BTU_PER_LB_F, J_PER_KG_K, KJ_PER_KG_K],
    "0.24 Btu/(lb F)",
    always(BTU_PER_LB_F, Digits::Significant(3)),
    always(J_PER_KG_K, Digits::Significant(3)),
);
