//! Slows down guessing of passwords, without locking anybody out for good.

use crate::db::ids::At;
use std::collections::HashMap;
use std::sync::{Mutex, PoisonError};

/// Failures that cost no delay: of one account, and of one address, behind which a whole club may be.
const FREE_ACCOUNT: i64 = 10;
const FREE_ADDRESS: i64 = 40;
/// The first delay, doubled with each failure up to the longest; so an account has at most about 75 tries an hour.
const FIRST_DELAY: i64 = 5;
const LONGEST_DELAY: i64 = 60;
/// Seconds after which one failure is forgiven.
const FORGIVE: i64 = 360;
/// Accounts and addresses kept in memory at most.
const KEPT: usize = 20_000;

/// Tries by account and by address. In memory only: a restart forgives all.
#[derive(Debug, Default)]
pub struct Throttle(Mutex<HashMap<String, Tries>>);

#[derive(Debug, Clone, Copy)]
struct Tries {
    failures: i64,
    /// When `failures` was last brought up to date.
    at: i64,
    free_at: i64,
}

impl Tries {
    fn forgiven(mut self, now: i64) -> Self {
        let forgiven = (now - self.at).max(0) / FORGIVE;
        self.failures = (self.failures - forgiven).max(0);
        self.at += forgiven * FORGIVE;
        self
    }

    fn failed(mut self, free: i64, now: i64) -> Self {
        self.failures += 1;
        let over = self.failures - free;
        if over >= 0 {
            self.free_at = now + (FIRST_DELAY << over.min(10)).min(LONGEST_DELAY);
        }
        self
    }
}

impl Throttle {
    /// Begins a try, counted as failed until [`Self::succeeded`] says otherwise, so that tries side by side gain
    /// nothing. `Err` holds the seconds to wait; a try in that time does not make the wait longer.
    pub fn begin(&self, account: &str, address: &str, now: At) -> Result<(), i64> {
        let mut tries = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let now = now.0;
        let buckets = [(key("account", account), FREE_ACCOUNT), (key("address", address), FREE_ADDRESS)];
        let fresh = Tries { failures: 0, at: now, free_at: 0 };
        let found = buckets.map(|(key, free)| {
            let found = tries.get(&key).map_or(fresh, |t| t.forgiven(now));
            (key, free, found)
        });
        let wait = found.iter().map(|(_, _, t)| t.free_at - now).max().unwrap_or(0);
        if wait > 0 {
            return Err(wait);
        }
        if tries.len() >= KEPT {
            tries.retain(|_, t| t.forgiven(now).failures > FREE_ACCOUNT);
        }
        if tries.len() < KEPT {
            tries.extend(found.map(|(key, free, found)| (key, found.failed(free, now))));
        }
        Ok(())
    }

    /// Forgives an account whose member proved who they are in another way.
    pub fn forgive(&self, account: &str) {
        self.0.lock().unwrap_or_else(PoisonError::into_inner).remove(&key("account", account));
    }

    /// Forgives an account, and takes back the try of its address.
    pub fn succeeded(&self, account: &str, address: &str) {
        let mut tries = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        tries.remove(&key("account", account));
        if let Some(t) = tries.get_mut(&key("address", address)) {
            t.failures = (t.failures - 1).max(0);
            t.free_at = 0;
        }
    }
}

fn key(sort: &str, name: &str) -> String {
    format!("{sort} {name}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_account_is_guessed_at_most_a_hundred_times_an_hour_from_wherever() {
        let throttle = Throttle::default();
        let tried = (0..3600).filter(|s| throttle.begin("jo", &s.to_string(), At(*s)).is_ok()).count();
        assert!((50..100).contains(&tried), "{tried}");
        assert!(throttle.begin("kim", "other", At(3600)).is_ok(), "others are not held up");
    }

    #[test]
    fn delays_grow_end_and_are_forgiven() {
        let throttle = Throttle::default();
        for _ in 0..FREE_ACCOUNT {
            assert_eq!(throttle.begin("jo", "a", At(0)), Ok(()));
        }
        assert_eq!(throttle.begin("jo", "a", At(0)), Err(5));
        assert_eq!(throttle.begin("jo", "a", At(4)), Err(1), "asking does not make it longer");
        assert_eq!(throttle.begin("jo", "a", At(5)), Ok(()));
        assert_eq!(throttle.begin("jo", "a", At(5)), Err(10));
        throttle.succeeded("jo", "a");
        assert_eq!(throttle.begin("jo", "a", At(5)), Ok(()));
    }
}
