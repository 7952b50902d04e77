//! Numbers four by four. Every hourly pass works on four faces, walls or zones at once; what is
//! left over of a zone or a list is filled with faces that have no area. Written as plain arrays,
//! so that the order of every sum is the same on every processor.

/// How many lie side by side.
pub(super) const SIDE: usize = 4;

/// Four numbers.
pub(super) type Quad = [f64; SIDE];

/// Four at once.
#[inline(always)]
pub(super) fn each(of: impl Fn(usize) -> f64) -> Quad {
    [of(0), of(1), of(2), of(3)]
}

/// The four added up.
#[inline(always)]
pub(super) fn sum(q: Quad) -> f64 {
    (q[0] + q[1]) + (q[2] + q[3])
}

/// Fills a list of quads with nothing. (A loop; for so few the library's call costs more.)
#[inline(always)]
pub(super) fn clear(list: &mut [Quad]) {
    for quad in list {
        *quad = [0.0; SIDE];
    }
}

/// Copies one list of quads onto another.
#[inline(always)]
pub(super) fn copy(to: &mut [Quad], from: &[Quad]) {
    for (to, from) in to.iter_mut().zip(from) {
        *to = *from;
    }
}

/// Quads of a list, its end filled with `rest`.
pub(super) fn quads<T: Copy>(list: &[T], rest: T) -> Vec<[T; SIDE]> {
    list.chunks(SIDE)
        .map(|part| {
            let mut quad = [rest; SIDE];
            quad[..part.len()].copy_from_slice(part);
            quad
        })
        .collect()
}

/// A matrix whose rows lie four by four, column after column.
#[derive(Debug, Clone, Default)]
pub(super) struct Table {
    columns: usize,
    cells: Vec<Quad>,
}

impl Table {
    /// A table of `blocks` times four rows.
    pub fn new(blocks: usize, columns: usize, at: impl Fn(usize, usize) -> f64) -> Self {
        let mut table = Self::default();
        table.fill(blocks, columns, at);
        table
    }

    /// Writes it anew, in the place it has.
    pub fn fill(&mut self, blocks: usize, columns: usize, at: impl Fn(usize, usize) -> f64) {
        self.columns = columns;
        self.cells.clear();
        for block in 0..blocks {
            for column in 0..columns {
                let mut quad = [0.0; SIDE];
                for (i, cell) in quad.iter_mut().enumerate() {
                    *cell = at(block * SIDE + i, column);
                }
                self.cells.push(quad);
            }
        }
    }

    /// One cell.
    pub fn at(&self, row: usize, column: usize) -> f64 {
        self.cells[row / SIDE * self.columns + column][row % SIDE]
    }

    /// Adds its product with `by`, which may be shorter than the columns, to the rows of `into`,
    /// `from` being the first block.
    #[inline(always)]
    pub fn add_product(&self, from: usize, by: &[f64], into: &mut [Quad]) {
        // An empty table has no rows to add.
        let rows = self.cells[from * self.columns..].chunks_exact(self.columns.max(1));
        let (pairs, last) = by.as_chunks::<2>();
        for (into, row) in into.iter_mut().zip(rows) {
            // Two sums, so that one need not wait for the other.
            let (mut sum, mut other) = (*into, [0.0; SIDE]);
            let (cells, rest) = row.as_chunks::<2>();
            for ([m, n], [x, y]) in cells.iter().zip(pairs) {
                sum = each(|i| sum[i] + m[i] * x);
                other = each(|i| other[i] + n[i] * y);
            }
            // An odd one out stands where the pairs of `by` end.
            if let Some(x) = last.first() {
                let m = cells
                    .get(pairs.len())
                    .map_or_else(|| rest[0], |pair| pair[0]);
                sum = each(|i| sum[i] + m[i] * x);
            }
            *into = each(|i| sum[i] + other[i]);
        }
    }
}

/// Start of the search for one over the cube root: the bits of 2^(4/3 * 1023), with a shift that
/// spreads the error evenly, 3.4 % either way (found by a scan over three octaves).
const ROOT_START: u64 = 0x553e_f0ff_289d_d796;
/// Below this a difference counts as none, K.
const NO_DIFFERENCE_K: f64 = 1e-30;

/// Cube roots of the sizes of four numbers, to 2.4e-5 of their own.
///
/// Taking a third of the bits of a number takes a third of its exponent, which is a rough cube
/// root; two steps of Newton's method for one over the root make it fine. No table, no division,
/// and the same bits everywhere; the library's root, one number at a time, takes ten times as long.
#[inline(always)]
pub(super) fn cube_roots(x: Quad) -> Quad {
    // Written so that it is one instruction; not a number becomes no difference.
    let size = each(|i| {
        let size = x[i].abs();
        if size > NO_DIFFERENCE_K {
            size
        } else {
            NO_DIFFERENCE_K
        }
    });
    // 1/3 = 5/16 (1 + 1/16) (1 + 1/256) (1 + 1/65536) ...
    let start = each(|i| {
        let bits = size[i].to_bits();
        let mut third = (bits >> 2) + (bits >> 4);
        third += third >> 4;
        third += third >> 8;
        third += third >> 16;
        f64::from_bits(ROOT_START - third)
    });
    let part = each(|i| size[i] * (1.0 / 3.0));
    let newton =
        |over: Quad| each(|i| over[i] * (4.0 / 3.0 - part[i] * (over[i] * over[i]) * over[i]));
    let over = newton(newton(start));
    each(|i| size[i] * over[i] * over[i])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn roots_are_near_the_library_s() {
        let mut worst: f64 = 0.0;
        for k in -4000..4000 {
            let x = libm::exp2(f64::from(k) / 100.0);
            let got = cube_roots([x, -x, 3.0 * x, 0.0]);
            for (got, x) in got.into_iter().zip([x, x, 3.0 * x]) {
                worst = worst.max((got / libm::cbrt(x) - 1.0).abs());
            }
            assert!(got[3].abs() < 1e-9);
        }
        assert!(worst < 2.4e-5, "{worst}");
        assert!(worst > 1e-6, "the bound says too little: {worst}");
    }

    #[test]
    fn a_table_multiplies_as_a_matrix_does() {
        let at = |i: usize, j: usize| (i * 7 + j * 3) as f64;
        let table = Table::new(2, 5, at);
        let x = [1.0, 0.5, -2.0, 4.0, 0.25];
        let mut y = [[1.0; SIDE]; 2];
        table.add_product(0, &x, &mut y);
        for i in 0..8 {
            let want: f64 = (0..5).map(|j| at(i, j) * x[j]).sum::<f64>() + 1.0;
            assert_eq!(y[i / SIDE][i % SIDE], want);
            assert_eq!(table.at(i, 3), at(i, 3));
        }
        let mut lower = [[0.0; SIDE]; 1];
        table.add_product(1, &x[..2], &mut lower);
        assert_eq!(lower[0][1], at(5, 0) + 0.5 * at(5, 1));
    }
}
