//! What the program is built of.

use std::collections::{BTreeMap, BTreeSet};

const ROOT: &str = env!("CARGO_MANIFEST_DIR");

/// Crates that call other hosts or send mail, and other people's C libraries for encryption.
const NONE_OF: &[&str] = &[
    "reqwest",
    "ureq",
    "isahc",
    "curl",
    "attohttpc",
    "minreq",
    "surf",
    "awc",
    "hyper-rustls",
    "hyper-tls",
    "native-tls",
    "openssl",
    "openssl-sys",
    "lettre",
    "tungstenite",
    "tokio-tungstenite",
    "hickory-resolver",
    "opentelemetry",
    "sentry",
];

fn read(path: &str) -> String {
    std::fs::read_to_string(format!("{ROOT}/{path}")).unwrap()
}

/// The names under `[dependencies]` of a manifest.
fn normal(manifest: &str) -> Vec<String> {
    let text = read(manifest);
    let part = text.split("\n[dependencies]\n").nth(1).unwrap().split("\n[").next().unwrap().to_owned();
    part.lines().filter_map(|line| line.split_once('=')).map(|(name, _)| name.trim().to_owned()).collect()
}

/// Of each package of the lock file, the names that it depends on.
fn locked() -> BTreeMap<String, BTreeSet<String>> {
    let mut found: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for package in read("Cargo.lock").split("[[package]]").skip(1) {
        let name = package.split('"').nth(1).unwrap().to_owned();
        let list = package.split("dependencies = [").nth(1).unwrap_or_default().split(']').next().unwrap();
        let names = list.split('"').skip(1).step_by(2).map(|d| d.split(' ').next().unwrap().to_owned());
        found.entry(name).or_default().extend(names);
    }
    found
}

/// Everything that the program itself is built of; what only its tests use is left out.
fn tree() -> BTreeSet<String> {
    let locked = locked();
    let mut ahead =
        ["", "server/calc/", "server/memory/"].map(|at| normal(&format!("{at}Cargo.toml"))).concat();
    let mut found = BTreeSet::new();
    while let Some(name) = ahead.pop() {
        let below = locked.get(&name).unwrap_or_else(|| panic!("{name} is not in the lock file"));
        if !name.starts_with("hilum") && found.insert(name) {
            ahead.extend(below.iter().cloned());
        }
    }
    found
}

#[test]
fn nothing_in_the_program_can_call_another_host() {
    let tree = tree();
    assert!(tree.len() > 100 && tree.contains("axum") && tree.contains("sqlx"), "{} crates", tree.len());
    let found: Vec<_> = NONE_OF.iter().filter(|name| tree.contains(**name)).collect();
    assert!(found.is_empty(), "{found:?}");
    assert!(locked().contains_key("reqwest"), "the tests' own client is seen, so the names are read");
}

#[test]
fn our_own_code_is_safe_and_packages_come_from_one_place() {
    assert!(read("Cargo.toml").contains("unsafe_code = \"forbid\""));
    for manifest in ["Cargo.toml", "server/calc/Cargo.toml"] {
        assert!(read(manifest).contains("[lints]\nworkspace = true"), "{manifest}");
    }
    let allocator = read("server/memory/src/lib.rs");
    assert_eq!(allocator.matches("unsafe {").count(), 1, "the allocator's option is the only exception");
    assert!(read("server/memory/Cargo.toml").contains("unsafe_code = \"deny\""));
    let sources: BTreeSet<String> =
        read("Cargo.lock").lines().filter(|l| l.starts_with("source = ")).map(str::to_owned).collect();
    assert_eq!(sources.len(), 1, "{sources:?}");
    let rules = read("deny.toml");
    for rule in ["unknown-registry = \"deny\"", "unknown-git = \"deny\"", "wildcards = \"deny\"", "allow = ["]
    {
        assert!(rules.contains(rule), "{rule}");
    }
}
