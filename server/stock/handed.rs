//! Packets of running ring trials that were handed out and that their growers have not started.

use crate::args;
use crate::db::ids::{At, MemberId, PacketId, RingId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;

const WAITING: &str = "SELECT r.id AS ring_id, r.name AS ring, x.packet_id, x.mark, p.made_at AS since
    FROM ring_growers g JOIN rings r ON r.id = g.ring_id
    JOIN ring_packets x ON x.ring_id = g.ring_id AND x.member_id = g.member_id
    JOIN packets p ON p.id = x.packet_id
    WHERE g.member_id = $1 AND r.opened_at IS NULL AND r.given_up_at IS NULL AND p.balance > 0
      AND NOT EXISTS (SELECT 1 FROM trials t WHERE t.packet_id = x.packet_id AND NOT t.voided)
    ORDER BY r.made_at, r.id, length(x.mark_key), x.mark_key";

pub const ALL: &[&str] = &[WAITING];

/// A blind packet that its grower has and did not start.
#[derive(Debug, Clone, FromRow)]
pub struct Waiting {
    pub ring_id: RingId,
    pub ring: String,
    pub packet_id: PacketId,
    pub mark: String,
    /// When it was handed out.
    pub since: At,
}

/// Blind packets that `member` has to start, those of one ring trial together.
pub async fn waiting(conn: &mut Conn, member: &MemberId) -> Result<Vec<Waiting>, AppError> {
    Ok(conn.all(WAITING, args![member]).await?)
}

/// Where trials of these packets are started together.
pub fn start_path<'a>(packets: impl Iterator<Item = &'a PacketId>) -> String {
    let chosen: Vec<String> = packets.map(|id| format!("packet={id}")).collect();
    format!("/trials/new?{}", chosen.join("&"))
}
