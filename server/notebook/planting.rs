//! A planting's seeds (I5): outcomes as numbers, replayed from the entries; and which cell holds it.

use super::{About, Act, Broken, void, write};
use crate::args;
use crate::db::ids::PlantingId;
use crate::db::{Conn, FromRow};
use crate::error::AppError;

const LOCK: &str = "UPDATE plantings SET end_why = end_why WHERE id = $1 RETURNING seeds AS n";
const OUTCOME: &str = "INSERT INTO outcomes (entry_id, sort, seeds, why) VALUES ($1, $2, $3, $4)";
const PLANTED: &str = "SELECT p.seeds, p.planted_at,
      (SELECT COUNT(*) FROM entries e WHERE e.planting_id = p.id AND e.what IN ('rooted end', 'bag seeds')
        AND NOT EXISTS (SELECT 1 FROM voids v WHERE v.entry_id = e.id)) AS stands
    FROM plantings p WHERE p.id = $1";
const ENTRIES: &str = "SELECT e.id, e.at, o.sort, o.seeds, o.why
    FROM entries e JOIN outcomes o ON o.entry_id = e.id
    WHERE e.planting_id = $1 AND NOT EXISTS (SELECT 1 FROM voids v WHERE v.entry_id = e.id)
    ORDER BY e.at, e.id";
const KEEP: &str =
    "UPDATE plantings SET voided = $2, up = $3, lost = $4, thinned = $5, potted = $6, ended_at = $7,
    end_why = $8 WHERE id = $1";
const LEAVE_CELL: &str = "DELETE FROM tray_cells WHERE planting_id = $1";
const TAKE_CELL: &str = "INSERT INTO tray_cells (tray_id, cell, planting_id)
    SELECT tray_id, cell, id FROM plantings WHERE id = $1
    ON CONFLICT (tray_id, cell) DO NOTHING";
const CELL_IS_OURS: &str = "SELECT COUNT(*) AS n FROM tray_cells WHERE planting_id = $1";

/// Why seeds were lost that were never seen above ground; they cannot be among those that came up.
pub const NEVER_UP: &str = "did not come up";

pub(super) const ALL: &[&str] = &[LOCK, OUTCOME, PLANTED, ENTRIES, KEEP, LEAVE_CELL, TAKE_CELL, CELL_IS_OURS];

#[derive(FromRow)]
struct Number {
    n: i64,
}

#[derive(FromRow)]
struct Planted {
    seeds: i64,
    planted_at: i64,
    stands: i64,
}

/// One unvoided outcome.
#[derive(Debug, Clone, Default, FromRow)]
pub struct Entry {
    pub id: String,
    pub at: i64,
    pub sort: String,
    pub seeds: i64,
    pub why: String,
}

/// What became of the seeds of one planting.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Sums {
    pub voided: bool,
    pub up: i64,
    pub lost: i64,
    pub thinned: i64,
    pub potted: i64,
    pub ended_at: Option<i64>,
    pub end_why: String,
}

/// Replays outcomes (in order of time) of `seeds` planted at `planted`.
pub fn replay(seeds: i64, planted: i64, entries: &[Entry]) -> Result<Sums, Broken> {
    let mut s = Sums::default();
    let mut never = 0;
    for e in entries {
        match e.sort.as_str() {
            "up" => s.up += e.seeds,
            "lost" => {
                s.lost += e.seeds;
                never += if e.why == NEVER_UP { e.seeds } else { 0 };
            }
            "thinned" => s.thinned += e.seeds,
            "potted on" => s.potted += e.seeds,
            _ => {}
        }
        let gone = s.lost + s.thinned + s.potted;
        if e.at < planted {
            return Err(Broken::new(&e.id, t!("notebook-before-the-planting")));
        }
        if s.up + never > seeds || gone > seeds {
            return Err(Broken::new(&e.id, t!("notebook-more-than-planted")));
        }
        if s.thinned + s.potted > s.up {
            return Err(Broken::new(&e.id, t!("notebook-more-than-up")));
        }
        if s.ended_at.is_some() {
            return Err(Broken::new(&e.id, t!("notebook-planting-had-ended")));
        }
        if e.sort == "ended" || gone == seeds {
            s.ended_at = Some(e.at);
            s.end_why = if e.why.is_empty() { e.sort.clone() } else { e.why.clone() };
        }
    }
    Ok(s)
}

/// Locks the planting's row until the transaction ends; gives its seeds.
pub async fn lock(conn: &mut Conn, planting: &PlantingId) -> Result<i64, AppError> {
    let row: Option<Number> = conn.maybe(LOCK, args![planting]).await?;
    Ok(row.ok_or(AppError::NotFound)?.n)
}

