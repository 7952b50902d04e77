//! The one place where the reader asks the library of the house: layers, build-ups, glazings.

use house::describe::{Construction, Glazing, Layer};
use house::library::{self, LibraryError};

use crate::check::Says;
use crate::tree::shorten;

/// A layer by its text.
pub(crate) fn layer(text: &str) -> Result<Layer, Says> {
    library::layer_from_text(text).map_err(|error| {
        let allowed = "a material of the library with its thickness, an R-value, or a layer \
                       written out";
        let says = match &error {
            LibraryError::Unknown { kind, name, .. } => {
                Says::new(format!("the library has no {kind} `{}`", shorten(name)))
            }
            LibraryError::Layer { why, .. } => {
                Says::new(format!("this layer does not read: {why}"))
            }
        };
        let mend = match near(&error) {
            Some(near) => format!("did you mean `{near}`?"),
            None => "write it like \"gypsum 0.5 in\", or out: { name, thickness, k, density, cp }"
                .to_owned(),
        };
        says.got(format!("\"{}\"", shorten(text)))
            .allowed(allowed)
            .mend(mend)
    })
}

/// A whole build-up by name.
pub(crate) fn construction(name: &str) -> Result<Construction, Says> {
    library::construction_by_name(name).map_err(|error| {
        unknown(
            name,
            &error,
            "build-up",
            &library::construction_names(),
            "give its `layers`",
        )
    })
}

/// A glazing by name.
pub(crate) fn glazing(name: &str) -> Result<Glazing, Says> {
    library::glazing_by_name(name).map_err(|error| {
        let mend = "describe it under [glazing.its-name], or give the label: { u, shgc }";
        unknown(name, &error, "glazing", &library::glazing_names(), mend)
    })
}

fn unknown(name: &str, error: &LibraryError, what: &str, names: &[&str], mend: &str) -> Says {
    let mend = match near(error) {
        Some(near) => format!("did you mean \"{near}\"?"),
        None => mend.to_owned(),
    };
    Says::new(format!(
        "there is no {what} of this name in the job or the library"
    ))
    .got(format!("\"{}\"", shorten(name)))
    .allowed(names.join(", "))
    .mend(mend)
}

fn near(error: &LibraryError) -> Option<&str> {
    match error {
        LibraryError::Unknown { near, .. } => near.as_deref(),
        LibraryError::Layer { .. } => None,
    }
}
