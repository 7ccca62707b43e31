//! Slows down guessing of passwords, without locking anybody out for good.

use crate::db::ids::At;
use axum::extract::{ConnectInfo, FromRequestParts};
use axum::http::HeaderMap;
use axum::http::request::Parts;
use std::collections::HashMap;
use std::convert::Infallible;
use std::net::{IpAddr, SocketAddr};
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

/// Where a request comes from, as coarse as the throttle needs it; empty where that is not known.
#[derive(Debug)]
pub struct Address(pub String);

impl<S: Sync> FromRequestParts<S> for Address {
    type Rejection = Infallible;

    async fn from_request_parts(parts: &mut Parts, _: &S) -> Result<Self, Infallible> {
        let peer = parts.extensions.get::<ConnectInfo<SocketAddr>>().map(|c| c.0.ip());
        Ok(Self(peer.map_or_else(String::new, |ip| coarse(origin(ip, &parts.headers)))))
    }
}

/// Behind a proxy on this machine or in this network, the address that the proxy saw.
fn origin(peer: IpAddr, headers: &HeaderMap) -> IpAddr {
    let near = match peer {
        IpAddr::V4(v4) => v4.is_loopback() || v4.is_private(),
        IpAddr::V6(v6) => v6.is_loopback() || v6.is_unique_local(),
    };
    let seen = headers.get_all("x-forwarded-for").iter().next_back().and_then(|v| v.to_str().ok());
    let seen = seen.and_then(|line| line.rsplit(',').next()).and_then(|last| last.trim().parse().ok());
    seen.filter(|_| near).unwrap_or(peer)
}

/// One household has a whole /64 of IPv6.
fn coarse(ip: IpAddr) -> String {
    match ip.to_canonical() {
        IpAddr::V4(v4) => v4.to_string(),
        IpAddr::V6(v6) => v6.segments()[..4].iter().map(|s| format!("{s:x}:")).collect(),
    }
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

    #[test]
    fn a_forwarded_address_counts_only_from_a_near_proxy() {
        let mut headers = HeaderMap::new();
        headers.insert("x-forwarded-for", "203.0.113.9, 198.51.100.7".parse().unwrap());
        let from = |peer: &str| coarse(origin(peer.parse().unwrap(), &headers));
        assert_eq!(from("127.0.0.1"), "198.51.100.7");
        assert_eq!(from("203.0.113.77"), "203.0.113.77");
        assert_eq!(coarse("2001:db8:1:2:3:4:5:6".parse().unwrap()), "2001:db8:1:2:");
    }
}
