//! Walks a comma-separated file line by line.

use crate::cells::Row;

/// A place in the file.
pub(crate) struct Cursor<'a> {
    bytes: &'a [u8],
    at: usize,
    /// Line the place is on, counted from 1.
    pub line: usize,
}

impl<'a> Cursor<'a> {
    pub fn new(bytes: &'a [u8]) -> Self {
        Self {
            bytes,
            at: 0,
            line: 1,
        }
    }

    fn peek(&self) -> Option<u8> {
        self.bytes.get(self.at).copied()
    }

    /// Steps over empty lines; false at the end of the file.
    pub fn find_row(&mut self) -> bool {
        loop {
            match self.peek() {
                None => return false,
                Some(b'\n' | b'\r') => self.next_line(),
                Some(b' ' | b'\t') => {
                    let rest = self.bytes.get(self.at..).unwrap_or_default();
                    let blank = rest
                        .iter()
                        .take_while(|b| matches!(b, b' ' | b'\t'))
                        .count();
                    match rest.get(blank) {
                        None => return false,
                        Some(b'\n' | b'\r') => self.next_line(),
                        Some(_) => return true,
                    }
                }
                Some(0x1a) if self.at + 1 == self.bytes.len() => return false,
                Some(_) => return true,
            }
        }
    }

    /// A row to be filled with the cells of this file's lines.
    pub fn row(&self) -> Row<'a> {
        Row::new(self.bytes)
    }

    /// Takes the cells of the line, and steps to the next.
    #[inline]
    pub fn take_row(&mut self, row: &mut Row<'a>) {
        let end = row.take(self.at);
        self.step_from(end);
    }

    /// To the begin of the next line; `\n`, `\r\n` and a lone `\r` all end one.
    pub fn next_line(&mut self) {
        let rest = self.bytes.get(self.at..).unwrap_or_default();
        let end = rest
            .iter()
            .position(|b| *b <= b'\r' && matches!(b, b'\n' | b'\r'))
            .unwrap_or(rest.len());
        self.step_from(self.at + end);
    }

    /// Over the end of a line.
    #[inline]
    fn step_from(&mut self, end: usize) {
        match self.bytes.get(end..) {
            Some([b'\r', b'\n', ..]) => (self.at, self.line) = (end + 2, self.line + 1),
            Some([_, ..]) => (self.at, self.line) = (end + 1, self.line + 1),
            _ => self.at = self.bytes.len(),
        }
    }

    /// The rest of the line as text, the place unmoved.
    pub fn line_text(&self) -> std::borrow::Cow<'a, str> {
        let rest = self.bytes.get(self.at..).unwrap_or_default();
        let end = rest
            .iter()
            .position(|b| *b <= b'\r' && matches!(b, b'\n' | b'\r'))
            .unwrap_or(rest.len());
        String::from_utf8_lossy(&rest[..end])
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cells::Cell;

    #[test]
    fn lines_end_in_three_ways() {
        let mut cursor = Cursor::new(b"1\r\n2\r3\n \t\n\r\n5,6");
        let mut row = cursor.row();
        let mut got = Vec::new();
        while cursor.find_row() {
            let line = cursor.line;
            cursor.take_row(&mut row);
            got.push((line, row.count(), row.cell(0)));
        }
        let want = [(1, 1, 1.0), (2, 1, 2.0), (3, 1, 3.0), (6, 2, 5.0)];
        assert_eq!(got, want.map(|(line, n, x)| (line, n, Cell::Number(x))));
        let mut cursor = Cursor::new(b"a\r\n\xff,c");
        cursor.next_line();
        assert_eq!((cursor.line, &*cursor.line_text()), (2, "\u{fffd},c"));
        cursor.next_line();
        assert!(!cursor.find_row());
    }
}
