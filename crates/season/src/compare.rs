//! Choices side by side, under the same weather, habits and prices.

use jobfile::{Choice, Equipment, Heater};

use crate::error::SeasonError;
use crate::input::Input;
use crate::plant::{Schedule, resolve};
use crate::run::{Run, tell_heads_alone};
use crate::year::Year;

/// The year of `input.choice`, with the heaters that stay and those added.
///
/// # Errors
/// Names that are not there, units that do not go together, a house that cannot be set up.
pub fn year(input: &Input<'_>) -> Result<Year, SeasonError> {
    to_the_end(Running::of_choice(input)?)
}

/// As [`year`], for weighing: rooms are not told what they come to with the heads alone.
pub(crate) fn year_to_weigh(input: &Input<'_>) -> Result<Year, SeasonError> {
    to_the_end(Running {
        tell_heads_alone: false,
        ..Running::of_choice(input)?
    })
}

/// The year with what heats the house now and nothing else: its thermostat at the rooms' own
/// settings, nothing locked out. None when the job has no existing heater.
///
/// # Errors
/// As [`year`].
pub fn baseline(input: &Input<'_>) -> Result<Option<Year>, SeasonError> {
    let existing = input.job.existing.as_ref();
    let year = |existing| to_the_end(Running::of_now(input, existing)?);
    existing.map(year).transpose()
}

fn to_the_end(mut year: Running<'_>) -> Result<Year, SeasonError> {
    while year.go_on(year.run.input.drive.steps) {}
    year.whole()
}

/// A year on its way, to be run part by part.
pub struct Running<'a> {
    run: Run<'a>,
    tell_heads_alone: bool,
}

impl<'a> Running<'a> {
    /// Begins what [`year`] runs.
    ///
    /// # Errors
    /// As [`year`].
    pub fn of_choice(input: &Input<'a>) -> Result<Self, SeasonError> {
        let schedule = Schedule::new(input.model);
        let plant = resolve(input, input.choice, input.job.heaters_beside(), &schedule)?;
        Ok(Self {
            run: Run::new(input, &input.choice.name, plant, schedule)?,
            tell_heads_alone: true,
        })
    }

    /// Begins what [`baseline`] runs, with what heats the house now.
    ///
    /// # Errors
    /// As [`year`].
    pub fn of_now(input: &Input<'a>, existing: &Heater) -> Result<Self, SeasonError> {
        let alone = Heater {
            set_below_k: 0.0,
            locked_out_above_c: None,
            ..existing.clone()
        };
        let nothing = Choice {
            name: existing.kind.alone(),
            equipment: Equipment::default(),
        };
        let schedule = Schedule::new(input.model);
        let plant = resolve(input, &nothing, std::iter::once(&alone), &schedule)?;
        Ok(Self {
            run: Run::new(input, &nothing.name, plant, schedule)?,
            tell_heads_alone: false,
        })
    }

    /// Does so many hours more, or what is left; false when nothing is.
    pub fn go_on(&mut self, hours: usize) -> bool {
        self.run.go_on(hours)
    }

    /// The year, once all its hours are done.
    ///
    /// # Errors
    /// As [`year`].
    pub fn whole(self) -> Result<Year, SeasonError> {
        let input = self.run.input;
        let (mut year, plant, schedule) = self.run.whole();
        if self.tell_heads_alone {
            tell_heads_alone(&mut year, &input, &plant, &schedule)?;
        }
        Ok(year)
    }
}

/// All choices of a job, and what is there now.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    /// What heats the house now, alone.
    pub baseline: Option<Year>,
    /// By choice, in the order of the job: its name, and its year or why there is none.
    pub years: Vec<(String, Result<Year, SeasonError>)>,
}

/// Runs every choice of the job; `input.choice` is not looked at.
///
/// # Errors
/// A baseline that cannot be run, which is a house that cannot be set up.
pub fn compare(input: &Input<'_>) -> Result<Comparison, SeasonError> {
    let baseline = baseline(input)?;
    let years = input
        .job
        .choices()
        .iter()
        .map(|choice| {
            let this = Input { choice, ..*input };
            (choice.name.clone(), year(&this))
        })
        .collect();
    Ok(Comparison { baseline, years })
}

/// One line of the table.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Choice.
    pub choice: String,
    /// Outdoor units.
    pub units: usize,
    /// Heads.
    pub heads: usize,
    /// Share of the heat that comes from heads.
    pub heads_share: Option<f64>,
    /// Seasonal COP of all units, waiting included.
    pub seasonal_cop: Option<f64>,
    /// Unit hours cycling.
    pub cycling_h: u32,
    /// Unit hours at full output.
    pub full_h: u32,
    /// Unit hours beyond the sheets.
    pub cannot_tell_h: u32,
    /// Share of the units' heat given while cycling.
    pub cycling_share: Option<f64>,
    /// Electricity, J.
    pub electricity_j: f64,
    /// Fuel, J.
    pub fuel_j: f64,
    /// Money; None where a price is missing.
    pub cost: Option<f64>,
    /// Carbon, kg; None where an intensity is missing.
    pub carbon_kg: Option<f64>,
    /// Largest electric hour, W.
    pub electric_peak_w: f64,
    /// Coldest heated room and its least temperature, C.
    pub coldest_room: Option<(String, f64)>,
    /// Room hours more than 2 K below setting.
    pub short_2k_h: u32,
}

impl Row {
    /// The line of a year.
    pub fn of(year: &Year) -> Self {
        use crate::regime::Regime;
        let electricity_j = year.bought_j(jobfile::Carrier::Electricity);
        let cycling_j: f64 = year
            .units
            .iter()
            .map(|u| u.heat_in_j(Regime::Cycling))
            .sum();
        let by_heads = year.by_heads_j();
        Self {
            choice: year.choice.clone(),
            units: year.units.len(),
            heads: year.units.iter().map(|u| u.heads.len()).sum(),
            heads_share: year.heads_share(),
            seasonal_cop: year.seasonal_cop(),
            cycling_h: year.hours_in(Regime::Cycling),
            full_h: year.hours_in(Regime::Full),
            cannot_tell_h: year.hours_in(Regime::CannotTell),
            cycling_share: (by_heads > 0.0).then(|| cycling_j / by_heads),
            electricity_j,
            fuel_j: year.bought.iter().map(|b| b.energy_j).sum::<f64>() - electricity_j,
            cost: year.cost(),
            carbon_kg: year.carbon_kg(),
            electric_peak_w: year.electric_peak.w,
            coldest_room: year
                .rooms
                .iter()
                .filter(|r| r.heated)
                .min_by(|a, b| a.least_c.total_cmp(&b.least_c))
                .map(|r| (r.name.clone(), r.least_c)),
            short_2k_h: year.rooms.iter().map(|r| r.short_2k_h).sum(),
        }
    }
}

impl Comparison {
    /// The table: what is there now first, then the choices that have a year.
    pub fn rows(&self) -> Vec<Row> {
        self.baseline
            .iter()
            .chain(self.years.iter().filter_map(|(_, y)| y.as_ref().ok()))
            .map(Row::of)
            .collect()
    }
}
