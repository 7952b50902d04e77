//! Reads a layer as a builder writes it.
//!
//! Forms: `gypsum 0.5 in`; `fiberglass batt 3.5 in in studs 16 in`; `R 13`; `R 13 in studs 16 in`;
//! `air space 0.75 in`; `empty 3.5 in in studs 16 in`. Framing words: studs, joists, rafters,
//! trusses. A share can be given instead of a spacing: `in studs 25 %`.

use super::{LibraryError, material};
use crate::describe::Layer;
use units::Dim;

/// Words for framing.
const FRAMING: [&str; 5] = ["studs", "joists", "rafters", "trusses", "strapping"];

/// Share of the face that is framing, for a spacing of the members.
///
/// **Equation** table: 12 in 0.28, 16 in 0.25, 19.2 in 0.23, 24 in 0.22 for walls; 12 in 0.13,
/// 16 in 0.10, 19.2 in 0.08, 24 in 0.07 for floors, ceilings and roofs. Between: straight line.
/// **Symbols** spacing, m, centre to centre.
/// **Range** 12 to 24 in (0.30 to 0.61 m).
/// **Source** `ashrae-fundamentals-2017` ch. 27 for walls at 16 and 24 in (from memory); the rest
/// `common-practice`.
/// **Example** `framing_share("studs", 0.4064)` is 0.25.
///
/// # Errors
/// Gives `None` outside the range.
pub fn framing_share(framing: &str, spacing_m: f64) -> Option<f64> {
    let table: [(f64, f64); 4] = if framing == "studs" {
        [
            (0.3048, 0.28),
            (0.4064, 0.25),
            (0.48768, 0.23),
            (0.6096, 0.22),
        ]
    } else {
        [
            (0.3048, 0.13),
            (0.4064, 0.10),
            (0.48768, 0.08),
            (0.6096, 0.07),
        ]
    };
    if !(0.299..=0.62).contains(&spacing_m) {
        return None;
    }
    let pairs = table.iter().zip(table.iter().skip(1));
    for ((x0, y0), (x1, y1)) in pairs {
        if spacing_m <= *x1 {
            return Some(y0 + (y1 - y0) * (spacing_m.max(*x0) - x0) / (x1 - x0));
        }
    }
    table.last().map(|t| t.1)
}

/// Resistance of an unvented air space, heat flow level, surfaces of usual emittance, m2 K/W.
///
/// **Equation** table with straight lines between.
/// **Symbols** width, m.
/// **Range** 5 to 300 mm.
/// **Source** `iso-6946`, table 8, level.
/// **Example** 25 mm and more: 0.18.
fn air_space_m2k_per_w(width_m: f64) -> Option<f64> {
    let table = [
        (0.005, 0.11),
        (0.007, 0.13),
        (0.010, 0.15),
        (0.015, 0.17),
        (0.025, 0.18),
    ];
    if !(0.005..=0.3).contains(&width_m) {
        return None;
    }
    for ((x0, y0), (x1, y1)) in table.iter().zip(table.iter().skip(1)) {
        if width_m <= *x1 {
            return Some(y0 + (y1 - y0) * (width_m - x0) / (x1 - x0));
        }
    }
    Some(0.18)
}

