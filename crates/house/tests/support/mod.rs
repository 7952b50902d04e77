//! What several tests of the house stand on.

use std::io::Read;
use std::path::Path;

/// A station that ships.
pub fn weather(name: &str) -> climate::Weather {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../weather")
        .join(name);
    let mut bytes = Vec::new();
    flate2::read::GzDecoder::new(std::fs::File::open(path).expect("a shipped station"))
        .read_to_end(&mut bytes)
        .expect("gzip");
    climate::read_any(&bytes).expect("weather").value
}
