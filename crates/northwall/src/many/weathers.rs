//! The weather of many houses, each file read once.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use climate::Weather;

use crate::files;

/// Weather files kept at a time; a year of weather is about a megabyte.
const MOST_KEPT: usize = 64;

type Read = Result<Arc<Weather>, String>;

/// Where a file's weather is put as soon as it is read.
type Place = Arc<Mutex<Option<Read>>>;

/// What has been read.
#[derive(Default)]
pub struct Weathers {
    /// By path: when it was last asked for, and the weather.
    kept: Mutex<BTreeMap<PathBuf, (u64, Place)>>,
}

impl Weathers {
    /// The weather of that name: a station that ships, or a path from `folder`.
    pub fn of(&self, name: &str, folder: &Path) -> Read {
        let name = name.trim();
        if name.is_empty() {
            return Err("place.weather: the job names no weather".to_owned());
        }
        let at = folder.join(name);
        let place = self.place(&at);
        // Who asks for the same file waits here until it is read; others go on.
        let mut place = held(&place);
        place
            .get_or_insert_with(|| {
                files::weather_at(name, &at)
                    .map(|(weather, _)| Arc::new(weather))
                    .map_err(|fault| fault.in_a_line())
            })
            .clone()
    }

    fn place(&self, at: &Path) -> Place {
        let mut kept = held(&self.kept);
        let now = kept.values().map(|(n, _)| n + 1).max().unwrap_or(0);
        if let Some((last, place)) = kept.get_mut(at) {
            *last = now;
            return Arc::clone(place);
        }
        if kept.len() >= MOST_KEPT {
            let oldest = kept.iter().min_by_key(|(_, (last, _))| *last);
            if let Some(path) = oldest.map(|(path, _)| path.clone()) {
                kept.remove(&path);
            }
        }
        let place = Arc::new(Mutex::new(None));
        kept.insert(at.to_path_buf(), (now, Arc::clone(&place)));
        place
    }
}

fn held<T>(of: &Mutex<T>) -> MutexGuard<'_, T> {
    of.lock().unwrap_or_else(PoisonError::into_inner)
}
