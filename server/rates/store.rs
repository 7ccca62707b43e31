use crate::args;
use crate::db::ids::At;
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use anyhow::Context;
use serde::Serialize;

/// Entries are counted from `$1` on; the rest of them was counted before.
const VERSION: &str = "SELECT
      (SELECT COUNT(*) FROM entries WHERE id > $1) AS entries, (SELECT MAX(id) FROM entries) AS newest,
      (SELECT COUNT(*) FROM voids) AS voids,
      (SELECT COUNT(*) + COUNT(undone_at) FROM merges) AS merges,
      (SELECT CAST(COALESCE(SUM(version - 1), 0) AS BIGINT) FROM varieties) AS varieties,
      (SELECT CAST(COALESCE(SUM(version - 1), 0) AS BIGINT) FROM sources) AS sources,
      (SELECT CAST(COALESCE(SUM(version - 1), 0) AS BIGINT) FROM members) AS members,
      (SELECT CAST(COALESCE(SUM(lot_changes), 0) AS BIGINT) FROM packets WHERE lot_changes > 0) AS packets,
      (SELECT COUNT(*) FROM lots WHERE doubtful_cross) AS doubtful,
      (SELECT CAST(COALESCE(SUM(version), 0) + COUNT(*) AS BIGINT) FROM other_clubs) AS others,
      (SELECT time_zone FROM club) AS time_zone, (SELECT COUNT(*) FROM entries WHERE id > $2) AS later";
const NEWEST: &str = "SELECT MAX(id) AS id FROM entries";
const SETTLED: &str = "SELECT COUNT(*) AS n FROM entries WHERE id <= $1";
const GROWERS: &str = "SELECT m.id, m.name, (SELECT MIN(x.shown) FROM letters x WHERE x.member_id = m.id) AS letters
    FROM members m
    WHERE EXISTS (SELECT 1 FROM trials t JOIN bags b ON b.trial_id = t.id WHERE t.owner_id = m.id AND NOT b.voided
      AND NOT t.voided)
    ORDER BY m.id";
const PACKETS: &str = "SELECT id FROM packets ORDER BY id";
const PACKETS_SINCE: &str = "SELECT t.packet_id AS id FROM entries e JOIN trials t ON t.id = e.trial_id
    WHERE e.id > $1 AND e.id <= $2
    UNION SELECT t.packet_id FROM entries e JOIN bags b ON b.id = e.bag_id JOIN trials t ON t.id = b.trial_id
    WHERE e.id > $1 AND e.id <= $2 ORDER BY 1";
const OWNERS_SINCE: &str = "SELECT t.owner_id AS id FROM entries e JOIN bags b ON b.id = e.bag_id
    JOIN trials t ON t.id = b.trial_id WHERE e.id > $1 AND e.id <= $2 GROUP BY t.owner_id ORDER BY t.owner_id";
const SEED: &str =
    "SELECT p.id, p.mark, k.id AS kind_id, k.name AS kind, v.name AS variety, s.name AS source,
      l.id AS lot, l.code AS lot_code, l.year, l.doubtful_cross
    FROM packets p JOIN lots l ON l.id = p.lot_id
    JOIN varieties own ON own.id = l.variety_id JOIN varieties v ON v.id = own.root_id
    JOIN kinds k ON k.id = v.kind_id
    JOIN sources from_whom ON from_whom.id = l.source_id JOIN sources s ON s.id = from_whom.root_id
    WHERE p.id >= $1 AND p.id <= $2 AND NOT own.blind";
const BAGS: &str = "SELECT b.mark, b.floaters, b.on_paper_at, b.seeds, b.lost, b.moved_in, b.moved_out,
      b.sown_unrooted, b.findings, b.in_doubt, b.closed_at, b.ending, b.warmth_c, t.packet_id,
      t.id AS trial, t.began_at, t.thrown_out, t.owner_id AS grower_id, m.name AS grower,
      r.id AS routine_id, r.name AS routine
    FROM trials t JOIN bags b ON b.trial_id = t.id JOIN members m ON m.id = t.owner_id
    JOIN routine_versions n ON n.id = t.version_id JOIN routines r ON r.id = n.routine_id
    WHERE t.packet_id >= $1 AND t.packet_id <= $2 AND NOT b.voided AND NOT t.voided";
