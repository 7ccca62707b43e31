//! A bag's seeds (I3, I4) and where it is (I6), replayed from the entries in order of time.

mod findings;
mod replay;

pub use findings::Finding;
pub use replay::{Entry, Sums, replay};

use super::{About, Act, Broken, void, write};
use crate::args;
use crate::db::ids::{BagId, EntryId, HolderId, MemberId};
use crate::db::{Arg, Conn, FromRow};
use crate::error::AppError;

const LOCK: &str = "UPDATE bags SET version = version + 1 WHERE id = $1 RETURNING on_paper AS n";
const TOUCH: &str = "UPDATE bags SET version = version + 1 WHERE id = $1";
const LOOK: &str = "INSERT INTO looks (entry_id, rooted, abnormal, dead) VALUES ($1, $2, $3, $4)";
const CLOSING: &str = "INSERT INTO closings
    (entry_id, ending, fresh, hard, dead, abnormal, not_examined, lost) VALUES ($1, $2, $3, $4, $5, $6, $7, $8)";
const SEEDS: &str = "INSERT INTO bag_seeds (entry_id, sort, seeds, other_bag) VALUES ($1, $2, $3, $4)";
const EVENT: &str = "INSERT INTO bag_events (entry_id, sort, place, warmth_c, holder_id, to_member)
    VALUES ($1, $2, $3, $4, $5, $6)";
const END: &str = "INSERT INTO rooted_ends (entry_id, sort, seeds) VALUES ($1, $2, $3)";
const ENTRIES: &str = "SELECT e.id, e.at, e.what,
      COALESCE(s.sort, v.sort, r.sort, c.ending) AS sort, COALESCE(s.seeds, r.seeds) AS seeds,
      COALESCE(l.rooted, 0) AS rooted, COALESCE(l.abnormal, c.abnormal, 0) AS abnormal,
      COALESCE(l.dead, c.dead, 0) AS dead, COALESCE(c.fresh, 0) AS fresh, COALESCE(c.hard, 0) AS hard,
      COALESCE(c.not_examined, 0) AS not_examined, COALESCE(c.lost, 0) AS lost,
      v.place, v.warmth_c, v.holder_id, v.to_member,
      (SELECT t.owner_id FROM bags b JOIN trials t ON t.id = b.trial_id WHERE b.id = $1) AS owner_id,
      (SELECT t.began_at FROM bags b JOIN trials t ON t.id = b.trial_id WHERE b.id = $1) AS began_at
    FROM entries e
    LEFT JOIN looks l ON l.entry_id = e.id
    LEFT JOIN closings c ON c.entry_id = e.id
    LEFT JOIN bag_seeds s ON s.entry_id = e.id
    LEFT JOIN bag_events v ON v.entry_id = e.id
    LEFT JOIN rooted_ends r ON r.entry_id = e.id
    WHERE e.bag_id = $1 AND e.what IN ('look', 'closing', 'bag seeds', 'bag event', 'rooted end')
      AND NOT EXISTS (SELECT 1 FROM voids x WHERE x.entry_id = e.id)
    ORDER BY e.at, e.id";
const OWNER: &str =
    "SELECT t.owner_id, t.began_at FROM bags b JOIN trials t ON t.id = b.trial_id WHERE b.id = $1";
const KEEP_SEEDS: &str = "UPDATE bags SET voided = $2, seeds = $3, rooted = $4, abnormal = $5, dead = $6, fresh = $7,
    hard = $8, not_examined = $9, lost = $10, sown_unrooted = $11, moved_out = $12, moved_in = $13, on_paper = $14,
    ended = $15, findings = $16 WHERE id = $1";
const KEEP_STATE: &str =
    "UPDATE bags SET looked_at = $2, closed_at = $3, ending = $4, weekly = $5, in_doubt = $6,
    place = $7, warmth_c = $8, holder_id = $9, owner_id = $10, on_paper_at = $11 WHERE id = $1";

pub(super) const ALL: &[&str] =
    &[LOCK, TOUCH, LOOK, CLOSING, SEEDS, EVENT, END, ENTRIES, OWNER, KEEP_SEEDS, KEEP_STATE];

#[derive(FromRow)]
struct Number {
    n: i64,
}

/// Whose trial a bag is of, and since when.
#[derive(FromRow)]
struct Owner {
    owner_id: String,
    began_at: i64,
}

/// Locks the bag's row until the transaction ends; gives how many seeds are still on paper.
pub async fn lock(conn: &mut Conn, bag: &BagId) -> Result<i64, AppError> {
    let row: Option<Number> = conn.maybe(LOCK, args![bag]).await?;
    Ok(row.ok_or(AppError::NotFound)?.n)
}

/// As [`lock`] of a bag that is read next, which tells whether it is there.
pub async fn touch(conn: &mut Conn, bag: &BagId) -> Result<(), AppError> {
    Ok(conn.later(TOUCH, args![bag]).await?)
}

/// One look: what is new since the last one. All zero is "nothing new", which is a finding too.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Look {
    pub rooted: i64,
    pub abnormal: i64,
    pub dead: i64,
}

