//! Numbers eight by eight. Every hourly pass works on eight faces, walls or zones at once; what is
//! left over of a zone or a list is filled with faces that have no area. The order of every sum is
//! the same on every processor.

use core::ops::{Deref, DerefMut};

use super::arithmetic::{Arithmetic, Eight};

/// How many lie side by side.
pub(super) const SIDE: usize = 8;

/// Eight numbers.
pub(super) type Oct = [f64; SIDE];

/// Eight, one by one.
#[inline(always)]
pub(super) fn each(of: impl Fn(usize) -> f64) -> Oct {
    [of(0), of(1), of(2), of(3), of(4), of(5), of(6), of(7)]
}

/// The eight added up, halves first.
#[inline(always)]
pub(super) fn sum(q: Oct) -> f64 {
    let four = [q[0] + q[4], q[1] + q[5], q[2] + q[6], q[3] + q[7]];
    (four[0] + four[2]) + (four[1] + four[3])
}

/// The greatest of the eight, none of which is below zero.
#[inline(always)]
pub(super) fn most_of(q: Oct) -> f64 {
    let greater = |a: f64, b: f64| if b > a { b } else { a };
    let half = [
        greater(q[0], q[4]),
        greater(q[1], q[5]),
        greater(q[2], q[6]),
        greater(q[3], q[7]),
    ];
    greater(greater(half[0], half[2]), greater(half[1], half[3]))
}

/// Fills a list of octs with nothing. (A loop; for so few the library's call costs more.)
#[inline(always)]
pub(super) fn clear(list: &mut [Oct]) {
    for oct in list {
        *oct = [0.0; SIDE];
    }
}

/// Copies one list of octs onto another.
#[inline(always)]
pub(super) fn copy(to: &mut [Oct], from: &[Oct]) {
    for (to, from) in to.iter_mut().zip(from) {
        *to = *from;
    }
}

/// Octs of a list, its end filled with `rest`.
pub(super) fn octs<T: Copy>(list: &[T], rest: T) -> Vec<[T; SIDE]> {
    list.chunks(SIDE)
        .map(|part| {
            let mut oct = [rest; SIDE];
            oct[..part.len()].copy_from_slice(part);
            oct
        })
        .collect()
}

/// A list of octs, each in one line of the processor's memory: an oct across two lines takes twice
/// as long to read.
#[derive(Debug, Default)]
pub(super) struct Octs {
    cells: Vec<f64>,
    from: usize,
    count: usize,
}

/// Bytes of a line.
const LINE: usize = 64;

impl Octs {
    /// So many octs, all the same number.
    pub fn new(octs: usize, x: f64) -> Self {
        let cells = vec![x; (octs + 1) * SIDE];
        let from = cells.as_ptr().align_offset(LINE).min(SIDE);
        Self {
            cells,
            from,
            count: octs,
        }
    }

    /// As many octs as this.
    pub fn of(list: &[Oct]) -> Self {
        let mut octs = Self::new(list.len(), 0.0);
        octs.copy_from_slice(list);
        octs
    }
}

impl Clone for Octs {
    fn clone(&self) -> Self {
        Self::of(self)
    }
}

impl Deref for Octs {
    type Target = [Oct];

    #[inline(always)]
    fn deref(&self) -> &[Oct] {
        &self.cells[self.from..].as_chunks().0[..self.count]
    }
}

impl DerefMut for Octs {
    #[inline(always)]
    fn deref_mut(&mut self) -> &mut [Oct] {
        &mut self.cells[self.from..].as_chunks_mut().0[..self.count]
    }
}

impl<'a> IntoIterator for &'a Octs {
    type Item = &'a Oct;
    type IntoIter = core::slice::Iter<'a, Oct>;

    #[inline(always)]
    fn into_iter(self) -> Self::IntoIter {
        self.iter()
    }
}

impl<'a> IntoIterator for &'a mut Octs {
    type Item = &'a mut Oct;
    type IntoIter = core::slice::IterMut<'a, Oct>;

    #[inline(always)]
    fn into_iter(self) -> Self::IntoIter {
        self.iter_mut()
    }
}

/// A matrix whose rows lie eight by eight: a column is so many octs, and the columns follow each
/// other.
#[derive(Debug, Clone, Default)]
pub(super) struct Table {
    blocks: usize,
    cells: Octs,
}

