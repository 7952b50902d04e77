//! Writing a file whole or not at all.

use std::io::{Read, Write};
use std::path::Path;

use crate::refusal::{Fault, Refusal};

/// Beginning of the name of a file that is not whole yet.
pub const UNFINISHED: &str = ".northwall-";

/// Writes a file whole or not at all: beside its place under another name, then moved there. A link
/// stays, and what it leads to is written; a pipe or a device is written into, never replaced.
pub fn write_whole(path: &Path, text: impl AsRef<[u8]>, over: bool) -> Result<(), Refusal> {
    let shown = path.display().to_string();
    let led_to = path.canonicalize();
    let path = led_to.as_deref().unwrap_or(path);
    let fault = |says: String| Refusal::from(Fault::file(&shown, says));
    if path.is_dir() {
        return Err(fault("this is a folder; a file is wanted".to_owned()));
    }
    if path.exists() && !path.is_file() {
        return std::fs::OpenOptions::new()
            .write(true)
            .open(path)
            .and_then(|mut file| file.write_all(text.as_ref()))
            .map_err(|e| fault(format!("it does not write: {e}")));
    }
    let folder = match path.parent() {
        Some(p) if !p.as_os_str().is_empty() => p,
        _ => Path::new("."),
    };
    if !folder.is_dir() {
        return Err(Fault::file(&shown, "there is no such folder to write into")
            .got(folder.display().to_string())
            .mend("make the folder first, or name another")
            .into());
    }
    let mut file = tempfile::Builder::new()
        .prefix(UNFINISHED)
        .tempfile_in(folder)
        .map_err(|e| fault(format!("nothing can be written here: {e}")))?;
    file.write_all(text.as_ref())
        .and_then(|()| file.as_file().sync_all())
        .map_err(|e| fault(format!("it does not write: {e}")))?;
    make_readable(file.path());
    let moved = if over {
        file.persist(path).map(|_| ()).map_err(|e| e.error)
    } else {
        file.persist_noclobber(path)
            .map(|_| ())
            .map_err(|e| e.error)
    };
    moved.map_err(|e| match e.kind() {
        std::io::ErrorKind::AlreadyExists => Fault::file(&shown, "the file is there already")
            .mend("name another file, or write over it with --force")
            .into(),
        _ => fault(format!("it does not write: {e}")),
    })
}

/// Writes a chart: over another chart, and over nothing else. A job named by mistake stays.
pub fn write_chart(path: &Path, svg: &str) -> Result<(), Refusal> {
    let mut begins = Vec::new();
    if path.is_file()
        && let Ok(file) = std::fs::File::open(path)
    {
        let _ = file.take(4096).read_to_end(&mut begins);
    }
    let chart = begins.is_empty() || begins.windows(4).any(|w| w == b"<svg");
    if !chart {
        let shown = path.display().to_string();
        return Err(
            Fault::file(&shown, "the file is there already, and it is no chart")
                .allowed("a name that is free, or a chart to be made anew")
                .mend("give --svg another name, like chart.svg")
                .into(),
        );
    }
    write_whole(path, svg, true)
}

/// A temporary file is for its owner alone; a job is for the firm.
#[cfg(unix)]
fn make_readable(path: &Path) {
    use std::os::unix::fs::PermissionsExt;
    let _ = std::fs::set_permissions(path, std::fs::Permissions::from_mode(0o644));
}

#[cfg(not(unix))]
fn make_readable(_path: &Path) {}
