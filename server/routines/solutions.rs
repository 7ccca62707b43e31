//! Solutions as they were made.

use super::mixing::Wanted;
use super::model::Solution;
use crate::args;
use crate::db::Conn;
use crate::db::ids::{At, MemberId, SolutionId};
use crate::error::AppError;
use crate::web::forms::Form;
use chrono::{NaiveDate, NaiveTime, TimeZone};

const INSERT: &str = "INSERT INTO solutions
    (id, made_by, agent, stock_percent, percent, opened_on, volume_ml, vials, discard_at, note, made_at)
    VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)";
const MINE: &str =
    "SELECT s.id, s.agent, s.stock_percent, s.percent, s.opened_on, s.volume_ml, s.vials, s.discard_at,
      s.note, s.made_at,
      (SELECT COUNT(*) FROM steps_done d WHERE d.solution_id = s.id
        AND NOT EXISTS (SELECT 1 FROM voids v WHERE v.entry_id = d.entry_id)) AS used
    FROM solutions s WHERE s.made_by = $1 ORDER BY s.made_at DESC, s.id DESC LIMIT 50";

pub const ALL: &[&str] = &[INSERT, MINE];

/// What is noted beside the mix itself.
#[derive(Debug, Clone, Default)]
pub struct Made {
    pub opened_on: Option<NaiveDate>,
    pub discard_at: Option<At>,
    pub note: String,
}

impl Made {
    pub fn parse(form: &mut Form, zone: chrono_tz::Tz, now: At) -> Self {
        let opened_on = form.day("opened_on");
        if opened_on.is_some_and(|day| day > now.day(zone)) {
            form.refuse("opened_on", t!("routines-opened-in-the-future"));
        }
        let discard_on = form.day("discard_on");
        if discard_on.is_some_and(|day| day < now.day(zone)) {
            form.refuse("discard_on", t!("routines-discard-is-over"));
        }
        let end = discard_on.and_then(|day| end_of(day, zone));
        Self { opened_on, discard_at: end, note: form.text("note", 500) }
    }
}

fn end_of(day: NaiveDate, zone: chrono_tz::Tz) -> Option<At> {
    let midnight = day.succ_opt()?.and_time(NaiveTime::MIN);
    zone.from_local_datetime(&midnight).earliest().map(|t| At(t.timestamp() - 1))
}

/// Notes a solution as made now.
pub async fn add(
    conn: &mut Conn,
    by: &MemberId,
    wanted: &Wanted,
    made: &Made,
    now: At,
) -> Result<SolutionId, AppError> {
    let id = SolutionId::new();
    let volume = wanted.each_ml * wanted.vessels as f64;
    let row = args![
        &id,
        by,
        &wanted.agent,
        wanted.stock,
        wanted.strength,
        made.opened_on,
        volume,
        wanted.vessels,
        made.discard_at,
        &made.note,
        now,
    ];
    conn.run(INSERT, row).await?;
    Ok(id)
}

/// The member's solutions, newest first.
pub async fn mine(conn: &mut Conn, member: &MemberId) -> Result<Vec<Solution>, AppError> {
    Ok(conn.all(MINE, args![member]).await?)
}
