//! The folder of parts: whose it is, what of it is there, and a part written whole or not at all.

use std::fs::File;
use std::path::{Path, PathBuf};

use programme::Counts;
use serde_json::Value;

use crate::files;
use crate::refusal::{Fault, Refusal};

/// What was asked, so that another question is not answered into the same folder.
const ASKED: &str = "_asked.json";
/// Held by the run that writes.
const LOCK: &str = "_lock";
/// Counts, once all parts are there.
const DONE: &str = "_done.json";
/// Most bytes of a part that is looked at again.
const MOST_PART: u64 = 4_000_000_000;

/// A folder that this run may write into.
pub struct Folder {
    path: PathBuf,
    _lock: File,
}

impl Folder {
    /// Takes the folder: makes it, or goes on in it if the same was asked before.
    ///
    /// # Errors
    /// A folder of something else or of another question, another run in it, no right to write.
    pub fn take(path: &Path, asked: &Value) -> Result<Self, Refusal> {
        let shown = path.display().to_string();
        let fault = |says: String| Fault::file(&shown, says);
        if let Err(why) = std::fs::create_dir(path)
            && !path.is_dir()
        {
            return Err(fault(format!("the folder cannot be made: {why}"))
                .mend("name a folder inside one that is there")
                .into());
        }
        let before = path.join(ASKED);
        if !before.exists() {
            let own = |name: &str| name == LOCK || name.starts_with(files::UNFINISHED);
            let entries = std::fs::read_dir(path)
                .map_err(|why| fault(format!("the folder cannot be read: {why}")))?;
            let other = entries
                .filter_map(|e| e.ok()?.file_name().into_string().ok())
                .find(|name| !own(name));
            if let Some(other) = other {
                return Err(fault("the folder holds something else".to_owned())
                    .got(other)
                    .allowed("an empty folder, or the one of a run that was ended")
                    .mend("name another folder")
                    .into());
            }
        }
        let lock = File::create(path.join(LOCK))
            .map_err(|why| fault(format!("nothing can be written here: {why}")))?;
        if lock.try_lock().is_err() {
            return Err(fault("another run is writing into this folder".to_owned())
                .mend("wait until it has ended, or name another folder")
                .into());
        }
        let folder = Self {
            path: path.to_path_buf(),
            _lock: lock,
        };
        folder.sweep();
        if before.exists() {
            let text = files::bytes(&before, files::MOST_TEXT, "file of the run before")?;
            let was: Value = serde_json::from_slice(&text).unwrap_or(Value::Null);
            same(&shown, &was, asked)?;
        } else {
            folder.write(ASKED, &pretty(asked))?;
        }
        Ok(folder)
    }

    /// Takes away what a run that was ended had begun.
    fn sweep(&self) {
        let Ok(entries) = std::fs::read_dir(&self.path) else {
            return;
        };
        for entry in entries.filter_map(Result::ok) {
            let name = entry.file_name();
            if name.to_string_lossy().starts_with(files::UNFINISHED) {
                let _ = std::fs::remove_file(entry.path());
            }
        }
    }

    fn part(&self, at: u64) -> PathBuf {
        self.path.join(format!("part-{at:05}.parquet"))
    }

    /// Counts of a part that is there and whole.
    pub fn whole(&self, at: u64, first: u64, rows: u64) -> Option<Counts> {
        let path = self.part(at);
        if !path.is_file() {
            return None;
        }
        let bytes = files::bytes(&path, MOST_PART, "part").ok()?;
        programme::counts(bytes, first, rows)
    }

    /// Writes a part.
    pub fn put(&self, at: u64, bytes: &[u8]) -> Result<(), Refusal> {
        files::write_whole(&self.part(at), bytes, true)
    }

    /// Writes that all parts are there.
    pub fn done(&self, counts: &Value) -> Result<(), Refusal> {
        self.write(DONE, &pretty(counts))
    }

    fn write(&self, name: &str, text: &str) -> Result<(), Refusal> {
        files::write_whole(&self.path.join(name), text, true)
    }
}

fn pretty(of: &Value) -> String {
    serde_json::to_string_pretty(of).unwrap_or_default() + "\n"
}

/// Refuses a folder in which something else was asked, and names the first thing that differs.
fn same(shown: &str, was: &Value, asked: &Value) -> Result<(), Refusal> {
    let entries = asked.as_object().into_iter().flatten();
    for (key, now) in entries {
        let before = was.get(key).unwrap_or(&Value::Null);
        if before != now {
            return Err(
                Fault::file(shown, "the folder holds the answer to another question")
                    .got(format!("{key}: {now}, and before it was {before}"))
                    .allowed("the same file, sheets, weather, rows of a part and version")
                    .mend("name another folder, or take this one away")
                    .into(),
            );
        }
    }
    Ok(())
}
