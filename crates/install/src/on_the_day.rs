//! What job and sheets ask of an outdoor unit on the start-up day, so that nobody types it again.

use heatpump::{Head, NotASystem, OutdoorUnit, Sheet, System};
use jobfile::{AsBuiltValue, Job, OutdoorChoice};
use physics::refrigerant::Refrigerant;
use reckon::Book;
use season::Catalogue;

use crate::{Input, installation};

/// The line to one head.
#[derive(Debug, Clone)]
pub struct LineToHead {
    /// Head by its name in the job.
    pub head: String,
    /// Liquid tube, outside, m; none where neither job nor sheet says.
    pub liquid_m: Option<f64>,
    /// Gas tube, outside, m.
    pub gas_m: Option<f64>,
    /// Length, m, as built where that is known.
    pub length_m: Option<f64>,
    /// The length is as built.
    pub built: bool,
    /// Refrigerant side of the head's coil by its sheet, m3.
    pub coil_m3: Option<f64>,
    /// Part of the cooling that the gas line costs, 0 to 1.
    pub cost_share: Option<f64>,
}

/// An outdoor unit with its heads, lines and charge.
#[derive(Debug, Clone)]
pub struct OnTheDay {
    /// Name in the job.
    pub outdoor: String,
    /// Its sheet.
    pub unit: Sheet,
    /// Heads by their names in the job, with their sheets.
    pub heads: Vec<(String, Sheet)>,
    /// Lines, in the order of the heads.
    pub lines: Vec<LineToHead>,
    /// Height above the sea, m.
    pub elevation_m: Option<f64>,
    /// Refrigerant of the sheet; none where it names none that is known.
    pub refrigerant: Option<Refrigerant>,
    /// Lowest of what the plates allow, Pa above the air.
    pub plate_pa: Option<f64>,
    /// Test pressure planned, Pa above the air.
    pub target_pa: Option<f64>,
    /// Charge from the factory, kg.
    pub factory_kg: Option<f64>,
    /// To weigh in, signed, kg.
    pub trim_kg: Option<f64>,
    /// Most the sheet allows, kg.
    pub most_kg: Option<f64>,
}

/// A sheet that the catalogue has not.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoSheet {
    /// Outdoor unit by its name in the job.
    pub outdoor: String,
    /// Name of the sheet.
    pub unit: String,
}

/// The figures of lines and charge alone; they rest on neither house nor year.
///
/// # Errors
/// Rule files or formulas of the program that do not read: defects, in words.
pub fn lines_and_charge(job: &Job, catalogue: &Catalogue) -> Result<Book, String> {
    let done = installation(&Input {
        job,
        catalogue,
        model: None,
        year: None,
        glass: &[],
        winter_wind_deg: None,
        design_c: 0.0,
    })?;
    Ok(done.book)
}

impl OnTheDay {
    /// Gathers it from the job, its sheets and [`lines_and_charge`].
    ///
    /// # Errors
    /// The first sheet of the unit or its heads that is not there.
    pub fn of(
        job: &Job,
        catalogue: &Catalogue,
        book: &Book,
        outdoor: &OutdoorChoice,
    ) -> Result<Self, NoSheet> {
        let sheet = |name: &str| {
            catalogue.get(name).cloned().ok_or_else(|| NoSheet {
                outdoor: outdoor.name.clone(),
                unit: name.to_owned(),
            })
        };
        let unit = sheet(&outdoor.unit)?;
        let heads = job
            .equipment
            .heads_on(&outdoor.name)
            .map(|h| Ok((h.name.clone(), sheet(&h.unit)?)))
            .collect::<Result<Vec<_>, NoSheet>>()?;
        let rows = &job.installation.lines;
        let lines = heads
            .iter()
            .map(|(head, sheet)| {
                let row = rows.iter().find(|l| &l.head == head);
                let path = format!("head.{head}.line_length");
                LineToHead {
                    head: head.clone(),
                    liquid_m: row.and_then(|l| l.liquid_m).or(unit.lines.liquid_m),
                    gas_m: row.and_then(|l| l.gas_m).or(unit.lines.gas_m),
                    length_m: book.value(&format!("lines.{head}.length")),
                    built: job
                        .as_built
                        .iter()
                        .any(|b| b.path == path && matches!(b.value, AsBuiltValue::LineLength(_))),
                    coil_m3: sheet.start_up.coil_m3,
                    cost_share: book.value(&format!("lines.{head}.capacity-cost")),
                }
            })
            .collect();
        let mine = |head: &str| heads.iter().any(|(h, _)| h == head);
        let charge = |what: &str| book.value(&format!("charge.{}.{what}", outdoor.name));
        let plates = std::iter::once(&unit).chain(heads.iter().map(|(_, s)| s));
        Ok(Self {
            outdoor: outdoor.name.clone(),
            lines,
            elevation_m: job.place.elevation_m,
            refrigerant: unit
                .refrigerant
                .as_deref()
                .and_then(|name| Refrigerant::ALL.into_iter().find(|r| r.name() == name)),
            plate_pa: plates.filter_map(|s| s.plate.high_side_pa).reduce(f64::min),
            target_pa: rows
                .iter()
                .filter(|l| mine(&l.head))
                .filter_map(|l| l.test_pa)
                .reduce(f64::min),
            factory_kg: charge("factory"),
            trim_kg: charge("to-weigh"),
            most_kg: charge("most"),
            unit,
            heads,
        })
    }

    /// The system with one head running, or with all where none is named.
    ///
    /// # Errors
    /// Sheets that do not make a system.
    pub fn system(&self, only: Option<&str>) -> Result<System, NotASystem> {
        let heads = self
            .heads
            .iter()
            .filter(|(name, _)| only.is_none_or(|o| o == name))
            .map(|(_, sheet)| Head::new(sheet.clone()))
            .collect::<Result<Vec<_>, _>>()?;
        System::new(OutdoorUnit::new(self.unit.clone())?, heads)
    }

    /// What the gas line of the head that runs costs, 0 to 1; of the only line where no head is
    /// named.
    pub fn cost_share(&self, head: Option<&str>) -> Option<f64> {
        let line = match head {
            Some(head) => self.lines.iter().find(|l| l.head == head),
            None => self.lines.first().filter(|_| self.lines.len() == 1),
        };
        line?.cost_share
    }
}
