//! What a monitor sees: whether the program answers, whether members can work, and its counters in the text format of
//! Prometheus (its documentation, "Exposition formats", version 0.0.4, and "Metric and label naming").

use crate::bags::Bench;
use crate::support::{Browser, Club, START};
use axum::body::Body;
use axum::http::header::CONTENT_TYPE;
use axum::http::{Request, StatusCode};
use hilum::app::App;
use hilum::args;
use hilum::clock::Clock;
use hilum::config::Config;
use hilum::db::{Db, FromRow};
use hilum::host::{ask, metrics};
use http_body_util::BodyExt;
use std::collections::{BTreeMap, BTreeSet};
use std::os::unix::fs::FileExt;
use std::process::{Command, Stdio};
use tower::ServiceExt;

async fn got(router: axum::Router, path: &str) -> (StatusCode, String, String) {
    let response = router.oneshot(Request::get(path).body(Body::empty()).unwrap()).await.unwrap();
    let (parts, body) = response.into_parts();
    let sort = parts.headers.get(CONTENT_TYPE).map(|v| v.to_str().unwrap().to_owned()).unwrap_or_default();
    let bytes = body.collect().await.unwrap().to_bytes();
    (parts.status, sort, String::from_utf8(bytes.to_vec()).unwrap())
}

async fn probed(app: &App, path: &str) -> (u16, String) {
    let (status, sort, words) = got(app.clone().router(), path).await;
    assert_eq!(sort, "text/plain; charset=utf-8", "{path}");
    (status.as_u16(), words)
}

#[tokio::test]
async fn readiness_is_told_in_words_and_nothing_else() {
    let club = Club::new().await;
    assert_eq!(probed(&club.app, "/healthz").await, (200, "The program answers.\n".into()));
    assert_eq!(probed(&club.app, "/readyz").await, (200, "Ready.\n".into()));
    let mut conn = club.app.db.write().await.unwrap();
    let newer = "INSERT INTO _sqlx_migrations (version, description, success, checksum, execution_time)
        SELECT 9001, 'of a newer program', TRUE, checksum, 0 FROM _sqlx_migrations WHERE version = 1";
    conn.run(newer, args![]).await.unwrap();
    conn.commit().await.unwrap();
    let other = "Not ready: the database is of another version of Hilum.\n";
    assert_eq!(probed(&club.app, "/readyz").await, (503, other.into()));
    club.app.db.close().await;
    assert_eq!(
        probed(&club.app, "/readyz").await,
        (503, "Not ready: the database cannot be reached.\n".into())
    );
    assert_eq!(probed(&club.app, "/healthz").await.0, 200, "the process itself still answers");
}

#[derive(FromRow)]
struct Page {
    number: i64,
}

#[tokio::test(flavor = "multi_thread")]
async fn damage_that_was_found_is_told_to_whoever_watches() {
    let folder = tempfile::TempDir::new().unwrap();
    let (file, size) = (folder.path().join("hilum.db"), 4096);
    let config = Config { data: folder.path().to_owned(), ..Config::default() };
    let db = Db::open(&config.database()).await.unwrap();
    let sql = "SELECT rootpage AS number FROM sqlite_schema WHERE name = 'photos'";
    let page: Page = db.read().await.unwrap().one(sql, args![]).await.unwrap();
    db.close().await;
    let open = std::fs::OpenOptions::new().write(true).open(file).unwrap();
    open.write_all_at(&[0xff; 64], (page.number.unsigned_abs() - 1) * size).unwrap();
    let db = Db::open(&config.database()).await.unwrap();
    let app = App::new(db, config, Clock::fixed(START));
    let words = "Not ready: the database is damaged. Pages can be read, nothing is saved.\n";
    assert_eq!(probed(&app, "/readyz").await, (503, words.into()));
    assert_eq!(Read::of(&app).await.value("hilum_database_sound"), 0.0);
}

/// What `/metrics` says, as its reader takes it: each name with its sort, each series with its value. Fails where a line
/// is not of the format.
struct Read {
    sorts: BTreeMap<String, String>,
    series: BTreeMap<String, f64>,
}

impl Read {
    async fn of(app: &App) -> Self {
        let (status, sort, text) = got(metrics::router(app.clone()), "/metrics").await;
        assert_eq!((status, sort.as_str()), (StatusCode::OK, "text/plain; version=0.0.4; charset=utf-8"));
        Self::from(&text)
    }

