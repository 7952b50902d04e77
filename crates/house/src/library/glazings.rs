//! The table of usual windows.

use super::LibraryError;
use super::table::{is_called, rows};
use crate::describe::{Glazing, GlazingData};
use crate::geometry::nearest;
use reckon::Known;

const TABLE: &str = include_str!("../../data/glazings.csv");

/// Names of the usual windows.
pub fn glazing_names() -> Vec<&'static str> {
    rows(TABLE).filter_map(|f| f.first().copied()).collect()
}

/// A usual window by name: whole-window values, marked assumed. The glazing carries the name as
/// asked, so that windows that name it find it.
///
/// # Errors
/// Unknown: with the nearest known name.
///
/// # Example
/// ```
/// let old = house::library::glazing_by_name("double clear").unwrap();
/// assert_eq!(old.known, reckon::Known::Assumed);
/// ```
pub fn glazing_by_name(name: &str) -> Result<Glazing, LibraryError> {
    for f in rows(TABLE) {
        let [called, others, u, shgc, panes] = f.as_slice() else {
            continue;
        };
        if !is_called(name, called, others) {
            continue;
        }
        let (Ok(u_w_per_m2k), Ok(shgc), Ok(panes)) = (u.parse(), shgc.parse(), panes.parse())
        else {
            continue;
        };
        return Ok(Glazing {
            name: name.to_owned(),
            made_of: GlazingData::Label {
                u_w_per_m2k,
                shgc,
                panes,
            },
            frame_share: 0.0,
            frame_u_w_per_m2k: 0.0,
            known: Known::Assumed,
        });
    }
    let names = rows(TABLE)
        .filter_map(|f| match f.as_slice() {
            [name, others, ..] => Some(std::iter::once(*name).chain(others.split('|'))),
            _ => None,
        })
        .flatten()
        .filter(|n| !n.is_empty());
    Err(LibraryError::Unknown {
        kind: "window",
        name: name.trim().to_owned(),
        near: nearest(name.trim(), names).map(str::to_owned),
    })
}
