//! What the bench sets beside the program: an answer of two bytes, the same page made from memory, and the bare commit
//! of a count's rows.
//!
//! - `floor serve ADDRESS FOLDER` serves `/` and, for each file in FOLDER, its page under the file's name;
//! - `floor commits FILE SECONDS` prints how many counts in a second SQLite commits durably, with nothing around it;
//! - `floor fill URL MEMBERS,TRIALS,SEASONS` makes the large invented club in an empty database;
//! - `floor members URL` signs in all members with open bags, and prints a line of JSON for each;
//! - `floor statements URL SESSION PATH...` prints how many SQL statements each page takes, as JSON.

mod statements;

use axum::Router;
use axum::extract::{Path, State};
use axum::http::header::CONTENT_TYPE;
use axum::response::IntoResponse;
use axum::routing::get;
use hilum::app::App;
use hilum::args;
use hilum::config::Config;
use hilum::db::ids::MemberId;
use hilum::db::{Db, FromRow};
use hilum::upkeep::scale;
use hilum::web::session;
use sqlx::sqlite::{SqliteConnectOptions, SqliteConnection, SqliteJournalMode, SqliteSynchronous};
use sqlx::{Connection, Row};
use std::collections::HashMap;
use std::sync::Arc;
use std::time::{Duration, Instant};

/// A page as its parts that stand (tags) and those that are values, which are escaped anew for each answer.
struct Page(Vec<(String, String)>);

impl Page {
    fn of(html: &str) -> Self {
        let parts = html.split_inclusive('>').map(|part| {
            let at = part.find('<').unwrap_or(part.len());
            let (value, tag) = part.split_at(at);
            (value.replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&"), tag.to_owned())
        });
        Self(parts.collect())
    }

    fn made(&self) -> String {
        let mut html = String::with_capacity(1024);
        for (value, tag) in &self.0 {
            for letter in value.chars() {
                match letter {
                    '&' => html.push_str("&amp;"),
                    '<' => html.push_str("&lt;"),
                    '>' => html.push_str("&gt;"),
                    other => html.push(other),
                }
            }
            html.push_str(tag);
        }
        html
    }
}

type Pages = Arc<HashMap<String, Page>>;

async fn page(State(pages): State<Pages>, Path(name): Path<String>) -> impl IntoResponse {
    ([(CONTENT_TYPE, "text/html; charset=utf-8")], pages.get(&name).map(Page::made).unwrap_or_default())
}

async fn serve(address: &str, folder: &str) -> anyhow::Result<()> {
    let mut pages = HashMap::new();
    for file in std::fs::read_dir(folder)?.flatten() {
        let html = std::fs::read_to_string(file.path())?;
        pages.insert(file.file_name().to_string_lossy().into_owned(), Page::of(&html));
    }
    let router = Router::new().route("/", get(async || "ok")).route("/{name}", get(page));
    let listener = tokio::net::TcpListener::bind(address).await?;
    Ok(axum::serve(listener, router.with_state(Arc::new(pages))).await?)
}

/// The rows of one count: the entry, its look, the key of the form, and the bag's kept sums.
const ROWS: &[&str] = &[
    "INSERT INTO entries SELECT $1, $1, $1, what, packet_id, trial_id, bag_id, tray_id, planting_id, by_member, at,
       recorded_at, note FROM entries WHERE id = $2",
    "INSERT INTO looks SELECT $1, rooted, abnormal, dead FROM looks WHERE entry_id = $2",
    "INSERT INTO once SELECT $1, by_member, 'look', 'digest', '/', at FROM entries WHERE id = $2",
    "UPDATE bags SET looked_at = (SELECT at FROM entries WHERE id = $1), version = version + 1
     WHERE id = (SELECT bag_id FROM entries WHERE id = $2)",
];

#[expect(clippy::disallowed_methods, reason = "what SQLite does with nothing of ours around it")]
async fn commits(file: &str, length: Duration) -> anyhow::Result<()> {
    let options = SqliteConnectOptions::new()
        .filename(file)
        .journal_mode(SqliteJournalMode::Wal)
        .synchronous(SqliteSynchronous::Full);
    let mut conn = SqliteConnection::connect_with(&options).await?;
    let rows = sqlx::query("SELECT entry_id FROM looks LIMIT 1000").fetch_all(&mut conn).await?;
    let looks = rows.iter().map(|row| row.try_get(0)).collect::<Result<Vec<String>, _>>()?;
    let (mut done, began) = (0_usize, Instant::now());
    while began.elapsed() < length {
        let (id, like) = (format!("bare-{:032}", done), &looks[done % looks.len()]);
        let mut act = conn.begin_with("BEGIN IMMEDIATE").await?;
        for &sql in ROWS {
            sqlx::query(sql).bind(&id).bind(like).execute(&mut *act).await?;
        }
        act.commit().await?;
        done += 1;
    }
    println!("{:.0}", done as f64 / began.elapsed().as_secs_f64());
    Ok(())
}

async fn app(url: &str) -> anyhow::Result<App> {
    let config = Config { database_url: Some(url.to_owned()), ..Config::default() };
    let clock = config.clock();
    Ok(App::new(Db::open(url).await?, config, clock))
}

/// Closed at the end, so that a file of SQLite is all there is.
async fn fill(url: &str, size: &str) -> anyhow::Result<()> {
    let app = app(url).await?;
    scale::fill(&app, size.parse().map_err(anyhow::Error::msg)?).await?;
    app.db.close().await;
    Ok(())
}

#[derive(FromRow)]
struct Owner {
    sign_in: String,
    owner_id: MemberId,
    bags: String,
}

const OWNERS: &str = "SELECT m.sign_in, b.owner_id, string_agg(b.id, ' ') AS bags
    FROM bags b JOIN members m ON m.id = b.owner_id
    WHERE b.closed_at IS NULL AND b.on_paper > 0 GROUP BY m.sign_in, b.owner_id ORDER BY b.owner_id";

/// Signs in all members who have bags on paper.
async fn members(app: &App) -> anyhow::Result<()> {
    let mut conn = app.db.write().await?;
    for owner in conn.all::<Owner>(OWNERS, args![]).await? {
        let token = session::open(&mut conn, &owner.owner_id, app.now()).await?;
        let csrf = session::csrf(&token);
        let bags: Vec<&str> = owner.bags.split(' ').collect();
        let told = serde_json::json!({ "name": owner.sign_in, "bags": bags, "session": token, "csrf": csrf });
        println!("{told}");
    }
    Ok(conn.commit().await?)
}

#[tokio::main]
async fn main() -> anyhow::Result<()> {
    let words: Vec<String> = std::env::args().skip(1).collect();
    match words.iter().map(String::as_str).collect::<Vec<_>>()[..] {
        ["serve", address, folder] => serve(address, folder).await,
        ["commits", file, seconds] => commits(file, Duration::from_secs(seconds.parse()?)).await,
        ["fill", url, size] => fill(url, size).await,
        ["members", url] => members(&app(url).await?).await,
        ["statements", url, session, ref paths @ ..] => {
            statements::count(app(url).await?, session, paths).await
        }
        _ => anyhow::bail!("floor serve, commits, fill, members or statements: see the head of its source"),
    }
}
