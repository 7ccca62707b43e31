use super::more_rows;
use crate::app::App;
use crate::db::Conn;
use crate::db::ids::{ActId, PacketId, PromiseId, RoutineId, TrialId};
use crate::error::AppError;
use crate::notebook::Act;
use crate::routines::model::{read_warmth, warmth};
use crate::stock::promises::{self, Promise};
use crate::trials::model::NewTrial;
use crate::trials::{pages, store};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::said::Said;
use crate::web::{once, words};
use axum::extract::State;
use axum::response::Response;

const MOST_SEEDS: i64 = 100_000;

/// POST /trials/new: starts every trial of the form in one save.
pub async fn start(State(app): State<App>, chrome: Chrome, mut form: Form) -> Result<Response, AppError> {
    if let Some(more) = more_rows(&form, pages::pair_rows(&form), pages::MOST_ROWS) {
        return pages::draw_new(&app, &chrome, &more).await;
    }
    let at = form.moment("at", chrome.member.zone(), app.now());
    name_packets(&app, &chrome, &mut form).await?;
    let new = if form.ticked("pair") { paired(&mut form, chrome.member.us()) } else { each(&mut form) };
    if form.failed() {
        return pages::draw_new(&app, &chrome, &form).await;
    }
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "start trials", &form).await? {
        return Ok(again);
    }
    let act = Act::new(&chrome.member.id, form.key(), at, app.now());
    let short = store::shortages(&mut conn, &act, &new).await?;
    let started = if short.is_empty() { store::start(&mut conn, &act, &new).await } else { Ok(Vec::new()) };
    let mut ended = Vec::new();
    if let Ok(made) = &started {
        ended = keep_promises(&mut conn, &act, &form, new.iter().zip(made)).await?;
    }
    for promise in &ended {
        form.refuse(pages::WITHOUT, pages::ended_meanwhile(promise));
    }
    for s in &short {
        let pair = form.ticked("pair");
        let name = if pair { "seeds_1".to_owned() } else { format!("seeds_{}", s.packet) };
        form.refuse(&name, s.words());
    }
    match form.take(started)? {
        Some(made) if !form.failed() => {
            once::done(conn, &app, &form, &location(&made), said(&new, &form)).await
        }
        _ => {
            drop(conn);
            pages::draw_new(&app, &chrome, &form).await
        }
    }
}

/// Trials that a plan promised end their promises. Those that ended meanwhile, unless the form says to start without.
async fn keep_promises<'n>(
    conn: &mut Conn,
    act: &Act<'_>,
    form: &Form,
    made: impl Iterator<Item = (&'n NewTrial, &'n TrialId)>,
) -> Result<Vec<Promise>, AppError> {
    let promised: Vec<PromiseId> =
        form.values("promise").into_iter().map(|id| PromiseId(id.to_owned())).collect();
    let mut kept: Vec<&PromiseId> = Vec::new();
    for (new, trial) in made {
        for promise in &promised {
            if promises::keep(conn, act.member, (promise, &new.packet), trial, act.now).await? {
                kept.push(promise);
            }
        }
    }
    if form.ticked(pages::WITHOUT) {
        return Ok(Vec::new());
    }
    let mut ended = Vec::new();
    for id in promised.iter().filter(|id| !kept.contains(id)) {
        ended.extend(promises::find(conn, act.member, id).await?.filter(|r| !r.holds()));
    }
    Ok(ended)
}

/// Errors say of which packet they are.
async fn name_packets(app: &App, chrome: &Chrome, form: &mut Form) -> Result<(), AppError> {
    for packet in store::packets(&mut app.db.read().await?, &chrome.member.id).await? {
        form.about(&format!("seeds_{}", packet.id), &packet.mark);
        form.about(&format!("recount_{}", packet.id), &packet.mark);
    }
    for n in 1..=pages::MOST_ROWS {
        let trial = t!("trials-trial-number", n = n);
        form.about(&format!("seeds_{n}"), &trial);
        form.about(&format!("routine_{n}"), &trial);
    }
    Ok(())
}

fn location(made: &[TrialId]) -> String {
    match made {
        [one] => format!("/trials/{one}"),
        _ => "/trials".to_owned(),
    }
}

fn said(new: &[NewTrial], form: &Form) -> Said {
    let seeds: i64 = new.iter().map(|n| n.seeds).sum();
    Said::new(t!("trials-started", trials = new.len(), seeds = words::seeds(seeds))).undo(form.key())
}

/// One trial for each packet, all in one routine.
fn each(form: &mut Form) -> Vec<NewTrial> {
    let routine = RoutineId(form.must_text("routine", 40));
    let mut packets: Vec<String> = form.values("packet").into_iter().map(str::to_owned).collect();
    packets.sort();
    packets.dedup();
    let mut new = Vec::new();
    for packet in packets {
        let seeds = form.must_whole(&format!("seeds_{packet}"), 1..=MOST_SEEDS);
        let recount = form.whole(&format!("recount_{packet}"), 0..=MOST_SEEDS);
        let plan = String::new();
        new.push(NewTrial {
            packet: PacketId(packet),
            routine: routine.clone(),
            seeds,
            recount,
            pair: None,
            plan,
        });
    }
    new
}

/// One packet split into trials that are compared with each other.
fn paired(form: &mut Form, us: bool) -> Vec<NewTrial> {
    let packet = form.value("packet").to_owned();
    let mut recount = form.whole(&format!("recount_{packet}"), 0..=MOST_SEEDS);
    let pair = ActId::new().0;
    let mut new = Vec::new();
    for n in 1..=pages::pair_rows(form) {
        let (routine, seeds) = (format!("routine_{n}"), format!("seeds_{n}"));
        if n > 2 && form.value(&seeds).trim().is_empty() {
            continue;
        }
        new.push(NewTrial {
            packet: PacketId(packet.clone()),
            routine: RoutineId(form.must_text(&routine, 40)),
            seeds: form.must_whole(&seeds, 1..=MOST_SEEDS),
            recount: recount.take(),
            pair: Some(pair.clone()),
            plan: plan(form, n, us),
        });
    }
    new
}

fn plan(form: &mut Form, n: i64, us: bool) -> String {
    let meant = read_warmth(form, &format!("warmth_{n}"), us, 60.0)
        .map(|c| t!("trials-meant-for", warmth = warmth(c, us)));
    let note = form.text(&format!("note_{n}"), 500);
    let parts: Vec<String> = meant.into_iter().chain((!note.is_empty()).then_some(note)).collect();
    parts.join("; ")
}
