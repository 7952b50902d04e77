//! Heat pumps by their data sheets: what a sheet says, whether it can be believed, what a system
//! can give at an outdoor temperature, what it takes in electricity, and its seasonal ratings.
//!
//! The way of a number: [`read_sheet`] reads a file to a [`Sheet`]; [`OutdoorUnit`] and [`Head`]
//! make a [`System`]; [`capability`] answers at one temperature or says why it [`CannotTell`];
//! [`Performance`] tables it for the hours of a year. Nothing here knows the house.

mod altitude;
mod cannot_tell;
mod capability;
mod charge_trim;
mod check;
mod combination;
mod curve;
mod frost;
mod made_of;
mod part_load;
mod performance;
mod plot;
mod rating;
mod shape;
mod sheet;
mod system;

pub use altitude::{SEA_LEVEL_PA, altitude_factor};
pub use cannot_tell::{CannotTell, Reason};
pub use capability::{
    COOLING_LOWEST_C, Capability, Conditions, Duty, HEATING_HIGHEST_C, capability,
};
pub use charge_trim::charge_trim_kg;
pub use check::{check_sheet, check_system};
pub use frost::{FROST_COLD_C, FROST_WARM_C, FROST_WORST_C, Frost, frost};
pub use made_of::{MadeOf, PrintedMost, most_made_of};
pub use part_load::{DEFAULT_CD, cycling_w, modulating_w};
pub use performance::{HeadLimits, Mode, Operating, Performance, Range};
pub use plot::{PlotData, PlotMark, PlotPoint, plot_data};
pub use rating::{
    Climate, EN_AVERAGE, EN_COLDER, EnClimate, HeatingRegion, OffHours, RESISTANCE_3412,
    RESISTANCE_3413, RatedPoint, ScopResult, SheetRatings, Stage, TwoStageCooling, TwoStageHeating,
    VariableCooling, VariableHeating, region, scop, scop_on, sheet_ratings, two_stage_hspf2,
    two_stage_seer2, variable_hspf2, variable_seer2,
};
pub use shape::{carnot_cop, indoor_factor};
pub use sheet::{
    Charge, ChargeExample, ChargeRate, Combination, DefrostMethod, FlareTorque, HeadData, HeadKind,
    Kind, Limits, LineLimits, MultiZone, Plate, Printed, Running, Sheet, SheetError, Size, Sound,
    StartUp, TestPoint, VacuumAsked, read_sheet,
};
pub use system::{Head, NotASystem, OutdoorUnit, System};
