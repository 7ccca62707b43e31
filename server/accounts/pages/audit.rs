use crate::accounts::store;
use crate::app::App;
use crate::audit::{self, DeedRow, Wanted, What};
use crate::error::AppError;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::{page, words};
use askama::Template;
use axum::extract::{Query, State};
use axum::response::Response;

/// Acts on one page.
const MOST: i64 = 100;
/// Days over which sign-ins are counted.
const DAYS: i64 = 30;

/// An act as it is shown.
struct Line {
    at: String,
    by: String,
    text: String,
    about: String,
}

#[derive(Template)]
#[template(path = "accounts/record.html")]
struct Record<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    members: Vec<(String, String)>,
    acts: Vec<(&'static str, &'static str)>,
    lines: Vec<Line>,
    signed_in: String,
    failed: i64,
    days: i64,
    /// The address of what came before, where there is more.
    earlier: Option<String>,
}

/// GET /members/record?member=&what=&page=: for organisers.
pub async fn show(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    chrome.member.must_organise()?;
    let asked = |name: &str| query.iter().find(|(n, _)| n == name).map_or("", |(_, v)| v.as_str()).to_owned();
    let wanted = Wanted { member: asked("member"), what: asked("what") };
    let number: i64 = asked("page").parse().unwrap_or(1).clamp(1, 100_000);
    let mut conn = app.db.read().await?;
    let mut rows = audit::page(&mut conn, &wanted, MOST + 1, (number - 1) * MOST).await?;
    let everybody = store::everybody(&mut conn).await?;
    let sign_ins = audit::sign_ins(&mut conn, chrome.now.plus_days(-DAYS)).await?;
    drop(conn);
    let more = rows.len() > MOST as usize;
    rows.truncate(MOST as usize);
    let members = everybody.into_iter().map(|m| (m.id.0, m.name));
    let shown = Record {
        form: &Form::new().with("member", &wanted.member).with("what", &wanted.what),
        members: std::iter::once((String::new(), "everybody".to_owned())).chain(members).collect(),
        acts: std::iter::once(("", "everything"))
            .chain(What::ALL.iter().map(|w| (w.key(), w.words())))
            .collect(),
        lines: rows.iter().map(|row| line(row, &chrome)).collect(),
        signed_in: words::counted(sign_ins.good, "sign-in", "sign-ins"),
        failed: sign_ins.failed,
        days: DAYS,
        earlier: more.then(|| earlier(&wanted, number + 1)).flatten(),
        chrome: &chrome,
    };
    page::page(&shown)
}

fn earlier(wanted: &Wanted, number: i64) -> Option<String> {
    let number = number.to_string();
    let pairs = [("member", &wanted.member), ("what", &wanted.what), ("page", &number)];
    serde_html_form::to_string(pairs).ok().map(|query| format!("/members/record?{query}"))
}

fn line(row: &DeedRow, chrome: &Chrome) -> Line {
    let more = if row.more.is_empty() { String::new() } else { format!(" ({})", row.more) };
    let whom = |id: bool, name: &str, else_| if id { name.to_owned() } else { else_ };
    Line {
        at: words::moment(row.at, chrome.now, chrome.member.zone()),
        by: whom(row.by_member.is_some(), &row.by_name, "nobody who is known, or the host".to_owned()),
        text: format!("{}{more}", row.words()),
        about: whom(row.about_member.is_some(), &row.about_name, String::new()),
    }
}
