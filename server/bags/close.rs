//! /bags/{id}/close: the final count, keeping on, or giving up; and reopening when a seed roots after closing.

use super::count::{self, MOST};
use super::model::{Bag, ENDINGS, beside, choices};
use super::{show, store};
use crate::app::App;
use crate::args;
use crate::db::ids::{At, BagId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::notebook::bag::{self, Closing, Event, Look};
use crate::notebook::{self, Act, trial, void};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::said::Said;
use crate::web::{once, page, words};
use askama::Template;
use axum::extract::{Path, State};
use axum::response::Response;

/// What a seed still on paper can be at the final count.
const GROUPS: [&str; 6] = ["fresh", "hard", "dead", "abnormal", "not_examined", "lost"];

/// Label and plain explanation of each of them (words as in 7 CFR 201.56).
fn groups() -> [(&'static str, &'static str, &'static str); 6] {
    [
        ("fresh", t!("bags-fresh"), t!("bags-fresh-help")),
        ("hard", t!("bags-hard"), t!("bags-hard-help")),
        ("dead", t!("bags-dead-by-pressing"), t!("bags-dead-by-pressing-help")),
        ("abnormal", t!("bags-abnormal"), t!("bags-abnormal-help")),
        ("not_examined", t!("bags-not-examined"), t!("bags-not-examined-help")),
        ("lost", t!("bags-lost"), t!("bags-lost-help")),
    ]
}

const CLOSING_OF: &str = "SELECT e.id FROM entries e JOIN closings c ON c.entry_id = e.id
    WHERE e.bag_id = $1 AND NOT EXISTS (SELECT 1 FROM voids v WHERE v.entry_id = e.id) ORDER BY e.id DESC";

pub const ALL: &[&str] = &[CLOSING_OF];

#[derive(FromRow)]
struct Entry {
    id: String,
}

#[derive(Template)]
#[template(path = "bags/close.html")]
struct Close<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    bag: &'a Bag,
    endings: &'a [(&'static str, &'static str)],
    groups: &'a [(&'static str, &'static str, &'static str)],
}

/// GET /bags/{id}/close
pub async fn show(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<BagId>,
) -> Result<Response, AppError> {
    draw(&app, &chrome, &id, &Form::new().with("ending", "final count")).await
}

async fn draw(app: &App, chrome: &Chrome, id: &BagId, form: &Form) -> Result<Response, AppError> {
    let bag = store::bag(&mut app.db.read().await?, &chrome.member.id, id).await?;
    let shown = Close { chrome, form, bag: &bag, endings: &choices(ENDINGS), groups: &groups() };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

/// What was typed.
struct Final {
    ending: &'static str,
    numbers: [Option<i64>; 6],
    why: String,
}

impl Final {
    fn parse(form: &mut Form) -> Self {
        let ending = form.one_of("ending", &ENDINGS.map(|(ending, _)| ending));
        let numbers = GROUPS.map(|field| form.whole(field, 0..=MOST));
        let why = form.text("why", 2000);
        if ending == "abandoned" && why.is_empty() {
            form.refuse("why", t!("bags-why-abandoned"));
        }
        Self { ending, numbers, why }
    }

    /// The closing of `bag`; refused unless it uses up what is still on paper.
    fn closing(&self, bag: &Bag) -> Result<Closing<'static>, AppError> {
        let mut n = self.numbers.map(|n| n.unwrap_or(0));
        if self.ending == "abandoned" && self.numbers.iter().all(Option::is_none) {
            n[4] = bag.on_paper;
        }
        let told: i64 = n.iter().sum();
        let paper = bag.paper_words();
        let why = match told - bag.on_paper {
            0 => {
                let [fresh, hard, dead, abnormal, not_examined, lost] = n;
                let ending = self.ending;
                return Ok(Closing { ending, fresh, hard, dead, abnormal, not_examined, lost });
            }
            more @ 1.. => t!("bags-sum-too-many", paper = paper, told = told, n = more),
            fewer => t!("bags-sum-missing", paper = paper, told = told, n = -fewer),
        };
        Err(AppError::refused("sum", why))
    }
}

/// POST /bags/{id}/close
pub async fn save(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<BagId>,
    mut form: Form,
) -> Result<Response, AppError> {
    let seen = store::bag(&mut app.db.read().await?, &chrome.member.id, &id).await?;
    let at = seen.moment(&mut form, "at", chrome.member.zone(), chrome.now);
    let told = Final::parse(&mut form);
    if form.failed() {
        return draw(&app, &chrome, &id, &form).await;
    }
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "close", &form).await? {
        return Ok(again);
    }
    let result = record(&mut conn, &chrome, form.key(), (&id, at), &told).await;
    let Some(after) = form.take(result)? else {
        drop(conn);
        return draw(&app, &chrome, &id, &form).await;
    };
    let text = match told.ending {
        "kept on" => t!("bags-kept-on", mark = seen.mark),
        ending => t!("bags-now-closed", mark = seen.mark, ending = notebook::words::sort(ending)),
    };
    count::done(conn, &app, (&chrome, &form), &after, Said::new(text).undo(form.key())).await
}

