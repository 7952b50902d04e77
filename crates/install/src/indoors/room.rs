//! A room on the plan: what lies ahead of a head, and where its windows stand.

use house::describe::Room;
use jobfile::Job;

/// The room of a name.
pub(crate) fn named<'j>(job: &'j Job, name: &str) -> Option<&'j Room> {
    job.house.rooms.iter().find(|r| r.name == name)
}

/// Height of its ceiling, m.
pub(crate) fn ceiling_m(job: &Job, room: &Room) -> Option<f64> {
    let storey = job.house.storeys.iter().find(|s| s.name == room.storey);
    room.ceiling_m.or(storey.map(|s| s.ceiling_m))
}

/// East and north of a plan direction, degrees clockwise from plan north.
pub(crate) fn toward(deg: f64) -> [f64; 2] {
    let rad = deg.to_radians();
    [libm::sin(rad), libm::cos(rad)]
}

/// Way from a place to the wall it blows at, m; `None` outside the room.
pub(crate) fn ahead_m(at: [f64; 2], deg: f64, outline: &[[f64; 2]]) -> Option<f64> {
    let [e, n] = toward(deg);
    let mut best: Option<f64> = None;
    for (i, a) in outline.iter().enumerate() {
        let b = outline.get((i + 1) % outline.len())?;
        let (we, wn) = (b[0] - a[0], b[1] - a[1]);
        let cross = e * wn - n * we;
        if cross.abs() < 1e-9 {
            continue;
        }
        let (re, rn) = (a[0] - at[0], a[1] - at[1]);
        let along = (re * wn - rn * we) / cross;
        let share = (re * n - rn * e) / cross;
        // half a foot: a head on a wall does not blow at that wall
        if along > 0.15 && (0.0..=1.0).contains(&share) {
            best = Some(best.map_or(along, |b: f64| b.min(along)));
        }
    }
    best
}

/// Whether a place is in the room.
pub(crate) fn inside(at: [f64; 2], outline: &[[f64; 2]]) -> bool {
    let mut within = false;
    for (i, a) in outline.iter().enumerate() {
        let Some(b) = outline.get((i + 1) % outline.len()) else {
            continue;
        };
        let crosses = (a[1] > at[1]) != (b[1] > at[1]);
        if crosses && at[0] < a[0] + (at[1] - a[1]) / (b[1] - a[1]) * (b[0] - a[0]) {
            within = !within;
        }
    }
    within
}

/// A window on the plan.
#[derive(Debug, Clone)]
pub(crate) struct Glass {
    /// Name.
    pub name: String,
    /// Ends on the plan, m.
    pub ends_m: [[f64; 2]; 2],
    /// Sill above the floor, m.
    pub sill_m: f64,
    /// Height, m.
    pub height_m: f64,
    /// Where it stands along its wall is typed; else windows are spread evenly.
    pub typed: bool,
}

/// Windows of a zone of the model, one for each pane.
pub(crate) fn windows(job: &Job, model: &house::model::Model, room: &str) -> Vec<Glass> {
    let mut out = Vec::new();
    for p in &model.panes {
        let here = model.zones.get(p.zone).is_some_and(|z| z.name == room);
        let wall = model.surfaces.get(p.in_surface).and_then(|s| s.ends_m);
        let (true, Some([a, b])) = (here, wall) else {
            continue;
        };
        let length = libm::hypot(b[0] - a[0], b[1] - a[1]).max(1e-6);
        let typed = job.house.windows.iter().find(|w| w.name == p.name);
        let from = typed.and_then(|w| w.from_left_m);
        let count = p.count.max(1);
        for k in 0..count {
            let share = (f64::from(k) + 0.5) / f64::from(count);
            let middle = match from {
                Some(left) if count == 1 => left + 0.5 * p.width_m,
                _ => share * length,
            };
            let at = |m: f64| {
                let t = m / length;
                [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])]
            };
            out.push(Glass {
                name: p.name.clone(),
                ends_m: [at(middle - 0.5 * p.width_m), at(middle + 0.5 * p.width_m)],
                sill_m: p.sill_m,
                height_m: p.height_m,
                typed: from.is_some(),
            });
        }
    }
    out
}

/// Distance of a place from a line between two points, m.
pub(crate) fn from_line_m(at: [f64; 2], [a, b]: [[f64; 2]; 2]) -> f64 {
    let (e, n) = (b[0] - a[0], b[1] - a[1]);
    let size = e * e + n * n;
    let t = if size > 0.0 {
        (((at[0] - a[0]) * e + (at[1] - a[1]) * n) / size).clamp(0.0, 1.0)
    } else {
        0.0
    };
    libm::hypot(at[0] - a[0] - t * e, at[1] - a[1] - t * n)
}
