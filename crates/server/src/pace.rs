//! How often something may be asked.

use std::collections::HashMap;
use std::sync::{Mutex, PoisonError};

use axum::http::StatusCode;

use crate::refused::Refused;

/// Tries to sign in with one address in [`SIGN_IN_MS`].
const TRIES: u32 = 10;
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
        let wait_s = (entry.0 - now) / 1000 + 1;
        Err(Refused::new(
            StatusCode::TOO_MANY_REQUESTS,
            "too-often",
            "this was asked too often",
        )
        .mend(format!("wait {wait_s} s")))
    }

    /// A try to sign in.
    pub fn sign_in(&self, email: &str) -> Result<(), Refused> {
        self.count(format!("in {email}"), SIGN_IN_MS, TRIES)
    }

    /// Any request.
    pub fn request(&self, of: &str) -> Result<(), Refused> {
        self.count(format!("of {of}"), MINUTE_MS, REQUESTS)
    }
}

#[cfg(test)]
mod tests {
    use super::{Pace, TRIES};

    #[test]
    fn the_eleventh_try_waits_and_another_address_does_not() {
        let pace = Pace::default();
        assert!((0..TRIES).all(|_| pace.sign_in("a@b.example").is_ok()));
        assert_eq!(pace.sign_in("a@b.example").map_err(|r| r.status), Err(429));
        assert!(pace.sign_in("c@b.example").is_ok());
    }
}
