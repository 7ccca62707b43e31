//! GET /: what is due now for this member, in words, with one tap to do it.

use super::model::Bag;
use super::store;
use crate::app::App;
use crate::db::ids::{At, PromiseId};
use crate::error::AppError;
use crate::outlook::{self, Short};
use crate::stock::handed::{self, Waiting};
use crate::stock::promises::{self, Promise};
use crate::trials::{
    self,
    model::{Due, Next},
};
use crate::web::chrome::Chrome;
use crate::web::{page, words};
use askama::Template;
use axum::extract::State;
use axum::response::Response;
use chrono::NaiveDate;
use chrono_tz::Tz;
use std::collections::BTreeMap;

/// Bags shown one by one; beyond that the one screen for all is the way.
const SHOWN: usize = 60;
/// Rooted seeds that waited so long are no longer urgent (our own choice, no source).
const FORGOTTEN_DAYS: i64 = 14;

/// One thing to do.
pub struct Thing {
    pub mark: String,
    pub mark_path: String,
    pub words: String,
    /// How late it is; empty when it is not.
    pub late: String,
    /// What is still to come.
    pub outlook: Short,
    pub path: String,
    pub button: &'static str,
    /// Whether rooted seeds wait for a cell.
    pub to_plant: bool,
    /// When it was or will be due, for the order.
    pub due: At,
    /// Whether a clock runs towards `due`.
    pub timed: bool,
    /// `out in 12 min`, where a clock runs; and whether it has run out.
    pub wait: String,
    pub over: bool,
    /// `out at 18:42`, where a clock runs: a locked phone's page does not tick.
    pub out: String,
}

#[derive(Template)]
#[template(path = "bags/due.html")]
struct DueNow<'a> {
    chrome: &'a Chrome,
    soaks: &'a [Thing],
    things: &'a [Thing],
    looks: usize,
    more: usize,
    open: usize,
    next_look: &'a str,
    next_start: &'a str,
}

/// GET /
pub async fn show(State(app): State<App>, chrome: Chrome) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    let bags = store::to_do(&mut conn, &chrome.member.id).await?;
    let trials = trials::store::due(&mut conn, &chrome.member.id).await?;
    let promised = promises::open(&mut conn, &chrome.member.id).await?;
    let untried = handed::waiting(&mut conn, &chrome.member.id).await?;
    drop(conn);
    let (now, zone) = (chrome.now, chrome.member.zone());
    let outlooks = outlooks(&app, &chrome, &bags).await;
    let mut things: Vec<Thing> =
        bags.iter().zip(outlooks).flat_map(|(b, said)| of_bag(b, now, zone, said)).collect();
    let gives = promises::gives(&promised);
    things.extend(promised.iter().filter_map(|r| of_promise(r, gives.get(&r.id).copied(), now, zone)));
    things.extend(untried.chunk_by(|a, b| a.ring_id == b.ring_id).filter_map(of_ring));
    // of one day, those with likely news first; rooted seeds that wait for weeks do not push the looks down
    let forgotten = |t: &Thing| t.to_plant && t.due < now.plus_days(-FORGOTTEN_DAYS);
    things.sort_by_key(|t| (forgotten(t), t.due.day(zone), !t.outlook.likely, t.due));
    // soaks first: their hours are shorter than the days of bags
    let mut soaks: Vec<Thing> = trials.iter().map(|t| of_trial(t, now, zone)).collect();
    soaks.sort_by_key(|t| t.due);
    let looks = bags.iter().filter(|b| b.is_due(now, zone)).count();
    let more = things.len().saturating_sub(SHOWN);
    things.truncate(SHOWN);
    let open = bags.iter().filter(|b| b.is_open()).count();
    let next_look = next_look(&bags, now, zone);
    let next_start = next_start(&promised, &gives, now.day(zone));
    page::page(&DueNow {
        chrome: &chrome,
        soaks: &soaks,
        things: &things,
        looks,
        more,
        open,
        next_look: &next_look,
        next_start: &next_start,
    })
}

