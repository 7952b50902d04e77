//! A folder of data sheets, as read.

use std::collections::BTreeMap;

use heatpump::{Sheet, SheetError, read_sheet};

/// Sheets by the name of their unit.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Catalogue {
    sheets: BTreeMap<String, Sheet>,
}

impl Catalogue {
    /// Reads sheets given as file name and text.
    ///
    /// # Errors
    /// Everything that is wrong with any of them; two sheets for one name.
    pub fn read<'a>(
        files: impl IntoIterator<Item = (&'a str, &'a str)>,
    ) -> Result<Self, Vec<SheetError>> {
        let mut sheets: BTreeMap<String, Sheet> = BTreeMap::new();
        let mut errors = Vec::new();
        for (file, text) in files {
            match read_sheet(file, text) {
                Ok(sheet) => {
                    if let Some(first) = sheets.get(&sheet.name) {
                        errors.push(SheetError {
                            file: file.to_owned(),
                            line: sheet.line_of("name"),
                            place: "name".to_owned(),
                            got: format!("\"{}\", also in {}", sheet.name, first.file),
                            allowed: "one sheet for a name".to_owned(),
                            mend: "Take one of the two out, or rename it".to_owned(),
                        });
                    } else {
                        sheets.insert(sheet.name.clone(), sheet);
                    }
                }
                Err(mut found) => errors.append(&mut found),
            }
        }
        if errors.is_empty() {
            Ok(Self { sheets })
        } else {
            Err(errors)
        }
    }

    /// A sheet by the name of its unit.
    pub fn get(&self, name: &str) -> Option<&Sheet> {
        self.sheets.get(name)
    }

    /// The sheets by name, as the year takes them.
    pub fn sheets(&self) -> &season::Catalogue {
        &self.sheets
    }

    /// All sheets in order of name.
    pub fn iter(&self) -> impl Iterator<Item = &Sheet> {
        self.sheets.values()
    }

    /// Names, in order.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.sheets.keys().map(String::as_str)
    }

    /// How many sheets.
    pub fn len(&self) -> usize {
        self.sheets.len()
    }

    /// Whether there is no sheet.
    pub fn is_empty(&self) -> bool {
        self.sheets.is_empty()
    }
}

/// The nearest of some names to one that is not among them, if any is near.
pub fn near<'a>(got: &str, names: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    let got = got.to_lowercase();
    names
        .map(|n| (strsim::jaro_winkler(&got, &n.to_lowercase()), n))
        .filter(|(score, _)| *score > 0.8)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, n)| n)
}
