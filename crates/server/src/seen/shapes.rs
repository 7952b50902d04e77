//! Where walls, windows and doors stand on the plan, so that a page can draw them.

use house::describe::Stands;
use house::model::{Behind, Model, Surface, SurfaceKind};
use jobfile::Job;
use reckon::Known;
use serde::Serialize;
use utoipa::ToSchema;

/// A storey.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct StoreyView {
    /// Name.
    pub name: String,
    /// Floor above grade, m.
    pub floor_m: f64,
    /// Room height, m.
    pub ceiling_m: f64,
}

/// An outside wall.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct WallView {
    /// Name: `living.wall-south`.
    pub name: String,
    /// Room.
    pub room: String,
    /// Storey.
    pub storey: String,
    /// `outdoor`, `ground`, `unheated` (another space), `no heat flow`.
    pub behind: String,
    /// Name of the space behind, where there is one.
    pub behind_room: String,
    /// Compass direction it faces, degrees from north, where it faces outdoors.
    pub faces_deg: Option<f64>,
    /// Below grade.
    pub below_grade: bool,
    /// Its ends, m, with the room on the left.
    pub ends_m: [[f64; 2]; 2],
    /// Area without windows and doors, m2.
    pub area_m2: f64,
    /// Construction.
    pub construction: String,
}

/// A window.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct WindowView {
    /// Name, as in paths: `window.living south`.
    pub name: String,
    /// Path in the job.
    pub path: String,
    /// Room.
    pub room: String,
    /// Storey.
    pub storey: String,
    /// Its ends on the plan, m; one entry for each of several alike.
    pub spans_m: Vec<[[f64; 2]; 2]>,
    /// Whether the job says where along the wall it stands; otherwise spread evenly.
    pub placed: bool,
    /// Width of one, m.
    pub width_m: f64,
    /// Height of one, m.
    pub height_m: f64,
    /// Sill over the floor, m.
    pub sill_m: f64,
    /// How many alike.
    pub count: u32,
    /// Compass direction it faces, degrees from north.
    pub faces_deg: f64,
    /// Glazing.
    pub glazing: String,
    /// seen, label, assumed.
    pub known: String,
}

/// A door or opening between two rooms.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct DoorView {
    /// The rooms.
    pub rooms: [String; 2],
    /// Storey of the first.
    pub storey: String,
    /// Its ends on the plan, m: the middle of the edge both rooms share; null where they share
    /// none (a stair).
    pub span_m: Option<[[f64; 2]; 2]>,
    /// Clear width, m.
    pub width_m: f64,
    /// How it usually stands: open, ajar, closed.
    pub usually: String,
    /// Gap under the leaf, m.
    pub undercut_m: f64,
}

/// A door to outside.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct OuterDoorView {
    /// Room.
    pub room: String,
    /// Wall as the job says: `south`, or its number.
    pub wall: String,
    /// Width, m.
    pub width_m: f64,
    /// Height, m.
    pub height_m: f64,
}

pub fn storeys(job: &Job) -> Vec<StoreyView> {
    let of = |s: &house::describe::Storey| StoreyView {
        name: s.name.clone(),
        floor_m: s.floor_m,
        ceiling_m: s.ceiling_m,
    };
    job.house.storeys.iter().map(of).collect()
}

fn room_and_storey(model: &Model, job: &Job, zone: usize) -> (String, String) {
    let Some(z) = model.zones.get(zone) else {
        return (String::new(), String::new());
    };
    let storey = z.storey.and_then(|s| job.house.storeys.get(s));
    (
        z.name.clone(),
        storey.map_or(String::new(), |s| s.name.clone()),
    )
}

