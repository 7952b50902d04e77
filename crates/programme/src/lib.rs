//! A programme of many houses: a row of a Parquet file in, a row of a Parquet file out.
//!
//! [`house`] is the whole of it for one house: a pure function of the row, the catalogue and the
//! weather. What is around it is only columns: [`Houses`] hands out rows one by one and never holds
//! more than a page of the file, [`part`] makes the bytes of a part. Files, threads and what is
//! done already are the command's; an engine that spreads houses over machines takes their place
//! (decision 12).

mod columns;
mod house;
mod line;
mod mark;
mod rows;

pub use columns::{COLUMNS, Column, Counts, Kind, counts, part};
pub use house::{house, job, refused};
pub use line::{Line, State};
pub use mark::Mark;
pub use rows::{Houses, NotHouses, Row};
