//! A trial's seeds (I2), its steps and its float tally, replayed from the entries.

use super::{About, Act, Broken, write};
use crate::args;
use crate::db::ids::{At, SolutionId, TrialId};
use crate::db::{Arg, Conn, FromRow};
use crate::error::AppError;

const LOCK: &str = "UPDATE trials SET version = version + 1 WHERE id = $1 RETURNING soaking AS n";
const SEEDS: &str = "INSERT INTO trial_seeds (entry_id, sort, seeds) VALUES ($1, $2, $3)";
const TALLY: &str = "INSERT INTO float_tallies (entry_id, sank, floated, floaters) VALUES ($1, $2, $3, $4)";
const STEP: &str = "INSERT INTO steps_done (entry_id, position, skipped, began_at, percent, solution_id)
    VALUES ($1, $2, $3, $4, $5, $6)";
const EVENT: &str = "INSERT INTO trial_events (entry_id, sort) VALUES ($1, $2)";
const ENTRIES: &str = "SELECT e.id, e.at, e.what, s.sort, s.seeds, t.sank, t.floated, t.floaters, d.position
    FROM entries e
    LEFT JOIN trial_seeds s ON s.entry_id = e.id
    LEFT JOIN float_tallies t ON t.entry_id = e.id
    LEFT JOIN steps_done d ON d.entry_id = e.id
    WHERE e.trial_id = $1 AND e.what IN ('trial seeds', 'float tally', 'step', 'trial event')
      AND NOT EXISTS (SELECT 1 FROM voids v WHERE v.entry_id = e.id)
    ORDER BY e.at, e.id";
const TREATED: &str =
    "SELECT CAST(COUNT(*) AS BIGINT) AS n FROM entries e JOIN trial_events x ON x.entry_id = e.id
    WHERE e.trial_id = $1 AND x.sort = 'treated again'
      AND NOT EXISTS (SELECT 1 FROM voids v WHERE v.entry_id = e.id)";
const BEGAN: &str = "SELECT began_at AS n FROM trials WHERE id = $1";
const KEEP: &str =
    "UPDATE trials SET voided = $2, seeds = $3, soaking = $4, thrown_out = $5, lost = $6, returned = $7,
    step = $8, step_at = $9, sank = $10, floated = $11, floaters = $12, treated_again = $13 WHERE id = $1";

pub(super) const ALL: &[&str] = &[LOCK, SEEDS, TALLY, STEP, EVENT, ENTRIES, TREATED, BEGAN, KEEP];

#[derive(FromRow)]
struct Number {
    n: i64,
}

/// One unvoided entry of a trial.
#[derive(Debug, Clone, Default, FromRow)]
pub struct Entry {
    pub id: String,
    pub at: i64,
    pub what: String,
    pub sort: Option<String>,
    pub seeds: Option<i64>,
    pub sank: Option<i64>,
    pub floated: Option<i64>,
    pub floaters: Option<String>,
    pub position: Option<i64>,
}

/// Where a trial's seeds are, and how far it has come.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Sums {
    pub voided: bool,
    pub seeds: i64,
    pub soaking: i64,
    pub to_paper: i64,
    pub thrown_out: i64,
    pub lost: i64,
    pub returned: i64,
    pub sown: i64,
    pub spoiled: i64,
    /// Position of the step that is running; one more than the last when all are done.
    pub step: i64,
    pub step_at: i64,
    pub sank: Option<i64>,
    pub floated: Option<i64>,
    pub floaters: String,
}

/// Replays `entries` (in order of time) of a trial that began at `began`.
pub fn replay(began: At, entries: &[Entry]) -> Result<Sums, Broken> {
    let mut s = Sums { step: 1, step_at: began.0, voided: true, ..Sums::default() };
    for e in entries {
        if e.at < began.0 {
            return Err(Broken::new(&e.id, t!("notebook-before-the-trial")));
        }
        match e.what.as_str() {
            "trial seeds" => seeds(&mut s, e)?,
            "float tally" => {
                (s.sank, s.floated) = (e.sank, e.floated);
                s.floaters = e.floaters.clone().unwrap_or_default();
            }
            "step" => {
                s.step = s.step.max(e.position.unwrap_or(0) + 1);
                s.step_at = s.step_at.max(e.at);
            }
            _ => {}
        }
    }
    Ok(s)
}

fn seeds(s: &mut Sums, e: &Entry) -> Result<(), Broken> {
    let n = e.seeds.unwrap_or(0);
    let sort = e.sort.as_deref().unwrap_or_default();
    let gone = match sort {
        "taken" | "recount" => &mut s.seeds,
        "to paper" => &mut s.to_paper,
        "thrown out" => &mut s.thrown_out,
        "lost" => &mut s.lost,
        "returned" => &mut s.returned,
        "sown" => &mut s.sown,
        _ => &mut s.spoiled,
    };
    *gone += n;
    s.voided &= sort != "taken";
    s.soaking = s.seeds - s.to_paper - s.thrown_out - s.lost - s.returned - s.sown - s.spoiled;
    if s.soaking < 0 {
        return Err(Broken::new(&e.id, t!("notebook-more-left-the-soak")));
    }
    Ok(())
}

