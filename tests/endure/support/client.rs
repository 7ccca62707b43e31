use hilum::args;
use hilum::db::ids::{At, MemberId};
use hilum::db::{Db, FromRow};
use hilum::web::session;
use reqwest::StatusCode;
use reqwest::header::{CONTENT_TYPE, COOKIE, LOCATION, ORIGIN};
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::Duration;

/// A signed-in member's browser, without the browser: sends forms and reads pages over a socket.
#[derive(Clone)]
pub struct Client {
    http: reqwest::Client,
    base: String,
    session: String,
}

/// What came back; redirects are not followed.
#[derive(Debug)]
pub struct Answer {
    pub status: StatusCode,
    pub location: String,
    pub body: String,
}

#[derive(FromRow)]
struct Id {
    id: String,
}

static NEXT: AtomicU64 = AtomicU64::new(0);

/// A key for a form, new in this run.
pub fn key() -> String {
    format!("{:08x}{:024x}", std::process::id(), NEXT.fetch_add(1, Ordering::SeqCst))
}

impl Client {
    /// Opens a session for the member who signs in as `name`, straight in the database.
    pub async fn sign_in(base: &str, db: &Db, name: &str, now: At) -> Self {
        let mut conn = db.write().await.unwrap();
        let sql = "SELECT id FROM members WHERE sign_in = $1";
        let id: Id = conn.one(sql, args![name]).await.unwrap();
        let session = session::open(&mut conn, &MemberId(id.id), now).await.unwrap();
        conn.commit().await.unwrap();
        let http = reqwest::Client::builder().redirect(reqwest::redirect::Policy::none());
        let http = http.timeout(Duration::from_secs(20)).build().unwrap();
        Self { http, base: base.to_owned(), session }
    }

    pub async fn get(&self, path: &str) -> reqwest::Result<Answer> {
        read(self.http.get(format!("{}{path}", self.base)).header(COOKIE, self.cookie())).await
    }

    /// Sends a form under `key`, as the page of this session would.
    pub async fn post(&self, path: &str, key: &str, fields: &[(&str, &str)]) -> reqwest::Result<Answer> {
        let csrf = session::csrf(&self.session);
        let mut pairs = vec![("csrf", csrf.as_str()), ("key", key)];
        pairs.extend(fields);
        let request = self.http.post(format!("{}{path}", self.base)).header(COOKIE, self.cookie());
        let request = request.header(ORIGIN, &self.base);
        let request = request.header(CONTENT_TYPE, "application/x-www-form-urlencoded");
        read(request.body(serde_html_form::to_string(pairs).unwrap())).await
    }

    fn cookie(&self) -> String {
        format!("hilum={}", self.session)
    }
}

async fn read(request: reqwest::RequestBuilder) -> reqwest::Result<Answer> {
    let response = request.send().await?;
    let status = response.status();
    let location =
        response.headers().get(LOCATION).and_then(|l| l.to_str().ok()).unwrap_or_default().to_owned();
    Ok(Answer { status, location, body: response.text().await? })
}
