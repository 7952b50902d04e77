//! What the geometry of the house objects to, brought back to the lines of the file.

use crate::tables::Desk;
use crate::{Job, Problem, Span};

/// Builds the house once; what cannot be built is a problem of the file.
pub(crate) fn problems(job: &Job, desk: &Desk) -> Vec<Problem> {
    let Err(errors) = house::geometry::model(&job.house) else {
        return Vec::new();
    };
    errors
        .into_iter()
        .map(|error| {
            let path = path_of(&error.place, desk);
            let top = Span {
                line: 1,
                column: 1,
                ..Span::default()
            };
            Problem {
                span: job.places.of(&path).unwrap_or(top),
                path,
                says: error.what,
                got: error.got,
                allowed: error.allowed,
                mend: error.mend,
            }
        })
        .collect()
}

/// The path in the file of a place of the geometry, which counts windows and doors and knows
/// nothing of tables.
fn path_of(place: &str, desk: &Desk) -> String {
    match place {
        "plan_north" => return "place.plan_north".to_owned(),
        "ground_albedo" => return "place.ground_reflects".to_owned(),
        "furnishing" => return "house.furnishing".to_owned(),
        _ => {}
    }
    let place = place.replace(".layer.", ".layers.");
    if let Some(of) = place.strip_prefix("surface.") {
        return format!("room.{of}");
    }
    let mut parts = place.splitn(3, '.');
    let (family, number, rest) = (parts.next(), parts.next(), parts.next());
    let numbered = format!("{}.{}", family.unwrap_or(""), number.unwrap_or(""));
    let Some((_, path)) = desk.numbered.iter().find(|(n, _)| *n == numbered) else {
        return place;
    };
    match rest {
        Some(rest) => format!("{path}.{rest}"),
        None => path.clone(),
    }
}
