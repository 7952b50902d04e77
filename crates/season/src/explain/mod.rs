//! The figures of a year, with their reasons. What only the hours can give is a sum whose formula
//! says in words what was added up; everything made from such sums is evaluated by the book.

mod by_time;
mod heater;
mod house;
mod most;
mod pen;
mod room;
mod unit;

use jobfile::CHOSEN;
use reckon::{Book, FormulaError};

use crate::input::Input;
use crate::year::Year;
use pen::Pen;

/// Writes the figures of a year into a book, under `season.<choice>.house`, `.room.<room>`,
/// `.unit.<unit>` and `.heater.<heater>`.
///
/// # Errors
/// A formula that does not read: a defect of the program.
pub fn explain(input: &Input<'_>, year: &Year, book: &mut Book) -> Result<(), FormulaError> {
    let mut pen = Pen::new(book, year, input.weather);
    if let Some(design) = &year.design {
        let source = if design.typed {
            reckon::Source::job("place.heating_design")
        } else {
            reckon::Source::new("weather", design.from.clone())
        };
        pen.given(
            "design",
            "outdoor temperature designed for",
            design.outdoor_c,
            units::Dim::Temperature,
            source,
        );
    }
    for unit in &year.units {
        unit::write(unit, &mut pen)?;
    }
    heater::write(input, &mut pen)?;
    for room in &year.rooms {
        room::write(room, &mut pen)?;
    }
    house::write(input, &mut pen)?;
    // What is chosen is shown by months and by outdoor temperature; the rest is compared in sums.
    if year.choice == CHOSEN {
        by_time::write(&mut pen)?;
    }
    Ok(())
}
