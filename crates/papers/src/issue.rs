//! What a paper was made of, as a hash and as a code short enough to type.

use climate::Weather;
use jobfile::Job;
use plan::Catalogue;
use serde_json::Value;
use sha2::{Digest, Sha256};

/// Letters and digits that are not taken for each other.
const SIGNS: &[u8; 32] = b"0123456789ABCDEFGHJKMNPQRSTVWXYZ";

/// What a paper was made of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Issue {
    /// SHA-256 of everything, hexadecimal.
    pub hash: String,
    /// Code: two groups of the job, one of what lies beside it, one of the program.
    pub code: String,
    /// Version of the program.
    pub version: &'static str,
    /// The job, what lies beside it, and the program: each with its own mark.
    pub marks: Vec<Mark>,
}

/// What a paper was made of, piece by piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mark {
    /// `job`, `sheet NAME`, `weather NAME`, `records`, `file NAME`, `program VERSION`.
    pub name: String,
    /// Eight signs, 40 bits, of the hash: short enough to compare by eye.
    pub mark: String,
    /// SHA-256 of the content, hexadecimal. Of `job`, `records` and `file` it is that of the file
    /// as it lies there, so that any tool can make it again.
    pub hash: String,
}

impl Mark {
    fn of(name: &str, sum: &[u8; 32]) -> Self {
        // a name is one line of a list
        let plain = |c: char| if c.is_control() { ' ' } else { c };
        Self {
            name: name.chars().map(plain).collect(),
            mark: format!("{}-{}", signs(sum, 0), signs(sum, 5)),
            hash: hexadecimal(sum),
        }
    }
}

/// What became of a piece since a list was written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Since {
    /// Its content is another.
    Changed(String),
    /// It is not there any more.
    Gone(String),
    /// It was not there then.
    New(String),
}

/// How a typed code stands to the job.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verified {
    /// The paper is of this job, these sheets and this program.
    Same,
    /// The job is another, or was changed since.
    OtherJob,
    /// The job is the same; sheets, weather or records were changed since.
    OtherSheets,
    /// Job and sheets are the same; the program or its rules are of another version.
    OtherProgram,
    /// This is not a code of a paper.
    NoCode,
}

impl Issue {
    /// Made of the text of the job, of the files beside it by name (sheets, weather, records), and
    /// of the rules and version of the program.
    pub fn of(job: &str, beside: &[(String, Vec<u8>)]) -> Self {
        let version = env!("CARGO_PKG_VERSION");
        let of_job = digest(&[("job", job.as_bytes())]);
        let each: Vec<(&str, [u8; 32])> = (beside.iter())
            .map(|(name, bytes)| (name.as_str(), Sha256::digest(bytes).into()))
            .collect();
        let all: Vec<(&str, &[u8])> = each.iter().map(|(n, d)| (*n, d.as_slice())).collect();
        let of_beside = digest(&all);
        let mut program: Vec<(&str, &[u8])> = vec![
            ("version", version.as_bytes()),
            ("template", include_bytes!("template/sheet.typ")),
        ];
        let rules = install::rule_texts();
        program.extend(rules.iter().map(|(name, text)| (*name, text.as_bytes())));
        let of_program = digest(&program);
        let all = digest(&[
            ("job", &of_job),
            ("beside", &of_beside),
            ("program", &of_program),
        ]);
        let mut marks = vec![Mark::of("job", &Sha256::digest(job.as_bytes()).into())];
        marks.extend(each.iter().map(|(name, sum)| Mark::of(name, sum)));
        marks.push(Mark::of(&format!("program {version}"), &of_program));
        let code = [
            signs(&of_job, 0),
            signs(&of_job, 5),
            signs(&of_beside, 0),
            signs(&of_program, 0),
        ];
        Self {
            hash: hexadecimal(&all),
            code: code.join("-"),
            version,
            marks,
        }
    }

    /// The list that lies beside the papers: the code, then a line for each mark.
    pub fn list(&self) -> String {
        let lines = self.marks.iter();
        lines.fold(format!("code {}\n", self.code), |out, m| {
            out + &m.mark + " " + &m.hash + " " + &m.name + "\n"
        })
    }

