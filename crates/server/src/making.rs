//! Plans, made apart from the answering threads and kept by revision.

use std::collections::HashMap;
use std::path::PathBuf;
use std::sync::{Arc, Mutex, PoisonError};

use axum::http::StatusCode;
use climate::Weather;
use jobfile::Job;
use plan::{Catalogue, Plan};
use store::JobRow;
use tokio::sync::{OnceCell, Semaphore};

use crate::refused::Refused;

/// Plans kept at most; one of a large house with options is some 3 MB.
const MOST_PLANS: usize = 24;
/// Weather kept at most, files of a year.
const MOST_WEATHER: usize = 12;
/// Largest weather file, bytes.
const MOST_BYTES: u64 = 32_000_000;

/// A plan with the job it was made from.
#[derive(Debug)]
pub struct Made {
    /// Revision.
    pub revision: i64,
    /// The job as read.
    pub job: Job,
    /// The plan.
    pub plan: Plan,
    /// Remarks on the weather.
    pub notes: Vec<String>,
}

/// Job, revision, and when that was kept: a job brought back counts its revisions anew.
type Key = (String, i64, i64);
type Slot = Arc<OnceCell<Arc<Made>>>;
type Air = Arc<(Weather, Vec<String>)>;

/// Sheets, weather, and plans made so far.
pub struct Desk {
    catalogue: Arc<Catalogue>,
    folder: Option<PathBuf>,
    air: Mutex<Vec<(String, Air)>>,
    plans: Mutex<Plans>,
    turns: Arc<Semaphore>,
}

#[derive(Default)]
struct Plans {
    slots: HashMap<Key, (u64, Slot)>,
    used: u64,
}

impl Desk {
    pub fn new(catalogue: Catalogue, folder: Option<PathBuf>) -> Self {
        let cores = std::thread::available_parallelism().map_or(2, usize::from);
        Self {
            catalogue: Arc::new(catalogue),
            folder,
            air: Mutex::new(Vec::new()),
            plans: Mutex::new(Plans::default()),
            turns: Arc::new(Semaphore::new(cores)),
        }
    }

    /// The sheets.
    pub fn catalogue(&self) -> &Catalogue {
        &self.catalogue
    }

    /// The folder of weather files, if there is one.
    pub fn folder(&self) -> Option<&PathBuf> {
        self.folder.as_ref()
    }

    /// The plan of a job: made once for each revision, however many ask.
    pub async fn plan(&self, row: &JobRow) -> Result<Arc<Made>, Refused> {
        let slot = self.slot((row.id.clone(), row.revision, row.updated));
        slot.get_or_try_init(|| self.make(row.text.clone(), row.revision))
            .await
            .map(Arc::clone)
    }

    /// A plan that is not kept.
    pub async fn make(&self, text: String, revision: i64) -> Result<Arc<Made>, Refused> {
        let job = jobfile::read(&text).map_err(Refused::unreadable)?;
        let air = self.air(&job.place.weather)?;
        let catalogue = Arc::clone(&self.catalogue);
        self.apart(move || {
            let plan = plan::plan(&job, &catalogue, &air.0);
            Arc::new(Made {
                revision,
                job,
                plan,
                notes: air.1.clone(),
            })
        })
        .await
    }

    /// Something that takes long, apart from the answering threads and by turns.
    pub async fn apart<T: Send + 'static>(
        &self,
        what: impl FnOnce() -> T + Send + 'static,
    ) -> Result<T, Refused> {
        let turn = Arc::clone(&self.turns).acquire_owned().await;
        let turn = turn.map_err(Refused::defect)?;
        tokio::task::spawn_blocking(move || {
            let done = what();
            drop(turn);
            done
        })
        .await
        .map_err(Refused::defect)
    }

    /// A picture, decoded apart from the answering threads and by turns: one takes much memory.
    pub async fn picture(
        &self,
        bytes: axum::body::Bytes,
        keep_position: bool,
    ) -> Result<crate::picture::Ready, Refused> {
        self.apart(move || crate::picture::ready(&bytes, keep_position))
            .await?
    }

    fn slot(&self, key: Key) -> Slot {
        let mut plans = self.plans.lock().unwrap_or_else(PoisonError::into_inner);
        plans.used += 1;
        let now = plans.used;
        if let Some((used, slot)) = plans.slots.get_mut(&key) {
            *used = now;
            return Arc::clone(slot);
        }
        if plans.slots.len() >= MOST_PLANS {
            let oldest = plans.slots.iter().min_by_key(|(_, (used, _))| *used);
            if let Some(key) = oldest.map(|(k, _)| k.clone()) {
                plans.slots.remove(&key);
            }
        }
        let slot = Slot::default();
        plans.slots.insert(key, (now, Arc::clone(&slot)));
        slot
    }

    /// Weather by the name a job gives it. Only the last part of a path counts: what a job says
    /// never leads out of the folder.
    fn air(&self, name: &str) -> Result<Air, Refused> {
        let file = name.rsplit(['/', '\\']).next().unwrap_or("").trim();
        let missing = || {
            let ships: Vec<&str> = plan::shipped::STATIONS.iter().map(|s| s.name).collect();
            Refused::new(
                StatusCode::UNPROCESSABLE_ENTITY,
                "waits",
                "the weather the job names is not here",
            )
            .got(name)
            .allowed(format!("a station that ships: {}", ships.join(", ")))
            .mend("set place.weather to one of these, or have the file put into the weather folder of the server")
        };
        if file.is_empty() || file == ".." {
            return Err(missing());
        }
        let kept = || self.air.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some((_, air)) = kept().iter().find(|(n, _)| n == file) {
            return Ok(Arc::clone(air));
        }
        let own = self.folder.as_ref().map(|f| f.join(file));
        let own = own
            .filter(|p| std::fs::metadata(p).is_ok_and(|m| m.is_file() && m.len() <= MOST_BYTES));
        let shipped = plan::shipped::STATIONS
            .iter()
            .find(|s| file == s.name || file.starts_with(&format!("{}.", s.name)));
        let held;
        let bytes: &[u8] = match (&own, shipped) {
            (Some(path), _) => {
                held = std::fs::read(path).map_err(|_| missing())?;
                &held
            }
            (None, Some(s)) => s.bytes,
            (None, None) => return Err(missing()),
        };
        let read = climate::read_any(bytes).map_err(|why| {
            Refused::new(
                StatusCode::UNPROCESSABLE_ENTITY,
                "waits",
                "the weather file does not read",
            )
            .got(file)
            .mend(why.to_string())
        })?;
        let told = read
            .notes
            .into_iter()
            .filter(|n| n.kind != climate::NoteKind::DesignApart);
        let air: Air = Arc::new((read.value, told.map(|n| n.text).collect()));
        let mut all = kept();
        if all.len() >= MOST_WEATHER {
            all.remove(0);
        }
        all.push((file.to_owned(), Arc::clone(&air)));
        Ok(air)
    }
}