const SPOILED: &str = "SELECT t.packet_id, e.trial_id AS trial, d.seeds
    FROM packets p JOIN trials t ON t.packet_id = p.id JOIN entries e ON e.trial_id = t.id
    JOIN trial_seeds d ON d.entry_id = e.id
    WHERE p.id >= $1 AND p.id <= $2 AND e.what = 'trial seeds' AND d.sort = 'spoiled'
      AND NOT EXISTS (SELECT 1 FROM voids x WHERE x.entry_id = e.id)
    ORDER BY d.entry_id";
const FATES: &str = "SELECT v.kind_id, t.floaters AS fate, COUNT(*) AS trials,
      CAST(SUM(CASE WHEN t.floaters = 'thrown out' THEN t.thrown_out ELSE COALESCE(t.floated, 0) END) AS BIGINT) AS seeds
    FROM trials t JOIN packets p ON p.id = t.packet_id JOIN lots l ON l.id = p.lot_id
    JOIN varieties own ON own.id = l.variety_id JOIN varieties v ON v.id = own.root_id
    WHERE NOT t.voided AND t.floaters <> ''
    GROUP BY v.kind_id, t.floaters ORDER BY v.kind_id, t.floaters";
macro_rules! grown {
    ($head:literal, $rest:literal) => {
        concat!(
            "SELECT ",
            $head,
            "CAST(COALESCE(SUM(CASE WHEN g.up < g.seeds - g.lost THEN g.up ELSE g.seeds - g.lost END), 0) AS BIGINT) AS grown,
      CAST(COALESCE(SUM(CASE WHEN g.ended_at IS NOT NULL OR g.up + g.lost > g.seeds THEN g.seeds
        ELSE g.up + g.lost END), 0) AS BIGINT) AS planted
    FROM kinds k JOIN varieties v ON v.kind_id = k.id JOIN varieties own ON own.root_id = v.id
    JOIN lots l ON l.variety_id = own.id
    JOIN sources from_whom ON from_whom.id = l.source_id JOIN sources s ON s.id = from_whom.root_id
    JOIN packets p ON p.lot_id = l.id JOIN trials t ON t.packet_id = p.id
    JOIN bags b ON b.trial_id = t.id JOIN plantings g ON g.bag_id = b.id
    WHERE NOT g.voided AND NOT g.unrooted AND NOT b.voided AND NOT b.in_doubt AND g.planted_at <= $1 ",
            $rest
        )
    };
}
const GROWN: &str = grown!(
    "COUNT(*) AS plantings, ",
    "AND k.name = $2 AND s.name = $4
      AND CASE WHEN l.doubtful_cross THEN v.name || ' (doubtful cross)' ELSE v.name END = $3"
);
const ALL_GROWN: &str = grown!(
    "k.name AS kind, v.name AS variety, s.name AS source, ",
    "AND NOT own.blind AND NOT l.doubtful_cross GROUP BY k.name, v.name, s.name ORDER BY k.name, v.name, s.name"
);

const OTHERS: &str =
    "SELECT code, name, counts, names FROM other_clubs WHERE removed_at IS NULL AND used ORDER BY code";

pub const ALL: &[&str] = &[
    VERSION,
    NEWEST,
    SETTLED,
    GROWERS,
    PACKETS,
    PACKETS_SINCE,
    OWNERS_SINCE,
    SEED,
    BAGS,
    SPOILED,
    FATES,
    GROWN,
    ALL_GROWN,
    OTHERS,
];

/// What the table depends on, as numbers that grow with every change: entries and voids are only ever added,
/// versions only rise. Two processes on one database see the same.
#[derive(Debug, Clone, PartialEq, Eq, FromRow, Serialize)]
pub struct Version {
    entries: i64,
    newest: Option<String>,
    voids: i64,
    merges: i64,
    varieties: i64,
    sources: i64,
    members: i64,
    packets: i64,
    doubtful: i64,
    others: i64,
    time_zone: Option<String>,
}

/// A version, and how many entries have later ids than those of the reading it was asked for.
#[derive(Debug, Clone, FromRow)]
pub struct Latest {
    #[sqlx(flatten)]
    pub version: Version,
    later: i64,
}

