//! POST /bags/{id}/count: one look, with what was done at it.

use super::model::{Bag, beside};
use super::{show, store};
use crate::app::App;
use crate::db::Conn;
use crate::db::ids::{At, BagId, EntryId};
use crate::error::AppError;
use crate::notebook::bag::{self, Event, Look};
use crate::notebook::{self, About, Act, trial};
use crate::photos::{self, Received};
use crate::web::chrome::Chrome;
use crate::web::forms::{Form, Upload};
use crate::web::once;
use crate::web::said::Said;
use axum::extract::{Path, State};
use axum::response::Response;

/// More than any bag holds.
pub const MOST: i64 = 100_000;

/// Ticks of the form and the events they stand for.
const TICKS: [(&str, &str); 3] = [("mould", "mould seen"), ("damped", "damped"), ("paper", "paper changed")];

/// What was typed.
pub struct Count {
    /// `None` where nobody looked: a missing look is never a zero.
    look: Option<Look>,
    note: String,
    happened: Vec<&'static str>,
    /// How many seeds the bag held from the start, where that was written wrong.
    there_were: Option<i64>,
    photo: Option<Received>,
}

impl Count {
    fn parse(form: &mut Form, photo: Option<Received>) -> Self {
        let rooted = form.whole("rooted", 0..=MOST);
        let dead = form.whole("dead", 0..=MOST);
        let there_were = form.whole("there_were", 0..=MOST);
        let note = form.text("note", 2000);
        let happened: Vec<_> = TICKS.iter().filter(|(f, _)| form.ticked(f)).map(|(_, sort)| *sort).collect();
        let nothing = form.ticked("nothing");
        if nothing && (rooted.unwrap_or(0) > 0 || dead.unwrap_or(0) > 0) {
            form.refuse("rooted", t!("bags-numbers-here"));
        }
        let any = rooted.is_some() || dead.is_some() || nothing;
        // a photo goes with a count, not with a recount alone
        let enough = any || !happened.is_empty() || there_were.is_some() && photo.is_none();
        if !enough && !form.failed() {
            form.refuse("rooted", t!("bags-type-what-is-new"));
        }
        let look = Look { rooted: rooted.unwrap_or(0), dead: dead.unwrap_or(0), abnormal: 0 };
        let look = any.then_some(look);
        Self { look, note, happened, there_were, photo }
    }
}

/// POST /bags/{id}/count
pub async fn save(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<BagId>,
    upload: Upload,
) -> Result<Response, AppError> {
    let seen = store::bag(&mut app.db.read().await?, &chrome.member.id, &id).await?;
    let (mut form, photo) = photos::received(&app, upload, "photo").await?;
    let at = seen.moment(&mut form, "at", chrome.member.zone(), chrome.now);
    let count = Count::parse(&mut form, photo);
    if form.failed() {
        photos::ask_again(&mut form, count.photo.as_ref());
        return show::draw(&app, &chrome, &id, &form).await;
    }
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "count", &form).await? {
        return Ok(again);
    }
    let result = record(&mut conn, &chrome, &form, &seen, at, &count).await;
    let Some(after) = form.take(result)? else {
        drop(conn);
        photos::ask_again(&mut form, count.photo.as_ref());
        return show::draw(&app, &chrome, &id, &form).await;
    };
    done(conn, &app, (&chrome, &form), &after, said(&after, &count).undo(form.key())).await
}

async fn record(
    conn: &mut Conn,
    chrome: &Chrome,
    form: &Form,
    seen: &Bag,
    at: At,
    count: &Count,
) -> Result<Bag, AppError> {
    if count.there_were.is_some() {
        trial::lock(conn, &seen.trial_id).await?;
    }
    bag::touch(conn, &seen.id).await?;
    let b = store::bag(conn, &chrome.member.id, &seen.id).await?;
    b.must_be_open()?;
    beside(b.must_be_as(form.value("seen")), "rooted")?;
    let act = || Act::new(&chrome.member.id, form.key(), at, chrome.now);
    let mut written = look(conn, &act(), &b, count).await?;
    for sort in &count.happened {
        let event = bag::add_event(conn, &act(), b.about(), Event { sort, ..Event::default() }).await?;
        written.get_or_insert(event);
    }
    if let (Some(entry), Some(received)) = (&written, &count.photo) {
        photos::store::add(conn, entry, &received.photo).await?;
    }
    let field = if form.value("at").is_empty() { "rooted" } else { "at" };
    let sums = beside(bag::keep(conn, &b.id).await, field)?;
    Ok(b.with(sums))
}

