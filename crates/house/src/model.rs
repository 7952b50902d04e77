//! A house as the heat balance sees it: zones, faces, panes, openings, leaks. Made by
//! [`crate::geometry::model`] from a [`crate::describe::House`]; read by the balance, the design
//! loads and the drawings.

use crate::describe::{Construction, Gain, Glazing, Setting, Shade, Shelter, Soil, Stands, Use};
use reckon::Known;

/// The whole house.
#[derive(Debug, Clone, PartialEq)]
pub struct Model {
    /// Rooms first, in the order described, then made buffer spaces (attic, crawl).
    pub zones: Vec<Zone>,
    /// Opaque surfaces.
    pub surfaces: Vec<Surface>,
    /// Windows.
    pub panes: Vec<WindowPane>,
    /// Openings between zones.
    pub openings: Vec<Opening>,
    /// Constructions that surfaces refer to.
    pub constructions: Vec<Construction>,
    /// Glazings that panes refer to.
    pub glazings: Vec<Glazing>,
    /// Whole-house leakage.
    pub leak: Leak,
    /// Fans.
    pub vents: Vec<ZoneVent>,
    /// Soil.
    pub soil: Soil,
    /// Wind shelter.
    pub shelter: Shelter,
    /// Ground albedo.
    pub ground_albedo: f64,
    /// Inside films that are stated instead of worked out (test rooms).
    pub stated_films: Vec<StatedFilm>,
    /// Steps of the heat balance in an hour, at least 1.
    pub steps_an_hour: usize,
    /// Height of the top ceiling of heated rooms over grade, m.
    pub top_m: f64,
}

/// Inside film of all faces of a construction, as stated.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StatedFilm {
    /// Index into constructions.
    pub construction: usize,
    /// Convection, W/(m2 K).
    pub convection_w_per_m2k: f64,
    /// Longwave to the star of the room, W/(m2 K).
    pub radiant_w_per_m2k: f64,
}

/// A room, an unheated space, an attic or a crawl space: one air node.
#[derive(Debug, Clone, PartialEq)]
pub struct Zone {
    /// Name.
    pub name: String,
    /// Storey index; `None` for a made buffer.
    pub storey: Option<usize>,
    /// Index in the described rooms; `None` for a made buffer.
    pub room: Option<usize>,
    /// Floor area, m2.
    pub floor_m2: f64,
    /// Air volume, m3.
    pub volume_m3: f64,
    /// Height of its middle over grade, m.
    pub middle_m: f64,
    /// Heating thermostat.
    pub heated: Option<Setting>,
    /// Cooling thermostat.
    pub cooled: Option<Setting>,
    /// Internal gains.
    pub gains: Vec<Gain>,
    /// Heat capacity that follows the air: contents, J/K (air itself is added by the balance).
    pub contents_j_per_k: f64,
    /// Fixed outdoor air, m3/s: test houses, attics, garages. Heated rooms of a house with a
    /// blower-door test have 0 here and their share in `leak_share`.
    pub fixed_air_m3_per_s: f64,
    /// Share of the whole-house leakage coefficient (sum over zones 1, or all 0).
    pub leak_share: f64,
    /// What its share goes by: exposed area, m2, or where no room has any, volume, m3.
    pub leak_weight: f64,
    /// Use.
    pub used_for: Use,
    /// People usually there.
    pub people: f64,
}

/// What kind of surface, for film and report.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SurfaceKind {
    /// Outside wall.
    Wall,
    /// Wall below grade.
    BasementWall,
    /// Roof or ceiling under a roof.
    Roof,
    /// Ceiling to a space over it (its inside is the lower zone).
    Ceiling,
    /// Lowest floor.
    Floor,
    /// Floor between storeys seen from the upper zone.
    InnerFloor,
    /// Wall between zones.
    Partition,
    /// Outer door.
    Door,
}

