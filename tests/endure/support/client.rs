use hilum::args;
use hilum::db::ids::{At, MemberId};
use hilum::db::{Db, FromRow};
use hilum::web::session;
use reqwest::StatusCode;
use reqwest::header::{CONTENT_TYPE, COOKIE, LOCATION, ORIGIN, RETRY_AFTER};
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::Duration;

/// A signed-in member's browser, without the browser: sends forms and reads pages over a socket.
#[derive(Clone)]
pub struct Client {
    http: reqwest::Client,
    base: String,
    session: String,
    member: String,
}

/// What came back; redirects are not followed.
#[derive(Debug)]
pub struct Answer {
    pub status: StatusCode,
    pub location: String,
    /// The header `Retry-After`.
    pub retry: String,
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
        let session = session::open(&mut conn, &MemberId(id.id.clone()), now).await.unwrap();
        conn.commit().await.unwrap();
        Self { member: id.id, ..Self::with_session(base, session) }
    }

    /// A browser that has this session cookie; an empty one is nobody's.
    pub fn with_session(base: &str, session: String) -> Self {
        let http = reqwest::Client::builder().redirect(reqwest::redirect::Policy::none());
        let http = http.timeout(Duration::from_secs(45)).build().unwrap();
        Self { http, base: base.to_owned(), session, member: String::new() }
    }

    /// The same session at another address of the program.
    pub fn at(&self, base: &str) -> Self {
        Self { base: base.to_owned(), ..self.clone() }
    }

    pub async fn get(&self, path: &str) -> reqwest::Result<Answer> {
        read(self.http.get(format!("{}{path}", self.base)).header(COOKIE, self.cookie())).await
    }

    /// Sends a form under `key`, as the page of this session would.
    pub async fn post(&self, path: &str, key: &str, fields: &[(&str, &str)]) -> reqwest::Result<Answer> {
        read(self.form(path, key, fields)).await
    }

    /// The same as the phone's outbox sends it.
    pub async fn outbox(&self, path: &str, key: &str, fields: &[(&str, &str)]) -> reqwest::Result<Answer> {
        read(self.form(path, key, fields).header("hilum-outbox", &self.member)).await
    }

    /// The same with a photo in the field `photo`.
    pub async fn photo(
        &self,
        path: &str,
        key: &str,
        fields: &[(&str, &str)],
        photo: &[u8],
    ) -> reqwest::Result<Answer> {
        let mut body = Vec::new();
        for (name, value) in self.pairs(key, fields) {
            let part = format!("--x\r\nContent-Disposition: form-data; name=\"{name}\"\r\n\r\n{value}\r\n");
            body.extend(part.as_bytes());
        }
        body.extend(b"--x\r\nContent-Disposition: form-data; name=\"photo\"; filename=\"a.png\"\r\n");
        body.extend(b"Content-Type: image/png\r\n\r\n");
        body.extend(photo);
        body.extend(b"\r\n--x--\r\n");
        read(self.sent(path).header(CONTENT_TYPE, "multipart/form-data; boundary=x").body(body)).await
    }

    fn form(&self, path: &str, key: &str, fields: &[(&str, &str)]) -> reqwest::RequestBuilder {
        let body = serde_html_form::to_string(self.pairs(key, fields)).unwrap();
        self.sent(path).header(CONTENT_TYPE, "application/x-www-form-urlencoded").body(body)
    }

    fn pairs(&self, key: &str, fields: &[(&str, &str)]) -> Vec<(String, String)> {
        let own = [("csrf", session::csrf(&self.session)), ("key", key.to_owned())];
        let own = own.map(|(name, value)| (name.to_owned(), value)).into_iter();
        own.chain(fields.iter().map(|(n, v)| ((*n).to_owned(), (*v).to_owned()))).collect()
    }

    fn sent(&self, path: &str) -> reqwest::RequestBuilder {
        let request = self.http.post(format!("{}{path}", self.base));
        request.header(COOKIE, self.cookie()).header(ORIGIN, &self.base)
    }

    fn cookie(&self) -> String {
        format!("hilum={}", self.session)
    }
}

async fn read(request: reqwest::RequestBuilder) -> reqwest::Result<Answer> {
    let response = request.send().await?;
    let status = response.status();
    let header =
        |name| response.headers().get(name).and_then(|v| v.to_str().ok()).unwrap_or_default().to_owned();
    let (location, retry) = (header(LOCATION), header(RETRY_AFTER));
    Ok(Answer { status, location, retry, body: response.text().await? })
}