    /// What is no longer as it was in a list of [`Self::list`], by name; nothing where the list is
    /// not of that code, or is no list. Changed, then gone, then new.
    pub fn since(&self, list: &str, code: &str) -> Option<Vec<Since>> {
        let mut lines = list.lines();
        let of = lines.next()?.strip_prefix("code ")?;
        if plain(of) != plain(code) {
            return None;
        }
        let mut before: Vec<(&str, &str)> = Vec::new();
        for line in lines {
            let mut parts = line.splitn(3, ' ').skip(1);
            before.push((parts.next()?, parts.next()?));
        }
        let then = |name: &str| before.iter().find(|b| b.1 == name);
        let changed = self.marks.iter().filter_map(|m| {
            let was = then(&m.name)?;
            (was.0 != m.hash).then(|| Since::Changed(m.name.clone()))
        });
        let gone = before
            .iter()
            .filter(|b| !self.marks.iter().any(|m| m.name == b.1));
        let gone = gone.map(|b| Since::Gone(b.1.to_owned()));
        let new = self.marks.iter().filter(|m| then(&m.name).is_none());
        let new = new.map(|m| Since::New(m.name.clone()));
        Some(changed.chain(gone).chain(new).collect())
    }

    /// What a typed code says about the job. Spaces, dashes and small letters do not matter, nor
    /// whether O was typed for 0 or I or L for 1.
    pub fn verify(&self, typed: &str) -> Verified {
        let (typed, own) = (plain(typed), plain(&self.code));
        if typed.len() != own.len()
            || typed
                .iter()
                .any(|c| !c.is_ascii() || !SIGNS.contains(&(*c as u8)))
        {
            return Verified::NoCode;
        }
        let differs = typed.iter().zip(&own).position(|(a, b)| a != b);
        match differs {
            None => Verified::Same,
            Some(0..8) => Verified::OtherJob,
            Some(8..12) => Verified::OtherSheets,
            Some(_) => Verified::OtherProgram,
        }
    }
}

/// A code without what does not matter in it: spaces, dashes, small letters, O for 0, I or L for 1.
fn plain(text: &str) -> Vec<char> {
    text.to_uppercase()
        .chars()
        .filter(|c| c.is_alphanumeric())
        .map(|c| match c {
            'O' => '0',
            'I' | 'L' => '1',
            c => c,
        })
        .collect()
}

/// What lies beside the job and bears on its papers: the sheets of its units as read, the hours
/// of the weather, the records, and the files that the job names, by their names in it.
pub fn beside(
    job: &Job,
    catalogue: &Catalogue,
    weather: &Weather,
    records: Option<&str>,
    named: &[(String, Vec<u8>)],
) -> Vec<(String, Vec<u8>)> {
    let choices = job.choices();
    let units = choices.iter().flat_map(|c| {
        let heads = c.equipment.heads.iter().map(|h| &h.unit);
        c.equipment.outdoors.iter().map(|o| &o.unit).chain(heads)
    });
    let mut names: Vec<&String> = units.collect();
    names.sort_unstable();
    names.dedup();
    let mut out = Vec::new();
    for name in names {
        let Some(sheet) = catalogue.get(name) else {
            continue;
        };
        let says = of_sheet(serde_json::to_value(sheet).unwrap_or_default()).to_string();
        out.push((format!("sheet {name}"), says.into_bytes()));
    }
    let hours = [
        &weather.dry_bulb_c,
        &weather.dni_w_per_m2,
        &weather.dhi_w_per_m2,
        &weather.wind_speed_m_per_s,
    ];
    let bits = hours.iter().flat_map(|of| of.iter());
    let bits = bits.flat_map(|v| v.to_bits().to_le_bytes()).collect();
    out.push((format!("weather {}", weather.station.name), bits));
    if let Some(records) = records {
        out.push(("records".to_owned(), records.as_bytes().to_vec()));
    }
    // a file that is named twice is one file
    for (name, bytes) in named {
        let name = format!("file {name}");
        if !out.iter().any(|(n, _)| *n == name) {
            out.push((name, bytes.clone()));
        }
    }
    out
}

