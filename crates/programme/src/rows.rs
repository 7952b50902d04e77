//! Rows that come in, one by one.

use parquet::basic::{ConvertedType, LogicalType, Repetition, Type as Physical};
use parquet::file::reader::{ChunkReader, FileReader, SerializedFileReader};
use parquet::record::{Field, Row as Record};
use parquet::schema::types::Type;

/// Before the path of the job that a column sets: `set:leakage.blower_door`.
const SETS: &str = "set:";

/// A house that comes in.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Row {
    /// Its id.
    pub id: String,
    /// Text of its job file, or the path of one: a text has more than one line.
    pub job: String,
    /// Weather in place of the job's: a station that ships, or a path.
    pub weather: Option<String>,
    /// Option of the job that is run in place of what is chosen.
    pub option: Option<String>,
    /// Values of the job that stand otherwise in this house: path and value.
    pub sets: Vec<(String, String)>,
    /// What is wrong with the row itself.
    pub wrong: Option<String>,
}

impl Row {
    /// The path of its job, where it is not the text itself.
    pub fn path(&self) -> Option<&str> {
        (!self.job.trim().contains('\n')).then(|| self.job.trim())
    }
}

/// Why a file is not a table of houses.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{says}")]
pub struct NotHouses {
    /// What is wrong.
    pub says: String,
    /// What stands there.
    pub got: String,
    /// What is allowed.
    pub allowed: String,
    /// How to mend it.
    pub mend: String,
}

/// A table of houses.
pub struct Houses {
    file: Box<dyn FileReader>,
    asked: Type,
    /// Houses in it.
    pub len: u64,
    /// Columns that are not looked at.
    pub unread: Vec<String>,
}

impl Houses {
    /// Looks at the columns of a file; reads no house yet.
    ///
    /// # Errors
    /// Not a Parquet file, a damaged one, columns that are missing or of another kind, no house.
    pub fn new<R: ChunkReader + 'static>(from: R) -> Result<Self, NotHouses> {
        let file = SerializedFileReader::new(from).map_err(|e| NotHouses {
            says: "this is not a whole Parquet file".to_owned(),
            got: e.to_string(),
            allowed: "a Parquet file, not encrypted".to_owned(),
            mend: "write the table again; a CSV or a workbook must be saved as Parquet".to_owned(),
        })?;
        let meta = file.metadata();
        let root = meta.file_metadata().schema();
        let mut asked = Vec::new();
        let mut unread = Vec::new();
        let mut seen: Vec<&str> = Vec::new();
        for field in root.get_fields() {
            let name = field.name();
            if seen.contains(&name) {
                return Err(column(
                    name,
                    "the column is there twice",
                    "",
                    "take one out",
                ));
            }
            seen.push(name);
            let taken = match name {
                "id" => Some(text(field) || whole(field)),
                "job" | "weather" | "option" => Some(text(field)),
                _ if name.starts_with(SETS) => Some(text(field) || number(field)),
                _ => None,
            };
            match taken {
                None => unread.push(name.to_owned()),
                Some(true) => asked.push(field.clone()),
                Some(false) => {
                    let allowed = match name {
                        "id" => "text, or a whole number of 32 or 64 bits",
                        "job" | "weather" | "option" => "text (UTF-8)",
                        _ => "text, a number, true or false",
                    };
                    let mend = "write the column as text";
                    let mut wrong = column(name, "the column is of another kind", allowed, mend);
                    wrong.got = kind(field);
                    return Err(wrong);
                }
            }
        }
        for must in ["id", "job"] {
            if !seen.contains(&must) {
                let says = format!("there is no column {must}");
                return Err(NotHouses {
                    says,
                    got: if seen.is_empty() {
                        "no columns".to_owned()
                    } else {
                        shown(&seen)
                    },
                    allowed: "id and job; weather, option and set:… besides".to_owned(),
                    mend: "names are in small letters; docs/many.md has them".to_owned(),
                });
            }
        }
        let len = u64::try_from(meta.file_metadata().num_rows()).unwrap_or(0);
        if len == 0 {
            return Err(NotHouses {
                says: "there is no house in this file".to_owned(),
                got: "0 rows".to_owned(),
                allowed: "at least one row".to_owned(),
                mend: "write a row for each house".to_owned(),
            });
        }
        let asked = Type::group_type_builder(root.name())
            .with_fields(asked)
            .build()
            .map_err(|e| damaged(0, &e.to_string()))?;
        Ok(Self {
            asked,
            len,
            unread,
            file: Box::new(file),
        })
    }

    /// Hands out the rows from `from` on, until `take` answers false. Only the columns that are
    /// asked for are read, and of them no more at a time than a page.
    ///
    /// # Errors
    /// A damaged file, with the row at which it is.
    pub fn each(
        &self,
        wanted: &dyn Fn(u64) -> bool,
        take: &mut dyn FnMut(u64, Row) -> bool,
    ) -> Result<(), NotHouses> {
        let mut at = 0_u64;
        for group in 0..self.file.num_row_groups() {
            let reader = self
                .file
                .get_row_group(group)
                .map_err(|e| damaged(at, &e.to_string()))?;
            let rows = u64::try_from(reader.metadata().num_rows()).unwrap_or(0);
            if !(at..at + rows).any(wanted) {
                at += rows;
                continue;
            }
            let end = at + rows;
            let records = reader
                .get_row_iter(Some(self.asked.clone()))
                .map_err(|e| damaged(at, &e.to_string()))?;
            for record in records {
                let record = record.map_err(|e| damaged(at, &e.to_string()))?;
                if wanted(at) && !take(at, row(&record)) {
                    return Ok(());
                }
                at += 1;
            }
            if at != end {
                return Err(damaged(at, "fewer rows than the file says"));
            }
        }
        if at == self.len {
            Ok(())
        } else {
            Err(damaged(at, "fewer rows than the file says"))
        }
    }
}

