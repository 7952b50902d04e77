//! The model while it is being made.

use super::problem::GeometryError;
use super::shape::Edge;
use crate::describe::House;
use crate::model::{Behind, Leak, Model, Opening, Surface, SurfaceKind, Zone, ZoneVent};
use geo::MultiPolygon;
use reckon::Known;

/// A room with its outline made ready.
#[derive(Debug, Clone)]
pub(super) struct Placed {
    /// Storey index.
    pub storey: usize,
    /// Floor over grade, m.
    pub floor_m: f64,
    /// Room height, m.
    pub height_m: f64,
    /// Edges, room on the left.
    pub edges: Vec<Edge>,
    /// Outline as polygon.
    pub plan: MultiPolygon<f64>,
    /// Floor area, m2.
    pub area_m2: f64,
}

impl Placed {
    /// Length of all edges, m.
    pub fn perimeter_m(&self) -> f64 {
        self.edges.iter().map(|e| e.length_m).sum()
    }
}

/// A stretch of an edge with one thing behind it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Run {
    /// Start along the edge, m.
    pub from_m: f64,
    /// End along the edge, m.
    pub to_m: f64,
    /// Room and edge behind; none is outside.
    pub other: Option<(usize, usize)>,
}

/// A room over another: upper, lower, common area.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Stacked {
    /// Upper room.
    pub upper: usize,
    /// Lower room.
    pub lower: usize,
    /// Common area, m2.
    pub area_m2: f64,
}

/// A surface of a wall that openings can be cut from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct WallPiece {
    /// Room.
    pub room: usize,
    /// Edge of the room.
    pub edge: usize,
    /// The other room and its edge for a partition.
    pub other: Option<(usize, usize)>,
    /// Surface index.
    pub surface: usize,
    /// Along the edge, m.
    pub from_m: f64,
    /// Along the edge, m.
    pub to_m: f64,
    /// Bottom over the room's floor, m.
    pub low_m: f64,
    /// Top over the room's floor, m.
    pub high_m: f64,
    /// Whole area, m2.
    pub gross_m2: f64,
    /// Area taken by openings, m2.
    pub cut_m2: f64,
}

/// The model while it is being made. Stages add to it in the order of [`super::model`].
pub(super) struct Draft<'a> {
    pub house: &'a House,
    pub placed: Vec<Placed>,
    pub bad: Vec<GeometryError>,
    pub model: Model,
    /// For each room, for each edge: its runs.
    pub runs: Vec<Vec<Vec<Run>>>,
    pub stacked: Vec<Stacked>,
    /// Edges noted as without heat flow: room, edge.
    pub no_flow: Vec<(usize, usize)>,
    /// Parts of each room with no room over them.
    pub open_over: Vec<MultiPolygon<f64>>,
    /// Parts of each room with no room under them.
    pub open_under: Vec<MultiPolygon<f64>>,
    pub pieces: Vec<WallPiece>,
    /// Area of each room that faces outdoor air or a vented space, openings included, m2.
    pub exposed_m2: Vec<f64>,
    /// Door leaves: construction, and the rooms whose doors are of it.
    pub leaves: Vec<(usize, Vec<usize>)>,
}

impl<'a> Draft<'a> {
    pub fn new(house: &'a House, placed: Vec<Placed>) -> Self {
        let rooms = placed.len();
        Self {
            house,
            placed,
            bad: Vec::new(),
            model: Model {
                zones: Vec::new(),
                surfaces: Vec::new(),
                panes: Vec::new(),
                openings: Vec::<Opening>::new(),
                constructions: house.constructions.clone(),
                glazings: house.glazings.clone(),
                leak: Leak {
                    c_m3_per_s_pa_n: 0.0,
                    tested: (0.0, 0.0),
                    n: 0.65,
                    bottom_m: 0.0,
                    top_m: 0.0,
                    known: Known::Assumed,
                },
                vents: Vec::<ZoneVent>::new(),
                soil: house.soil,
                shelter: house.shelter,
                ground_albedo: house.ground_albedo,
                stated_films: Vec::new(),
                steps_an_hour: house.steps_an_hour.max(1),
                top_m: 0.0,
            },
            runs: Vec::new(),
            stacked: Vec::new(),
            no_flow: Vec::new(),
            open_over: Vec::new(),
            open_under: Vec::new(),
            pieces: Vec::new(),
            exposed_m2: vec![0.0; rooms],
            leaves: Vec::new(),
        }
    }

