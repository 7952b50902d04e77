//! Cutting layers into cells.

use crate::assembly::Slab;

/// Most cells one layer is cut into: past this the yearly heat of a house changes by less than
/// 0.05 % (seen on the heavy houses of Standard 140).
const MOST_CELLS: usize = 10;

/// A chain of cells from outside to inside.
#[derive(Debug, Clone, PartialEq)]
pub struct Cells {
    /// Capacity of each cell, J/(m2 K).
    pub capacity_j_per_m2k: Vec<f64>,
    /// Conductance of each link, W/(m2 K): outside face to the first cell, between cells, last
    /// cell to the inside face. One more than cells.
    pub link_w_per_m2k: Vec<f64>,
}

/// Cuts layers into cells so that heat crosses a cell in about a quarter of the step.
///
/// **Equation** n = ceil(sqrt(R C / (dt/4))), 1 to 10; cell resistance R/n, capacity C/n.
///
/// **Symbols** R layer resistance, m2 K/W; C layer capacity, J/(m2 K); dt step, s.
///
/// **Range** any layers with R >= 0, C >= 0, at least one R > 0.
///
/// **Source** common-practice: finite volumes with the capacity in the cell's middle.
///
/// **Example** 0.1 m of concrete block, R 0.196 and C 140,000, in steps of an hour: 6 cells.
pub fn cells(slabs: &[Slab], step_s: f64) -> Cells {
    let mut capacity = Vec::new();
    let mut link = Vec::new();
    let mut waiting_r = 0.0;
    for slab in slabs {
        if slab.c_j_per_m2k <= 0.0 {
            waiting_r += slab.r_m2k_per_w;
            continue;
        }
        let across = (slab.r_m2k_per_w * slab.c_j_per_m2k / (step_s / 4.0))
            .sqrt()
            .ceil();
        let n = (across as usize).clamp(1, MOST_CELLS);
        let r = slab.r_m2k_per_w / n as f64;
        for _ in 0..n {
            link.push(1.0 / (waiting_r + r / 2.0).max(LEAST_R));
            capacity.push(slab.c_j_per_m2k / n as f64);
            waiting_r = r / 2.0;
        }
    }
    link.push(1.0 / waiting_r.max(LEAST_R));
    Cells {
        capacity_j_per_m2k: capacity,
        link_w_per_m2k: link,
    }
}

/// A link never has less resistance than this, m2 K/W (a tenth of a millimetre of glass): keeps a
/// bare sheet of metal solvable.
const LEAST_R: f64 = 1e-4;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keeps_resistance_and_capacity() {
        let slabs = [
            Slab {
                r_m2k_per_w: 0.064,
                c_j_per_m2k: 4293.0,
            },
            Slab {
                r_m2k_per_w: 1.65,
                c_j_per_m2k: 0.0,
            },
            Slab {
                r_m2k_per_w: 0.196,
                c_j_per_m2k: 140_000.0,
            },
        ];
        let cut = cells(&slabs, 3600.0);
        let r: f64 = cut.link_w_per_m2k.iter().map(|g| 1.0 / g).sum();
        let c: f64 = cut.capacity_j_per_m2k.iter().sum();
        assert!((r - 1.91).abs() < 1e-12, "resistance {r}");
        assert!((c - 144_293.0).abs() < 1e-6, "capacity {c}");
        assert_eq!(cut.link_w_per_m2k.len(), cut.capacity_j_per_m2k.len() + 1);
    }
}
