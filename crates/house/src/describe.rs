//! What a person says about a house: outlines, openings, layers, leakage. All SI. The reader of
//! the job file fills this; [`crate::geometry`] turns it into a [`crate::model::Model`].
//!
//! Plan coordinates: x to plan east, y to plan north, metres; `plan_north_deg` turns the plan.

mod build_up;

pub use build_up::{Construction, Gap, Gas, Glazing, GlazingData, Layer, Pane};

use reckon::Known;

/// A house as described.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct House {
    /// Compass direction (degrees from north, clockwise) of the plan's y axis.
    pub plan_north_deg: f64,
    /// Storeys, lowest first.
    pub storeys: Vec<Storey>,
    /// Rooms and unheated spaces drawn on a storey.
    pub rooms: Vec<Room>,
    /// Deviations of single walls: construction, or what is behind them.
    pub walls: Vec<WallNote>,
    /// Windows.
    pub windows: Vec<Window>,
    /// Doors to outside.
    pub outer_doors: Vec<OuterDoor>,
    /// Openings between rooms.
    pub doors: Vec<Door>,
    /// Constructions by name. Names with a set meaning: `wall`, `roof`, `ceiling`, `floor`
    /// (between storeys), `partition`, `slab`, `basement wall`, `open floor`, `attic roof`.
    pub constructions: Vec<Construction>,
    /// Glazings by name.
    pub glazings: Vec<Glazing>,
    /// Air leakage of the whole house.
    pub leakage: Leakage,
    /// Fans that bring in outdoor air.
    pub vents: Vec<Vent>,
    /// The ground under and around.
    pub soil: Soil,
    /// How open the site is to wind.
    pub shelter: Shelter,
    /// Share of sun the ground around reflects (0 to 1).
    pub ground_albedo: f64,
    /// Heat capacity of furniture and contents per floor area, J/(m2 K).
    pub furnishing_j_per_m2k: f64,
    /// Steps of the heat balance in an hour; 0 counts as 1.
    pub steps_an_hour: usize,
}

/// A storey: rooms on it share floor level and ceiling height.
#[derive(Debug, Clone, PartialEq)]
pub struct Storey {
    /// Name, unique.
    pub name: String,
    /// Floor level above grade, m; below zero for a basement.
    pub floor_m: f64,
    /// Room height, m.
    pub ceiling_m: f64,
    /// What is under those parts of this storey that have no room under them.
    pub under: Under,
    /// What is over those parts of this storey that have no room over them.
    pub over: Over,
}

/// What a lowest floor stands on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Under {
    /// Slab on grade, or the basement floor where the storey's floor is below grade.
    #[default]
    Ground,
    /// Open air under the floor (piers, a cantilever): wind but no sun.
    OpenAir,
    /// As `OpenAir`, sheltered also from wind (the raised floor of Standard 140).
    StillAir,
    /// Vented crawl space: a buffer space of its own on the ground.
    Crawl,
    /// No heat flow.
    Adiabatic,
}

/// What is over a top ceiling.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum Over {
    /// Vented attic under a pitched roof: a buffer space of its own.
    #[default]
    Attic,
    /// The `roof` construction directly, flat.
    FlatRoof,
    /// The `roof` construction directly, sloped by this pitch (degrees) to the two long sides.
    Sloped {
        /// Pitch, degrees from level.
        pitch_deg: f64,
    },
    /// No heat flow.
    Adiabatic,
}

/// A room or an unheated space, by outline.
#[derive(Debug, Clone, PartialEq)]
pub struct Room {
    /// Name, unique.
    pub name: String,
    /// Name of its storey.
    pub storey: String,
    /// Corners in order, m. Either direction of turning; not repeated at the end.
    pub outline: Vec<[f64; 2]>,
    /// Own ceiling height, m, where it differs from the storey's.
    pub ceiling_m: Option<f64>,
    /// Thermostat, if the room is meant to be heated; `None` is an unheated space (garage, porch).
    pub heated: Option<Setting>,
    /// Cooling setting, where meant to be cooled.
    pub cooled: Option<Setting>,
    /// Heat from people and appliances.
    pub gains: Vec<Gain>,
    /// What the room is used for; changes which rules look at it.
    pub used_for: Use,
    /// Number of people usually there at night or by day, for moisture and gains.
    pub people: f64,
    /// Outdoor air that enters an unheated space, 1/h (vented garage, porch). Heated rooms: the
    /// house leakage.
    pub own_air_changes_per_h: Option<f64>,
}

