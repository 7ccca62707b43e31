//! Two processes of the program on the same data, on either engine, behind a proxy that gives each request to the next of
//! them: nobody can tell. Refits are done by one process at a time (tests/http/standing.rs). What is guessed of passwords
//! is counted by each process for itself, so that two let through twice as many guesses at most.

mod proxy;

use crate::support::{Client, Filled, Season, at_once};
use hilum::args;
use proxy::Proxy;
use reqwest::header::{COOKIE, LOCATION, ORIGIN, SET_COOKIE};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

const AT_ONCE: usize = 16;

/// The first process stands in the season; the second has a port of its own.
struct Pair {
    season: Season,
    second: Child,
    other: u16,
}

impl Pair {
    async fn new() -> Self {
        let season = Season::new().await;
        let other = std::net::TcpListener::bind("127.0.0.1:0").unwrap().local_addr().unwrap().port();
        let (program, folder) = (&season.program, season.program.folder.path());
        let mut second = Command::new(env!("CARGO_BIN_EXE_hilum"));
        second.args(["--data", folder.to_str().unwrap()]);
        second.args(["--database-url", &program.database.url, "--backup-every", "0"]);
        second.args(["--clock-file", folder.join("clock").to_str().unwrap()]);
        second.args(["--listen", &format!("127.0.0.1:{other}")]);
        let second = second.stdout(Stdio::null()).spawn().unwrap();
        let until = Instant::now() + Duration::from_secs(30);
        while tokio::net::TcpStream::connect(("127.0.0.1", other)).await.is_err() {
            assert!(Instant::now() < until, "the second process does not answer");
            tokio::time::sleep(Duration::from_millis(5)).await;
        }
        Self { season, second, other }
    }

    fn bases(&self) -> [String; 2] {
        [self.season.program.base.clone(), format!("http://127.0.0.1:{}", self.other)]
    }

    /// A member's browser at each of the two, with the same session.
    async fn both(&self, sign_in: &str) -> [Client; 2] {
        let first = self.season.device(sign_in).await;
        let second = first.at(&self.bases()[1]);
        [first, second]
    }

    fn sound(&mut self) {
        self.second.kill().unwrap();
        self.second.wait().unwrap();
        self.season.sound();
    }
}

impl Drop for Pair {
    fn drop(&mut self) {
        drop(self.second.kill());
        drop(self.second.wait());
    }
}

/// An answer with its cookies.
struct Plain {
    status: u16,
    to: String,
    cookies: Vec<String>,
    body: String,
}

async fn ask(base: &str, path: &str, cookies: &[String], form: Option<&[(&str, &str)]>) -> Plain {
    let http = reqwest::Client::builder().redirect(reqwest::redirect::Policy::none()).build().unwrap();
    let address = format!("{base}{path}");
    let request = match form {
        None => http.get(address),
        Some(fields) => http
            .post(address)
            .header(ORIGIN, base)
            .header("content-type", "application/x-www-form-urlencoded")
            .body(serde_html_form::to_string(fields).unwrap()),
    };
    let response = request.header(COOKIE, cookies.join("; ")).send().await.unwrap();
    let kept = response.headers().get_all(SET_COOKIE).iter();
    let cookies = kept.map(|c| c.to_str().unwrap().split(';').next().unwrap().to_owned()).collect();
    let to = response.headers().get(LOCATION).map(|l| l.to_str().unwrap().to_owned()).unwrap_or_default();
    Plain { status: response.status().as_u16(), to, cookies, body: response.text().await.unwrap() }
}

async fn sessions_hold_at_both(pair: &Pair) {
    let [one, two] = pair.bases();
    let typed = [("sign_in", "bartek"), ("password", "a growing club of our own")];
    let entered = ask(&one, "/sign-in", &[], Some(&typed)).await;
    assert_eq!(entered.status, 303);
    let there = ask(&two, "/me", &entered.cookies, None).await;
    assert!(there.status == 200 && there.body.contains("Bartek"), "{}", there.body);
    let out = ask(&two, "/sign-out", &entered.cookies, Some(&[])).await;
    assert_eq!((out.status, out.to.as_str()), (303, "/sign-in"));
    let back = ask(&one, "/me", &entered.cookies, None).await;
    assert!(back.status == 303 && back.to.starts_with("/sign-in"), "signed out at one is out at both");
}

