//! The electrical plate, and what is drawn without running.

use serde::Serialize;
use units::Dim;

use super::table::{Reading, Table, Usable};
use super::usable::{OUTDOOR, POWER};

const AMPS: Usable = Usable {
    lo: 0.1,
    hi: 200.0,
    words: "a current from 0.1 to 200 A",
};
const VOLTS: Usable = Usable {
    lo: 90.0,
    hi: 700.0,
    words: "a voltage from 90 to 700 V",
};
const PRESSURE: Usable = Usable {
    lo: 1.0e6,
    hi: 7.0e6,
    words: "a pressure from 145 to 1015 psi above the air",
};

/// Electrical plate.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Plate {
    /// Minimum circuit ampacity, A.
    pub mca_a: Option<f64>,
    /// Largest overcurrent device, A.
    pub mocp_a: Option<f64>,
    /// Voltage, V.
    pub volts_v: Option<f64>,
    /// Phases.
    pub phases: Option<u32>,
    /// Most pressure the high side may have, above the air, Pa: what a pressure test stays under.
    pub high_side_pa: Option<f64>,
    /// Power while waiting, W.
    pub standby_w: Option<f64>,
    /// Crankcase heater, W.
    pub crankcase_w: Option<f64>,
    /// Crankcase heater works below this outdoor temperature, C.
    pub crankcase_below_c: Option<f64>,
    /// Base-pan heater, W.
    pub base_pan_w: Option<f64>,
    /// Base-pan heater works below this outdoor temperature, C.
    pub base_pan_below_c: Option<f64>,
    /// Whether the test points already include the base-pan heater.
    pub base_pan_included: bool,
    /// Page.
    pub page: Option<String>,
}

pub(super) fn plate<'t>(r: &mut Reading<'t>, t: &mut Table<'t>) -> Plate {
    let Some(mut s) = r.sub(t, "plate") else {
        return Plate::default();
    };
    let plate = Plate {
        mca_a: r.quantity(&mut s, "mca", Dim::Current, AMPS),
        mocp_a: r.quantity(&mut s, "mocp", Dim::Current, AMPS),
        volts_v: r.quantity(&mut s, "volts", Dim::Voltage, VOLTS),
        phases: r.whole(&mut s, "phases", 1, 3),
        high_side_pa: r.quantity(&mut s, "high_side", Dim::Pressure, PRESSURE),
        standby_w: r.quantity(&mut s, "standby", Dim::ElectricPower, POWER),
        crankcase_w: r.quantity(&mut s, "crankcase_heater", Dim::ElectricPower, POWER),
        crankcase_below_c: r.quantity(&mut s, "crankcase_below", Dim::Temperature, OUTDOOR),
        base_pan_w: r.quantity(&mut s, "base_pan_heater", Dim::ElectricPower, POWER),
        base_pan_below_c: r.quantity(&mut s, "base_pan_below", Dim::Temperature, OUTDOOR),
        base_pan_included: r.flag(&mut s, "base_pan_included").unwrap_or(false),
        page: r.text(&mut s, "page"),
    };
    r.finish(&s);
    plate
}
