//! Transmittance of a window as figures: from its label, from the table of usual windows, or pane
//! by pane.

use physics::film::STEFAN_BOLTZMANN;
use reckon::{Book, Source, in_key};
use units::Dim;

use super::LoadError;
use super::pen::Pen;
use crate::describe::{Gap, Glazing, GlazingData, Pane};
use crate::glazing::{self, Glass};
use crate::library;

/// Writes the transmittance of a glazing once, `glazing.<name>.u`, and gives its key.
///
/// # Errors
/// A formula that does not read: a defect of the program.
pub(super) fn transmittance(
    of: &Glazing,
    glass: &Glass,
    book: &mut Book,
) -> Result<String, LoadError> {
    let base = format!("glazing.{}", in_key(&of.name));
    let key = format!("{base}.u");
    if book.get(&key).is_some() {
        return Ok(key);
    }
    let what = format!("transmittance of glazing {}", of.name);
    let GlazingData::Panes { panes, gaps } = &of.made_of else {
        let usual = library::glazing_by_name(&of.name).is_ok_and(|usual| usual == *of);
        let from = if usual {
            Source::new(
                "ashrae-fundamentals-2017",
                "chapter 15, tables 4 and 10, usual windows",
            )
        } else {
            Source::job(format!("glazing {}", of.name))
        };
        let u = glass.rated_u_w_per_m2k();
        book.given(&*key, what, u, Dim::UValue, from, Some(of.known));
        return Ok(key);
    };
    let mut glazed = Glazed {
        of,
        pen: Pen { base: &base, book },
    };
    let mut parts = Vec::new();
    for (i, pane) in panes.iter().enumerate() {
        parts.push(glazed.pane(i, pane)?);
        if let Some(gap) = gaps.get(i) {
            let faces = [
                pane.emittance_in,
                panes.get(i + 1).map_or(0.84, |p| p.emittance_out),
            ];
            parts.push(glazed.gap(i, gap, faces)?);
        }
    }
    let parts: Vec<(&'static str, &str)> = parts.iter().map(|k| ("R", k.as_str())).collect();
    glazed.reckon(
        "glass",
        "conductance between the outer faces",
        Dim::UValue,
        "1 / sum()",
        &parts,
    )?;
    let films = [
        (
            "ho",
            "film outside under the rating's winter",
            glazing::RATING_OUT_W_PER_M2K,
        ),
        (
            "hi",
            "film inside under the rating's winter",
            glazing::RATING_IN_W_PER_M2K,
        ),
    ];
    for (key, what, value) in films {
        let from = Source::new("common-practice", "winter condition of window ratings");
        glazed.pen.book.given(
            format!("glazing.{key}"),
            what,
            value,
            Dim::UValue,
            from,
            None,
        );
    }
    let mut core = "glass";
    if of.frame_share > 0.0 {
        glazed.given("frame-share", "share of frame", of.frame_share, Dim::Share);
        glazed.given(
            "frame-u",
            "transmittance of the frame",
            of.frame_u_w_per_m2k,
            Dim::UValue,
        );
        glazed.reckon(
            "frame",
            "conductance between the faces of the frame",
            Dim::UValue,
            "1 / max(1 / U - 1 / ho - 1 / hi, 1 / 300)",
            &[("U", "frame-u"), ("ho", "glazing.ho"), ("hi", "glazing.hi")],
        )?;
        glazed.reckon(
            "core",
            "conductance between the faces, glass and frame",
            Dim::UValue,
            "(1 - f) * G + f * F",
            &[("f", "frame-share"), ("G", "glass"), ("F", "frame")],
        )?;
        core = "core";
    }
    let of = [("C", core), ("ho", "glazing.ho"), ("hi", "glazing.hi")];
    glazed.reckon(
        "u",
        &what,
        Dim::UValue,
        "1 / (1 / C + 1 / ho + 1 / hi)",
        &of,
    )?;
    Ok(key)
}

/// Writes the figures of one glazing.
struct Glazed<'a> {
    of: &'a Glazing,
    pen: Pen<'a>,
}

