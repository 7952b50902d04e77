//! `[[photo]]`.

use crate::Photo;
use crate::cell::Row;
use crate::field::{Kind, Table, may, must};

pub(super) static TABLE: Table = Table {
    name: "photo",
    about: "A photo kept with the job",
    label: &["file"],
    assumed: false,
    fields: &[
        must("file", Kind::Text, "Path from the job's folder"),
        must(
            "of",
            Kind::Text,
            "What it shows: a path of the job, or words",
        ),
        may("note", Kind::Text, "Remark"),
    ],
};

pub(super) fn read(row: &Row) -> Photo {
    Photo {
        file: row.words("file"),
        of: row.words("of"),
        note: row.words("note"),
    }
}
