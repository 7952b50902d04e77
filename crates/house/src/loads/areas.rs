//! Areas of windows and surfaces as figures.

use reckon::{Book, Source, in_key};
use units::Dim;

use super::LoadError;
use crate::model::{Model, SurfaceKind, Zone};

/// Writes the areas of all windows, `window.<name>.area`.
///
/// # Errors
/// A formula that does not read: a defect of the program.
pub(super) fn of_windows(model: &Model, book: &mut Book) -> Result<(), LoadError> {
    for p in &model.panes {
        let key = format!("window.{}", in_key(&p.name));
        let at = |what: &str| format!("{key}.{what}");
        let from = |what: &str| Source::job(format!("window.{}.{what}", p.name));
        let known = Some(p.known);
        for (what, value) in [("width", p.width_m), ("height", p.height_m)] {
            let says = format!("{what} of {}", p.name);
            book.given(at(what), says, value, Dim::Length, from(what), known);
        }
        let says = format!("windows alike, {}", p.name);
        let count = f64::from(p.count);
        book.given(at("count"), says, count, Dim::Count, from("count"), known);
        book.reckon(
            at("area"),
            format!("area of {}, frame included", p.name),
            Dim::Area,
            "w * h * n",
            &[
                ("w", &at("width")),
                ("h", &at("height")),
                ("n", &at("count")),
            ],
            Source::new("iso-13789", "8.1"),
        )?;
    }
    Ok(())
}

/// Writes the area of a surface, `<key>.area`: as drawn, less the windows in it.
///
/// # Errors
/// A formula that does not read: a defect of the program.
pub(super) fn of_surface(
    i: usize,
    key: &str,
    model: &Model,
    book: &mut Book,
) -> Result<(), LoadError> {
    let s = &model.surfaces[i];
    let windows: Vec<String> = model
        .panes
        .iter()
        .filter(|p| p.in_surface == i)
        .map(|p| format!("window.{}.area", in_key(&p.name)))
        .collect();
    let area = format!("{key}.area");
    let from = drawn(s.kind, &model.zones[s.zone]);
    let inside = format!("area of {}, inside dimensions", s.called());
    if windows.is_empty() {
        let what = if s.kind == SurfaceKind::Wall {
            format!("{inside}, outer doors taken off")
        } else {
            inside
        };
        book.given(area, what, s.area_m2, Dim::Area, from, None);
        return Ok(());
    }
    let (drawn, openings) = (format!("{key}.drawn"), format!("{key}.windows"));
    let source = || Source::new("iso-13789", "8.1");
    let what = format!("windows in {}", s.called());
    let windows_m2 = book.add_up(&*openings, what, Dim::Area, &windows, source())?;
    let what = format!("{inside}, with its windows, outer doors taken off");
    book.given(&*drawn, what, s.area_m2 + windows_m2, Dim::Area, from, None);
    let of = [("G", &*drawn), ("W", &*openings)];
    let what = format!("{inside}, openings taken off");
    book.reckon(area, what, Dim::Area, "G - W", &of, source())?;
    Ok(())
}

/// Where an area is drawn: the outline of the room, an outer door, or what is made over and under
/// rooms.
fn drawn(kind: SurfaceKind, zone: &Zone) -> Source {
    match (kind, zone.room) {
        (SurfaceKind::Door, _) => Source::job("outer_door"),
        (_, Some(_)) => Source::job(format!("room.{}.outline", zone.name)),
        (_, None) => Source::job("room outlines"),
    }
}
