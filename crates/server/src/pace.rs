//! How often something may be asked.

use std::collections::HashMap;
use std::sync::{Mutex, PoisonError};

use axum::http::StatusCode;
use store::Store;

use crate::refused::Refused;

/// Tries to sign in with one address in [`SIGN_IN_MS`].
const TRIES: i64 = 10;
const SIGN_IN_MS: i64 = 15 * 60_000;
/// Requests of one session in a minute: a page that redraws at each keystroke stays far below.
const REQUESTS: u32 = 1_800;
const MINUTE_MS: i64 = 60_000;
/// Names kept at most; then all whose time is over go.
const MOST: usize = 20_000;

/// Counts within windows of time, in this process.
#[derive(Debug, Default)]
pub struct Pace {
    counts: Mutex<HashMap<String, (i64, u32)>>,
}

impl Pace {
    fn count(&self, key: String, window_ms: i64, most: u32) -> Result<(), Refused> {
        let now = store::now_ms();
        let mut counts = self.counts.lock().unwrap_or_else(PoisonError::into_inner);
        if counts.len() >= MOST {
            counts.retain(|_, (until, _)| *until > now);
            if counts.len() >= MOST {
                counts.clear();
            }
        }
        let entry = counts.entry(key).or_insert((now + window_ms, 0));
        if entry.0 <= now {
            *entry = (now + window_ms, 0);
        }
        entry.1 += 1;
        if entry.1 <= most {
            return Ok(());
        }
        Err(too_often(entry.0 - now))
    }

    /// Any request.
    pub fn request(&self, of: &str) -> Result<(), Refused> {
        self.count(format!("of {of}"), MINUTE_MS, REQUESTS)
    }
}

fn too_often(wait_ms: i64) -> Refused {
    Refused::new(
        StatusCode::TOO_MANY_REQUESTS,
        "too-often",
        "this was asked too often",
    )
    .mend(format!("wait {} s", wait_ms / 1000 + 1))
}

/// A try to sign in, counted with those at other servers on the same database. What was tried is
/// kept as a hash only.
pub async fn sign_in(store: &Store, with: &str) -> Result<(), Refused> {
    let now = store::now_ms();
    let hash = crate::hashing::of_token(&format!("in {with}"));
    let counted = store.tried(&hash, now, SIGN_IN_MS).await?;
    if counted.tries <= TRIES {
        return Ok(());
    }
    Err(too_often(counted.ends - now))
}

#[cfg(test)]
mod tests {
    use super::{Pace, REQUESTS};

    #[test]
    fn one_request_too_many_waits_and_another_session_does_not() {
        let pace = Pace::default();
        assert!((0..REQUESTS).all(|_| pace.request("a").is_ok()));
        assert_eq!(pace.request("a").map_err(|r| r.status), Err(429));
        assert!(pace.request("b").is_ok());
    }
}
