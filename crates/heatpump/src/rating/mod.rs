//! Seasonal ratings, computed from test points by the rating standards.

mod bins;
mod en14825;
mod from_sheet;
mod two_stage;
mod variable_speed;

pub use bins::{Climate, HeatingRegion, region};
pub use en14825::{
    EN_AVERAGE, EN_COLDER, EnClimate, OffHours, RatedPoint, ScopResult, scop, scop_on,
};
pub use from_sheet::{SheetRatings, sheet_ratings};
pub use two_stage::{
    RESISTANCE_3412, RESISTANCE_3413, Stage, TwoStageCooling, TwoStageHeating, two_stage_hspf2,
    two_stage_seer2,
};
pub use variable_speed::{VariableCooling, VariableHeating, variable_hspf2, variable_seer2};
