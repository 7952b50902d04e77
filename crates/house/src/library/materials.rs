//! The table of materials.

use std::sync::LazyLock;

use reckon::Source;

use super::LibraryError;
use super::table::Named;
use crate::geometry::nearest;

/// A building material.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Material {
    /// Name.
    pub name: &'static str,
    /// Other names, divided by `|`.
    pub others: &'static str,
    /// Conductivity, W/(m K).
    pub k_w_per_mk: f64,
    /// Density, kg/m3.
    pub density_kg_per_m3: f64,
    /// Specific heat, J/(kg K).
    pub cp_j_per_kgk: f64,
    /// Key of the bibliography and place.
    pub source: &'static str,
}

impl Material {
    /// Where its values are from.
    pub fn from(&self) -> Source {
        let ends = self.source.find([':', ' ']);
        let (key, place) = self.source.split_at(ends.unwrap_or(self.source.len()));
        Source::new(key, place.trim_start_matches([':', ' ']))
    }
}

static TABLE: LazyLock<Named> =
    LazyLock::new(|| Named::new(include_str!("../../data/materials.csv"), true));

/// All materials, in the order of the table.
pub fn materials() -> Vec<Material> {
    TABLE.rows().iter().filter_map(|f| of(f)).collect()
}

fn of(fields: &[&'static str]) -> Option<Material> {
    match fields {
        [name, others, k, rho, cp, source @ ..] => Some(Material {
            name,
            others,
            k_w_per_mk: k.parse().ok()?,
            density_kg_per_m3: rho.parse().ok()?,
            cp_j_per_kgk: cp.parse().ok()?,
            source: source.first().copied().unwrap_or(""),
        }),
        _ => None,
    }
}

/// A material by name or one of its other names.
///
/// # Errors
/// Unknown: with the nearest known name.
pub fn material(name: &str) -> Result<Material, LibraryError> {
    TABLE
        .find(name)
        .and_then(of)
        .ok_or_else(|| LibraryError::Unknown {
            kind: "material",
            name: name.trim().to_owned(),
            near: nearest(name.trim(), TABLE.names()).map(str::to_owned),
        })
}
