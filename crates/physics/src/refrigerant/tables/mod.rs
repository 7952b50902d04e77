//! The fitted tables, one file for each fluid and side, made by
//! `checks/tables/physics_refrigerants.py`.

pub(super) mod r290_liquid;
pub(super) mod r290_vapour;
pub(super) mod r32_liquid;
pub(super) mod r32_vapour;
pub(super) mod r410a_liquid;
pub(super) mod r410a_vapour;
pub(super) mod r454b_liquid;
pub(super) mod r454b_vapour;
