//! A good file damaged: as a bad copy, a slip of the hand or somebody hostile would do it. The
//! same seed does the same on every machine.

use std::ops::Range;
use std::time::{Duration, Instant};

use rand_pcg::Pcg64;
use rand_pcg::rand_core::{Rng, SeedableRng};

/// Damaged files stay below what a reader must bear in a test.
const MOST_BYTES: usize = 6_000_000;

const NUMBERS: [&[u8]; 16] = [
    b"0",
    b"-0",
    b"-1",
    b"1e308",
    b"-1e308",
    b"1e400",
    b"1e-320",
    b"nan",
    b"inf",
    b"-inf",
    b"9223372036854775808",
    b"18446744073709551616",
    b"99999999999999999999999999999999999999",
    b"0x7fffffff",
    b"1_000",
    b"4294967295",
];

/// Letters that are two, three or four bytes, no width, right to left, a null, a lone byte.
const LETTERS: [&[u8]; 10] = [
    "\u{e9}".as_bytes(),
    "\u{2212}".as_bytes(),
    "\u{1f3e0}".as_bytes(),
    "\u{200b}".as_bytes(),
    "\u{202e}".as_bytes(),
    "\u{feff}".as_bytes(),
    "\u{fffd}".as_bytes(),
    "\u{212a}\u{130}\u{df}".as_bytes(),
    b"\0",
    b"\xff",
];

/// What opens and never closes, or means something to one of the formats.
const SIGNS: [&[u8]; 14] = [
    b"[", b"{", b"\"", b"\"\"\"", b"'", b"]", b"}", b"<", b"<!--", b"&", b",", b";", b" = ", b"\r",
];

/// Seeds of this run: one in `one_in` of the count that is asked for, 3 at least.
pub fn seeds(one_in: u64) -> Range<u64> {
    let asked = |name: &str, usual: u64| {
        let said = std::env::var(name).ok();
        said.and_then(|v| v.parse().ok()).unwrap_or(usual)
    };
    let from = asked("NORTHWALL_DAMAGED_FROM", 0);
    from..from + (asked("NORTHWALL_DAMAGED", 120) / one_in).max(3)
}

/// What came of the damaged files of a kind, for the table.
pub struct Tally {
    kind: String,
    many: u64,
    through: u64,
    slowest: (Duration, u64),
    begun: Instant,
}

impl Tally {
    pub fn new(kind: &str, seeds: &Range<u64>) -> Self {
        Self {
            kind: kind.to_owned(),
            many: seeds.end - seeds.start,
            through: 0,
            slowest: (Duration::ZERO, 0),
            begun: Instant::now(),
        }
    }

    /// The reader begins with a file.
    pub fn begin(&mut self) {
        self.begun = Instant::now();
    }

    /// It is done with the file of this seed: let through, or refused.
    pub fn done(&mut self, seed: u64, through: bool) {
        self.slowest = self.slowest.max((self.begun.elapsed(), seed));
        self.through += u64::from(through);
    }

    /// Prints its row.
    pub fn row(self) {
        let (ms, seed) = (self.slowest.0.as_secs_f64() * 1e3, self.slowest.1);
        println!(
            "row;{};{};{};{ms:.0};{seed}",
            self.kind, self.many, self.through
        );
    }
}

pub struct Damage(Pcg64);

impl Damage {
    pub fn new(seed: u64) -> Self {
        Self(Pcg64::seed_from_u64(seed))
    }

    pub fn below(&mut self, n: usize) -> usize {
        (self.0.next_u64() % n.max(1) as u64) as usize
    }

