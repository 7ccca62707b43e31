use super::sowing::{Answer, Club, Question};
use crate::app::App;
use crate::error::AppError;
use crate::rates::known::{self, Known};
use crate::web::away::away;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::page;
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
        Some(q) => Some(away(move || Answer::of(&q)).await?),
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
        form.refuse("from", t!("calculators-not-in-club-table"));
    }
    found
}

fn choices(rates: &[Known]) -> Vec<(String, String)> {
    let own = (String::new(), t!("calculators-my-own").to_owned());
    let kinds = rates.iter().any(|r| r.kind != rates[0].kind);
    let words = |r: &Known| {
        let kind = if kinds { format!("{}: ", r.kind) } else { String::new() };
        let name = format!("{kind}{}", r.name());
        t!("calculators-choice", name = name, rate = percent(r.rate), n = r.seeds)
    };
    std::iter::once(own).chain(rates.iter().map(|r| (r.key(), words(r)))).collect()
}

fn origin(form: &Form, club: Option<&Club>, q: &Question) -> Vec<String> {
    vec![rooting(form, club), growing(form, club, q.stages.second.is_some())]
}

fn rooting(form: &Form, club: Option<&Club>) -> String {
    if let Some(Club { known: k, .. }) = club {
        let (x, n) = k.as_test();
        return t!(
            "calculators-rooting-from-club",
            name = k.name(),
            rate = percent(k.rate),
            low = percent(k.low),
            high = percent(k.high),
            seeds = k.seeds,
            bags = k.bags,
            growers = k.growers,
            test = n,
            rooted = x
        );
    }
    match form.value("tested") {
        "" => t!("calculators-rooting-your-rate").to_owned(),
        tested => t!("calculators-rooting-your-test", rooted = form.value("rooted"), tested = tested),
    }
}

fn growing(form: &Form, club: Option<&Club>, counts: bool) -> String {
    let typed = !form.value("onward").is_empty() || !form.value("planted").is_empty();
    match club.and_then(|c| c.grown) {
        _ if typed => t!("calculators-tray-your-numbers").to_owned(),
        Some((grown, planted)) => {
            t!("calculators-tray-of-club", grown = grown, planted = planted, weeks = known::TRAY_DAYS / 7)
        }
        None if counts => String::new(),
        None => t!("calculators-tray-not-counted").to_owned(),
    }
}