impl Table {
    /// A table of `blocks` times eight rows.
    pub fn new(blocks: usize, columns: usize, at: impl Fn(usize, usize) -> f64) -> Self {
        let mut table = Self::default();
        table.fill(blocks, columns, at);
        table
    }

    /// Writes it anew, in the place it has.
    pub fn fill(&mut self, blocks: usize, columns: usize, at: impl Fn(usize, usize) -> f64) {
        self.blocks = blocks;
        if self.cells.len() != blocks * columns {
            self.cells = Octs::new(blocks * columns, 0.0);
        }
        for (k, oct) in self.cells.iter_mut().enumerate() {
            for (i, cell) in oct.iter_mut().enumerate() {
                *cell = at(k % blocks * SIDE + i, k / blocks);
            }
        }
    }

    /// One cell.
    pub fn at(&self, row: usize, column: usize) -> f64 {
        self.cells[column * self.blocks + row / SIDE][row % SIDE]
    }

    /// Adds its product with `by`, which may be shorter than the columns, to `into`. `B` is the
    /// number of blocks where it is known beforehand, and 0 where not: then all sums stay in the
    /// processor. The order of every sum is the same either way.
    #[inline(always)]
    pub fn add_product<S: Arithmetic, const B: usize>(&self, s: S, by: &[f64], into: &mut [Oct]) {
        if B > 0 {
            self.add_columns::<S, B>(s, by, into);
        } else {
            self.add_rows(s, by, into);
        }
    }

    #[inline(always)]
    fn add_columns<S: Arithmetic, const B: usize>(&self, s: S, by: &[f64], into: &mut [Oct]) {
        let Some(into) = into.first_chunk_mut::<B>() else {
            return;
        };
        let (columns, _) = self.cells.as_chunks::<B>();
        let (pairs, last) = by.as_chunks::<2>();
        let (two, one) = columns.as_chunks::<2>();
        // Two sums, so that one need not wait for the other.
        let (mut sum, mut other) = ([s.all(0.0); B], [s.all(0.0); B]);
        for b in 0..B {
            sum[b] = s.take(&into[b]);
        }
        for ([m, n], [x, y]) in two.iter().zip(pairs) {
            let (x, y) = (s.all(*x), s.all(*y));
            for b in 0..B {
                sum[b] = sum[b].plus(s.take(&m[b]), x);
                other[b] = other[b].plus(s.take(&n[b]), y);
            }
        }
        if let Some(x) = last.first() {
            // An odd one out stands where the pairs of `by` end.
            if let Some(m) = two.get(pairs.len()).map(|[m, _]| m).or(one.first()) {
                for b in 0..B {
                    sum[b] = sum[b].plus(s.take(&m[b]), s.all(*x));
                }
            }
        }
        for b in 0..B {
            into[b] = (sum[b] + other[b]).put();
        }
    }

    /// One oct of rows after the other. (Not with arithmetic of its own: outside of what is compiled
    /// for the processor, a product rounded once is worked out in software, at thirty times the cost.)
    #[inline(always)]
    fn add_rows<S: Arithmetic>(&self, s: S, by: &[f64], into: &mut [Oct]) {
        for (b, into) in into.iter_mut().enumerate().take(self.blocks) {
            let (mut sum, mut other) = (s.take(into), s.all(0.0));
            let mut cells = self.cells.iter().skip(b).step_by(self.blocks);
            let (pairs, last) = by.as_chunks::<2>();
            for [x, y] in pairs {
                let (Some(m), Some(n)) = (cells.next(), cells.next()) else {
                    break;
                };
                sum = sum.plus(s.take(m), s.all(*x));
                other = other.plus(s.take(n), s.all(*y));
            }
            if let (Some(x), Some(m)) = (last.first(), cells.next()) {
                sum = sum.plus(s.take(m), s.all(*x));
            }
            *into = (sum + other).put();
        }
    }
}

/// Start of the search for one over the cube root: the bits of 2^(4/3 * 1023), with a shift that
/// spreads the error evenly, 3.4 % either way (found by a scan over three octaves).
const ROOT_START: u64 = 0x553e_f0ff_289d_d796;
/// Below this a difference counts as none, K.
const NO_DIFFERENCE_K: f64 = 1e-30;

