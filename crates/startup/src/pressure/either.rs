//! A verdict when the clocks leave a doubt about how long the test was.

use reckon::Verdict;

use super::judge::{PressureAnswer, judge};
use super::{PressureReading, PressureTest};
use crate::wrong::Wrong;

/// Judges by the times of the readings and, where there are others, by those too. Where the two
/// differ there is no verdict; where they agree, the answer is the one that promises less.
///
/// # Errors
/// As [`judge`]; other times that are not one for each reading.
pub fn judge_either(
    test: &PressureTest,
    readings: &[PressureReading],
    other_s: Option<&[f64]>,
) -> Result<PressureAnswer, Wrong> {
    let wall = judge(test, readings)?;
    let Some(other) = other_s else {
        return Ok(wall);
    };
    if other.len() != readings.len() {
        return Err(Wrong::new(
            "times by the other clock",
            format!("{}", other.len()),
            format!("{}, one for each reading", readings.len()),
        ));
    }
    let moved: Vec<PressureReading> = readings
        .iter()
        .zip(other)
        .map(|(r, at_s)| PressureReading { at_s: *at_s, ..*r })
        .collect();
    let mut short = match judge(test, &moved) {
        Ok(answer) => answer,
        // too short by the other clock to be judged at all
        Err(e) => {
            let mut none = wall;
            none.verdict = Verdict::CannotTell;
            none.says = format!("By the shorter of two clocks the test is too short: {e}");
            "Read on, and leave clock and lid alone.".clone_into(&mut none.would_tell);
            return Ok(none);
        }
    };
    if wall.verdict == short.verdict {
        return Ok(if wall.visible_g_per_year > short.visible_g_per_year {
            wall
        } else {
            short
        });
    }
    short.says = format!(
        "By the clock on the wall it {}, by the shorter time {}: how long the test was is not known.",
        wall.verdict.words(),
        short.verdict.words()
    );
    "Read on for as long again, and leave clock and lid alone.".clone_into(&mut short.would_tell);
    short.verdict = Verdict::CannotTell;
    Ok(short)
}
