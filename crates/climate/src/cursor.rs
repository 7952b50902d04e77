//! Walks a comma-separated file once, byte by byte, without making anything on the way.

/// One cell of a row.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Cell<'a> {
    /// A finite number.
    Number(f64),
    /// Nothing but blanks.
    Empty,
    /// Anything else, `nan` and `inf` among them.
    Text(&'a [u8]),
    /// The row ended before this cell.
    Absent,
}

/// A place in the file.
pub(crate) struct Cursor<'a> {
    bytes: &'a [u8],
    at: usize,
    /// Line the place is on, counted from 1.
    pub line: usize,
    /// No further cell on this line.
    ended: bool,
}

/// Powers of ten that f64 holds exactly, as far as needed.
const TENS: [f64; 16] = [
    1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15,
];

/// The high bit of every byte of the word that is `byte`, exactly.
#[inline]
fn places_of(word: u64, byte: u8) -> u64 {
    const LOW: u64 = 0x7f7f_7f7f_7f7f_7f7f;
    let x = word ^ (0x0101_0101_0101_0101 * u64::from(byte));
    !(((x & LOW) + LOW) | x | LOW)
}

#[inline]
fn line_end(word: u64) -> u64 {
    places_of(word, b'\n') | places_of(word, b'\r')
}

/// A number with its comma in the next eight bytes, and its length; nearly every cell of a weather
/// file is one. All eight are read at once, for a loop whose turns differ from cell to cell makes
/// the processor guess wrongly. None where it is anything else.
#[inline]
fn short_number(bytes: [u8; 8]) -> Option<(f64, usize)> {
    const ZEROS: u64 = 0x3030_3030_3030_3030;
    const HIGH: u64 = 0xf0f0_f0f0_f0f0_f0f0;
    let word = u64::from_le_bytes(bytes);
    // Bits, not bytes, from here on: places are multiples of eight.
    let length = places_of(word, b',').trailing_zeros() & !7;
    let negative = word & 0xff == u64::from(b'-');
    let sign = if negative { 8 } else { 0 };
    if length >= 64 || length <= sign {
        return None;
    }
    let (word, end) = (word >> sign, length - sign);
    let point = (places_of(word, b'.').trailing_zeros() & !7).min(end);
    let (before, decimals) = (word & ((1 << point) - 1), (end - point).saturating_sub(8));
    let after = if decimals > 0 {
        (word >> 8) & (u64::MAX << point)
    } else {
        0
    };
    let count = point + decimals;
    if count == 0 {
        return None;
    }
    // The digits at the end of the word, zeros before them.
    let digits = (before | after) << (64 - count) | (ZEROS.checked_shr(count).unwrap_or(0));
    let all = digits & HIGH == ZEROS && digits.wrapping_add(0x0606_0606_0606_0606) & HIGH == ZEROS;
    if !all {
        return None;
    }
    // Pairs, then fours, then all eight.
    let ones = digits ^ ZEROS;
    let pairs = (ones.wrapping_mul(10 * 256 + 1) >> 8) & 0x00ff_00ff_00ff_00ff;
    let fours = (pairs.wrapping_mul(100 * 65_536 + 1) >> 16) & 0x0000_ffff_0000_ffff;
    let whole = fours.wrapping_mul(10_000 * (1 << 32) + 1) >> 32;
    let value = whole as f64 / TENS.get(decimals as usize / 8)?;
    Some((if negative { -value } else { value }, length as usize / 8))
}

/// One comparison settles digits, letters and points, which all lie above the comma.
#[inline]
fn ends_cell(byte: u8) -> bool {
    byte <= b',' && matches!(byte, b',' | b'\n' | b'\r')
}

