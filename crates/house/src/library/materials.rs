//! The table of materials.

use super::LibraryError;
use super::table::{is_called, rows};
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

const TABLE: &str = include_str!("../../data/materials.csv");

/// All materials, in the order of the table.
pub fn materials() -> Vec<Material> {
    rows(TABLE)
        .filter_map(|f| match f.as_slice() {
            [name, others, k, rho, cp, source @ ..] => Some(Material {
                name,
                others,
                k_w_per_mk: k.parse().ok()?,
                density_kg_per_m3: rho.parse().ok()?,
                cp_j_per_kgk: cp.parse().ok()?,
                source: source.first().copied().unwrap_or(""),
            }),
            _ => None,
        })
        .collect()
}

/// A material by name or one of its other names.
///
/// # Errors
/// Unknown: with the nearest known name.
pub fn material(name: &str) -> Result<Material, LibraryError> {
    let all = materials();
    if let Some(m) = all.iter().find(|m| is_called(name, m.name, m.others)) {
        return Ok(*m);
    }
    let names = all
        .iter()
        .flat_map(|m| std::iter::once(m.name).chain(m.others.split('|')))
        .filter(|n| !n.is_empty());
    Err(LibraryError::Unknown {
        kind: "material",
        name: name.trim().to_owned(),
        near: nearest(name.trim(), names).map(str::to_owned),
    })
}
