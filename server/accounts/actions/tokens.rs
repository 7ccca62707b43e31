//! Tokens for a member's own programs: made, and ended.

use crate::accounts::model::NewToken;
use crate::accounts::pages::tokens;
use crate::accounts::store::tokens as store;
use crate::app::App;
use crate::audit::{self, Deed, What};
use crate::db::ids::TokenId;
use crate::error::AppError;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::once;
use crate::web::said::Said;
use axum::extract::{Path, State};
use axum::response::Response;

/// POST /me/tokens: makes a token, which is shown this once.
pub async fn make(State(app): State<App>, chrome: Chrome, mut form: Form) -> Result<Response, AppError> {
    let new = NewToken::parse(&mut form);
    if form.failed() {
        return tokens::show_tokens(&app, &chrome, &form).await;
    }
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "token", &form).await? {
        return Ok(again);
    }
    let made = store::make(&mut conn, &chrome.member.id, &new, app.now()).await;
    let Some((_, secret)) = form.take(made)? else {
        drop(conn);
        return tokens::show_tokens(&app, &chrome, &form).await;
    };
    audit::note(&mut conn, Deed::by(What::TokenMade, &chrome.member.id).more(new.may), app.now()).await?;
    once::keep(conn, &form, "/me/tokens").await?;
    tokens::show_token(&app, &chrome, &new, &secret)
}

/// POST /me/tokens/{id}/end
pub async fn end(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<TokenId>,
    form: Form,
) -> Result<Response, AppError> {
    let mut conn = app.db.write().await?;
    let action = format!("end token {id}");
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, &action, &form).await? {
        return Ok(again);
    }
    store::end(&mut conn, &chrome.member.id, &id, app.now()).await?;
    audit::note(&mut conn, Deed::by(What::TokenEnded, &chrome.member.id), app.now()).await?;
    once::done(conn, &app, &form, "/me/tokens", Said::new(t!("accounts-token-ended"))).await
}
