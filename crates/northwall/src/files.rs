//! Reading the job, the catalogue and the weather; writing a file whole or not at all.

mod writing;

use std::io::Read;
use std::path::{Path, PathBuf};

use climate::Weather;
use jobfile::Job;
use plan::Catalogue;

use crate::arguments::Usual;
use crate::refusal::{Fault, Refusal};

#[cfg(feature = "many")]
pub use writing::UNFINISHED;
pub use writing::{write_chart, write_whole};

/// Most bytes of a job file or a sheet: a large job is under 100 kB.
pub const MOST_TEXT: u64 = 4_000_000;
/// Most bytes of a weather file.
const MOST_WEATHER: u64 = 32_000_000;

/// A job with all it needs.
pub struct Loaded {
    /// The job.
    pub job: Job,
    /// Sheets.
    pub catalogue: Catalogue,
    /// Weather.
    pub weather: Weather,
    /// What the reader of the weather remarked.
    pub notes: Vec<String>,
}

/// Reads everything a plan needs.
pub fn load(path: &Path, usual: &Usual) -> Result<Loaded, Refusal> {
    let mut job = job(path)?;
    if usual.si {
        job.units = units::System::Si;
    }
    let wants =
        usual.catalogue.is_some() || job.choices().iter().any(|c| !c.equipment.heads.is_empty());
    // The weather takes as long as the sheets: side by side.
    let (weather, catalogue) = std::thread::scope(|scope| {
        let weather = scope.spawn(|| weather(&job, path, usual));
        let catalogue = if wants {
            catalogue(path, usual)
        } else {
            Ok(Catalogue::default())
        };
        let weather = weather.join();
        (
            weather.unwrap_or_else(|panic| std::panic::resume_unwind(panic)),
            catalogue,
        )
    });
    let (weather, mut notes) = weather?;
    let zone_s = (weather.station.utc_offset_h * 3600.0) as i64;
    notes.extend(crate::demand::fill(&mut job, path, zone_s)?);
    let catalogue = catalogue?;
    Ok(Loaded {
        job,
        catalogue,
        weather,
        notes,
    })
}

/// Bytes of a file that is there, is a file and is not too large.
pub fn bytes(path: &Path, most: u64, what: &str) -> Result<Vec<u8>, Fault> {
    let shown = path.display().to_string();
    let fault = |says: String| Fault::file(&shown, says);
    let mut out = Vec::with_capacity(length(path, most, what)? as usize);
    let read = std::fs::File::open(path).and_then(|f| f.take(most).read_to_end(&mut out));
    match read {
        Ok(_) => Ok(out),
        Err(e) if e.kind() == std::io::ErrorKind::PermissionDenied => {
            Err(fault(format!("the {what} may not be read"))
                .mend("give yourself the right to read it"))
        }
        Err(e) => Err(fault(format!("the {what} does not read: {e}"))),
    }
}

/// Length of a file that is there, is a file and is not too large.
pub fn length(path: &Path, most: u64, what: &str) -> Result<u64, Fault> {
    let shown = path.display().to_string();
    let fault = |says: String| Fault::file(&shown, says);
    let meta = std::fs::metadata(path).map_err(|e| match e.kind() {
        std::io::ErrorKind::NotFound => fault(format!("there is no such {what}"))
            .mend("look at the path; it counts from where the command is run"),
        std::io::ErrorKind::PermissionDenied => {
            fault(format!("the {what} may not be read")).mend("give yourself the right to read it")
        }
        _ => fault(format!("the {what} cannot be looked at: {e}")),
    })?;
    if meta.is_dir() {
        return Err(
            fault(format!("this is a folder, not a {what}")).mend(format!("name the {what} in it"))
        );
    }
    if !meta.is_file() {
        return Err(fault(format!(
            "this is not an ordinary file, so not a {what}"
        )));
    }
    if meta.len() > most {
        return Err(fault(format!("the file is too large for a {what}"))
            .got(format!("{} bytes", meta.len()))
            .allowed(format!("at most {most} bytes"))
            .mend("name another file"));
    }
    Ok(meta.len())
}

