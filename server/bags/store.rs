use super::model::Bag;
use crate::args;
use crate::db::Conn;
use crate::db::ids::{BagId, HolderId, MemberId, TrialId};
use crate::error::AppError;

macro_rules! bags {
    ($condition:literal) => {
        bags!($condition, " ORDER BY length(b.mark_key), b.mark_key")
    };
    ($condition:literal, $order:literal) => {
        concat!(
            "SELECT b.id, b.trial_id, t.packet_id, b.mark, v.name AS variety, s.name AS source, k.name AS kind,
              k.name_key AS kind_key, b.floaters, t.treated_again, b.on_paper_at, b.holder_id, h.mark AS holder,
              b.place, b.warmth_c, b.weekly, b.in_doubt, b.voided, b.seeds, b.rooted, b.on_paper, b.ended,
              b.looked_at, b.closed_at, b.ending,
              CASE WHEN b.rooted > 0 THEN
                (SELECT MAX(e.at) FROM entries e JOIN looks l ON l.entry_id = e.id
                  WHERE e.bag_id = b.id AND l.rooted > 0
                    AND NOT EXISTS (SELECT 1 FROM voids x WHERE x.entry_id = e.id)) END AS rooted_at
            FROM bags b
            JOIN trials t ON t.id = b.trial_id
            JOIN packets p ON p.id = t.packet_id
            JOIN lots l ON l.id = p.lot_id
            JOIN varieties v ON v.id = l.variety_id
            JOIN sources s ON s.id = l.source_id
            JOIN kinds k ON k.id = v.kind_id
            LEFT JOIN holders h ON h.id = b.holder_id
            WHERE b.owner_id = $1 AND ",
            $condition,
            $order
        )
    };
}

const ONE: &str = bags!("b.id = $2");
const OPEN: &str = bags!("NOT b.voided AND b.closed_at IS NULL");
const TO_DO: &str = bags!("NOT b.voided AND (b.closed_at IS NULL OR b.rooted > b.ended)");
const OF_TRIAL: &str = bags!("NOT b.voided AND b.closed_at IS NULL AND b.trial_id = $2");
const IN_HOLDER: &str = bags!("NOT b.voided AND b.closed_at IS NULL AND b.holder_id = $2");

const AFTER: &str = bags!("NOT b.voided AND b.id > $2", " ORDER BY b.id LIMIT $3");
const OPEN_AFTER: &str =
    bags!("NOT b.voided AND b.closed_at IS NULL AND b.id > $2", " ORDER BY b.id LIMIT $3");

pub const ALL: &[&str] = &[ONE, AFTER, OPEN_AFTER, OPEN, TO_DO, OF_TRIAL, IN_HOLDER];

/// One bag of `member`.
pub async fn bag(conn: &mut Conn, member: &MemberId, id: &BagId) -> Result<Bag, AppError> {
    let found: Option<Bag> = conn.maybe(ONE, args![member, id]).await?;
    found.ok_or(AppError::NotFound)
}

/// Every open bag of `member`, in order of marks.
pub async fn open(conn: &mut Conn, member: &MemberId) -> Result<Vec<Bag>, AppError> {
    Ok(conn.all(OPEN, args![member]).await?)
}

/// Open bags, and closed ones with rooted seeds that wait for a cell.
pub async fn to_do(conn: &mut Conn, member: &MemberId) -> Result<Vec<Bag>, AppError> {
    Ok(conn.all(TO_DO, args![member]).await?)
}

/// Open bags of one trial.
pub async fn of_trial(conn: &mut Conn, member: &MemberId, trial: &TrialId) -> Result<Vec<Bag>, AppError> {
    Ok(conn.all(OF_TRIAL, args![member, trial]).await?)
}

/// Open bags in one holder.
pub async fn in_holder(conn: &mut Conn, member: &MemberId, holder: &HolderId) -> Result<Vec<Bag>, AppError> {
    Ok(conn.all(IN_HOLDER, args![member, holder]).await?)
}

/// At most `most` bags of `member`, all or the open ones, in the order of their ids, after the one with id `after`.
pub async fn after(
    conn: &mut Conn,
    member: &MemberId,
    open: bool,
    (after, most): (&str, i64),
) -> Result<Vec<Bag>, AppError> {
    let sql = if open { OPEN_AFTER } else { AFTER };
    Ok(conn.all(sql, args![member, after, most]).await?)
}
