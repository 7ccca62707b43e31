//! GET /sw.js

use crate::app::App;
use crate::texts;
use crate::web::{scripts, session, static_files};
use axum::extract::State;
use axum::http::header::{CACHE_CONTROL, CONTENT_TYPE};
use axum::http::{HeaderMap, HeaderName};
use axum::response::{IntoResponse, Response};
use serde_json::json;

/// Takes everything back that a worker before kept; counts waiting in the outbox are not its to touch.
const OFF: &str = "'use strict';
self.addEventListener('install', () => self.skipWaiting());
self.addEventListener('activate', event => event.waitUntil((async () => {
  for (const name of await caches.keys()) await caches.delete(name);
  await self.registration.unregister();
})()));
";

/// The worker of this build, or the one that ends workers where the host switched them off. It speaks as the member who
/// is signed in, and where that cannot be told as the browser.
pub async fn script(State(app): State<App>, headers: HeaderMap) -> Response {
    let _ = session::member(&app, &headers).await;
    let text = if app.config.no_offline { OFF.to_owned() } else { worker() };
    let headers = [
        (CONTENT_TYPE, "text/javascript; charset=utf-8"),
        (CACHE_CONTROL, "no-cache"),
        (HeaderName::from_static("service-worker-allowed"), "/"),
    ];
    (headers, text).into_response()
}

fn worker() -> String {
    let files = [static_files::css(), static_files::print_css(), static_files::js(), "/static/0/mark.svg"];
    let build = json!({ "name": static_files::build(), "files": files });
    format!("self.BUILD = {build};\n{}", scripts::worker(texts::spoken()))
}
