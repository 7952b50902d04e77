//! What a paper was made of, as a hash and as a code short enough to type.

use climate::Weather;
use jobfile::Job;
use plan::Catalogue;
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
        let beside: Vec<(&str, &[u8])> = (beside.iter())
            .map(|(name, bytes)| (name.as_str(), bytes.as_slice()))
            .collect();
        let of_beside = digest(&beside);
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
        }
    }

    /// What a typed code says about the job. Spaces, dashes and small letters do not matter, nor
    /// whether O was typed for 0 or I or L for 1.
    pub fn verify(&self, typed: &str) -> Verified {
        let plain = |text: &str| -> Vec<char> {
            text.to_uppercase()
                .chars()
                .filter(|c| c.is_alphanumeric())
                .map(|c| match c {
                    'O' => '0',
                    'I' | 'L' => '1',
                    c => c,
                })
                .collect()
        };
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

/// What lies beside the job and bears on its papers: the sheets of its units as typed, the hours
/// of the weather, and the records.
pub fn beside(
    job: &Job,
    catalogue: &Catalogue,
    weather: &Weather,
    records: Option<&str>,
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
        let sheet = catalogue.get(name);
        let typed = sheet.iter().flat_map(|s| &s.typed);
        let text = typed.fold(String::new(), |text, (at, says)| {
            text + at + "=" + says + "\n"
        });
        out.push((format!("sheet {name}"), text.into_bytes()));
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
    out
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

    #[test]
    fn parts_do_not_run_into_each_other() {
        let of = |name: &str, bytes: &[u8]| Issue::of("j", &[(name.to_owned(), bytes.to_vec())]);
        let (a, b) = (of("a", b"bc"), of("ab", b"c"));
        assert_ne!(a.hash, b.hash);
    }
}
