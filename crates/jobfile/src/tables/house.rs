//! `[house]`: what holds for the whole house.

use reckon::Known;

use super::Desk;
use crate::cell::Row;
use crate::field::{AREA_HEAT, Kind, Table, usual};
use crate::{Given, Job};

/// Heat capacity of furniture and air in rooms per floor area, J/(m2 K): ISO 52016-1 table B.17.
const USUAL_FURNISHING: f64 = 10_000.0;

pub(super) static TABLE: Table = Table {
    name: "house",
    about: "What holds for the whole house",
    label: &[],
    assumed: true,
    fields: &[
        usual(
            "furnishing",
            Kind::Odd(&AREA_HEAT, 0.0, 200_000.0),
            "10 kJ/(m2 K)",
            "Heat capacity of furniture and contents per floor area",
        ),
        usual(
            "steps_an_hour",
            Kind::Whole(1, 12),
            "1",
            "Steps of the heat balance in an hour; more for thermostats that ramp",
        ),
    ],
};

pub(super) fn read(row: Option<&Row>, job: &mut Job, desk: &mut Desk) {
    let what = "heat capacity of furniture";
    if let Some(row) = row {
        desk.known(row, what);
        job.house.furnishing_j_per_m2k = row.si_or_0("furnishing");
        job.house.steps_an_hour = row.whole("steps_an_hour").map_or(1, |n| n as usize);
        return;
    }
    job.house.furnishing_j_per_m2k = USUAL_FURNISHING;
    desk.given.push(Given {
        path: "house.furnishing".to_owned(),
        known: Known::Assumed,
        how: String::new(),
        what: what.to_owned(),
    });
}
