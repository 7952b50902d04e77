//! The pace of an iteration.

/// How far an iteration goes towards what it asks for: all the way, less and less where that makes
/// it swing. The air through a door grows faster than the difference that drives it, so on an odd
/// hour the full move would run away.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pace {
    /// Share of the move to take.
    pub step: f64,
    last: f64,
}

impl Pace {
    pub fn new() -> Self {
        Self {
            step: 1.0,
            last: f64::INFINITY,
        }
    }

    /// Takes in how far the last solution moved.
    pub fn take(&mut self, moved: f64) {
        if moved > 0.7 * self.last {
            self.step = (0.5 * self.step).max(0.02);
        } else if moved < 0.3 * self.last {
            self.step = (1.5 * self.step).min(1.0);
        }
        self.last = moved;
    }
}