/// What a room is used for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Use {
    /// Living, dining, family room.
    #[default]
    Living,
    /// A place to sleep.
    Sleeping,
    /// Kitchen.
    Kitchen,
    /// Bath or laundry.
    Bath,
    /// Hall, stairs.
    Passage,
    /// Basement, garage, store.
    Storage,
}

/// A thermostat over the hours of the day.
#[derive(Debug, Clone, PartialEq)]
pub struct Setting {
    /// C for each of 24 hours; `None` means off in that hour.
    pub by_hour_c: [Option<f64>; 24],
    /// In these hours the setting moves in a straight line from the hour before to its own value,
    /// which it reaches at the end.
    pub ramps: [bool; 24],
}

impl Setting {
    /// The same temperature all day.
    pub fn always(c: f64) -> Self {
        Self {
            by_hour_c: [Some(c); 24],
            ramps: [false; 24],
        }
    }

    /// The setting in an hour, `part` (0 to 1) of the way through it.
    pub fn at(&self, hour: usize, part: f64) -> Option<f64> {
        let now = self.by_hour_c[hour % 24]?;
        match self.by_hour_c[(hour + 23) % 24] {
            Some(before) if self.ramps[hour % 24] => Some(before + part * (now - before)),
            _ => Some(now),
        }
    }
}

/// Heat set free inside.
#[derive(Debug, Clone, PartialEq)]
pub struct Gain {
    /// W for each hour of the day.
    pub by_hour_w: [f64; 24],
    /// Share that is radiant (0 to 1).
    pub radiant: f64,
}

/// One wall of a room that is not like the rest.
#[derive(Debug, Clone, PartialEq)]
pub struct WallNote {
    /// Room name.
    pub room: String,
    /// Which wall: see [`Side`].
    pub side: Side,
    /// Name of a construction, if not the usual.
    pub construction: Option<String>,
    /// Treat as without heat flow (a shared wall to a heated neighbour).
    pub adiabatic: bool,
    /// No sun reaches it.
    pub no_sun: bool,
}

/// Which wall of a room is meant.
#[derive(Debug, Clone, PartialEq)]
pub enum Side {
    /// By plan direction it faces: `north`, `east`, `south`, `west`. Must be unique in the room.
    Facing(Compass),
    /// By number: the wall from corner n to corner n+1 of the outline, counted from 1.
    Number(usize),
}

/// Plan directions (the plan's y axis is north).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Compass {
    /// +y
    North,
    /// +x
    East,
    /// -y
    South,
    /// -x
    West,
}

/// A window in an outside wall (or, `in_roof`, in the roof over the room).
#[derive(Debug, Clone, PartialEq)]
pub struct Window {
    /// Name for reports; made from room and wall where the person gave none.
    pub name: String,
    /// Room name.
    pub room: String,
    /// Which wall.
    pub side: Side,
    /// Width of one, m.
    pub width_m: f64,
    /// Height of one, m.
    pub height_m: f64,
    /// Sill above the floor, m.
    pub sill_m: f64,
    /// Distance of its left edge (seen from inside) from the wall's left end, m, where known.
    pub from_left_m: Option<f64>,
    /// How many alike.
    pub count: u32,
    /// Name of the glazing.
    pub glazing: String,
    /// Outside shading.
    pub shade: Shade,
    /// How width, height and glazing are known.
    pub known: Known,
}

