use super::model::{Routine, Step};
use crate::args;
use crate::db::Conn;
use crate::db::ids::{RoutineId, RoutineVersionId};
use crate::error::AppError;

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

pub const ALL: &[&str] = &[ROUTINES, ROUTINE, STEPS, FREEZE];

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
