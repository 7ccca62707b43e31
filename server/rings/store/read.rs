use crate::args;
use crate::db::ids::{At, MemberId, RingId, VarietyId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::rings::model::{Grower, Lot, Part, Ring};
use crate::web::words;

const RING: &str = "SELECT r.id, r.name, r.variety_id, v.name AS variety, k.id AS kind_id, k.name AS kind, r.difference,
      r.certainty, r.lots_each, r.bags, r.bag_seeds, m.name AS made_by_name, r.made_at, r.drawn_at, r.blind_lot,
      r.opened_at, o.name AS opened_by_name, r.why, r.given_up_at
    FROM rings r JOIN varieties v ON v.id = r.variety_id JOIN kinds k ON k.id = v.kind_id
    JOIN members m ON m.id = r.made_by LEFT JOIN members o ON o.id = r.opened_by WHERE r.id = $1";
const EVERY: &str =
    "SELECT r.id, r.name, k.name AS kind, v.name AS variety, r.made_at, r.drawn_at, r.opened_at, r.given_up_at,
      (SELECT COUNT(*) FROM ring_lots l WHERE l.ring_id = r.id) AS lots,
      (SELECT COUNT(*) FROM ring_growers g WHERE g.ring_id = r.id) AS growers,
      EXISTS (SELECT 1 FROM ring_growers g WHERE g.ring_id = r.id AND g.member_id = $1) AS ours
    FROM rings r JOIN varieties v ON v.id = r.variety_id JOIN kinds k ON k.id = v.kind_id
    ORDER BY r.made_at DESC, r.id DESC";
const TAKES_PART: &str = "SELECT COUNT(*) AS n FROM ring_growers WHERE ring_id = $1 AND member_id = $2";
const GROWERS: &str = "SELECT g.member_id, m.name FROM ring_growers g JOIN members m ON m.id = g.member_id
    WHERE g.ring_id = $1 ORDER BY m.id";
const MEMBERS: &str = "SELECT id AS member_id, name FROM members WHERE left_at IS NULL ORDER BY id";
macro_rules! packets {
    ($from:literal) => {
        concat!(
            "SELECT p.id AS packet_id, p.lot_id, p.mark, o.name AS owner, s.name AS source, l.year, l.code, p.state,
              p.balance, p.rough FROM ",
            $from,
            " JOIN members o ON o.id = p.owner_id JOIN lots l ON l.id = p.lot_id
            JOIN varieties v ON v.id = l.variety_id
            JOIN sources own ON own.id = l.source_id JOIN sources s ON s.id = own.root_id "
        )
    };
}
const LOTS: &str = concat!(
    packets!("ring_lots x JOIN packets p ON p.id = x.packet_id"),
    "WHERE x.ring_id = $1 ORDER BY x.place"
);
const CANDIDATES: &str = concat!(
    packets!("packets p"),
    "WHERE v.root_id = $1 AND NOT v.blind AND p.balance > 0 AND NOT l.doubtful_cross
    ORDER BY s.name_key, l.year, l.code_key, p.balance DESC, p.mark_key"
);
const VARIETIES: &str = "SELECT r.id, r.name, k.name AS kind, COUNT(DISTINCT p.lot_id) AS lots,
      COUNT(DISTINCT own.root_id) AS sources
    FROM packets p JOIN lots l ON l.id = p.lot_id JOIN varieties v ON v.id = l.variety_id
    JOIN varieties r ON r.id = v.root_id JOIN kinds k ON k.id = r.kind_id
    JOIN sources own ON own.id = l.source_id
    WHERE p.balance > 0 AND NOT v.blind AND NOT l.doubtful_cross
    GROUP BY r.id, r.name, r.name_key, k.name, k.name_key HAVING COUNT(DISTINCT p.lot_id) >= 2
    ORDER BY k.name_key, r.name_key";
const PARTS: &str = "SELECT x.packet_id, x.place, x.member_id, m.name AS grower, x.mark,
      EXISTS (SELECT 1 FROM packets p WHERE p.id = x.packet_id) AS made,
      (SELECT CAST(COALESCE(SUM(d.seeds), 0) AS BIGINT) FROM entries e JOIN ledger d ON d.entry_id = e.id
        WHERE e.packet_id = x.packet_id AND d.sort = 'received'
          AND NOT EXISTS (SELECT 1 FROM voids w WHERE w.entry_id = e.id)) AS handed,
      (SELECT CAST(COALESCE(SUM(t.soaking), 0) AS BIGINT) FROM trials t
        WHERE t.packet_id = x.packet_id AND NOT t.voided) AS soaking,
      COUNT(b.id) AS bags,
      CAST(COALESCE(SUM(CASE WHEN b.id IS NOT NULL AND b.closed_at IS NULL THEN 1 ELSE 0 END), 0) AS BIGINT)
        AS open_bags,
      CAST(COALESCE(SUM(b.seeds + b.moved_in - b.moved_out - b.lost), 0) AS BIGINT) AS seeds,
      CAST(COALESCE(SUM(b.rooted), 0) AS BIGINT) AS rooted
    FROM ring_packets x JOIN members m ON m.id = x.member_id
    LEFT JOIN trials r ON r.packet_id = x.packet_id AND NOT r.voided
    LEFT JOIN bags b ON b.trial_id = r.id AND NOT b.voided
    WHERE x.ring_id = $1
    GROUP BY x.packet_id, x.place, x.member_id, m.name, x.mark, x.mark_key
    ORDER BY m.name, x.member_id, length(x.mark_key), x.mark_key";
pub(super) const ALL: &[&str] =
    &[RING, EVERY, TAKES_PART, GROWERS, MEMBERS, LOTS, CANDIDATES, VARIETIES, PARTS];

/// A ring trial in the list.
#[derive(Debug, Clone, FromRow)]
pub struct Listed {
    pub id: RingId,
    pub name: String,
    pub kind: String,
    pub variety: String,
    pub made_at: At,
    pub drawn_at: Option<At>,
    pub opened_at: Option<At>,
    pub given_up_at: Option<At>,
    pub lots: i64,
    pub growers: i64,
    /// Whether the asking member takes part.
    pub ours: bool,
}

/// A variety of which the club has seed of two lots or more.
#[derive(Debug, Clone, FromRow)]
pub struct Offered {
    pub id: VarietyId,
    pub name: String,
    pub kind: String,
    pub lots: i64,
    pub sources: i64,
}

#[derive(FromRow)]
struct Number {
    n: i64,
}

/// A ring trial, whoever asks.
pub async fn ring(conn: &mut Conn, id: &RingId) -> Result<Ring, AppError> {
    conn.maybe(RING, args![id]).await?.ok_or(AppError::NotFound)
}

/// All ring trials, newest first, as `member` sees them.
pub async fn rings(conn: &mut Conn, member: &MemberId) -> Result<Vec<Listed>, AppError> {
    Ok(conn.all(EVERY, args![member]).await?)
}

pub async fn takes_part(conn: &mut Conn, id: &RingId, member: &MemberId) -> Result<bool, AppError> {
    let row: Number = conn.one(TAKES_PART, args![id, member]).await?;
    Ok(row.n > 0)
}

pub async fn growers(conn: &mut Conn, id: &RingId) -> Result<Vec<Grower>, AppError> {
    Ok(words::by_name(conn.all(GROWERS, args![id]).await?, |g: &Grower| &g.name))
}

/// Everybody who is here.
pub async fn members(conn: &mut Conn) -> Result<Vec<Grower>, AppError> {
    Ok(words::by_name(conn.all(MEMBERS, args![]).await?, |m: &Grower| &m.name))
}

/// The lots of a ring trial in the order of their places.
pub async fn lots(conn: &mut Conn, id: &RingId) -> Result<Vec<Lot>, AppError> {
    Ok(conn.all(LOTS, args![id]).await?)
}

/// Packets of the variety that hold seed, of any member.
pub async fn candidates(conn: &mut Conn, variety: &VarietyId) -> Result<Vec<Lot>, AppError> {
    Ok(conn.all(CANDIDATES, args![variety]).await?)
}

pub async fn varieties(conn: &mut Conn) -> Result<Vec<Offered>, AppError> {
    Ok(conn.all(VARIETIES, args![]).await?)
}

/// Every lot with every grower who has it, by grower and mark.
pub async fn parts(conn: &mut Conn, id: &RingId) -> Result<Vec<Part>, AppError> {
    Ok(conn.all(PARTS, args![id]).await?)
}
