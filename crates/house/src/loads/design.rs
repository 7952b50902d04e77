//! The hour that is designed for.

use reckon::{Book, Known, Source};
use units::Dim;

/// Outdoor conditions of a design hour and where they come from.
#[derive(Debug, Clone, PartialEq)]
pub struct Design {
    /// Outdoor air, C.
    pub outdoor_c: f64,
    /// Where the temperature comes from.
    pub outdoor_source: Source,
    /// How it is known.
    pub outdoor_known: Option<Known>,
    /// Wind after shelter, at the height of the leaks, m/s.
    pub wind_m_per_s: f64,
    /// Where the wind comes from.
    pub wind_source: Source,
    /// Heat capacity of a cubic metre of indoor air, J/(m3 K).
    pub air_j_per_m3k: f64,
    /// Mean outdoor temperature of each month, C, for the ground.
    pub monthly_outdoor_c: [f64; 12],
}

impl Design {
    /// Writes the conditions down under `design.outdoor`, `design.wind`,
    /// `design.air-density` and `design.air-heat`.
    pub fn write(&self, book: &mut Book) {
        book.given(
            "design.outdoor",
            "outdoor temperature designed for",
            self.outdoor_c,
            Dim::Temperature,
            self.outdoor_source.clone(),
            self.outdoor_known,
        );
        book.given(
            "design.wind",
            "wind at the leaks, after shelter",
            self.wind_m_per_s,
            Dim::Speed,
            self.wind_source.clone(),
            None,
        );
        book.given(
            "design.air-density",
            "density of indoor air at this elevation",
            self.air_j_per_m3k / AIR_CP_J_PER_KGK,
            Dim::Density,
            Source::new("weather", "mean station pressure"),
            None,
        );
        book.given(
            "design.air-heat",
            "specific heat of air",
            AIR_CP_J_PER_KGK,
            Dim::SpecificHeat,
            Source::new("ashrae-fundamentals-2017", "chapter 1, dry air"),
            None,
        );
    }
}

/// Specific heat of dry air, J/(kg K).
pub const AIR_CP_J_PER_KGK: f64 = 1006.0;
