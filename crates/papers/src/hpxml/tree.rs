//! A tree of elements: read without entities of one's own, written with every text escaped.

use quick_xml::Reader;
use quick_xml::events::{BytesRef, BytesStart, Event};

/// Most bytes of a file: a large audit is under 2 MB.
const MOST_BYTES: usize = 16_000_000;
/// Elements within elements; an audit has about 12.
const DEEPEST: usize = 60;

/// Why a text is not an HPXML file.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum NotHpxml {
    /// Not well-formed.
    #[error("this is not well-formed XML: {0}")]
    Xml(String),
    /// A document type, which may carry entities that grow without bound.
    #[error("the file has a DOCTYPE: entities of its own are not read")]
    DocumentType,
    /// An entity that XML itself does not have.
    #[error("the entity &{0}; is not known")]
    Entity(String),
    /// Too large or too deep.
    #[error("the file is too {0}")]
    Too(&'static str),
    /// Another kind of file.
    #[error("the first element is {0}, and HPXML is wanted")]
    Other(String),
    /// Nothing of a house in it.
    #[error("there is no {0} in the file")]
    Missing(&'static str),
}

/// An element with its attributes, its text and what is in it.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Element {
    /// Name, without a prefix.
    pub name: String,
    /// Attributes in their order.
    pub attributes: Vec<(String, String)>,
    /// Text, without the spaces around it.
    pub text: String,
    /// Elements in it.
    pub children: Vec<Element>,
}

impl Element {
    /// An empty element.
    pub fn new(name: &str) -> Self {
        Self {
            name: name.to_owned(),
            ..Self::default()
        }
    }

    /// With an attribute.
    #[must_use]
    pub fn with(mut self, name: &str, value: impl Into<String>) -> Self {
        self.attributes.push((name.to_owned(), value.into()));
        self
    }

    /// With an element in it that holds a text.
    #[must_use]
    pub fn says(mut self, name: &str, text: impl Into<String>) -> Self {
        self.children.push(Self {
            name: name.to_owned(),
            text: text.into(),
            ..Self::default()
        });
        self
    }

    /// As [`Element::says`], where there is something to say.
    #[must_use]
    pub fn may_say(self, name: &str, text: Option<impl Into<String>>) -> Self {
        match text {
            Some(text) => self.says(name, text),
            None => self,
        }
    }

    /// With an element in it.
    #[must_use]
    pub fn holds(mut self, child: Element) -> Self {
        self.children.push(child);
        self
    }

    /// With elements in it, where there are any, inside one of this name.
    #[must_use]
    pub fn holds_all(self, name: &str, all: Vec<Element>) -> Self {
        if all.is_empty() {
            return self;
        }
        let mut list = Self::new(name);
        list.children = all;
        self.holds(list)
    }

    /// The first element of this name.
    pub fn child(&self, name: &str) -> Option<&Element> {
        self.children.iter().find(|c| c.name == name)
    }

    /// Down a path of names.
    pub fn at(&self, path: &[&str]) -> Option<&Element> {
        path.iter().try_fold(self, |e, name| e.child(name))
    }

    /// Text at a path.
    pub fn text_at(&self, path: &[&str]) -> Option<&str> {
        Some(self.at(path)?.text.as_str()).filter(|t| !t.is_empty())
    }

    /// Number at a path.
    pub fn number_at(&self, path: &[&str]) -> Option<f64> {
        let number: f64 = self.text_at(path)?.parse().ok()?;
        number.is_finite().then_some(number)
    }

    /// All elements of this name right in this one.
    pub fn all<'e>(&'e self, name: &'e str) -> impl Iterator<Item = &'e Element> {
        self.children.iter().filter(move |c| c.name == name)
    }