impl<'a> Cursor<'a> {
    pub fn new(bytes: &'a [u8]) -> Self {
        Self {
            bytes,
            at: 0,
            line: 1,
            ended: false,
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

    /// To the begin of the next line; `\n`, `\r\n` and a lone `\r` all end one.
    pub fn next_line(&mut self) {
        let rest = self.bytes.get(self.at..).unwrap_or_default();
        let plain = |w: &&[u8; 8]| line_end(u64::from_le_bytes(**w)) == 0;
        let passed = 8 * rest.as_chunks::<8>().0.iter().take_while(plain).count();
        let tail = rest.get(passed..).unwrap_or_default();
        match tail.iter().position(|b| matches!(b, b'\n' | b'\r')) {
            None => self.at = self.bytes.len(),
            Some(n) => {
                let pair = tail.get(n..n + 2) == Some(b"\r\n");
                self.at += passed + n + if pair { 2 } else { 1 };
                self.line += 1;
            }
        }
        self.ended = false;
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

    /// Cells of the line the place is on.
    pub fn cells_of_line(&self) -> usize {
        let ends = |b: &u8| matches!(b, b'\n' | b'\r');
        let before = self.bytes.get(..self.at).unwrap_or_default();
        let begin = before.iter().rposition(ends).map_or(0, |n| n + 1);
        let line = self.bytes.get(begin..).unwrap_or_default();
        1 + line
            .iter()
            .take_while(|b| !ends(b))
            .filter(|b| **b == b',')
            .count()
    }

    fn after_cell(&mut self) {
        if self.peek() == Some(b',') {
            self.at += 1;
        } else {
            self.ended = true;
        }
    }

    /// The next cell's bytes.
    pub fn raw(&mut self) -> Option<&'a [u8]> {
        if self.ended {
            return None;
        }
        let rest = self.bytes.get(self.at..).unwrap_or_default();
        let end = rest
            .iter()
            .position(|&b| ends_cell(b))
            .unwrap_or(rest.len());
        self.at += end;
        self.after_cell();
        rest.get(..end)
    }

    /// Steps over so many cells, eight bytes at a time.
    pub fn skip(&mut self, cells: usize) {
        if self.ended || cells == 0 {
            return;
        }
        let rest = self.bytes.get(self.at..).unwrap_or_default();
        let mut left = cells;
        let mut passed = 0;
        for word in rest.as_chunks::<8>().0 {
            let word = u64::from_le_bytes(*word);
            let commas = places_of(word, b',');
            let here = commas.count_ones() as usize;
            if line_end(word) != 0 {
                break;
            }
            if here >= left {
                let nth = (1..left).fold(commas, |m, _| m & (m - 1));
                self.at += passed + nth.trailing_zeros() as usize / 8 + 1;
                return;
            }
            left -= here;
            passed += 8;
        }
        self.at += passed;
        for _ in 0..left {
            if self.raw().is_none() {
                return;
            }
        }
    }

    /// The next cell.
    #[inline]
    pub fn cell(&mut self) -> Cell<'a> {
        if self.ended {
            return Cell::Absent;
        }
        if let Some(value) = self.plain_number() {
            return Cell::Number(value);
        }
        self.raw().map_or(Cell::Absent, read_cell)
    }

    /// Digits with at most one point, up to 15 of them: such a whole number and its power of
    /// ten are exact in f64, so one division rounds rightly. For anything else the place stays.
    #[inline]
    pub fn plain_number(&mut self) -> Option<f64> {
        if self.ended {
            return None;
        }
        let rest = self.bytes.get(self.at..)?;
        if let Some((value, length)) = rest.first_chunk().and_then(|w| short_number(*w)) {
            self.at += length + 1;
            return Some(value);
        }
        let negative = rest.first() == Some(&b'-');
        let digits = if negative { rest.get(1..)? } else { rest };
        let (mut whole, mut point, mut end) = (0u64, usize::MAX, digits.len());
        for (n, &b) in digits.iter().enumerate() {
            let digit = b.wrapping_sub(b'0');
            if digit < 10 {
                whole = whole.wrapping_mul(10).wrapping_add(u64::from(digit));
            } else if b == b'.' && point == usize::MAX {
                point = n;
            } else if ends_cell(b) {
                end = n;
                break;
            } else {
                return None;
            }
        }
        let (count, decimals) = if point == usize::MAX {
            (end, 0)
        } else {
            (end - 1, end - 1 - point)
        };
        if count == 0 || count > 15 {
            return None;
        }
        self.at += end + usize::from(negative);
        self.after_cell();
        let value = if decimals == 0 {
            whole as f64
        } else {
            whole as f64 / TENS.get(decimals)?
        };
        Some(if negative { -value } else { value })
    }
}

/// A cell's bytes as number, blank or text.
pub(crate) fn read_cell(bytes: &[u8]) -> Cell<'_> {
    let trimmed = bytes.trim_ascii();
    if trimmed.is_empty() {
        return Cell::Empty;
    }
    let digits = trimmed
        .iter()
        .all(|b| matches!(b, b'0'..=b'9' | b'.' | b'-' | b'+' | b'e' | b'E'));
    let number = std::str::from_utf8(trimmed)
        .ok()
        .filter(|_| digits)
        .and_then(|t| t.parse().ok());
    match number {
        Some(value) if f64::is_finite(value) => Cell::Number(value),
        _ => Cell::Text(trimmed),
    }
}

