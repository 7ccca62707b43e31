//! The program over sockets knows who sends: a proxy on this machine is believed, and so nobody behind it pays for others.
//! Runs within `cargo test --test endure`; there is no long form.

use crate::support::Program;
use reqwest::StatusCode;
use reqwest::header::{CONTENT_TYPE, ORIGIN};

async fn guess(http: &reqwest::Client, base: &str, name: &str, whom: &str) -> StatusCode {
    let body = serde_html_form::to_string([("sign_in", name), ("password", "a wrong password")]).unwrap();
    let request = http.post(format!("{base}/sign-in")).header(ORIGIN, base);
    let request = request.header(CONTENT_TYPE, "application/x-www-form-urlencoded").body(body);
    let request = if whom.is_empty() { request } else { request.header("x-forwarded-for", whom) };
    request.send().await.unwrap().status()
}

#[tokio::test]
async fn throttles_tell_senders_apart() {
    let program = Program::start().await;
    let http = reqwest::Client::new();
    let mut slowed = 0;
    for n in 0..43 {
        let status = guess(&http, &program.base, &format!("nobody {n}"), "203.0.113.9").await;
        slowed += usize::from(status == StatusCode::TOO_MANY_REQUESTS);
    }
    assert_eq!(slowed, 3, "40 tries from one address are free");
    let other = guess(&http, &program.base, "nobody else", "198.51.100.7").await;
    assert_eq!(other, StatusCode::UNPROCESSABLE_ENTITY, "another address behind the proxy is not held up");
    let proxy = guess(&http, &program.base, "nobody at all", "").await;
    assert_eq!(proxy, StatusCode::UNPROCESSABLE_ENTITY, "nor is the proxy itself");
}