    /// One zone a room, in order; a zone index below the number of rooms is a room index.
    pub fn place_zones(&mut self) {
        for (i, (r, p)) in self.house.rooms.iter().zip(&self.placed).enumerate() {
            self.model.zones.push(Zone {
                name: r.name.clone(),
                storey: Some(p.storey),
                room: Some(i),
                floor_m2: p.area_m2,
                volume_m3: p.area_m2 * p.height_m,
                middle_m: p.floor_m + 0.5 * p.height_m,
                heated: r.heated.clone(),
                cooled: r.cooled.clone(),
                gains: r.gains.clone(),
                contents_j_per_k: self.house.furnishing_j_per_m2k * p.area_m2,
                fixed_air_m3_per_s: 0.0,
                leak_share: 0.0,
                leak_weight: 0.0,
                used_for: r.used_for,
                people: r.people,
            });
        }
    }

    /// Name of a room.
    pub fn name(&self, room: usize) -> &str {
        self.house.rooms.get(room).map_or("", |r| r.name.as_str())
    }

    /// Is the room meant to be heated?
    pub fn heated(&self, room: usize) -> bool {
        self.house
            .rooms
            .get(room)
            .is_some_and(|r| r.heated.is_some())
    }

    /// Unheated with outdoor air of its own (garage, porch): outside the insulated envelope.
    pub fn vented(&self, room: usize) -> bool {
        self.house.rooms.get(room).is_some_and(|r| {
            r.heated.is_none()
                && r.cooled.is_none()
                && r.own_air_changes_per_h.is_some_and(|n| n > 0.0)
        })
    }

    /// Compass direction of a plan direction.
    pub fn compass_deg(&self, plan_deg: f64) -> f64 {
        super::shape::clean_deg(plan_deg + self.house.plan_north_deg)
    }

    /// Adds a surface without plan position; its tilt is the usual one of its kind.
    pub fn flat(
        &mut self,
        name: String,
        zone: usize,
        kind: SurfaceKind,
        area_m2: f64,
        construction: usize,
        behind: Behind,
    ) {
        let tilt_deg = match kind {
            SurfaceKind::Roof | SurfaceKind::Ceiling => 0.0,
            SurfaceKind::Floor | SurfaceKind::InnerFloor => 180.0,
            _ => 90.0,
        };
        self.model.surfaces.push(Surface {
            name,
            zone,
            kind,
            area_m2,
            tilt_deg,
            construction,
            behind,
            ends_m: None,
        });
    }

    /// Tilts the surface added last.
    pub fn tilt_last(&mut self, tilt_deg: f64) {
        if let Some(s) = self.model.surfaces.last_mut() {
            s.tilt_deg = tilt_deg;
        }
    }

    /// Adds a made buffer zone; gives its index.
    pub fn buffer(&mut self, wanted: &str, floor_m2: f64, volume_m3: f64, middle_m: f64) -> usize {
        let mut name = wanted.to_owned();
        while self.model.zones.iter().any(|z| z.name == name) {
            name.push_str(" space");
        }
        self.model.zones.push(Zone {
            name,
            storey: None,
            room: None,
            floor_m2,
            volume_m3,
            middle_m,
            heated: None,
            cooled: None,
            gains: Vec::new(),
            contents_j_per_k: 0.0,
            fixed_air_m3_per_s: 0.0,
            leak_share: 0.0,
            leak_weight: 0.0,
            used_for: crate::describe::Use::Storage,
            people: 0.0,
        });
        self.model.zones.len() - 1
    }

    /// The model, or all that was found wrong.
    pub fn finish(self) -> Result<Model, Vec<GeometryError>> {
        if self.bad.is_empty() {
            Ok(self.model)
        } else {
            Err(self.bad)
        }
    }
}
