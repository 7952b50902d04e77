//! From data to PDF: the one place that names the document engine.
//!
//! The engine is given one template, three fonts and the data. It may open nothing else, has no
//! clock, and the day on the paper is one of the job, so the same job gives the same bytes.

use std::sync::OnceLock;

use typst::diag::{FileError, FileResult};
use typst::foundations::{Bytes, Datetime, Dict, Duration, IntoValue, Smart};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards};

use crate::block::Sheet;

const TEMPLATE: &str = include_str!("template/sheet.typ");

/// Fonts inside the program: the text face in two weights, and one for what it has not.
const FONTS: [&[u8]; 3] = [
    include_bytes!("../fonts/AtkinsonHyperlegibleNext-Regular.ttf"),
    include_bytes!("../fonts/AtkinsonHyperlegibleNext-SemiBold.ttf"),
    include_bytes!("../fonts/DejaVuSans-cut.ttf"),
];

/// The program could not make a paper: a defect, in the words of the engine.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("the paper cannot be set: {0}")]
pub struct NotSet(pub String);

struct Cases {
    fonts: Vec<Font>,
    book: LazyHash<FontBook>,
}

fn cases() -> &'static Cases {
    static CASES: OnceLock<Cases> = OnceLock::new();
    CASES.get_or_init(|| {
        let fonts: Vec<Font> = FONTS
            .into_iter()
            .filter_map(|data| Font::new(Bytes::new(data), 0))
            .collect();
        let book = LazyHash::new(FontBook::from_fonts(&fonts));
        Cases { fonts, book }
    })
}

/// Whether one of the fonts has a sign for this character.
pub(crate) fn has_sign(c: char) -> bool {
    let cases = cases();
    (0..cases.fonts.len()).any(|i| {
        let info = cases.book.info(i);
        info.is_some_and(|info| info.coverage.contains(u32::from(c)))
    })
}

struct Table {
    library: LazyHash<Library>,
    main: FileId,
    source: Source,
}

impl World for Table {
    fn library(&self) -> &LazyHash<Library> {
        &self.library
    }
    fn book(&self) -> &LazyHash<FontBook> {
        &cases().book
    }
    fn main(&self) -> FileId {
        self.main
    }
    fn source(&self, id: FileId) -> FileResult<Source> {
        if id == self.main {
            Ok(self.source.clone())
        } else {
            Err(FileError::AccessDenied)
        }
    }
    fn file(&self, _: FileId) -> FileResult<Bytes> {
        Err(FileError::AccessDenied)
    }
    fn font(&self, index: usize) -> Option<Font> {
        cases().fonts.get(index).cloned()
    }
    fn today(&self, _: Option<Duration>) -> Option<Datetime> {
        None
    }
}

/// Sets a sheet and gives the bytes of its PDF: PDF/A-2a and PDF/UA-1, tagged, fonts inside.
///
/// # Errors
/// What the engine complains of; only a defect of this program can be the reason.
pub fn pdf(sheet: &Sheet) -> Result<Vec<u8>, NotSet> {
    let data = serde_json::to_string(sheet).map_err(|e| NotSet(e.to_string()))?;
    let mut inputs = Dict::new();
    inputs.insert("data".into(), data.into_value());
    let path = VirtualPath::new("sheet.typ").map_err(|e| NotSet(format!("{e:?}")))?;
    let main = RootedPath::new(VirtualRoot::Project, path).intern();
    let table = Table {
        library: LazyHash::new(Library::builder().with_inputs(inputs).build()),
        main,
        source: Source::new(main, TEMPLATE.to_owned()),
    };
    let made = typst::compile::<PagedDocument>(&table);
    let document = made.output.map_err(|all| said(&all))?;
    let standards = [PdfStandard::A_2a, PdfStandard::Ua_1];
    let options = PdfOptions {
        ident: Smart::Custom(sheet.ident.clone()),
        creator: Smart::Custom(Some(format!("Northwall {}", env!("CARGO_PKG_VERSION")))),
        standards: PdfStandards::new(&standards).map_err(|e| NotSet(e.message().to_string()))?,
        ..PdfOptions::default()
    };
    let bytes = typst_pdf::pdf(&document, &options).map_err(|all| said(&all));
    // What the engine remembers is of this paper; the next one has other data.
    typst::comemo::evict(2);
    bytes
}

fn said(all: &[typst::diag::SourceDiagnostic]) -> NotSet {
    let words: Vec<String> = all.iter().map(|d| d.message.to_string()).collect();
    NotSet(words.join("; "))
}
