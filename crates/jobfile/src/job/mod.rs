//! A job as read: inputs and decisions only, SI. Every computable number is computed on load.

mod bills;
mod equipment;
mod heater;
mod install;
mod known;
mod paperwork;
mod place;
mod prices;
mod readings;
mod tariff;

pub use bills::{BillFile, Winters};
pub use equipment::{Choice, Equipment, HeadChoice, OutdoorChoice};
pub use heater::{Heater, HeaterKind};
pub use install::{
    Circuit, Codes, Drain, DrainPiece, HeadPlace, Installation, Landmark, Line, LinePiece,
    Listener, OutdoorPlace, Panel, Requirement, Tool, Weighing,
};
pub use known::{Given, Places};
pub use paperwork::{Cost, Firm, Owner, Paperwork, Plate, Programme, Setting};
pub use place::{Place, TypedDesign};
pub use prices::{Carbon, Carrier, Price, Prices};
pub use readings::{AsBuilt, AsBuiltValue, Bill, Photo};
pub use tariff::{PricePeriod, Tariff, Tier};

use house::describe::{House, Stands};

/// One job.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Job {
    /// Version of the file format.
    pub version: u32,
    /// Name of the job, as printed on every paper.
    pub name: String,
    /// How far the job is.
    pub stage: Stage,
    /// Units that findings and papers speak in.
    pub units: units::System,
    /// Words for the people who open the job.
    pub notes: Vec<String>,
    /// Where it is: weather, elevation, typed design temperatures, snow.
    pub place: Place,
    /// The house as described. `plan_north_deg` and `shelter` come from `[place]`.
    pub house: House,
    /// The equipment chosen.
    pub equipment: Equipment,
    /// Other choices to set side by side with the chosen one.
    pub options: Vec<Choice>,
    /// What heats the house now; `None` when nothing does.
    pub existing: Option<Heater>,
    /// Heaters added beside the heat pump (panel heaters and the like).
    pub backup: Vec<Heater>,
    /// Prices and carbon of what is bought.
    pub prices: Prices,
    /// How people live in the house.
    pub habits: Habits,
    /// What was built, over what was planned. Values in the rest of the job are as built where
    /// this list says so; the planned value stays in [`AsBuilt::planned`].
    pub as_built: Vec<AsBuilt>,
    /// Bills and deliveries.
    pub bills: Vec<Bill>,
    /// Files of bills.
    pub bill_files: Vec<BillFile>,
    /// What happened in the time the bills cover.
    pub winters: Winters,
    /// Places, lines, drains, circuits, codes.
    pub installation: Installation,
    /// Who is who, days, costs, settings, plates: for the papers.
    pub paperwork: Paperwork,
    /// Photos kept with the job.
    pub photos: Vec<Photo>,
    /// Every assumption of the job and how it is known, in the order of the file.
    pub given: Vec<Given>,
    /// Place in the file of every table and value, by dotted path.
    pub places: Places,
}

impl Job {
    /// Whether it names bills, in files or entry by entry.
    pub fn has_bills(&self) -> bool {
        !(self.bill_files.is_empty() && self.bills.is_empty())
    }
}

/// How far a job is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Stage {
    /// House is being looked at.
    #[default]
    Visit,
    /// An estimate is being made.
    Estimate,
    /// Ordered.
    Ordered,
    /// Installed.
    Installed,
    /// Second winter behind it.
    Reviewed,
}

impl Stage {
    /// All, in order.
    pub const ALL: [Stage; 5] = [
        Self::Visit,
        Self::Estimate,
        Self::Ordered,
        Self::Installed,
        Self::Reviewed,
    ];

    /// The word as it stands in the job file.
    pub fn word(self) -> &'static str {
        match self {
            Self::Visit => "visit",
            Self::Estimate => "estimate",
            Self::Ordered => "ordered",
            Self::Installed => "installed",
            Self::Reviewed => "reviewed",
        }
    }
}

/// How people live in the house.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Habits {
    /// How bedroom doors usually stand at night; `None`: each door as described.
    pub bedroom_doors: Option<Stands>,
    /// Relative humidity people keep indoors in winter, 0 to 1.
    pub winter_humidity: Option<f64>,
    /// Outdoor temperature below which the owner says the heat pump will be switched off, C.
    pub off_below_c: Option<f64>,
}

/// Name of the choice that is to be installed.
pub const CHOSEN: &str = "chosen";

impl Job {
    /// A room of the house by name.
    pub fn room(&self, name: &str) -> Option<&house::describe::Room> {
        self.house.rooms.iter().find(|r| r.name == name)
    }

    /// The chosen equipment and the options, the chosen one first under the name `chosen`.
    pub fn choices(&self) -> Vec<Choice> {
        let mut all = Vec::with_capacity(1 + self.options.len());
        if !self.equipment.heads.is_empty() || self.options.is_empty() {
            all.push(Choice {
                name: CHOSEN.to_owned(),
                equipment: self.equipment.clone(),
            });
        }
        all.extend(self.options.iter().cloned());
        all
    }

    /// All heaters that work beside the heat pump: what stays, then what is added.
    pub fn heaters_beside(&self) -> impl Iterator<Item = &Heater> {
        self.existing
            .iter()
            .filter(|h| h.stays)
            .chain(self.backup.iter())
    }
}