/// What to say of each bag, in their order; nothing of those that are not due for a look.
async fn outlooks(app: &App, chrome: &Chrome, bags: &[Bag]) -> Vec<Short> {
    let (now, zone) = (chrome.now, chrome.member.zone());
    let due = |b: &&Bag| b.is_due(now, zone);
    let waiting: Vec<_> = bags.iter().filter(due).filter_map(|b| b.waiting_for_roots(now, zone)).collect();
    let views = outlook::views(app, zone, waiting.clone()).await;
    let mut said =
        waiting.iter().zip(&views).map(|(bag, view)| outlook::short(view, bag, chrome.member.us()));
    bags.iter()
        .map(|b| if b.is_due(now, zone) { said.next().unwrap_or_default() } else { Short::default() })
        .collect()
}

/// "3 bags more are on paper; the next look is due Tue 3 Mar." Empty where every bag on paper is due now.
fn next_look(bags: &[Bag], now: At, zone: Tz) -> String {
    let today = now.day(zone);
    let later: Vec<_> = bags.iter().filter_map(|b| b.look_due(zone)).filter(|day| *day > today).collect();
    later
        .iter()
        .min()
        .map_or_else(String::new, |day| t!("due-later-looks", n = later.len(), day = words::day(*day, today)))
}

/// What is due of one bag.
pub fn of_bag(bag: &Bag, now: At, zone: Tz, outlook: Short) -> Vec<Thing> {
    [plant(bag, now), close(bag, now), look(bag, now, zone, outlook)].into_iter().flatten().collect()
}

/// Where no clock runs, and nothing is late or to be expected.
fn thing(
    (mark, mark_path): (&str, String),
    words: String,
    path: String,
    button: &'static str,
    due: At,
) -> Thing {
    Thing {
        mark: mark.to_owned(),
        mark_path,
        words,
        late: String::new(),
        outlook: Short::default(),
        path,
        button,
        to_plant: false,
        due,
        timed: false,
        wait: String::new(),
        over: false,
        out: String::new(),
    }
}

fn of(bag: &Bag) -> (&str, String) {
    (&bag.mark, bag.path())
}

/// Seeds that the plan wants in the soak by today.
fn of_promise(promise: &Promise, gives: Option<i64>, now: At, zone: Tz) -> Option<Thing> {
    let today = now.day(zone);
    let late = (today - promise.start_on).num_days();
    let Promise { variety, mark, seeds: n, .. } = promise;
    // the messages know `today`
    let day = if late > 0 { words::day(promise.start_on, today) } else { "today".to_owned() };
    let gives = gives.unwrap_or(*n);
    let said = match n - gives {
        0 => t!("due-start", variety = variety, n = *n, mark = mark, day = day),
        _ if gives == 0 => t!("due-start-none", variety = variety, n = *n, mark = mark, day = day),
        short => {
            t!(
                "due-start-short",
                variety = variety,
                gives = gives,
                n = *n,
                mark = mark,
                day = day,
                short = short
            )
        }
    };
    let due = promise.start_on.and_hms_opt(0, 0, 0).map_or(now, |t| At(t.and_utc().timestamp()));
    let marked = (promise.mark.as_str(), format!("/packets/{}", promise.packet_id));
    (late >= 0).then(|| Thing {
        late: late_words(late),
        ..thing(marked, said, promise.start_path(), t!("due-button-start"), due)
    })
}

/// Blind packets of one ring trial, which are to be treated alike.
fn of_ring(packets: &[Waiting]) -> Option<Thing> {
    let first = packets.first()?;
    let marks: Vec<String> = packets.iter().map(|p| p.mark.clone()).collect();
    let said = match &marks[..] {
        [_] => t!("due-blind", ring = first.ring),
        _ => t!("due-blinds", ring = first.ring, marks = words::and(&marks)),
    };
    let path = handed::start_path(packets.iter().map(|p| &p.packet_id));
    Some(thing(
        (&first.mark, format!("/rings/{}", first.ring_id)),
        said,
        path,
        t!("due-button-start"),
        first.since,
    ))
}

/// "The plan's next start is Mon 9 Mar: 24 seeds of JB 42." Empty where nothing later is promised.
fn next_start(promised: &[Promise], gives: &BTreeMap<PromiseId, i64>, today: NaiveDate) -> String {
    let Some(next) = promised.iter().map(|r| r.start_on).filter(|day| *day > today).min() else {
        return String::new();
    };
    let given = |r: &Promise| promises::given(r, gives.get(&r.id).copied().unwrap_or(r.seeds));
    let then: Vec<String> = promised.iter().filter(|r| r.start_on == next).map(given).collect();
    t!("due-next-start", day = words::day(next, today), seeds = words::and(&then))
}