fn shown(names: &[&str]) -> String {
    const MOST: usize = 12;
    let first = names.iter().take(MOST).copied().collect::<Vec<_>>();
    match names.len().checked_sub(MOST) {
        None | Some(0) => first.join(", "),
        Some(more) => format!("{} and {more} more", first.join(", ")),
    }
}

fn damaged(at: u64, why: &str) -> NotHouses {
    NotHouses {
        says: format!("the file is damaged at row {at} or near it"),
        got: why.to_owned(),
        allowed: "a whole Parquet file, its pages plain or packed by snappy, zstd, gzip or lz4"
            .to_owned(),
        mend: "write the table again".to_owned(),
    }
}

fn column(name: &str, says: &str, allowed: &str, mend: &str) -> NotHouses {
    NotHouses {
        says: format!("{name}: {says}"),
        got: String::new(),
        allowed: allowed.to_owned(),
        mend: mend.to_owned(),
    }
}

/// One value a row.
fn plain(field: &Type) -> bool {
    field.is_primitive()
        && field.get_basic_info().has_repetition()
        && field.get_basic_info().repetition() != Repetition::REPEATED
}

fn text(field: &Type) -> bool {
    let basic = field.get_basic_info();
    plain(field)
        && field.get_physical_type() == Physical::BYTE_ARRAY
        && (basic.converted_type() == ConvertedType::UTF8
            || matches!(basic.logical_type_ref(), Some(LogicalType::String)))
}

fn whole(field: &Type) -> bool {
    plain(field)
        && matches!(field.get_physical_type(), Physical::INT32 | Physical::INT64)
        && !matches!(
            field.get_basic_info().converted_type(),
            ConvertedType::DECIMAL
                | ConvertedType::DATE
                | ConvertedType::TIME_MILLIS
                | ConvertedType::TIME_MICROS
                | ConvertedType::TIMESTAMP_MILLIS
                | ConvertedType::TIMESTAMP_MICROS
        )
}

fn number(field: &Type) -> bool {
    whole(field)
        || (plain(field)
            && matches!(
                field.get_physical_type(),
                Physical::DOUBLE | Physical::BOOLEAN
            ))
}

fn kind(field: &Type) -> String {
    if field.is_primitive() {
        let basic = field.get_basic_info();
        match basic.converted_type() {
            ConvertedType::NONE => field.get_physical_type().to_string(),
            of => format!("{} ({of})", field.get_physical_type()),
        }
    } else {
        "a group of columns".to_owned()
    }
}

fn row(record: &Record) -> Row {
    let mut out = Row::default();
    let (mut id, mut job) = (None, None);
    for (name, field) in record.get_column_iter() {
        let value = value(field);
        match name.as_str() {
            "id" => id = value,
            "job" => job = value,
            "weather" => out.weather = value,
            "option" => out.option = value,
            path => {
                if let Some(value) = value {
                    let path = path.strip_prefix(SETS).unwrap_or(path);
                    out.sets.push((path.to_owned(), value));
                }
            }
        }
    }
    out.wrong = match (&id, &job) {
        (None, _) => Some("id: the cell is empty; every house has an id of its own".to_owned()),
        (_, None) => Some("job: the cell is empty; write the job's text or its path".to_owned()),
        _ => None,
    };
    out.id = id.unwrap_or_default();
    out.job = job.unwrap_or_default();
    out
}

/// A cell as text; None where it is empty: null, or a text of nothing but spaces, as tables that come
/// from a spreadsheet have it.
fn value(field: &Field) -> Option<String> {
    let text = match field {
        Field::Null => None,
        Field::Str(text) => Some(text.clone()),
        Field::Bool(v) => Some(v.to_string()),
        Field::Byte(v) => Some(v.to_string()),
        Field::Short(v) => Some(v.to_string()),
        Field::Int(v) => Some(v.to_string()),
        Field::Long(v) => Some(v.to_string()),
        Field::UByte(v) => Some(v.to_string()),
        Field::UShort(v) => Some(v.to_string()),
        Field::UInt(v) => Some(v.to_string()),
        Field::ULong(v) => Some(v.to_string()),
        Field::Double(v) => Some(v.to_string()),
        other => Some(other.to_string()),
    };
    text.filter(|t| !t.trim().is_empty())
}
