//! What only the sheet of a head has.

use serde::Serialize;
use units::Dim;

use super::Kind;
use super::table::{Reading, Table, Usable};
use super::usable::{HEAT, RUN, SIZE};

const AIR: Usable = Usable {
    lo: 0.01,
    hi: 1.5,
    words: "an air flow from 21 to 3,200 cfm",
};

/// Data that only a head has.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct HeadData {
    /// Nominal size, W (the class: 9,000 Btu/h).
    pub nominal_w: f64,
    /// Most heat it can give, W.
    pub heating_max_w: Option<f64>,
    /// Least heat it gives when open, W.
    pub heating_min_w: Option<f64>,
    /// Most cooling, W.
    pub cooling_max_w: Option<f64>,
    /// Least cooling when open, W.
    pub cooling_min_w: Option<f64>,
    /// Air flow by speed, m3/s, slowest first.
    pub air_m3_per_s: Vec<f64>,
    /// Throw of the air stream, m.
    pub throw_m: Option<f64>,
    /// Release height above the floor for refrigerant rules, m.
    pub release_height_m: Option<f64>,
    /// Page.
    pub page: Option<String>,
}

pub(super) fn head<'t>(
    r: &mut Reading<'t>,
    t: &mut Table<'t>,
    kind: Option<Kind>,
) -> Option<HeadData> {
    let wanted = matches!(kind, Some(Kind::Head(_)));
    if !t.has("head") {
        if wanted {
            r.missing(t, "head", "a table [head] with its nominal size and limits");
        }
        return r.sub(t, "head").map(|_| HeadData::default());
    }
    let mut s = r.sub(t, "head")?;
    if kind.is_some() && !wanted {
        r.complain(
            s.line,
            "head",
            "[head]",
            "only in the sheet of a head",
            "Take it out",
        );
    }
    let nominal = r.quantity(&mut s, "nominal", Dim::Power, HEAT);
    if nominal.is_none() && !s.has("nominal") {
        r.missing(&s, "nominal", HEAT.words);
    }
    let data = HeadData {
        nominal_w: nominal.unwrap_or(0.0),
        heating_max_w: r.quantity(&mut s, "heating_max", Dim::Power, HEAT),
        heating_min_w: r.quantity(&mut s, "heating_min", Dim::Power, HEAT),
        cooling_max_w: r.quantity(&mut s, "cooling_max", Dim::Power, HEAT),
        cooling_min_w: r.quantity(&mut s, "cooling_min", Dim::Power, HEAT),
        air_m3_per_s: r.quantities(&mut s, "air", Dim::VolumeFlow, AIR),
        throw_m: r.quantity(&mut s, "throw", Dim::Length, RUN),
        release_height_m: r.quantity(&mut s, "release_height", Dim::Length, SIZE),
        page: r.text(&mut s, "page"),
    };
    r.finish(&s);
    nominal.map(|_| data)
}