/// Reads one layer.
///
/// # Errors
/// A material nobody knows (with the nearest name), a thickness without unit, a spacing out of
/// range.
///
/// # Example
/// ```
/// use house::{describe::Layer, library::layer_from_text};
/// let l = layer_from_text("gypsum 0.5 in").unwrap();
/// assert!(matches!(l, Layer::Solid { thickness_m, .. } if (thickness_m - 0.0127).abs() < 1e-12));
/// ```
pub fn layer_from_text(text: &str) -> Result<Layer, LibraryError> {
    let fail = |why: String| LibraryError::Layer {
        text: text.to_owned(),
        why,
    };
    let words: Vec<&str> = text.split_whitespace().collect();
    let framed = words
        .iter()
        .position(|w| FRAMING.contains(&w.to_lowercase().as_str()));
    let mut fill: Vec<&str> = words
        .iter()
        .take(framed.unwrap_or(words.len()))
        .copied()
        .collect();
    if framed.is_some() {
        drop_in(&mut fill);
    }
    let (name, amount) = split_amount(&fill);
    let thickness = |amount: &str| {
        units::parse(amount, Dim::SmallLength)
            .or_else(|_| units::parse(amount, Dim::Length))
            .map_err(|e| fail(format!("{e}; write a layer as \"gypsum 0.5 in\"")))
    };
    let typed = typed_r(&fill).map_err(&fail)?;
    let Some(at) = framed else {
        if let Some((r, _)) = typed {
            return Ok(Layer::Resistance {
                name: text.trim().to_owned(),
                r_m2k_per_w: r,
            });
        }
        if amount.is_empty() {
            // name first: an unknown name is the likelier slip
            if !is_air(&name) {
                material(&name)?;
            }
            return Err(fail(
                "the thickness is missing; write \"gypsum 0.5 in\"".to_owned(),
            ));
        }
        if is_air(&name) {
            let d = thickness(&amount)?;
            let r = air_space_m2k_per_w(d).ok_or_else(|| {
                fail(format!(
                    "an air space of {d} m; usable: 0.005 to 0.3 m (0.2 to 12 in)"
                ))
            })?;
            return Ok(Layer::Resistance {
                name: text.trim().to_owned(),
                r_m2k_per_w: r,
            });
        }
        let m = material(&name)?;
        return Ok(Layer::Solid {
            name: m.name.to_owned(),
            thickness_m: thick(thickness(&amount)?).map_err(&fail)?,
            k_w_per_mk: m.k_w_per_mk,
            density_kg_per_m3: m.density_kg_per_m3,
            cp_j_per_kgk: m.cp_j_per_kgk,
        });
    };
    let framing = words.get(at).map(|w| w.to_lowercase()).unwrap_or_default();
    let spacing = words.get(at + 1..).unwrap_or(&[]).join(" ");
    let share = share_from(&framing, &spacing).map_err(&fail)?;
    let (cavity, thickness_m) = if let Some((r, rest)) = typed {
        let d = if rest.is_empty() {
            usual_depth_m(r)
        } else {
            thickness(&rest)?
        };
        let fill = material("fiberglass batt")?;
        ([d / r, fill.density_kg_per_m3, fill.cp_j_per_kgk], d)
    } else {
        if amount.is_empty() {
            if !is_air(&name) {
                material(&name)?;
            }
            return Err(fail(
                "the thickness is missing; write \"fiberglass batt 3.5 in in studs 16 in\""
                    .to_owned(),
            ));
        }
        let d = thick(thickness(&amount)?).map_err(&fail)?;
        if is_air(&name) {
            let r = air_space_m2k_per_w(d)
                .ok_or_else(|| fail(format!("an air space of {d} m; usable: 0.005 to 0.3 m")))?;
            ([d / r, 1.2, 1005.0], d)
        } else {
            let m = material(&name)?;
            ([m.k_w_per_mk, m.density_kg_per_m3, m.cp_j_per_kgk], d)
        }
    };
    let wood = material("softwood")?;
    Ok(Layer::Framed {
        name: text.trim().to_owned(),
        thickness_m: thick(thickness_m).map_err(&fail)?,
        framing_share: share,
        cavity,
        framing: [wood.k_w_per_mk, wood.density_kg_per_m3, wood.cp_j_per_kgk],
    })
}

/// What a layer, as a builder wrote it, is filled with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fill<'a> {
    /// A material, by name.
    Material(&'a str),
    /// Nothing but air.
    Air,
    /// Something of which the resistance is stated.
    Stated,
}

/// The fill of a layer that [`layer_from_text`] has read.
///
/// ```
/// use house::library::{Fill, fill_of};
/// assert_eq!(fill_of("fiberglass batt 3.5 in in studs 16 in"), Fill::Material("fiberglass batt"));
/// assert_eq!(fill_of("air space 0.75 in"), Fill::Air);
/// assert_eq!(fill_of("R 13 in studs 16 in"), Fill::Stated);
/// ```
pub fn fill_of(text: &str) -> Fill<'_> {
    let digit = |c: char| c.is_ascii_digit();
    let name = text.find(digit).map_or(text, |at| &text[..at]).trim();
    let name = name.trim_end_matches(['-', '.', ' ']);
    if is_air(name) {
        Fill::Air
    } else if matches!(name.to_uppercase().as_str(), "R" | "RSI") {
        Fill::Stated
    } else {
        Fill::Material(name)
    }
}

/// Whether a layer's share of framing comes from the spacing of its members.
pub fn framed_by_spacing(text: &str) -> bool {
    let framing = |w: &str| FRAMING.contains(&w.to_lowercase().as_str());
    text.split_whitespace().any(framing) && !text.contains('%')
}