pub fn walls(model: &Model, job: &Job) -> Vec<WallView> {
    model
        .surfaces
        .iter()
        .filter_map(|s| {
            let ends_m = s.ends_m?;
            let (room, storey) = room_and_storey(model, job, s.zone);
            let (behind, behind_room, faces_deg) = behind(model, s);
            Some(WallView {
                name: s.name.clone(),
                room,
                storey,
                behind: behind.to_owned(),
                behind_room,
                faces_deg,
                below_grade: s.kind == SurfaceKind::BasementWall,
                ends_m,
                area_m2: s.area_m2,
                construction: model
                    .constructions
                    .get(s.construction)
                    .map_or(String::new(), |c| c.name.clone()),
            })
        })
        .collect()
}

fn behind(model: &Model, of: &Surface) -> (&'static str, String, Option<f64>) {
    match &of.behind {
        Behind::Outdoor { azimuth_deg, .. } => ("outdoor", String::new(), Some(*azimuth_deg)),
        Behind::Zone(z) => {
            let name = model.zones.get(*z).map(|z| z.name.clone());
            ("unheated", name.unwrap_or_default(), None)
        }
        Behind::Ground(_) => ("ground", String::new(), None),
        Behind::Adiabatic => ("no heat flow", String::new(), None),
    }
}

fn along([a, b]: [[f64; 2]; 2], part: f64) -> [f64; 2] {
    [a[0] + part * (b[0] - a[0]), a[1] + part * (b[1] - a[1])]
}

fn length([a, b]: [[f64; 2]; 2]) -> f64 {
    (b[0] - a[0]).hypot(b[1] - a[1])
}

pub fn windows(model: &Model, job: &Job) -> Vec<WindowView> {
    model
        .panes
        .iter()
        .map(|p| {
            let (room, storey) = room_and_storey(model, job, p.zone);
            let wall = model.surfaces.get(p.in_surface).and_then(|s| s.ends_m);
            let from_left = job
                .house
                .windows
                .iter()
                .find(|w| w.name == p.name)
                .and_then(|w| w.from_left_m);
            WindowView {
                name: p.name.clone(),
                path: format!("window.{}", p.name),
                room,
                storey,
                spans_m: wall.map_or(Vec::new(), |w| spans(w, p.width_m, p.count, from_left)),
                placed: from_left.is_some(),
                width_m: p.width_m,
                height_m: p.height_m,
                sill_m: p.sill_m,
                count: p.count,
                faces_deg: p.azimuth_deg,
                glazing: model
                    .glazings
                    .get(p.glazing)
                    .map_or(String::new(), |g| g.name.clone()),
                known: word(p.known),
            }
        })
        .collect()
}

fn word(known: Known) -> String {
    known.word().to_owned()
}

/// Where windows stand in a wall whose room is on the left: seen from inside, the wall's left end
/// is its second one.
fn spans(
    wall: [[f64; 2]; 2],
    width_m: f64,
    count: u32,
    from_left: Option<f64>,
) -> Vec<[[f64; 2]; 2]> {
    let whole = length(wall).max(1e-6);
    let n = count.max(1);
    (0..n)
        .map(|k| {
            let (from, to) = if let (Some(left), 1) = (from_left, n) {
                (1.0 - (left + width_m) / whole, 1.0 - left / whole)
            } else {
                let middle = (f64::from(k) + 0.5) / f64::from(n);
                let half = 0.5 * (width_m / whole).min(0.95 / f64::from(n));
                (middle - half, middle + half)
            };
            [
                along(wall, from.clamp(0.0, 1.0)),
                along(wall, to.clamp(0.0, 1.0)),
            ]
        })
        .collect()
}

