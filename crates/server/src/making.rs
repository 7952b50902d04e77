//! Plans, made apart from the answering threads and kept by revision.

use std::collections::HashMap;
use std::path::PathBuf;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use axum::http::StatusCode;
use climate::Weather;
use jobfile::Job;
use plan::{Before, Catalogue, Plan, Years};
use store::JobRow;
use tokio::sync::{OnceCell, Semaphore};
use units::System;

use crate::refused::Refused;

/// Plans kept at most, the newest of each job; one of a large house is some 1 MB.
const MOST_PLANS: usize = 64;
/// And such with the years of the options, some 3 MB each: few look at them at once.
const MOST_WHOLE: usize = 8;
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
    air: Air,
    years: Years,
    /// The same in the words of the other units, once somebody asked: it goes when this goes.
    other: OnceCell<Arc<Made>>,
}

impl Made {
    /// Remarks on the weather.
    pub fn notes(&self) -> &[String] {
        &self.air.1
    }

    /// The weather it was made with.
    pub fn weather(&self) -> &Weather {
        &self.air.0
    }
}

/// A revision and when it was kept: a job brought back counts its revisions anew.
type Of = (i64, i64);
type Slot = Arc<OnceCell<Arc<Made>>>;
type Air = Arc<(Weather, Vec<String>)>;

/// Sheets, weather, and plans made so far.
pub struct Desk {
    catalogue: Arc<Catalogue>,
    folder: Option<PathBuf>,
    air: Mutex<Vec<(String, Air)>>,
    plans: Mutex<Plans>,
    whole: Mutex<Plans>,
    turns: Arc<Semaphore>,
    pictures: Semaphore,
}

/// The newest plan of each job. One that was superseded is kept until the next is made from it.
struct Plans {
    slots: HashMap<String, Newest>,
    used: u64,
    most: usize,
}

struct Newest {
    used: u64,
    of: Of,
    slot: Slot,
    before: Option<Arc<Made>>,
}

impl Plans {
    fn of(most: usize) -> Mutex<Self> {
        Mutex::new(Self {
            slots: HashMap::new(),
            used: 0,
            most,
        })
    }

    /// Where the plan of a revision goes, and the plan made before it.
    fn slot(&mut self, row: &JobRow) -> (Slot, Option<Arc<Made>>) {
        let of = (row.updated, row.revision);
        self.used += 1;
        let now = self.used;
        if let Some(newest) = self.slots.get_mut(&row.id) {
            if newest.of > of {
                // somebody looked before the last change came: made for them, not kept
                return (Slot::default(), newest.before.clone());
            }
            newest.used = now;
            if newest.of < of {
                newest.of = of;
                let old = std::mem::take(&mut newest.slot);
                newest.before = old.get().cloned().or(newest.before.take());
            }
            return (Arc::clone(&newest.slot), newest.before.clone());
        }
        if self.slots.len() >= self.most {
            let oldest = self.slots.iter().min_by_key(|(_, newest)| newest.used);
            if let Some(id) = oldest.map(|(id, _)| id.clone()) {
                self.slots.remove(&id);
            }
        }
        let newest = Newest {
            used: now,
            of,
            slot: Slot::default(),
            before: None,
        };
        let slot = Arc::clone(&newest.slot);
        self.slots.insert(row.id.clone(), newest);
        (slot, None)
    }

    /// A plan is made: the one before it has served.
    fn made(&mut self, made: &Made, id: &str) {
        if let Some(newest) = self.slots.get_mut(id)
            && newest.of.1 == made.revision
        {
            newest.before = None;
        }
    }

    /// The newest plan that is made.
    fn newest(&self, id: &str) -> Option<Arc<Made>> {
        let newest = self.slots.get(id)?;
        newest.slot.get().cloned().or_else(|| newest.before.clone())
    }
}

fn locked(plans: &Mutex<Plans>) -> MutexGuard<'_, Plans> {
    plans.lock().unwrap_or_else(PoisonError::into_inner)
}

