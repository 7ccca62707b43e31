//! GET /sw.js

use crate::app::App;
use crate::web::static_files;
use axum::extract::State;
use axum::http::HeaderName;
use axum::http::header::{CACHE_CONTROL, CONTENT_TYPE};
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

/// The worker of this build, or the one that ends workers where the host switched them off.
pub async fn script(State(app): State<App>) -> Response {
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
    format!("self.BUILD = {build};\n{}", static_files::WORKER)
}
