use crate::args;
use crate::db::ids::At;
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use anyhow::Context;
use serde::Serialize;

const VERSION: &str = "SELECT
      (SELECT COUNT(*) FROM entries) AS entries, (SELECT MAX(id) FROM entries) AS newest,
      (SELECT COUNT(*) FROM voids) AS voids,
      (SELECT COUNT(*) + COUNT(undone_at) FROM merges) AS merges,
      (SELECT CAST(COALESCE(SUM(version), 0) + COUNT(*) AS BIGINT) FROM varieties) AS varieties,
      (SELECT CAST(COALESCE(SUM(version), 0) + COUNT(*) AS BIGINT) FROM sources) AS sources,
      (SELECT CAST(COALESCE(SUM(version), 0) + COUNT(*) AS BIGINT) FROM members) AS members,
      (SELECT CAST(COALESCE(SUM(version), 0) + COUNT(*) AS BIGINT) FROM packets) AS packets,
      (SELECT CAST(COALESCE(SUM(year + CASE WHEN doubtful_cross THEN 10000 ELSE 0 END), 0) + COUNT(*) AS BIGINT)
        FROM lots) AS lots,
      (SELECT COUNT(*) FROM trial_seeds WHERE sort = 'spoiled') AS spoiled,
      (SELECT CAST(COALESCE(SUM(version), 0) + COUNT(*) AS BIGINT) FROM other_clubs) AS others,
      (SELECT time_zone FROM club) AS time_zone, (SELECT COUNT(*) FROM entries WHERE id > $1) AS later";
macro_rules! bags {
    ($only:literal) => {
        concat!(
            "SELECT b.id, b.mark, b.floaters, b.on_paper_at, b.seeds, b.lost, b.moved_in, b.moved_out,
      b.sown_unrooted, b.in_doubt, b.closed_at, b.ending, b.warmth_c,
      t.id AS trial, t.began_at, t.thrown_out, t.owner_id AS grower_id, m.name AS grower,
      (SELECT MIN(x.shown) FROM letters x WHERE x.member_id = m.id) AS letters,
      p.mark AS packet, k.id AS kind_id, k.name AS kind, v.name AS variety, s.name AS source,
      l.id AS lot, l.code AS lot_code, l.year, l.doubtful_cross,
      r.id AS routine_id, r.name AS routine
    FROM bags b JOIN trials t ON t.id = b.trial_id JOIN members m ON m.id = t.owner_id
    JOIN packets p ON p.id = t.packet_id JOIN lots l ON l.id = p.lot_id
    JOIN varieties own ON own.id = l.variety_id JOIN varieties v ON v.id = own.root_id
    JOIN kinds k ON k.id = v.kind_id
    JOIN sources from_whom ON from_whom.id = l.source_id JOIN sources s ON s.id = from_whom.root_id
    JOIN routine_versions n ON n.id = t.version_id JOIN routines r ON r.id = n.routine_id
    WHERE NOT b.voided AND NOT t.voided AND NOT own.blind ",
            $only,
            " ORDER BY b.id"
        )
    };
}
const BAGS: &str = bags!("");
const BAGS_SINCE: &str = bags!(
    "AND t.id IN (SELECT e.trial_id FROM entries e WHERE e.id > $1 AND e.id <= $2 AND e.trial_id IS NOT NULL
       UNION SELECT o.trial_id FROM entries e JOIN bags o ON o.id = e.bag_id WHERE e.id > $1 AND e.id <= $2)"
);
const LOOKS: &str = "SELECT e.bag_id, e.at, d.rooted, d.abnormal, d.dead, d.sown FROM
      (SELECT entry_id, rooted, abnormal, dead, 0 AS sown FROM looks
       UNION ALL SELECT entry_id, 0, abnormal, dead, 0 FROM closings
       UNION ALL SELECT entry_id, 0, 0, 0, seeds FROM bag_seeds WHERE sort = 'sown unrooted') d
    JOIN entries e ON e.id = d.entry_id
    WHERE e.bag_id IS NOT NULL AND e.id <= $1
      AND NOT EXISTS (SELECT 1 FROM voids x WHERE x.entry_id = e.id)
    ORDER BY e.bag_id, e.at, e.id";
