//! The year as a field of hours in a column for a phone.

use season::Year;
use units::System;

use super::column::{LEFT, RIGHT, page, words};
use super::field::{Frame, HOUR, painted, swatch};
use crate::Plan;

/// As [`super::year`], in a column.
pub fn year_column(plan: &Plan, year: Option<&Year>, system: System) -> Option<String> {
    let frame = Frame {
        left: 52.0,
        top: 64.0,
        day: 0.8,
    };
    let field = painted(plan, year, frame, system)?;
    let mut out = String::new();
    words(&mut out, (LEFT, 26.0), "bold", RIGHT - LEFT, field.title);
    out.push_str(&field.body);
    let mut y = frame.top + 24.0 * HOUR + 44.0;
    for (class, says) in &field.legend {
        swatch(&mut out, class, LEFT, y - 10.0);
        y = words(
            &mut out,
            (LEFT + 20.0, y),
            "small",
            RIGHT - LEFT - 20.0,
            says,
        ) + 3.0;
    }
    Some(page(y, field.title, &field.cells, &out))
}