/// What to print of a cell in a message: at most 40 characters, control characters shown.
pub(crate) fn shown(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes)
        .chars()
        .take(40)
        .flat_map(char::escape_debug)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_cells_of_all_kinds() {
        let mut c = Cursor::new(b"1,-2.50,, x,1e3, 7 ,nan\r\n9\r8");
        let want = [
            Cell::Number(1.0),
            Cell::Number(-2.5),
            Cell::Empty,
            Cell::Text(b"x"),
            Cell::Number(1000.0),
            Cell::Number(7.0),
            Cell::Text(b"nan"),
            Cell::Absent,
        ];
        for w in want {
            assert_eq!(c.cell(), w);
        }
        c.next_line();
        assert_eq!((c.line, c.cell()), (2, Cell::Number(9.0)));
        c.next_line();
        assert_eq!((c.line, c.cell()), (3, Cell::Number(8.0)));
    }

    #[test]
    fn stepping_over_cells_stops_at_the_line() {
        let text = b"aaaaaaaaaaaaaaaaaaaaa,b,,,1\r\n2,3,4\n";
        let mut c = Cursor::new(text);
        c.skip(4);
        assert_eq!(c.cell(), Cell::Number(1.0));
        let mut c = Cursor::new(text);
        c.skip(40);
        assert_eq!(c.cell(), Cell::Absent);
        c.next_line();
        c.skip(2);
        assert_eq!(
            (c.line, c.cell(), c.cell()),
            (2, Cell::Number(4.0), Cell::Absent)
        );
    }

    /// Every way to put five of these together is read as the careful way reads it.
    #[test]
    fn the_short_way_and_the_careful_way_agree() {
        let kinds = b"0379.-+e, \n";
        let mut numbers = 0;
        for n in 0..kinds.len().pow(5) {
            let mut bytes = *b"?????,,,";
            let mut rest = n;
            for byte in &mut bytes[..5] {
                *byte = kinds[rest % kinds.len()];
                rest /= kinds.len();
            }
            let Some((value, length)) = short_number(bytes) else {
                continue;
            };
            numbers += 1;
            let cell = &bytes[..length];
            assert_eq!(bytes[length], b',');
            assert_eq!(read_cell(cell), Cell::Number(value), "{:?}", shown(&bytes));
        }
        assert!(numbers > 10_000, "{numbers}");
    }

    #[test]
    fn quick_numbers_are_the_nearest_ones() {
        for text in [
            "0.1",
            "-44.4",
            "123456789.123456",
            "0.000001",
            "99999",
            "17.025",
            ".5",
            "5.",
            "-0.05",
            "1234567",
            "-999.25",
        ] {
            let want = Cell::Number(text.parse().expect("a number"));
            // With the end of the file, of the line, and of the cell behind it.
            for behind in ["", "\n", ",", ",1,2,3,4,5,6,7,8"] {
                let line = format!("{text}{behind}");
                assert_eq!(Cursor::new(line.as_bytes()).cell(), want, "{line:?}");
            }
        }
    }
}
