use std::path::{Path, PathBuf};

/// An address pattern of the app, as its URL tables name it.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Route {
    pub path: String,
    pub get: bool,
    pub post: bool,
}

/// Every `.route("...", ...)` in the server's text, so that no route can be forgotten.
pub fn all() -> Vec<Route> {
    let mut found: Vec<Route> = sources("server", "rs").iter().flat_map(|(_, text)| routes(text)).collect();
    found.sort();
    assert!(found.len() > 10, "the URL tables are read");
    found
}

fn routes(text: &str) -> Vec<Route> {
    let calls = text.split(".route(").skip(1);
    calls.filter_map(|rest| route(rest.trim_start().strip_prefix('"')?)).collect()
}

fn route(rest: &str) -> Option<Route> {
    let (path, rest) = rest.split_once('"')?;
    let mut depth = 1;
    let end = rest.find(|c| {
        depth += i32::from(c == '(') - i32::from(c == ')');
        depth == 0
    })?;
    let methods = &rest[..end];
    Some(Route { path: path.to_owned(), get: methods.contains("get("), post: methods.contains("post(") })
}

/// Every file with this extension under a folder of the repository, with its text; paths from the repository's
/// root.
pub fn sources(folder: &str, extension: &str) -> Vec<(PathBuf, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut found = Vec::new();
    let mut folders = vec![root.join(folder)];
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|e| e == extension) {
                let text = std::fs::read_to_string(&path).unwrap();
                found.push((path.strip_prefix(root).unwrap().to_owned(), text));
            }
        }
    }
    found.sort();
    found
}
