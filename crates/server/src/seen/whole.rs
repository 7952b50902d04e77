//! The whole plan of a job.

use jobfile::Job;
use plan::Plan;
use serde::Serialize;
use utoipa::ToSchema;

use super::charts::{ChartsView, charts};
use super::findings::{Counts, FindingView, WaitView, findings, waits};
use super::headline::{HeadlineView, headline};
use super::rooms::{RoomView, rooms};
use super::said::Said;
use super::shapes::{self, DoorView, OuterDoorView, StoreyView, WallView, WindowView};

/// What applies before this program.
const CAUTION: &str =
    "The unit's own installation sheet, the local code and the licensed trades come first.";

/// The plan.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct PlanView {
    /// Version of the program.
    pub northwall: String,
    /// Revision of the job it was made from.
    pub revision: i64,
    /// Name of the job.
    pub job: String,
    /// visit, estimate, ordered, installed, reviewed.
    pub stage: String,
    /// `us` or `si`: units of the texts.
    pub units: String,
    /// Station of the weather.
    pub station: String,
    /// Compass direction of the plan's up, degrees from north.
    pub plan_north_deg: f64,
    /// Headline numbers.
    pub headline: HeadlineView,
    /// Number of findings by level.
    pub counts: Counts,
    /// What the plan waits for.
    pub waiting: Vec<WaitView>,
    /// Findings, loudest first.
    pub findings: Vec<FindingView>,
    /// Storeys, lowest first.
    pub storeys: Vec<StoreyView>,
    /// Rooms in the order of the job.
    pub rooms: Vec<RoomView>,
    /// Outside walls.
    pub walls: Vec<WallView>,
    /// Windows.
    pub windows: Vec<WindowView>,
    /// Doors between rooms.
    pub doors: Vec<DoorView>,
    /// Doors to outside.
    pub outer_doors: Vec<OuterDoorView>,
    /// Series of the charts.
    pub charts: ChartsView,
    /// Drawings there are, by name, for `drawing/{name}.svg`.
    pub drawings: Vec<String>,
    /// Remarks on the weather file.
    pub weather_notes: Vec<String>,
    /// What applies before this program.
    pub caution: String,
}

impl PlanView {
    /// Puts a plan into words and series.
    pub fn new(plan: &Plan, job: &Job, revision: i64, notes: &[String], si: bool) -> Self {
        let say = Said::new(si);
        let model = plan.model.done();
        Self {
            northwall: env!("CARGO_PKG_VERSION").to_owned(),
            revision,
            job: plan.name.clone(),
            stage: plan.stage.to_owned(),
            units: if si { "si" } else { "us" }.to_owned(),
            station: plan.site.station.name.clone(),
            plan_north_deg: job.house.plan_north_deg,
            headline: headline(plan, &job.prices.currency, say),
            counts: Counts::of(plan),
            waiting: waits(plan),
            findings: findings(plan),
            storeys: shapes::storeys(job),
            rooms: rooms(plan, job, say),
            walls: model.map_or(Vec::new(), |m| shapes::walls(m, job)),
            windows: model.map_or(Vec::new(), |m| shapes::windows(m, job)),
            doors: shapes::doors(job),
            outer_doors: shapes::outer_doors(job),
            charts: charts(plan),
            drawings: crate::drawings::there_are(plan),
            weather_notes: notes.to_vec(),
            caution: CAUTION.to_owned(),
        }
    }

    /// The headline alone.
    pub fn headline(plan: &Plan, job: &Job, si: bool) -> HeadlineView {
        headline(plan, &job.prices.currency, Said::new(si))
    }
}
