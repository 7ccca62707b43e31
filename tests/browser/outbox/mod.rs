//! Counts made without signal: kept on the phone, sent once.

mod damaged;
mod days;
mod walks;

use crate::journey;
use crate::support::{Phone, Program};

/// The journey up to three bags on paper: a signed-in grower on `phone`, and the addresses of the bags.
async fn on_paper(phone: &mut Phone, program: &Program) -> Vec<String> {
    phone.pictures = false;
    let invitation = journey::set_up_and_invite(phone, program).await;
    journey::join(phone, &invitation).await;
    journey::import(phone).await;
    let trials = journey::start(phone).await;
    journey::soak(phone, program, &trials).await;
    let bags = journey::paper(phone, program, &trials).await;
    phone.pictures = true;
    bags
}

/// Waits until `script` gives true on the page.
async fn until(phone: &Phone, what: &str, script: &str) {
    let mut last = serde_json::Value::Null;
    for _ in 0..600 {
        last = phone.ask(script).await;
        if last == true {
            return;
        }
        tokio::time::sleep(std::time::Duration::from_millis(200)).await;
    }
    panic!("{what} never came, but {last}, on {}: {}", phone.path().await, phone.text().await);
}

/// Waits until the worker has fetched `paths` ahead.
async fn kept(phone: &Phone, paths: &[String]) {
    let paths = serde_json::to_string(paths).unwrap();
    let script = format!(
        "for (const path of {paths}) if (!await caches.match(path)) return path; return Boolean(navigator.serviceWorker.controller);"
    );
    until(phone, "pages kept on the phone", &script).await;
}

/// Waits until nothing waits on the phone.
async fn all_sent(phone: &Phone) {
    until(phone, "an empty outbox", "return (await outbox.all()).every(e => e.state !== 'waiting');").await;
}
