//! A hold whose length the clocks leave in doubt.

use reckon::Verdict;

use super::judge::{VacuumAnswer, judge};
use super::{VacuumReading, VacuumTest};
use crate::stamp::span;
use crate::wrong::Wrong;

/// Judges by the times of the readings. Where another clock makes the hold shorter than the sheet
/// asks, it does not hold yet.
///
/// # Errors
/// As [`judge`].
pub fn judge_either(
    test: &VacuumTest,
    readings: &[VacuumReading],
    other_s: Option<&[f64]>,
) -> Result<VacuumAnswer, Wrong> {
    let mut answer = judge(test, readings)?;
    let shorter = other_s.and_then(|t| Some(t.last()? - t.first()?));
    if let Some(length_s) = shorter.filter(|s| *s < test.criterion.hold_s)
        && answer.verdict == Verdict::Holds
    {
        answer.verdict = Verdict::CannotTell;
        answer.says = format!(
            "By the shorter of two clocks only {} of {} are over.",
            span(length_s),
            span(test.criterion.hold_s)
        );
        answer.would_tell = format!(
            "Read on for {}, and leave clock and lid alone.",
            span(test.criterion.hold_s - length_s)
        );
    }
    Ok(answer)
}
