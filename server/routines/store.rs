use super::model::{NewRoutine, Routine, Step, Version, name_key};
use crate::args;
use crate::db::ids::{At, MemberId, RoutineId, RoutineVersionId};
use crate::db::{Conn, FromRow};
use crate::error::{AppError, taken};
use crate::web::session::Member;

macro_rules! routine {
    ($rest:literal) => {
        concat!(
            "SELECT r.id, r.name, r.made_by, m.name AS made_by_name, r.retired_at,
              v.id AS version_id, v.number, v.note, v.frozen,
              (SELECT COUNT(*) FROM routine_steps s WHERE s.version_id = v.id) AS steps
            FROM routines r JOIN routine_versions v ON v.routine_id = r.id
            LEFT JOIN members m ON m.id = r.made_by
            WHERE v.number = (SELECT MAX(n.number) FROM routine_versions n WHERE n.routine_id = r.id) ",
            $rest
        )
    };
}

const ROUTINES: &str = routine!("ORDER BY r.name_key, r.id");
const ROUTINE: &str = routine!("AND r.id = $1");
const STEPS: &str =
    "SELECT position, act, agent, stock_percent, percent, dose, minutes, temperature_c, place, note
    FROM routine_steps WHERE version_id = $1 ORDER BY position";
const FREEZE: &str = "UPDATE routine_versions SET frozen = TRUE WHERE id = $1";

const VERSIONS: &str = "SELECT v.id, v.number, v.note, v.frozen, v.made_at, m.name AS made_by_name,
      (SELECT COUNT(*) FROM trials t WHERE t.version_id = v.id AND NOT t.voided) AS trials
    FROM routine_versions v LEFT JOIN members m ON m.id = v.made_by
    WHERE v.routine_id = $1 ORDER BY v.number DESC";
const INSERT: &str =
    "INSERT INTO routines (id, name, name_key, made_by, made_at) VALUES ($1, $2, $3, $4, $5)";
const INSERT_MISSING: &str = "INSERT INTO routines (id, name, name_key, made_at) VALUES ($1, $2, $3, $4)
    ON CONFLICT (name_key) DO NOTHING";
const RENAME: &str = "UPDATE routines SET name = $2, name_key = $3 WHERE id = $1 AND (made_by = $4 OR $5)";
const RETIRE: &str = "UPDATE routines SET retired_at = $2 WHERE id = $1 AND (made_by = $3 OR $4)";
const INSERT_VERSION: &str =
    "INSERT INTO routine_versions (id, routine_id, number, note, frozen, made_by, made_at)
    VALUES ($1, $2, $3, $4, FALSE, $5, $6)";
const REWRITE_VERSION: &str = "UPDATE routine_versions SET note = $2, made_by = $3, made_at = $4
    WHERE id = $1 AND NOT frozen";
const CLEAR_STEPS: &str = "DELETE FROM routine_steps WHERE version_id = $1";
const INSERT_STEP: &str = "INSERT INTO routine_steps
    (version_id, position, act, agent, stock_percent, percent, dose, minutes, temperature_c, place, note)
    VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)";
const LOCK: &str = "UPDATE routines SET name = name WHERE id = $1";
const NEWEST: &str = "SELECT v.id, v.number, m.name AS by_name
    FROM routine_versions v LEFT JOIN members m ON m.id = v.made_by
    WHERE v.routine_id = $1 ORDER BY v.number DESC LIMIT 1";

pub const ALL: &[&str] = &[
    ROUTINES,
    ROUTINE,
    STEPS,
    FREEZE,
    VERSIONS,
    INSERT,
    INSERT_MISSING,
    RENAME,
    RETIRE,
    INSERT_VERSION,
    REWRITE_VERSION,
    CLEAR_STEPS,
    INSERT_STEP,
    LOCK,
    NEWEST,
];

#[derive(FromRow)]
struct Newest {
    id: RoutineVersionId,
    number: i64,
    by_name: Option<String>,
}

/// Every routine with its newest version, by name; retired ones too.
pub async fn routines(conn: &mut Conn) -> Result<Vec<Routine>, AppError> {
    Ok(conn.all(ROUTINES, args![]).await?)
}

/// One routine with its newest version.
pub async fn routine(conn: &mut Conn, id: &RoutineId) -> Result<Option<Routine>, AppError> {
    Ok(conn.maybe(ROUTINE, args![id]).await?)
}

