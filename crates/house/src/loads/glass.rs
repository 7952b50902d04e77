//! Comfort at the glass on the design night.

use physics::downdraught::{humidity_limit, speed_m_per_s};
use reckon::{Book, Source, in_key};
use units::Dim;

use super::LoadError;
use crate::glazing::Glass;
use crate::model::Model;

/// Distance from the glass at which people sit, m.
const SEAT_M: f64 = 1.0;

/// One window's inside face on the design night.
#[derive(Debug, Clone, PartialEq)]
pub struct PaneComfort {
    /// Index of the pane.
    pub pane: usize,
    /// Zone.
    pub zone: usize,
    /// Name.
    pub window: String,
    /// Inside face of the glass, C.
    pub face_c: f64,
    /// Humidity of the room at which it fogs, 0 to 1.
    pub fogs_at: f64,
    /// Speed of falling air a metre from the glass, m/s.
    pub draught_m_per_s: f64,
    /// Key prefix of its figures.
    pub key: String,
}

/// Inside face, fogging humidity and draught of every window of a heated room: `glass.<window>.…`.
///
/// # Errors
/// A value outside what the formulas can be used for.
pub fn glass(
    model: &Model,
    glasses: &[Glass],
    book: &mut Book,
) -> Result<Vec<PaneComfort>, LoadError> {
    let mut out = Vec::new();
    book.given(
        "glass.film",
        "inside film at the glass",
        0.13,
        Dim::RValue,
        Source::new("iso-13788", "4.3 and ISO 6946 table 7"),
        None,
    );
    for (i, p) in model.panes.iter().enumerate() {
        let zone = &model.zones[p.zone];
        let Some(inside_c) = zone
            .heated
            .as_ref()
            .and_then(|s| s.by_hour_c.iter().flatten().copied().reduce(f64::max))
        else {
            continue;
        };
        if glasses.get(p.glazing).is_none() {
            continue;
        }
        let name = in_key(&p.name);
        let key = format!("glass.{name}");
        let face_c = book.reckon(
            format!("{key}.face"),
            format!("inside face of {} on the design night", p.name),
            Dim::Temperature,
            "Ti - U * R * (Ti - To)",
            &[
                ("Ti", &format!("room.{}.setting", in_key(&zone.name))),
                ("U", &format!("window.{name}.u")),
                ("R", "glass.film"),
                ("To", "design.outdoor"),
            ],
            Source::new("iso-13788", "4.3"),
        )?;
        let setting = format!("room.{}.setting", in_key(&zone.name));
        let face = format!("{key}.face");
        // refuses what the formulas cannot be used for
        humidity_limit(face_c, inside_c)?;
        speed_m_per_s(p.height_m, (inside_c - face_c).max(0.0), SEAT_M)?;
        let at_face = saturation(&face, face_c, &format!("{key}.saturated"), book)?;
        let of_room = format!("glass.saturated-{}", in_key(&zone.name));
        let of_room = saturation(&setting, inside_c, &of_room, book)?;
        let fogs_at = book.reckon(
            format!("{key}.fogs-at"),
            format!("room humidity at which {} fogs", p.name),
            Dim::Share,
            "min(1, Ps / Pr)",
            &[("Ps", &at_face), ("Pr", &of_room)],
            Source::new("iso-13788", "5 with annex E"),
        )?;
        let draught = book.reckon(
            format!("{key}.draught"),
            format!("air falling down {}, felt a metre away", p.name),
            Dim::AirSpeed,
            "0.095 * sqrt(h * max(0, Ti - Tg)) / (1 + 1.32)",
            &[
                ("h", &format!("window.{name}.height")),
                ("Ti", &setting),
                ("Tg", &face),
            ],
            Source::new("heiselberg-1994", "0.095 sqrt(h dT) / (x + 1.32) at 1 m"),
        )?;
        out.push(PaneComfort {
            pane: i,
            zone: p.zone,
            window: p.name.clone(),
            face_c,
            fogs_at,
            draught_m_per_s: draught,
            key,
        });
    }
    Ok(out)
}

/// Pressure of water vapour that air of a temperature can hold; gives its key.
fn saturation(of: &str, c: f64, key: &str, book: &mut Book) -> Result<String, LoadError> {
    let formula = if c >= 0.0 {
        "610.5 * exp(17.269 * T / (237.3 + T))"
    } else {
        "610.5 * exp(21.875 * T / (265.5 + T))"
    };
    let what = "most vapour pressure of air at this temperature";
    let from = Source::new("iso-13788", "annex E");
    book.reckon(key, what, Dim::SmallPressure, formula, &[("T", of)], from)?;
    Ok(key.to_owned())
}
