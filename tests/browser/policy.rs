//! What the browser holds against our pages: breaches of their policy, errors of their scripts, requests to anybody else.
//! `every_page` asks the same of every page; here it is shown that it would be heard.

use crate::support::{Phone, Program};
use std::time::Duration;

const PLACES: [&str; 14] = [
    "/",
    "/looks",
    "/packets",
    "/plan",
    "/trays",
    "/table",
    "/rings",
    "/routines",
    "/members",
    "/me",
    "/labels",
    "/cards",
    "/outbox",
    "/calculators",
];

/// An inline script and a picture from another host.
const BREACH: &str = "const script = document.createElement('script');
    script.textContent = 'self.ran = true';
    const picture = new Image();
    picture.src = 'http://192.0.2.1/seen.png';
    document.body.append(script, picture);
    return '';";

#[tokio::test(flavor = "multi_thread")]
async fn the_browser_holds_nothing_against_the_main_places_and_would_be_heard() {
    let program = Program::demo().await;
    let phone = Phone::open(&program.base).await;
    phone.sign_in("agnes").await;
    for path in PLACES {
        phone.goto(path).await;
        assert_eq!(phone.heard().await, "", "{path}");
    }
    phone.reads(BREACH, "").await;
    let mut heard = String::new();
    for _ in 0..100 {
        heard = phone.heard().await;
        if heard.contains("policy script-src") && heard.contains("policy img-src") {
            break;
        }
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
    assert!(heard.contains("policy script-src") && heard.contains("policy img-src"), "{heard}");
    assert_eq!(phone.reads("return String(self.ran)", "").await, "undefined", "the policy holds");
    phone.close().await;
}
