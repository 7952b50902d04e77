//! The archive jobs leave in: a tar of plain files. `job.toml` is the file the command reads,
//! `photos/` are JPEG files, `temperatures/` tables of days as the job names them, `records.jsonl` is
//! the chain the command proves; `kept.json` has what it takes to bring the job back with its history.

use std::collections::VecDeque;
use std::io::{Error, Read, Result, Write};

use store::{NotKept, Store, Whole, WholePhoto};

use crate::jobs::file_name;

/// Size of a block of a tar file (POSIX ustar).
const BLOCK: usize = 512;
/// Largest entry that is read back.
const MOST: u64 = 256 * 1024 * 1024;

/// Puts a file behind what is there.
fn file(to: &mut Vec<u8>, folder: &str, name: &str, bytes: &[u8]) {
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
    to.extend_from_slice(&head);
    to.extend_from_slice(bytes);
    to.resize(to.len().next_multiple_of(BLOCK), 0);
}

/// The archive of some jobs, piece by piece: of each job its texts, then photo by photo. No more
/// than one piece is in memory.
#[derive(Debug)]
pub struct Pieces {
    store: Store,
    jobs: VecDeque<(String, String)>,
    now: Option<Under>,
    ended: bool,
}

/// A job that is on its way out.
#[derive(Debug)]
struct Under {
    firm: String,
    folder: String,
    whole: Whole,
    photos: VecDeque<WholePhoto>,
}

impl Pieces {
    /// Of these jobs, each with its firm.
    pub fn of(store: &Store, jobs: Vec<(String, String)>) -> Self {
        Self {
            store: store.clone(),
            jobs: jobs.into(),
            now: None,
            ended: false,
        }
    }

    /// The next piece; none after the end. A job or photo that was taken away meanwhile is left out.
    ///
    /// # Errors
    /// The database. The archive is then without its end, and is refused when it is read.
    pub async fn next(&mut self) -> std::result::Result<Option<Vec<u8>>, NotKept> {
        let mut out = Vec::new();
        while out.is_empty() {
            if let Some(under) = &mut self.now {
                let Some(mut photo) = under.photos.pop_front() else {
                    // Last, so that all it needs was read when it is met again.
                    let kept = serde_json::to_vec_pretty(&under.whole)
                        .map_err(|e| NotKept::Broken(e.to_string()))?;
                    file(&mut out, &under.folder, "kept.json", &kept);
                    self.now = None;
                    continue;
                };
                let (firm, job) = (&under.firm, &under.whole.id);
                if self.store.with_bytes(firm, job, &mut photo).await? {
                    let id = &photo.id;
                    let (large, small) =
                        (format!("photos/{id}.jpg"), format!("photos/{id}.small.jpg"));
                    file(&mut out, &under.folder, &large, &photo.bytes);
                    file(&mut out, &under.folder, &small, &photo.small);
                    (photo.bytes, photo.small) = Default::default();
                    under.whole.photos.push(photo);
                }
            } else if let Some((firm, job)) = self.jobs.pop_front() {
                match self.store.whole_but_photos(&firm, &job).await {
                    Ok(whole) => self.now = Some(begun(firm, whole, &mut out)),
                    Err(NotKept::NotThere(_)) => {}
                    Err(e) => return Err(e),
                }
            } else if self.ended {
                return Ok(None);
            } else {
                self.ended = true;
                out.resize(2 * BLOCK, 0);
            }
        }
        Ok(Some(out))
    }
}

/// The texts of a job, and what is left of it.
fn begun(firm: String, mut whole: Whole, out: &mut Vec<u8>) -> Under {
    let text = whole.revisions.last().map_or("", |r| r.text.as_str());
    let name = jobfile::read(text).map_or_else(|_| String::new(), |j| j.name);
    let short: String = file_name(&name).chars().take(30).collect();
    let folder = format!("{}-{}", short.trim_end_matches('-'), whole.id);
    file(out, &folder, "job.toml", text.as_bytes());
    if !whole.records.is_empty() {
        file(out, &folder, "records.jsonl", whole.records.as_bytes());
    }
    for t in &whole.temperatures {
        file(out, &folder, &t.name, t.days.as_bytes());
    }
    let photos = std::mem::take(&mut whole.photos).into();
    Under {
        firm,
        folder,
        whole,
        photos,
    }
}

/// Everything of a store.
///
/// # Errors
/// The database, or what is written to.
pub async fn back_up<W: Write>(
    store: &Store,
    mut to: W,
) -> std::result::Result<(W, usize), String> {
    let jobs = store.every_job(None).await.map_err(|e| e.to_string())?;
    let many = jobs.len();
    let mut pieces = Pieces::of(store, jobs);
    while let Some(piece) = pieces.next().await.map_err(|e| e.to_string())? {
        to.write_all(&piece).map_err(|e| e.to_string())?;
    }
    to.flush().map_err(|e| e.to_string())?;
    Ok((to, many))
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
        for t in &mut whole.temperatures {
            let days = take(&t.name).ok_or_else(|| format!("{folder}: {} is missing", t.name))?;
            t.days = String::from_utf8(days).map_err(|e| format!("{folder}: {}: {e}", t.name))?;
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
