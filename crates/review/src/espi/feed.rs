//! The feed as entries, with nothing made of them yet.

use quick_xml::events::Event;
use quick_xml::name::QName;
use quick_xml::reader::Reader;

use super::lines::Lines;
use crate::Refused;

/// Most bytes of a feed; a year of quarter hours is about 12 MB.
const MOST_BYTES: usize = 48_000_000;
/// Deepest nesting; ESPI needs eight.
const DEEPEST: usize = 24;
/// Most entries.
const MOST_ENTRIES: usize = 20_000;
/// Most readings in all.
const MOST_READINGS: usize = 2_000_000;
/// Longest text of one element that is looked at.
const LONGEST: usize = 300;

/// What an entry holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) enum Holds {
    /// Nothing that is needed here.
    #[default]
    Else,
    UsagePoint,
    MeterReading,
    ReadingType,
    Block,
    LocalTime,
}

/// One reading.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Reading {
    pub start: Option<i64>,
    pub duration: Option<i64>,
    pub value: Option<i64>,
    pub quality: Option<i64>,
    pub line: usize,
}

/// One entry of the feed.
#[derive(Debug, Clone, Default)]
pub(super) struct Entry {
    pub line: usize,
    pub title: String,
    pub own: String,
    pub up: String,
    pub related: Vec<String>,
    pub holds: Holds,
    /// Numbers of the resource by name of their element.
    pub numbers: Vec<(&'static str, i64)>,
    pub readings: Vec<Reading>,
}

impl Entry {
    pub fn number(&self, name: &str) -> Option<i64> {
        self.numbers
            .iter()
            .find(|(n, _)| *n == name)
            .map(|(_, v)| *v)
    }

    /// Whether the other entry belongs to this one.
    pub fn is_parent_of(&self, other: &Self) -> bool {
        self.related
            .iter()
            .any(|r| *r == other.own || (!other.up.is_empty() && *r == other.up))
    }
}

const NUMBERS: [&str; 10] = [
    "uom",
    "powerOfTenMultiplier",
    "flowDirection",
    "accumulationBehaviour",
    "commodity",
    "kind",
    "intervalLength",
    "tzOffset",
    "dstOffset",
    "defaultQuality",
];

/// Reads the entries.
///
/// # Errors
/// Too large, not UTF-8, a document type or an entity, XML that does not close, too deep, too
/// many, a number that is not one, and a file without a feed.
pub(super) fn entries(bytes: &[u8]) -> Result<Vec<Entry>, Refused> {
    if bytes.len() > MOST_BYTES {
        return Err(Refused::new(
            "the feed is too large",
            format!("{} bytes", bytes.len()),
            format!("at most {MOST_BYTES} bytes"),
            "ask for daily or monthly readings, or for fewer years",
        ));
    }
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    let Ok(text) = std::str::from_utf8(bytes) else {
        return Err(Refused::new(
            "the feed is not UTF-8 text",
            "other bytes",
            "an XML file as the utility gives it",
            "download it again, without opening it in an editor",
        ));
    };
    let mut walk = Walk {
        lines: Lines {
            text: text.as_bytes(),
            at: 0,
            line: 1,
        },
        ..Walk::default()
    };
    let mut reader = Reader::from_str(text);
    loop {
        let place = reader.buffer_position() as usize;
        let event = reader.read_event();
        let line = walk.lines.of(place.max(walk.lines.at));
        match event {
            Ok(Event::Eof) => break,
            Ok(event) => walk.take(&event, line)?,
            Err(e) => return Err(broken(&e.to_string(), line)),
        }
    }
    walk.done()
}

fn broken(why: &str, line: usize) -> Refused {
    Refused::new(
        "the XML does not read",
        units::cut(why, 120),
        "a whole Green Button file",
        "it may have been cut off: download it again",
    )
    .at(line)
}

#[derive(Default)]
struct Walk<'a> {
    lines: Lines<'a>,
    path: Vec<String>,
    entries: Vec<Entry>,
    entry: Option<Entry>,
    text: String,
    feed: bool,
    readings: usize,
}

fn local(name: QName) -> String {
    name.local_name().as_ref().chars().take(64).collect()
}

