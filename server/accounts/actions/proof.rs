//! Proving again, while signed in, who one is.

use super::enter;
use crate::accounts::model;
use crate::accounts::pages::proof as pages;
use crate::accounts::proof::{self, Asker, Proof};
use crate::accounts::store::{self, sessions};
use crate::app::App;
use crate::audit::{self, Deed, What};
use crate::error::AppError;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::said::Said;
use crate::web::session;
use axum::extract::State;
use axum::http::HeaderMap;
use axum::response::Response;

/// POST /me/proof: with the password. The session goes on under a new secret.
pub async fn prove(
    State(app): State<App>,
    chrome: Chrome,
    asker: Asker,
    headers: HeaderMap,
    mut form: Form,
) -> Result<Response, AppError> {
    let member = store::member(&mut app.db.read().await?, &chrome.member.id).await?;
    match proof::prove(&app, &member.sign_in, form.value("current"), &asker).await? {
        Proof::Member(_) => {}
        Proof::Wrong => form.refuse("current", t!("accounts-not-your-password")),
        Proof::Wait(seconds) => form.refuse("current", proof::wait_words(seconds)),
    }
    if form.failed() {
        return pages::show_proof(&app, &chrome, &form).await;
    }
    let mut conn = app.db.write().await?;
    let old = session::token(&app, &headers).unwrap_or_default();
    let Some(token) = sessions::renew(&mut conn, &old, app.now()).await? else {
        return Err(AppError::SignIn { next: "/me/proof".to_owned(), sent: false });
    };
    audit::note(&mut conn, Deed::by(What::Proved, &member.id).more("password"), app.now()).await?;
    conn.commit().await?;
    let next = model::safe_next(form.value("next"));
    let said = Said::new(t!("accounts-thank-you-go-on"));
    let mut response = said.go(&app, if next == "/" { "/me" } else { next });
    enter::add(&mut response, &[session::set_cookie(&app, &token)])?;
    Ok(response)
}
