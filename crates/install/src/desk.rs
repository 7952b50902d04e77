//! Where a module puts its figures, its judgements and its findings together.

use reckon::{Book, Figure, Finding, FormulaError, Known, Level, Source, Verdict};
use serde::Serialize;
use units::{Dim, System, show, whole};

/// One requirement judged: what was found against what is required.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Judged {
    /// Rule.
    pub rule: &'static str,
    /// Where in the job.
    pub place: String,
    /// What is judged.
    pub what: String,
    /// Found, in words.
    pub found: String,
    /// Required, in words.
    pub required: String,
    /// Holds, fails or cannot tell.
    pub verdict: Verdict,
    /// Figures it rests on.
    pub figures: Vec<String>,
    /// Where the requirement is from.
    pub source: Source,
    /// How to mend it, where it fails.
    pub mend: &'static str,
    /// What would tell, where it cannot be told.
    pub would_tell: &'static str,
}

/// A rule: its stable name, how loud it is, and what to do.
#[derive(Debug, Clone, Copy)]
pub struct Rule {
    /// Stable name.
    pub name: &'static str,
    /// Level when it fails.
    pub level: Level,
    /// What is judged.
    pub what: &'static str,
    /// Why it matters and what to do.
    pub mend: &'static str,
    /// What would tell, when it cannot be told.
    pub tell: &'static str,
}

/// Where everything goes.
#[derive(Debug, Default)]
pub struct Desk {
    /// Units that words are in.
    pub system: System,
    /// Figures.
    pub book: Book,
    /// Judgements, in order.
    pub judged: Vec<Judged>,
    /// Findings.
    pub findings: Vec<Finding>,
    /// Defects of formulas; none in a right program.
    pub defects: Vec<FormulaError>,
}

/// A side of a comparison: key and kind of a figure.
pub(crate) type Side<'k> = Option<&'k str>;

impl Desk {
    /// An empty one that speaks in these units.
    pub fn new(system: System) -> Self {
        Self {
            system,
            ..Self::default()
        }
    }

    /// A value in words.
    pub fn both(&self, value: f64, dim: Dim) -> String {
        both(value, dim, self.system)
    }

    /// Writes a given value down.
    pub fn given(
        &mut self,
        key: impl Into<String>,
        what: impl Into<String>,
        value: f64,
        dim: Dim,
        source: Source,
    ) -> String {
        let key = key.into();
        self.book.given(key.clone(), what, value, dim, source, None);
        key
    }

    /// As [`Desk::given`], measured on the job.
    pub fn measured(&mut self, key: String, what: &str, value: f64, dim: Dim, at: String) {
        self.book
            .given(key, what, value, dim, Source::job(at), Some(Known::Seen));
    }