impl Walk<'_> {
    fn take(&mut self, event: &Event, line: usize) -> Result<(), Refused> {
        match event {
            Event::DocType(_) => Err(refused_type(line)),
            Event::PI(_) => Err(Refused::new(
                "the feed holds a processing instruction",
                "<?…?>",
                "plain Atom and ESPI elements",
                "this is not what a utility sends: do not use the file",
            )
            .at(line)),
            Event::GeneralRef(r) => {
                let name: String = r.chars().take(64).collect();
                let known = ["amp", "lt", "gt", "quot", "apos"].contains(&name.as_str())
                    || name.starts_with('#');
                if known {
                    Ok(())
                } else {
                    Err(refused_type(line))
                }
            }
            Event::Start(e) => {
                let name = local(e.name());
                if name == "link" {
                    self.link(e)?;
                }
                self.open(&name, line)
            }
            Event::Empty(e) => {
                let name = local(e.name());
                if name == "link" {
                    self.link(e)?;
                }
                self.open(&name, line)?;
                self.close(line)
            }
            Event::Text(t) => {
                self.add(t);
                Ok(())
            }
            Event::CData(t) => {
                self.add(t);
                Ok(())
            }
            Event::End(_) => self.close(line),
            Event::Decl(_) | Event::Comment(_) | Event::Eof => Ok(()),
        }
    }

    fn add(&mut self, part: &str) {
        let room = LONGEST.saturating_sub(self.text.len());
        self.text.extend(part.chars().take(room));
    }

    fn open(&mut self, name: &str, line: usize) -> Result<(), Refused> {
        self.text.clear();
        if self.path.len() >= DEEPEST {
            return Err(Refused::new(
                "the feed is nested too deep",
                format!("{} levels", self.path.len() + 1),
                format!("up to {DEEPEST}"),
                "this is not what a utility sends: do not use the file",
            )
            .at(line));
        }
        if self.path.is_empty() {
            self.feed = matches!(name, "feed" | "entry");
            if !self.feed {
                return Err(no_feed(name, line));
            }
        }
        if name == "entry" && self.entry.is_none() {
            if self.entries.len() >= MOST_ENTRIES {
                return Err(flood("entries", MOST_ENTRIES, line));
            }
            self.entry = Some(Entry {
                line,
                ..Entry::default()
            });
        }
        let in_content = self.path.last().is_some_and(|p| p == "content");
        if let Some(entry) = &mut self.entry {
            if in_content {
                entry.holds = match name {
                    "UsagePoint" => Holds::UsagePoint,
                    "MeterReading" => Holds::MeterReading,
                    "ReadingType" => Holds::ReadingType,
                    "IntervalBlock" => Holds::Block,
                    "LocalTimeParameters" => Holds::LocalTime,
                    _ => Holds::Else,
                };
            }
            if name == "IntervalReading" && entry.holds == Holds::Block {
                self.readings += 1;
                if self.readings > MOST_READINGS {
                    return Err(flood("readings", MOST_READINGS, line));
                }
                entry.readings.push(Reading {
                    line,
                    ..Reading::default()
                });
            }
        }
        self.path.push(name.to_owned());
        Ok(())
    }

    fn link(&mut self, e: &quick_xml::events::BytesStart) -> Result<(), Refused> {
        let Some(entry) = &mut self.entry else {
            return Ok(());
        };
        let (mut rel, mut href) = (String::new(), String::new());
        for attribute in e.attributes() {
            let attribute = attribute.map_err(|w| broken(&w.to_string(), entry.line))?;
            let value: String = attribute.value.chars().take(LONGEST * 4).collect();
            match local(attribute.key).as_str() {
                "rel" => rel = value,
                "href" => href = value,
                _ => {}
            }
        }
        match rel.as_str() {
            "self" => entry.own = href,
            "up" => entry.up = href,
            "related" if entry.related.len() < 64 => entry.related.push(href),
            _ => {}
        }
        Ok(())
    }

    fn close(&mut self, line: usize) -> Result<(), Refused> {
        let Some(name) = self.path.pop() else {
            return Ok(());
        };
        let text = std::mem::take(&mut self.text);
        if name == "entry" {
            self.entries.extend(self.entry.take());
            return Ok(());
        }
        let parent = self.path.last().map_or("", String::as_str);
        let above = self.path.iter().rev().nth(1).map_or("", String::as_str);
        let Some(entry) = &mut self.entry else {
            return Ok(());
        };
        if name == "title" && parent == "entry" {
            text.trim().clone_into(&mut entry.title);
            return Ok(());
        }
        if entry.holds == Holds::Block {
            let Some(reading) = entry.readings.last_mut() else {
                return Ok(());
            };
            let slot = match (name.as_str(), parent, above) {
                ("start", "timePeriod", "IntervalReading") => &mut reading.start,
                ("duration", "timePeriod", "IntervalReading") => &mut reading.duration,
                ("value", "IntervalReading", _) => &mut reading.value,
                ("quality", "ReadingQuality", _) => &mut reading.quality,
                _ => return Ok(()),
            };
            *slot = Some(whole(&name, &text, line)?);
        } else if let Some(known) = NUMBERS.iter().find(|n| **n == name)
            && entry.holds != Holds::Else
        {
            entry.numbers.push((known, whole(&name, &text, line)?));
        }
        Ok(())
    }

    fn done(self) -> Result<Vec<Entry>, Refused> {
        if !self.path.is_empty() {
            let line = self.lines.line;
            return Err(broken(
                &format!("<{}> is not closed", self.path.join("><")),
                line,
            ));
        }
        if !self.feed {
            return Err(no_feed("nothing", 1));
        }
        Ok(self.entries)
    }
}

fn whole(name: &str, text: &str, line: usize) -> Result<i64, Refused> {
    text.trim().parse().map_err(|_| {
        Refused::new(
            format!("<{name}> holds no whole number"),
            crate::read::table::shown(text.trim()),
            "a whole number",
            "the feed is damaged: ask the utility for it again",
        )
        .at(line)
    })
}

fn refused_type(line: usize) -> Refused {
    Refused::new(
        "the feed brings its own document type or entities",
        "<!DOCTYPE or &name;",
        "plain Atom and ESPI elements",
        "a Green Button file needs none, and such a file can grow without end: do not use it",
    )
    .at(line)
}

fn no_feed(name: &str, line: usize) -> Refused {
    Refused::new(
        "this XML is no Green Button feed",
        format!("<{name}>"),
        "<feed> or <entry> with ESPI readings",
        "download \"Green Button\" data, not a picture or a bill",
    )
    .at(line)
}

fn flood(what: &str, most: usize, line: usize) -> Refused {
    Refused::new(
        format!("the feed holds too many {what}"),
        format!("more than {most}"),
        format!("up to {most}"),
        "ask for daily or monthly readings, or for fewer years",
    )
    .at(line)
}
