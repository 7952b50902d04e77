//! `[construction.x]`: build-ups from outside to inside.

use house::describe::{Construction, Layer};
use units::Dim;

use super::Desk;
use crate::cell::{Cell, Row, Value};
use crate::check::Says;
use crate::field::{Field, Kind, Table, may, must};
use crate::library;

pub(super) static TABLE: Table = Table {
    name: "construction",
    about: "A build-up from outside to inside, or one of the library",
    label: &["name"],
    assumed: true,
    fields: &[
        may(
            "like",
            Kind::Text,
            "Name of a whole build-up of the library",
        ),
        may(
            "layers",
            Kind::List(&Kind::TextOr(&LAYER), 1),
            "Layers, outside first: words of the library, R-values, or written out",
        ),
        may(
            "sun_absorptance",
            Kind::Q(Dim::Ratio, 0.0, 1.0),
            "Share of sun absorbed outside; 0.6 if not given",
        ),
        may(
            "emittance",
            Kind::Q(Dim::Ratio, 0.0, 1.0),
            "Longwave emittance outside; 0.9 if not given",
        ),
        may(
            "sun_absorptance_in",
            Kind::Q(Dim::Ratio, 0.0, 1.0),
            "Share of sun absorbed inside; 0.6 if not given",
        ),
        may(
            "emittance_in",
            Kind::Q(Dim::Ratio, 0.0, 1.0),
            "Longwave emittance inside; 0.9 if not given",
        ),
    ],
};

const K: Field = may("k", Kind::Q(Dim::Conductivity, 1e-3, 500.0), "Conductivity");
const DENSITY: Field = may(
    "density",
    Kind::Q(Dim::Density, 0.0, 20_000.0),
    "Density; 0 for no heat stored",
);
const CP: Field = may(
    "cp",
    Kind::Q(Dim::SpecificHeat, 0.0, 10_000.0),
    "Specific heat",
);

static LAYER: Table = Table {
    name: "layers",
    about: "A layer written out: solid (thickness, k, density, cp), a resistance (r), or framed \
            (thickness, framing_share, cavity, framing)",
    label: &[],
    assumed: false,
    fields: &[
        must("name", Kind::Text, "What it is"),
        may(
            "thickness",
            Kind::Q(Dim::SmallLength, 1e-4, 5.0),
            "Thickness",
        ),
        K,
        DENSITY,
        CP,
        may(
            "r",
            Kind::Q(Dim::RValue, 1e-4, 50.0),
            "Resistance of a layer without mass",
        ),
        may(
            "framing_share",
            Kind::Q(Dim::Share, 0.0, 1.0),
            "Share of the face that is framing",
        ),
        may("cavity", Kind::Sub(&STUFF), "What fills the cavities"),
        may("framing", Kind::Sub(&STUFF), "What the framing is"),
    ],
};

static STUFF: Table = Table {
    name: "cavity or framing",
    about: "A material",
    label: &[],
    assumed: false,
    fields: &[
        must("k", Kind::Q(Dim::Conductivity, 1e-3, 500.0), "Conductivity"),
        must("density", Kind::Q(Dim::Density, 0.0, 20_000.0), "Density"),
        must(
            "cp",
            Kind::Q(Dim::SpecificHeat, 0.0, 10_000.0),
            "Specific heat",
        ),
    ],
};

/// Usual share of sun absorbed and emittance: Standard 140 section 7, and common practice.
const USUAL_ABSORPTANCE: f64 = 0.6;
const USUAL_EMITTANCE: f64 = 0.9;

pub(super) fn read(row: &Row, desk: &mut Desk) -> Option<Construction> {
    let known = desk.known(row, format!("build-up of the {}", row.name));
    let mut made = match (row.text("like"), row.has("layers")) {
        (Some(name), false) => like(row, name, desk)?,
        (None, true) => Construction {
            name: String::new(),
            layers: row
                .list("layers")
                .iter()
                .filter_map(|c| layer(c, desk))
                .collect(),
            sun_absorptance_out: USUAL_ABSORPTANCE,
            emittance_out: USUAL_EMITTANCE,
            sun_absorptance_in: USUAL_ABSORPTANCE,
            emittance_in: USUAL_EMITTANCE,
            known,
        },
        (both, _) => {
            let says = Says::new(if both.is_some() {
                "this build-up is described twice"
            } else {
                "nothing says what this is built of"
            })
            .allowed("either `layers` or `like`")
            .mend("keep one of them");
            desk.at(row, "like", says);
            return None;
        }
    };
    made.name.clone_from(&row.name);
    made.known = known;
    for (key, slot) in [
        ("sun_absorptance", &mut made.sun_absorptance_out),
        ("emittance", &mut made.emittance_out),
        ("sun_absorptance_in", &mut made.sun_absorptance_in),
        ("emittance_in", &mut made.emittance_in),
    ] {
        if let Some(value) = row.si(key) {
            *slot = value;
        }
    }
    Some(made)
}

fn like(row: &Row, name: &str, desk: &mut Desk) -> Option<Construction> {
    match library::construction(name) {
        Ok(found) => Some(found),
        Err(says) => {
            desk.at(row, "like", says);
            None
        }
    }
}

fn layer(cell: &Cell, desk: &mut Desk) -> Option<Layer> {
    match &cell.value {
        Value::Text(text) => match library::layer(text) {
            Ok(layer) => Some(layer),
            Err(says) => {
                desk.problems.push(says.at(&cell.path, cell.span));
                None
            }
        },
        Value::Row(row) => written_out(row, desk),
        _ => None,
    }
}

fn written_out(row: &Row, desk: &mut Desk) -> Option<Layer> {
    let name = row.words("name");
    let solid = ["thickness", "k", "density", "cp"];
    let framed = ["thickness", "framing_share", "cavity", "framing"];
    let has = |keys: &[&str]| keys.iter().all(|k| row.has(k));
    let only = |keys: &[&str]| {
        row.cells
            .iter()
            .all(|(k, _)| *k == "name" || keys.contains(k))
    };
    if has(&["r"]) && only(&["r"]) {
        return Some(Layer::Resistance {
            name,
            r_m2k_per_w: row.si_or_0("r"),
        });
    }
    if has(&solid) && only(&solid) {
        return Some(Layer::Solid {
            name,
            thickness_m: row.si_or_0("thickness"),
            k_w_per_mk: row.si_or_0("k"),
            density_kg_per_m3: row.si_or_0("density"),
            cp_j_per_kgk: row.si_or_0("cp"),
        });
    }
    if has(&framed) && only(&framed) {
        let stuff = |key: &str| {
            row.row(key).map_or([0.0; 3], |r| {
                [r.si_or_0("k"), r.si_or_0("density"), r.si_or_0("cp")]
            })
        };
        return Some(Layer::Framed {
            name,
            thickness_m: row.si_or_0("thickness"),
            framing_share: row.si_or_0("framing_share"),
            cavity: stuff("cavity"),
            framing: stuff("framing"),
        });
    }
    let got: Vec<&str> = row.cells.iter().map(|(k, _)| *k).collect();
    let says = Says::new("a layer is solid, a resistance, or framed; this is none of the three")
        .got(got.join(", "))
        .allowed(format!(
            "{}; or r; or {}",
            solid.join(", "),
            framed.join(", ")
        ))
        .mend("give all the keys of one kind and none of the others");
    desk.problems.push(says.at(&row.path, row.span));
    None
}
