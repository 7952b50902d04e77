//! The papers of a job: for the owner, the inspector, the rebate reviewer and the crew.
//!
//! [`paper`] takes a plan and gives the bytes of a PDF. Every number on it is in the plan; nothing
//! is computed here. [`gaps`] says first what is missing or contradicts, reader by reader; what is
//! printed in spite of it is a draft and carries the list. The sentences are in `src/text`, one
//! file a language. Data reaches the document engine as values, never as markup.

// A text is put together once; a saved allocation is not worth an unread result.
#![allow(clippy::format_push_string)]

mod block;
mod calendar;
mod crew;
mod desk;
mod gate;
pub mod hpxml;
mod inspector;
mod issue;
mod owner;
mod packet;
mod parts;
mod press;
mod printable;
mod reader;
mod rebate;
mod recorded;
mod tables;
mod words;

pub use block::{Block, Cell, Fact, FrameWords, Note, Sheet, Step};
pub use calendar::calendar;
pub use desk::Input;
pub use gate::{Gap, gaps};
pub use issue::{Issue, Mark, Since, Verified, beside};
pub use packet::{Paper, paper, sheet};
pub use press::{NotSet, pdf};
pub use printable::printable;
pub use reader::{Reader, Size};
pub use tables::{NamedCsv, csv};
pub use words::Language;
