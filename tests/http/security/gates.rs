//! What must not stand in the sources, and where the few exceptions are.

use crate::support::routes::sources;
use std::path::Path;

/// Every line of these files that holds `part`, as `path: line`.
fn lines(folder: &str, extension: &str, part: &str) -> Vec<String> {
    let files = sources(folder, extension);
    assert!(!files.is_empty(), "{folder} has no .{extension}");
    let with = |path: &Path, text: &str| -> Vec<String> {
        let found = text.lines().map(str::trim).filter(|l| l.contains(part) && !l.starts_with("//"));
        found.map(|line| format!("{}: {line}", path.display())).collect()
    };
    files.iter().flat_map(|(path, text)| with(path, text)).collect()
}

/// Templates that show what is drawn already, and how often; the drawing escapes every text itself
/// (`names_cannot_break_out_of_the_drawing` and its like). The manual's HTML is made of Markdown in these sources.
const DRAWN: &[(&str, usize)] = &[
    ("templates/cards/print.html", 1),
    ("templates/compare/variety.html", 1),
    ("templates/labels/sheet.html", 1),
    ("templates/labels/test.html", 1),
    ("templates/manual/_body.html", 1),
    ("templates/manual/_how.html", 1),
    ("templates/rates/table.html", 2),
    ("templates/rings/labels.html", 1),
    ("templates/trays/sheet.html", 2),
    ("templates/trials/_rooting.html", 1),
];

#[test]
fn only_finished_drawings_are_shown_without_escaping() {
    let found =
        ["|safe", "| safe", "|escape(\"none\")"].map(|part| lines("templates", "html", part)).concat();
    let uses = |file: &str| found.iter().filter(|line| line.starts_with(&format!("{file}:"))).count();
    for (file, times) in DRAWN {
        assert_eq!(uses(file), *times, "{file}");
    }
    assert_eq!(found.len(), DRAWN.iter().map(|(_, times)| times).sum::<usize>(), "{found:#?}");
    assert_eq!(lines("server", "rs", "escape = \"none\""), Vec::<String>::new());
    let html = lines("server", "rs", "Html(");
    let drawn = ["server/web/page.rs", "server/web/held.rs", "server/manual/render.rs"];
    assert!(html.iter().all(|line| drawn.iter().any(|file| line.starts_with(file))), "{html:#?}");
}

#[test]
fn scripts_make_no_markup_from_text_and_run_no_text() {
    for part in [
        "innerHTML",
        "outerHTML",
        "insertAdjacentHTML",
        "document.write",
        "createContextualFragment",
        "DOMParser",
        "eval(",
        "new Function",
        "setTimeout('",
        "setTimeout(\"",
        "setInterval('",
        "setInterval(\"",
        "javascript:",
        "addEventListener('paste'",
        "onpaste",
        "document.cookie",
        "console.",
        "http://",
        "https://",
        "importScripts",
        " == ",
        " != ",
        "__proto__",
    ] {
        assert_eq!(lines("static", "js", part), Vec::<String>::new(), "{part}");
    }
}

#[test]
fn the_workers_messages_come_from_our_own_pages() {
    // a worker hears only clients of its own origin (Service Workers, section 4.6.4); pages listen to nobody
    let heard = lines("static", "js", "addEventListener('message'");
    assert!(heard.iter().all(|line| line.starts_with("static/sw.js")), "{heard:#?}");
    assert_eq!(lines("static", "js", "onmessage").iter().filter(|l| !l.contains("channel")).count(), 0);
}

#[test]
fn the_server_starts_no_program_and_calls_no_other() {
    for part in
        ["process::Command", "Command::new", "reqwest", "UdpSocket", "lookup_host", "hyper::client", "smtp"]
    {
        assert_eq!(lines("server", "rs", part), Vec::<String>::new(), "{part}");
    }
    let calls = lines("server", "rs", "TcpStream");
    let own = calls.iter().all(|line| line.starts_with("server/host/ask.rs"));
    assert!(own, "host-check and ready ask their own address: {calls:#?}");
}

#[test]
fn a_local_socket_is_for_the_service_manager_alone() {
    let told = lines("server", "rs", "UnixDatagram");
    assert!(
        !told.is_empty() && told.iter().all(|line| line.starts_with("server/commands/manager.rs")),
        "{told:#?}"
    );
}

