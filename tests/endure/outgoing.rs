//! The program calls nobody: no connection but to its database, and no other program started. What it asks of the kernel
//! is looked at (strace) from its first instruction, and while a day's work goes through it.

use crate::support::{Client, Program, START, free_port, key};
use hilum::args;
use hilum::db::FromRow;
use hilum::db::ids::At;
use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::Duration;
use tempfile::TempDir;

/// What would tell of a call to somebody else.
const LOOK_AT: &str = "trace=connect,execve,execveat";

/// Lines that tell of a connection to anything but the database, or of another program.
fn outgoing(log: &Path, database: &str) -> Vec<String> {
    let text = std::fs::read_to_string(log).unwrap();
    let calls = text.lines().filter(|l| l.contains("connect(") || l.contains("execve"));
    let port = database.rsplit_once(':').and_then(|(_, rest)| rest.split('/').next()).unwrap_or_default();
    let own = |line: &&str| {
        let tcp = !port.is_empty()
            && line.contains(&format!("sin_port=htons({port})"))
            && line.contains("127.0.0.1");
        database.starts_with("postgres") && (tcp || line.contains(".s.PGSQL."))
    };
    calls.filter(|line| !own(line)).map(str::to_owned).collect()
}

fn ended(mut strace: Child) {
    let pid = strace.id().to_string();
    assert!(Command::new("kill").args(["-INT", &pid]).status().unwrap().success());
    strace.wait().unwrap();
}

#[tokio::test]
async fn a_days_work_makes_no_connection_and_starts_no_program() {
    let program = Program::demo().await;
    let folder = TempDir::new().unwrap();
    let log = folder.path().join("calls");
    let mut strace = Command::new("strace")
        .args(["-f", "-e", LOOK_AT, "-p", &program.pid().to_string(), "-o", log.to_str().unwrap()])
        .stderr(Stdio::piped())
        .spawn()
        .expect("the tests need strace");
    let mut said = BufReader::new(strace.stderr.take().unwrap()).lines().map_while(Result::ok);
    assert!(said.any(|line| line.contains("attached")), "strace does not get hold of the program");
    std::thread::spawn(move || said.for_each(drop));
    let done = work(&program).await;
    ended(strace);
    assert!(done > 25, "{done} requests were answered");
    let url = database_url();
    assert_eq!(outgoing(&log, &url), Vec::<String>::new());
}

#[expect(clippy::disallowed_methods, reason = "the tests choose their engine by the environment")]
fn database_url() -> String {
    std::env::var("TEST_DATABASE_URL").unwrap_or_default()
}

#[derive(FromRow)]
struct Bag {
    id: String,
}

/// Looks at the main places, files and prints, saves, and signs in; gives how much of it was answered.
async fn work(program: &Program) -> usize {
    let db = program.db().await;
    let agnes = Client::sign_in(&program.base, &db, "agnes", At(START)).await;
    let sql = "SELECT b.id FROM bags b JOIN trials t ON t.id = b.trial_id JOIN members m ON m.id = t.owner_id
        WHERE m.sign_in = 'agnes' AND b.closed_at IS NULL ORDER BY b.id";
    let bags: Vec<Bag> = db.read().await.unwrap().all(sql, args![]).await.unwrap();
    let mut done = 0;
    for path in [
        "/",
        "/looks",
        "/packets",
        "/packets/new",
        "/packets/import",
        "/trials",
        "/trials/new",
        "/trays",
        "/plan",
        "/plan/weeks",
        "/table",
        "/table.csv",
        "/counts.csv",
        "/packets.csv",
        "/floaters",
        "/rings",
        "/routines",
        "/mix",
        "/members",
        "/me",
        "/me/tokens",
        "/labels",
        "/cards",
        "/clubs",
        "/outbox",
        "/api",
        "/api/v1/openapi.json",
        "/sw.js",
        "/nowhere",
    ] {
        let answer = agnes.get(path).await.unwrap();
        assert!(answer.status.as_u16() < 500, "{path}: {answer:?}");
        done += 1;
    }
    for bag in bags.iter().take(5) {
        let fields = [("rooted", "0"), ("note", "see http://192.0.2.1/ and mail a@b.test")];
        let answer = agnes.post(&format!("/bags/{}/count", bag.id), &key(), &fields).await.unwrap();
        assert_eq!(answer.status, 303, "{answer:?}");
        assert_eq!(agnes.get(&format!("/bags/{}", bag.id)).await.unwrap().status, 200);
    }
    let fields = [("sign_in", "agnes"), ("password", hilum::upkeep::demo::PASSWORD)];
    assert_eq!(agnes.post("/sign-in", &key(), &fields).await.unwrap().status, 303);
    // the comparison is fitted again after counts came in
    tokio::time::sleep(Duration::from_secs(2)).await;
    done
}

#[test]
fn it_starts_without_asking_anybody() {
    let folder = TempDir::new().unwrap();
    let log = folder.path().join("calls");
    let mut program = Command::new("strace")
        // the tracer as a grandchild: what is ended below is the program itself
        .args(["-f", "-D", "-e", LOOK_AT, "-o", log.to_str().unwrap(), env!("CARGO_BIN_EXE_hilum")])
        .args(["--data", folder.path().to_str().unwrap(), "--listen", &format!("127.0.0.1:{}", free_port())])
        .stdout(Stdio::piped())
        .spawn()
        .expect("the tests need strace");
    let mut said = BufReader::new(program.stdout.take().unwrap()).lines().map_while(Result::ok);
    assert!(said.any(|line| line.contains("Hilum is at")), "the program starts");
    program.kill().unwrap();
    program.wait().unwrap();
    let found = outgoing(&log, "");
    assert_eq!(found.len(), 1, "only its own start is seen: {found:#?}");
    assert!(found[0].contains("execve") && found[0].contains("hilum"), "{found:#?}");
}