pub fn doors(job: &Job) -> Vec<DoorView> {
    job.house
        .doors
        .iter()
        .map(|d| {
            let [a, b] = d.rooms.each_ref().map(|n| job.room(n));
            let shared = a.zip(b).filter(|(a, b)| a.storey == b.storey);
            DoorView {
                rooms: d.rooms.clone(),
                storey: a.map_or(String::new(), |r| r.storey.clone()),
                span_m: shared
                    .and_then(|(a, b)| longest_shared(&a.outline, &b.outline))
                    .map(|edge| {
                        let half = 0.5 * (d.width_m / length(edge).max(1e-6)).min(1.0);
                        [along(edge, 0.5 - half), along(edge, 0.5 + half)]
                    }),
                width_m: d.width_m,
                usually: match d.stands {
                    Stands::Open => "open",
                    Stands::Ajar => "ajar",
                    Stands::Closed => "closed",
                }
                .to_owned(),
                undercut_m: d.undercut_m,
            }
        })
        .collect()
}

/// Two outlines are drawn as touching within this, m.
const TOUCH_M: f64 = 0.3;

/// The longest piece of an edge of one outline that an edge of the other runs beside.
fn longest_shared(one: &[[f64; 2]], other: &[[f64; 2]]) -> Option<[[f64; 2]; 2]> {
    let mut best: Option<[[f64; 2]; 2]> = None;
    for edge in edges(one) {
        let whole = length(edge);
        if whole < 1e-6 {
            continue;
        }
        let d = [
            (edge[1][0] - edge[0][0]) / whole,
            (edge[1][1] - edge[0][1]) / whole,
        ];
        for beside in edges(other) {
            let at = beside.map(|p| {
                let v = [p[0] - edge[0][0], p[1] - edge[0][1]];
                (v[0] * d[0] + v[1] * d[1], (v[0] * d[1] - v[1] * d[0]).abs())
            });
            if at.iter().any(|(_, off)| *off > TOUCH_M) {
                continue;
            }
            let from = at[0].0.min(at[1].0).max(0.0);
            let to = at[0].0.max(at[1].0).min(whole);
            if to - from > best.map_or(0.05, length) {
                best = Some([along(edge, from / whole), along(edge, to / whole)]);
            }
        }
    }
    best
}

fn edges(outline: &[[f64; 2]]) -> impl Iterator<Item = [[f64; 2]; 2]> + '_ {
    let next = outline.iter().cycle().skip(1);
    outline.iter().zip(next).map(|(a, b)| [*a, *b])
}

pub fn outer_doors(job: &Job) -> Vec<OuterDoorView> {
    use house::describe::{Compass, Side};
    job.house
        .outer_doors
        .iter()
        .map(|d| OuterDoorView {
            room: d.room.clone(),
            wall: match d.side {
                Side::Facing(Compass::North) => "north".to_owned(),
                Side::Facing(Compass::East) => "east".to_owned(),
                Side::Facing(Compass::South) => "south".to_owned(),
                Side::Facing(Compass::West) => "west".to_owned(),
                Side::Number(n) => n.to_string(),
            },
            width_m: d.width_m,
            height_m: d.height_m,
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::{longest_shared, spans};

    #[test]
    fn a_door_stands_on_the_edge_both_rooms_share() {
        let one = [[0.0, 0.0], [4.0, 0.0], [4.0, 3.0], [0.0, 3.0]];
        let other = [[4.0, 1.0], [7.0, 1.0], [7.0, 5.0], [4.0, 5.0]];
        let edge = longest_shared(&one, &other).expect("shared");
        assert_eq!(edge, [[4.0, 1.0], [4.0, 3.0]]);
        let apart = [[9.0, 1.0], [12.0, 1.0], [12.0, 5.0], [9.0, 5.0]];
        assert_eq!(longest_shared(&one, &apart), None);
    }

    #[test]
    fn a_window_is_counted_from_the_left_as_seen_from_inside() {
        // The south wall, room to the north: walked east, so the left hand inside points east.
        let wall = [[0.0, 0.0], [10.0, 0.0]];
        assert_eq!(spans(wall, 2.0, 1, Some(1.0)), [[[7.0, 0.0], [9.0, 0.0]]]);
        assert_eq!(spans(wall, 2.0, 2, None).len(), 2);
    }
}
