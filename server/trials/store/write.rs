use crate::args;
use crate::db::ids::{At, BagId, PacketId, TrialId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::marks;
use crate::notebook::words::ROOTED_IN_SOAK;
use crate::notebook::{About, Act, bag, packet, trial};
use crate::trials::model::{Paper, StepDone, Tally, floats_tell};
use crate::web::words;

const LOCK: &str = "UPDATE trials SET version = version + 1 WHERE id = $1 AND owner_id = $2 AND NOT voided
    RETURNING packet_id, version_id, began_at, soaking, step, step_at, sank, floaters";
const TALLIED: &str = "SELECT MAX(e.at) AS at FROM entries e JOIN float_tallies f ON f.entry_id = e.id
    WHERE e.trial_id = $1 AND NOT EXISTS (SELECT 1 FROM voids x WHERE x.entry_id = e.id)";
const SUNK_ON_PAPER: &str = "SELECT CAST(COALESCE(SUM(seeds), 0) AS BIGINT) AS n FROM bags WHERE trial_id = $1 AND NOT floaters AND NOT voided";
const PACKET_OF: &str = "SELECT p.id, p.mark, p.state FROM trials t JOIN packets p ON p.id = t.packet_id
    WHERE t.id = $1 AND t.owner_id = $2";
const STEPS: &str = "SELECT COUNT(*) AS n FROM routine_steps WHERE version_id = $1";
const SOLUTION: &str = "SELECT COUNT(*) AS n FROM solutions WHERE id = $1 AND made_by = $2";
const BAG: &str =
    "INSERT INTO bags (id, trial_id, owner_id, mark_key, mark, floaters, on_paper_at, place, weekly,
      in_doubt, voided, seeds, rooted, abnormal, dead, fresh, hard, not_examined, lost, sown_unrooted, moved_out,
      moved_in, on_paper, ended, ending, version)
    VALUES ($1, $2, $3, $4, $5, $6, $7, '', FALSE, FALSE, FALSE, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, '', 1)";

pub(super) const ALL: &[&str] = &[LOCK, TALLIED, SUNK_ON_PAPER, PACKET_OF, STEPS, SOLUTION, BAG];

#[derive(FromRow)]
struct Locked {
    packet_id: PacketId,
    version_id: String,
    began_at: At,
    soaking: i64,
    step: i64,
    step_at: At,
    sank: Option<i64>,
    floaters: String,
}

#[derive(FromRow)]
struct Moment {
    at: Option<At>,
}

#[derive(FromRow)]
struct Packet {
    id: PacketId,
    mark: String,
    state: String,
}

#[derive(FromRow)]
struct Number {
    n: i64,
}

async fn lock(conn: &mut Conn, act: &Act<'_>, id: &TrialId) -> Result<Locked, AppError> {
    let locked: Option<Locked> = conn.maybe(LOCK, args![id, act.member]).await?;
    let locked = locked.ok_or(AppError::NotFound)?;
    if act.at < locked.began_at {
        return Err(AppError::refused("at", t!("trials-began-after-that")));
    }
    Ok(locked)
}

async fn packet_of(conn: &mut Conn, act: &Act<'_>, id: &TrialId) -> Result<Packet, AppError> {
    conn.maybe(PACKET_OF, args![id, act.member]).await?.ok_or(AppError::NotFound)
}

/// The running step was done (or skipped) at the act's moment. Late is recorded as late.
/// Refused in fields `step` (not the running one), `at` (before the step began), `solution`.
pub async fn step_done(
    conn: &mut Conn,
    act: &Act<'_>,
    id: &TrialId,
    done: &StepDone,
) -> Result<(), AppError> {
    let t = lock(conn, act, id).await?;
    let steps: Number = conn.one(STEPS, args![t.version_id]).await?;
    if done.position != t.step || done.position > steps.n || t.soaking == 0 {
        return Err(AppError::refused("step", t!("trials-step-is-not-running")));
    }
    if act.at < t.step_at {
        return Err(AppError::refused("at", t!("trials-step-before-was-later")));
    }
    if let Some(solution) = &done.solution {
        let own: Number = conn.one(SOLUTION, args![solution, act.member]).await?;
        if own.n == 0 {
            return Err(AppError::refused("solution", t!("trials-choose-your-solution")));
        }
    }
    let step = trial::Step {
        position: done.position,
        skipped: done.skipped,
        began: done.minutes.map_or(t.step_at, |m| act.at.plus_minutes(-m)),
        percent: done.percent,
        solution: done.solution.as_ref(),
        note: &done.note,
    };
    let about = About { packet: Some(&t.packet_id), trial: Some(id), ..About::default() };
    trial::add_step(conn, act, about, step).await?;
    trial::keep(conn, id).await?;
    Ok(())
}

