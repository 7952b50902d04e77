//! Electricity between the least and the most a unit gives, and when it cycles below the least.

/// Cycling coefficient where the sheet has none of its own.
pub const DEFAULT_CD: f64 = 0.25;

/// Electric power for an output between minimum, rated and maximum.
///
/// # Equation
/// `P = q / COP(q)`; `COP(q)` in straight lines over output through (min, rated, max).
/// # Symbols
/// `q` output, W; `nodes` (output W, electric W) at min, rated and max, rising.
/// # Range
/// `q` from the first to the last output; the caller cycles below and spills above. Where the
/// electric powers of the nodes rise, so does `P`.
/// # Source
/// `cfr-430-m1` 4.1.4 and 4.2.4 (the same lines through three speeds), from memory.
/// # Example
/// ```
/// let nodes = [(1000.0, 200.0), (3000.0, 750.0), (4000.0, 1250.0)];
/// // half way from min to rated the COP is half way from 5 to 4
/// assert!((heatpump::modulating_w(2000.0, nodes) - 2000.0 / 4.5).abs() < 1e-9);
/// ```
#[inline]
pub fn modulating_w(q: f64, nodes: [(f64, f64); 3]) -> f64 {
    let [(q0, e0), (q1, e1), (q2, e2)] = nodes;
    let ((qa, ea), (qb, eb)) = if q < q1 {
        ((q0, e0), (q1, e1))
    } else {
        ((q1, e1), (q2, e2))
    };
    let width = qb - qa;
    if width <= 1e-9 * qb {
        // A unit of one speed: both nodes are the same state.
        return ea;
    }
    // q / COP(q) with COP = qa/ea + (qb/eb - qa/ea)(q - qa)/(qb - qa), in one division.
    q * width * ea * eb / (qa * eb * (qb - q) + qb * ea * (q - qa))
}

/// Mean electric power while cycling on and off to give less than the minimum.
///
/// # Equation
/// `P = Pmin PLR / (1 - Cd (1 - PLR)) + Pwait (1 - PLR)`, `PLR = q / qmin`
/// # Symbols
/// `q` mean output, W; `qmin`, `Pmin` minimum output and its electric power, W; `Cd` cycling
/// coefficient, 1; `Pwait` power while waiting, W.
/// # Range
/// `0 <= q <= qmin`, `0 <= Cd < 1`.
/// # Source
/// `ahri-210-240` 11.2 (part load factor `1 - Cd (1 - PLR)`); the waiting term is our own.
/// # Example
/// ```
/// // half the minimum, Cd 0.25: 100 W / 0.875
/// assert!((heatpump::cycling_w(500.0, 1000.0, 200.0, 0.25, 0.0) - 100.0 / 0.875).abs() < 1e-9);
/// ```
#[inline]
pub fn cycling_w(q: f64, min_w: f64, min_electric_w: f64, cd: f64, waiting_w: f64) -> f64 {
    let plr = q / min_w;
    min_electric_w * plr / (1.0 - cd * (1.0 - plr)) + waiting_w * (1.0 - plr)
}
