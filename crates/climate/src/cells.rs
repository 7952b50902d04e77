//! The cells of one row, found all at once, and the numbers in them.
//!
//! To look for the end of one cell after the other makes each wait for the one before. So the commas
//! of sixty-four bytes are found together, as bits of a word, and every cell knows its own place.

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

/// The cells of one row.
pub(crate) struct Row<'a> {
    bytes: &'a [u8],
    /// Where each cell begins, and one past the end of the last; only the first `count` and the one
    /// after them are of this row.
    begins: Vec<usize>,
    count: usize,
}

/// Bytes that are searched together.
const BLOCK: usize = 64;
/// Nearly no block has more cells than this.
const USUAL: usize = 16;

impl<'a> Row<'a> {
    /// No cells yet.
    pub fn new(bytes: &'a [u8]) -> Self {
        Self {
            bytes,
            begins: vec![0; 2 * BLOCK],
            count: 0,
        }
    }

    /// Takes in the cells of the line that begins at `begin`; tells where the line ends.
    pub fn take(&mut self, begin: usize) -> usize {
        self.count = 0;
        if let Some(first) = self.begins.first_mut() {
            *first = begin;
        }
        let mut at = begin;
        loop {
            let rest = self.bytes.get(at..).unwrap_or_default();
            let (commas, ends) = if let Some(block) = rest.first_chunk() {
                marks(block)
            } else {
                // The end of the file is the end of its last line.
                let mut block = [b'\n'; BLOCK];
                for (to, from) in block.iter_mut().zip(rest) {
                    *to = *from;
                }
                marks(&block)
            };
            if ends == 0 {
                self.put(at, commas);
                at += BLOCK;
                continue;
            }
            let end = ends.trailing_zeros();
            // The last cell ends with the line.
            self.put(at, commas & ((1 << end) - 1) | 1 << end);
            return at + end as usize;
        }
    }

    /// Writes down the cells that end at these bits: the next begins behind each.
    #[inline]
    fn put(&mut self, at: usize, mut bits: u64) {
        if self.begins.len() < self.count + 1 + BLOCK {
            self.begins.resize(2 * self.begins.len(), 0);
        }
        let next = at + 1;
        let Some(room) = self
            .begins
            .get_mut(self.count + 1..)
            .and_then(|r| r.first_chunk_mut::<BLOCK>())
        else {
            return;
        };
        self.count += bits.count_ones() as usize;
        // A loop that always turns as often does not make the processor guess.
        for begin in &mut room[..USUAL] {
            *begin = next + bits.trailing_zeros() as usize;
            bits &= bits.wrapping_sub(1);
        }
        for begin in &mut room[USUAL..] {
            if bits == 0 {
                break;
            }
            *begin = next + bits.trailing_zeros() as usize;
            bits &= bits.wrapping_sub(1);
        }
    }

    /// How many cells there are.
    pub fn count(&self) -> usize {
        self.count
    }

    /// Begin and end of a cell.
    #[inline]
    fn place(&self, k: usize) -> Option<(usize, usize)> {
        let [begin, next] = self.begins.get(k..)?.first_chunk()?;
        (k < self.count).then(|| (*begin, next - 1))
    }

    /// A cell's bytes.
    pub fn raw(&self, k: usize) -> Option<&'a [u8]> {
        let (begin, end) = self.place(k)?;
        self.bytes.get(begin..end)
    }

    /// A cell.
    #[inline]
    pub fn cell(&self, k: usize) -> Cell<'a> {
        match self.number(k) {
            Some(value) => Cell::Number(value),
            None => self.raw(k).map_or(Cell::Absent, read_cell),
        }
    }

    /// A cell of up to eight bytes that holds a plain number, as nearly every one does.
    #[inline]
    pub fn number(&self, k: usize) -> Option<f64> {
        let (begin, end) = self.place(k)?;
        let word = self.bytes.get(end.checked_sub(8)?..)?.first_chunk()?;
        plain_number(u64::from_le_bytes(*word), end - begin)
    }
}

/// The high bit of every byte of the word that is `byte`, exactly.
#[inline]
fn places_of(word: u64, byte: u8) -> u64 {
    const LOW: u64 = 0x7f7f_7f7f_7f7f_7f7f;
    let x = word ^ (0x0101_0101_0101_0101 * u64::from(byte));
    !(((x & LOW) + LOW) | x | LOW)
}

/// A bit for every comma and for every end of a line.
#[inline]
fn marks(block: &[u8; BLOCK]) -> (u64, u64) {
    const HIGH: u64 = 0x8080_8080_8080_8080;
    const TO_HIGH: u64 = 0x7272_7272_7272_7272;
    let words = block.as_chunks::<8>().0;
    // The high bits of eight bytes, side by side.
    let together = |places: u64| (places >> 7).wrapping_mul(0x0102_0408_1020_4080) >> 56;
    let (mut commas, mut low) = (0, 0);
    for (k, word) in words.iter().enumerate() {
        let word = u64::from_le_bytes(*word);
        commas |= together(places_of(word, b',')) << (8 * k);
        // Bytes below 14, the ends of lines among them; most blocks have none.
        low |= !(((word & !HIGH) + TO_HIGH) | word) & HIGH;
    }
    let mut ends = 0;
    if low != 0 {
        for (k, word) in words.iter().enumerate() {
            let word = u64::from_le_bytes(*word);
            let here = places_of(word, b'\n') | places_of(word, b'\r');
            ends |= together(here) << (8 * k);
        }
    }
    (commas, ends)
}

/// Powers of ten, each exact.
const TENS: [f64; 8] = [1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7];

