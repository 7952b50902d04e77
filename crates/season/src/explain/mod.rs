//! The figures of a year, with their reasons.

use reckon::{Book, FormulaError};

use crate::input::Input;
use crate::year::Year;

/// Writes the figures of a year into a book, under `season.<choice>.`
///
/// # Errors
/// A formula that does not read: a defect of the program.
pub fn explain(_input: &Input<'_>, _year: &Year, _book: &mut Book) -> Result<(), FormulaError> {
    Ok(())
}