/// The seed in a packet, by the names it counts under by now.
#[derive(Debug, Clone, FromRow)]
pub struct SeedRow {
    /// Of the packet.
    pub id: String,
    pub mark: String,
    pub kind_id: String,
    pub kind: String,
    pub variety: String,
    pub source: String,
    pub lot: String,
    pub lot_code: String,
    pub year: i64,
    pub doubtful_cross: bool,
}

/// One unvoided bag.
#[derive(Debug, Clone, FromRow)]
pub struct BagRow {
    pub mark: String,
    pub floaters: bool,
    pub on_paper_at: i64,
    pub seeds: i64,
    pub lost: i64,
    pub moved_in: i64,
    pub moved_out: i64,
    pub sown_unrooted: i64,
    pub findings: String,
    pub in_doubt: bool,
    pub closed_at: Option<i64>,
    pub ending: String,
    pub warmth_c: Option<f64>,
    pub packet_id: String,
    pub trial: String,
    pub began_at: i64,
    pub thrown_out: i64,
    pub grower_id: String,
    pub grower: String,
    pub routine_id: String,
    pub routine: String,
}

/// Some seeds of a trial that spoiled in the soak.
#[derive(Debug, Clone, FromRow)]
pub struct SpoiledRow {
    pub packet_id: String,
    pub trial: String,
    pub seeds: i64,
}

/// A member who has bags.
#[derive(Debug, Clone, FromRow)]
pub struct GrowerRow {
    pub id: String,
    pub name: String,
    pub letters: Option<String>,
}

#[derive(FromRow)]
struct Id {
    id: String,
}

#[derive(FromRow)]
struct Newest {
    id: Option<String>,
}

#[derive(FromRow)]
struct Number {
    n: i64,
}

/// How many entries there are up to some id. None is added there any more, since ids follow the time; should a clock
/// have gone wrong, counting anew tells.
#[derive(Debug, Clone, Default)]
pub struct Settled {
    upto: String,
    entries: i64,
}

impl Settled {
    /// A save may write ids so long before it commits, in milliseconds.
    const LAG: u64 = 6 * 60 * 1000;

    /// Counts them.
    pub async fn count(conn: &mut Conn) -> Result<Self, AppError> {
        let newest: Newest = conn.one(NEWEST, args![]).await?;
        let stamp =
            newest.id.as_deref().and_then(|id| u64::from_str_radix(id.get(..12)?, 16).ok()).unwrap_or(0);
        let upto = format!("{:012x}", stamp.saturating_sub(Self::LAG));
        let counted: Number = conn.one(SETTLED, args![&upto]).await?;
        Ok(Self { upto, entries: counted.n })
    }
}

/// The version as it is now; new entries are counted from `older` on.
pub async fn latest(conn: &mut Conn, settled: &Settled, older: Option<&Version>) -> Result<Latest, AppError> {
    let args = args![&settled.upto, older.map_or("", Version::newest)];
    let mut latest: Latest = conn.one(VERSION, args).await?;
    latest.version.entries += settled.entries;
    Ok(latest)
}

/// Entries later than `after` up to and with `upto`, both their ids.
#[derive(Debug, Clone, Copy)]
pub struct Span<'a> {
    after: &'a str,
    upto: &'a str,
}

impl Version {
    /// The same text for the same version.
    pub fn text(&self) -> Result<String, AppError> {
        Ok(serde_json::to_string(self).context("a version can be written")?)
    }

    /// The id of the newest entry in it; empty where there is none.
    pub fn newest(&self) -> &str {
        self.newest.as_deref().unwrap_or_default()
    }
}

impl Latest {
    /// The entries that came since `older`, where they are all that changed and their ids all follow. Ids are made
    /// by each process before it saves, so one may come late; then, or after a void, everything is read again.
    pub fn since<'a>(&'a self, older: &'a Version) -> Option<Span<'a>> {
        let now = &self.version;
        let (entries, newest) = (now.entries, now.newest.clone());
        let same = Version { entries, newest, ..older.clone() };
        let all = self.later == now.entries - older.entries;
        (same == *now && all).then_some(Span { after: older.newest(), upto: now.newest() })
    }
}

