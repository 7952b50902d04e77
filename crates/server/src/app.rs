//! What all answers share: the store, the sheets, the weather, and the plans made so far.

use std::path::PathBuf;
use std::sync::{Arc, Weak};

use plan::Catalogue;
use store::Store;

use crate::making::Desk;
use crate::papers::Printer;

/// How the server runs.
#[derive(Debug, Clone, Default)]
pub struct Setting {
    /// Folder of the job's own weather files, looked into before those that ship.
    pub weather: Option<PathBuf>,
    /// Data sheets; those that ship where none are given.
    pub catalogue: Option<Catalogue>,
    /// People sign in. Otherwise everybody who reaches the server may do everything, and it may
    /// be reached from this machine only.
    pub sign_in: bool,
    /// What sets the papers; without it they are refused as not built.
    pub printer: Option<Arc<dyn Printer>>,
    /// Houses behind the bands; [`plan::HOUSES`] where nothing is said.
    pub houses: Option<usize>,
}

/// Shared by all requests.
#[derive(Clone)]
pub struct App(Arc<Inner>);

/// What [`App`] leads to.
pub struct Inner {
    pub(crate) store: Store,
    pub(crate) desk: Desk,
    pub(crate) pace: crate::pace::Pace,
    pub(crate) bands: crate::bands::Bandstand,
    pub(crate) sign_in: bool,
    pub(crate) printer: Option<Arc<dyn Printer>>,
}

impl std::ops::Deref for App {
    type Target = Inner;
    fn deref(&self) -> &Inner {
        &self.0
    }
}

impl std::fmt::Debug for App {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("App")
            .field("sign_in", &self.sign_in)
            .finish()
    }
}

impl App {
    /// Puts it together.
    pub fn new(store: Store, setting: Setting) -> Self {
        let catalogue = setting.catalogue.unwrap_or_else(crate::lists::that_ships);
        Self(Arc::new(Inner {
            store,
            desk: Desk::new(catalogue, setting.weather),
            pace: crate::pace::Pace::default(),
            bands: crate::bands::Bandstand::new(setting.houses.unwrap_or(plan::HOUSES)),
            sign_in: setting.sign_in,
            printer: setting.printer,
        }))
    }
    /// A way to it that does not keep it.
    pub(crate) fn weak(&self) -> Weak<Inner> {
        Arc::downgrade(&self.0)
    }

    /// Where it is still there.
    pub(crate) fn of(weak: &Weak<Inner>) -> Option<Self> {
        weak.upgrade().map(Self)
    }
}