/// Writes a look. Call [`keep`] after the last entry of the save.
pub async fn add_look(
    conn: &mut Conn,
    act: &Act<'_>,
    about: About<'_>,
    look: Look,
    note: &str,
) -> Result<EntryId, AppError> {
    let entry = write(conn, act, "look", about, note).await?;
    conn.later(LOOK, args![&entry, look.rooted, look.abnormal, look.dead]).await?;
    Ok(entry)
}

/// What became of the seeds still on paper when a bag was closed.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Closing<'a> {
    /// `final count` or `abandoned`.
    pub ending: &'a str,
    pub fresh: i64,
    pub hard: i64,
    pub dead: i64,
    pub abnormal: i64,
    pub not_examined: i64,
    pub lost: i64,
}

/// Writes a closing; its numbers must use up what is still on paper. Call [`keep`] afterwards.
pub async fn add_closing(
    conn: &mut Conn,
    act: &Act<'_>,
    about: About<'_>,
    c: Closing<'_>,
    why: &str,
) -> Result<(), AppError> {
    let entry = write(conn, act, "closing", about, why).await?;
    let row = args![&entry, c.ending, c.fresh, c.hard, c.dead, c.abnormal, c.not_examined, c.lost];
    conn.later(CLOSING, row).await?;
    Ok(())
}

/// Seeds that came into a bag or left it without a look: `sort` as in table bag_seeds. Call [`keep`] afterwards.
pub async fn add_seeds(
    conn: &mut Conn,
    act: &Act<'_>,
    about: About<'_>,
    sort: &str,
    seeds: i64,
    other: Option<&BagId>,
) -> Result<(), AppError> {
    let entry = write(conn, act, "bag seeds", about, "").await?;
    conn.later(SEEDS, args![&entry, sort, seeds, other]).await?;
    Ok(())
}

/// Something that happened to a bag: `sort` as in table bag_events.
#[derive(Debug, Clone, Copy, Default)]
pub struct Event<'a> {
    pub sort: &'a str,
    pub place: &'a str,
    /// Degrees C.
    pub warmth: Option<f64>,
    pub holder: Option<&'a HolderId>,
    pub to: Option<&'a MemberId>,
    pub note: &'a str,
}

/// Writes an event. Call [`keep`] afterwards.
pub async fn add_event(
    conn: &mut Conn,
    act: &Act<'_>,
    about: About<'_>,
    event: Event<'_>,
) -> Result<EntryId, AppError> {
    let entry = write(conn, act, "bag event", about, event.note).await?;
    conn.run(EVENT, args![&entry, event.sort, event.place, event.warmth, event.holder, event.to]).await?;
    Ok(entry)
}

/// Writes the end of rooted seeds: `sort` as in table rooted_ends. Call [`keep`] afterwards.
pub async fn add_end(
    conn: &mut Conn,
    act: &Act<'_>,
    about: About<'_>,
    sort: &str,
    seeds: i64,
) -> Result<(), AppError> {
    let entry = write(conn, act, "rooted end", about, "").await?;
    conn.run(END, args![&entry, sort, seeds]).await?;
    Ok(())
}

#[derive(FromRow)]
struct Told {
    #[sqlx(flatten)]
    entry: Entry,
    #[sqlx(flatten)]
    owner: Owner,
}

/// The bag's sums, replayed.
pub async fn sums(conn: &mut Conn, bag: &BagId) -> Result<Result<Sums, Broken>, AppError> {
    let told: Vec<Told> = conn.all(ENTRIES, args![bag]).await?;
    let (entries, mut owners): (Vec<Entry>, Vec<Owner>) =
        told.into_iter().map(|told| (told.entry, told.owner)).unzip();
    let owner = match owners.pop() {
        Some(owner) => owner,
        None => conn.one(OWNER, args![bag]).await?,
    };
    Ok(replay(&owner.owner_id, owner.began_at, &entries))
}

/// Brings the kept sums up to date; refused where the entries do not come out.
pub async fn keep(conn: &mut Conn, bag: &BagId) -> Result<Sums, AppError> {
    let s = match sums(conn, bag).await? {
        Ok(s) => s,
        Err(broken) => return Err(void::stands_on(conn, &broken).await?),
    };
    conn.later(KEEP_SEEDS, [args![bag, s.voided], s.kept()].concat()).await?;
    let state = args![
        bag,
        s.looked_at,
        s.closed_at,
        &s.ending,
        s.weekly,
        s.in_doubt,
        &s.place,
        s.warmth_c,
        s.holder_id.clone(),
        &s.owner_id,
        s.on_paper_at,
    ];
    conn.later(KEEP_STATE, state).await?;
    Ok(s)
}

impl Sums {
    /// The seeds kept beside a bag, from those put into it to those that were rooted and ended, and what looks found, in
    /// the order of the columns.
    pub fn kept(&self) -> Vec<Arg> {
        args![
            self.seeds,
            self.rooted,
            self.abnormal,
            self.dead,
            self.fresh,
            self.hard,
            self.not_examined,
            self.lost,
            self.sown_unrooted,
            self.moved_out,
            self.moved_in,
            self.on_paper,
            self.ended,
            &self.findings,
        ]
    }
}
