use crate::app::App;
use crate::error::AppError;
use crate::trays::model::Tray;
use crate::trays::published::{GRIDS, OUTER, Published, Size};
use crate::trays::store;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::page;
use askama::Template;
use axum::extract::{Query, State};
use axum::response::Response;

#[derive(Template)]
#[template(path = "trays/list.html")]
struct List<'a> {
    chrome: &'a Chrome,
    open: Vec<&'a Tray>,
    finished: Vec<&'a Tray>,
}

/// GET /trays
pub async fn list(State(app): State<App>, chrome: Chrome) -> Result<Response, AppError> {
    let trays = store::tray::every(&mut app.db.read().await?, &chrome.member.id).await?;
    let (open, finished) = trays.iter().partition(|t| t.finished_at.is_none());
    page::page(&List { chrome: &chrome, open, finished })
}

#[derive(Template)]
#[template(path = "trays/new.html")]
struct New<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    choices: Vec<(String, String)>,
    published: &'a [Published],
    sizes: &'a [Size],
}

/// GET /trays/new
pub async fn new(chrome: Chrome, Query(query): Query<Vec<(String, String)>>) -> Result<Response, AppError> {
    let bag = query.into_iter().find(|(n, _)| n == "bag").map(|(_, v)| v).unwrap_or_default();
    show_new(&chrome, &Form::new().with("bag", bag).with("geometry", "12x6"))
}

pub(in crate::trays) fn show_new(chrome: &Chrome, form: &Form) -> Result<Response, AppError> {
    let mut choices: Vec<(String, String)> = GRIDS.iter().map(|p| (p.value(), p.words())).collect();
    choices.push(("own".into(), t!("trays-another-one").to_owned()));
    let shown = New { chrome, form, choices, published: &GRIDS, sizes: &OUTER };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}
