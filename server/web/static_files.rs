use axum::Router;
use axum::extract::Path;
use axum::http::header::{CACHE_CONTROL, CONTENT_TYPE};
use axum::response::{IntoResponse, Response};
use axum::routing::get;
use sha2::{Digest, Sha256};
use std::sync::LazyLock;

use crate::app::App;
use crate::error::AppError;
use crate::texts::{self, Language};
use crate::web::scripts;

struct File {
    name: &'static str,
    mime: &'static str,
    bytes: &'static [u8],
}

const SCRIPT: &str = "text/javascript; charset=utf-8";

const FILES: &[File] = &[
    File { name: "app.css", mime: "text/css; charset=utf-8", bytes: include_bytes!("../../static/app.css") },
    File {
        name: "print.css",
        mime: "text/css; charset=utf-8",
        bytes: include_bytes!("../../static/print.css"),
    },
    File {
        name: "mark.svg",
        mime: "image/svg+xml; charset=utf-8",
        bytes: include_bytes!("../../static/mark.svg"),
    },
];

macro_rules! pictures {
    ($($name:literal),* $(,)?) => {
        &[$(File { name: $name, mime: "image/png", bytes: include_bytes!(concat!("../../static/manual/", $name)) }),*]
    };
}

/// Of the manual; the browser tests take them.
const PICTURES: &[File] = pictures![
    "sign-in.png",
    "due-now.png",
    "soak.png",
    "count.png",
    "looks.png",
    "tray.png",
    "packets.png",
    "table.png",
    "variety.png",
    "sign-in.de.png",
    "due-now.de.png",
    "soak.de.png",
    "count.de.png",
    "looks.de.png",
    "tray.de.png",
    "packets.de.png",
    "table.de.png",
    "variety.de.png",
];

fn files() -> impl Iterator<Item = &'static File> {
    FILES.iter().chain(PICTURES)
}

/// Dots of a picture to a CSS pixel, across and down.
pub const PICTURE_SCALE: u32 = 2;

/// A part of every static address, so that a new build is never served from an old cache.
static BUILD: LazyLock<String> = LazyLock::new(|| {
    let mut hash = Sha256::new();
    for file in files() {
        hash.update(file.bytes);
    }
    for script in scripts::all() {
        hash.update(&script.text);
    }
    hash.update(scripts::worker(Language::English));
    data_encoding::HEXLOWER.encode(&hash.finalize()[..6])
});

static CSS: LazyLock<String> = LazyLock::new(|| address("app.css"));
static PRINT: LazyLock<String> = LazyLock::new(|| address("print.css"));
static JS: LazyLock<[String; 2]> = LazyLock::new(|| script(scripts::APP));
static PASSKEYS: LazyLock<[String; 2]> = LazyLock::new(|| script(scripts::PASSKEYS));

/// The address of a script in each language.
fn script(name: &str) -> [String; 2] {
    Language::ALL.map(|language| address(&scripts::file(name, language)))
}

/// The address of a file of this build.
pub fn address(name: &str) -> String {
    format!("/static/{}/{name}", *BUILD)
}

pub fn css() -> &'static str {
    &CSS
}

pub fn print_css() -> &'static str {
    &PRINT
}

/// In the language of the request.
pub fn js() -> &'static str {
    &JS[texts::spoken() as usize]
}

/// Width and height of a picture in CSS pixels; it is taken with [`PICTURE_SCALE`] dots to each.
pub fn size(name: &str) -> Option<(u32, u32)> {
    let file = PICTURES.iter().find(|f| f.name == name)?;
    // PNG, section 11.2.2: the first chunk begins with both, at byte 16
    let number = |at: usize| Some(u32::from_be_bytes(file.bytes.get(at..at + 4)?.try_into().ok()?));
    Some((number(16)? / PICTURE_SCALE, number(20)? / PICTURE_SCALE))
}

/// For pages where passkeys are added or used, in the language of the request.
pub fn passkeys_js() -> &'static str {
    &PASSKEYS[texts::spoken() as usize]
}

/// The name of this build in static addresses.
pub fn build() -> &'static str {
    &BUILD
}

pub fn routes() -> Router<App> {
    Router::new().route("/static/{build}/{name}", get(serve))
}

async fn serve(Path((_, name)): Path<(String, String)>) -> Result<Response, AppError> {
    let script = scripts::all().iter().find(|s| s.name == name).map(|s| (SCRIPT, s.text.as_bytes()));
    let file = || files().find(|f| f.name == name).map(|f| (f.mime, f.bytes));
    let (mime, bytes) = script.or_else(file).ok_or(AppError::NotFound)?;
    let headers = [(CONTENT_TYPE, mime), (CACHE_CONTROL, "public, max-age=31536000, immutable")];
    Ok((headers, bytes).into_response())
}