/// What a trial in the soak waits for.
pub fn of_trial(trial: &Due, now: At, zone: Tz) -> Thing {
    let (next, due) = (trial.next(), trial.due_at());
    let (variety, vial, n) = (&trial.variety, trial.vial.words(), trial.soaking);
    let step =
        || t!("due-step", variety = variety, vial = vial, step = trial.words(), seeds = words::seeds(n));
    let (said, button) = match next {
        Next::Step => (step(), t!("due-button-step")),
        Next::Tally => (t!("due-tally", variety = variety, vial = vial, n = n), t!("due-button-tally")),
        Next::Paper => (t!("due-paper", variety = variety, vial = vial, n = n), t!("due-button-paper")),
    };
    let timed = next == Next::Step;
    let marked = (trial.mark.as_str(), format!("/trials/{}", trial.trial_id));
    let thing = thing(marked, said, trial.address(), button, due);
    if !timed {
        return thing;
    }
    let (wait, out) = (words::countdown(due, now), words::out_at(due, now, zone));
    Thing { timed, wait, over: due <= now, out, ..thing }
}

fn plant(bag: &Bag, now: At) -> Option<Thing> {
    let waiting = bag.waiting();
    let since = bag.rooted_at().or(bag.looked_at).unwrap_or(now);
    let said = t!("due-plant", variety = bag.variety, n = waiting);
    let (path, button) = (format!("{}/plant", bag.path()), t!("due-button-plant"));
    let plant = || Thing { to_plant: true, ..thing(of(bag), said, path, button, since) };
    (waiting > 0 && !bag.voided).then(plant)
}

fn close(bag: &Bag, now: At) -> Option<Thing> {
    let said = t!("due-close", variety = bag.variety);
    let since = bag.looked_at.unwrap_or(now);
    let empty = bag.is_open() && bag.on_paper == 0;
    empty.then(|| thing(of(bag), said, format!("{}/close", bag.path()), t!("due-button-close"), since))
}

fn look(bag: &Bag, now: At, zone: Tz, outlook: Short) -> Option<Thing> {
    let day = bag.look_due(zone)?;
    let late = (now.day(zone) - day).num_days();
    if late < 0 {
        return None;
    }
    let (since, paper) = (bag.day_words(now, zone), bag.paper_words());
    let said = t!("due-look", variety = bag.variety, day = since, paper = paper);
    // midnight by UTC is close enough to order days by
    let due = day.and_hms_opt(0, 0, 0).map_or(now, |t| At(t.and_utc().timestamp()));
    let late = late_words(late);
    Some(Thing { outlook, late, ..thing(of(bag), said, bag.path(), t!("due-button-count"), due) })
}

/// Empty where it is not late.
fn late_words(days: i64) -> String {
    if days > 0 { t!("due-late", n = days) } else { String::new() }
}

#[cfg(test)]
mod tests {
    use super::super::model::tests::bag;
    use super::*;

    const ZONE: Tz = chrono_tz::Europe::Berlin;

    #[test]
    fn a_bag_can_be_due_for_more_than_one_thing() {
        let b = Bag { rooted: 4, ended: 1, on_paper: 6, ..bag() };
        let said: Vec<String> = of_bag(&b, b.on_paper_at.plus_days(2), ZONE, Short::default())
            .into_iter()
            .map(|t| t.words)
            .collect();
        assert_eq!(said[0], "Kestrel: 3 rooted seeds wait for a cell.");
        assert_eq!(said[1], "Kestrel: look, day 2 on paper. 6 seeds still on paper.");
    }

    #[test]
    fn an_empty_open_bag_asks_to_be_closed() {
        let b = Bag { rooted: 10, ended: 10, on_paper: 0, ..bag() };
        let things = of_bag(&b, b.on_paper_at.plus_days(2), ZONE, Short::default());
        assert_eq!((things.len(), things[0].button), (1, "Close"));
    }
}
