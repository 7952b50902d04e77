//! What walls and windows are made of.

use reckon::Known;

/// A build-up from outside to inside.
#[derive(Debug, Clone, PartialEq)]
pub struct Construction {
    /// Name.
    pub name: String,
    /// Layers, outside first. Films are not layers.
    pub layers: Vec<Layer>,
    /// Share of sun absorbed outside.
    pub sun_absorptance_out: f64,
    /// Longwave emittance outside.
    pub emittance_out: f64,
    /// Share of sun absorbed inside.
    pub sun_absorptance_in: f64,
    /// Longwave emittance inside.
    pub emittance_in: f64,
    /// How it is known.
    pub known: Known,
}

/// A layer of a build-up.
#[derive(Debug, Clone, PartialEq)]
pub enum Layer {
    /// A solid layer.
    Solid {
        /// What it is, for reports.
        name: String,
        /// Thickness, m.
        thickness_m: f64,
        /// Conductivity, W/(m K).
        k_w_per_mk: f64,
        /// Density, kg/m3. Zero: no heat stored.
        density_kg_per_m3: f64,
        /// Specific heat, J/(kg K).
        cp_j_per_kgk: f64,
    },
    /// A layer of resistance without mass (air space, typed R).
    Resistance {
        /// What it is, for reports.
        name: String,
        /// m2 K/W.
        r_m2k_per_w: f64,
    },
    /// A layer crossed by framing: cavity fill between studs.
    Framed {
        /// What it is, for reports.
        name: String,
        /// Thickness, m.
        thickness_m: f64,
        /// Share of the face that is framing (0 to 1).
        framing_share: f64,
        /// Cavity: conductivity, density, specific heat.
        cavity: [f64; 3],
        /// Framing: conductivity, density, specific heat.
        framing: [f64; 3],
    },
}

/// A glazing, from its label or from its layers.
#[derive(Debug, Clone, PartialEq)]
pub struct Glazing {
    /// Name.
    pub name: String,
    /// What is known of it.
    pub made_of: GlazingData,
    /// Share of the window that is frame, 0 where the values are for the whole window.
    pub frame_share: f64,
    /// Frame transmittance, W/(m2 K), films included.
    pub frame_u_w_per_m2k: f64,
    /// How it is known.
    pub known: Known,
}

/// Label values or panes.
#[derive(Debug, Clone, PartialEq)]
pub enum GlazingData {
    /// Whole-window values from the label.
    Label {
        /// Transmittance, W/(m2 K), at the rating's winter condition.
        u_w_per_m2k: f64,
        /// Solar heat gain coefficient at normal incidence.
        shgc: f64,
        /// Panes, 1 to 4: shapes the dependence on angle.
        panes: u32,
    },
    /// Panes from outside to inside, with gaps between them.
    Panes {
        /// Panes, outside first.
        panes: Vec<Pane>,
        /// Gaps; one fewer than panes.
        gaps: Vec<Gap>,
    },
}

/// A pane of glass.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pane {
    /// Thickness, m.
    pub thickness_m: f64,
    /// Conductivity, W/(m K).
    pub k_w_per_mk: f64,
    /// Solar transmittance at normal incidence.
    pub sun_transmittance: f64,
    /// Solar reflectance at normal incidence, outer face.
    pub sun_reflectance_out: f64,
    /// Solar reflectance at normal incidence, inner face.
    pub sun_reflectance_in: f64,
    /// Longwave emittance, outer face.
    pub emittance_out: f64,
    /// Longwave emittance, inner face.
    pub emittance_in: f64,
}

/// A gap between panes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gap {
    /// Width, m.
    pub width_m: f64,
    /// Filling.
    pub gas: Gas,
    /// Resistance of the gap, m2 K/W, where it is stated; else worked out from width and filling.
    pub stated_r_m2k_per_w: Option<f64>,
}

/// Gap fillings.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Gas {
    /// Air.
    #[default]
    Air,
    /// Argon.
    Argon,
}
