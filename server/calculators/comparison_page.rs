use super::comparison::{Answer, Question};
use crate::app::App;
use crate::error::AppError;
use crate::rates::known::{self, Habit};
use crate::web::away::away;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::page;
use crate::web::words::decimal;
use askama::Template;
use axum::extract::{Query, State};
use axum::response::Response;
use hilum_calc::units::shown;

/// Planned with while a club has too few trials of its own.
const ALIKE: f64 = 0.05;
const BAG: u32 = 10;

#[derive(Template)]
#[template(path = "calculators/comparison.html")]
struct Show<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    answer: Option<Answer>,
    habit: String,
}

/// GET /calculators/comparison
pub async fn show(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    let habit = known::habit(&app, chrome.member.zone(), chrome.now).await?;
    let asked = !query.is_empty();
    let mut form = preset(Form::from_pairs(query), &habit);
    let question = if asked { Question::parse(&mut form) } else { None };
    let answer = match question {
        Some(q) => {
            let rates = known::rates(&app, chrome.member.zone(), chrome.now).await?;
            let most = rates.iter().map(|r| r.seeds).max().unwrap_or(0);
            Some(away(move || Answer::of(&q, most)).await?)
        }
        None => None,
    };
    let shown = Show { chrome: &chrome, form: &form, answer, habit: said(&habit) };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

/// What the address does not name is filled in.
fn preset(form: Form, habit: &Habit) -> Form {
    let usual = [
        ("one", "80".to_owned()),
        ("other", "90".to_owned()),
        ("certainty", "80".to_owned()),
        ("bag", habit.bag.unwrap_or(BAG).max(1).to_string()),
        ("alike", shown(habit.alike.unwrap_or(ALIKE), 2)),
    ];
    usual.into_iter().fold(
        form,
        |form, (name, value)| {
            if form.values(name).is_empty() { form.with(name, value) } else { form }
        },
    )
}

fn said(habit: &Habit) -> String {
    match habit.alike {
        Some(alike) => t!("calculators-alike-of-club", alike = decimal(&shown(alike, 2))),
        None => t!("calculators-alike-guessed", alike = decimal(&ALIKE.to_string())),
    }
}
