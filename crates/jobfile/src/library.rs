//! The one place where the reader asks the material library of the house.

use house::describe::{Construction, Glazing, Layer};

use crate::check::Says;

/// Why the library does not know something.
#[derive(Debug, Clone)]
pub(crate) struct Miss {
    pub allowed: String,
    pub mend: String,
}

impl Miss {
    /// As a problem.
    pub fn says(self, what: &str, got: &str) -> Says {
        Says::new(what)
            .got(format!("\"{}\"", crate::tree::shorten(got)))
            .allowed(self.allowed)
            .mend(self.mend)
    }
}

fn miss() -> Miss {
    Miss {
        allowed: "a material of the library with its thickness".to_owned(),
        mend: "write it out: { name, thickness, k, density, cp }".to_owned(),
    }
}

/// A layer by its text.
pub(crate) fn layer(_text: &str) -> Result<Layer, Miss> {
    Err(miss())
}

/// A whole build-up by name.
pub(crate) fn construction(_name: &str) -> Result<Construction, Miss> {
    Err(miss())
}

/// A glazing by name.
pub(crate) fn glazing(_name: &str) -> Option<Glazing> {
    None
}

/// Names of the glazings of the library.
pub(crate) fn glazing_names() -> Vec<&'static str> {
    Vec::new()
}
