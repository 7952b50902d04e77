//! `[[window]]`.

use house::describe::{Shade, Window};
use units::Dim;

use super::{Desk, glazing, wall};
use crate::Job;
use crate::cell::Row;
use crate::field::{Family, Kind, Table, may, must, usual};

pub(super) static TABLE: Table = Table {
    name: "window",
    about: "A window in an outside wall, or several alike",
    label: &["room", "wall"],
    assumed: true,
    fields: &[
        may(
            "name",
            Kind::NewName,
            "Name; made from room and wall if not given",
        ),
        must("room", Kind::Ref(Family::Room), "Room"),
        must(
            "wall",
            Kind::Side,
            "Which wall: plan direction it faces, or its number",
        ),
        must("width", Kind::Q(Dim::Length, 0.05, 20.0), "Width of one"),
        must("height", Kind::Q(Dim::Length, 0.05, 10.0), "Height of one"),
        usual(
            "sill",
            Kind::Q(Dim::Length, 0.0, 10.0),
            "30 in",
            "Sill above the floor",
        ),
        may(
            "from_left",
            Kind::Q(Dim::Length, 0.0, 100.0),
            "From the wall's left end, seen from inside, to its left edge",
        ),
        usual("count", Kind::Whole(1, 100), "1", "How many alike"),
        must(
            "glazing",
            Kind::TextOr(&glazing::INLINE),
            "Name of a [glazing.x] or of the library, or the label: { u, shgc }",
        ),
        may("shade", Kind::Sub(&SHADE), "Fixed shading around it"),
    ],
};

static SHADE: Table = Table {
    name: "shade",
    about: "Overhang and side fins around a window",
    label: &[],
    assumed: false,
    fields: &[
        usual(
            "overhang",
            Kind::Q(Dim::Length, 0.0, 10.0),
            "0 ft",
            "How far the overhang stands out",
        ),
        usual(
            "gap",
            Kind::Q(Dim::Length, 0.0, 10.0),
            "0 ft",
            "From the window head to the overhang",
        ),
        usual(
            "past",
            Kind::Q(Dim::Length, 0.0, 50.0),
            "0 ft",
            "How far the overhang reaches past each side",
        ),
        usual(
            "fins",
            Kind::Q(Dim::Length, 0.0, 10.0),
            "0 ft",
            "How far the side fins stand out",
        ),
        usual(
            "fin_gap",
            Kind::Q(Dim::Length, 0.0, 10.0),
            "0 ft",
            "From the window's edge to the fin",
        ),
        usual(
            "fin_above",
            Kind::Q(Dim::Length, 0.0, 10.0),
            "0 ft",
            "How far fins reach above the head",
        ),
        usual(
            "fin_below",
            Kind::Q(Dim::Length, 0.0, 10.0),
            "0 ft",
            "How far fins reach below the sill",
        ),
    ],
};

pub(super) fn read<'r>(rows: impl Iterator<Item = &'r Row>, job: &mut Job, desk: &mut Desk) {
    for row in rows {
        let known = desk.known(row, format!("size and glazing of window {}", row.name));
        let glazing = glazing::of_window(row, known, job, desk);
        let count = row
            .whole("count")
            .and_then(|n| u32::try_from(n).ok())
            .unwrap_or(1);
        job.house.windows.push(Window {
            name: row.name.clone(),
            room: row.words("room"),
            side: wall::side(row),
            width_m: row.si_or_0("width"),
            height_m: row.si_or_0("height"),
            sill_m: row.si_or_0("sill"),
            from_left_m: row.si("from_left"),
            count,
            glazing,
            shade: row.row("shade").map(shade).unwrap_or_default(),
            known,
        });
    }
}

fn shade(row: &Row) -> Shade {
    Shade {
        overhang_depth_m: row.si_or_0("overhang"),
        overhang_gap_m: row.si_or_0("gap"),
        overhang_past_m: row.si_or_0("past"),
        fin_depth_m: row.si_or_0("fins"),
        fin_gap_m: row.si_or_0("fin_gap"),
        fin_above_m: row.si_or_0("fin_above"),
        fin_below_m: row.si_or_0("fin_below"),
    }
}
