//! The table of usual windows.

use std::sync::LazyLock;

use super::LibraryError;
use super::table::Named;
use crate::describe::{Glazing, GlazingData};
use crate::geometry::nearest;
use reckon::Known;

static TABLE: LazyLock<Named> =
    LazyLock::new(|| Named::new(include_str!("../../data/glazings.csv"), true));

/// Names of the usual windows.
pub fn glazing_names() -> Vec<&'static str> {
    let rows = TABLE.rows().iter();
    rows.filter_map(|f| f.first().copied()).collect()
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
    if let Some([_, _, u, shgc, panes]) = TABLE.find(name)
        && let (Ok(u_w_per_m2k), Ok(shgc), Ok(panes)) = (u.parse(), shgc.parse(), panes.parse())
    {
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
    Err(LibraryError::Unknown {
        kind: "window",
        name: name.trim().to_owned(),
        near: nearest(name.trim(), TABLE.names()).map(str::to_owned),
    })
}