/// Fixed shading around a window, m. Zero depth is none.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Shade {
    /// How far the overhang stands out.
    pub overhang_depth_m: f64,
    /// Gap between window head and overhang.
    pub overhang_gap_m: f64,
    /// How far the overhang reaches past each side of the window.
    pub overhang_past_m: f64,
    /// How far the side fins stand out.
    pub fin_depth_m: f64,
    /// Gap between window edge and fin.
    pub fin_gap_m: f64,
    /// How far the fins reach above the window head.
    pub fin_above_m: f64,
    /// How far the fins reach below the sill.
    pub fin_below_m: f64,
}

/// A door to outside.
#[derive(Debug, Clone, PartialEq)]
pub struct OuterDoor {
    /// Room name.
    pub room: String,
    /// Which wall.
    pub side: Side,
    /// Width, m.
    pub width_m: f64,
    /// Height, m.
    pub height_m: f64,
    /// Transmittance, W/(m2 K), films included.
    pub u_w_per_m2k: f64,
    /// How it is known.
    pub known: Known,
}

/// An opening between two rooms.
#[derive(Debug, Clone, PartialEq)]
pub struct Door {
    /// The two rooms.
    pub rooms: [String; 2],
    /// Clear width, m.
    pub width_m: f64,
    /// Clear height, m.
    pub height_m: f64,
    /// How it usually stands.
    pub stands: Stands,
    /// Gap under the leaf, m.
    pub undercut_m: f64,
    /// Air moved each way through a grille or fan when shut, m3/s.
    pub transfer_m3_per_s: f64,
}

/// How a door stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Stands {
    /// Open.
    #[default]
    Open,
    /// Ajar: a gap of a hand's width.
    Ajar,
    /// Shut.
    Closed,
}

/// Air leakage of the heated volume.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Leakage {
    /// From a blower-door test.
    BlowerDoor {
        /// Flow at the test pressure, m3/s.
        flow_m3_per_s: f64,
        /// Test pressure, Pa.
        at_pa: f64,
        /// Exponent, 0.5 to 1.
        exponent: f64,
        /// How it is known.
        known: Known,
    },
    /// A fixed number of air changes, as test houses ask.
    Fixed {
        /// Air changes per hour of each room.
        per_h: f64,
    },
}

impl Default for Leakage {
    fn default() -> Self {
        Leakage::Fixed { per_h: 0.0 }
    }
}

/// A fan that brings outdoor air into a room.
#[derive(Debug, Clone, PartialEq)]
pub struct Vent {
    /// Room name; empty means all heated rooms by volume.
    pub room: String,
    /// Flow, m3/s.
    pub flow_m3_per_s: f64,
    /// Share of heat recovered (0 to 1).
    pub recovery: f64,
    /// On in these hours of the day.
    pub on: [bool; 24],
}

/// The ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Soil {
    /// Conductivity, W/(m K).
    pub k_w_per_mk: f64,
    /// Heat capacity per volume, J/(m3 K).
    pub capacity_j_per_m3k: f64,
    /// Wall thickness at the edge, m.
    pub wall_thickness_m: f64,
}

impl Soil {
    /// Kinds of ISO 13370 table 7: word, conductivity, W/(m K), heat capacity, J/(m3 K). Clay or
    /// silt, sand or gravel, homogeneous rock.
    pub const KINDS: [(&'static str, f64, f64); 3] = [
        ("clay", 1.5, 3.0e6),
        ("sand", 2.0, 2.0e6),
        ("rock", 3.5, 2.0e6),
    ];
}

impl Default for Soil {
    /// Sand or gravel.
    fn default() -> Self {
        let (_, k_w_per_mk, capacity_j_per_m3k) = Self::KINDS[1];
        Self {
            k_w_per_mk,
            capacity_j_per_m3k,
            wall_thickness_m: 0.3,
        }
    }
}

/// How open the site is to wind.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Shelter {
    /// No obstructions at all.
    Open,
    /// Flat land, scattered obstacles.
    Country,
    /// Suburb: houses and trees about.
    #[default]
    Suburban,
    /// Close-built town.
    Town,
    /// No wind at all (test houses).
    NoWind,
}
