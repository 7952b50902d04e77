//! How a number and a verdict are said.
//!
//! A reported number is a [`Figure`]: its value, the formula that made it, the inputs of that
//! formula by key, and the source. Figures live in a [`Book`]; following the keys unfolds any
//! number down to the tape measure or the data sheet. A verdict is [`Verdict`], and a thing to
//! tell the person is a [`Finding`].

mod figure;
mod finding;
mod formula;
mod known;

pub use figure::{Book, Figure, Input, Source, in_key};
pub use finding::{Finding, Level};
pub use formula::{FormulaError, evaluate};
pub use known::{Known, Verdict};