/// The ids of all packets, in order.
pub async fn packets(conn: &mut Conn) -> Result<Vec<String>, AppError> {
    let rows: Vec<Id> = conn.all(PACKETS, args![]).await?;
    Ok(rows.into_iter().map(|row| row.id).collect())
}

/// The packets whose trials or bags the entries of `span` are about.
pub async fn packets_since(conn: &mut Conn, span: Span<'_>) -> Result<Vec<String>, AppError> {
    let rows: Vec<Id> = conn.all(PACKETS_SINCE, args![span.after, span.upto]).await?;
    Ok(rows.into_iter().map(|row| row.id).collect())
}

/// Whose trials' bags the entries of `span` are about.
pub async fn owners_since(conn: &mut Conn, span: Span<'_>) -> Result<Vec<String>, AppError> {
    let rows: Vec<Id> = conn.all(OWNERS_SINCE, args![span.after, span.upto]).await?;
    Ok(rows.into_iter().map(|row| row.id).collect())
}

/// Everybody who has bags.
pub async fn growers(conn: &mut Conn) -> Result<Vec<GrowerRow>, AppError> {
    Ok(conn.all(GROWERS, args![]).await?)
}

/// The bags of the packets from the one id to the other.
pub async fn bags(conn: &mut Conn, first: &str, last: &str) -> Result<Vec<BagRow>, AppError> {
    Ok(conn.all(BAGS, args![first, last]).await?)
}

/// What is in these packets; not those of running ring trials, of which nobody knows it.
pub async fn seed(conn: &mut Conn, first: &str, last: &str) -> Result<Vec<SeedRow>, AppError> {
    Ok(conn.all(SEED, args![first, last]).await?)
}

/// What spoiled in the soak of the trials of these packets.
pub async fn spoiled(conn: &mut Conn, (first, last): (&str, &str)) -> Result<Vec<SpoiledRow>, AppError> {
    Ok(conn.all(SPOILED, args![first, last]).await?)
}

/// What became of the floaters of some trials: `fate` as in table trials; seeds floated, or thrown out.
#[derive(Debug, Clone, FromRow)]
pub struct FateRow {
    pub kind_id: String,
    pub fate: String,
    pub trials: i64,
    pub seeds: i64,
}

/// Every trial with a float tally, by kind and by what became of its floaters.
pub async fn fates(conn: &mut Conn) -> Result<Vec<FateRow>, AppError> {
    Ok(conn.all(FATES, args![]).await?)
}

/// Rooted seeds planted whose fate is known, and those of them that became plants.
#[derive(Debug, Clone, Copy, PartialEq, Eq, FromRow)]
pub struct Grown {
    pub plantings: i64,
    pub grown: i64,
    pub planted: i64,
}

/// What became of the seeds of one row of the table that were planted at `before` or earlier.
pub async fn grown(
    conn: &mut Conn,
    before: At,
    (kind, variety, source): (&str, &str, &str),
) -> Result<Grown, AppError> {
    Ok(conn.one(GROWN, args![before, kind, variety, source]).await?)
}

/// [`Grown`] of one kind, variety and source.
#[derive(Debug, Clone, FromRow)]
pub struct GrownRow {
    pub kind: String,
    pub variety: String,
    pub source: String,
    pub grown: i64,
    pub planted: i64,
}

/// What became of the seeds that were planted at `before` or earlier, by kind, variety and source; without doubtful
/// crosses.
pub async fn all_grown(conn: &mut Conn, before: At) -> Result<Vec<GrownRow>, AppError> {
    Ok(conn.all(ALL_GROWN, args![before]).await?)
}

/// The table of another club, as it was brought in.
#[derive(Debug, Clone, FromRow)]
pub struct OtherRow {
    pub code: String,
    pub name: String,
    /// The long table of counts.
    pub counts: String,
    /// Our names for theirs, as JSON by field.
    pub names: String,
}

/// The tables of other clubs that count beside ours.
pub async fn others(conn: &mut Conn) -> Result<Vec<OtherRow>, AppError> {
    Ok(conn.all(OTHERS, args![]).await?)
}
