use super::decimal;
use crate::app::App;
use crate::db::ids::KindId;
use crate::error::AppError;
use crate::stock::published::{self, Published};
use crate::stock::store::{self, Kind};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::page;
use askama::Template;
use axum::extract::{Path, State};
use axum::response::Response;

/// A kind with its published facts in short.
struct Line {
    kind: Kind,
    days: String,
    percent: String,
}

#[derive(Template)]
#[template(path = "stock/kinds.html")]
struct List<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    kinds: Vec<Line>,
}

/// GET /kinds
pub async fn list(State(app): State<App>, chrome: Chrome) -> Result<Response, AppError> {
    draw(&app, &chrome, &Form::new()).await
}

pub async fn draw(app: &App, chrome: &Chrome, form: &Form) -> Result<Response, AppError> {
    let kinds = store::kinds(&mut app.db.read().await?).await?.into_iter().map(line).collect();
    let shown = List { chrome, form, kinds };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

fn line(kind: Kind) -> Line {
    let facts = published::of(&kind.name);
    let counts = facts.and_then(|f| f.counts.as_ref());
    let days = counts.map(|c| t!("stock-two-days", first = c.value.first_day, last = c.value.final_day));
    let percent = facts.and_then(|f| f.standard_percent.as_ref()).map(|f| format!("{} %", decimal(f.value)));
    Line { kind, days: days.unwrap_or_default(), percent: percent.unwrap_or_default() }
}

#[derive(Template)]
#[template(path = "stock/kind.html")]
struct Show<'a> {
    chrome: &'a Chrome,
    kind: &'a Kind,
    facts: Option<&'static Published>,
    /// Whether whoever looks may change it.
    may_change: bool,
    forms: &'a KindForms,
    others: Vec<(&'a str, &'a str)>,
}

impl Show<'_> {
    /// How a variety reads that the kind it was put under had too.
    fn example(&self) -> String {
        format!("{} ({})", t!("stock-some-variety"), self.kind.name)
    }
}

/// The forms of the page of a kind of the club's own; each has its own key.
pub struct KindForms {
    pub name: Form,
    pub join: Form,
}

impl KindForms {
    pub fn new(kind: &Kind) -> Self {
        Self { name: name_form(&kind.name), join: Form::new() }
    }
}

/// The form that renames a kind, as the kind stands.
pub fn name_form(name: &str) -> Form {
    Form::new().with("name", name).remembered()
}

/// GET /kinds/{id}
pub async fn show(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<KindId>,
) -> Result<Response, AppError> {
    let kind = store::kind(&mut app.db.read().await?, &id).await?;
    show_kind(&app, &chrome, &kind, &KindForms::new(&kind)).await
}

pub async fn show_kind(
    app: &App,
    chrome: &Chrome,
    kind: &Kind,
    forms: &KindForms,
) -> Result<Response, AppError> {
    let may_change = chrome.member.is_organiser() && !kind.built_in;
    let all = if may_change { store::kinds(&mut app.db.read().await?).await? } else { Vec::new() };
    let others = all.iter().filter(|other| other.id != kind.id);
    let others = others.map(|other| (other.id.0.as_str(), other.name.as_str()));
    let others = std::iter::once(("", t!("stock-choose"))).chain(others).collect();
    let facts = published::of(&kind.name);
    let shown = Show { chrome, kind, facts, may_change, forms, others };
    if forms.name.failed() || forms.join.failed() { page::refused(&shown) } else { page::page(&shown) }
}
