//! The body of a unit: sound, size, weight, free space, defrost, printed ratings.

use serde::Serialize;
use units::Dim;

use super::table::{Reading, Table, Usable};
use super::usable::SIZE;

const SOUND: Usable = Usable {
    lo: 5.0,
    hi: 100.0,
    words: "a sound power from 5 to 100 dB(A)",
};
const WEIGHT: Usable = Usable {
    lo: 1.0,
    hi: 400.0,
    words: "a weight from 2 to 880 lb",
};
const RATING: Usable = Usable {
    lo: 0.5,
    hi: 60.0,
    words: "a plain number from 0.5 to 60",
};

/// Sound.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Sound {
    /// Sound power, heating, dB(A).
    pub power_heating_db: Option<f64>,
    /// Sound power, cooling, dB(A).
    pub power_cooling_db: Option<f64>,
    /// Sound power at the lowest speed or night setting, dB(A).
    pub power_quiet_db: Option<f64>,
    /// Page.
    pub page: Option<String>,
}

/// Size, weight and free space.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Size {
    /// Width, m.
    pub width_m: Option<f64>,
    /// Depth, m.
    pub depth_m: Option<f64>,
    /// Height, m.
    pub height_m: Option<f64>,
    /// Weight, kg.
    pub weight_kg: Option<f64>,
    /// Free space behind, m.
    pub clear_rear_m: Option<f64>,
    /// Free space at the side, m.
    pub clear_side_m: Option<f64>,
    /// Free space at the service side, m.
    pub clear_service_m: Option<f64>,
    /// Free space in front, m.
    pub clear_front_m: Option<f64>,
    /// Free space above, m.
    pub clear_above_m: Option<f64>,
    /// Page.
    pub page: Option<String>,
}

/// How ice is taken off the outdoor coil.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum DefrostMethod {
    /// The cycle turns round; the head stops or blows cool.
    ReverseCycle,
    /// Hot gas past the head, which keeps giving some heat.
    HotGas,
}

/// Seasonal ratings as printed; never used as a COP.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Printed {
    /// HSPF2, Btu/Wh.
    pub hspf2: Option<f64>,
    /// SEER2, Btu/Wh.
    pub seer2: Option<f64>,
    /// SCOP.
    pub scop: Option<f64>,
    /// Page.
    pub page: Option<String>,
}

pub(super) fn sound<'t>(r: &mut Reading<'t>, t: &mut Table<'t>) -> Sound {
    let Some(mut s) = r.sub(t, "sound") else {
        return Sound::default();
    };
    let sound = Sound {
        power_heating_db: r.quantity(&mut s, "power_heating", Dim::Sound, SOUND),
        power_cooling_db: r.quantity(&mut s, "power_cooling", Dim::Sound, SOUND),
        power_quiet_db: r.quantity(&mut s, "power_quiet", Dim::Sound, SOUND),
        page: r.text(&mut s, "page"),
    };
    r.finish(&s);
    sound
}

pub(super) fn size<'t>(r: &mut Reading<'t>, t: &mut Table<'t>) -> Size {
    let Some(mut s) = r.sub(t, "size") else {
        return Size::default();
    };
    let weight_kg = r.quantity(&mut s, "weight", Dim::Mass, WEIGHT);
    let mut length = |key: &str| r.quantity(&mut s, key, Dim::SmallLength, SIZE);
    let size = Size {
        width_m: length("width"),
        depth_m: length("depth"),
        height_m: length("height"),
        weight_kg,
        clear_rear_m: length("clear_rear"),
        clear_side_m: length("clear_side"),
        clear_service_m: length("clear_service"),
        clear_front_m: length("clear_front"),
        clear_above_m: length("clear_above"),
        page: r.text(&mut s, "page"),
    };
    r.finish(&s);
    size
}

pub(super) fn defrost<'t>(r: &mut Reading<'t>, t: &mut Table<'t>) -> Option<DefrostMethod> {
    let text = r.text(t, "defrost")?;
    match text.as_str() {
        "reverse cycle" => Some(DefrostMethod::ReverseCycle),
        "hot gas" => Some(DefrostMethod::HotGas),
        _ => {
            let line = r.lines_of.get("defrost").copied().unwrap_or(1);
            let got = format!("\"{text}\"");
            r.complain(
                line,
                "defrost",
                got,
                "reverse cycle, hot gas",
                "Write one of these",
            );
            None
        }
    }
}

pub(super) fn printed<'t>(r: &mut Reading<'t>, t: &mut Table<'t>) -> Printed {
    let Some(mut s) = r.sub(t, "printed") else {
        return Printed::default();
    };
    let printed = Printed {
        hspf2: r.ratio(&mut s, "hspf2", RATING),
        seer2: r.ratio(&mut s, "seer2", RATING),
        scop: r.ratio(&mut s, "scop", RATING),
        page: r.text(&mut s, "page"),
    };
    r.finish(&s);
    printed
}
