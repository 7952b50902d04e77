//! The sun: where it stands each hour and what falls on a tilted surface.
//!
//! [`Position`] is the sun at one instant; [`SunYear`] is the year of a weather file, worked out
//! once; [`on_facets`] gives beam, sky and ground on any number of surfaces.

mod ephemeris;
mod facet;
mod perez;
mod position;
mod year;

pub use facet::{Facet, FacetSun, on_facets, on_facets_with};
pub use perez::{Brightness, brightness};
pub use position::{Instant, Position, extraterrestrial_w_per_m2, position, refraction_deg};
pub use year::SunYear;