    /// Reads a text.
    ///
    /// # Errors
    /// Not well-formed, a document type, an unknown entity, too large or too deep.
    pub fn read(text: &str) -> Result<Self, NotHpxml> {
        if text.len() > MOST_BYTES {
            return Err(NotHpxml::Too("large"));
        }
        let bad = |e: &dyn std::fmt::Display| NotHpxml::Xml(e.to_string());
        let mut reader = Reader::from_str(text.trim_start_matches('\u{feff}'));
        let mut open: Vec<Element> = Vec::new();
        let mut whole: Option<Element> = None;
        loop {
            match reader.read_event().map_err(|e| bad(&e))? {
                Event::DocType(_) => return Err(NotHpxml::DocumentType),
                Event::Start(start) => {
                    if open.len() >= DEEPEST {
                        return Err(NotHpxml::Too("deep"));
                    }
                    open.push(begun(&start)?);
                }
                Event::Empty(start) => {
                    let element = begun(&start)?;
                    put(element, &mut open, &mut whole)?;
                }
                Event::End(_) => {
                    if let Some(mut done) = open.pop() {
                        let trimmed = done.text.trim().to_owned();
                        done.text = trimmed;
                        put(done, &mut open, &mut whole)?;
                    }
                }
                Event::Text(t) => {
                    let text = t.xml10_content();
                    if let Some(e) = open.last_mut() {
                        e.text.push_str(&text);
                    }
                }
                Event::CData(t) => {
                    let text = t.xml10_content();
                    if let Some(e) = open.last_mut() {
                        e.text.push_str(&text);
                    }
                }
                Event::GeneralRef(entity) => {
                    let c = resolved(&entity)?;
                    if let Some(e) = open.last_mut() {
                        e.text.push(c);
                    }
                }
                Event::Eof => break,
                Event::Comment(_) | Event::Decl(_) | Event::PI(_) => {}
            }
        }
        if !open.is_empty() {
            return Err(NotHpxml::Xml("it ends before its elements do".to_owned()));
        }
        whole.ok_or_else(|| NotHpxml::Xml("there is no element".to_owned()))
    }

    /// As text, with a declaration.
    pub fn written(&self) -> String {
        let mut out = String::from("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
        self.write(&mut out, 0);
        out
    }

    fn write(&self, out: &mut String, depth: usize) {
        let margin = "  ".repeat(depth);
        out.push_str(&margin);
        out.push('<');
        out.push_str(&self.name);
        for (name, value) in &self.attributes {
            out.push_str(&format!(" {name}=\"{}\"", safe(value)));
        }
        if self.text.is_empty() && self.children.is_empty() {
            out.push_str("/>\n");
            return;
        }
        out.push('>');
        out.push_str(&safe(&self.text));
        if !self.children.is_empty() {
            out.push('\n');
            for child in &self.children {
                child.write(out, depth + 1);
            }
            out.push_str(&margin);
        }
        out.push_str(&format!("</{}>\n", self.name));
    }
}

/// An element as it begins. Names lose their prefix; a file has one vocabulary.
fn begun(start: &BytesStart<'_>) -> Result<Element, NotHpxml> {
    let bad = |e: &dyn std::fmt::Display| NotHpxml::Xml(e.to_string());
    let local = start.local_name();
    let mut element = Element::new(local.as_ref());
    for attribute in start.attributes() {
        let attribute = attribute.map_err(|e| bad(&e))?;
        let value = quick_xml::escape::unescape(&attribute.value).map_err(|e| bad(&e))?;
        let key: &str = attribute.key.as_ref();
        element
            .attributes
            .push((key.to_owned(), value.into_owned()));
    }
    Ok(element)
}

fn put(done: Element, open: &mut [Element], whole: &mut Option<Element>) -> Result<(), NotHpxml> {
    match (open.last_mut(), &whole) {
        (Some(outer), _) => outer.children.push(done),
        (None, None) => *whole = Some(done),
        (None, Some(_)) => return Err(NotHpxml::Xml("there is a second element".to_owned())),
    }
    Ok(())
}

fn resolved(entity: &BytesRef<'_>) -> Result<char, NotHpxml> {
    let name: &str = entity;
    if let Ok(Some(c)) = entity.resolve_char_ref() {
        return Ok(c);
    }
    match name {
        "amp" => Ok('&'),
        "lt" => Ok('<'),
        "gt" => Ok('>'),
        "quot" => Ok('"'),
        "apos" => Ok('\''),
        _ => Err(NotHpxml::Entity(name.to_owned())),
    }
}

/// Text that stands for itself inside XML; what XML cannot hold is left out.
fn safe(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\n' | '\t' => out.push(c),
            c if c.is_control() || matches!(c, '\u{fffe}' | '\u{ffff}') => {}
            c => out.push(c),
        }
    }
    out
}