/// Reads a job file.
pub fn job(path: &Path) -> Result<Job, Refusal> {
    let bytes = bytes(path, MOST_TEXT, "job file")?;
    let shown = path.display().to_string();
    let head =
        String::from_utf8_lossy(bytes.get(..8.min(bytes.len())).unwrap_or(&[])).to_uppercase();
    if head.starts_with("LOCATION") || bytes.starts_with(&[0x1f, 0x8b]) {
        return Err(
            Fault::file(&shown, "this is a weather file, not a job file")
                .mend("name the job; it names its weather under [place]")
                .into(),
        );
    }
    jobfile::read_bytes(&bytes).map_err(|problems| {
        let text = String::from_utf8_lossy(&bytes).into_owned();
        let lines: Vec<&str> = text.lines().collect();
        let refused: Vec<Fault> = problems
            .into_iter()
            .map(|p| Fault {
                file: shown.clone(),
                line: Some(p.span.line),
                column: Some(p.span.column),
                text: line_shown(&lines, p.span.line),
                width: underline(&lines, &p.span),
                place: p.path,
                says: p.says,
                got: p.got,
                allowed: p.allowed,
                mend: p.mend,
            })
            .collect();
        Refusal::from(refused)
    })
}

fn line_shown(lines: &[&str], line: usize) -> String {
    let text = line
        .checked_sub(1)
        .and_then(|i| lines.get(i))
        .copied()
        .unwrap_or("");
    units::cut(&text.replace('\t', " "), 72)
}

fn underline(lines: &[&str], span: &jobfile::Span) -> usize {
    let text = span
        .line
        .checked_sub(1)
        .and_then(|i| lines.get(i))
        .copied()
        .unwrap_or("");
    let rest = text
        .chars()
        .count()
        .saturating_sub(span.column.saturating_sub(1));
    span.end.saturating_sub(span.start).min(rest)
}

/// Weather of a job: from `--weather`, from the file it names, or a station that ships.
fn weather(job: &Job, path: &Path, usual: &Usual) -> Result<(Weather, Vec<String>), Refusal> {
    let named = match &usual.weather {
        Some(w) => w.clone(),
        None => PathBuf::from(&job.place.weather),
    };
    let name = named.to_string_lossy().into_owned();
    if name.trim().is_empty() {
        let of = path.display().to_string();
        return Err(Fault::file(&of, "the job names no weather")
            .mend("write weather under [place]")
            .into());
    }
    let at = match &usual.weather {
        Some(_) => named.clone(),
        None => path.parent().unwrap_or(Path::new("")).join(&named),
    };
    weather_at(&name, &at).map_err(|fault| {
        // A path in a job counts from the job, not from where somebody stands.
        if usual.weather.is_none() && !at.exists() {
            let mend = "look at weather under [place]: its path counts from the job's folder";
            return Refusal::from(fault.mend(mend));
        }
        Refusal::from(fault)
    })
}

/// Weather of a name: the file at its path, or a station that ships.
pub fn weather_at(name: &str, at: &Path) -> Result<(Weather, Vec<String>), Fault> {
    let mut notes = Vec::new();
    let shown = at.display().to_string();
    let held: Vec<u8>;
    let bytes: &[u8] = if let (Some(shipped), false) = (plan::shipped::weather(name), at.exists()) {
        shipped
    } else if let (Some((station, shipped)), false) = (shipped_like(name), at.exists()) {
        notes.push(format!(
            "{shown} is not there; the station {station} that ships is used."
        ));
        shipped
    } else {
        held = bytes(at, MOST_WEATHER, "weather file").map_err(|f| {
            let ships: Vec<&str> = plan::shipped::STATIONS.iter().map(|s| s.name).collect();
            if f.allowed.is_empty() {
                f.allowed(format!(
                    "an EPW or TMY3 csv file, or one that ships: {}",
                    ships.join(", ")
                ))
            } else {
                f
            }
        })?;
        &held
    };
    match climate::read_any(bytes) {
        Ok(read) => {
            // Header and hours apart is a finding of the plan, said there with what is used.
            let told = read
                .notes
                .into_iter()
                .filter(|n| n.kind != climate::NoteKind::DesignApart);
            notes.extend(told.map(|n| n.text));
            Ok((read.value, notes))
        }
        Err(why) => Err(Fault::file(&shown, why.to_string())),
    }
}

