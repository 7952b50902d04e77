//! Who waits for bands, and what was worked out.

use std::collections::HashMap;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use plan::Catalogue;
use season::bands::{Asked, Bands, Told, Way};
use store::JobRow;
use tokio::sync::Semaphore;

use super::seen::{self, BandsView, State};
use crate::app::App;
use crate::bills::{Measured, billed, measured};
use crate::making::Made;

/// Jobs whose bands are kept or waited for; a result is some 10 kB.
const MOST: usize = 64;
/// Whoever waits asks every few seconds. After this long without it nobody waits any more.
const PATIENCE_MS: i64 = 60_000;
/// Threads at work on bands: the rest of the machine is for edits.
const THREADS: usize = 1;

/// What is under way for one revision of a job.
struct Work {
    of: (i64, i64),
    asked_ms: i64,
    state: State,
    says: String,
    found: Option<Arc<Found>>,
    run: Arc<Run>,
}

/// What was worked out.
#[derive(Debug)]
pub struct Found {
    /// The bands.
    pub bands: Bands,
    /// Why the job's bills tell nothing; empty where they do, or there are none.
    pub bills_cannot_tell: String,
}

/// Shared with the thread that works.
#[derive(Default)]
struct Run {
    looked_at: AtomicUsize,
    finished: AtomicUsize,
    given_up: AtomicBool,
}

/// Bands asked for and worked out.
pub struct Bandstand {
    houses: usize,
    turns: Arc<Semaphore>,
    all: Mutex<HashMap<String, Work>>,
}

impl Bandstand {
    /// With so many houses behind each band.
    pub fn new(houses: usize) -> Self {
        Self {
            houses,
            turns: Arc::new(Semaphore::new(1)),
            all: Mutex::default(),
        }
    }

    fn all(&self) -> MutexGuard<'_, HashMap<String, Work>> {
        self.all.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// How it stands with the bands of a job; begins the work where nothing is there for it.
    pub fn asked(&self, app: &App, firm: &str, row: JobRow) -> BandsView {
        let of = (row.updated, row.revision);
        let now = store::now_ms();
        let mut all = self.all();
        if let Some(work) = all.get_mut(&row.id)
            && work.of >= of
        {
            work.asked_ms = now;
            return self.seen(work);
        }
        if !all.contains_key(&row.id) && all.len() >= MOST && !make_room(&mut all, now) {
            return BandsView::of(row.revision, State::Waiting, self.houses);
        }
        let work = Work {
            of,
            asked_ms: now,
            state: State::Waiting,
            says: String::new(),
            found: None,
            run: Arc::default(),
        };
        let view = self.seen(&work);
        let run = Arc::clone(&work.run);
        if let Some(old) = all.insert(row.id.clone(), work) {
            old.run.given_up.store(true, Ordering::Relaxed);
        }
        drop(all);
        tokio::spawn(in_turn(app.clone(), firm.to_owned(), row, run));
        view
    }

    /// The bands of this revision of a job, where they are there.
    pub fn found(&self, row: &JobRow) -> Option<Arc<Found>> {
        let all = self.all();
        let work = all.get(&row.id);
        let mine = work.filter(|w| w.of == (row.updated, row.revision));
        mine.and_then(|w| w.found.clone())
    }

    fn seen(&self, work: &Work) -> BandsView {
        let mut view = BandsView::of(work.of.1, work.state, self.houses);
        view.houses_looked_at = work.run.looked_at.load(Ordering::Relaxed);
        view.houses_done = work.run.finished.load(Ordering::Relaxed);
        if let Some(found) = &work.found {
            view.houses = found.bands.samples;
        }
        view.cannot_tell.clone_from(&work.says);
        let shown = |f: &Arc<Found>| seen::bands_of(&f.bands, f.bills_cannot_tell.clone());
        view.bands = work.found.as_ref().map(shown);
        view
    }

    /// The work whose run this is; none where another has taken its place.
    fn mine(&self, id: &str, run: &Arc<Run>, then: impl FnOnce(&mut Work)) {
        if let Some(work) = self.all().get_mut(id)
            && Arc::ptr_eq(&work.run, run)
        {
            then(work);
        }
    }