async fn what_one_saved_the_other_tells(pair: &Pair) {
    let [one, two] = pair.bases();
    let typed = [("sign_in", "bartek"), ("password", "a growing club of our own")];
    let session = ask(&one, "/sign-in", &[], Some(&typed)).await.cookies;
    let form = [("key", "a-key-of-two-processes"), ("place", "mat")];
    let saved = ask(&one, "/holders", &session, Some(&form)).await;
    assert_eq!(saved.status, 303, "{}", saved.body);
    let cookies = [session, saved.cookies].concat();
    let shown = ask(&two, &saved.to, &cookies, None).await;
    assert!(shown.body.contains("Now put bags into it"), "{}", shown.body);
}

async fn a_count_is_in_the_other_ones_table(pair: &Pair) {
    let [one, two] = pair.both("agnes").await;
    let bag = pair.season.bags(10).await[0].clone();
    let before = [one.get("/counts.csv").await.unwrap().body, two.get("/counts.csv").await.unwrap().body];
    assert_eq!(before[0], before[1]);
    let count = format!("/bags/{bag}/count");
    let form = two.filled(&format!("/bags/{bag}"), &count, &[("rooted", "7")]).await;
    assert_eq!(two.send(&form).await.unwrap().status, 303);
    let after = [one.get("/counts.csv").await.unwrap().body, two.get("/counts.csv").await.unwrap().body];
    assert_eq!(after[0], after[1], "both know it at once");
    assert!(after[0].len() > before[0].len(), "the look is in it");
    let tables = [one.get("/table").await.unwrap().body, two.get("/table").await.unwrap().body];
    let figures = |page: &str| page.split_once("<main").map(|(_, main)| main.len());
    assert_eq!(figures(&tables[0]), figures(&tables[1]));
}

/// A page of one process, sent to both at the same moment.
async fn one_form_at_both_counts_once(pair: &Pair) {
    let [one, two] = pair.both("agnes").await;
    let fields =
        [("kind", "Pepper"), ("variety", "Fenside Lantern"), ("source", "Lode Lane Seeds"), ("seeds", "5")];
    for _ in 0..5 {
        let form = one.filled("/packets/new", "/packets/new", &fields).await;
        let copies: Vec<(Client, Filled)> =
            (0..8).map(|n| (if n % 2 == 0 { one.clone() } else { two.clone() }, form.clone())).collect();
        let answers = at_once(copies).await;
        let to = &answers[0].location;
        assert!(to.starts_with("/packets/") && answers.iter().all(|a| a.location == *to), "{answers:?}");
        let sql =
            "SELECT COUNT(*) AS n FROM ledger g JOIN entries e ON e.id = g.entry_id WHERE e.save_key = $1";
        assert_eq!(pair.season.number(sql, args![&form.key]).await, 1);
    }
}

/// By the proxy: marks are given by both, and none twice.
async fn many_at_once_by_the_proxy(pair: &Pair) {
    let proxy = Proxy::before(vec![pair.season.program.port, pair.other]).await;
    let by = pair.season.device("agnes").await.at(&proxy.base);
    let fields =
        [("kind", "Pepper"), ("variety", "Fenside Lantern"), ("source", "Lode Lane Seeds"), ("seeds", "5")];
    let sql =
        "SELECT COUNT(*) AS n FROM packets p JOIN members m ON m.id = p.owner_id WHERE m.sign_in = 'agnes'";
    let before = pair.season.number(sql, args![]).await;
    let mut forms = Vec::new();
    for _ in 0..AT_ONCE {
        forms.push((by.clone(), by.filled("/packets/new", "/packets/new", &fields).await));
    }
    let answers = at_once(forms).await;
    assert!(answers.iter().all(|a| a.status == 303), "{answers:?}");
    assert_eq!(pair.season.number(sql, args![]).await - before, AT_ONCE as i64);
    let twice =
        "SELECT COUNT(*) AS n FROM (SELECT mark_key FROM packets GROUP BY mark_key HAVING COUNT(*) > 1) AS t";
    assert_eq!(pair.season.number(twice, args![]).await, 0);
}

#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
async fn nobody_can_tell_two_processes_from_one() {
    let mut pair = Pair::new().await;
    sessions_hold_at_both(&pair).await;
    what_one_saved_the_other_tells(&pair).await;
    a_count_is_in_the_other_ones_table(&pair).await;
    one_form_at_both_counts_once(&pair).await;
    many_at_once_by_the_proxy(&pair).await;
    pair.sound();
}