    fn one(&mut self, of: &[&'static [u8]]) -> &'static [u8] {
        let at = self.below(of.len());
        of.get(at).copied().unwrap_or_default()
    }

    /// One to six things done to a file.
    pub fn done_to(&mut self, good: &[u8]) -> Vec<u8> {
        let mut bytes = good.to_vec();
        for _ in 0..=self.below(6) {
            bytes = self.once(bytes);
            bytes.truncate(MOST_BYTES);
        }
        bytes
    }

    fn once(&mut self, bytes: Vec<u8>) -> Vec<u8> {
        match self.below(14) {
            0..=3 => self.number(bytes),
            4 | 5 => self.lines(&bytes),
            6 => self.put(&bytes, LETTERS.as_slice(), 1),
            7 => self.put(&bytes, SIGNS.as_slice(), 1),
            8 => {
                // Deep nesting, or one very long word.
                let times = [100, 3000, 40_000][self.below(3)];
                self.put(&bytes, SIGNS.as_slice(), times)
            }
            9 => {
                let mut bytes = bytes;
                let cut = self.below(bytes.len() + 1);
                bytes.truncate(cut);
                bytes
            }
            10 => {
                let mut bytes = bytes;
                let at = self.below(bytes.len());
                let with = self.below(256) as u8;
                if let Some(b) = bytes.get_mut(at) {
                    *b = with;
                }
                bytes
            }
            11 => {
                // A piece of it again elsewhere.
                let from = self.below(bytes.len());
                let long = self.below(400).min(bytes.len() - from.min(bytes.len()));
                let piece: Vec<u8> = bytes.iter().skip(from).take(long).copied().collect();
                let to = self.below(bytes.len() + 1);
                spliced(&bytes, to, to, &piece)
            }
            12 => {
                let from = self.below(bytes.len());
                let to = (from + self.below(200)).min(bytes.len());
                spliced(&bytes, from.min(to), to, &[])
            }
            _ => {
                let swap: (u8, &[u8]) = [
                    (b'\n', b"\r\n".as_slice()),
                    (b'\n', b"\r"),
                    (b',', b";"),
                    (b'.', b","),
                    (b' ', b"\t"),
                ][self.below(5)];
                bytes
                    .iter()
                    .flat_map(|b| {
                        if *b == swap.0 {
                            swap.1.to_vec()
                        } else {
                            vec![*b]
                        }
                    })
                    .collect()
            }
        }
    }

    /// Another number in place of one.
    fn number(&mut self, bytes: Vec<u8>) -> Vec<u8> {
        let start = self.below(bytes.len());
        let Some(from) = (start..bytes.len()).find(|i| bytes[*i].is_ascii_digit()) else {
            return bytes;
        };
        let of_number = |b: &u8| b.is_ascii_digit() || *b == b'.';
        let long = bytes[from..].iter().take_while(|b| of_number(b)).count();
        let with = self.one(&NUMBERS);
        spliced(&bytes, from, from + long, with)
    }

    /// A line out, twice, many times, or in another place.
    fn lines(&mut self, bytes: &[u8]) -> Vec<u8> {
        let mut lines: Vec<&[u8]> = bytes.split(|b| *b == b'\n').collect();
        let (a, b) = (self.below(lines.len()), self.below(lines.len()));
        match self.below(5) {
            0 => {
                lines.remove(a);
            }
            1 => lines.swap(a, b),
            2 => lines.insert(b, lines[a]),
            3 => {
                // A block of lines many times over.
                let block: Vec<&[u8]> = lines.iter().skip(a).take(12).copied().collect();
                for _ in 0..[2, 30, 600][self.below(3)] {
                    lines.splice(a..a, block.iter().copied());
                }
            }
            _ => {
                lines.drain(a.min(b)..a.max(b));
            }
        }
        lines.join(&b'\n')
    }

    fn put(&mut self, bytes: &[u8], what: &[&'static [u8]], times: usize) -> Vec<u8> {
        let at = self.below(bytes.len() + 1);
        let what = self.one(what).repeat(times);
        spliced(bytes, at, at, &what)
    }
}

fn spliced(bytes: &[u8], from: usize, to: usize, with: &[u8]) -> Vec<u8> {
    let head = bytes.get(..from).unwrap_or(bytes);
    let rest = bytes.get(to..).unwrap_or_default();
    [head, with, rest].concat()
}