/// Locks the trial's row until the transaction ends; gives how many seeds are still soaking.
pub async fn lock(conn: &mut Conn, trial: &TrialId) -> Result<i64, AppError> {
    let row: Option<Number> = conn.maybe(LOCK, args![trial]).await?;
    Ok(row.ok_or(AppError::NotFound)?.n)
}

/// Moves seeds of a trial: `sort` as in table trial_seeds. Call [`keep`] after the last entry of the act.
pub async fn add_seeds(
    conn: &mut Conn,
    act: &Act<'_>,
    about: About<'_>,
    sort: &str,
    seeds: i64,
) -> Result<(), AppError> {
    let entry = write(conn, act, "trial seeds", about, "").await?;
    conn.run(SEEDS, args![&entry, sort, seeds]).await?;
    Ok(())
}

/// Writes the float tally. Call [`keep`] afterwards.
pub async fn add_tally(
    conn: &mut Conn,
    act: &Act<'_>,
    about: About<'_>,
    sank: i64,
    floated: i64,
    floaters: &str,
) -> Result<(), AppError> {
    let entry = write(conn, act, "float tally", about, "").await?;
    conn.run(TALLY, args![&entry, sank, floated, floaters]).await?;
    Ok(())
}

/// A step that was finished or skipped, with what was really used.
#[derive(Debug, Clone, Copy)]
pub struct Step<'a> {
    pub position: i64,
    pub skipped: bool,
    pub began: At,
    pub percent: Option<f64>,
    pub solution: Option<&'a SolutionId>,
    pub note: &'a str,
}

/// Writes that a step is done. Call [`keep`] afterwards.
pub async fn add_step(
    conn: &mut Conn,
    act: &Act<'_>,
    about: About<'_>,
    step: Step<'_>,
) -> Result<(), AppError> {
    let entry = write(conn, act, "step", about, step.note).await?;
    let row = args![&entry, step.position, step.skipped, step.began, step.percent, step.solution];
    conn.run(STEP, row).await?;
    Ok(())
}

/// Writes an event of a trial (`treated again`, `note`). Call [`keep`] afterwards.
pub async fn add_event(
    conn: &mut Conn,
    act: &Act<'_>,
    about: About<'_>,
    sort: &str,
    note: &str,
) -> Result<(), AppError> {
    let entry = write(conn, act, "trial event", about, note).await?;
    conn.run(EVENT, args![&entry, sort]).await?;
    Ok(())
}

/// The trial's sums, replayed.
pub async fn sums(conn: &mut Conn, trial: &TrialId) -> Result<Result<Sums, Broken>, AppError> {
    let began: Number = conn.one(BEGAN, args![trial]).await?;
    let entries: Vec<Entry> = conn.all(ENTRIES, args![trial]).await?;
    Ok(replay(At(began.n), &entries))
}

/// Brings the kept sums up to date; refused where the entries do not come out.
pub async fn keep(conn: &mut Conn, trial: &TrialId) -> Result<Sums, AppError> {
    let s = match sums(conn, trial).await? {
        Ok(s) => s,
        Err(broken) => return Err(super::void::stands_on(conn, &broken).await?),
    };
    let treated: Number = conn.one(TREATED, args![trial]).await?;
    let row = [args![trial, s.voided], s.kept(), args![treated.n > 0]].concat();
    conn.run(KEEP, row).await?;
    Ok(s)
}

impl Sums {
    /// What is kept beside a trial, from its seeds to its floaters, in the order of the columns.
    pub fn kept(&self) -> Vec<Arg> {
        args![
            self.seeds,
            self.soaking,
            self.thrown_out,
            self.lost,
            self.returned,
            self.step,
            self.step_at,
            self.sank,
            self.floated,
            &self.floaters,
        ]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn entry(at: i64, sort: &str, seeds: i64) -> Entry {
        Entry {
            id: format!("{sort}{at}"),
            at,
            what: "trial seeds".into(),
            sort: Some(sort.into()),
            seeds: Some(seeds),
            ..Entry::default()
        }
    }

    #[test]
    fn seeds_taken_are_all_somewhere() {
        let entries = [
            entry(1, "taken", 10),
            entry(2, "recount", 1),
            entry(3, "to paper", 8),
            entry(3, "thrown out", 2),
        ];
        let s = replay(At(1), &entries).unwrap();
        assert_eq!((s.seeds, s.soaking, s.to_paper, s.thrown_out), (11, 1, 8, 2));
        assert_eq!(s.seeds, s.soaking + s.to_paper + s.thrown_out);
    }

    #[test]
    fn no_more_seeds_leave_than_went_in() {
        let broken = replay(At(1), &[entry(1, "taken", 10), entry(3, "to paper", 11)]).unwrap_err();
        assert_eq!(broken.entry, "to paper3");
    }
}
