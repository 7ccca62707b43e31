use crate::support::routes::sources;
use std::collections::{BTreeMap, BTreeSet};

/// What every module may use, whatever its place.
const ALWAYS: &[&str] = &["args", "db", "error", "texts"];

/// Which modules a module may use besides those. One line each; a module that is not here fails the test.
const BELOW: &[(&str, &[&str], &str)] = &[
    ("db", &["metrics"], "knows nothing of the rest; counts its waits"),
    ("metrics", &[], "counts only"),
    ("texts", &[], "what pages say in each language; below everything that says it"),
    ("clock", &[], "gives moments, which are db::ids::At"),
    ("config", &["clock"], "a setting says which clock"),
    ("leases", &[], "below every feature: jobs of one process at a time"),
    ("marks", &[], "below every feature: packets, bags and trays take theirs here"),
    ("audit", &[], "below every feature: each notes its acts here"),
    ("manual", &["app", "web"], "the help pages; features quote from it what it says of a number"),
    ("charts", &["web"], "pure drawing; says numbers as pages do"),
    ("error", &["web", "accounts"], "draws the error page and knows where to sign in"),
    (
        "notebook",
        &["marks", "accounts", "web", "trays"],
        "says moments, seeds and cells as pages do, in the club's time zone",
    ),
    (
        "web",
        &["app", "accounts", "config"],
        "handlers' state; says where to sign in; believes proxies that are set",
    ),
    ("accounts", &["app", "web", "marks", "audit", "config"], "letters are folded like marks"),
];

/// The features, each above those before it.
const FEATURES: &[&str] = &[
    "accounts",
    "routines",
    "stock",
    "rates",
    "outlook",
    "photos",
    "trials",
    "bags",
    "cards",
    "trays",
    "phone",
    "labels",
    "calendar",
    "rings",
    "compare",
    "calculators",
    "transfer",
    "planning",
    "own",
    "upkeep",
    "backups",
    "host",
    "api",
    "commands",
];

/// What features may use that are not features.
const SHARED: &[&str] =
    &["app", "audit", "web", "charts", "leases", "manual", "marks", "metrics", "notebook", "config", "clock"];

/// The places where everything comes together.
const ROOTS: &[&str] = &["app", "lib", "main", "link"];

fn may_use(module: &str) -> Option<BTreeSet<&'static str>> {
    let mut allowed: BTreeSet<&str> = ALWAYS.iter().copied().collect();
    if let Some((_, more, _)) = BELOW.iter().find(|(name, _, _)| *name == module) {
        allowed.extend(more.iter());
        return Some(allowed);
    }
    let place = FEATURES.iter().position(|f| *f == module)?;
    allowed.extend(SHARED);
    allowed.extend(&FEATURES[..place]);
    Some(allowed)
}

/// Every `crate::a::b` in the text, in lists too, as (a, b); b is empty where there is none.
fn uses(text: &str) -> Vec<(String, String)> {
    let code: Vec<&str> = text.lines().filter(|l| !l.trim_start().starts_with("//")).collect();
    let code = code.join("\n").replace("$crate::", "");
    code.split("crate::").skip(1).flat_map(paths).collect()
}

/// The paths that follow `crate::`, down to their second part.
fn paths(rest: &str) -> Vec<(String, String)> {
    let parts = |rest: &str| -> Vec<String> { group(rest).iter().map(|s| (*s).to_owned()).collect() };
    parts(rest)
        .iter()
        .flat_map(|first| {
            let (name, more) = first.split_once("::").unwrap_or((first, ""));
            let seconds = parts(more);
            let word = |s: &String| s.split("::").next().unwrap_or_default().to_owned();
            seconds.iter().map(|s| (name.to_owned(), word(s))).collect::<Vec<_>>()
        })
        .collect()
}

/// The members of `{a, b::c}` at the start of `rest`, or the one path that stands there.
fn group(rest: &str) -> Vec<&str> {
    let Some(inner) = rest.strip_prefix('{') else {
        let mut depth = 0;
        let end = rest.find(|c: char| {
            depth += i32::from(c == '{') - i32::from(c == '}');
            depth < 0 || depth == 0 && !(c.is_alphanumeric() || "_:}".contains(c))
        });
        return vec![rest[..end.unwrap_or(rest.len())].trim()];
    };
    let (mut depth, mut start, mut found) = (0, 0, Vec::new());
    for (at, c) in inner.char_indices() {
        match c {
            '{' => depth += 1,
            '}' if depth == 0 => {
                found.push(inner[start..at].trim());
                break;
            }
            '}' => depth -= 1,
            ',' if depth == 0 => {
                found.push(inner[start..at].trim());
                start = at + 1;
            }
            _ => {}
        }
    }
    found.retain(|part| !part.is_empty());
    found
}

#[test]
fn paths_are_read_in_lists_too() {
    let read = |text| uses(text).into_iter().map(|(a, b)| format!("{a}/{b}")).collect::<Vec<_>>().join(" ");
    assert_eq!(read("use crate::app::App;"), "app/App");
    assert_eq!(
        read("use crate::{args, stock::{store, model::Lot}, web};"),
        "args/ stock/store stock/model web/"
    );
    assert_eq!(
        read("use crate::stock::{self, pages::list};\nf(crate::bags::store::x(a, b))"),
        "stock/self stock/pages bags/store"
    );
    assert_eq!(read("// crate::stock::pages\n"), "");
}