/// A sheet without where its file lies and how its lines fall: no matter of the unit.
fn of_sheet(mut says: Value) -> Value {
    match &mut says {
        Value::Object(all) => {
            all.retain(|key, _| !["file", "line", "lines_of", "typed"].contains(&key.as_str()));
            all.values_mut().for_each(|v| *v = of_sheet(v.take()));
        }
        Value::Array(all) => all.iter_mut().for_each(|v| *v = of_sheet(v.take())),
        _ => {}
    }
    says
}

/// Hash of named parts, each with its length, so that nothing moves from one to the next.
fn digest(parts: &[(&str, &[u8])]) -> [u8; 32] {
    let mut sha = Sha256::new();
    for (name, bytes) in parts {
        for part in [name.as_bytes(), bytes] {
            sha.update((part.len() as u64).to_le_bytes());
            sha.update(part);
        }
    }
    sha.finalize().into()
}

fn hexadecimal(bytes: &[u8; 32]) -> String {
    bytes.iter().fold(String::new(), |mut out, b| {
        for half in [b >> 4, b & 15] {
            out.push(char::from_digit(u32::from(half), 16).unwrap_or('0'));
        }
        out
    })
}

/// Four signs, 20 bits, of the bytes from `at` on.
fn signs(bytes: &[u8; 32], at: usize) -> String {
    let three = bytes.iter().skip(at).take(3);
    let number = three.fold(0_u32, |n, b| n << 8 | u32::from(*b));
    (0..4)
        .map(|i| {
            let five = (number >> (19 - 5 * i)) & 31;
            char::from(SIGNS.get(five as usize).copied().unwrap_or(b'0'))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_code_says_what_was_changed() {
        let sheets: &[(String, Vec<u8>)] = &[("a".to_owned(), b"1".to_vec())];
        let one = Issue::of("job", sheets);
        assert_eq!(one.code.len(), 19, "{}", one.code);
        assert_eq!(one.hash.len(), 64);
        assert_eq!(one.verify(&one.code), Verified::Same);
        assert_eq!(
            one.verify(&one.code.to_lowercase().replace('-', " ")),
            Verified::Same
        );
        assert_eq!(one.verify("abc"), Verified::NoCode);
        assert_eq!(one.verify("ÄÄÄÄ-0000-0000-0000"), Verified::NoCode);
        assert_eq!(
            Issue::of("job ", sheets).verify(&one.code),
            Verified::OtherJob
        );
        assert_eq!(
            Issue::of("job", &[("a".to_owned(), b"2".to_vec())]).verify(&one.code),
            Verified::OtherSheets
        );
    }

    /// SHA-256 of `abc`: FIPS 180-2, appendix B.1.
    #[test]
    fn the_list_names_what_changed() {
        let file = |name: &str, says: &str| (format!("file {name}"), says.as_bytes().to_vec());
        let one = Issue::of("abc", &[file("days.csv", "1"), file("oil\n.csv", "slips")]);
        let sum = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
        assert_eq!(one.marks[0].hash, sum);
        let list = one.list();
        assert_eq!(list.lines().count(), 5, "{list}");
        assert_eq!(one.since(&list, &one.code.to_lowercase()), Some(Vec::new()));
        let two = Issue::of("abc", &[file("days.csv", "2"), file("wood.csv", "cords")]);
        assert_eq!(two.verify(&one.code), Verified::OtherSheets);
        let since = [
            Since::Changed("file days.csv".to_owned()),
            Since::Gone("file oil .csv".to_owned()),
            Since::New("file wood.csv".to_owned()),
        ];
        assert_eq!(two.since(&list, &one.code), Some(since.to_vec()));
        // a list of another paper says nothing of this one, nor does what is no list
        assert_eq!(two.since(&list, &two.code), None);
        assert_eq!(two.since("code\n", &one.code), None);
        assert_eq!(two.since(&(list + "x"), &one.code), None);
    }

    #[test]
    fn parts_do_not_run_into_each_other() {
        let of = |name: &str, bytes: &[u8]| Issue::of("j", &[(name.to_owned(), bytes.to_vec())]);
        let (a, b) = (of("a", b"bc"), of("ab", b"c"));
        assert_ne!(a.hash, b.hash);
    }
}