#[test]
fn statements_are_texts_of_the_sources() {
    for part in ["AssertSqlSafe", ".leak()", "Box::leak", "QueryBuilder"] {
        let found = lines("server", "rs", part);
        assert!(found.iter().all(|line| line.starts_with("server/db/")), "{part}: {found:#?}");
    }
    // letters of marks are letters alone
    let patterns = hilum::all_sql().into_iter().filter(|sql| sql.to_uppercase().contains(" LIKE "));
    assert_eq!(patterns.collect::<Vec<_>>(), ["SELECT key FROM marks WHERE key LIKE $1 ORDER BY key"]);
    let pattern = lines("server", "rs", "Regex");
    assert_eq!(pattern, Vec::<String>::new());
}

/// Words, which are part of no sum, go when a member has everything erased.
const ERASED: [&str; 3] = [
    "UPDATE voids SET why = 'erased' WHERE by_member = $1 AND why <> ''",
    "UPDATE entries SET note = '' WHERE by_member = $1 AND note <> ''",
    "UPDATE bag_events SET place = '' WHERE entry_id IN (SELECT id FROM entries WHERE by_member = $1)",
];

#[test]
fn no_entry_is_changed_or_removed_once_it_is_written() {
    let entries =
        ["entries", "voids", "looks", "ledger", "closings", "trial_seeds", "bag_seeds", "bag_events"];
    for sql in hilum::all_sql() {
        let words: Vec<String> = sql.split_whitespace().map(str::to_lowercase).collect();
        for (n, pair) in words.windows(2).enumerate() {
            let changes = pair[0] == "update" || n == 1 && words[0] == "delete";
            assert!(!changes || !entries.contains(&pair[1].as_str()) || ERASED.contains(&sql), "{sql}");
        }
    }
}

#[test]
fn digests_are_sha_256_and_passwords_argon2id() {
    for part in ["md5", "Md5", "sha1", "Sha1", "rand::", "StdRng", "thread_rng"] {
        let found = lines("server", "rs", part);
        let reckoned = found.iter().all(|line| line.starts_with("server/calc/"));
        assert!(reckoned, "{part}: {found:#?}");
    }
    let hashing = lines("server/accounts", "rs", "Argon2");
    assert!(hashing.iter().any(|line| line.starts_with("server/accounts/passwords.rs")), "{hashing:#?}");
    let floor = lines("server/accounts", "rs", "m=19456,t=2,p=1");
    assert!(!floor.is_empty(), "the hash that stands for nobody costs what others cost");
}

#[test]
fn fields_for_passwords_let_managers_and_paste_work() {
    let fields = lines("templates", "html", "f::password(");
    assert!(fields.len() >= 4, "{fields:#?}");
    for field in fields {
        let named = field.contains("\"current-password\"") || field.contains("\"new-password\"");
        assert!(named, "{field}");
    }
    assert!(lines("templates", "html", "onpaste").is_empty());
    assert!(!lines("templates/accounts", "html", "autocomplete=\"username\"").is_empty());
}

#[test]
fn plain_fields_take_no_markup_and_no_mail_goes_out() {
    assert!(lines("templates", "html", "contenteditable").is_empty());
    for part in ["<object", "<embed", "<applet", "<iframe", "mailto:", "target=\"_blank\""] {
        assert_eq!(lines("templates", "html", part), Vec::<String>::new(), "{part}");
    }
}

#[test]
fn forms_and_bodies_are_the_only_ways_in_and_paths_are_never_made_of_them() {
    let files = ["File::open", "File::create", "fs::read", "fs::write", "std::fs::"];
    for part in files {
        let found = lines("server", "rs", part);
        let known = |line: &String| {
            let own = [
                "server/backups/",
                "server/calc/",
                "server/commands/",
                "server/main.rs",
                "server/config",
                "server/clock.rs",
                "server/db/",
                "server/host/",
                "server/upkeep/",
            ];
            own.iter().any(|start| line.starts_with(start))
        };
        let others: Vec<_> = found.into_iter().filter(|line| !known(line)).collect();
        assert_eq!(others, Vec::<String>::new(), "{part}: pages read and write no files");
    }
}