const LOOKS_SINCE: &str = "SELECT e.bag_id, e.at, COALESCE(l.rooted, 0) AS rooted,
      COALESCE(l.abnormal, c.abnormal, 0) AS abnormal, COALESCE(l.dead, c.dead, 0) AS dead, COALESCE(s.seeds, 0) AS sown
    FROM entries e LEFT JOIN looks l ON l.entry_id = e.id LEFT JOIN closings c ON c.entry_id = e.id
    LEFT JOIN bag_seeds s ON s.entry_id = e.id AND s.sort = 'sown unrooted'
    WHERE e.id > $1 AND e.id <= $2 AND e.bag_id IS NOT NULL
      AND (e.what IN ('look', 'closing') OR s.entry_id IS NOT NULL)
      AND NOT EXISTS (SELECT 1 FROM voids x WHERE x.entry_id = e.id)
    ORDER BY e.bag_id, e.at, e.id";
const SPOILED: &str =
    "SELECT e.trial_id AS trial, d.seeds FROM trial_seeds d JOIN entries e ON e.id = d.entry_id
    WHERE d.sort = 'spoiled' AND e.trial_id IS NOT NULL
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
    FROM plantings g JOIN bags b ON b.id = g.bag_id JOIN trials t ON t.id = b.trial_id
    JOIN packets p ON p.id = t.packet_id JOIN lots l ON l.id = p.lot_id
    JOIN varieties own ON own.id = l.variety_id JOIN varieties v ON v.id = own.root_id
    JOIN kinds k ON k.id = v.kind_id
    JOIN sources from_whom ON from_whom.id = l.source_id JOIN sources s ON s.id = from_whom.root_id
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

pub const ALL: &[&str] =
    &[VERSION, BAGS, BAGS_SINCE, LOOKS, LOOKS_SINCE, SPOILED, FATES, GROWN, ALL_GROWN, OTHERS];

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
    lots: i64,
    spoiled: i64,
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
    pub lot: String,
    pub lot_code: String,
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

/// Some seeds of a trial that spoiled in the soak.
#[derive(Debug, Clone, FromRow)]
pub struct SpoiledRow {
    pub trial: String,
    pub seeds: i64,
}

/// The version as it is now; new entries are counted from `older` on.
pub async fn latest(conn: &mut Conn, older: Option<&Version>) -> Result<Latest, AppError> {
    Ok(conn.one(VERSION, args![older.map_or("", Version::newest)]).await?)
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

    fn newest(&self) -> &str {
        self.newest.as_deref().unwrap_or_default()
    }

    /// Whether the spoiled seeds are those of `older`.
    pub fn spoiled_as(&self, older: &Self) -> bool {
        self.spoiled == older.spoiled
    }
}

impl Latest {
    /// The entries that came since `older`, where they are all that changed and their ids all follow. Ids are made
    /// by each process before it saves, so one may come late; then, or after a void, everything is read again.
    pub fn since<'a>(&'a self, older: &'a Version) -> Option<Span<'a>> {
        let now = &self.version;
        let (entries, newest, spoiled) = (now.entries, now.newest.clone(), now.spoiled);
        let same = Version { entries, newest, spoiled, ..older.clone() };
        let all = self.later == now.entries - older.entries;
        (same == *now && all).then_some(Span { after: older.newest(), upto: now.newest() })
    }
}

/// Every bag, or those of trials that the entries of `span` are about.
pub async fn bags(conn: &mut Conn, span: Option<Span<'_>>) -> Result<Vec<BagRow>, AppError> {
    Ok(match span {
        None => conn.all(BAGS, args![]).await?,
        Some(span) => conn.all(BAGS_SINCE, args![span.after, span.upto]).await?,
    })
}

/// Every look known at `version`, or those of `span`; ordered by bag and time.
pub async fn looks(
    conn: &mut Conn,
    version: &Version,
    span: Option<Span<'_>>,
) -> Result<Vec<LookRow>, AppError> {
    Ok(match span {
        None => conn.all(LOOKS, args![version.newest()]).await?,
        Some(span) => conn.all(LOOKS_SINCE, args![span.after, span.upto]).await?,
    })
}

pub async fn spoiled(conn: &mut Conn) -> Result<Vec<SpoiledRow>, AppError> {
    Ok(conn.all(SPOILED, args![]).await?)
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
