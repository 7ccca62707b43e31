//! What is tried with any bytes: one plain function for each thing that Hilum reads. libFuzzer calls them
//! (`tests/fuzz/run`), and so does the short run of `cargo test` (`tests/endure/fuzz.rs`).
//!
//! A function panics where the app would, and where what was read breaks a rule of its own.

mod club;
mod files;
mod forms;
mod lists;
mod names;
mod numbers;
mod requests;

/// A function that takes any bytes, by its name.
pub struct Target {
    pub name: &'static str,
    pub run: fn(&[u8]),
    /// The longest input that is made, in bytes.
    pub longest: usize,
}

const fn target(name: &'static str, run: fn(&[u8]), longest: usize) -> Target {
    Target { name, run, longest }
}

/// All of them, the fastest first.
pub const ALL: &[Target] = &[
    target("marks", names::marks, 64),
    target("names", names::names, 160),
    target("days", lists::days, 48),
    target("forms", forms::forms, 1024),
    target("models", forms::models, 2048),
    target("reckon", numbers::reckon, 2048),
    target("analyse", numbers::analyse, 4096),
    target("sheets", lists::sheets, 16_384),
    target("clubs", lists::clubs, 16_384),
    target("uploads", files::uploads, 4096),
    target("photos", files::photos, 4096),
    target("imports", requests::imports, 4096),
    target("pages", requests::pages, 512),
    target("posts", requests::posts, 2048),
    target("api", requests::api, 2048),
];

/// What stands before the first line's end, and what comes after it.
fn first_line(data: &[u8]) -> (&[u8], &[u8]) {
    let end = data.iter().position(|b| *b == b'\n').unwrap_or(data.len());
    (&data[..end], data.get(end + 1..).unwrap_or_default())
}
