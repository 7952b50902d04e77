//! Charts as SVG: sheets with a frame and a title block along the foot.

mod axes;
mod bars;
mod bill_line;
mod bring;
mod capacity;
mod circuit;
mod column;
mod field;
mod judged;
mod numbered;
mod own_rooms;
mod page;
mod placed;
mod profile;
mod route;
mod sheet;
mod side;
mod side_column;
mod storeys;
mod wall;
mod wall_column;

pub use bars::bars;
pub use bill_line::bill_line;
pub use bring::bring;
pub use capacity::{capacity, together as capacity_curve};
pub use circuit::circuit;
pub use field::year;
pub use placed::placed;
pub use profile::profiles;
pub use sheet::sheet;
pub use side::side;
pub use side_column::side_column;
pub use storeys::storeys;
pub use wall::{wall, wall_alone};
pub use wall_column::wall_column;
