use crate::args;
use crate::db::ids::{MemberId, TrialId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;

const NUMBERS: &str = "SELECT t.id,
      (SELECT COUNT(*) FROM trials o WHERE o.packet_id = t.packet_id AND o.id <= t.id) AS number
    FROM trials t WHERE t.owner_id = $1 AND t.soaking > 0 ORDER BY t.id";
const OF_VIAL: &str = "SELECT t.id FROM trials t JOIN packets p ON p.id = t.packet_id
    WHERE t.owner_id = $1 AND p.mark_key = $2 ORDER BY t.id LIMIT 1 OFFSET $3";

pub const ALL: &[&str] = &[NUMBERS, OF_VIAL];

/// Which of its packet's trials a trial is, from 1, in the order they were written down.
#[derive(Debug, Clone, FromRow)]
pub struct Number {
    pub id: TrialId,
    pub number: i64,
}

#[derive(FromRow)]
struct Found {
    id: TrialId,
}

/// The numbers of the member's trials with seeds in the soak.
pub async fn numbers(conn: &mut Conn, member: &MemberId) -> Result<Vec<Number>, AppError> {
    Ok(conn.all(NUMBERS, args![member]).await?)
}

/// The member's trial whose vial says this: the packet's mark, and which of its trials (from 1).
pub async fn of_vial(
    conn: &mut Conn,
    member: &MemberId,
    mark_key: &str,
    number: i64,
) -> Result<TrialId, AppError> {
    let found: Option<Found> = conn.maybe(OF_VIAL, args![member, mark_key, number - 1]).await?;
    Ok(found.ok_or(AppError::NotFound)?.id)
}
