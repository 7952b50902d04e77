//! What may be asked. One definition feeds the parser, the help, the man page and completions.

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};
use clap_complete::Shell;

/// Heat pumps for cold houses: what each room loses, what carries it, what it costs, and why.
#[derive(Debug, Parser)]
#[command(
    name = "northwall",
    version,
    max_term_width = 80,
    subcommand_required = true,
    arg_required_else_help = true,
    after_help = "Exit codes: 0 nothing to stop for; 1 a stop, or a check that fails without a known reason; \
                  2 the input cannot be used; 3 a defect of the program.\n\
                  The unit's own installation sheet, the local code and the licensed trades come \
                  first."
)]
pub struct Arguments {
    /// What is asked.
    #[command(subcommand)]
    pub ask: Ask,
    /// Options all commands take.
    #[command(flatten)]
    pub usual: Usual,
}

/// Options all commands take.
#[derive(Debug, Args)]
pub struct Usual {
    /// Print JSON (SI, stable keys) instead of text; schemas are in schema/
    #[arg(long, global = true)]
    pub json: bool,
    /// Print SI units instead of US customary
    #[arg(long, global = true)]
    pub si: bool,
    /// Also write the chart of this command to FILE (refused where there is none)
    #[arg(long, global = true, value_name = "FILE")]
    pub svg: Option<PathBuf>,
    /// Folder of data sheets [default: a `catalogue` folder beside the job or above it]
    #[arg(long, global = true, value_name = "DIR")]
    pub catalogue: Option<PathBuf>,
    /// Weather file or name of a station that ships, in place of the job's
    #[arg(long, global = true, value_name = "FILE")]
    pub weather: Option<PathBuf>,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Ask {
    /// What to do about a job, loudest first: the whole plan on one screen
    Check {
        /// Job file
        job: PathBuf,
    },
    /// What each room loses on the design night and gains on the worst clear day
    Loads {
        /// Job file
        job: PathBuf,
        /// Which chart --svg writes
        #[arg(long, value_enum, default_value_t = LoadsChart::Plan)]
        chart: LoadsChart,
    },
    /// The year, room by room and unit by unit: heat, cycling, cost
    Season {
        /// Job file
        #[arg(required_unless_present = "many")]
        job: Option<PathBuf>,
        /// Ideal heating and cooling that always suffice, whatever is chosen; so also when the
        /// job has no heads
        #[arg(long)]
        ideal: bool,
        /// An option of the job instead of the chosen equipment
        #[arg(long, value_name = "NAME", conflicts_with = "ideal")]
        option: Option<String>,
        /// Which chart --svg writes
        #[arg(long, value_enum, default_value_t = SeasonChart::Capacity)]
        chart: SeasonChart,
        /// Houses by the thousand
        #[command(flatten)]
        many: crate::many::Many,
    },
    /// Where heads and outdoor units go: every distance, height, sound and draught judged
    Place {
        /// Job file
        job: PathBuf,
        /// Try positions along every wall and over every ceiling, and name the best few
        #[arg(long)]
        suggest: bool,
        /// Which drawing --svg writes
        #[arg(long, value_enum, default_value_t = PlaceChart::Plan)]
        chart: PlaceChart,
    },
    /// Lines, charge and drain: lengths, heights, losses, refrigerant and rooms, falls
    Lines {
        /// Job file
        job: PathBuf,
    },
    /// Circuits and panel, by the edition of the code
    Wires {
        /// Job file
        job: PathBuf,
    },
    /// What to bring: cut list, tools, weights, cautions
    List {
        /// Job file
        job: PathBuf,
    },
    /// Backup: who carries which hours at which price, what to set, cold snap and outage
    Backup {
        /// Job file
        job: PathBuf,
        /// An option of the job instead of the chosen equipment
        #[arg(long, value_name = "NAME")]
        option: Option<String>,
    },
    /// The year of the houses this could be: bands on load, short hours, cost and COP
    Bands {
        /// Job file
        job: PathBuf,
        /// How to ask
        #[command(flatten)]
        houses: Houses,
    },
    /// Which heads in which rooms on which outdoor units: the year of every set in the catalogue
    Choose {
        /// Job file
        job: PathBuf,
        /// What is looked for
        #[command(flatten)]
        looking: Looking,
    },
    /// Joints, pressure and vacuum, judged reading by reading or from a logger file
    #[command(subcommand)]
    Test(crate::day::asked::Test),
    /// Release and weighing in against the signed trim, label, balance of the cylinders
    Charge(crate::day::asked::OfDay),
    /// The first run against what the unit's own data expect of today
    Run(crate::day::asked::Run),
    /// A call-back against the accepted first run: causes ranked, and what to measure next
    Visit(crate::day::asked::Visit),
    /// Records that only grow: shown, and proved
    #[command(subcommand)]
    Record(crate::day::asked::Records),
    /// The page: draw the house, see the plan, survey and test, in a browser on this machine
    Serve(crate::serve::Serve),
    /// Invites somebody of a firm: the first owner, or anybody
    Invite(crate::serve::Invite),
    /// Writes all jobs into one archive, also while the server runs
    Archive(crate::archive::Archive),
    /// Brings jobs back from an archive, also while the server runs
    Restore(crate::archive::Restore),
    /// The papers: for the owner, the inspector, the rebate reviewer and the crew
    #[cfg(feature = "papers")]
    Papers(crate::papers::Papers),
    /// An auditor's HPXML file as a first job
    #[cfg(feature = "papers")]
    Import(crate::papers::Import),
    /// What the bills say of the house: heat loss and load with a band, beside the survey
    Bills {
        /// Job file
        job: PathBuf,
        /// Bills in place of the job's
        #[command(flatten)]
        given: BillsGiven,
    },
    /// The second winter: before and after in the same typical year, effective COP with a band
    Review {
        /// Job file
        job: PathBuf,
        /// Bills in place of the job's
        #[command(flatten)]
        given: BillsGiven,
    },
    /// Formula, inputs and source of any number, down to the job file or the data sheet
    Why {
        /// Job file
        job: PathBuf,
        /// Key of a figure: loads.house.heating; a beginning of keys lists them
        #[arg(default_value = "")]
        key: String,
        /// How many steps down to unfold; `all` goes down to the tape measure. JSON always does
        #[arg(long, value_name = "STEPS", default_value = "2")]
        down: String,
    },
    /// Outside checks: what, source, expected, got, verdict
    Prove {
        /// Only checks whose id contains this
        #[arg(long, value_name = "TEXT")]
        only: Option<String>,
    },
    /// Write a first job file, by a few questions or from flags
    New(Box<New>),
    /// What is odd about a data sheet, its worked example done again, its ratings and curves
    Sheet {
        /// Data sheet
        sheet: PathBuf,
        /// Heating or cooling, for the curves
        #[arg(long, value_enum, default_value_t = DutyWord::Heating)]
        duty: DutyWord,
    },
    /// Completions for a shell, to standard output
    Completions {
        /// Shell
        #[arg(value_enum)]
        shell: Shell,
    },
    /// The man page, to standard output
    Man,
    /// The schema of a command's JSON, to standard output
    #[command(hide = true)]
    Schema {
        /// Name of its file in schema/
        name: String,
    },
}

/// Files of bills and temperatures.
#[derive(Debug, Default, Args)]
pub struct BillsGiven {
    /// File of bills in place of the job's: a utility's CSV, Green Button, or a dealer's slips;
    /// what was bought may stand before it, as oil:slips.csv
    #[arg(long, value_name = "FILE")]
    pub bills: Vec<String>,
    /// Daily mean temperatures of those dates, CSV, in place of the job's
    #[arg(long, value_name = "FILE")]
    pub temperatures: Vec<PathBuf>,
}

/// Charts of `loads`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum LoadsChart {
    /// The plan of each storey with losses and temperatures
    Plan,
    /// Losses of the rooms as bars
    Bars,
}

