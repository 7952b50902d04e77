//! From outlines to surfaces: which faces look out, which are shared, what stands on what.
//!
//! Outlines are taken as inside faces; areas are those of the outline (inside dimensions), and
//! the thickness of walls is not added. Rooms touch when their edges run within 5 cm of each
//! other.

mod air;
mod build_ups;
mod check;
mod check_names;
mod check_rooms;
mod doors;
mod draft;
mod edges;
mod floors;
mod names;
mod problem;
mod roofs;
mod shape;
mod sides;
mod stack;
mod upright;
mod walls;
mod windows;

pub(crate) use names::nearest;
pub use problem::GeometryError;

use crate::describe::House;
use crate::model::Model;

/// Edges and faces this near touch, m.
pub const TOUCH_M: f64 = 0.05;
/// A ceiling and a floor with at most this between them belong together, m.
pub const STOREY_GAP_M: f64 = 1.0;
/// Pitch of the roof over a made attic, degrees. Common practice, no source.
pub const ATTIC_PITCH_DEG: f64 = 30.0;
/// Outdoor air through a vented attic, changes an hour. Common practice, no source: measured
/// vented attics lie between about 1 and 10.
pub const ATTIC_AIR_CHANGES_PER_H: f64 = 3.0;
/// Height of a made crawl space under a floor that lies lower than this over grade, m.
pub const CRAWL_HEIGHT_M: f64 = 0.6;

/// Makes the model of a described house.
///
/// # Errors
/// Everything that is wrong with the description, each with its place, what was found, what is
/// allowed and how to mend it. Outlines and names are checked first; what hangs on them only
/// when they hold.
pub fn model(house: &House) -> Result<Model, Vec<GeometryError>> {
    let placed = check::house(house)?;
    let mut draft = draft::Draft::new(house, placed);
    draft.place_zones();
    stack::find_overlaps(&mut draft);
    edges::find_runs(&mut draft);
    walls::build(&mut draft);
    floors::build(&mut draft);
    roofs::build(&mut draft);
    windows::build(&mut draft);
    doors::outer(&mut draft);
    doors::inner(&mut draft);
    walls::close_areas(&mut draft);
    air::build(&mut draft);
    draft.finish()
}
