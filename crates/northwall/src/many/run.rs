//! Houses through all cores: one thread hands out rows, some work, one writes parts in order.

use std::collections::BTreeMap;
use std::fs::File;
use std::io::Read;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, SyncSender, sync_channel};
use std::sync::{Mutex, PoisonError};
use std::time::Duration;

use indicatif::{ProgressBar, ProgressStyle};
use plan::Catalogue;
use programme::{Counts, Houses, Line, Mark, NotHouses, Row, State};
use serde_json::{Value, json};

use super::folder::Folder;
use super::weathers::Weathers;
use crate::arguments::Usual;
use crate::files;
use crate::refusal::{Fault, Refusal};
use crate::view::VERSION;

/// What is asked.
pub struct Asked<'a> {
    pub houses: &'a Path,
    pub out: &'a Path,
    pub threads: usize,
    pub rows_a_part: u64,
    pub usual: &'a Usual,
}

/// What came of it.
pub struct Found {
    pub parts: u64,
    pub kept: u64,
    pub counts: Counts,
    pub unread: Vec<String>,
}

/// What all houses share.
struct Shared<'a> {
    catalogue: Catalogue,
    weathers: Weathers,
    /// Folder that paths of the file count from.
    folder: PathBuf,
    usual: &'a Usual,
}

pub fn run(asked: &Asked<'_>) -> Result<Found, Refusal> {
    let (houses, of_file) = opened(asked.houses)?;
    let shared = Shared {
        catalogue: files::catalogue(asked.houses, asked.usual)?,
        weathers: Weathers::default(),
        folder: asked.houses.parent().unwrap_or(Path::new("")).to_path_buf(),
        usual: asked.usual,
    };
    let question = question(asked, &houses, &of_file, &shared)?;
    let folder = Folder::take(asked.out, &question)?;
    let rows = asked.rows_a_part;
    let parts = houses.len.div_ceil(rows);
    let length = |part: u64| rows.min(houses.len - part * rows);
    let mut counts = Counts::default();
    let mut there = vec![false; usize::try_from(parts).unwrap_or(usize::MAX)];
    for (part, there) in (0..parts).zip(&mut there) {
        if let Some(of_part) = folder.whole(part, part * rows, length(part)) {
            *there = true;
            add(&mut counts, &of_part);
        }
    }
    let kept = there.iter().filter(|t| **t).count() as u64;
    let wanted = |row: u64| !usize::try_from(row / rows).is_ok_and(|p| there.get(p) == Some(&true));
    let bar = bar(houses.len, counts.iter().sum());
    let read = std::thread::scope(|scope| {
        let (to_work, work) = sync_channel::<(u64, Row)>(2 * asked.threads);
        let (to_write, write) = sync_channel::<Line>(2 * asked.threads);
        let (houses, shared, wanted) = (&houses, &shared, &wanted);
        let reader = scope
            .spawn(move || houses.each(wanted, &mut |at, row| to_work.send((at, row)).is_ok()));
        let work = std::sync::Arc::new(Mutex::new(work));
        for _ in 0..asked.threads {
            let (work, to_write) = (std::sync::Arc::clone(&work), to_write.clone());
            scope.spawn(move || works(&work, &to_write, shared));
        }
        // From here on the workers alone hold them: the last one gone ends what is below.
        drop((work, to_write));
        let written = writes(write, &folder, rows, &length, &mut counts, &bar);
        let read = reader.join();
        written?;
        match read {
            Ok(Ok(())) => Ok(()),
            Ok(Err(why)) => Err(parts_stand(not_houses(asked.houses, why))),
            Err(_) => Err(parts_stand(
                Fault::file(
                    &asked.houses.display().to_string(),
                    "the file is damaged; its reader gave up",
                )
                .mend("write the table again")
                .into(),
            )),
        }
    });
    bar.finish_and_clear();
    read?;
    let [done, waits, refused, defects] = counts;
    folder.done(&json!({
        "northwall": VERSION, "houses": houses.len, "parts": parts,
        "done": done, "waits": waits, "refused": refused, "defects": defects,
    }))?;
    Ok(Found {
        parts,
        kept,
        counts,
        unread: houses.unread,
    })
}

/// The file and its mark.
fn opened(path: &Path) -> Result<(Houses, String), Refusal> {
    let shown = path.display().to_string();
    // Says what is wrong with the path itself; a table may be of any size.
    files::length(path, u64::MAX, "file of houses")?;
    let fault = |why: std::io::Error| Fault::file(&shown, format!("the file does not read: {why}"));
    let mut file = File::open(path).map_err(fault)?;
    let mut mark = Mark::default();
    let mut held = vec![0; 1 << 20];
    loop {
        match file.read(&mut held).map_err(fault)? {
            0 => break,
            n => mark.add(held.get(..n).unwrap_or(&[])),
        }
    }
    let houses = Houses::new(file).map_err(|why| not_houses(path, why))?;
    Ok((houses, mark.word()))
}

fn parts_stand(mut refusal: Refusal) -> Refusal {
    refusal.stands = Some("parts that were whole before it stand in the folder".to_owned());
    refusal
}