impl Glazed<'_> {
    fn given(&mut self, key: &str, what: &str, value: f64, dim: Dim) {
        let from = Source::job(format!("glazing {}", self.of.name));
        let what = format!("{what}, glazing {}", self.of.name);
        let known = Some(self.of.known);
        self.pen.given(key, &what, value, dim, (from, known));
    }

    fn reckon(
        &mut self,
        key: &str,
        what: &str,
        dim: Dim,
        formula: &'static str,
        inputs: &[(&'static str, &str)],
    ) -> Result<(), LoadError> {
        let from = Source::new("en-673", "clauses 5 and 6");
        self.pen.reckon(key, what, dim, formula, inputs, from)?;
        Ok(())
    }

    fn pane(&mut self, i: usize, pane: &Pane) -> Result<String, LoadError> {
        let n = i + 1;
        let at = |what: &str| format!("pane-{n}-{what}");
        let (d, k, r) = (at("d"), at("k"), at("r"));
        self.given(
            &d,
            &format!("thickness of pane {n} from outside"),
            pane.thickness_m,
            Dim::SmallLength,
        );
        self.given(
            &k,
            &format!("conductivity of pane {n}"),
            pane.k_w_per_mk,
            Dim::Conductivity,
        );
        let what = format!("resistance of pane {n}");
        self.reckon(&r, &what, Dim::RValue, "d / k", &[("d", &d), ("k", &k)])?;
        Ok(r)
    }

    fn gap(&mut self, i: usize, gap: &Gap, faces: [f64; 2]) -> Result<String, LoadError> {
        let n = i + 1;
        let at = |what: &str| format!("gap-{n}-{what}");
        let r = at("r");
        let what = format!("resistance of gap {n} from outside");
        if let Some(stated) = gap.stated_r_m2k_per_w {
            self.given(&r, &what, stated, Dim::RValue);
            return Ok(r);
        }
        let width = at("width");
        self.given(
            &width,
            &format!("width of gap {n}"),
            gap.width_m,
            Dim::SmallLength,
        );
        let mut inputs = vec![("s", width)];
        for (symbol, what, value) in [("a", "outside", faces[0]), ("b", "inside", faces[1])] {
            let key = at(what);
            let what = format!("emittance of the face {what} of gap {n}");
            self.given(&key, &what, value, Dim::Ratio);
            inputs.push((symbol, key));
        }
        let filled = format!("{:?}", gap.gas).to_lowercase();
        let [k, density, viscosity, cp] = glazing::gas_at_10c(gap.gas);
        for (symbol, what, value) in [
            ("k", "conductivity, W/(m K)", k),
            ("r", "density, kg/m3", density),
            ("v", "viscosity, Pa s", viscosity),
            ("c", "specific heat, J/(kg K)", cp),
        ] {
            let key = format!("gas.{filled}-{symbol}");
            let what = format!("{filled} at 50 F (10 C): {what}");
            let from = Source::new("en-673", "table 1");
            self.pen
                .book
                .given(&*key, what, value, Dim::Ratio, from, None);
            inputs.push((symbol, key));
        }
        let sigma = "radiation constant, W/(m2 K4)";
        let from = Source::new("common-practice", "a constant of the SI");
        self.pen
            .book
            .given("gas.sigma", sigma, STEFAN_BOLTZMANN, Dim::Ratio, from, None);
        inputs.push(("q", "gas.sigma".to_owned()));
        let inputs: Vec<(&'static str, &str)> =
            inputs.iter().map(|(s, k)| (*s, k.as_str())).collect();
        self.reckon(&r, &what, Dim::RValue, GAP, &inputs)?;
        Ok(r)
    }
}

/// Conduction with convection, and radiation, across an upright gap at 10 C and 15 K.
const GAP: &str = "1 / (max(1, 0.035 * (9.81 * s ^ 3 * 15 * r ^ 2 / (283.15 * v ^ 2) * v * c / k) ^ 0.38) \
                   * k / s + 4 * q * 283.15 ^ 3 / (1 / a + 1 / b - 1))";
