//! Who asks, by a token alone: cookies do not count here.

use super::problem::{Problem, kinds};
use crate::accounts::store::tokens::{self, Holder};
use crate::app::App;
use crate::db::Conn;
use crate::db::ids::MemberId;
use crate::error::AppError;
use crate::web::address::Address;
use crate::web::log;
use axum::extract::{FromRequestParts, Query, RawPathParams};
use axum::http::HeaderMap;
use axum::http::header::{ACCEPT, AUTHORIZATION};
use axum::http::request::Parts;

/// A request with a good token.
#[derive(Clone)]
pub struct Ask {
    pub app: App,
    /// The member measures in metric units here, whatever the pages show.
    pub holder: Holder,
    /// What stands in the path; empty where nothing does.
    pub id: String,
    pub query: Vec<(String, String)>,
    path: String,
}

impl Ask {
    pub fn member(&self) -> &MemberId {
        &self.holder.member.id
    }

    pub fn zone(&self) -> chrono_tz::Tz {
        self.holder.member.zone()
    }

    pub async fn conn(&self) -> Result<Conn, AppError> {
        Ok(self.app.db.read().await?)
    }

    /// What the query says under `name`; empty where nothing.
    pub fn value(&self, name: &str) -> &str {
        self.query.iter().find(|(n, _)| n == name).map_or("", |(_, v)| v)
    }

    /// The path asked for, with its names but for `but`, and `more`.
    pub fn address(&self, but: &str, more: (&str, &str)) -> String {
        let kept = self.query.iter().map(|(n, v)| (n.as_str(), v.as_str())).filter(|(n, _)| *n != but);
        let pairs: Vec<(&str, &str)> = kept.chain([more]).collect();
        format!("{}?{}", self.path, serde_html_form::to_string(&pairs).unwrap_or_default())
    }

    /// Refuses names in the query other than `names`.
    pub fn knows<'n>(&self, names: impl Iterator<Item = &'n str>) -> Result<(), Problem> {
        let names: Vec<&str> = names.collect();
        match self.query.iter().find(|(name, _)| !names.contains(&name.as_str())) {
            None => Ok(()),
            Some((name, _)) => Err(Problem::query(name, "There is no such name here.")),
        }
    }
}

impl FromRequestParts<App> for Ask {
    type Rejection = Problem;

    async fn from_request_parts(parts: &mut Parts, app: &App) -> Result<Self, Problem> {
        let mut holder = holder(app, parts).await?;
        log::asks(&holder.member);
        holder.member.measures = "metric".to_owned();
        if !takes_json(&parts.headers) {
            return Err(Problem::of(&kinds::ACCEPT));
        }
        let named = RawPathParams::from_request_parts(parts, app).await;
        let named = named.map_err(|_| Problem::of(&kinds::NOT_FOUND))?;
        let id = named.iter().next().map_or_else(String::new, |(_, id)| id.to_owned());
        let query = Query::<Vec<(String, String)>>::try_from_uri(&parts.uri);
        let Query(query) = query.map_err(|_| Problem::of(&kinds::BAD))?;
        // no database can hold it
        let odd = |text: &str| text.contains('\0');
        if odd(&id) || query.iter().any(|(name, value)| odd(name) || odd(value)) {
            return Err(Problem::of(&kinds::NOT_FOUND));
        }
        Ok(Self { app: app.clone(), holder, id, query, path: parts.uri.path().to_owned() })
    }
}

/// Whether an answer in JSON is welcome (RFC 9110, section 12.5.1); a problem is always told.
fn takes_json(headers: &HeaderMap) -> bool {
    let asked: Vec<&str> = headers.get_all(ACCEPT).iter().filter_map(|v| v.to_str().ok()).collect();
    let sort = |range: &str| range.split(';').next().unwrap_or_default().trim().to_ascii_lowercase();
    let mut ranges = asked.iter().flat_map(|line| line.split(',')).map(sort);
    asked.is_empty() || ranges.any(|r| ["*/*", "application/*", "application/json"].contains(&r.as_str()))
}

/// The holder of the token that came along.
async fn holder(app: &App, parts: &mut Parts) -> Result<Holder, Problem> {
    let Some(secret) = bearer(&parts.headers) else {
        return Err(Problem::of(&kinds::TOKEN).challenge(""));
    };
    if let Some(holder) = find(app, secret).await? {
        return Ok(holder);
    }
    let Ok(Address(address)) = Address::from_request_parts(parts, app).await;
    let from = format!("token {address}");
    match app.throttle.begin(&from, &from, app.now()) {
        Ok(()) => Err(Problem::of(&kinds::TOKEN).challenge(", error=\"invalid_token\"")),
        Err(seconds) => Err(Problem::of(&kinds::MANY).after_seconds(seconds)),
    }
}

fn bearer(headers: &HeaderMap) -> Option<&str> {
    let value = headers.get(AUTHORIZATION)?.to_str().ok()?;
    let (scheme, token) = value.split_once(' ')?;
    scheme.eq_ignore_ascii_case("bearer").then(|| token.trim())
}

async fn find(app: &App, secret: &str) -> Result<Option<Holder>, AppError> {
    let now = app.now();
    let found = tokens::holder(&mut app.db.read().await?, secret, now).await?;
    if let Some(holder) = found.as_ref().filter(|h| h.is_new_today(now)) {
        // reading goes on where nothing can be written
        if let Err(error) = note(app, holder).await {
            tracing::warn!(%error, "the use of a token was not noted");
        }
    }
    Ok(found)
}

async fn note(app: &App, holder: &Holder) -> Result<(), AppError> {
    let mut conn = app.db.write().await?;
    tokens::used(&mut conn, &holder.token, app.now()).await?;
    Ok(conn.commit().await?)
}
