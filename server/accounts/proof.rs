//! Proving who one is; slow when it went wrong often.

use super::store::{Secret, devices};
use super::{model, passwords, store};
use crate::app::App;
use crate::audit::{self, Deed, What};
use crate::db::ids::MemberId;
use crate::error::AppError;
use crate::web::address::Address;
use crate::web::chrome::Chrome;
use crate::web::said::Said;
use crate::web::session;
use axum::extract::FromRequestParts;
use axum::http::header::USER_AGENT;
use axum::http::request::Parts;
use axum::response::Response;
use std::convert::Infallible;
use tracing::Instrument;

/// How long a proof lasts for what organisers do about members: a working day.
pub const ORGANISER_MINUTES: i64 = 12 * 60;
/// How long it lasts for what opens or ends the member's own account.
pub const ACCOUNT_MINUTES: i64 = 15;

/// Compared against when the name is unknown, so that both answers take the same time.
const NOBODY: &str =
    "$argon2id$v=19$m=19456,t=2,p=1$AAAAAAAAAAAAAAAAAAAAAA$AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA";

/// Marks a browser in which somebody signed in before.
const COOKIE: &str = "hilum-known";

/// Who wants to prove who they are: from where, and in which browser.
#[derive(Debug, Clone)]
pub struct Asker {
    pub address: Address,
    /// The secret of a browser in which somebody signed in before.
    pub known: Option<String>,
    /// The browser in words.
    pub device: String,
}

impl FromRequestParts<App> for Asker {
    type Rejection = Infallible;

    async fn from_request_parts(parts: &mut Parts, app: &App) -> Result<Self, Infallible> {
        let address = Address::from_request_parts(parts, app).await?;
        let known = session::cookie(app, &parts.headers, COOKIE);
        let agent = parts.headers.get(USER_AGENT).and_then(|v| v.to_str().ok()).unwrap_or_default();
        Ok(Self { address, known, device: model::device(agent) })
    }
}

/// A `Set-Cookie` value by which the browser is known from now on.
pub fn known_cookie(app: &App, secret: &str) -> String {
    session::bake(app, COOKIE, secret, devices::DAYS * 86_400)
}

/// What came of a try.
#[derive(Debug)]
pub enum Proof {
    Member(MemberId),
    Wrong,
    /// Seconds until the next try is looked at.
    Wait(i64),
}

/// Looks whether `password` is that of `sign_in`. Call it outside transactions. A browser in which that member signed
/// in before is counted by itself, so that nobody who guesses elsewhere keeps the member out.
pub async fn prove(app: &App, sign_in: &str, password: &str, asker: &Asker) -> Result<Proof, AppError> {
    let account = model::sign_in_key(sign_in);
    let mut conn = app.db.read().await?;
    let device = match &asker.known {
        Some(secret) => devices::known(&mut conn, secret, &account, app.now()).await?,
        None => None,
    };
    let (tries, from) = match &device {
        Some(device) => (format!("known {device}"), format!("known {device}")),
        None => (account, asker.address.0.clone()),
    };
    if let Err(seconds) = app.throttle.begin(&tries, &from, app.now()) {
        tracing::warn!(seconds, address = asker.address.0, "signing in was slowed down");
        return Ok(Proof::Wait(seconds));
    }
    let known = store::secret(&mut conn, sign_in).await?;
    drop(conn);
    let hash = known.as_ref().map_or(NOBODY, |s| &s.password_hash).to_owned();
    let good = passwords::matches(app, password.to_owned(), hash).await?;
    let Some(secret) = known.as_ref().filter(|_| good) else {
        failed(app, &asker.address, known);
        return Ok(Proof::Wrong);
    };
    app.throttle.succeeded(&tries, &from);
    if passwords::is_old(&secret.password_hash) {
        renew(app, secret, password);
    }
    Ok(Proof::Member(secret.id.clone()))
}

/// Makes the hash anew as hashes are made today; beside the answer, and what goes wrong with it keeps nobody out.
fn renew(app: &App, secret: &Secret, password: &str) {
    let (app, secret, password) = (app.clone(), secret.clone(), password.to_owned());
    let renewing = async move {
        let renewed = async {
            let hash = passwords::hashed(&app, password).await?;
            let mut conn = app.db.write().await?;
            store::renew_password(&mut conn, &secret, &hash).await?;
            Ok::<(), AppError>(conn.commit().await?)
        };
        if let Err(error) = renewed.await {
            tracing::warn!(%error, "an old hash of a password was not made anew");
        }
    };
    tokio::spawn(renewing.in_current_span());
}

/// Records a try that failed; beside the answer, so that an unknown name is answered no sooner than a known one. What
/// was typed is not told: it may be a password in the wrong field.
fn failed(app: &App, address: &Address, known: Option<Secret>) {
    tracing::warn!(address = address.0, known = known.is_some(), method = "password", "a sign-in failed");
    let Some(secret) = known else { return };
    let app = app.clone();
    let noting = async move {
        let noted = async {
            let mut conn = app.db.write().await?;
            let deed = Deed::host(What::SignInFailed).about(&secret.id).more("password");
            audit::note(&mut conn, deed, app.now()).await?;
            Ok::<(), AppError>(conn.commit().await?)
        };
        if let Err(error) = noted.await {
            tracing::warn!(%error, "a failed sign-in was not recorded");
        }
    };
    tokio::spawn(noting.in_current_span());
}

/// What to tell somebody who has to wait.
pub fn wait_words(seconds: i64) -> String {
    t!("accounts-too-many-tries", n = seconds)
}

/// The way to prove oneself again and come back to `page`.
pub fn path(page: &str) -> String {
    serde_html_form::to_string([("next", page)])
        .map_or_else(|_| "/me/proof".to_owned(), |query| format!("/me/proof?{query}"))
}

/// Where the member's last proof is older than `minutes`: the answer that leads to `page`, which says what to do.
pub fn wanted(app: &App, chrome: &Chrome, minutes: i64, page: &str) -> Option<Response> {
    let old = !chrome.member.proved_within(minutes, chrome.now);
    old.then(|| {
        let said = Said::new(t!("accounts-nothing-was-done-yet"));
        said.next(path(page), t!("accounts-prove-with-password")).go(app, page)
    })
}

#[cfg(test)]
mod tests {
    use super::NOBODY;
    use argon2::password_hash::PasswordHash;

    /// The same work as for a member: the settings of `passwords::hasher`.
    #[test]
    fn nobodys_hash_takes_as_long_as_a_members() {
        let nobody = PasswordHash::new(NOBODY).unwrap();
        let settings: Vec<(String, u32)> =
            nobody.params.iter().map(|(n, v)| (n.to_string(), v.decimal().unwrap())).collect();
        let wanted = [("m", 19 * 1024), ("t", 2), ("p", 1)].map(|(n, v)| (n.to_owned(), v));
        assert_eq!(settings, wanted);
        assert_eq!((nobody.algorithm.as_str(), nobody.hash.unwrap().len()), ("argon2id", 32));
    }
}
