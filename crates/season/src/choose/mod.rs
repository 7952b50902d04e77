//! The search: which heads in which rooms, one outdoor unit a head or several heads on one, which
//! sizes; the whole year for every candidate, and the ones that no other beats.
//!
//! What the rooms ask does not depend on the unit but only on which rooms have a head. So the house
//! is solved once for every such layout, with heads that always suffice. Every system is then run
//! over the hours of its rooms, which costs a fiftieth of a year; where it falls short, the room
//! sags as the house itself was seen to sag. What is beaten by this quick year goes ([`Care`] says how
//! surely); what is left is run whole, as [`crate::year`] runs it, and only those numbers are said.
//! See `docs/decisions`.

mod candidates;
mod find;
mod layout;
mod measure;
mod offers;
mod quick;
mod reasons;
mod sag;
mod sift;
mod sizes;

pub use find::{Apart, Found, among, quick_against_whole, search};
pub use measure::{Aim, Grain, Measure};
pub use reasons::{Against, Survivor};

use std::collections::BTreeMap;

use heatpump::HeadKind;

/// How sure the sifting is to be that nothing is lost.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Care {
    /// Only what survives by the quick year is run whole: what lies within the error of the quick
    /// year of a survivor may be missing.
    Quick,
    /// Everything that may survive within the error of the quick year is run whole: the same
    /// survivors as with the whole year for every candidate.
    Sure,
    /// The whole year for every candidate.
    AllWhole,
}

/// What is looked for.
#[derive(Debug, Clone, PartialEq)]
pub struct Wishes {
    /// Rooms that may have a head; empty: all heated rooms but bathrooms and storage.
    pub rooms: Vec<String>,
    /// Most heads in the house.
    pub most_heads: usize,
    /// Kind of head looked at.
    pub kind: HeadKind,
    /// Most candidates looked at: fewer sizes are kept for each room until it is enough.
    pub most: usize,
    /// Price of units by name; empty where none is given.
    pub prices: BTreeMap<String, f64>,
    /// What counts as a difference; None takes the usual, coarser where candidates lie far apart.
    pub grain: Option<Grain>,
    /// How sure the sifting is to be.
    pub care: Care,
    /// Threads.
    pub threads: usize,
}

impl Default for Wishes {
    fn default() -> Self {
        Self {
            rooms: Vec::new(),
            most_heads: 3,
            kind: HeadKind::Wall,
            most: 20_000,
            prices: BTreeMap::new(),
            grain: None,
            care: Care::Quick,
            threads: 1,
        }
    }
}
