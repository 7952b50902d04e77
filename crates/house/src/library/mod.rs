//! What houses here are made of: materials, usual build-ups, usual windows, and the reading of a
//! layer as a builder writes it.

mod assemblies;
mod glazings;
mod layer_text;
mod materials;
mod table;

pub use assemblies::{construction_by_name, construction_names, usual_construction};
pub use glazings::{glazing_by_name, glazing_names};
pub use layer_text::{Fill, fill_of, framed_by_spacing, framing_share, layer_from_text};
pub use materials::{Material, material, materials};

/// Why something is not in the library or does not read.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum LibraryError {
    /// No such thing.
    #[error("no {kind} \"{name}\" is known{}", near.as_ref().map(|n| format!("; did you mean \"{n}\"?")).unwrap_or_default())]
    Unknown {
        /// `material`, `build-up`, `window`.
        kind: &'static str,
        /// What was asked for.
        name: String,
        /// The nearest known name.
        near: Option<String>,
    },
    /// A layer that does not read.
    #[error("the layer \"{text}\" does not read: {why}")]
    Layer {
        /// The text.
        text: String,
        /// What is wrong and how to write it.
        why: String,
    },
}