/// Cube roots of the sizes of eight numbers, to 2.4e-5 of their own.
///
/// Taking a third of the bits of a number takes a third of its exponent, which is a rough cube
/// root; two steps of Newton's method for one over the root make it fine. No table, no division,
/// and the same bits everywhere; the library's root, one number at a time, takes ten times as long.
#[inline(always)]
pub(super) fn cube_roots<S: Arithmetic>(s: S, x: Eight<S>) -> Eight<S> {
    // Not a number becomes no difference.
    let (size, least) = (x.abs(), s.all(NO_DIFFERENCE_K));
    let size = least.below(size, size, least);
    let part = size * (1.0 / 3.0);
    let most = s.all(4.0 / 3.0);
    let mut over = size.less_a_third(ROOT_START);
    for _ in 0..2 {
        over = over * most.less(part * over, over * over);
    }
    size * over * over
}

#[cfg(test)]
mod tests {
    use super::*;

    use crate::balance::arithmetic::{Task, run};

    struct Roots<'a>(Oct, &'a mut Oct);

    impl Task for Roots<'_> {
        #[inline(always)]
        fn run<S: Arithmetic>(self, by: S) {
            *self.1 = cube_roots(by, by.take(&self.0)).put();
        }
    }

    /// The library's root is the reference; the bound is what two steps leave.
    #[test]
    fn roots_are_near_the_library_s_and_the_same_everywhere() {
        let mut worst: f64 = 0.0;
        for k in -4000..4000 {
            let x = libm::exp2(f64::from(k) / 100.0);
            let of = [x, -x, 3.0 * x, 0.0, 7.0 * x, -0.1 * x, 0.5 * x, f64::NAN];
            let (mut got, mut plain) = ([0.0; SIDE], [0.0; SIDE]);
            run(pulp::Arch::new(), Roots(of, &mut got));
            Roots(of, &mut plain).run(pulp::Scalar512b);
            assert_eq!(got, plain);
            for (got, x) in got.into_iter().zip(of) {
                if x.abs() > 0.0 {
                    worst = worst.max((got / libm::cbrt(x.abs()) - 1.0).abs());
                } else {
                    assert!(got < 1e-9);
                }
            }
        }
        assert!(worst < 2.4e-5, "{worst}");
        assert!(worst > 1e-6, "the bound says too little: {worst}");
    }

    #[test]
    fn a_table_multiplies_as_a_matrix_does() {
        let at = |i: usize, j: usize| (i * 7 + j * 3) as f64;
        let x = [1.0, 0.5, -2.0, 4.0, 0.25];
        let table = Table::new(3, 5, at);
        for some in [0, 2, 3, 5] {
            let (mut y, mut z) = ([[1.0; SIDE]; 3], [[1.0; SIDE]; 3]);
            table.add_product::<_, 3>(pulp::Scalar512b, &x[..some], &mut y);
            table.add_product::<_, 0>(pulp::Scalar512b, &x[..some], &mut z);
            assert_eq!(y, z);
            for i in 0..3 * SIDE {
                let want: f64 = (0..some).map(|j| at(i, j) * x[j]).sum::<f64>() + 1.0;
                assert_eq!(y[i / SIDE][i % SIDE], want, "{some} {i}");
                assert_eq!(table.at(i, 3), at(i, 3));
            }
        }
    }

    struct Product<'a>(&'a Table, &'a [f64], &'a mut [Oct]);

    impl Task for Product<'_> {
        #[inline(always)]
        fn run<S: Arithmetic>(self, by: S) {
            self.0.add_product::<S, 4>(by, self.1, self.2);
        }
    }

    /// The order of the sums hangs neither on the processor nor on how many rows are known
    /// beforehand: the same bits.
    #[test]
    fn products_have_the_same_bits_everywhere() {
        let table = Table::new(4, 21, |i, j| 1.0 / (1.0 + i as f64 + 3.7 * j as f64));
        let x: Vec<f64> = (0..21).map(|j| 0.1 + 1.0 / (j as f64 + 0.3)).collect();
        for some in 0..=21 {
            let mut got = [[[0.1; SIDE]; 4]; 3];
            let [wide, plain, rows] = &mut got;
            run(pulp::Arch::new(), Product(&table, &x[..some], wide));
            Product(&table, &x[..some], plain).run(pulp::Scalar512b);
            table.add_product::<_, 0>(pulp::Scalar512b, &x[..some], rows);
            assert_eq!(got[0], got[1], "{some}");
            assert_eq!(got[0], got[2], "{some}");
        }
    }
}