/// The steps of a version, in order.
pub async fn steps(conn: &mut Conn, version: &RoutineVersionId) -> Result<Vec<Step>, AppError> {
    Ok(conn.all(STEPS, args![version]).await?)
}

/// Freezes a version: from now on an edit makes a new one.
pub async fn freeze(conn: &mut Conn, version: &RoutineVersionId) -> Result<(), AppError> {
    conn.run(FREEZE, args![version]).await?;
    Ok(())
}

/// Every version of a routine, newest first.
pub async fn versions(conn: &mut Conn, id: &RoutineId) -> Result<Vec<Version>, AppError> {
    Ok(conn.all(VERSIONS, args![id]).await?)
}

/// A new routine with its first version.
pub async fn add(conn: &mut Conn, by: &MemberId, new: &NewRoutine, now: At) -> Result<RoutineId, AppError> {
    let id = RoutineId::new();
    let row = args![&id, &new.name, name_key(&new.name), by, now];
    taken(conn.run(INSERT, row).await, "name", t!("routines-name-taken"))?;
    add_version(conn, &id, 1, new, Some(by), now).await?;
    Ok(id)
}

/// A routine made by nobody, unless there is one of its name.
pub async fn insert_missing(conn: &mut Conn, new: &NewRoutine, now: At) -> Result<(), AppError> {
    let id = RoutineId::new();
    let row = args![&id, &new.name, name_key(&new.name), now];
    if conn.run(INSERT_MISSING, row).await? == 1 {
        add_version(conn, &id, 1, new, None, now).await?;
    }
    Ok(())
}

/// Holds a routine for the rest of the transaction; the name of whoever saved it last.
pub async fn lock(conn: &mut Conn, id: &RoutineId) -> Result<Option<String>, AppError> {
    conn.run(LOCK, args![id]).await?;
    let newest: Newest = conn.one(NEWEST, args![id]).await?;
    Ok(newest.by_name)
}

/// Edits a routine of the member's (or any, as an organiser) that is locked: in place, or as a new version where the
/// newest one was used. Gives the number of the version that now holds.
pub async fn edit(
    conn: &mut Conn,
    by: &Member,
    id: &RoutineId,
    new: &NewRoutine,
    now: At,
) -> Result<i64, AppError> {
    let row = args![id, &new.name, name_key(&new.name), &by.id, by.is_organiser()];
    if taken(conn.run(RENAME, row).await, "name", t!("routines-name-taken"))? == 0 {
        return Err(AppError::NotFound);
    }
    let newest: Newest = conn.one(NEWEST, args![id]).await?;
    if conn.run(REWRITE_VERSION, args![&newest.id, &new.note, &by.id, now]).await? == 0 {
        add_version(conn, id, newest.number + 1, new, Some(&by.id), now).await?;
        return Ok(newest.number + 1);
    }
    conn.run(CLEAR_STEPS, args![&newest.id]).await?;
    add_steps(conn, &newest.id, &new.steps).await?;
    Ok(newest.number)
}

/// Retires a routine of the member's (or any, as an organiser), or brings it back (`at` is `None`).
pub async fn retire(conn: &mut Conn, by: &Member, id: &RoutineId, at: Option<At>) -> Result<(), AppError> {
    match conn.run(RETIRE, args![id, at, &by.id, by.is_organiser()]).await? {
        0 => Err(AppError::NotFound),
        _ => Ok(()),
    }
}

async fn add_version(
    conn: &mut Conn,
    routine: &RoutineId,
    number: i64,
    new: &NewRoutine,
    by: Option<&MemberId>,
    now: At,
) -> Result<(), AppError> {
    let id = RoutineVersionId::new();
    conn.run(INSERT_VERSION, args![&id, routine, number, &new.note, by, now]).await?;
    add_steps(conn, &id, &new.steps).await
}

async fn add_steps(conn: &mut Conn, version: &RoutineVersionId, steps: &[Step]) -> Result<(), AppError> {
    for s in steps {
        let row = args![
            version,
            s.position,
            &s.act,
            &s.agent,
            s.stock_percent,
            s.percent,
            &s.dose,
            s.minutes,
            s.temperature_c,
            &s.place,
            &s.note,
        ];
        conn.run(INSERT_STEP, row).await?;
    }
    Ok(())
}
