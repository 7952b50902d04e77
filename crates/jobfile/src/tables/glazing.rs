//! `[glazing.x]`: glazings from the label or from panes.

use house::describe::{Gap, Gas, Glazing, GlazingData, Pane};
use reckon::Known;
use units::Dim;

use super::Desk;
use crate::cell::Row;
use crate::check::Says;
use crate::field::{Field, Kind, Table, may, must, usual};
use crate::{Job, library};

const U: Field = may(
    "u",
    Kind::Q(Dim::UValue, 0.2, 8.0),
    "U-value from the label",
);
const SHGC: Field = may(
    "shgc",
    Kind::Q(Dim::Ratio, 0.0, 1.0),
    "Solar heat gain coefficient from the label",
);
const PANES: Field = usual(
    "panes",
    Kind::Whole(1, 4),
    "2",
    "Number of panes; shapes the dependence on angle",
);

pub(super) static TABLE: Table = Table {
    name: "glazing",
    about: "A glazing: by its label (u, shgc), by its panes, or like one of the library",
    label: &["name"],
    assumed: true,
    fields: &[
        U,
        SHGC,
        PANES,
        may("like", Kind::Text, "Name of a glazing of the library"),
        may(
            "layers",
            Kind::List(&Kind::Sub(&PANE), 1),
            "Panes, outside first",
        ),
        may("gaps", Kind::List(&Kind::Sub(&GAP), 1), "Gaps between them"),
        usual(
            "frame_share",
            Kind::Q(Dim::Share, 0.0, 0.9),
            "0",
            "Share of the window that is frame; 0 where the values are for the whole window",
        ),
        usual(
            "frame_u",
            Kind::Q(Dim::UValue, 0.1, 12.0),
            "0.35 Btu/(h ft2 F)",
            "U-value of the frame",
        ),
    ],
};

/// A label written at the window itself.
pub(super) static INLINE: Table = Table {
    name: "glazing",
    about: "A glazing by its label",
    label: &[],
    assumed: false,
    fields: &[
        must(
            "u",
            Kind::Q(Dim::UValue, 0.2, 8.0),
            "U-value from the label",
        ),
        must(
            "shgc",
            Kind::Q(Dim::Ratio, 0.0, 1.0),
            "Solar heat gain coefficient from the label",
        ),
        PANES,
    ],
};

static PANE: Table = Table {
    name: "layers",
    about: "A pane of glass",
    label: &[],
    assumed: false,
    fields: &[
        must(
            "thickness",
            Kind::Q(Dim::SmallLength, 1e-4, 0.1),
            "Thickness",
        ),
        usual(
            "k",
            Kind::Q(Dim::Conductivity, 0.1, 5.0),
            "1 W/(m K)",
            "Conductivity",
        ),
        must(
            "transmittance",
            Kind::Q(Dim::Ratio, 0.0, 1.0),
            "Solar transmittance, straight on",
        ),
        must(
            "reflectance",
            Kind::Q(Dim::Ratio, 0.0, 1.0),
            "Solar reflectance, outer face",
        ),
        may(
            "reflectance_in",
            Kind::Q(Dim::Ratio, 0.0, 1.0),
            "Of the inner face; the same if not given",
        ),
        usual(
            "emittance",
            Kind::Q(Dim::Ratio, 0.01, 1.0),
            "0.84",
            "Longwave emittance, outer face",
        ),
        may(
            "emittance_in",
            Kind::Q(Dim::Ratio, 0.01, 1.0),
            "Of the inner face; the same if not given",
        ),
    ],
};

static GAP: Table = Table {
    name: "gaps",
    about: "A gap between panes",
    label: &[],
    assumed: false,
    fields: &[
        must("width", Kind::Q(Dim::SmallLength, 1e-3, 0.3), "Width"),
        usual("gas", Kind::Word(&["air", "argon"]), "air", "Filling"),
        may(
            "r",
            Kind::Q(Dim::RValue, 0.01, 5.0),
            "Resistance of the gap, where it is stated; else worked out from width and filling",
        ),
    ],
};

/// The named glazings.
pub(super) fn read<'r>(rows: impl Iterator<Item = &'r Row>, job: &mut Job, desk: &mut Desk) {
    for row in rows {
        let known = desk.known(row, format!("glazing {}", row.name));
        if let Some(glazing) = one(row, known, desk) {
            job.house.glazings.push(glazing);
        }
    }
}

