//! Files of bills and temperatures to what the stages take.

use std::path::{Path, PathBuf};

use jobfile::{BillFile, Carrier, Job};
use review::{Asked, Bills, Days, FileKind, Note, Period, Refused, YearOfDays};

use crate::arguments::BillsGiven;
use crate::files::{self, Loaded};
use crate::refusal::{Fault, Refusal};
use units::cut;

/// Most bytes of a file of bills or temperatures.
const MOST_BYTES: u64 = 48_000_000;

/// Bills of one carrier with how they were read.
pub struct Set {
    /// The bills.
    pub bills: Bills,
    /// How each file was read, one line a file.
    pub how: Vec<String>,
}

/// Everything read.
pub struct Gathered {
    /// Bills by carrier, in the order of the carriers.
    pub sets: Vec<Set>,
    /// Temperatures of the days.
    pub days: Days,
    /// Where they are from, in words.
    pub days_from: String,
    /// The typical year.
    pub year: YearOfDays,
    /// Remarks.
    pub notes: Vec<String>,
    /// Day the heat pump began to heat, where said.
    pub installed: Option<i32>,
}

/// Reads what the job and the command name.
pub fn gather(loaded: &Loaded, job_path: &Path, given: &BillsGiven) -> Result<Gathered, Refusal> {
    let job = &loaded.job;
    let folder = job_path.parent().unwrap_or(Path::new(""));
    let mut notes = Vec::new();
    if job.winters.wood_before_j.is_none() {
        notes.push(
            "The job does not say whether wood was burnt (wood_before under [winters]): none is \
             counted. Ask; a cord is as much as 150 gal of oil."
                .to_owned(),
        );
    }
    let wanted: Vec<(BillFile, PathBuf)> = if given.bills.is_empty() {
        let of_job = job.bill_files.iter();
        of_job.map(|f| (f.clone(), folder.join(&f.file))).collect()
    } else {
        given
            .bills
            .iter()
            .map(|text| named(text))
            .collect::<Result<_, _>>()?
    };
    let zone_s = Some((loaded.weather.station.utc_offset_h * 3600.0) as i64);
    let mut read: Vec<(Bills, String)> = Vec::new();
    for (file, path) in &wanted {
        read.extend(of_file(file, path, zone_s)?);
    }
    let mut sets: Vec<Set> = Vec::new();
    for carrier in Carrier::ALL {
        let mut mine: Vec<(Bills, String)> = read
            .iter()
            .filter(|(b, _)| b.carrier == carrier)
            .cloned()
            .collect();
        if given.bills.is_empty()
            && let Some(bills) = of_job(job, carrier)?
        {
            let how = format!("{} [[bill]] entries of the job", bills.periods.len());
            mine.push((bills, how));
        }
        if !mine.is_empty() {
            sets.push(together(carrier, &mine)?);
        }
    }
    if sets.is_empty() {
        return Err(
            Fault::file(&job_path.display().to_string(), "no bill is named")
                .allowed("[[bills]] with file = \"…\", or [[bill]] entries, or --bills FILE")
                .mend("ask the owner for the bills of a winter, and name the file")
                .into(),
        );
    }
    let year = YearOfDays::from_weather(&loaded.weather);
    let (days, days_from) = temperatures(loaded, folder, given, &sets, &year)?;
    let installed = review::installed(job);
    notes.extend(days.notes.iter().map(Note::to_string));
    Ok(Gathered {
        sets,
        days,
        days_from,
        year,
        notes,
        installed,
    })
}

/// `oil:slips.csv` or `slips.csv`.
fn named(text: &str) -> Result<(BillFile, PathBuf), Refusal> {
    let (of, file) = match text.split_once(':') {
        Some((word, rest)) if word.len() > 1 && !word.contains(['/', '\\', '.']) => {
            let of = Carrier::ALL
                .into_iter()
                .find(|c| c.word() == word.trim().to_lowercase());
            let of = of.ok_or_else(|| {
                let words: Vec<&str> = Carrier::ALL.iter().map(|c| c.word()).collect();
                Fault::flag("--bills", "this is nothing that is bought")
                    .got(word)
                    .allowed(words.join(", "))
                    .mend("write it before the file: oil:slips.csv")
            })?;
            (Some(of), rest)
        }
        _ => (None, text),
    };
    let bill = BillFile {
        of,
        file: file.to_owned(),
        ..BillFile::default()
    };
    Ok((bill, PathBuf::from(file)))
}

/// A refused file with its line.
pub fn fault(path: &Path, bytes: &[u8], why: Refused) -> Refusal {
    let text = why.line.map_or(String::new(), |line| {
        let all = String::from_utf8_lossy(bytes);
        let at = line.checked_sub(1).and_then(|i| all.lines().nth(i));
        cut(&at.unwrap_or("").replace('\t', " "), 72)
    });
    Fault {
        file: path.display().to_string(),
        line: why.line,
        text,
        ..Fault::file("", why.says)
    }
    .got(why.got)
    .allowed(why.usable)
    .mend(why.mend)
    .into()
}

