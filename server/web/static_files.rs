use axum::Router;
use axum::extract::Path;
use axum::http::header::{CACHE_CONTROL, CONTENT_TYPE};
use axum::response::{IntoResponse, Response};
use axum::routing::get;
use sha2::{Digest, Sha256};
use std::sync::LazyLock;

use crate::app::App;
use crate::error::AppError;

struct File {
    name: &'static str,
    mime: &'static str,
    bytes: &'static [u8],
}

const FILES: &[File] = &[
    File { name: "app.css", mime: "text/css; charset=utf-8", bytes: include_bytes!("../../static/app.css") },
    File {
        name: "print.css",
        mime: "text/css; charset=utf-8",
        bytes: include_bytes!("../../static/print.css"),
    },
    File {
        name: "app.js",
        mime: "text/javascript; charset=utf-8",
        bytes: concat!(
            include_str!("../../static/app.js"),
            include_str!("../../static/outbox.js"),
            include_str!("../../static/outbox-forms.js"),
            include_str!("../../static/outbox-pages.js"),
        )
        .as_bytes(),
    },
    File {
        name: "passkeys.js",
        mime: "text/javascript; charset=utf-8",
        bytes: include_bytes!("../../static/passkeys.js"),
    },
    File {
        name: "mark.svg",
        mime: "image/svg+xml; charset=utf-8",
        bytes: include_bytes!("../../static/mark.svg"),
    },
];

/// The service worker, served apart from the static files; it sends the outbox too.
pub const WORKER: &str = concat!(include_str!("../../static/outbox.js"), include_str!("../../static/sw.js"));

/// A part of every static address, so that a new build is never served from an old cache.
static BUILD: LazyLock<String> = LazyLock::new(|| {
    let mut hash = Sha256::new();
    for file in FILES {
        hash.update(file.bytes);
    }
    hash.update(WORKER);
    data_encoding::HEXLOWER.encode(&hash.finalize()[..6])
});

static CSS: LazyLock<String> = LazyLock::new(|| address("app.css"));
static PRINT: LazyLock<String> = LazyLock::new(|| address("print.css"));
static JS: LazyLock<String> = LazyLock::new(|| address("app.js"));
static PASSKEYS: LazyLock<String> = LazyLock::new(|| address("passkeys.js"));

fn address(name: &str) -> String {
    format!("/static/{}/{name}", *BUILD)
}

pub fn css() -> &'static str {
    &CSS
}

pub fn print_css() -> &'static str {
    &PRINT
}

pub fn js() -> &'static str {
    &JS
}

/// For pages where passkeys are added or used.
pub fn passkeys_js() -> &'static str {
    &PASSKEYS
}

/// The name of this build in static addresses.
pub fn build() -> &'static str {
    &BUILD
}

pub fn routes() -> Router<App> {
    Router::new().route("/static/{build}/{name}", get(serve))
}

async fn serve(Path((_, name)): Path<(String, String)>) -> Result<Response, AppError> {
    let file = FILES.iter().find(|f| f.name == name).ok_or(AppError::NotFound)?;
    let headers = [(CONTENT_TYPE, file.mime), (CACHE_CONTROL, "public, max-age=31536000, immutable")];
    Ok((headers, file.bytes).into_response())
}