    fn from(text: &str) -> Self {
        assert!(text.ends_with('\n'));
        let mut read = Self { sorts: BTreeMap::new(), series: BTreeMap::new() };
        for line in text.lines() {
            if let Some(rest) = line.strip_prefix("# TYPE ") {
                let (name, sort) = rest.split_once(' ').unwrap();
                assert!(["counter", "gauge", "histogram"].contains(&sort), "{line}");
                assert!(read.sorts.insert(name.to_owned(), sort.to_owned()).is_none(), "twice: {line}");
            } else if !line.starts_with("# HELP ") {
                let (series, value) = line.rsplit_once(' ').unwrap_or_else(|| panic!("no value: {line}"));
                let value: f64 = value.parse().unwrap_or_else(|_| panic!("no number: {line}"));
                assert!(read.series.insert(series.to_owned(), value).is_none(), "twice: {line}");
            }
        }
        read
    }

    #[track_caller]
    fn value(&self, series: &str) -> f64 {
        *self.series.get(series).unwrap_or_else(|| panic!("no {series}: {:#?}", self.series.keys()))
    }

    fn names(&self) -> BTreeSet<&str> {
        self.series.keys().map(|series| series.split('{').next().unwrap()).collect()
    }
}

#[tokio::test]
async fn a_mornings_work_is_counted_by_what_was_asked_and_not_by_whom() {
    let b = Bench::new().await;
    let page = b.jo.get(&format!("/bags/{}", b.bag)).await;
    let fields = [("rooted", "2"), ("note", "canary note")];
    b.jo.submit(&page, &b.under("count"), &fields).await;
    b.jo.submit(&page, &b.under("count"), &fields).await;
    b.jo.get("/bags/canary-nowhere").await;
    let read = Read::of(&b.club.app).await;
    let count = "route=\"/bags/{id}/count\",method=\"POST\"";
    assert_eq!(read.value(&format!("hilum_http_requests_total{{{count},status=\"3xx\"}}")), 2.0);
    let lost = "hilum_http_requests_total{route=\"/bags/{id}\",method=\"GET\",status=\"4xx\"}";
    assert_eq!(read.value(lost), 1.0);
    assert_eq!(read.value("hilum_saves_total{action=\"/bags/{id}/count\"}"), 1.0, "the second counted once");
    assert_eq!(read.value("hilum_repeated_saves_total"), 1.0);
    assert!(read.value("hilum_requests_by_other_host_total") > 0.0, "club.test is not the address in links");
    let within = |le: &str| {
        read.value(&format!(
            "hilum_http_request_duration_seconds_bucket{{route=\"/bags/{{id}}/count\",le=\"{le}\"}}"
        ))
    };
    assert!(within("+Inf") == 2.0 && within("30") <= 2.0 && within("0.005") <= within("30"));
    assert!(read.value("hilum_database_wait_seconds_count{work=\"read\"}") > 3.0);
    assert!(read.value("hilum_database_wait_seconds_count{work=\"write\"}") > 1.0);
    let all = format!("{:?}", read.series.keys());
    for kept_out in ["anary", b.jo.id().0.as_str(), "Jo", b.bag.0.as_str()] {
        assert!(!all.contains(kept_out), "{kept_out}: {all}");
    }
}

#[tokio::test]
async fn names_say_their_units_and_sorts() {
    let b = Bench::new().await;
    b.club.app.metrics.compared(true, std::time::Duration::from_secs(2));
    b.jo.get("/").await;
    let read = Read::of(&b.club.app).await;
    assert!(read.sorts.len() >= 12, "{:?}", read.sorts);
    for (name, sort) in &read.sorts {
        assert!(name.starts_with("hilum_") || name.starts_with("process_"), "{name}");
        let counts = name.ends_with("_total");
        assert_eq!(sort == "counter", counts, "{name}");
        let unit = ["_seconds", "_bytes"].iter().any(|unit| name.ends_with(unit));
        let state =
            ["hilum_database_up", "hilum_database_sound", "hilum_build_info"].contains(&name.as_str());
        assert!(counts || unit || state, "{name} says no unit");
    }
    for name in read.names() {
        let ends = ["_bucket", "_sum", "_count"];
        let plain =
            ends.iter().find_map(|end| name.strip_suffix(end)).filter(|n| read.sorts.contains_key(*n));
        assert!(read.sorts.contains_key(plain.unwrap_or(name)), "{name} has no sort");
    }
    assert!(read.value("process_resident_memory_bytes") > 1e6);
    assert_eq!(read.value("process_start_time_seconds"), START.0 as f64);
}

