use super::members::letters_of;
use crate::accounts::model::{self, Settings};
use crate::accounts::store::sessions::{self, SessionRow};
use crate::accounts::store::{self, MemberRow, feeds};
use crate::app::App;
use crate::error::AppError;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::qr::{self, Qr};
use crate::web::{page, session, words};
use askama::Template;
use axum::extract::State;
use axum::http::HeaderMap;
use axum::response::Response;

/// The forms of the page; each has its own key.
pub struct MyForms {
    pub settings: Form,
    pub letters: Form,
    pub password: Form,
    pub sessions: Form,
    pub calendar: Form,
    pub calendar_end: Form,
}

impl MyForms {
    pub fn new(chrome: &Chrome) -> Self {
        let member = &chrome.member;
        Self {
            settings: settings(&member.name, &member.measures, &member.language),
            letters: Form::new(),
            password: Form::new().with("elsewhere", "yes"),
            sessions: Form::new(),
            calendar: Form::new(),
            calendar_end: Form::new(),
        }
    }

    fn failed(&self) -> bool {
        [&self.settings, &self.letters, &self.password, &self.sessions].iter().any(|f| f.failed())
    }
}

/// The form of what members say of themselves, as it stands.
pub fn settings(name: &str, measures: &str, language: &str) -> Form {
    Form::new().with("name", name).with("measures", measures).with("language", language).remembered()
}

/// One place of signing in; its form has a key of its own.
struct Place {
    path: String,
    device: String,
    since: String,
    seen: String,
    until: String,
    here: bool,
    end: Form,
}

impl Place {
    fn new(session: &SessionRow, chrome: &Chrome, own: &str) -> Self {
        let (now, zone) = (chrome.now, chrome.member.zone());
        Self {
            path: format!("/me/sessions/{}/end", session.id()),
            device: model::device_words(&session.device),
            since: words::moment(session.made_at, now, zone),
            seen: words::moment(session.seen_at, now, zone),
            until: words::day(session.ends().day(zone), now.day(zone)),
            here: session.token_hash == own,
            end: Form::new(),
        }
    }
}

#[derive(Template)]
#[template(path = "accounts/me.html")]
struct Me<'a> {
    chrome: &'a Chrome,
    member: &'a MemberRow,
    letters: String,
    measures: [(&'static str, &'static str); 2],
    languages: [(&'static str, &'static str); 3],
    places: Vec<Place>,
    /// Since when there is a calendar.
    calendar: Option<String>,
    /// When they last proved who they are.
    proved: String,
    forms: &'a MyForms,
}

/// GET /me
pub async fn show(State(app): State<App>, chrome: Chrome, headers: HeaderMap) -> Result<Response, AppError> {
    show_me(&app, &chrome, &headers, &MyForms::new(&chrome)).await
}

pub async fn show_me(
    app: &App,
    chrome: &Chrome,
    headers: &HeaderMap,
    forms: &MyForms,
) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    let member = store::member(&mut conn, &chrome.member.id).await?;
    let letters = letters_of(&member.id, &store::all_letters(&mut conn).await?);
    let open = sessions::of(&mut conn, &member.id, chrome.now).await?;
    let calendar = feeds::made(&mut conn, &member.id).await?;
    drop(conn);
    let own = session::token(app, headers).map(|t| session::hash(&t)).unwrap_or_default();
    let zone = chrome.member.zone();
    let places = open.iter().map(|s| Place::new(s, chrome, &own)).collect();
    let calendar = calendar.map(|at| words::moment(at, chrome.now, zone));
    let proved = chrome.member.proved_at.map_or_else(String::new, |at| words::moment(at, chrome.now, zone));
    let (measures, languages) = (Settings::measures(), Settings::languages());
    let shown = Me { chrome, member: &member, letters, measures, languages, places, calendar, proved, forms };
    if forms.failed() { page::refused(&shown) } else { page::page(&shown) }
}

#[derive(Template)]
#[template(path = "accounts/calendar.html")]
struct Calendar<'a> {
    chrome: &'a Chrome,
    address: &'a str,
    code: Qr,
}

/// The secret address of the calendar, shown this once.
pub fn show_calendar(chrome: &Chrome, address: &str) -> Result<Response, AppError> {
    page::page(&Calendar { chrome, address, code: qr::qr(address)? })
}
