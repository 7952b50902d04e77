//! The plan of each storey in a column for a phone: one beneath the other.

use jobfile::Job;
use units::System;

use super::column::{LEFT, RIGHT, ROW, SMALL, page, words};
use super::storeys::{self, COLOURS, View, ends, fill, north, title, title_block, told, walls};
use crate::Plan;

/// Most of the height that a storey takes.
const TALL: f64 = 460.0;

/// As [`super::storeys`], in a column.
pub fn storeys_column(plan: &Plan, job: &Job, system: System) -> Option<String> {
    let model = plan.model.done()?;
    let loads = plan.loads.done();
    let told = told(job);
    let room = RIGHT - LEFT;
    let sizes: Vec<[f64; 4]> = told
        .iter()
        .map(|(_, rooms)| ends(rooms))
        .map(|(lo, hi)| [lo[0], hi[1], hi[0] - lo[0], hi[1] - lo[1]])
        .collect();
    // one scale for all, with the thick walls inside the edges
    let scale = sizes.iter().fold(f64::INFINITY, |s, [_, _, across, tall]| {
        s.min((room - 6.0) / across.max(1.0))
            .min(TALL / tall.max(1.0))
    });
    let mut out = String::new();
    let title = title(plan, system);
    let mut y = words(&mut out, (LEFT, 26.0), "bold", room - 60.0, &title);
    north(&mut out, job.house.plan_north_deg, RIGHT - 8.0, 26.0);
    for ((index, rooms), [left_m, top_m, _, tall]) in told.iter().zip(&sizes) {
        if let Some(s) = job.house.storeys.get(*index) {
            y = words(&mut out, (LEFT, y + 10.0), "small soft", room, &s.name);
        }
        let view = View {
            scale,
            x: LEFT + 3.0,
            y: y - 6.0,
            left_m: *left_m,
            top_m: *top_m,
        };
        for room in rooms {
            fill(&mut out, room, job, loads, &view);
        }
        walls(&mut out, model, *index, &view);
        for room in rooms {
            // broader than it is, so that what fits here fits with any face
            storeys::words(&mut out, room, (job, loads), &view, (14.5, SMALL), system);
        }
        y += tall * scale + ROW;
    }
    y = words(&mut out, (LEFT, y + 4.0), "small soft", room, COLOURS);
    let cells = title_block(plan, told.len(), system);
    Some(page(y, &title, &cells, &out))
}
