//! `[job]`: what the job is called and how far it is.

use crate::cell::Row;
use crate::field::{Kind, Table, may, must, usual};
use crate::{Job, Stage};

pub(super) static TABLE: Table = Table {
    name: "job",
    about: "What the job is called and how far it is",
    label: &[],
    assumed: false,
    fields: &[
        must(
            "name",
            Kind::Text,
            "Name of the job, as printed on every paper",
        ),
        usual(
            "stage",
            Kind::Word(&["visit", "estimate", "ordered", "installed", "reviewed"]),
            "visit",
            "How far the job is",
        ),
        usual(
            "units",
            Kind::Word(&["us", "si"]),
            "us",
            "Units that findings and papers speak in; values are typed in either",
        ),
        may(
            "notes",
            Kind::Texts,
            "Words for the people who open the job",
        ),
    ],
};

pub(super) fn read(row: &Row, job: &mut Job) {
    job.name = row.words("name");
    let stage = row
        .text("stage")
        .and_then(|w| Stage::ALL.into_iter().find(|s| s.word() == w));
    job.stage = stage.unwrap_or_default();
    job.units = match row.text("units") {
        Some("si") => units::System::Si,
        _ => units::System::Us,
    };
    job.notes = row.texts("notes");
}