#[tokio::test]
async fn backups_and_the_database_are_told_as_they_stand() {
    let (club, data) = (Club::new().await, tempfile::TempDir::new().unwrap());
    let config = Config { data: data.path().into(), ..(*club.app.config).clone() };
    let app = App::new(club.app.db.clone(), config, Clock::fixed(START.plus_minutes(90)));
    let age = |read: &Read| read.series.get("hilum_backup_age_seconds").copied();
    let read = Read::of(&app).await;
    assert_eq!((age(&read), read.value("hilum_database_up")), (None, 1.0));
    let mut conn = club.app.db.write().await.unwrap();
    let row = "INSERT INTO backups (id, made_at, file, bytes, problem, tried_at, tried_problem)
        VALUES ('b', $1, 'hilum.db', 5000, '', $1, '')";
    conn.run(row, args![club.app.now()]).await.unwrap();
    conn.commit().await.unwrap();
    assert_eq!(age(&Read::of(&app).await), None, "its file is nowhere");
    let folder = hilum::backups::take::folder(&app.config);
    std::fs::create_dir_all(&folder).unwrap();
    std::fs::write(folder.join("hilum.db"), "").unwrap();
    let read = Read::of(&app).await;
    assert_eq!((age(&read), read.value("hilum_backup_size_bytes")), (Some(5400.0), 5000.0));
    let tried = read.value("hilum_backup_last_trial_timestamp_seconds");
    assert_eq!(tried, read.value("hilum_backup_last_good_timestamp_seconds"));
    club.app.db.close().await;
    let read = Read::of(&app).await;
    assert_eq!((age(&read), read.value("hilum_database_up")), (None, 0.0), "counters are read without it");
}

#[tokio::test]
async fn metrics_are_on_a_listener_of_their_own_and_off_by_default() {
    assert_eq!(Config::default().metrics_listen, None);
    let club = Club::new().await;
    let organiser: Browser = club.organiser("Olga", "OL").await;
    assert_eq!(organiser.get(metrics::PATH).await.status, StatusCode::NOT_FOUND);
    for path in ["/", "/sign-in", "/readyz", "/table"] {
        assert_eq!(got(metrics::router(club.app.clone()), path).await.0, StatusCode::NOT_FOUND, "{path}");
    }
}

/// The program itself, on two ports that were free a moment ago.
#[tokio::test(flavor = "multi_thread")]
async fn the_program_serves_both_and_says_whether_it_is_ready() {
    let free = || std::net::TcpListener::bind("127.0.0.1:0").unwrap().local_addr().unwrap();
    let (pages, watched) = (free(), free());
    let data = tempfile::TempDir::new().unwrap();
    let hilum = || {
        let mut hilum = Command::new(env!("CARGO_BIN_EXE_hilum"));
        hilum.args(["--data", data.path().to_str().unwrap(), "--listen", &pages.to_string()]);
        hilum
    };
    let asked = || hilum().arg("ready").output().unwrap();
    let out = asked();
    assert!(!out.status.success() && String::from_utf8_lossy(&out.stdout).contains("Nothing answers at"));
    let mut serve = hilum();
    serve.args(["--metrics-listen", &watched.to_string(), "--log-format", "json"]);
    let mut serve = serve.stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap();
    let mut out = asked();
    for _ in 0..150 {
        if out.status.success() {
            break;
        }
        tokio::time::sleep(std::time::Duration::from_millis(200)).await;
        out = asked();
    }
    let text = ask::ask(watched, metrics::PATH).await;
    let there = ask::ask(pages, metrics::PATH).await;
    serve.kill().unwrap();
    serve.wait().unwrap();
    assert!(out.status.success() && out.stdout == b"Ready.\n", "{out:?}");
    let (status, text) = text.unwrap();
    assert!(status == 200 && Read::from(&text).value("hilum_database_up") == 1.0, "{text}");
    assert_eq!(there.unwrap().0, 404, "not where members come");
}
