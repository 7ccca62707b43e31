use crate::args;
use crate::db::Conn;
use crate::db::ids::{At, MemberId, PlantingId, TrayId};
use crate::error::AppError;
use crate::trays::model::{Planting, Waiting};

macro_rules! plantings {
    ($rest:literal) => {
        concat!(
            "SELECT p.id, p.tray_id, p.cell, p.bag_id, b.mark AS bag, rv.name AS variety, rs.name AS source, p.unrooted,
              p.planted_at, p.seeds, p.up, p.lost, p.thinned, p.potted, p.ended_at, p.end_why,
              (SELECT CAST(COALESCE(SUM(o.seeds), 0) AS BIGINT) FROM entries e JOIN outcomes o ON o.entry_id = e.id
                WHERE e.planting_id = p.id AND o.sort = 'lost' AND o.why = 'did not come up'
                  AND NOT EXISTS (SELECT 1 FROM voids x WHERE x.entry_id = e.id)) AS never,
              EXISTS (SELECT 1 FROM tray_cells c WHERE c.planting_id = p.id) AS here
            FROM plantings p
            JOIN trays t ON t.id = p.tray_id
            JOIN bags b ON b.id = p.bag_id
            JOIN trials r ON r.id = b.trial_id
            JOIN packets k ON k.id = r.packet_id
            JOIN lots l ON l.id = k.lot_id
            JOIN varieties v ON v.id = l.variety_id JOIN varieties rv ON rv.id = v.root_id
            JOIN sources s ON s.id = l.source_id JOIN sources rs ON rs.id = s.root_id
            WHERE t.owner_id = $1 ",
            $rest
        )
    };
}

const ONE: &str = plantings!("AND p.id = $2");
const OF_TRAY: &str = plantings!("AND p.tray_id = $2 AND NOT p.voided ORDER BY p.cell, p.planted_at, p.id");
const OF_CELL: &str =
    plantings!("AND p.tray_id = $2 AND p.cell = $3 AND NOT p.voided ORDER BY p.planted_at DESC, p.id DESC");
const WAITING: &str = "SELECT t.id, t.mark, t.name, t.place, COUNT(*) AS cells, MIN(p.planted_at) AS since
    FROM tray_cells c
    JOIN plantings p ON p.id = c.planting_id
    JOIN trays t ON t.id = c.tray_id
    WHERE t.owner_id = $1 AND t.finished_at IS NULL AND p.planted_at <= $2
      AND p.up = 0 AND p.lost = 0 AND p.thinned = 0 AND p.potted = 0
    GROUP BY t.id, t.mark, t.name, t.place ORDER BY MIN(p.planted_at), t.id";

pub const ALL: &[&str] = &[ONE, OF_TRAY, OF_CELL, WAITING];

/// After this many days without a word on a planting, its tray waits for one (common practice, no source).
pub const WAIT_DAYS: i64 = 7;

/// A planting in a tray of the member.
pub async fn planting(conn: &mut Conn, member: &MemberId, id: &PlantingId) -> Result<Planting, AppError> {
    conn.maybe(ONE, args![member, id]).await?.ok_or(AppError::NotFound)
}

/// Every planting a tray ever held, by cell, the oldest first.
pub async fn of_tray(conn: &mut Conn, member: &MemberId, tray: &TrayId) -> Result<Vec<Planting>, AppError> {
    Ok(conn.all(OF_TRAY, args![member, tray]).await?)
}

/// Every planting a cell ever held, the newest first.
pub async fn of_cell(conn: &mut Conn, member: &MemberId, p: &Planting) -> Result<Vec<Planting>, AppError> {
    Ok(conn.all(OF_CELL, args![member, &p.tray_id, p.cell]).await?)
}

/// The member's trays with cells of which nothing was noted for [`WAIT_DAYS`], the longest waiting first.
pub async fn waiting(conn: &mut Conn, member: &MemberId, now: At) -> Result<Vec<Waiting>, AppError> {
    Ok(conn.all(WAITING, args![member, now.plus_days(-WAIT_DAYS)]).await?)
}
