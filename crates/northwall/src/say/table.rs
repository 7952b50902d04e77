//! Tables without a box: names to the left, numbers to the right, one hairline under the head.

/// A table.
#[derive(Debug, Default)]
pub struct Table {
    heads: Vec<String>,
    left: Vec<bool>,
    rows: Vec<Vec<String>>,
    rules_before: Vec<usize>,
}

impl Table {
    /// A table whose first column is words and the rest numbers, unless said otherwise.
    pub fn new<'a>(heads: impl IntoIterator<Item = &'a str>) -> Self {
        let heads: Vec<String> = heads.into_iter().map(str::to_owned).collect();
        let left = (0..heads.len()).map(|i| i == 0).collect();
        Self {
            heads,
            left,
            ..Self::default()
        }
    }

    /// These columns are words.
    #[must_use]
    pub fn words(mut self, columns: &[usize]) -> Self {
        for c in columns {
            if let Some(left) = self.left.get_mut(*c) {
                *left = true;
            }
        }
        self
    }

    /// Adds a row.
    pub fn row(&mut self, cells: impl IntoIterator<Item = String>) {
        self.rows.push(cells.into_iter().collect());
    }

    /// A hairline before the next row.
    pub fn rule(&mut self) {
        self.rules_before.push(self.rows.len());
    }

    /// The text.
    pub fn text(&self) -> String {
        let heads: Vec<Vec<&str>> = self.heads.iter().map(|h| h.split('\n').collect()).collect();
        let lines = heads.iter().map(Vec::len).max().unwrap_or(1);
        let widths: Vec<usize> = (0..self.heads.len())
            .map(|c| {
                let head = heads[c]
                    .iter()
                    .map(|h| h.chars().count())
                    .max()
                    .unwrap_or(0);
                let body = self
                    .rows
                    .iter()
                    .filter_map(|r| r.get(c))
                    .map(|t| t.chars().count());
                body.max().unwrap_or(0).max(head)
            })
            .collect();
        let mut out = String::new();
        for l in 0..lines {
            let cells: Vec<&str> = heads
                .iter()
                .map(|h| {
                    // Short heads stand on the line next to the rows.
                    let skip = lines - h.len();
                    if l < skip {
                        ""
                    } else {
                        h.get(l - skip).copied().unwrap_or("")
                    }
                })
                .collect();
            self.line(&cells, &widths, &mut out);
        }
        let all: usize = widths.iter().sum::<usize>() + 2 * widths.len().saturating_sub(1);
        let rule = format!("  {}\n", "─".repeat(all));
        out.push_str(&rule);
        for (i, row) in self.rows.iter().enumerate() {
            if self.rules_before.contains(&i) {
                out.push_str(&rule);
            }
            let cells: Vec<&str> = row.iter().map(String::as_str).collect();
            self.line(&cells, &widths, &mut out);
        }
        out
    }

    fn line(&self, cells: &[&str], widths: &[usize], out: &mut String) {
        let mut line = String::from("  ");
        for (c, width) in widths.iter().enumerate() {
            let cell = cells.get(c).copied().unwrap_or("");
            let gap = " ".repeat(width.saturating_sub(cell.chars().count()));
            if c > 0 {
                line.push_str("  ");
            }
            if self.left.get(c) == Some(&true) {
                line.push_str(cell);
                line.push_str(&gap);
            } else {
                line.push_str(&gap);
                line.push_str(cell);
            }
        }
        out.push_str(line.trim_end());
        out.push('\n');
    }
}

#[cfg(test)]
mod tests {
    use super::Table;

    #[test]
    fn numbers_stand_to_the_right() {
        let mut t = Table::new(["room", "heating\nBtu/h"]);
        t.row(["hall".to_owned(), "900".to_owned()]);
        t.rule();
        t.row(["house".to_owned(), "12,000".to_owned()]);
        let want = "         heating\n  room     Btu/h\n  ──────────────\n  hall       900\n  \
                    ──────────────\n  house   12,000\n";
        assert_eq!(t.text(), want);
    }
}
