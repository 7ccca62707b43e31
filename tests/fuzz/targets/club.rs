//! The invented club without sockets, made anew now and then.

use super::forms::NOW;
use axum::Router;
use axum::body::{Body, to_bytes};
use axum::http::header::LOCATION;
use axum::http::request::Builder;
use axum::http::{Request, StatusCode};
use hilum::accounts::model::NewToken;
use hilum::accounts::store::tokens;
use hilum::app::App;
use hilum::args;
use hilum::clock::Clock;
use hilum::config::Config;
use hilum::db::ids::MemberId;
use hilum::db::{Conn, Db};
use hilum::upkeep::demo;
use hilum::web::session;
use std::cell::RefCell;
use std::collections::HashMap;
use std::path::Path;
use tempfile::TempDir;
use tokio::runtime::{self, Runtime};
use tokio::sync::OnceCell;
use tower::ServiceExt;

/// A club takes so many requests before it is made anew.
const MOST: usize = 2000;
/// The most that an answer may weigh, in bytes.
const LARGEST: usize = 64 * 1024 * 1024;

/// Where the database is in its folder.
const FILE: &str = "hilum.db";

/// What stands for the id of a thing, as `{bags}`, or `{bags.3}` for the fourth of them.
const IDS: &[(&str, &str)] = &[
    ("bags", "SELECT id FROM bags ORDER BY id LIMIT 60"),
    ("cards", "SELECT id FROM cards ORDER BY id LIMIT 60"),
    ("entries", "SELECT id FROM entries ORDER BY id DESC LIMIT 60"),
    ("holders", "SELECT id FROM holders ORDER BY id LIMIT 60"),
    ("kinds", "SELECT id FROM kinds ORDER BY id LIMIT 60"),
    ("lots", "SELECT id FROM lots ORDER BY id LIMIT 60"),
    ("members", "SELECT id FROM members ORDER BY id LIMIT 60"),
    ("packets", "SELECT id FROM packets ORDER BY id LIMIT 60"),
    ("plan_lines", "SELECT id FROM plan_lines ORDER BY id LIMIT 60"),
    ("plantings", "SELECT id FROM plantings ORDER BY id LIMIT 60"),
    ("plans", "SELECT id FROM plans ORDER BY id LIMIT 60"),
    ("promises", "SELECT id FROM promises ORDER BY id LIMIT 60"),
    ("rings", "SELECT id FROM rings ORDER BY id LIMIT 60"),
    ("routines", "SELECT id FROM routines ORDER BY id LIMIT 60"),
    ("sources", "SELECT id FROM sources ORDER BY id LIMIT 60"),
    ("trays", "SELECT id FROM trays ORDER BY id LIMIT 60"),
    ("trials", "SELECT id FROM trials ORDER BY id LIMIT 60"),
    ("varieties", "SELECT id FROM varieties ORDER BY id LIMIT 60"),
];

/// Forms that are sent first, so that there is one of each thing.
const FIRST: &[(&str, &str)] = &[
    ("/holders", "key={key}&place=shelf&warmth=25"),
    ("/cards", "key={key}&holder=&place="),
    (
        "/plan/season",
        "key={key}&plan=&name=2026&routine={routines}&bag_seeds=10&warmth=25&certainty=90&tray=12x6&mat_bags=3&trays=1",
    ),
    ("/plan/lines", "key={key}&plan={plans}&list=Fenside+Lantern%0912%092026-06-20"),
];

/// What stays the same when the club is made anew.
struct Template {
    file: Vec<u8>,
    session: String,
    token: String,
    member: MemberId,
    ids: HashMap<&'static str, Vec<String>>,
}

static TEMPLATE: OnceCell<Template> = OnceCell::const_new();

/// The club as it is now.
struct Club {
    app: App,
    router: Router,
    _folder: TempDir,
}

/// One thread's club.
struct World {
    here: Runtime,
    template: &'static Template,
    club: Option<Club>,
    requests: usize,
}

thread_local! {
    static WORLD: RefCell<World> = RefCell::new(World::new());
}

/// What came back.
pub struct Answer {
    pub status: StatusCode,
    /// Where it leads on; empty where nowhere.
    pub to: String,
    pub body: Vec<u8>,
}

/// The text with ids for what stands for them, and `{key}` a new key.
pub fn filled(text: &str) -> String {
    WORLD.with_borrow(|world| world.template.filled(text))
}

/// Sends a request as the organiser, by session and by token. `None` where it is none that HTTP knows.
pub fn send(request: Builder, body: Vec<u8>) -> Option<Answer> {
    WORLD.with_borrow_mut(|world| world.send(request, body))
}

/// Runs `work` on the database as the organiser; nothing is kept.
pub fn within(work: impl AsyncFnOnce(&mut Conn, &MemberId)) {
    WORLD.with_borrow_mut(|world| {
        let db = world.now().app.db.clone();
        world.here.block_on(async {
            let mut conn = db.write().await.expect("a connection");
            work(&mut conn, &world.template.member).await;
        });
    });
}