impl Desk {
    pub fn new(catalogue: Catalogue, folder: Option<PathBuf>) -> Self {
        let cores = std::thread::available_parallelism().map_or(2, usize::from);
        Self {
            catalogue: Arc::new(catalogue),
            folder,
            air: Mutex::new(Vec::new()),
            plans: Plans::of(MOST_PLANS),
            whole: Plans::of(MOST_WHOLE),
            // Parts of a plan wait for each other, so two to a core: with one to a core, who came a
            // little later waited for a whole plan.
            turns: Arc::new(Semaphore::new(2 * cores)),
            pictures: Semaphore::new(cores),
        }
    }

    /// The sheets.
    pub fn catalogue(&self) -> &Arc<Catalogue> {
        &self.catalogue
    }

    /// The folder of weather files, if there is one.
    pub fn folder(&self) -> Option<&PathBuf> {
        self.folder.as_ref()
    }

    /// The plan of a job with the year of what is chosen: made once for each revision, however many
    /// ask. Findings, loads and rooms are those of the whole plan; only the options' years are not
    /// in it.
    pub async fn plan(&self, row: &JobRow) -> Result<Arc<Made>, Refused> {
        self.kept(&self.plans, row, Years::Chosen).await
    }

    /// The plan with the years of the options too.
    pub async fn whole(&self, row: &JobRow) -> Result<Arc<Made>, Refused> {
        self.kept(&self.whole, row, Years::All).await
    }

    async fn kept(
        &self,
        plans: &Mutex<Plans>,
        row: &JobRow,
        years: Years,
    ) -> Result<Arc<Made>, Refused> {
        let (slot, before) = locked(plans).slot(row);
        // The plan of what is chosen has most of the years of the whole.
        let before = before.or_else(|| locked(&self.plans).newest(&row.id));
        let mut new = false;
        let made = slot
            .get_or_try_init(|| {
                new = true;
                self.made(row.text.clone(), row.revision, years, before)
            })
            .await?;
        if new {
            locked(plans).made(made, &row.id);
        }
        Ok(Arc::clone(made))
    }

    /// A plan that is not kept, without the years of the options: of a job that may be one edit
    /// away from the one kept under `id`.
    pub async fn make(&self, text: String, row: &JobRow) -> Result<Arc<Made>, Refused> {
        let before = locked(&self.plans).newest(&row.id);
        self.made(text, row.revision, Years::Chosen, before).await
    }

    async fn made(
        &self,
        text: String,
        revision: i64,
        years: Years,
        before: Option<Arc<Made>>,
    ) -> Result<Arc<Made>, Refused> {
        let job = jobfile::read(&text).map_err(Refused::unreadable)?;
        let air = self.air(&job.place.weather)?;
        let catalogue = Arc::clone(&self.catalogue);
        self.apart(move || {
            let before = before.as_ref().map(|b| Before {
                job: &b.job,
                catalogue: &catalogue,
                weather: &b.air.0,
                plan: &b.plan,
            });
            let plan = plan::plan_after(&job, &catalogue, &air.0, years, before.as_ref());
            Arc::new(Made {
                revision,
                job,
                plan,
                air,
                years,
                other: OnceCell::new(),
            })
        })
        .await
    }

    /// The plan with its findings in the units asked for: they are words, and the job's units are
    /// what they are said in. The years are taken over, so it takes a small part of a plan's time.
    pub async fn said(&self, made: Arc<Made>, si: bool) -> Result<Arc<Made>, Refused> {
        let system = if si { System::Si } else { System::Us };
        if made.job.units == system {
            return Ok(made);
        }
        let of = Arc::clone(&made);
        let catalogue = Arc::clone(&self.catalogue);
        let other = made.other.get_or_try_init(|| {
            self.apart(move || {
                let mut job = of.job.clone();
                job.units = system;
                let before = Before {
                    job: &of.job,
                    catalogue: &catalogue,
                    weather: &of.air.0,
                    plan: &of.plan,
                };
                let weather = &of.air.0;
                let plan = plan::plan_after(&job, &catalogue, weather, of.years, Some(&before));
                Arc::new(Made {
                    revision: of.revision,
                    job,
                    plan,
                    air: Arc::clone(&of.air),
                    years: of.years,
                    other: OnceCell::new(),
                })
            })
        });
        other.await.map(Arc::clone)
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
        let _turn = self.pictures.acquire().await.map_err(Refused::defect)?;
        self.apart(move || crate::picture::ready(&bytes, keep_position))
            .await?
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
