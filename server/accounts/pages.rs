use super::store;
use crate::app::App;
use crate::error::AppError;
use crate::web::forms::Form;
use crate::web::{page, static_files};
use askama::Template;
use axum::extract::{Path, Query, State};
use axum::response::Response;

#[derive(Template)]
#[template(path = "accounts/sign_in.html")]
struct SignIn<'a> {
    css: &'a str,
    club: &'a str,
    form: &'a Form,
}

/// GET /sign-in
pub async fn sign_in(
    State(app): State<App>,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    let next = query.into_iter().find(|(n, _)| n == "next").map(|(_, v)| v).unwrap_or_default();
    show_sign_in(&app, &Form::new().with("next", next)).await
}

pub(super) async fn show_sign_in(app: &App, form: &Form) -> Result<Response, AppError> {
    let club = store::club_name(&mut app.db.read().await?).await?;
    let shown = SignIn { css: static_files::css(), club: &club, form };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

#[derive(Template)]
#[template(path = "accounts/join.html")]
struct Join<'a> {
    css: &'a str,
    title: &'a str,
    intro: &'a str,
    button: &'a str,
    set_up: bool,
    form: &'a Form,
}

/// GET /join/{token}
pub async fn join(State(app): State<App>, Path(token): Path<String>) -> Result<Response, AppError> {
    let link = store::link(&mut app.db.read().await?, &token, app.now()).await?.ok_or(AppError::NotFound)?;
    show_join(link.purpose == "set-up", &Form::new())
}

pub(super) fn show_join(set_up: bool, form: &Form) -> Result<Response, AppError> {
    let (title, intro, button) = if set_up {
        ("Set up your club", "You will be its first organiser. This link works once.", "Start the club")
    } else {
        ("Join the club", "Welcome. This invitation works once.", "Join")
    };
    let shown = Join { css: static_files::css(), title, intro, button, set_up, form };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}
