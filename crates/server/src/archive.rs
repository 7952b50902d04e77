//! The archive jobs leave in: a tar of plain files. `job.toml` is the file the command reads,
//! `photos/` are JPEG files, `records.jsonl` is the chain the command proves; `kept.json` has what
//! it takes to bring the job back with its history.

use std::io::{Error, Read, Result, Write};

use store::{Store, Whole};

use crate::jobs::file_name;

/// Size of a block of a tar file (POSIX ustar).
const BLOCK: usize = 512;
/// Largest entry that is read back.
const MOST: u64 = 256 * 1024 * 1024;

/// A tar file being written.
pub struct Archive<W> {
    to: W,
}

impl<W: Write> Archive<W> {
    /// Begins one.
    pub fn new(to: W) -> Self {
        Self { to }
    }

    fn file(&mut self, folder: &str, name: &str, bytes: &[u8]) -> Result<()> {
        let mut head = [0_u8; BLOCK];
        let mut put = |at: usize, text: &str| {
            for (to, from) in head.iter_mut().skip(at).zip(text.bytes()) {
                *to = from;
            }
        };
        put(0, name);
        put(100, "0000644\0");
        put(108, "0000000\0");
        put(116, "0000000\0");
        put(124, &format!("{:011o}\0", bytes.len()));
        put(136, "00000000000\0");
        put(148, "        ");
        put(156, "0");
        put(257, "ustar\x0000");
        put(345, folder);
        let sum: u32 = head.iter().map(|b| u32::from(*b)).sum();
        let sum = format!("{sum:06o}\0 ");
        for (to, from) in head.iter_mut().skip(148).zip(sum.bytes()) {
            *to = from;
        }
        self.to.write_all(&head)?;
        self.to.write_all(bytes)?;
        let rest = bytes.len().next_multiple_of(BLOCK) - bytes.len();
        self.to.write_all(&vec![0; rest])
    }

    /// Writes a job.
    pub fn job(&mut self, whole: &Whole) -> Result<()> {
        let text = whole.revisions.last().map_or("", |r| r.text.as_str());
        let name = jobfile::read(text).map_or_else(|_| String::new(), |j| j.name);
        let short: String = file_name(&name).chars().take(30).collect();
        let folder = format!("{}-{}", short.trim_end_matches('-'), whole.id);
        self.file(&folder, "job.toml", text.as_bytes())?;
        if !whole.records.is_empty() {
            self.file(&folder, "records.jsonl", whole.records.as_bytes())?;
        }
        for photo in &whole.photos {
            let id = &photo.id;
            self.file(&folder, &format!("photos/{id}.jpg"), &photo.bytes)?;
            self.file(&folder, &format!("photos/{id}.small.jpg"), &photo.small)?;
        }
        let kept = serde_json::to_vec_pretty(whole).map_err(Error::other)?;
        // Last, so that all it needs was read when it is met again.
        self.file(&folder, "kept.json", &kept)
    }

    /// Ends it and hands back where it was written to.
    pub fn end(mut self) -> Result<W> {
        self.to.write_all(&[0; 2 * BLOCK])?;
        self.to.flush()?;
        Ok(self.to)
    }
}

/// Everything of a store.
///
/// # Errors
/// The database, or what is written to.
pub async fn back_up<W: Write>(store: &Store, to: W) -> std::result::Result<(W, usize), String> {
    let mut archive = Archive::new(to);
    let jobs = store.every_job(None).await.map_err(|e| e.to_string())?;
    for (firm, job) in &jobs {
        match store.whole(firm, job).await {
            Ok(whole) => archive.job(&whole).map_err(|e| e.to_string())?,
            // It was taken away meanwhile.
            Err(store::NotKept::NotThere(_)) => {}
            Err(e) => return Err(e.to_string()),
        }
    }
    let to = archive.end().map_err(|e| e.to_string())?;
    Ok((to, jobs.len()))
}

/// What came back.
#[derive(Debug, Default, PartialEq, Eq)]
pub struct Back {
    /// Jobs that came back.
    pub back: usize,
    /// Jobs that were there and stayed as they are.
    pub stayed: usize,
}

/// Brings jobs back from an archive.
///
/// # Errors
/// An archive that is none, or is cut off; a job that does not hold together; the database.
pub async fn bring_back(
    store: &Store,
    mut from: impl Read,
    over: bool,
) -> std::result::Result<Back, String> {
    let mut done = Back::default();
    let mut beside: Vec<(String, Vec<u8>)> = Vec::new();
    loop {
        let entry = entry(&mut from).map_err(|e| format!("the archive does not read: {e}"))?;
        let Some((name, bytes)) = entry else {
            return Ok(done);
        };
        let Some((folder, "kept.json")) = name.rsplit_once('/') else {
            beside.push((name, bytes));
            continue;
        };
        let mut whole: Whole =
            serde_json::from_slice(&bytes).map_err(|e| format!("{name}: {e}"))?;
        let mut take = |file: &str| {
            let wanted = format!("{folder}/{file}");
            let at = beside.iter().position(|(n, _)| *n == wanted)?;
            Some(beside.swap_remove(at).1)
        };
        let records = take("records.jsonl").unwrap_or_default();
        whole.records = String::from_utf8(records).map_err(|e| format!("{folder}: {e}"))?;
        for photo in &mut whole.photos {
            let missing = || format!("{folder}: the photo {} is missing", photo.id);
            photo.bytes = take(&format!("photos/{}.jpg", photo.id)).ok_or_else(missing)?;
            photo.small = take(&format!("photos/{}.small.jpg", photo.id)).ok_or_else(missing)?;
        }
        beside.clear();
        if store
            .bring_back(&whole, over)
            .await
            .map_err(|e| format!("{folder}: {e}"))?
        {
            done.back += 1;
        } else {
            done.stayed += 1;
        }
    }
}

/// The next entry; none at the end, which is marked: an archive without its mark was cut off.
fn entry(from: &mut impl Read) -> Result<Option<(String, Vec<u8>)>> {
    let mut head = [0_u8; BLOCK];
    from.read_exact(&mut head)
        .map_err(|_| Error::other("it is cut off, or is no archive"))?;
    if head.iter().all(|b| *b == 0) {
        return Ok(None);
    }
    let field = |at: usize, length: usize| {
        let bytes = head.iter().skip(at).take(length).take_while(|b| **b != 0);
        bytes.map(|b| char::from(*b)).collect::<String>()
    };
    let octal = |at, length| u64::from_str_radix(field(at, length).trim(), 8).ok();
    let spaces = |(i, b): (usize, &u8)| {
        if (148..156).contains(&i) {
            32
        } else {
            u64::from(*b)
        }
    };
    let sum: u64 = head.iter().enumerate().map(spaces).sum();
    if octal(148, 8) != Some(sum) {
        return Err(Error::other(
            "a head without its sum: this is no tar archive",
        ));
    }
    let size = octal(124, 12).filter(|s| *s <= MOST);
    let size = size.ok_or_else(|| Error::other("an entry that is too large"))?;
    let padded = size.next_multiple_of(BLOCK as u64);
    let mut bytes = Vec::new();
    if from.take(padded).read_to_end(&mut bytes)? as u64 != padded {
        return Err(Error::other("it is cut off"));
    }
    bytes.truncate(usize::try_from(size).unwrap_or(usize::MAX));
    let (folder, name) = (field(345, 155), field(0, 100));
    let name = if folder.is_empty() {
        name
    } else {
        format!("{folder}/{name}")
    };
    Ok(Some((name, bytes)))
}