/// A shipped station whose file a path names.
fn shipped_like(name: &str) -> Option<(&'static str, &'static [u8])> {
    let file = Path::new(name).file_name()?.to_str()?;
    let station = plan::shipped::STATIONS
        .iter()
        .find(|s| file.starts_with(s.name) && file[s.name.len()..].starts_with('.'))?;
    Some((station.name, station.bytes))
}

/// The catalogue: from `--catalogue`, or the nearest folder of that name at or above the job.
pub fn catalogue(path: &Path, usual: &Usual) -> Result<Catalogue, Refusal> {
    let folder = match &usual.catalogue {
        Some(dir) => dir.clone(),
        None => match beside(path) {
            Some(dir) => dir,
            None => return Ok(Catalogue::default()),
        },
    };
    catalogue_in(&folder)
}

/// The sheets of a folder.
pub fn catalogue_in(folder: &Path) -> Result<Catalogue, Refusal> {
    let shown = folder.display().to_string();
    let entries = std::fs::read_dir(folder).map_err(|e| {
        let says = match e.kind() {
            std::io::ErrorKind::NotFound => "there is no such folder of data sheets".to_owned(),
            std::io::ErrorKind::NotADirectory => {
                "this is a file, not a folder of data sheets".to_owned()
            }
            _ => format!("the folder of data sheets cannot be read: {e}"),
        };
        Fault::file(&shown, says).mend("name the folder with --catalogue")
    })?;
    let mut paths: Vec<PathBuf> = entries
        .filter_map(|e| e.ok().map(|e| e.path()))
        .filter(|p| p.extension().is_some_and(|e| e == "toml"))
        .collect();
    paths.sort();
    if paths.is_empty() {
        return Err(Fault::file(&shown, "there is no data sheet in this folder")
            .allowed("files ending in .toml, one for each unit")
            .mend("name another folder with --catalogue")
            .into());
    }
    let mut texts = Vec::with_capacity(paths.len());
    for p in &paths {
        let bytes = bytes(p, MOST_TEXT, "data sheet")?;
        texts.push((
            p.display().to_string(),
            String::from_utf8_lossy(&bytes).into_owned(),
        ));
    }
    Catalogue::read(texts.iter().map(|(f, t)| (f.as_str(), t.as_str())))
        .map_err(|errors| sheet_refusal(errors, &texts))
}

/// Refusal of sheets, with their lines.
pub fn sheet_refusal(errors: Vec<heatpump::SheetError>, texts: &[(String, String)]) -> Refusal {
    let refused: Vec<Fault> = errors
        .into_iter()
        .map(|e| {
            let text = texts
                .iter()
                .find(|(f, _)| *f == e.file)
                .map_or("", |(_, t)| t.as_str());
            let lines: Vec<&str> = text.lines().collect();
            Fault {
                text: line_shown(&lines, e.line),
                file: e.file,
                line: Some(e.line),
                column: None,
                width: 0,
                place: e.place,
                says: "this cannot be in a data sheet".to_owned(),
                got: e.got,
                allowed: e.allowed,
                mend: e.mend,
            }
        })
        .collect();
    Refusal::from(refused)
}

pub fn beside(path: &Path) -> Option<PathBuf> {
    let full = path.canonicalize().ok()?;
    let found = full
        .ancestors()
        .skip(1)
        .map(|a| a.join("catalogue"))
        .find(|c| c.is_dir())?;
    // Shown as the person would name it from here.
    let here = std::env::current_dir().and_then(|h| h.canonicalize()).ok();
    let near = here.and_then(|h| found.strip_prefix(h).ok().map(Path::to_path_buf));
    Some(near.filter(|n| !n.as_os_str().is_empty()).unwrap_or(found))
}

/// Reads one data sheet.
pub fn sheet(path: &Path) -> Result<(heatpump::Sheet, String), Refusal> {
    let bytes = bytes(path, MOST_TEXT, "data sheet")?;
    let shown = path.display().to_string();
    let Ok(text) = String::from_utf8(bytes) else {
        return Err(Fault::file(&shown, "the file is not UTF-8 text")
            .mend("save it as UTF-8; a photo or a PDF is not a sheet file")
            .into());
    };
    match heatpump::read_sheet(&shown, &text) {
        Ok(sheet) => Ok((sheet, text)),
        Err(errors) => Err(sheet_refusal(errors, &[(shown, text)])),
    }
}
