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
        let fogs_at = humidity_limit(face_c, inside_c)?;
        book.given(
            format!("{key}.fogs-at"),
            format!("room humidity at which {} fogs", p.name),
            fogs_at,
            Dim::Share,
            Source::new(
                "iso-13788",
                "5 with annex E: saturation at the face over saturation of the room",
            ),
            None,
        );
        let cold = (inside_c - face_c).max(0.0);
        let draught = speed_m_per_s(p.height_m, cold, SEAT_M)?;
        book.given(
            format!("{key}.draught"),
            format!("air falling down {}, felt a metre away", p.name),
            draught,
            Dim::AirSpeed,
            Source::new("heiselberg-1994", "0.095 sqrt(h dT) / (x + 1.32) at 1 m"),
            None,
        );
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