/// The look, and the recount it may need, as one act; the entry of the look where there was one.
async fn look(conn: &mut Conn, act: &Act<'_>, bag: &Bag, count: &Count) -> Result<Option<EntryId>, AppError> {
    let mut entry = None;
    let more = count.there_were.map_or(0, |n| n - bag.seeds);
    if let Some(look) = count.look {
        enough(bag, look, more)?;
        entry = Some(bag::add_look(conn, act, bag.about(), look, &count.note).await?);
    } else if more != 0 && bag.on_paper + more < 0 {
        return Err(AppError::refused("there_were", t!("bags-more-accounted-for")));
    }
    if more != 0 {
        recount(conn, act, bag, more).await?;
    }
    Ok(entry)
}

fn enough(bag: &Bag, look: Look, more: i64) -> Result<(), AppError> {
    let told = look.rooted + look.dead;
    if told <= bag.on_paper + more {
        return Ok(());
    }
    if more < 0 {
        let known = bag.seeds - bag.on_paper + told;
        let why = t!("bags-cannot-have-held", n = known, held = bag.seeds + more);
        return Err(AppError::refused("there_were", why));
    }
    let (paper, need) = (bag.paper_words(), bag.seeds + told - bag.on_paper);
    let why = t!("bags-counted-too-many", n = told, paper = paper, need = need, held = bag.seeds);
    Err(AppError::refused("there_were", why))
}

/// "There were 11, not 10": the trial had one more too, and it went on paper.
async fn recount(conn: &mut Conn, act: &Act<'_>, bag: &Bag, more: i64) -> Result<(), AppError> {
    let of_trial = About { bag: None, ..bag.about() };
    // down: first back from the paper, so that the soak never holds fewer than none
    let order = if more > 0 { ["recount", "to paper"] } else { ["to paper", "recount"] };
    for sort in order {
        trial::add_seeds(conn, act, of_trial, sort, more).await?;
    }
    bag::add_seeds(conn, act, bag.about(), "recount", more, None).await?;
    beside(trial::keep(conn, &bag.trial_id).await, "there_were")?;
    Ok(())
}

/// What was saved.
fn said(bag: &Bag, count: &Count) -> Said {
    let look = match count.look {
        None => t!("bags-no-look-recorded").to_owned(),
        Some(l) if l == Look::default() => t!("bags-nothing-new").to_owned(),
        Some(l) => t!("bags-counted", rooted = l.rooted, dead = l.dead),
    };
    let mut all = vec![look];
    all.extend(count.happened.iter().map(|sort| notebook::words::sort(sort).to_owned()));
    all.extend(count.photo.as_ref().map(|_| t!("bags-with-a-photo").to_owned()));
    Said::new(format!("{}: {}. {}.", bag.mark, all.join(", "), bag.paper_words()))
}

/// Makes a save of a bag last, and answers with what to say of it and the next useful thing. That is looked up afterwards:
/// a save holds up all others.
pub async fn done(
    conn: Conn,
    app: &App,
    (chrome, form): (&Chrome, &Form),
    bag: &Bag,
    said: Said,
) -> Result<Response, AppError> {
    once::keep(conn, form, &bag.path()).await?;
    let (address, words) = next(app, chrome, bag).await.unwrap_or_else(|error| {
        tracing::warn!(%error, "what comes next was not found");
        due_now()
    });
    Ok(said.next(address, words).go(app, &bag.path()))
}

/// Planting, closing, or the next bag due.
async fn next(app: &App, chrome: &Chrome, bag: &Bag) -> Result<(String, String), AppError> {
    if bag.waiting() > 0 {
        let plant = t!("bags-plant-rooted-seeds", n = bag.waiting());
        return Ok((format!("{}/plant", bag.path()), plant));
    }
    if bag.is_open() && bag.on_paper == 0 {
        return Ok((format!("{}/close", bag.path()), t!("bags-close-the-bag").to_owned()));
    }
    let other = show::next_due(&mut app.db.read().await?, chrome, &bag.id).await?;
    Ok(other.map_or_else(due_now, |b| (b.path(), t!("bags-next-bag-due", mark = b.mark))))
}

fn due_now() -> (String, String) {
    ("/".to_owned(), t!("web-place-due-now").to_owned())
}