    /// Reckons a value; `None` where an input is not in the book.
    pub fn reckon(
        &mut self,
        key: impl Into<String>,
        what: impl Into<String>,
        dim: Dim,
        formula: &'static str,
        inputs: &[(&'static str, &str)],
        source: Source,
    ) -> Option<f64> {
        match self.book.reckon(key, what, dim, formula, inputs, source) {
            Ok(v) => Some(v),
            Err(FormulaError::NoFigure { .. }) => None,
            Err(defect) => {
                self.defects.push(defect);
                None
            }
        }
    }

    /// Writes down what was followed step by step, with what it rests on.
    pub fn followed(
        &mut self,
        key: impl Into<String>,
        what: impl Into<String>,
        (value, dim): (f64, Dim),
        inputs: &[(&'static str, String)],
        how: &str,
        source: Source,
    ) {
        let what = what.into();
        let known = inputs.iter().filter(|(_, k)| self.book.get(k).is_some());
        let inputs: Vec<_> = known
            .map(|(symbol, key)| reckon::Input {
                symbol: (*symbol).into(),
                key: key.clone(),
            })
            .collect();
        self.book.put(Figure {
            key: key.into(),
            what,
            value,
            dim,
            formula: format!("step by step: {how}").into(),
            inputs,
            source,
            known: None,
        });
    }

    /// Adds figures up.
    pub fn add_up(&mut self, key: &str, what: &str, dim: Dim, keys: &[String], source: Source) {
        if let Err(defect) = self.book.add_up(key, what, dim, keys, source) {
            self.defects.push(defect);
        }
    }

    /// A figure in words.
    pub fn words(&self, key: &str) -> String {
        match self.book.get(key) {
            Some(f) => self.both(f.value, f.dim),
            None => "not known".to_owned(),
        }
    }

    /// Found must be at least required.
    pub fn at_least(&mut self, rule: &Rule, place: &str, found: Side, need: Side, source: Source) {
        self.compare(rule, place, found, need, source, true);
    }

    /// Found must be at most required.
    pub fn at_most(&mut self, rule: &Rule, place: &str, found: Side, need: Side, source: Source) {
        self.compare(rule, place, found, need, source, false);
    }

    fn compare(
        &mut self,
        rule: &Rule,
        place: &str,
        found: Side,
        need: Side,
        source: Source,
        least: bool,
    ) {
        let value = |k: Side| k.and_then(|k| self.book.get(k)).map(|f| (f.value, f.dim));
        let (f, n) = (value(found), value(need));
        let words =
            |v: Option<(f64, Dim)>, none: &str| v.map_or(none.to_owned(), |(v, d)| self.both(v, d));
        let verdict = match (f, n) {
            // Half a micrometre, milligram, ...: rounding of units is not a failure.
            (Some((f, _)), Some((n, _))) => {
                let slack = 1e-9 * n.abs();
                let good = if least {
                    f >= n - slack
                } else {
                    f <= n + slack
                };
                if good { Verdict::Holds } else { Verdict::Fails }
            }
            _ => Verdict::CannotTell,
        };
        let required = match n {
            Some(_) if least => format!("at least {}", words(n, "")),
            Some(_) => format!("at most {}", words(n, "")),
            None => "not established".to_owned(),
        };
        let figures = [found, need]
            .into_iter()
            .flatten()
            .filter(|k| self.book.get(k).is_some())
            .map(str::to_owned)
            .collect();
        let found = words(f, "not measured");
        let off = if least { "too little" } else { "too much" };
        self.put(
            rule,
            place,
            verdict,
            off,
            [found, required],
            figures,
            source,
        );
    }

    /// A yes-or-no requirement; `None` is not known.
    pub fn must(
        &mut self,
        rule: &Rule,
        place: &str,
        good: Option<bool>,
        found: &str,
        required: &str,
        source: Source,
    ) {
        let verdict = match good {
            Some(true) => Verdict::Holds,
            Some(false) => Verdict::Fails,
            None => Verdict::CannotTell,
        };
        self.say(
            rule,
            place,
            verdict,
            found.to_owned(),
            required.to_owned(),
            Vec::new(),
            source,
        );
    }

    /// Puts a judgement down, and a finding where it does not hold.
    #[allow(clippy::too_many_arguments)] // one sentence each; a struct would only rename them
    pub fn say(
        &mut self,
        rule: &Rule,
        place: &str,
        verdict: Verdict,
        found: String,
        required: String,
        figures: Vec<String>,
        source: Source,
    ) {
        let both = [found, required];
        self.put(
            rule,
            place,
            verdict,
            "not as it should be",
            both,
            figures,
            source,
        );
    }

    /// As [`Desk::say`]; `off` says in which way it does not hold. Found and required stand in
    /// fields of their own and are not said again, except in a note, which shows one line.
    #[allow(clippy::too_many_arguments)] // one sentence each; a struct would only rename them
    fn put(
        &mut self,
        rule: &Rule,
        place: &str,
        verdict: Verdict,
        off: &str,
        [found, required]: [String; 2],
        figures: Vec<String>,
        source: Source,
    ) {
        if verdict != Verdict::Holds {
            let open = verdict == Verdict::CannotTell;
            self.findings.push(Finding {
                rule: rule.name.to_owned(),
                level: if open { Level::Ask } else { rule.level },
                place: place.to_owned(),
                says: match (open, rule.level) {
                    (true, _) => format!("{}: cannot tell", rule.what),
                    (_, Level::Note) => format!("{}: {found}; usual is {required}", rule.what),
                    _ => format!("{}: {off}", rule.what),
                },
                found: found.clone(),
                required: required.clone(),
                mend: rule.mend.to_owned(),
                would_tell: if open {
                    rule.tell.to_owned()
                } else {
                    String::new()
                },
                figures: figures.clone(),
                source: source.clone(),
            });
        }
        self.judged.push(Judged {
            rule: rule.name,
            place: place.to_owned(),
            what: rule.what.to_owned(),
            found,
            required,
            verdict,
            figures,
            source,
            mend: if verdict == Verdict::Fails {
                rule.mend
            } else {
                ""
            },
            would_tell: if verdict == Verdict::CannotTell {
                rule.tell
            } else {
                ""
            },
        });
    }
}

/// In words: masses in both systems, because scales come in both.
pub(crate) fn both(value: f64, dim: Dim, system: System) -> String {
    let shown = show(value, dim, system);
    if dim == Dim::Mass {
        let grams = if value.abs() < 5.0 {
            format!("{} g", whole(value * 1000.0))
        } else {
            format!("{value:.1} kg")
        };
        return match system {
            System::Us => format!("{shown} ({grams})"),
            System::Si => grams,
        };
    }
    shown
}

/// A source of the trade cards.
pub(crate) fn card(place: &'static str) -> Source {
    Source::new("trade-cards", place)
}

/// A source in a data sheet.
pub(crate) fn sheet(name: &str, page: Option<&String>) -> Source {
    let page = page.map_or_else(|| "no page given".to_owned(), |p| format!("page {p}"));
    Source::new("sheet", format!("{name}, {page}"))
}

/// Yes, no or not looked at.
pub(crate) fn yes_no(y: Option<bool>) -> &'static str {
    match y {
        Some(true) => "yes",
        Some(false) => "no",
        None => "not looked at",
    }
}
