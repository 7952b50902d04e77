//! One pane of glass by angle.

use crate::describe::Pane;

/// Transmittance, outer and inner reflectance of a pane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Angled {
    pub through: f64,
    pub front: f64,
    pub back: f64,
}

/// A pane at an angle in unpolarised light.
///
/// **Equation** Uncoated glass: the surface reflectance r and inner transmittance t that give the
/// stated values at normal incidence; index n = (1 + sqrt r)/(1 - sqrt r); Snell and Fresnel at
/// the angle; tau = (1-r)^2 t/(1 - r^2 t^2), rho = r (1 + t tau). Coated glass (unlike
/// reflectances): stated values times the angle dependence of clear glass.
///
/// **Symbols** r, t shares; n index of refraction.
///
/// **Range** cosine of incidence 0 to 1.
///
/// **Source** fresnel: Fresnel equations with multiple reflections in a slab, any optics text.
///
/// **Example** at normal incidence the stated transmittance and reflectance come back (tested below).
pub fn at_angle(pane: &Pane, cosine: f64) -> Angled {
    let coated = (pane.sun_reflectance_out - pane.sun_reflectance_in).abs() > 1e-9;
    if !coated {
        return mean(slab(
            pane.sun_transmittance,
            pane.sun_reflectance_out,
            cosine,
        ));
    }
    let clear = mean(slab(0.834, 0.075, cosine));
    let scaled = |rho: f64, clear: f64| rho + (1.0 - rho) * (clear - 0.075) / (1.0 - 0.075);
    Angled {
        through: pane.sun_transmittance * clear.through / 0.834,
        front: scaled(pane.sun_reflectance_out, clear.front).max(0.0),
        back: scaled(pane.sun_reflectance_in, clear.back).max(0.0),
    }
}

/// Unpolarised light: the mean of both.
fn mean([s, p]: [Angled; 2]) -> Angled {
    Angled {
        through: 0.5 * (s.through + p.through),
        front: 0.5 * (s.front + p.front),
        back: 0.5 * (s.back + p.back),
    }
}

/// Perpendicular and parallel polarisation.
fn slab(tau0: f64, rho0: f64, cosine: f64) -> [Angled; 2] {
    let b = tau0 * tau0 - rho0 * rho0 + 2.0 * rho0 + 1.0;
    let r0 = (b - (b * b - 4.0 * (2.0 - rho0) * rho0).max(0.0).sqrt()) / (2.0 * (2.0 - rho0));
    let t0 = if r0 > 0.0 {
        ((rho0 - r0) / (r0 * tau0)).clamp(0.0, 1.0)
    } else {
        tau0
    };
    let n = (1.0 + r0.sqrt()) / (1.0 - r0.sqrt());
    let sine2 = (1.0 - cosine * cosine).max(0.0);
    let inner = (1.0 - sine2 / (n * n)).sqrt();
    let t = if t0 > 0.0 {
        libm::pow(t0, 1.0 / inner)
    } else {
        0.0
    };
    let (c, m) = (cosine.max(1e-12), inner);
    let perpendicular = (c - n * m) / (c + n * m);
    let parallel = (n * c - m) / (n * c + m);
    [perpendicular * perpendicular, parallel * parallel].map(|r| {
        let through = (1.0 - r) * (1.0 - r) * t / (1.0 - r * r * t * t).max(1e-12);
        let back = r * (1.0 + t * through);
        Angled {
            through,
            front: back,
            back,
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn normal_incidence_gives_back_what_was_said() {
        for (tau, rho) in [(0.834, 0.075), (0.86156, 0.0796), (0.7, 0.06)] {
            for p in slab(tau, rho, 1.0) {
                assert!((p.through - tau).abs() < 1e-9, "{} {tau}", p.through);
                assert!((p.front - rho).abs() < 1e-9, "{} {rho}", p.front);
            }
        }
    }

    #[test]
    fn parallel_light_passes_at_the_polarising_angle() {
        let n = 1.526_f64;
        let r = libm::pow((n - 1.0) / (n + 1.0), 2.0);
        let tau = (1.0 - r) * (1.0 - r) / (1.0 - r * r);
        let p = slab(tau, r * (1.0 + tau), libm::cos(libm::atan(n)));
        assert!(p[1].front < 1e-6, "parallel reflectance {}", p[1].front);
        assert!(p[0].front > 0.2, "perpendicular reflectance {}", p[0].front);
    }
}