fn one(row: &Row, known: Known, desk: &mut Desk) -> Option<Glazing> {
    let label = row.has("u") || row.has("shgc");
    let layers = row.has("layers");
    let like = row.has("like");
    if usize::from(label) + usize::from(layers) + usize::from(like) != 1 {
        let says = Says::new(if label || layers || like {
            "this glazing is described in more than one way"
        } else {
            "nothing says what this glazing is"
        })
        .allowed("one of: `u` with `shgc`; `layers` with `gaps`; `like`")
        .mend("keep one of them");
        desk.at(row, "like", says);
        return None;
    }
    if like {
        let found = from_library(row, "like", row.text("like")?, known, desk)?;
        return Some(Glazing {
            name: row.name.clone(),
            ..found
        });
    }
    let made_of = if label {
        if !(row.has("u") && row.has("shgc")) {
            let says = Says::new("a label has both a U-value and a solar heat gain coefficient")
                .allowed("both `u` and `shgc`")
                .mend("add the one that is missing");
            desk.at(row, "u", says);
            return None;
        }
        of_label(row)
    } else {
        of_panes(row, desk)?
    };
    Some(Glazing {
        name: row.name.clone(),
        made_of,
        frame_share: row.si_or_0("frame_share"),
        frame_u_w_per_m2k: row.si_or_0("frame_u"),
        known,
    })
}

fn of_label(row: &Row) -> GlazingData {
    GlazingData::Label {
        u_w_per_m2k: row.si_or_0("u"),
        shgc: row.si_or_0("shgc"),
        panes: row
            .whole("panes")
            .and_then(|n| u32::try_from(n).ok())
            .unwrap_or(2),
    }
}

fn of_panes(row: &Row, desk: &mut Desk) -> Option<GlazingData> {
    let panes: Vec<Pane> = row.rows("layers").map(pane).collect();
    let gaps: Vec<Gap> = row.rows("gaps").map(gap).collect();
    for inner in row.rows("layers") {
        let (t, r) = (inner.si_or_0("transmittance"), inner.si_or_0("reflectance"));
        let most = r.max(inner.si("reflectance_in").unwrap_or(r));
        if t + most > 1.0 {
            let says = Says::new("a pane cannot pass and throw back more sun than falls on it")
                .got(format!("transmittance {t} and reflectance {most}"))
                .allowed("a sum of 1 at most")
                .mend("check both figures");
            desk.at(inner, "transmittance", says);
        }
    }
    if panes.len() != gaps.len() + 1 {
        let says = Says::new("between panes there are gaps, one fewer than panes")
            .got(format!("{} panes and {} gaps", panes.len(), gaps.len()))
            .allowed(format!("{} gaps", panes.len().saturating_sub(1)))
            .mend("add or take out gaps");
        desk.at(row, "layers", says);
        return None;
    }
    Some(GlazingData::Panes { panes, gaps })
}

fn pane(row: &Row) -> Pane {
    let reflectance = row.si_or_0("reflectance");
    let emittance = row.si_or_0("emittance");
    Pane {
        thickness_m: row.si_or_0("thickness"),
        k_w_per_mk: row.si_or_0("k"),
        sun_transmittance: row.si_or_0("transmittance"),
        sun_reflectance_out: reflectance,
        sun_reflectance_in: row.si("reflectance_in").unwrap_or(reflectance),
        emittance_out: emittance,
        emittance_in: row.si("emittance_in").unwrap_or(emittance),
    }
}

fn gap(row: &Row) -> Gap {
    let gas = if row.text("gas") == Some("argon") {
        Gas::Argon
    } else {
        Gas::Air
    };
    Gap {
        width_m: row.si_or_0("width"),
        gas,
        stated_r_m2k_per_w: row.si("r"),
    }
}

/// The glazing of a window: one of the job's, one of the library, or a label of its own. Gives
/// its name; brings it into the house where it is not yet.
pub(super) fn of_window(row: &Row, known: Known, job: &mut Job, desk: &mut Desk) -> String {
    if let Some(label) = row.row("glazing") {
        let name = format!("of {}", row.name);
        job.house.glazings.push(Glazing {
            name: name.clone(),
            made_of: of_label(label),
            frame_share: 0.0,
            frame_u_w_per_m2k: 0.0,
            known,
        });
        return name;
    }
    let Some(name) = row.text("glazing") else {
        return String::new();
    };
    if !job.house.glazings.iter().any(|g| g.name == name)
        && let Some(found) = from_library(row, "glazing", name, known, desk)
    {
        job.house.glazings.push(Glazing {
            name: name.to_owned(),
            ..found
        });
    }
    name.to_owned()
}

fn from_library(
    row: &Row,
    key: &str,
    name: &str,
    known: Known,
    desk: &mut Desk,
) -> Option<Glazing> {
    match library::glazing(name) {
        Ok(found) => Some(Glazing { known, ..found }),
        Err(says) => {
            desk.at(row, key, says);
            None
        }
    }
}