/// The float check at the end of the soak; floaters thrown out leave the trial.
/// Refused in fields `floaters`, `recount` (the numbers are not those of the book) and `entry`.
pub async fn tally(conn: &mut Conn, act: &Act<'_>, id: &TrialId, tally: &Tally) -> Result<(), AppError> {
    let state = packet_of(conn, act, id).await?.state;
    let t = lock(conn, act, id).await?;
    let off = tally_off(&state, &t, tally)?;
    let about = About { packet: Some(&t.packet_id), trial: Some(id), ..About::default() };
    if off != 0 {
        trial::add_seeds(conn, act, about, "recount", off).await?;
    }
    let floaters = if tally.floated == 0 { "" } else { &tally.floaters };
    trial::add_tally(conn, act, about, tally.sank, tally.floated, floaters).await?;
    if floaters == "thrown out" {
        trial::add_seeds(conn, act, about, "thrown out", tally.floated).await?;
    }
    trial::keep(conn, id).await?;
    Ok(())
}

/// By how much the tally's numbers differ from the book, where it may stand at all.
fn tally_off(state: &str, t: &Locked, tally: &Tally) -> Result<i64, AppError> {
    if !floats_tell(state) {
        return Err(AppError::refused("sank", t!("trials-floats-for-other-reasons", state = state)));
    }
    if t.sank.is_some() {
        return Err(AppError::refused("sank", t!("trials-tally-was-made")));
    }
    if tally.floated > 0 && tally.floaters.is_empty() {
        return Err(AppError::refused("floaters", t!("trials-say-what-became-of-floaters")));
    }
    let off = tally.sank + tally.floated - t.soaking;
    if off != 0 && !tally.recount {
        return Err(AppError::refused(
            "recount",
            t!("trials-differs-from-the-book", book = t.soaking, found = tally.sank + tally.floated),
        ));
    }
    Ok(off)
}

/// Puts seeds on damp paper at the act's moment, each bag an act of its own under the same save key.
/// More than are soaking is refused in field `recount`, unless `recount` says that so many there were.
pub async fn put_on_paper(
    conn: &mut Conn,
    act: &Act<'_>,
    id: &TrialId,
    papers: &[Paper],
    recount: bool,
) -> Result<Vec<BagId>, AppError> {
    let packet = packet_of(conn, act, id).await?;
    let t = lock(conn, act, id).await?;
    must_be_soaked(conn, act, id, &t).await?;
    must_be_apart(conn, id, &t, papers).await?;
    let all: i64 = papers.iter().map(|p| p.seeds).sum();
    if all > t.soaking && !recount {
        let wrong = t!("trials-differs-from-the-book", book = t.soaking, found = all);
        return Err(AppError::refused("recount", wrong));
    }
    if all > t.soaking {
        let about = About { packet: Some(&packet.id), trial: Some(id), ..About::default() };
        let found = Act::new(act.member, act.save_key, act.at, act.now);
        trial::add_seeds(conn, &found, about, "recount", all - t.soaking).await?;
    }
    let mut made = Vec::new();
    for paper in papers {
        made.push(one_bag(conn, act, id, &packet, paper).await?);
    }
    trial::keep(conn, id).await?;
    for bag in &made {
        bag::keep(conn, bag).await?;
    }
    Ok(made)
}

