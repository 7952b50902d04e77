//! Usual build-ups of old and new houses.

use std::sync::LazyLock;

use super::table::{Named, rows};
use super::{LibraryError, layer_from_text};
use crate::describe::Construction;
use crate::geometry::nearest;
use reckon::Known;

static BUILD_UPS: LazyLock<Named> =
    LazyLock::new(|| Named::new(include_str!("../../data/assemblies.csv"), false));
const USUAL: &str = include_str!("../../data/usual.csv");

/// Names of the usual build-ups.
pub fn construction_names() -> Vec<&'static str> {
    BUILD_UPS.names().collect()
}

/// A usual build-up by name, marked assumed.
///
/// # Errors
/// Unknown: with the nearest known name.
pub fn construction_by_name(name: &str) -> Result<Construction, LibraryError> {
    let Some([_, layers]) = BUILD_UPS.find(name) else {
        return Err(LibraryError::Unknown {
            kind: "build-up",
            name: name.trim().to_owned(),
            near: nearest(name.trim(), BUILD_UPS.names()).map(str::to_owned),
        });
    };
    let layers = layers.split('|').map(layer_from_text);
    Ok(Construction {
        name: name.to_owned(),
        layers: layers.collect::<Result<Vec<_>, _>>()?,
        sun_absorptance_out: 0.6,
        emittance_out: 0.9,
        sun_absorptance_in: 0.6,
        emittance_in: 0.9,
        known: Known::Assumed,
    })
}

/// The build-up that stands in for a set name (`wall`, `roof`, `ceiling`, ...) where the house
/// describes none; it carries the set name and is marked assumed.
///
/// # Errors
/// Not a set name.
pub fn usual_construction(set_name: &str) -> Result<Construction, LibraryError> {
    for f in rows(USUAL) {
        let [set, build_up] = f.as_slice() else {
            continue;
        };
        if *set == set_name {
            let mut c = construction_by_name(build_up)?;
            set_name.clone_into(&mut c.name);
            return Ok(c);
        }
    }
    Err(LibraryError::Unknown {
        kind: "set name",
        name: set_name.to_owned(),
        near: nearest(set_name, rows(USUAL).filter_map(|f| f.first().copied())).map(str::to_owned),
    })
}
