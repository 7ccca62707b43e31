//! Counts: the club's, to size a ring trial by; and a ring trial's own, once it is opened.

use crate::args;
use crate::db::ids::{At, RingId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;

const CLOSED: &str = "SELECT t.packet_id, t.version_id, v.root_id AS variety_id, v.kind_id, b.rooted,
      b.seeds + b.moved_in - b.moved_out - b.lost - b.sown_unrooted - b.not_examined AS seeds
    FROM bags b JOIN trials t ON t.id = b.trial_id JOIN packets p ON p.id = t.packet_id
    JOIN lots l ON l.id = p.lot_id JOIN varieties v ON v.id = l.variety_id
    WHERE b.ending = 'final count' AND NOT b.voided AND NOT t.voided AND NOT b.in_doubt AND NOT b.floaters
      AND NOT v.blind AND b.seeds + b.moved_in - b.moved_out - b.lost - b.sown_unrooted - b.not_examined > 0
    ORDER BY b.on_paper_at DESC, b.id DESC LIMIT 20000";
const BAGS: &str =
    "SELECT b.mark, x.place, t.owner_id AS grower_id, t.id AS trial, b.on_paper_at, b.closed_at,
      b.ending, b.in_doubt, b.seeds + b.moved_in - b.moved_out - b.lost - b.sown_unrooted AS seeds, b.rooted,
      b.findings
    FROM ring_packets x JOIN trials t ON t.packet_id = x.packet_id JOIN bags b ON b.trial_id = t.id
    WHERE x.ring_id = $1 AND NOT t.voided AND NOT b.voided ORDER BY length(b.mark_key), b.mark_key";
pub(super) const ALL: &[&str] = &[CLOSED, BAGS];

/// A closed bag of the club.
#[derive(Debug, Clone, FromRow)]
pub struct Closed {
    pub packet_id: String,
    pub version_id: String,
    pub variety_id: String,
    pub kind_id: String,
    pub rooted: i64,
    pub seeds: i64,
}

/// A bag of a ring trial.
#[derive(Debug, Clone, FromRow)]
pub struct RingBag {
    pub mark: String,
    pub place: i64,
    pub grower_id: String,
    pub trial: String,
    pub on_paper_at: At,
    pub closed_at: Option<At>,
    pub ending: String,
    pub in_doubt: bool,
    pub seeds: i64,
    pub rooted: i64,
    /// What looks found, as [`Finding`](crate::notebook::bag::Finding) keeps it.
    pub findings: String,
}

/// The newest closed bags of the club, without those that are blind.
pub async fn closed(conn: &mut Conn) -> Result<Vec<Closed>, AppError> {
    Ok(conn.all(CLOSED, args![]).await?)
}

pub async fn bags(conn: &mut Conn, ring: &RingId) -> Result<Vec<RingBag>, AppError> {
    Ok(conn.all(BAGS, args![ring]).await?)
}