fn of_file(
    file: &BillFile,
    path: &Path,
    zone_s: Option<i64>,
) -> Result<Vec<(Bills, String)>, Refusal> {
    let bytes = files::bytes(path, MOST_BYTES, "file of bills")?;
    let shown = path.display();
    let refused = |why: Refused| fault(path, &bytes, why);
    let asked = Asked {
        of: file.of,
        unit: file.unit.clone(),
        from: file.from_column.clone(),
        to: file.to_column.clone(),
        amount: file.amount_column.clone(),
        estimated: file.estimated_column.clone(),
        meter: file.meter.clone(),
        zone_s,
    };
    let kind = match file.kind.as_deref() {
        Some("green button") => FileKind::GreenButton,
        Some("deliveries") => FileKind::Deliveries,
        Some(_) => FileKind::Meter,
        None => review::kind_of(&bytes).map_err(refused)?,
    };
    match kind {
        FileKind::GreenButton => {
            let meters = review::read_espi(&bytes, zone_s).map_err(refused)?;
            let chosen: Vec<_> = meters
                .iter()
                .filter(|m| asked.meter.as_ref().is_none_or(|t| *t == m.title))
                .filter(|m| asked.of.is_none_or(|c| c == m.bills.carrier))
                .collect();
            if chosen.is_empty() {
                let titles: Vec<String> =
                    meters.iter().map(|m| format!("\"{}\"", m.title)).collect();
                return Err(
                    Fault::file(&shown.to_string(), "the feed has no such meter")
                        .got(asked.meter.unwrap_or_default())
                        .allowed(titles.join(", "))
                        .mend("write its title as `meter` in the job's [[bills]]")
                        .into(),
                );
            }
            Ok(chosen
                .into_iter()
                .map(|m| {
                    let how = format!("{shown}: meter \"{}\", {} readings", m.title, m.readings);
                    (m.bills.clone(), how)
                })
                .collect())
        }
        FileKind::Meter => {
            let read = review::read_meter(&bytes, &asked).map_err(refused)?;
            Ok(vec![(
                read.bills,
                format!("{shown}: {}", read.mapping.words()),
            )])
        }
        FileKind::Deliveries => {
            let read = review::read_deliveries(&bytes, &asked).map_err(refused)?;
            let how = format!("{shown}: {}", read.mapping.words_of_slips());
            Ok(vec![(read.bills, how)])
        }
    }
}

/// The `[[bill]]` entries of a carrier.
fn of_job(job: &Job, carrier: Carrier) -> Result<Option<Bills>, Refusal> {
    Bills::of_job(job, carrier).map_err(|why| {
        Fault::flag(&format!("bill of {}", carrier.word()), why.says)
            .got(why.got)
            .allowed(why.usable)
            .mend(why.mend)
            .into()
    })
}

/// Several files of one carrier are one account.
fn together(carrier: Carrier, files: &[(Bills, String)]) -> Result<Set, Refusal> {
    let how = files.iter().map(|(_, how)| how.clone()).collect();
    if let [(bills, _)] = files {
        return Ok(Set {
            bills: bills.clone(),
            how,
        });
    }
    let mut periods: Vec<Period> = files
        .iter()
        .flat_map(|(b, _)| b.periods.iter().cloned())
        .collect();
    periods.sort_by_key(|p| p.from);
    let notes = files
        .iter()
        .flat_map(|(b, _)| b.notes.iter().cloned())
        .collect();
    let mut bills = Bills::from_exact(carrier, periods, notes).map_err(|why| {
        Refusal::from(
            Fault::flag(
                "bills",
                format!(
                    "the files of {} do not go together: {}",
                    carrier.word(),
                    why.says
                ),
            )
            .got(why.got)
            .allowed(why.usable)
            .mend(
                "name each meter's file once; leave out the file or [[bill]] that repeats another",
            ),
        )
    })?;
    bills.deliveries = files.iter().any(|(b, _)| b.deliveries);
    bills.from_days = files.iter().any(|(b, _)| b.from_days);
    bills.behind_sun = files.iter().any(|(b, _)| b.behind_sun);
    Ok(Set { bills, how })
}

fn temperatures(
    loaded: &Loaded,
    folder: &Path,
    given: &BillsGiven,
    sets: &[Set],
    year: &YearOfDays,
) -> Result<(Days, String), Refusal> {
    let paths: Vec<PathBuf> = if given.temperatures.is_empty() {
        loaded
            .job
            .winters
            .temperatures
            .iter()
            .map(|t| folder.join(t))
            .collect()
    } else {
        given.temperatures.clone()
    };
    let mut all: Option<Days> = None;
    for path in &paths {
        let bytes = files::bytes(path, MOST_BYTES, "file of temperatures")?;
        let days = Days::read_csv(&bytes).map_err(|why| fault(path, &bytes, why))?;
        all = Some(match all {
            None => days,
            Some(before) => before.join(&days).map_err(|why| fault(path, &bytes, why))?,
        });
    }
    if let Some(days) = all {
        let shown: Vec<String> = paths.iter().map(|p| p.display().to_string()).collect();
        let known = days.mean_c.iter().flatten().count();
        return Ok((days, format!("{}, {known} days", shown.join(", "))));
    }
    let (days, own) = Days::of_bills(&loaded.weather, year, sets.iter().map(|s| &s.bills));
    if own {
        let station = loaded.weather.station.name.trim();
        return Ok((days, format!("{station}, of those dates")));
    }
    let words = format!(
        "the typical year of {}: no temperatures of those dates were given, so every band is \
         widened by {:.0} %",
        loaded.weather.station.name.trim(),
        review::TYPICAL_SHARE * 100.0
    );
    Ok((days, words))
}