/// Drawings of `place`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum PlaceChart {
    /// Rooms, heads with how far their air carries, outdoor units, what is around
    Plan,
    /// The outdoor wall: snow, base, ice, free space
    Wall,
}

/// Charts of `season`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum SeasonChart {
    /// What the units can give against what the house asks, with the hours beneath
    Capacity,
    /// The year as a field of hours
    Year,
}

/// Heating or cooling.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum DutyWord {
    /// Heating
    Heating,
    /// Cooling
    Cooling,
}

/// How `bands` is asked.
#[derive(Debug, Args)]
#[allow(
    clippy::struct_field_names,
    reason = "the flag is called as the thing it counts"
)]
pub struct Houses {
    /// Houses run, 30 to 10000
    #[arg(long, value_name = "NUMBER", default_value_t = 100, value_parser = houses_in_range)]
    pub houses: usize,
    /// Seed of the points: the same seed gives the same numbers
    #[arg(long, value_name = "NUMBER", default_value_t = 1)]
    pub seed: u64,
    /// Heat loss in place of what the job's bills tell, as `bills` prints its 90 % band:
    /// "380 to 470 Btu/(h F)"
    #[arg(long, value_name = "BAND")]
    pub heat_loss: Option<String>,
    /// Leave the job's bills out: the bands of the survey alone
    #[arg(long, conflicts_with = "heat_loss")]
    pub without_bills: bool,
}