impl World {
    fn new() -> Self {
        let here = runtime::Builder::new_current_thread().enable_all().build().expect("a runtime");
        let template = here.block_on(TEMPLATE.get_or_init(Template::new));
        Self { here, template, club: None, requests: 0 }
    }

    fn now(&mut self) -> &Club {
        self.requests += 1;
        if self.requests.is_multiple_of(MOST) {
            self.leave();
        }
        let Self { here, template, club, .. } = self;
        club.get_or_insert_with(|| here.block_on(template.club()))
    }

    /// The next one finds a new club.
    fn leave(&mut self) {
        let _in = self.here.enter();
        self.club = None;
    }

    fn send(&mut self, request: Builder, body: Vec<u8>) -> Option<Answer> {
        let router = self.now().router.clone();
        let request = self.template.request(request, body)?;
        let answer = self.here.block_on(answered(router, request));
        if answer.to.starts_with("/sign-in") || answer.status == StatusCode::UNAUTHORIZED {
            self.leave();
        }
        Some(answer)
    }
}

async fn answered(router: Router, request: Request<Body>) -> Answer {
    let (parts, body) = router.oneshot(request).await.expect("no error").into_parts();
    let to = parts.headers.get(LOCATION).and_then(|v| v.to_str().ok()).unwrap_or_default().to_owned();
    let body = to_bytes(body, LARGEST).await.expect("an answer that ends");
    Answer { status: parts.status, to, body: body.to_vec() }
}

impl Template {
    async fn new() -> Self {
        let folder = TempDir::new().expect("a folder");
        let app = opened(folder.path()).await;
        demo::club(&app).await.expect("the invented club");
        let mut conn = app.db.write().await.expect("a connection");
        let organiser = "SELECT id FROM members WHERE role = 'organiser' ORDER BY id LIMIT 1";
        let member: (String,) = conn.one(organiser, args![]).await.expect("an organiser");
        let member = MemberId(member.0);
        let session = session::open(&mut conn, &member, NOW).await.expect("a session");
        let new = NewToken { name: "fuzz".to_owned(), may: "record", days: None };
        let (_, token) = tokens::make(&mut conn, &member, &new, NOW).await.expect("a token");
        let ids = ids(&mut conn).await;
        conn.commit().await.expect("a commit");
        let mut template = Self { file: Vec::new(), session, token, member, ids };
        for (path, body) in FIRST {
            let request = Request::post(*path).header("content-type", "application/x-www-form-urlencoded");
            let request = template.request(request, template.filled(body).into_bytes()).expect("a request");
            let answer = answered(app.clone().router(), request).await;
            assert!(answer.status.is_redirection(), "{path}: {}", String::from_utf8_lossy(&answer.body));
            template.ids = self::ids(&mut app.db.read().await.expect("a connection")).await;
        }
        app.db.close().await;
        template.file = std::fs::read(folder.path().join(FILE)).expect("the database");
        template
    }

    /// As the organiser's browser and program send it.
    fn request(&self, request: Builder, body: Vec<u8>) -> Option<Request<Body>> {
        let request = request.header("host", "club.test").header("sec-fetch-site", "same-origin");
        let request = request.header("cookie", format!("hilum={}", self.session));
        request.header("authorization", format!("Bearer {}", self.token)).body(Body::from(body)).ok()
    }

    fn filled(&self, text: &str) -> String {
        let mut parts = text.split('{');
        let mut filled = parts.next().unwrap_or_default().to_owned();
        for part in parts {
            match part.split_once('}').and_then(|(name, rest)| Some((self.named(name)?, rest))) {
                Some((id, rest)) => filled.extend([id.as_str(), rest]),
                None => filled.extend(["{", part]),
            }
        }
        filled
    }

    fn named(&self, name: &str) -> Option<String> {
        if name == "key" {
            return Some(uuid::Uuid::new_v4().simple().to_string());
        }
        let (table, place) = name.split_once('.').unwrap_or((name, "0"));
        let ids = self.ids.get(table)?;
        ids.get(place.parse::<usize>().ok()? % ids.len().max(1)).cloned()
    }

    async fn club(&self) -> Club {
        let folder = TempDir::new().expect("a folder");
        std::fs::write(folder.path().join(FILE), &self.file).expect("room");
        let app = opened(folder.path()).await;
        Club { router: app.clone().router(), app, _folder: folder }
    }
}

async fn ids(conn: &mut Conn) -> HashMap<&'static str, Vec<String>> {
    let mut ids = HashMap::new();
    for (table, sql) in IDS {
        let found: Vec<(String,)> = conn.all(sql, args![]).await.expect("ids");
        ids.insert(*table, found.into_iter().map(|row| row.0).collect());
    }
    ids
}

async fn opened(folder: &Path) -> App {
    let config = Config { data: folder.to_owned(), ..Config::default() };
    let db = Db::open(&config.database()).await.expect("a database");
    App::new(db, config, Clock::fixed(NOW))
}