    /// It is the turn of this work. Whether somebody still waits for it; else it goes.
    fn begins(&self, id: &str, run: &Arc<Run>) -> bool {
        let mut all = self.all();
        let Some(work) = all.get_mut(id).filter(|w| Arc::ptr_eq(&w.run, run)) else {
            return false;
        };
        if work.asked_ms + PATIENCE_MS < store::now_ms() {
            all.remove(id);
            return false;
        }
        work.state = State::Working;
        true
    }
}

/// Lets go of what was asked for longest ago and is not being worked on.
fn make_room(all: &mut HashMap<String, Work>, now: i64) -> bool {
    let done = |w: &Work| matches!(w.state, State::Done | State::Cannot);
    let oldest = all
        .iter()
        .filter(|(_, w)| done(w) || w.asked_ms + PATIENCE_MS < now && w.state == State::Waiting)
        .min_by_key(|(_, w)| w.asked_ms)
        .map(|(id, _)| id.clone());
    oldest.is_some_and(|id| all.remove(&id).is_some())
}

async fn in_turn(app: App, firm: String, row: JobRow, run: Arc<Run>) {
    let Ok(turn) = Arc::clone(&app.bands.turns).acquire_owned().await else {
        return;
    };
    if !app.bands.begins(&row.id, &run) {
        return;
    }
    let made = match app.desk.plan(&row).await {
        Ok(made) => made,
        Err(refused) => return ends(&app, &row.id, &run, Err(refused.says)),
    };
    let measured = match measured(&app, &firm, &made.job, &row.id).await {
        Ok(measured) => measured,
        Err(refused) => return ends(&app, &row.id, &run, Err(refused.says)),
    };
    let (catalogue, houses) = (Arc::clone(app.desk.catalogue()), app.bands.houses);
    // A server that ends does not wait for it.
    let here = app.weak();
    drop(app);
    let mine = Arc::clone(&run);
    let found = tokio::task::spawn_blocking(move || {
        let go_on = |way: Way| {
            mine.looked_at.store(way.looked_at, Ordering::Relaxed);
            mine.finished.store(way.finished, Ordering::Relaxed);
            here.strong_count() > 0 && !mine.given_up.load(Ordering::Relaxed)
        };
        let found = of_job(&made, &measured, &catalogue, houses, &go_on);
        (here, found)
    })
    .await;
    drop(turn);
    if let Ok((here, found)) = found
        && let Some(app) = App::of(&here)
    {
        ends(&app, &row.id, &run, found);
    }
}

fn ends(app: &App, id: &str, run: &Arc<Run>, found: Result<Found, String>) {
    app.bands.mine(id, run, |work| match found {
        Ok(found) => {
            work.state = State::Done;
            work.found = Some(Arc::new(found));
        }
        Err(says) => {
            work.state = State::Cannot;
            work.says = says;
        }
    });
}

/// As `northwall bands`, with the bills that are in the job itself.
fn of_job(
    made: &Made,
    measured: &Measured,
    catalogue: &Catalogue,
    houses: usize,
    go_on: &(dyn Fn(Way) -> bool + Sync),
) -> Result<Found, String> {
    let job = &made.job;
    let (mut told, mut bills) = (None, String::new());
    if !job.bills.is_empty() {
        match billed(made, measured).map_err(|r| r.says).map(|b| b.loss) {
            Ok(Ok(loss)) => {
                let band = loss.loss_w_per_k;
                told = Some(Told::of_band(band.low, band.high));
            }
            Ok(Err(why)) => bills = why.says,
            Err(says) => bills = says,
        }
    }
    let asked = Asked {
        samples: houses,
        seed: plan::SEED,
        told,
        threads: THREADS,
    };
    let choices = job.choices();
    let bands = plan::banded(job, catalogue, made.weather(), &choices, &asked, go_on)?;
    Ok(Found {
        bands,
        bills_cannot_tell: bills,
    })
}