async fn record(
    conn: &mut Conn,
    chrome: &Chrome,
    key: &str,
    (id, at): (&BagId, At),
    told: &Final,
) -> Result<Bag, AppError> {
    bag::lock(conn, id).await?;
    let b = store::bag(conn, &chrome.member.id, id).await?;
    b.must_be_open()?;
    let act = Act::new(&chrome.member.id, key, at, chrome.now);
    if told.ending == "kept on" {
        let weekly = Event { sort: "look weekly", note: &told.why, ..Event::default() };
        bag::add_event(conn, &act, b.about(), weekly).await?;
    } else {
        let last = b.looked_at.filter(|last| *last > at);
        if let Some(last) = last {
            let last = words::moment(last, chrome.now, chrome.member.zone());
            return Err(AppError::refused("at", t!("bags-looked-at-later", when = last)));
        }
        bag::add_closing(conn, &act, b.about(), told.closing(&b)?, &told.why).await?;
    }
    beside(bag::keep(conn, id).await, "at")?;
    store::bag(conn, &chrome.member.id, id).await
}

/// POST /bags/{id}/reopen: takes the closing back and records the look, in one save.
pub async fn reopen(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<BagId>,
    mut form: Form,
) -> Result<Response, AppError> {
    let seen = store::bag(&mut app.db.read().await?, &chrome.member.id, &id).await?;
    let at = seen.moment(&mut form, "at", chrome.member.zone(), chrome.now);
    let rooted = form.must_whole("rooted", 1..=MOST);
    if form.failed() {
        return show::draw(&app, &chrome, &id, &form).await;
    }
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "reopen", &form).await? {
        return Ok(again);
    }
    let act = Act::new(&chrome.member.id, form.key(), at, chrome.now);
    let result = open_again(&mut conn, &act, &seen, rooted).await;
    let Some(after) = form.take(result)? else {
        drop(conn);
        return show::draw(&app, &chrome, &id, &form).await;
    };
    let text = t!("bags-open-again", mark = seen.mark, n = rooted);
    count::done(conn, &app, (&chrome, &form), &after, Said::new(text)).await
}

async fn open_again(conn: &mut Conn, act: &Act<'_>, seen: &Bag, rooted: i64) -> Result<Bag, AppError> {
    trial::lock(conn, &seen.trial_id).await?;
    bag::lock(conn, &seen.id).await?;
    let closing: Option<Entry> = conn.maybe(CLOSING_OF, args![&seen.id]).await?;
    let closing = closing.ok_or_else(|| AppError::refused("rooted", t!("bags-open-count-as-usual")))?;
    void::entry(conn, act.member, &closing.id, "rooted after closing", act.now).await?;
    let b = store::bag(conn, act.member, &seen.id).await?;
    let look = Look { rooted, ..Look::default() };
    beside(b.must_hold(look), "rooted")?;
    bag::add_look(conn, act, b.about(), look, "rooted after closing").await?;
    beside(bag::keep(conn, &b.id).await, "at")?;
    store::bag(conn, act.member, &b.id).await
}

#[cfg(test)]
mod tests {
    use super::super::model::tests::bag;
    use super::*;

    fn told(ending: &'static str, numbers: [Option<i64>; 6]) -> Final {
        Final { ending, numbers, why: "why".into() }
    }

    #[test]
    fn a_final_count_uses_up_the_paper() {
        let ok = told("final count", [Some(4), Some(1), Some(5), None, None, None]).closing(&bag()).unwrap();
        assert_eq!((ok.fresh, ok.hard, ok.dead, ok.lost), (4, 1, 5, 0));
        let fewer = told("final count", [Some(9), None, None, None, None, None]).closing(&bag()).unwrap_err();
        assert!(fewer.to_string().contains("1 seed is missing"), "{fewer}");
        let more = told("final count", [Some(12), None, None, None, None, None]).closing(&bag()).unwrap_err();
        assert!(more.to_string().contains("2 seeds too many"), "{more}");
    }

    #[test]
    fn an_abandoned_bag_without_numbers_was_not_examined() {
        let all = told("abandoned", [None; 6]).closing(&bag()).unwrap();
        assert_eq!((all.not_examined, all.fresh), (10, 0));
    }
}