fn not_houses(path: &Path, why: NotHouses) -> Refusal {
    Fault {
        file: path.display().to_string(),
        says: why.says,
        got: why.got,
        allowed: why.allowed,
        mend: why.mend,
        ..Fault::default()
    }
    .into()
}

/// All that the answer rests on and that this run can see before it begins.
fn question(
    asked: &Asked<'_>,
    houses: &Houses,
    of_file: &str,
    shared: &Shared<'_>,
) -> Result<Value, Refusal> {
    let mut sheets = Mark::default();
    for sheet in shared.catalogue.iter() {
        sheets.add(format!("{sheet:?}").as_bytes());
    }
    let weather = match &asked.usual.weather {
        None => Value::Null,
        Some(path) => {
            let name = path.display().to_string();
            let weather = shared.weathers.of(&name, Path::new(""));
            let weather = weather.map_err(|why| Fault::flag("--weather", why))?;
            let mut mark = Mark::default();
            mark.add(format!("{weather:?}").as_bytes());
            mark.word().into()
        }
    };
    Ok(json!({
        "northwall": VERSION,
        "file": of_file,
        "houses": houses.len,
        "rows_a_part": asked.rows_a_part,
        "sheets": sheets.word(),
        "weather": weather,
    }))
}

/// Takes rows until there are no more, or nobody wants what comes of them.
fn works(work: &Mutex<Receiver<(u64, Row)>>, to_write: &SyncSender<Line>, shared: &Shared<'_>) {
    loop {
        let next = work.lock().unwrap_or_else(PoisonError::into_inner).recv();
        let Ok((at, row)) = next else { return };
        let line = catch_unwind(AssertUnwindSafe(|| shared.line(at, &row))).unwrap_or_else(|_| {
            programme::refused(
                at,
                &row.id,
                State::Defect,
                "a defect of the program, not of the house; send the row to whoever keeps the program",
            )
        });
        if to_write.send(line).is_err() {
            return;
        }
    }
}

/// Puts lines in the order of their rows and writes each part as soon as it is whole.
fn writes(
    write: Receiver<Line>,
    folder: &Folder,
    rows: u64,
    length: &dyn Fn(u64) -> u64,
    counts: &mut Counts,
    bar: &ProgressBar,
) -> Result<(), Refusal> {
    let mut waiting: BTreeMap<u64, BTreeMap<u64, Line>> = BTreeMap::new();
    for line in write {
        bar.inc(1);
        let part = line.row / rows;
        let of_part = waiting.entry(part).or_default();
        of_part.insert(line.row, line);
        if of_part.len() as u64 == length(part)
            && let Some(lines) = waiting.remove(&part)
        {
            let lines: Vec<Line> = lines.into_values().collect();
            for line in &lines {
                if let Some(of) = State::ALL.iter().position(|s| *s == line.state)
                    && let Some(count) = counts.get_mut(of)
                {
                    *count += 1;
                }
            }
            let bytes = programme::part(&lines, VERSION)
                .map_err(|why| Fault::flag("--out", format!("a part cannot be made: {why}")))?;
            folder.put(part, &bytes)?;
        }
    }
    Ok(())
}

fn add(to: &mut Counts, of: &Counts) {
    for (to, of) in to.iter_mut().zip(of) {
        *to += of;
    }
}

fn bar(houses: u64, there: u64) -> ProgressBar {
    let bar = ProgressBar::new(houses);
    if let Ok(style) = ProgressStyle::with_template("  {bar:30} {pos} of {len} houses, {eta} left")
    {
        bar.set_style(style);
    }
    bar.set_position(there);
    bar.reset_eta();
    bar.enable_steady_tick(Duration::from_millis(200));
    bar
}

impl Shared<'_> {
    /// One house: its text and its weather looked up, then the pure function.
    fn line(&self, at: u64, row: &Row) -> Line {
        self.tried(at, row)
            .unwrap_or_else(|why| programme::refused(at, &row.id, State::Refused, why))
    }

    fn tried(&self, at: u64, row: &Row) -> Result<Line, String> {
        if let Some(wrong) = &row.wrong {
            return Err(wrong.clone());
        }
        let (text, folder) = match row.path() {
            None => (None, self.folder.clone()),
            Some(path) => {
                let path = self.folder.join(path);
                let bytes = files::bytes(&path, files::MOST_TEXT, "job file")
                    .map_err(|fault| format!("job: {}", fault.in_a_line()))?;
                let text = String::from_utf8(bytes)
                    .map_err(|_| format!("job: {} is not UTF-8 text", path.display()))?;
                let folder = path.parent().unwrap_or(Path::new("")).to_path_buf();
                (Some(text), folder)
            }
        };
        let text = text.as_deref().unwrap_or(&row.job);
        if text.len() as u64 > files::MOST_TEXT {
            return Err(format!(
                "job: the text is too large: {} bytes, at most {}",
                text.len(),
                files::MOST_TEXT
            ));
        }
        let job = programme::job(text, row)?;
        let weather = match (&self.usual.weather, &row.weather) {
            (Some(path), _) => self.weathers.of(&path.display().to_string(), Path::new("")),
            (None, Some(name)) => self.weathers.of(name, &self.folder),
            (None, None) => self.weathers.of(&job.place.weather, &folder),
        };
        Ok(programme::house(at, row, &job, &self.catalogue, &*weather?))
    }
}
