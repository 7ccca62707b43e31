use crate::app::App;
use crate::db::Conn;
use crate::db::ids::VarietyId;
use crate::error::AppError;
use crate::rings::model::{Grower, Lot, USUAL_LOTS, certainties};
use crate::rings::store::{self, Offered};
use crate::stock::store as stock;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::page;
use askama::Template;
use axum::extract::{Query, State};
use axum::response::Response;

#[derive(Template)]
#[template(path = "rings/choose.html")]
struct Choose<'a> {
    chrome: &'a Chrome,
    offered: Vec<Offered>,
}

/// What there is to choose from for one variety.
pub struct Offers {
    pub variety: stock::Variety,
    pub lots: Vec<Lot>,
    pub members: Vec<Grower>,
}

#[derive(Template)]
#[template(path = "rings/new.html")]
struct New<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    offers: &'a Offers,
    certainties: [(&'a str, &'a str); 3],
    usual_lots: usize,
}

/// GET /rings/new?variety=
pub async fn new(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    chrome.member.must_organise()?;
    let mut conn = app.db.read().await?;
    let chosen = query.into_iter().find(|(n, v)| n == "variety" && !v.is_empty());
    let Some((_, variety)) = chosen else {
        let offered = store::varieties(&mut conn).await?;
        return page::page(&Choose { chrome: &chrome, offered });
    };
    let offers = offers(&mut conn, &variety).await?;
    let form = Form::new().with("variety", &variety).with("difference", 15).with("certainty", 80);
    draw(&chrome, &offers, &form)
}

pub async fn offers(conn: &mut Conn, variety: &str) -> Result<Offers, AppError> {
    let variety = stock::variety(conn, &VarietyId(variety.to_owned())).await?;
    let lots = store::candidates(conn, &variety.id).await?;
    Ok(Offers { variety, lots, members: store::members(conn).await? })
}

pub fn draw(chrome: &Chrome, offers: &Offers, form: &Form) -> Result<Response, AppError> {
    let shown = New { chrome, form, offers, certainties: certainties(), usual_lots: USUAL_LOTS };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}