/// An opaque surface. Its inside face looks into `zone`; `tilt_deg` is that of the outside face:
/// 0 faces up (roof), 90 a wall, 180 faces down (floor).
#[derive(Debug, Clone, PartialEq)]
pub struct Surface {
    /// Name for reports: `living.wall-south`.
    pub name: String,
    /// Zone its inside face looks into.
    pub zone: usize,
    /// Kind.
    pub kind: SurfaceKind,
    /// Net area without windows and doors, m2.
    pub area_m2: f64,
    /// Tilt of the outside face, degrees.
    pub tilt_deg: f64,
    /// Index into constructions. For [`Behind::Zone`] the construction's outside layer is at the
    /// other zone.
    pub construction: usize,
    /// What is behind.
    pub behind: Behind,
    /// Plan position of an outside wall: ends, m; for drawings and distances.
    pub ends_m: Option<[[f64; 2]; 2]>,
}

impl Surface {
    /// Its name as a person says it: `living, wall south`.
    pub fn called(&self) -> String {
        match self.name.rsplit_once('.') {
            Some((room, which)) => format!("{room}, {}", which.replace('-', " ")),
            None => self.name.clone(),
        }
    }
}

/// What is behind a surface.
#[derive(Debug, Clone, PartialEq)]
pub enum Behind {
    /// Outdoor air.
    Outdoor {
        /// Compass direction the face looks to, degrees.
        azimuth_deg: f64,
        /// Sun reaches it.
        sun: bool,
        /// Wind reaches it.
        wind: bool,
    },
    /// Another zone.
    Zone(usize),
    /// Ground: `construction` is followed by soil, then the virtual temperature of ISO 13370.
    Ground(crate::ground::GroundContact),
    /// No heat flow.
    Adiabatic,
}

/// A window (count already multiplied out into separate panes or area).
#[derive(Debug, Clone, PartialEq)]
pub struct WindowPane {
    /// Name for reports.
    pub name: String,
    /// Zone.
    pub zone: usize,
    /// Surface index of the wall it sits in.
    pub in_surface: usize,
    /// Total area of all alike, frame included, m2.
    pub area_m2: f64,
    /// Width of one, m.
    pub width_m: f64,
    /// Height of one, m.
    pub height_m: f64,
    /// Sill over the floor, m.
    pub sill_m: f64,
    /// How many.
    pub count: u32,
    /// Compass direction it faces, degrees.
    pub azimuth_deg: f64,
    /// Tilt, degrees (90 upright).
    pub tilt_deg: f64,
    /// Index into glazings.
    pub glazing: usize,
    /// Shading.
    pub shade: Shade,
    /// How known.
    pub known: Known,
}

/// An opening between two zones.
#[derive(Debug, Clone, PartialEq)]
pub struct Opening {
    /// The zones.
    pub zones: [usize; 2],
    /// Width, m.
    pub width_m: f64,
    /// Height, m.
    pub height_m: f64,
    /// How it usually stands.
    pub stands: Stands,
    /// Undercut, m.
    pub undercut_m: f64,
    /// Moved air when shut, m3/s.
    pub transfer_m3_per_s: f64,
}

/// Whole-house leakage by power law, `Q = c dP^n`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Leak {
    /// m3/(s Pa^n); 0 when only fixed air changes are given.
    pub c_m3_per_s_pa_n: f64,
    /// Flow of the test, m3/s, and its pressure, Pa; 0 without one.
    pub tested: (f64, f64),
    /// Exponent.
    pub n: f64,
    /// Height of the lowest leak over grade, m.
    pub bottom_m: f64,
    /// Height of the highest leak over grade, m.
    pub top_m: f64,
    /// How known.
    pub known: Known,
}

/// A fan into a zone.
#[derive(Debug, Clone, PartialEq)]
pub struct ZoneVent {
    /// Zone.
    pub zone: usize,
    /// Flow, m3/s.
    pub flow_m3_per_s: f64,
    /// Share of heat recovered.
    pub recovery: f64,
    /// Hours of the day it runs.
    pub on: [bool; 24],
}