#[test]
fn modules_use_only_what_stands_below_them() {
    let mut faults = Vec::new();
    for (path, text) in sources("server", "rs") {
        let inside: Vec<&str> = path.iter().skip(1).filter_map(|p| p.to_str()).collect();
        let module = inside[0].trim_end_matches(".rs");
        if ["calc", "memory"].contains(&module) || ROOTS.contains(&module) {
            continue;
        }
        let Some(allowed) = may_use(module) else {
            faults.push(format!("{module} is not in the table of this test: which modules may it use?"));
            continue;
        };
        for (used, part) in uses(&text) {
            let file = path.display();
            if used != module && !allowed.contains(used.as_str()) {
                faults.push(format!("{file}: {module} may not use {used}"));
            }
            if used != module && ["pages", "actions"].contains(&part.as_str()) {
                faults
                    .push(format!("{file}: {used}::{part} belongs to {used} alone; use its model or store"));
            }
        }
    }
    faults.dedup();
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// What a part of a feature may not name: a model knows no database and no page, a store no page.
const INSIDE: &[(&str, &[&str])] = &[
    ("model", &["axum::", "askama::", "Conn", "super::store", "super::pages", "super::actions"]),
    ("store", &["axum::", "askama::", "super::pages", "super::actions"]),
];

#[test]
fn models_know_no_database_and_stores_no_pages() {
    let mut faults = Vec::new();
    let mut read = 0;
    for (path, text) in sources("server", "rs") {
        let parts: Vec<&str> =
            path.iter().filter_map(|p| p.to_str()).map(|p| p.trim_end_matches(".rs")).collect();
        let Some((part, barred)) = INSIDE.iter().find(|(part, _)| parts.get(2) == Some(part)) else {
            continue;
        };
        read += 1;
        let code = text.split("#[cfg(test)]").next().unwrap_or_default();
        let words: BTreeSet<&str> = code.split(|c: char| !c.is_alphanumeric() && c != '_').collect();
        let named = |name: &str| if name.contains(':') { code.contains(name) } else { words.contains(name) };
        faults.extend(
            barred.iter().filter(|n| named(n)).map(|n| format!("{}: a {part} names {n}", path.display())),
        );
    }
    assert!(faults.is_empty() && read > 20, "{read} read\n{}", faults.join("\n"));
}

/// The compiler does not tell of a public item that nobody uses.
#[test]
fn every_public_item_is_used() {
    let files: Vec<_> = [("server", "rs"), ("tests", "rs"), ("templates", "html")]
        .iter()
        .flat_map(|(folder, extension)| sources(folder, extension))
        .collect();
    let mut times: BTreeMap<&str, usize> = BTreeMap::new();
    for word in files.iter().flat_map(|(_, text)| text.split(|c: char| !c.is_alphanumeric() && c != '_')) {
        *times.entry(word).or_default() += 1;
    }
    let server = files.iter().filter(|(path, _)| path.starts_with("server"));
    let items: Vec<_> =
        server.flat_map(|(path, text)| text.lines().filter_map(item).map(move |i| (path, i))).collect();
    let unused: Vec<_> = items.iter().filter(|(_, item)| times[item] == 1).collect();
    assert!(unused.is_empty() && items.len() > 1000, "{} items; nobody uses {unused:#?}", items.len());
}

/// The name of the public item that a line begins.
fn item(line: &str) -> Option<&str> {
    let rest = line.trim_start().strip_prefix("pub")?;
    let rest = rest.strip_prefix("(super)").or_else(|| rest.strip_prefix("(crate)")).unwrap_or(rest);
    let mut words = rest.strip_prefix(' ')?.split(|c: char| !c.is_alphanumeric() && c != '_');
    let kinds = ["fn", "struct", "enum", "static", "type", "trait"];
    let first = words.find(|w| !["async", "const"].contains(w))?;
    if kinds.contains(&first) {
        return words.next();
    }
    // a constant: "pub const NAME"
    rest.starts_with(" const ").then_some(first)
}

#[test]
fn public_items_are_read_from_lines() {
    let read =
        ["pub fn a(", "    pub(super) async fn b(", "pub const C: u8 = 1;", "pub const fn d(", "pub mod e;"]
            .map(item);
    assert_eq!(read, [Some("a"), Some("b"), Some("C"), Some("d"), None]);
}

#[test]
fn files_stay_short() {
    let kinds = [
        ("server", "rs"),
        ("tests", "rs"),
        ("templates", "html"),
        ("static", "css"),
        ("static", "js"),
        ("migrations", "sql"),
        ("templates", "md"),
        ("templates", "ftl"),
    ];
    let files: Vec<_> = kinds.iter().flat_map(|(folder, extension)| sources(folder, extension)).collect();
    assert!(files.len() > 80);
    let long =
        files.iter().map(|(path, text)| (path, text.lines().count())).filter(|(_, lines)| *lines > 400);
    let long: Vec<String> = long.map(|(path, lines)| format!("{}: {lines} lines", path.display())).collect();
    assert!(long.is_empty(), "split these by noun:\n{}", long.join("\n"));
}
