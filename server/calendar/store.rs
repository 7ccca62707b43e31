use crate::args;
use crate::db::ids::{At, MemberId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;

const CHANGED: &str = "SELECT MAX(c.at) AS at FROM (
      SELECT MAX(e.recorded_at) AS at FROM entries e JOIN trials t ON t.id = e.trial_id WHERE t.owner_id = $1
      UNION ALL
      SELECT MAX(e.recorded_at) FROM entries e JOIN bags b ON b.id = e.bag_id WHERE b.owner_id = $1
      UNION ALL
      SELECT MAX(v.at) FROM voids v JOIN entries e ON e.id = v.entry_id JOIN trials t ON t.id = e.trial_id
        WHERE t.owner_id = $1
      UNION ALL
      SELECT MAX(v.at) FROM voids v JOIN entries e ON e.id = v.entry_id JOIN bags b ON b.id = e.bag_id
        WHERE b.owner_id = $1
      UNION ALL
      SELECT MAX(COALESCE(r.ended_at, r.made_at)) FROM promises r WHERE r.owner_id = $1
      UNION ALL
      SELECT MAX(p.made_at) FROM ring_growers g JOIN ring_packets x ON x.ring_id = g.ring_id AND x.member_id = g.member_id
        JOIN packets p ON p.id = x.packet_id WHERE g.member_id = $1
    ) AS c";

pub const ALL: &[&str] = &[CHANGED];

#[derive(FromRow)]
struct Changed {
    at: Option<At>,
}

/// When something was last written down or taken back of the member's trials and bags, promised for a plan, or handed out
/// for a ring trial.
pub async fn changed(conn: &mut Conn, member: &MemberId) -> Result<Option<At>, AppError> {
    let row: Changed = conn.one(CHANGED, args![member]).await?;
    Ok(row.at)
}
