//! The running clock of the guided mode.

use startup::clock::place;
use startup::stamp::span;

use super::{Desk, Guide, of, placed};
use crate::day::record::Book;
use crate::refusal::Refusal;

impl Guide<'_> {
    /// How long the step or the test has run, for the line above the prompt.
    pub(super) fn clock(
        &self,
        book: &Book,
        name: &str,
        whole_s: Option<f64>,
        since_s: f64,
        desk: &mut Desk<'_>,
    ) -> Result<String, Refusal> {
        let kept = placed(&of(book, &self.kind(), name));
        let now = (desk.tick)()?;
        let (Some(first), Some(last)) = (kept.first(), kept.last()) else {
            let done = self.done(book, name);
            let held_s = now.running_s - since_s;
            let hold_s = self.steps.get(done).map_or(0.0, |s| s.hold_s);
            let left = if hold_s > held_s {
                format!(", {} to go", span(hold_s - held_s))
            } else {
                String::new()
            };
            return Ok(format!("[step {}: {}{left}]", done + 1, span(held_s)));
        };
        let run =
            last.at_s - first.at_s + place(Some(last), now).map_or(0.0, |p| p.0.at_s - last.at_s);
        let left = whole_s.map_or(String::new(), |w| {
            if w > run {
                format!(", {} to go", span(w - run))
            } else {
                ", long enough".to_owned()
            }
        });
        let since = place(Some(last), now).map_or(0.0, |p| p.0.at_s - last.at_s);
        Ok(format!(
            "[{}{left}; last reading {} ago]",
            span(run),
            span(since)
        ))
    }
}