/// Takes the joining word `in` off the end: `3.5 in in` is 3.5 inches in something; `3.5 in`
/// alone keeps its unit; `R 13 in` and `60 mm in` lose the word.
fn drop_in(fill: &mut Vec<&str>) {
    let n = fill.len();
    if n < 2 || fill.last().is_none_or(|w| !w.eq_ignore_ascii_case("in")) {
        return;
    }
    let before = fill.get(n - 2).copied().unwrap_or("");
    let number = before.starts_with(|c: char| c.is_ascii_digit() || c == '.');
    let unit_inside = before.ends_with(|c: char| c.is_ascii_alphabetic() || c == '"');
    let after_r = n >= 3
        && fill
            .get(n - 3)
            .is_some_and(|w| w.eq_ignore_ascii_case("r") || w.eq_ignore_ascii_case("rsi"));
    if !number || unit_inside || after_r {
        fill.pop();
    }
}

/// The name and the amount: the amount begins at the first word with a leading digit.
fn split_amount(words: &[&str]) -> (String, String) {
    let at = words
        .iter()
        .position(|w| w.starts_with(|c: char| c.is_ascii_digit() || c == '.' || c == '-'))
        .unwrap_or(words.len());
    (
        words.get(..at).unwrap_or(&[]).join(" "),
        words.get(at..).unwrap_or(&[]).join(" "),
    )
}

/// Words for nothing but air.
fn is_air(name: &str) -> bool {
    matches!(
        name.to_lowercase().replace('-', " ").as_str(),
        "air space" | "airspace" | "air" | "air gap" | "empty" | "empty cavity" | "cavity"
    )
}

/// `R 13`, `R-13 batt 3.5 in`, `RSI 2.3`: the resistance, m2 K/W, and the words for thickness
/// after it.
fn typed_r(words: &[&str]) -> Result<Option<(f64, String)>, String> {
    let Some(first) = words.first() else {
        return Ok(None);
    };
    let upper = first.to_uppercase();
    let (us, tail) = if let Some(t) = upper.strip_prefix("RSI") {
        (false, t.to_owned())
    } else if let Some(t) = upper.strip_prefix('R') {
        (true, t.to_owned())
    } else {
        return Ok(None);
    };
    let tail = tail.trim_start_matches('-').to_owned();
    let (number, used) = if tail.is_empty() {
        (words.get(1).copied().unwrap_or("").to_owned(), 2)
    } else {
        (tail, 1)
    };
    let Ok(v) = number.parse::<f64>() else {
        return Ok(None);
    };
    // 1 h ft2 F/Btu = 0.3048^2 / (1055.05585262/3600 * 1.8) m2 K/W
    let r = if us { v * 0.176_110_183_682 } else { v };
    if !(0.001..=50.0).contains(&r) {
        return Err(format!("a resistance of {v}; usable: R 0.01 to R 280"));
    }
    let (_, amount) = split_amount(words.get(used..).unwrap_or(&[]));
    Ok(Some((r, amount)))
}

/// Depth of framing that a batt of this resistance is made for, m. Common practice.
fn usual_depth_m(r_m2k_per_w: f64) -> f64 {
    let r_us = r_m2k_per_w / 0.176_110_183_682;
    let depth_in = if r_us <= 15.5 {
        3.5
    } else if r_us <= 23.5 {
        5.5
    } else if r_us <= 30.5 {
        9.25
    } else {
        11.25
    };
    depth_in * 0.0254
}

/// Framing share from what is written after the framing word.
fn share_from(framing: &str, written: &str) -> Result<f64, String> {
    if written.is_empty() {
        return Err(format!(
            "the spacing of the {framing} is missing; write \"{framing} 16 in\""
        ));
    }
    if let Some(percent) = written.strip_suffix('%') {
        let v: f64 = percent
            .trim()
            .parse()
            .map_err(|_| format!("\"{written}\" is not a share; write \"{framing} 25 %\""))?;
        return if (0.0..=100.0).contains(&v) {
            Ok(v / 100.0)
        } else {
            Err(format!("a framing share of {v} %; usable: 0 to 100 %"))
        };
    }
    let written = written
        .trim_end_matches(" on center")
        .trim_end_matches(" oc")
        .trim();
    let spacing = units::parse(written, Dim::SmallLength)
        .or_else(|_| units::parse(written, Dim::Length))
        .map_err(|e| e.to_string())?;
    framing_share(framing, spacing).ok_or_else(|| {
        format!("{framing} every {written}; usable: 12 to 24 in (0.30 to 0.61 m), or a share in %")
    })
}

/// A thickness a layer can have.
fn thick(m: f64) -> Result<f64, String> {
    if m > 0.0 && m <= 5.0 {
        Ok(m)
    } else {
        Err(format!("a thickness of {m} m; usable: over 0 to 5 m"))
    }
}