fn houses_in_range(text: &str) -> Result<usize, String> {
    match text.parse() {
        Ok(n @ 30..=10_000) => Ok(n),
        _ => Err("30 to 10000 houses can be run".to_owned()),
    }
}

/// What `choose` looks for.
#[derive(Debug, Args)]
pub struct Looking {
    /// Rooms that may have a head, separated by commas [default: heated rooms but baths]
    #[arg(long, value_delimiter = ',')]
    pub rooms: Vec<String>,
    /// Most heads in the house, 1 to 5
    #[arg(long, value_name = "NUMBER", default_value_t = 3, value_parser = heads_in_range)]
    pub most_heads: usize,
    /// Kind of head
    #[arg(long, value_enum, default_value_t = HeadWord::Wall)]
    pub kind: HeadWord,
    /// Prices of units: a file with a name, a comma and money on each line
    #[arg(long, value_name = "FILE")]
    pub prices: Option<PathBuf>,
    /// Most sets of units looked at, from 1; fewer sizes are kept for a room until it is enough
    #[arg(long, value_name = "NUMBER", default_value_t = 20_000, value_parser = sets_in_range)]
    pub most: usize,
    /// How many of what survives are explained
    #[arg(long, value_name = "NUMBER", default_value_t = 4)]
    pub show: usize,
    /// Run whole everything that may survive, so that nothing is lost to the quick year
    #[arg(long)]
    pub sure: bool,
}

fn heads_in_range(text: &str) -> Result<usize, String> {
    match text.parse() {
        Ok(n @ 1..=5) => Ok(n),
        _ => Err("1 to 5 heads are looked at".to_owned()),
    }
}

fn sets_in_range(text: &str) -> Result<usize, String> {
    match text.parse() {
        Ok(n @ 1..) => Ok(n),
        _ => Err("1 set of units or more must be looked at".to_owned()),
    }
}

/// Kinds of head.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum HeadWord {
    /// High on a wall
    Wall,
    /// At the floor
    Floor,
    /// In the ceiling
    Ceiling,
    /// Behind a grille
    Duct,
}

/// Answers to the questions of `new`.
#[derive(Debug, Args)]
pub struct New {
    /// File to write [default: job.toml]
    pub file: Option<PathBuf>,
    /// Name of the job
    #[arg(long)]
    pub name: Option<String>,
    /// East to west inside, as "30 ft"
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true)]
    pub width: Option<String>,
    /// North to south inside, as "24 ft"
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true)]
    pub depth: Option<String>,
    /// Heated floor area, as "1400 ft2", in place of width and depth
    #[arg(long, value_name = "AREA", allow_hyphen_values = true, conflicts_with_all = ["width", "depth"])]
    pub area: Option<String>,
    /// Heated storeys, 1 to 3
    #[arg(long)]
    pub storeys: Option<u32>,
    /// How it is built: empty, some, usual, good
    #[arg(long, value_name = "WORD")]
    pub built: Option<String>,
    /// What is under it: basement, crawl, slab
    #[arg(long, value_name = "WORD")]
    pub under: Option<String>,
    /// Glazing of the windows, by its name in the library
    #[arg(long)]
    pub windows: Option<String>,
    /// Blower-door test, as "2100 cfm at 50 Pa"
    #[arg(long, value_name = "FLOW", allow_hyphen_values = true)]
    pub blower_door: Option<String>,
    /// Rooms, separated by commas
    #[arg(long, value_delimiter = ',')]
    pub rooms: Vec<String>,
    /// What heats now: boiler, furnace, baseboard, stove; with its fuel after a colon, boiler:oil
    #[arg(long, value_name = "KIND:FUEL")]
    pub heat_now: Option<String>,
    /// Write over a file that is there
    #[arg(long)]
    pub force: bool,
}
