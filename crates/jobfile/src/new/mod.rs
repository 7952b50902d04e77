//! A first job from as few answers as will do: a plain box of a house that reads and plans, with
//! everything nobody looked at marked assumed, for the survey to correct.

mod layout;
mod write;

pub use write::first_job;

use crate::{Carrier, HeaterKind};

/// What is asked. The defaults make a job that reads.
#[derive(Debug, Clone, PartialEq)]
pub struct Answers {
    /// Name of the job.
    pub name: String,
    /// Weather file or station.
    pub weather: String,
    /// Width of the house east to west, inside, m.
    pub width_m: f64,
    /// Depth north to south, inside, m.
    pub depth_m: f64,
    /// Heated storeys, 1 to 3.
    pub storeys: u32,
    /// How it is built.
    pub built: Built,
    /// What is under it.
    pub under: Below,
    /// Name of a glazing of the library.
    pub windows: String,
    /// Blower-door test as written, `2100 cfm at 50 Pa`, if there is one.
    pub blower_door: Option<String>,
    /// Names of the rooms; empty for a usual set. Those whose name begins with `bed` go upstairs.
    pub rooms: Vec<String>,
    /// What heats now.
    pub heat_now: Option<(HeaterKind, Carrier)>,
}

impl Default for Answers {
    fn default() -> Self {
        Self {
            name: "New job".to_owned(),
            weather: "weather/chicago-725300.epw.gz".to_owned(),
            width_m: 9.144,
            depth_m: 7.9248,
            storeys: 2,
            built: Built::Some,
            under: Below::Basement,
            windows: "double clear".to_owned(),
            blower_door: None,
            rooms: Vec::new(),
            heat_now: None,
        }
    }
}

impl Answers {
    /// Sets width and depth from the heated floor area, m2: a house a third wider than deep.
    #[must_use]
    pub fn with_floor_area(mut self, area_m2: f64) -> Self {
        let one = area_m2 / f64::from(self.storeys.max(1));
        self.depth_m = libm::sqrt(one * 0.75);
        self.width_m = self.depth_m / 0.75;
        self
    }
}

/// How a house is built, as far as can be said without looking. Build-ups and air leakage by
/// class are common practice, no source.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Built {
    /// Before about 1950, nothing in the walls.
    Empty,
    /// About 1950 to 1980, some insulation.
    Some,
    /// About 1980 to 2005.
    Usual,
    /// After 2005, or thoroughly redone.
    Good,
}

impl Built {
    /// All, oldest first.
    pub const ALL: [Built; 4] = [Self::Empty, Self::Some, Self::Usual, Self::Good];

    /// The word it is asked by.
    pub fn word(self) -> &'static str {
        match self {
            Self::Empty => "empty",
            Self::Some => "some",
            Self::Usual => "usual",
            Self::Good => "good",
        }
    }

    /// The class in words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Empty => "before about 1950, nothing in the walls",
            Self::Some => "about 1950 to 1980, some insulation",
            Self::Usual => "about 1980 to 2005",
            Self::Good => "after 2005, or thoroughly redone",
        }
    }

    fn wall(self) -> &'static str {
        match self {
            Self::Empty => "2x4 empty wall",
            Self::Some => "2x4 wall with batt",
            Self::Usual => "2x6 wall with batt",
            Self::Good => "2x6 wall with batt and foam",
        }
    }

    fn ceiling(self) -> &'static str {
        match self {
            Self::Empty => "bare attic floor",
            Self::Some => "attic floor with 6 in batt",
            Self::Usual => "attic floor R 38",
            Self::Good => "attic floor R 60",
        }
    }

    /// Air changes per hour at 50 Pa.
    fn leaks_per_h(self) -> f64 {
        match self {
            Self::Empty => 15.0,
            Self::Some => 10.0,
            Self::Usual => 7.0,
            Self::Good => 3.0,
        }
    }
}

/// What is under the lowest heated storey.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Below {
    /// Unheated basement.
    Basement,
    /// Vented crawl space.
    Crawl,
    /// Slab on the ground.
    Slab,
}

impl Below {
    /// All.
    pub const ALL: [Below; 3] = [Self::Basement, Self::Crawl, Self::Slab];

    /// The word it is asked by.
    pub fn word(self) -> &'static str {
        match self {
            Self::Basement => "basement",
            Self::Crawl => "crawl",
            Self::Slab => "slab",
        }
    }
}
