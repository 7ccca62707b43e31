use crate::accounts::model::Role;
use crate::accounts::proof;
use crate::accounts::store::{self, MemberRow, OwnedLetters, links};
use crate::app::App;
use crate::db::Conn;
use crate::db::ids::{LinkId, MemberId};
use crate::error::AppError;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::qr::{self, Qr};
use crate::web::{page, words};
use askama::Template;
use axum::extract::{Path, Query, State};
use axum::response::Response;

/// A member in the list.
struct Row {
    id: MemberId,
    name: String,
    letters: String,
    role: &'static str,
    since: String,
}

/// An open link in the list.
struct LinkRow {
    id: LinkId,
    what: String,
    until: String,
    form: Form,
}

#[derive(Template)]
#[template(path = "accounts/members.html")]
struct Members<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    roles: [(&'static str, &'static str); 2],
    here: Vec<Row>,
    left: Vec<Row>,
    open: Vec<LinkRow>,
    shown_before: bool,
}

/// GET /members
pub async fn list(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    let shown_before = query.iter().any(|(n, v)| n == "link" && v == "shown");
    show_list(&app, &chrome, &Form::new().with("role", "grower"), shown_before).await
}

pub async fn show_list(
    app: &App,
    chrome: &Chrome,
    form: &Form,
    shown_before: bool,
) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    let everybody = store::everybody(&mut conn).await?;
    let letters = store::all_letters(&mut conn).await?;
    let open = if chrome.member.is_organiser() { open_links(&mut conn, chrome).await? } else { Vec::new() };
    drop(conn);
    let (here, left): (Vec<MemberRow>, Vec<MemberRow>) =
        everybody.into_iter().partition(|m| m.left_at.is_none());
    let rows =
        |members: Vec<MemberRow>| members.into_iter().map(|m| row(m, &letters, chrome)).collect::<Vec<_>>();
    let (here, left) = (rows(here), rows(left));
    let shown = Members { chrome, form, roles: Role::choices(), here, left, open, shown_before };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

fn row(member: MemberRow, letters: &[OwnedLetters], chrome: &Chrome) -> Row {
    let (zone, today) = (chrome.member.zone(), chrome.now.day(chrome.member.zone()));
    let day = |at: crate::db::ids::At| words::day(at.day(zone), today);
    let since = member.left_at.map_or_else(|| t!("accounts-since", day = day(member.made_at)), day);
    Row {
        letters: letters_of(&member.id, letters),
        role: member.role_words(),
        id: member.id,
        name: member.name,
        since,
    }
}

/// `JB, JC`, newest first.
pub fn letters_of(member: &MemberId, letters: &[OwnedLetters]) -> String {
    let own = letters.iter().filter(|l| l.member_id == *member).map(|l| l.shown.as_str());
    own.collect::<Vec<_>>().join(", ")
}

async fn open_links(conn: &mut Conn, chrome: &Chrome) -> Result<Vec<LinkRow>, AppError> {
    let zone = chrome.member.zone();
    let rows = links::open(conn, chrome.now).await?.into_iter().map(|link| {
        let what = match link.purpose.as_str() {
            "reset" => t!("accounts-reset-link-for", name = link.member),
            _ => t!("accounts-invitation-as", role = link.role),
        };
        let what = match link.made_by.as_str() {
            "" => what,
            name => t!("accounts-link-made-by", link = what, name = name),
        };
        let until = words::moment(link.expires_at, chrome.now, zone);
        LinkRow { id: link.id, what, until, form: Form::new() }
    });
    Ok(rows.collect())
}

/// The forms of one member's page; each has its own key.
pub struct MemberForms {
    pub reset: Form,
    pub sessions: Form,
    pub role: Form,
    pub leave: Form,
}

impl MemberForms {
    pub fn new(member: &MemberRow) -> Self {
        Self { reset: Form::new(), sessions: Form::new(), role: role_of(member), leave: Form::new() }
    }

    fn failed(&self) -> bool {
        [&self.reset, &self.role, &self.leave].iter().any(|f| f.failed())
    }
}

/// The form of the role as it stands.
pub fn role_of(member: &MemberRow) -> Form {
    Form::new().with("role", &member.role).remembered()
}

#[derive(Template)]
#[template(path = "accounts/member.html")]
struct ShowMember<'a> {
    chrome: &'a Chrome,
    member: &'a MemberRow,
    letters: String,
    own: bool,
    /// Whether organiser's acts pass now, and where to prove oneself if not.
    proved: bool,
    proof: String,
    roles: [(&'static str, &'static str); 2],
    forms: &'a MemberForms,
}

/// GET /members/{id}: for organisers.
pub async fn show(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<MemberId>,
) -> Result<Response, AppError> {
    chrome.member.must_organise()?;
    let member = store::member(&mut app.db.read().await?, &id).await?;
    show_member(&app, &chrome, &member, &MemberForms::new(&member)).await
}

pub async fn show_member(
    app: &App,
    chrome: &Chrome,
    member: &MemberRow,
    forms: &MemberForms,
) -> Result<Response, AppError> {
    let letters = letters_of(&member.id, &store::all_letters(&mut app.db.read().await?).await?);
    let own = member.id == chrome.member.id;
    let proved = chrome.member.proved_within(proof::ORGANISER_MINUTES, chrome.now);
    let proof = proof::path(&format!("/members/{}", member.id));
    let shown = ShowMember { chrome, member, letters, own, proved, proof, roles: Role::choices(), forms };
    if forms.failed() { page::refused(&shown) } else { page::page(&shown) }
}

#[derive(Template)]
#[template(path = "accounts/link.html")]
struct ShowLink<'a> {
    chrome: &'a Chrome,
    title: &'a str,
    text: &'a str,
    until: String,
    link: &'a str,
    code: Qr,
}

/// A one-time link, shown this once.
pub fn show_link(
    chrome: &Chrome,
    (title, text): (&str, &str),
    link: &str,
    days: i64,
) -> Result<Response, AppError> {
    let until = words::moment(chrome.now.plus_days(days), chrome.now, chrome.member.zone());
    page::page(&ShowLink { chrome, title, text, until, link, code: qr::qr(link)? })
}
