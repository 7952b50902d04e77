//! Which line of the feed a place is on.

/// Lines of places in the text, asked for in rising order.
pub(super) struct Lines<'a> {
    pub text: &'a [u8],
    pub at: usize,
    pub line: usize,
}

impl Lines<'_> {
    /// Line of a place.
    pub fn of(&mut self, place: usize) -> usize {
        let upto = place.min(self.text.len());
        if let Some(part) = self.text.get(self.at..upto) {
            self.line += part.split(|b| *b == b'\n').count() - 1;
            self.at = upto;
        }
        self.line
    }
}

impl Default for Lines<'_> {
    fn default() -> Self {
        Self {
            text: &[],
            at: 0,
            line: 1,
        }
    }
}