/// Writes an outcome: `sort` as in table outcomes. Call [`keep`] afterwards.
pub async fn add_outcome(
    conn: &mut Conn,
    act: &Act<'_>,
    about: About<'_>,
    sort: &str,
    seeds: i64,
    why: &str,
) -> Result<(), AppError> {
    let entry = write(conn, act, "outcome", about, "").await?;
    conn.run(OUTCOME, args![&entry, sort, seeds, why]).await?;
    Ok(())
}

/// The planting's sums, replayed.
pub async fn sums(conn: &mut Conn, planting: &PlantingId) -> Result<Result<Sums, Broken>, AppError> {
    let p: Planted = conn.one(PLANTED, args![planting]).await?;
    let entries: Vec<Entry> = conn.all(ENTRIES, args![planting]).await?;
    if p.stands == 0 {
        let first = entries.first().map(|e| Broken::new(&e.id, t!("notebook-planting-would-be-gone")));
        return Ok(first.map_or(Ok(Sums { voided: true, ..Sums::default() }), Err));
    }
    Ok(replay(p.seeds, p.planted_at, &entries))
}

/// Brings the kept sums and the cell up to date; refused where the cell holds another planting by now.
pub async fn keep(conn: &mut Conn, planting: &PlantingId) -> Result<Sums, AppError> {
    let s = settle(conn, planting).await?;
    hold(conn, planting, &s).await?;
    Ok(s)
}

/// As [`keep`] for several: all leave their cells before any takes one, as when a replanting is voided.
pub async fn keep_all(conn: &mut Conn, plantings: &[PlantingId]) -> Result<(), AppError> {
    let mut settled = Vec::new();
    for planting in plantings {
        settled.push((planting, settle(conn, planting).await?));
    }
    for (planting, sums) in settled {
        hold(conn, planting, &sums).await?;
    }
    Ok(())
}

async fn settle(conn: &mut Conn, planting: &PlantingId) -> Result<Sums, AppError> {
    let s = match sums(conn, planting).await? {
        Ok(s) => s,
        Err(broken) => return Err(void::stands_on(conn, &broken).await?),
    };
    let row = args![planting, s.voided, s.up, s.lost, s.thinned, s.potted, s.ended_at, &s.end_why];
    conn.run(KEEP, row).await?;
    if s.voided || s.ended_at.is_some() {
        conn.run(LEAVE_CELL, args![planting]).await?;
    }
    Ok(s)
}

async fn hold(conn: &mut Conn, planting: &PlantingId, s: &Sums) -> Result<(), AppError> {
    if s.voided || s.ended_at.is_some() {
        return Ok(());
    }
    conn.run(TAKE_CELL, args![planting]).await?;
    let ours: Number = conn.one(CELL_IS_OURS, args![planting]).await?;
    if ours.n == 0 {
        return Err(AppError::refused("cell", t!("notebook-cell-is-taken")));
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn outcome(at: i64, sort: &str, seeds: i64) -> Entry {
        Entry { id: format!("{sort}{at}"), at, sort: sort.into(), seeds, why: String::new() }
    }

    #[test]
    fn outcomes_are_numbers_and_thinned_is_not_lost() {
        let s =
            replay(3, 1, &[outcome(2, "up", 2), outcome(3, "thinned", 1), outcome(4, "lost", 1)]).unwrap();
        assert_eq!((s.up, s.thinned, s.lost, s.ended_at), (2, 1, 1, None));
        let s = replay(1, 1, &[outcome(2, "up", 1), outcome(9, "potted on", 1)]).unwrap();
        assert_eq!(s.ended_at, Some(9));
    }

    #[test]
    fn who_did_not_come_up_is_not_up_and_who_left_was_up() {
        let never = Entry { why: NEVER_UP.into(), ..outcome(3, "lost", 2) };
        assert_eq!(replay(3, 1, &[outcome(2, "up", 2), never.clone()]).unwrap_err().entry, "lost3");
        assert!(replay(3, 1, &[outcome(2, "up", 1), never]).is_ok());
        assert_eq!(replay(1, 1, &[outcome(2, "potted on", 1)]).unwrap_err().entry, "potted on2");
    }

    #[test]
    fn no_more_come_up_than_were_planted() {
        assert_eq!(replay(2, 1, &[outcome(2, "up", 3)]).unwrap_err().entry, "up2");
        assert_eq!(replay(2, 5, &[outcome(2, "up", 1)]).unwrap_err().entry, "up2");
    }
}
