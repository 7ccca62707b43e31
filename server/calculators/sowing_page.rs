use super::sowing::{Answer, Club, Question};
use crate::app::App;
use crate::error::AppError;
use crate::rates::known::{self, Known};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::page;
use crate::web::words::counted;
use crate::web::words::percent;
use askama::Template;
use axum::extract::{Query, State};
use axum::response::Response;

#[derive(Template)]
#[template(path = "calculators/sowing.html")]
struct Show<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    choices: Vec<(String, String)>,
    answer: Option<Answer>,
    /// Where the rates came from.
    origin: Vec<String>,
}

/// GET /calculators/sowing
pub async fn show(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    let rates = known::rates(&app, chrome.member.zone(), chrome.now).await?;
    let asked = !query.is_empty();
    let mut form = Form::from_pairs(query);
    if form.values("certainty").is_empty() {
        form = form.with("certainty", "90");
    }
    let chosen = chosen(&mut form, &rates);
    let grown = match chosen {
        Some(known) => known::grown(&app, known, chrome.now).await?,
        None => None,
    };
    let club = chosen.map(|known| Club { known, grown });
    let question = if asked { Question::parse(&mut form, club.as_ref()) } else { None };
    let answer = match question {
        Some(q) => Some(super::numbers::away(move || Answer::of(&q)).await?),
        None => None,
    };
    let origin = question.map(|q| origin(&form, club.as_ref(), &q)).unwrap_or_default();
    let shown = Show { chrome: &chrome, form: &form, choices: choices(&rates), answer, origin };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

fn chosen<'a>(form: &mut Form, rates: &'a [Known]) -> Option<&'a Known> {
    let from = form.value("from").to_owned();
    let found = rates.iter().find(|r| r.key() == from);
    if found.is_none() && !from.is_empty() {
        form.refuse("from", "This is not in the club table. Please choose again.");
    }
    found
}

fn choices(rates: &[Known]) -> Vec<(String, String)> {
    let own = (String::new(), "My own, typed below".to_owned());
    let kinds = rates.iter().any(|r| r.kind != rates[0].kind);
    let words = |r: &Known| {
        let kind = if kinds { format!("{}: ", r.kind) } else { String::new() };
        format!("{kind}{}: {} % of {}", r.name(), percent(r.rate), seeds(r.seeds))
    };
    std::iter::once(own).chain(rates.iter().map(|r| (r.key(), words(r)))).collect()
}

fn seeds(n: u64) -> String {
    counted(i64::try_from(n).unwrap_or(i64::MAX), "seed", "seeds")
}

fn origin(form: &Form, club: Option<&Club>, q: &Question) -> Vec<String> {
    vec![rooting(form, club), growing(form, club, q.stages.second.is_some())]
}

fn rooting(form: &Form, club: Option<&Club>) -> String {
    if let Some(Club { known: k, .. }) = club {
        let (x, n) = k.as_test();
        let growers = counted(k.growers as i64, "grower", "growers");
        let bags = counted(k.bags as i64, "bag", "bags");
        return format!(
            "Rooting: from the club table, {}: {} % ({} to {}) by the standard day, of {} started in {bags} by \
             {growers}. Bags and trials are unlike each other, so these tell no more than a test of {} of which {x} \
             rooted, and that is what is reckoned with.",
            k.name(),
            percent(k.rate),
            percent(k.low),
            percent(k.high),
            seeds(k.seeds),
            seeds(n),
        );
    }
    match form.value("tested") {
        "" => {
            "Rooting: your rate, taken as certain. If it comes from a test, give the test: a rate known from \
               few seeds needs more seeds."
                .to_owned()
        }
        tested => format!(
            "Rooting: your test, {} of {tested}. That the true rate may be lower or higher is allowed for.",
            form.value("rooted")
        ),
    }
}

fn growing(form: &Form, club: Option<&Club>, counts: bool) -> String {
    let typed = !form.value("onward").is_empty() || !form.value("planted").is_empty();
    match club.and_then(|c| c.grown) {
        _ if typed => "In the tray: your numbers.".to_owned(),
        Some((grown, planted)) => format!(
            "In the tray: from the club's trays, where {grown} of {planted} rooted seeds of it, planted {} weeks ago or \
             earlier, became plants.",
            known::TRAY_DAYS / 7
        ),
        None if counts => String::new(),
        None => {
            "In the tray: losses after rooting are not counted, every rooted seed is taken for a plant. Give \
                 your numbers below if you lose some."
                .to_owned()
        }
    }
}
