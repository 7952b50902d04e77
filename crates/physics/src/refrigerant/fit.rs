//! Evaluates the fitted tables: one polynomial per cell, so that a look-up is a floor and a few
//! multiplications.

/// Cells along saturation.
pub(super) const CELLS: usize = 13;
/// Terms of each polynomial along saturation.
pub(super) const TERMS: usize = 6;
/// Properties kept along saturation: pressure, density, enthalpy, specific heat, viscosity.
pub(super) const PROPERTIES: usize = 5;
/// Cells of pressure away from saturation.
const SHEET_CELLS: usize = 8;
/// Terms along pressure away from saturation.
const SHEET_ROWS: usize = 5;

/// One side of the dome of one fluid.
pub(super) struct Side {
    /// Coldest saturation, C.
    pub low_c: f64,
    /// Hottest saturation, C.
    pub high_c: f64,
    /// Natural logarithm of the pressures that belong to them.
    pub ln_low: f64,
    pub ln_high: f64,
    /// Cells per kelvin and per step of ln p; kept to save divisions.
    pub cells_per_k: f64,
    pub cells_per_ln: f64,
    pub sheet_cells_per_ln: f64,
    /// Per cell of temperature, per property.
    pub saturation: [[[f64; TERMS]; PROPERTIES]; CELLS],
    /// Per cell of ln p: saturation temperature, K.
    pub temperature_k: [[f64; TERMS]; CELLS],
    /// Per cell of ln p: enthalpy at saturation, J/kg.
    pub enthalpy_of_ln: [[f64; TERMS]; CELLS],
    /// Kelvin from saturation, over enthalpy from saturation.
    pub temperature: Sheet,
    /// Enthalpy from saturation, over kelvin from saturation.
    pub enthalpy: Sheet,
    /// Density over that at saturation, less 1, over kelvin from saturation.
    pub density: Sheet,
}

/// A property away from saturation: the distance times a polynomial, so zero at saturation.
pub(super) struct Sheet {
    /// Where the distance is bent, in its unit.
    pub bend: Option<f64>,
    /// Greatest distance.
    pub reach: f64,
    /// One over it.
    pub per_reach: f64,
    pub cells: [[[f64; TERMS]; SHEET_ROWS]; SHEET_CELLS],
}

/// In pairs, because Horner's rule would wait for each product before the next.
#[inline(always)]
fn polynomial(c: &[f64; TERMS], x: f64) -> f64 {
    let square = x * x;
    let [c0, c1, c2, c3, c4, c5] = *c;
    (c0 + c1 * x) + square * ((c2 + c3 * x) + square * (c4 + c5 * x))
}

/// Cell and place in it, -1 to 1, of a value so far above its lower bound. At the ends the last cell holds.
#[inline(always)]
fn place(above_low: f64, cells_per: f64, cells: usize) -> (usize, f64) {
    let steps = above_low * cells_per;
    let cell = (steps as usize).min(cells - 1);
    (cell, 2.0 * (steps - cell as f64) - 1.0)
}

impl Side {
    /// One property at saturation. The temperature must be in range.
    #[inline]
    pub(super) fn at(&self, t_c: f64, property: usize) -> f64 {
        let (cell, x) = place(t_c - self.low_c, self.cells_per_k, CELLS);
        polynomial(&self.saturation[cell][property], x)
    }

    /// All properties at saturation.
    #[inline]
    pub(super) fn all(&self, t_c: f64) -> [f64; PROPERTIES] {
        let (cell, x) = place(t_c - self.low_c, self.cells_per_k, CELLS);
        let cell = &self.saturation[cell];
        std::array::from_fn(|k| polynomial(&cell[k], x))
    }

    /// Saturation temperature, C, of a natural logarithm of pressure in range.
    #[inline]
    pub(super) fn temperature_c(&self, ln_p: f64) -> f64 {
        let (cell, x) = place(ln_p - self.ln_low, self.cells_per_ln, CELLS);
        polynomial(&self.temperature_k[cell], x) - 273.15
    }

    /// Enthalpy at saturation, J/kg, of a natural logarithm of pressure in range.
    #[inline]
    pub(super) fn enthalpy_at(&self, ln_p: f64) -> f64 {
        let (cell, x) = place(ln_p - self.ln_low, self.cells_per_ln, CELLS);
        polynomial(&self.enthalpy_of_ln[cell], x)
    }

    /// A sheet at a logarithm of pressure and a distance, both in range.
    #[inline]
    pub(super) fn away(&self, sheet: &Sheet, ln_p: f64, distance: f64) -> f64 {
        let (cell, x) = place(ln_p - self.ln_low, self.sheet_cells_per_ln, SHEET_CELLS);
        let share = match sheet.bend {
            Some(bend) => distance / (distance + bend) * (1.0 + bend * sheet.per_reach),
            None => distance * sheet.per_reach,
        };
        let y = 2.0 * share - 1.0;
        let rows: [f64; SHEET_ROWS] = std::array::from_fn(|i| polynomial(&sheet.cells[cell][i], y));
        let [r0, r1, r2, r3, r4] = rows;
        let square = x * x;
        distance * ((r0 + r1 * x) + square * ((r2 + r3 * x) + square * r4))
    }
}
