//! How fast one sender may go: more than any day's work in the shed needs, too slow to wear the program out.

use crate::app::App;
use crate::db::ids::At;
use crate::web::address::Address;
use crate::web::{page, session};
use axum::extract::{MatchedPath, Request, State};
use axum::http::header::{AUTHORIZATION, RETRY_AFTER};
use axum::http::{HeaderMap, HeaderValue, StatusCode};
use axum::middleware::Next;
use axum::response::Response;
use std::collections::HashMap;
use std::sync::{Mutex, PoisonError};
use std::time::Duration;
use tokio::sync::Semaphore;

/// Files, prints and searches of everything: each costs as much as so many saves, and few are made at a time.
const COSTLY: &[&str] = &[
    "/table.csv",
    "/counts.csv",
    "/packets.csv",
    "/packets/mcpd.csv",
    "/plan.csv",
    "/shopping.csv",
    "/clubs/table.zip",
    "/labels/print",
    "/cards/print",
    "/plan/print",
    "/trays/{id}/sheet",
    "/table/report",
    "/find",
];
const COSTLY_WEIGHT: i64 = 10;
const COSTLY_AT_ONCE: usize = 2;
/// So many pages are made at a time. Each holds what it read; thousands begun at once would take gigabytes and be no sooner
/// done. Enough that pages which wait for a large club's first table keep no others waiting.
const PAGES_AT_ONCE: usize = 400;
/// How long a request waits for its turn.
const PATIENCE: Duration = Duration::from_secs(10);
/// A household or club behind one address may go so many times as fast as one member.
const MEMBERS_OF_ADDRESS: i64 = 10;
const SECOND: i64 = 1_000_000;
/// How long one would have to go at full pace to use up what may be used up at once; in microseconds, as all here.
const BURST: i64 = 60 * SECOND;
/// Senders kept in memory at most.
const KEPT: usize = 20_000;

/// When each sender will have used up no more than its share, since 1970. In memory only.
#[derive(Debug)]
pub struct Pace {
    even_at: Mutex<HashMap<String, i64>>,
    saves_a_minute: i64,
    pub costly: Semaphore,
    pages: Semaphore,
}

impl Pace {
    /// A pace of `saves_a_minute` for one session.
    pub fn new(saves_a_minute: u32) -> Self {
        let saves_a_minute = i64::from(saves_a_minute.max(1));
        let (costly, pages) = (Semaphore::new(COSTLY_AT_ONCE), Semaphore::new(PAGES_AT_ONCE));
        Self { even_at: Mutex::default(), saves_a_minute, costly, pages }
    }

    /// Takes the weight of a request from all of its senders, each with the number of members it may stand for.
    /// `Err` holds the seconds to wait; then nothing is taken.
    fn take(&self, senders: &[(String, i64)], weight: i64, now: At) -> Result<(), i64> {
        let now = now.0 * SECOND;
        let mut even_at = self.even_at.lock().unwrap_or_else(PoisonError::into_inner);
        let after = |(sender, members): &(String, i64)| {
            let cost = weight * 60 * SECOND / (self.saves_a_minute * members);
            // later than any burst: the clock ran ahead when it was noted
            let noted = even_at.get(sender).copied().filter(|at| *at <= now + BURST);
            let at = noted.map_or(now, |at| now.max(at));
            (sender.clone(), at + cost)
        };
        let taken: Vec<(String, i64)> = senders.iter().map(after).collect();
        let over = taken.iter().map(|(_, at)| at - now - BURST).max().unwrap_or(0);
        if over > 0 {
            return Err((over + SECOND - 1) / SECOND);
        }
        if even_at.len() >= KEPT {
            even_at.retain(|_, at| *at > now);
        }
        if even_at.len() < KEPT {
            even_at.extend(taken);
        }
        Ok(())
    }
}

/// Holds a sender back who goes too fast, and lets so many pages and few costly requests be worked on at a time.
pub async fn keep(State(app): State<App>, Address(from): Address, request: Request, next: Next) -> Response {
    let route = request.extensions().get::<MatchedPath>().map_or("", MatchedPath::as_str);
    let costly = COSTLY.contains(&route);
    if !costly && request.method().is_safe() {
        return in_turn(&app.pace.pages, request, next).await;
    }
    let weight = if costly { COSTLY_WEIGHT } else { 1 };
    if let Err(seconds) = app.pace.take(&senders(&app, request.headers(), from), weight, app.now()) {
        return wait(StatusCode::TOO_MANY_REQUESTS, seconds);
    }
    if !costly {
        return next.run(request).await;
    }
    in_turn(&app.pace.costly, request, next).await
}

async fn in_turn(turns: &Semaphore, request: Request, next: Next) -> Response {
    match tokio::time::timeout(PATIENCE, turns.acquire()).await {
        Ok(Ok(_turn)) => next.run(request).await,
        _ => wait(StatusCode::SERVICE_UNAVAILABLE, 5),
    }
}

fn senders(app: &App, headers: &HeaderMap, from: String) -> Vec<(String, i64)> {
    let bearer = headers.get(AUTHORIZATION).and_then(|v| v.to_str().ok()).map(str::to_owned);
    let own = session::token(app, headers).or(bearer).map(|secret| (session::hash(&secret), 1));
    own.into_iter().chain([(format!("address {from}"), MEMBERS_OF_ADDRESS)]).collect()
}

fn wait(status: StatusCode, seconds: i64) -> Response {
    let mut response = page::error(status, t!("web-busy-title"), t!("web-busy"));
    response.headers_mut().insert(RETRY_AFTER, HeaderValue::from(seconds));
    response
}

#[cfg(test)]
mod tests {
    use super::*;

    fn jo() -> Vec<(String, i64)> {
        vec![("jo".into(), 1), ("shed".into(), 10)]
    }

    #[test]
    fn a_burst_passes_and_then_the_pace_holds() {
        let pace = Pace::new(600);
        let passed = (0..1000).filter(|_| pace.take(&jo(), 1, At(100)).is_ok()).count();
        assert_eq!(passed, 600);
        assert_eq!(pace.take(&jo(), 1, At(100)), Err(1));
        let passed = (0..1000).filter(|_| pace.take(&jo(), 1, At(102)).is_ok()).count();
        assert_eq!(passed, 20, "ten a second afterwards");
        let passed = (0..1000).filter(|_| pace.take(&jo(), COSTLY_WEIGHT, At(200)).is_ok()).count();
        assert_eq!(passed, 60);
        assert_eq!(pace.take(&jo(), COSTLY_WEIGHT, At(200)), Err(1));
    }

    #[test]
    fn an_address_is_held_back_whatever_sessions_it_makes_up() {
        let pace = Pace::new(600);
        let made_up = |n: i64| vec![(format!("made up {n}"), 1), ("shed".into(), 10)];
        let passed = (0..9000).filter(|n| pace.take(&made_up(*n), 1, At(100)).is_ok()).count();
        assert_eq!(passed, 6000);
        assert_eq!(pace.take(&[("kim".into(), 1), ("home".into(), 10)], 1, At(100)), Ok(()));
    }
}
