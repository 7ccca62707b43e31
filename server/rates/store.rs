use crate::args;
use crate::db::{Conn, FromRow};
use crate::error::AppError;

const VERSION: &str = "SELECT
      (SELECT COUNT(*) FROM entries) AS entries, (SELECT COUNT(*) FROM voids) AS voids,
      (SELECT COUNT(*) + COUNT(undone_at) FROM merges) AS merges,
      (SELECT CAST(COALESCE(SUM(version), 0) + COUNT(*) AS BIGINT) FROM varieties) AS varieties,
      (SELECT CAST(COALESCE(SUM(version), 0) + COUNT(*) AS BIGINT) FROM sources) AS sources,
      (SELECT CAST(COALESCE(SUM(version), 0) + COUNT(*) AS BIGINT) FROM members) AS members,
      (SELECT CAST(COALESCE(SUM(version), 0) + COUNT(*) AS BIGINT) FROM packets) AS packets,
      (SELECT CAST(COALESCE(SUM(year + CASE WHEN doubtful_cross THEN 10000 ELSE 0 END), 0) + COUNT(*) AS BIGINT)
        FROM lots) AS lots,
      (SELECT time_zone FROM club) AS time_zone";
const BAGS: &str =
    "SELECT b.id, b.mark, b.floaters, b.on_paper_at, b.seeds, b.lost, b.moved_in, b.moved_out,
      b.sown_unrooted, b.in_doubt, b.closed_at, b.ending, b.warmth_c,
      t.id AS trial, t.began_at, t.thrown_out, t.owner_id AS grower_id, m.name AS grower,
      (SELECT MIN(x.shown) FROM letters x WHERE x.member_id = m.id) AS letters,
      p.mark AS packet, k.id AS kind_id, k.name AS kind, v.name AS variety, s.name AS source, l.year, l.doubtful_cross,
      r.id AS routine_id, r.name AS routine
    FROM bags b JOIN trials t ON t.id = b.trial_id JOIN members m ON m.id = t.owner_id
    JOIN packets p ON p.id = t.packet_id JOIN lots l ON l.id = p.lot_id
    JOIN varieties own ON own.id = l.variety_id JOIN varieties v ON v.id = own.root_id
    JOIN kinds k ON k.id = v.kind_id
    JOIN sources from_whom ON from_whom.id = l.source_id JOIN sources s ON s.id = from_whom.root_id
    JOIN routine_versions n ON n.id = t.version_id JOIN routines r ON r.id = n.routine_id
    WHERE NOT b.voided AND NOT t.voided
    ORDER BY t.began_at, t.id, b.on_paper_at, b.mark_key";
const LOOKS: &str = "SELECT e.bag_id, e.at, d.rooted, d.abnormal, d.dead, d.sown FROM
      (SELECT entry_id, rooted, abnormal, dead, 0 AS sown FROM looks
       UNION ALL SELECT entry_id, 0, abnormal, dead, 0 FROM closings
       UNION ALL SELECT entry_id, 0, 0, 0, seeds FROM bag_seeds WHERE sort = 'sown unrooted') d
    JOIN entries e ON e.id = d.entry_id
    WHERE e.bag_id IS NOT NULL AND NOT EXISTS (SELECT 1 FROM voids x WHERE x.entry_id = e.id)
    ORDER BY e.bag_id, e.at, e.id";
const SPOILED: &str = "SELECT e.trial_id AS trial, CAST(SUM(d.seeds) AS BIGINT) AS seeds
    FROM trial_seeds d JOIN entries e ON e.id = d.entry_id
    WHERE d.sort = 'spoiled' AND e.trial_id IS NOT NULL
      AND NOT EXISTS (SELECT 1 FROM voids x WHERE x.entry_id = e.id)
    GROUP BY e.trial_id ORDER BY e.trial_id";

pub const ALL: &[&str] = &[VERSION, BAGS, LOOKS, SPOILED];

/// What the table depends on, as numbers that grow with every change: entries and voids are only ever added,
/// versions only rise. Two processes on one database see the same.
#[derive(Debug, Clone, PartialEq, Eq, FromRow)]
pub struct Version {
    entries: i64,
    voids: i64,
    merges: i64,
    varieties: i64,
    sources: i64,
    members: i64,
    packets: i64,
    lots: i64,
    time_zone: Option<String>,
}

/// One unvoided bag, with the names it counts under by now.
#[derive(Debug, Clone, FromRow)]
pub struct BagRow {
    pub id: String,
    pub mark: String,
    pub floaters: bool,
    pub on_paper_at: i64,
    pub seeds: i64,
    pub lost: i64,
    pub moved_in: i64,
    pub moved_out: i64,
    pub sown_unrooted: i64,
    pub in_doubt: bool,
    pub closed_at: Option<i64>,
    pub ending: String,
    pub warmth_c: Option<f64>,
    pub trial: String,
    pub began_at: i64,
    pub thrown_out: i64,
    pub grower_id: String,
    pub grower: String,
    pub letters: Option<String>,
    pub packet: String,
    pub kind_id: String,
    pub kind: String,
    pub variety: String,
    pub source: String,
    pub year: i64,
    pub doubtful_cross: bool,
    pub routine_id: String,
    pub routine: String,
}

/// What was found in a bag at one moment; `sown` seeds left it unrooted.
#[derive(Debug, Clone, FromRow)]
pub struct LookRow {
    pub bag_id: String,
    pub at: i64,
    pub rooted: i64,
    pub abnormal: i64,
    pub dead: i64,
    pub sown: i64,
}

/// Seeds of a trial that spoiled in the soak.
#[derive(Debug, Clone, FromRow)]
pub struct SpoiledRow {
    pub trial: String,
    pub seeds: i64,
}

pub async fn version(conn: &mut Conn) -> Result<Version, AppError> {
    Ok(conn.one(VERSION, args![]).await?)
}

/// Every bag, ordered by trial and time on paper.
pub async fn bags(conn: &mut Conn) -> Result<Vec<BagRow>, AppError> {
    Ok(conn.all(BAGS, args![]).await?)
}

/// Every look of every bag, ordered by bag and time.
pub async fn looks(conn: &mut Conn) -> Result<Vec<LookRow>, AppError> {
    Ok(conn.all(LOOKS, args![]).await?)
}

pub async fn spoiled(conn: &mut Conn) -> Result<Vec<SpoiledRow>, AppError> {
    Ok(conn.all(SPOILED, args![]).await?)
}