/// Paper comes after the last step and the float tally.
async fn must_be_soaked(conn: &mut Conn, act: &Act<'_>, id: &TrialId, t: &Locked) -> Result<(), AppError> {
    let tallied: Moment = conn.one(TALLIED, args![id]).await?;
    let soaked = tallied.at.map_or(t.step_at, |at| at.max(t.step_at));
    if act.at.0 / 60 < soaked.0 / 60 {
        let zone = crate::accounts::store::zone(conn).await?;
        let when = words::moment(soaked, act.now, zone);
        return Err(AppError::refused("at", t!("trials-soak-ended-later", when = when)));
    }
    Ok(())
}

/// Floaters that have a bag of their own are not among those that sank.
async fn must_be_apart(conn: &mut Conn, id: &TrialId, t: &Locked, papers: &[Paper]) -> Result<(), AppError> {
    let Some(sank) = t.sank.filter(|_| t.floaters == "own bag") else { return Ok(()) };
    let before: Number = conn.one(SUNK_ON_PAPER, args![id]).await?;
    let sunk: i64 = papers.iter().filter(|p| !p.floaters).map(|p| p.seeds).sum();
    if sunk > 0 && before.n + sunk > sank {
        return Err(AppError::refused("recount", t!("trials-only-so-many-sank", sank = sank)));
    }
    Ok(())
}

async fn one_bag(
    conn: &mut Conn,
    act: &Act<'_>,
    id: &TrialId,
    packet: &Packet,
    paper: &Paper,
) -> Result<BagId, AppError> {
    let new = BagId::new();
    let mark = marks::next_bag(conn, &packet.mark, &new.0, act.now).await?;
    let row = args![&new, id, act.member, &mark.key, &mark.shown, paper.floaters, act.at];
    conn.run(BAG, row).await?;
    let act = Act::new(act.member, act.save_key, act.at, act.now);
    let about = About { packet: Some(&packet.id), trial: Some(id), bag: Some(&new), ..About::default() };
    trial::add_seeds(conn, &act, about, "to paper", paper.seeds).await?;
    bag::add_seeds(conn, &act, about, "on paper", paper.seeds, None).await?;
    if !paper.place.is_empty() || paper.warmth_c.is_some() {
        let event = bag::Event {
            sort: "moved",
            place: &paper.place,
            warmth: paper.warmth_c,
            ..bag::Event::default()
        };
        bag::add_event(conn, &act, about, event).await?;
    }
    if let Some(rooted) = paper.rooted {
        let look = bag::Look { rooted, ..bag::Look::default() };
        bag::add_look(conn, &act, about, look, ROOTED_IN_SOAK).await?;
    }
    Ok(new)
}

/// Seeds that leave the soak without paper: `sort` is `lost`, `returned`, `sown` or `spoiled`. Returned seeds
/// go back into the packet. More than are soaking is refused in field `seeds`.
pub async fn leave(
    conn: &mut Conn,
    act: &Act<'_>,
    id: &TrialId,
    sort: &str,
    seeds: i64,
) -> Result<(), AppError> {
    let from = packet_of(conn, act, id).await?.id;
    packet::lock(conn, &from).await?;
    let t = lock(conn, act, id).await?;
    if seeds > t.soaking {
        return Err(AppError::refused("seeds", t!("trials-at-most-so-many", n = t.soaking)));
    }
    let about = About { packet: Some(&from), trial: Some(id), ..About::default() };
    trial::add_seeds(conn, act, about, sort, seeds).await?;
    if sort == "returned" {
        let line = packet::Line { sort: "returned", seeds, other: None, note: "" };
        packet::add(conn, act, about, line).await?;
    }
    trial::keep(conn, id).await?;
    Ok(())
}

/// Something that happened to a trial: `sort` is `treated again` or `note`.
pub async fn event(
    conn: &mut Conn,
    act: &Act<'_>,
    id: &TrialId,
    sort: &str,
    note: &str,
) -> Result<(), AppError> {
    let t = lock(conn, act, id).await?;
    let about = About { packet: Some(&t.packet_id), trial: Some(id), ..About::default() };
    trial::add_event(conn, act, about, sort, note).await?;
    trial::keep(conn, id).await?;
    Ok(())
}
