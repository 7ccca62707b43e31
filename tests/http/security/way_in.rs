//! A fault at each statement of the way in, one by one: who may not come in never does, and who may comes in as who
//! they are or not at all.

use super::club;
use crate::accounts::{PASSWORD, hash_of, keep_hash};
use crate::api::{Shed, token};
use crate::support::Browser;
use axum::Router;
use axum::body::Body;
use axum::http::header::{AUTHORIZATION, CONTENT_TYPE, COOKIE, HOST, LOCATION, ORIGIN, SET_COOKIE};
use axum::http::{HeaderMap, Request};
use hilum::app::App;
use hilum::args;
use hilum::db::FromRow;
use http_body_util::BodyExt;
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};
use tower::ServiceExt;

/// Counts statements; the one whose turn it is fails.
#[derive(Default)]
struct Faults {
    ran: AtomicUsize,
    at: AtomicUsize,
}

impl Faults {
    fn here(&self) -> bool {
        self.ran.fetch_add(1, Ordering::SeqCst) == self.at.load(Ordering::SeqCst)
    }
}

/// One way to ask for something.
#[derive(Default)]
struct Way {
    name: &'static str,
    path: String,
    /// A form; without any the path is read.
    fields: Vec<(&'static str, String)>,
    headers: Vec<(&'static str, String)>,
    /// As whom one comes in; empty where one must not.
    comes_as: &'static str,
}

impl Way {
    fn new(name: &'static str, path: impl Into<String>, comes_as: &'static str) -> Self {
        Self { name, path: path.into(), comes_as, ..Self::default() }
    }

    fn sent(mut self, fields: &[(&'static str, &str)]) -> Self {
        self.fields = fields.iter().map(|(n, v)| (*n, (*v).to_owned())).collect();
        self
    }

    fn with(mut self, header: &'static str, value: impl Into<String>) -> Self {
        self.headers.push((header, value.into()));
        self
    }

    fn by(self, browser: &Browser) -> Self {
        self.by_session(&browser.cookie("hilum"))
    }

    fn by_session(self, session: &str) -> Self {
        self.with(COOKIE.as_str(), format!("hilum={session}"))
    }

    fn by_token(self, token: &str) -> Self {
        self.with(AUTHORIZATION.as_str(), format!("Bearer {token}"))
    }
}

/// What came of asking: what is shown, and the session that was given.
#[derive(Debug)]
struct Came {
    status: u16,
    shown: String,
    session: Option<String>,
}

impl Came {
    fn is_in(&self) -> bool {
        self.status < 400 || self.session.is_some()
    }
}

struct Door {
    shed: Shed,
    router: Router,
    faults: Arc<Faults>,
}

impl Door {
    fn of(shed: Shed) -> Self {
        let (faults, app) = (Arc::new(Faults::default()), &shed.club.app);
        let counting = faults.clone();
        let db = app.db.clone().failing(move |_| counting.here());
        let router = App::new(db, (*app.config).clone(), app.clock.clone()).router();
        Self { shed, router, faults }
    }

    /// Asks with a fault at the `n`-th statement; whether it was reached.
    async fn ask(&self, way: &Way, n: usize) -> (Came, bool) {
        // sessions note their use each hour, and wrong passwords are forgiven
        self.shed.club.pass_minutes(70);
        self.faults.ran.store(0, Ordering::SeqCst);
        self.faults.at.store(n, Ordering::SeqCst);
        let method = if way.fields.is_empty() { "GET" } else { "POST" };
        let mut request = Request::builder().method(method).uri(&way.path).header(HOST, "club.test");
        for (name, value) in &way.headers {
            request = request.header(*name, value);
        }
        let form = "application/x-www-form-urlencoded";
        let request = request.header(ORIGIN, "http://club.test").header(CONTENT_TYPE, form);
        let body = Body::from(serde_html_form::to_string(&way.fields).unwrap());
        let response = self.router.clone().oneshot(request.body(body).unwrap()).await.unwrap();
        let (parts, body) = response.into_parts();
        let bytes = body.collect().await.unwrap().to_bytes();
        let away = parts.headers.get(LOCATION).is_some_and(|to| to.to_str().unwrap().starts_with("/sign-in"));
        let status = if away { 401 } else { parts.status.as_u16() };
        let shown = String::from_utf8_lossy(&bytes).into_owned();
        let came = Came { status, shown, session: session(&parts.headers) };
        (came, self.faults.ran.load(Ordering::SeqCst) > n)
    }

    /// Tries it with a fault at each statement, and without; how many there are.
    async fn tried(&self, way: &Way) -> usize {
        let (came, _) = self.ask(way, usize::MAX).await;
        assert_eq!(came.is_in(), !way.comes_as.is_empty(), "{} without a fault: {came:?}", way.name);
        self.is_right(way, &came).await;
        let mut n = 0;
        loop {
            let (came, reached) = self.ask(way, n).await;
            if !reached {
                return n;
            }
            if came.is_in() {
                assert!(
                    !way.comes_as.is_empty(),
                    "{} came in by a fault at statement {n}: {came:?}",
                    way.name
                );
                self.is_right(way, &came).await;
            }
            n += 1;
        }
    }

    /// Whoever is in is in as who they are.
    async fn is_right(&self, way: &Way, came: &Came) {
        if !came.is_in() {
            return;
        }
        let shown = match &came.session {
            Some(session) => self.shed.jo.with_cookie("hilum", session).get("/me").await.body,
            None => came.shown.clone(),
        };
        let others = ["Jo", "Lea", "Kim"].into_iter().filter(|name| *name != way.comes_as);
        assert!(shown.contains(way.comes_as), "{}: {shown}", way.name);
        for other in others {
            assert!(!shown.contains(&format!(">{other}</a>")), "{} came in as {other}", way.name);
        }
    }
}

fn session(headers: &HeaderMap) -> Option<String> {
    let cookies = headers.get_all(SET_COOKIE).iter().map(|c| c.to_str().unwrap());
    let values = cookies.filter_map(|c| c.strip_prefix("hilum=")?.split(';').next());
    values.filter(|value| !value.is_empty()).map(str::to_owned).next()
}

#[derive(FromRow)]
struct Role {
    role: String,
}

#[tokio::test]
async fn a_fault_on_the_way_in_lets_nobody_in_and_makes_nobody_another() {
    let (shed, lea) = club().await;
    let kim = shed.club.grower("Kim", "KK").await;
    let gone = shed.club.grower("Ole", "OL").await;
    for who in [&lea, &gone] {
        keep_hash(&shed.club, who, &hash_of(PASSWORD, (19 * 1024, 2, 1))).await;
    }
    let ended = token(&shed.club, &shed.jo, "read").await;
    let mut conn = shed.club.app.db.write().await.unwrap();
    let now = shed.club.app.now();
    conn.run("UPDATE members SET left_at = $2 WHERE id = $1", args![gone.id(), now]).await.unwrap();
    let hash = hilum::web::session::hash(&ended);
    conn.run("UPDATE tokens SET ended_at = $2 WHERE secret_hash = $1", args![hash, now]).await.unwrap();
    conn.commit().await.unwrap();
    let bag = format!("/bags/{}", shed.bag);
    let right = [("sign_in", "lea"), ("password", PASSWORD)];
    let ways = [
        Way::new("a page", "/me", "Jo").by(&shed.jo),
        Way::new("one's bag", &bag, "Jo").by(&shed.jo),
        Way::new("an organiser's page", "/clubs", "Lea").by(&lea),
        Way::new("an organiser's page, by a grower", "/clubs", "").by(&shed.jo),
        Way::new("the record, by a grower", "/members/record", "").by(&shed.jo),
        Way::new("another's bag", &bag, "").by(&kim),
        Way::new("a made-up session", "/me", "").by_session("made-up"),
        Way::new("a session of who left", "/me", "").by(&gone),
        Way::new("no session", "/me", ""),
        Way::new("a token", "/api/v1/me", "Jo").by_token(&shed.token),
        Way::new("an ended token", "/api/v1/me", "").by_token(&ended),
        Way::new("a calendar nobody made", "/calendar/made-up.ics", ""),
        Way::new("the right password", "/sign-in", "Lea").sent(&right),
        Way::new("a wrong password", "/sign-in", "").sent(&[("sign_in", "lea"), ("password", "wrong")]),
        Way::new("who left", "/sign-in", "").sent(&[("sign_in", "ole"), ("password", PASSWORD)]),
        Way::new("a proof that is none", "/me/proof", "").by(&lea).sent(&[("current", "wrong")]),
        Way::new("a made-up reset link", "/reset/made-up", "").sent(&[("password", PASSWORD)]),
        Way::new("a made-up invitation", "/join/made-up", "")
            .sent(&[("sign_in", "x"), ("password", PASSWORD)]),
        Way::new("a role, by a grower", format!("/members/{}/role", shed.jo.id()), "")
            .by(&shed.jo)
            .sent(&[("role", "organiser")]),
        Way::new("a count of another's", format!("{bag}/count"), "").by(&kim).sent(&[("rooted", "1")]),
        Way::new("another's outbox", format!("{bag}/count"), "")
            .by(&shed.jo)
            .with("hilum-outbox", lea.id().0.clone())
            .sent(&[("rooted", "1")]),
    ];
    let door = Door::of(shed);
    let mut statements = 0;
    for way in &ways {
        let n = door.tried(way).await;
        println!("{}: {n} statements", way.name);
        statements += n;
    }
    assert!(statements > 60, "{statements}");
    let sql = "SELECT role FROM members WHERE id = $1";
    let role: Role =
        door.shed.club.app.db.read().await.unwrap().one(sql, args![door.shed.jo.id()]).await.unwrap();
    assert_eq!(role.role, "grower");
}
