use crate::accounts::store;
use crate::app::App;
use crate::audit::{self, DeedRow, SignIns, Wanted, What};
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
#[derive(Default)]
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
    sign_ins: SignIns,
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
        members: std::iter::once((String::new(), t!("accounts-everybody").to_owned()))
            .chain(members)
            .collect(),
        acts: std::iter::once(("", t!("accounts-everything")))
            .chain(What::ALL.iter().map(|w| (w.key(), w.words())))
            .collect(),
        lines: rows.chunk_by(one_line).map(|rows| line(rows, &chrome)).collect(),
        sign_ins,
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

/// Failed sign-ins in a row for one name stand on one line.
fn one_line(a: &DeedRow, b: &DeedRow) -> bool {
    let failed = |row: &DeedRow| row.is(What::SignInFailed);
    failed(a) && failed(b) && a.about_member == b.about_member && a.more == b.more
}

/// Acts that stand on one line, the latest first.
fn line(rows: &[DeedRow], chrome: &Chrome) -> Line {
    let Some((row, first)) = rows.first().zip(rows.last()) else { return Line::default() };
    let more = if row.more.is_empty() { String::new() } else { format!(" ({})", row.more_words()) };
    let moment = |at| words::moment(at, chrome.now, chrome.member.zone());
    let by = if row.by_member.is_some() {
        row.by_name.clone()
    } else if row.is(What::SignInFailed) {
        t!("accounts-somebody-not-known").to_owned()
    } else {
        t!("accounts-the-host-by-a-command").to_owned()
    };
    let (at, text) = match rows.len() {
        1 => (moment(row.at), row.words().to_owned()),
        n => {
            let span = words::span(((row.at.0 - first.at.0) / 60).max(1));
            (
                t!("accounts-from-to", first = moment(first.at), last = moment(row.at)),
                t!("accounts-sign-ins-failed", n = n, span = span),
            )
        }
    };
    let about = if row.about_member.is_some() { row.about_name.clone() } else { String::new() };
    Line { at, by, text: format!("{text}{more}"), about }
}
