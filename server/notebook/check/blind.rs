use crate::args;
use crate::db::{Conn, FromRow};
use crate::error::AppError;

const SHUT: &str =
    "SELECT p.mark FROM packets p JOIN lots l ON l.id = p.lot_id JOIN varieties v ON v.id = l.variety_id
    WHERE v.blind AND NOT EXISTS (SELECT 1 FROM ring_packets x JOIN rings r ON r.id = x.ring_id
      WHERE x.packet_id = p.id AND r.blind_lot = p.lot_id AND r.opened_at IS NULL)
    ORDER BY p.mark_key LIMIT 200";
const KNOWN: &str = "SELECT p.mark FROM ring_packets x JOIN rings r ON r.id = x.ring_id
    JOIN packets p ON p.id = x.packet_id
    WHERE r.opened_at IS NULL AND p.lot_id <> r.blind_lot ORDER BY p.mark_key LIMIT 200";

pub(super) const ALL: &[&str] = &[SHUT, KNOWN];

#[derive(FromRow)]
struct Packet {
    mark: String,
}

/// Packets are blind for as long as their ring trial runs, and no longer.
pub(super) async fn all(conn: &mut Conn) -> Result<Vec<String>, AppError> {
    let rules = [
        (SHUT, "is blind, and no running ring trial will open it"),
        (KNOWN, "is not blind, and its ring trial still runs"),
    ];
    let mut found = Vec::new();
    for (sql, why) in rules {
        let faults: Vec<Packet> = conn.all(sql, args![]).await?;
        found.extend(faults.iter().map(|p| format!("ring trial packet {}: {why}", p.mark)));
    }
    Ok(found)
}
