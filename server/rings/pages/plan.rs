use crate::app::App;
use crate::error::AppError;
use crate::rings::model::{Grower, Lot, Ring, certainties};
use crate::rings::plan::{Known, Need, Plan};
use crate::rings::store;
use crate::web::away::away;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::page;
use askama::Template;
use axum::response::Response;

#[derive(Template)]
#[template(path = "rings/plan.html")]
struct Shown<'a> {
    chrome: &'a Chrome,
    /// Of the numbers.
    form: &'a Form,
    draw: &'a Form,
    quit: &'a Form,
    take: &'a Form,
    ring: &'a Ring,
    growers: &'a [Grower],
    plan: &'a Result<Plan, String>,
    needs: Vec<Need>,
    short: bool,
    unlike: bool,
    lots: &'a [Lot],
    stamp: String,
    /// Bags and seeds of a bag that the packets hold, where the plan asks for more.
    held: Option<(i64, i64)>,
    pairs: Vec<(String, usize)>,
    certainties: [(&'a str, &'a str); 3],
}

impl Shown<'_> {
    fn names(&self) -> String {
        let names: Vec<&str> = self.growers.iter().map(|g| g.name.as_str()).collect();
        names.join(", ")
    }
}

/// The plan page; `form` holds what was refused, of the numbers or in field `draw`.
pub async fn draw(app: &App, chrome: &Chrome, ring: &Ring, form: &Form) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    let (lots, growers) =
        (store::lots(&mut conn, &ring.id).await?, store::growers(&mut conn, &ring.id).await?);
    let closed = store::counts::closed(&mut conn).await?;
    drop(conn);
    let (kept, sizes) = (ring.clone(), (lots.len(), growers.len()));
    let work = move || {
        let known = Known::of(&closed, &kept.variety_id.0, &kept.kind_id.0);
        Plan::of(&kept, sizes.0, sizes.1, known)
    };
    let plan = away(work).await?;
    let numbers = if form.value("bags").is_empty() && form.errors().iter().all(|(f, _)| f == "draw") {
        filled(ring)
    } else {
        form.clone()
    };
    let refused = form.error("draw");
    let mut draw = Form::new();
    if !refused.is_empty() {
        draw.refuse("draw", refused);
    }
    let needs = plan.as_ref().map(|p| p.needs(&lots)).unwrap_or_default();
    let short = needs.iter().any(|n| n.short > 0);
    let names: Vec<String> = (1..=lots.len()).map(|n| t!("rings-lot-number", n = n)).collect();
    let shown = Shown {
        chrome,
        form: &numbers,
        draw: &draw,
        quit: &Form::new(),
        take: &filled(ring),
        ring,
        growers: &growers,
        held: plan.as_ref().ok().filter(|_| short).and_then(|p| p.held(&lots)),
        short,
        needs,
        unlike: lots.iter().any(|l| l.state != lots[0].state),
        lots: &lots,
        stamp: crate::rings::plan::stamp(ring),
        pairs: plan.as_ref().map(|p| p.pairs(&names)).unwrap_or_default(),
        plan: &plan,
        certainties: certainties(),
    };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

/// The numbers of a ring trial, as the form that changes them has them.
pub fn filled(ring: &Ring) -> Form {
    Form::new()
        .with("difference", ring.difference)
        .with("certainty", ring.certainty)
        .with("lots_each", ring.lots_each)
        .with("bags", ring.bags)
        .with("bag_seeds", ring.bag_seeds)
        .remembered()
}