/// A number in the last `length` of these eight bytes: digits with at most one point, a minus before
/// them or not. All are read at once, for a loop whose turns differ from cell to cell makes the
/// processor guess wrongly. The digits are a whole number, and it and its power of ten are exact, so
/// one division rounds rightly. None for anything else, which may yet be a number.
#[inline]
fn plain_number(word: u64, length: usize) -> Option<f64> {
    const ZEROS: u64 = 0x3030_3030_3030_3030;
    const HIGH: u64 = 0xf0f0_f0f0_f0f0_f0f0;
    if length == 0 || length > 8 {
        return None;
    }
    // Bits, not bytes, from here on.
    let before = 64 - 8 * length as u32;
    let negative = (word >> before) & 0xff == u64::from(b'-');
    let before = before + if negative { 8 } else { 0 };
    // Zeros before the digits.
    let keep = u64::MAX.checked_shl(before).unwrap_or(0);
    let word = (word & keep) | (ZEROS & !keep);
    // What stands before the point moves to where it stood.
    let point = places_of(word, b'.').trailing_zeros() & !7;
    let some = point < 64;
    let lead = (1_u64.checked_shl(point).unwrap_or(0)).wrapping_sub(1);
    let (after, decimals) = if some {
        (u64::MAX.checked_shl(point + 8).unwrap_or(0), 7 - point / 8)
    } else {
        (0, 0)
    };
    let shift = if some { 8 } else { 0 };
    let digits = (word & after) | ((word & lead) << shift) | if some { 0x30 } else { 0 };
    // A sign or a point alone is no number.
    let all = digits & HIGH == ZEROS && digits.wrapping_add(0x0606_0606_0606_0606) & HIGH == ZEROS;
    if !all || before + shift >= 64 {
        return None;
    }
    // Pairs, then fours, then all eight.
    let ones = digits ^ ZEROS;
    let pairs = (ones.wrapping_mul(10 * 256 + 1) >> 8) & 0x00ff_00ff_00ff_00ff;
    let fours = (pairs.wrapping_mul(100 * 65_536 + 1) >> 16) & 0x0000_ffff_0000_ffff;
    let whole = fours.wrapping_mul(10_000 * (1 << 32) + 1) >> 32;
    let value = whole as f64 / TENS.get(decimals as usize)?;
    Some(if negative { -value } else { value })
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

    fn cells(text: &[u8]) -> Vec<Cell<'_>> {
        let mut row = Row::new(text);
        row.take(0);
        (0..=row.count()).map(|k| row.cell(k)).collect()
    }

    #[test]
    fn reads_cells_of_all_kinds() {
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
        assert_eq!(cells(b"1,-2.50,, x,1e3, 7 ,nan\r\n9\r8"), want);
        assert_eq!(cells(b""), [Cell::Empty, Cell::Absent]);
        assert_eq!(cells(b","), [Cell::Empty, Cell::Empty, Cell::Absent]);
    }

    /// Rows of every length round two blocks, with as many cells as can be and with one, with control
    /// characters that end no line, followed by another line and by nothing.
    #[test]
    fn a_row_is_split_as_the_library_splits_it() {
        for fill in [
            "7,",
            "\t\u{c},",
            "some words that are long,",
            "\u{ac}\u{8d}",
        ] {
            for length in 0..300 {
                let line: String = fill.chars().cycle().take(length).collect();
                for behind in ["", "\n", "\r\n8,8", "\r8"] {
                    let text = format!("#\n{line}{behind}");
                    let mut row = Row::new(text.as_bytes());
                    assert_eq!(row.take(2), 2 + line.len(), "{text:?}");
                    let got: Vec<_> = (0..row.count()).filter_map(|k| row.raw(k)).collect();
                    let want: Vec<_> = line.split(',').map(str::as_bytes).collect();
                    assert_eq!(got, want, "{text:?}");
                    assert_eq!(row.raw(row.count()), None);
                }
            }
        }
    }

    /// Every way to put five of these together is read as the careful way reads it.
    #[test]
    fn the_short_way_and_the_careful_way_agree() {
        let kinds = b"0379.-+e, \n";
        let mut numbers = 0;
        for n in 0..kinds.len().pow(5) {
            let mut bytes = *b"8,.?????";
            let mut rest = n;
            for byte in &mut bytes[3..] {
                *byte = kinds[rest % kinds.len()];
                rest /= kinds.len();
            }
            let word = u64::from_le_bytes(bytes);
            for length in 1..=5 {
                let cell = &bytes[8 - length..];
                let quick = plain_number(word, length);
                match read_cell(cell) {
                    Cell::Number(value) if quick.is_some() => {
                        assert_eq!(quick.map(f64::to_bits), Some(value.to_bits()));
                        numbers += 1;
                    }
                    careful => assert_eq!(quick, None, "{careful:?} {}", shown(cell)),
                }
            }
        }
        assert!(numbers > 50_000, "{numbers}");
    }

    #[test]
    fn numbers_are_the_nearest_ones() {
        for text in [
            "0.1",
            "-44.4",
            "123456789.123456",
            "0.000001",
            "99999999",
            "-9999999",
            "99999",
            "17.025",
            ".5",
            "5.",
            "-0.05",
            "-0",
            "1234567",
            "-999.25",
        ] {
            let value: f64 = text.parse().expect("a number");
            // Alone, after others, and with the end of the file, of the line, and of the cell behind it.
            for before in ["", "1,2,3,4,5,", "long words before it,"] {
                for behind in ["", "\n", ",", ",1,2,3,4,5,6,7,8"] {
                    let line = format!("{before}{text}{behind}");
                    let got = cells(line.as_bytes());
                    assert!(got.contains(&Cell::Number(value)), "{line:?} {got:?}");
                }
            }
        }
    }
}
