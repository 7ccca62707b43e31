use crate::args;
use crate::db::ids::{At, BagId, MemberId, PacketId, TrialId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::trials::model::{Due, Trial, Vial};

/// The columns of [`Vial`].
macro_rules! vial {
    () => {
        "t.pair, (SELECT COUNT(*) FROM trials o WHERE o.packet_id = t.packet_id AND o.id <= t.id) AS vial"
    };
}
macro_rules! due {
    ($rest:literal) => {
        concat!(
            "SELECT t.id AS trial_id, t.packet_id, p.mark, v.name AS variety, p.state, t.began_at, t.soaking, t.step,
              (SELECT COUNT(*) FROM routine_steps n WHERE n.version_id = t.version_id) AS steps, t.step_at,
              s.act, s.agent, s.minutes, t.sank IS NOT NULL AS tallied, ",
            vial!(),
            "
            FROM trials t JOIN packets p ON p.id = t.packet_id JOIN lots l ON l.id = p.lot_id
            JOIN varieties v ON v.id = l.variety_id
            LEFT JOIN routine_steps s ON s.version_id = t.version_id AND s.position = t.step
            WHERE t.owner_id = $1 AND t.soaking > 0 AND NOT t.voided ",
            $rest
        )
    };
}

const DUE: &str = due!("ORDER BY t.step_at, length(p.mark_key), p.mark_key, t.id");
const ALIKE: &str = due!(
    "AND t.step = (SELECT step FROM trials WHERE id = $2)
     AND t.version_id = (SELECT version_id FROM trials WHERE id = $2) AND t.id <> $2 ORDER BY length(p.mark_key), p.mark_key, t.id"
);
macro_rules! trials {
    ($rest:literal) => {
        concat!(
            "SELECT t.id, t.packet_id, p.mark, p.state, v.name AS variety, k.name AS kind, s.name AS source,
              r.id AS routine_id, r.name AS routine, t.version_id, n.number, t.began_at, t.voided, t.treated_again,
              t.seeds, t.soaking, t.thrown_out, t.lost, t.returned, t.step, t.step_at, t.sank, t.floated, t.floaters, ",
            vial!(),
            "
            FROM trials t JOIN packets p ON p.id = t.packet_id JOIN lots l ON l.id = p.lot_id
            JOIN varieties v ON v.id = l.variety_id JOIN kinds k ON k.id = v.kind_id JOIN sources s ON s.id = l.source_id
            JOIN routine_versions n ON n.id = t.version_id JOIN routines r ON r.id = n.routine_id
            WHERE t.owner_id = $2 AND ",
            $rest
        )
    };
}
const TRIAL: &str = trials!("t.id = $1");
const AFTER: &str = trials!("t.id > $1 AND NOT t.voided ORDER BY t.id LIMIT $3");
const BAGS: &str =
    "SELECT id, mark, floaters, on_paper_at, place, warmth_c, seeds, rooted, on_paper, lost, moved_in, moved_out,
      sown_unrooted, findings, in_doubt, closed_at, ending
    FROM bags WHERE trial_id = $1 AND NOT voided ORDER BY on_paper_at, id";
const DONE: &str = "SELECT d.position, d.skipped, d.began_at, d.percent, e.at, e.note, s.agent AS solution
    FROM steps_done d JOIN entries e ON e.id = d.entry_id LEFT JOIN solutions s ON s.id = d.solution_id
    WHERE e.trial_id = $1 AND NOT EXISTS (SELECT 1 FROM voids v WHERE v.entry_id = e.id)
    ORDER BY d.position, e.at, e.id";

macro_rules! listed {
    ($rest:literal) => {
        concat!(
            "SELECT t.id, p.mark, v.name AS variety, r.name AS routine, t.began_at, t.seeds, t.soaking, ",
            vial!(),
            ",
              (SELECT COUNT(*) FROM bags b WHERE b.trial_id = t.id AND NOT b.voided) AS bags,
              (SELECT COUNT(*) FROM bags b WHERE b.trial_id = t.id AND NOT b.voided AND b.closed_at IS NULL) AS open_bags
            FROM trials t JOIN packets p ON p.id = t.packet_id JOIN lots l ON l.id = p.lot_id
            JOIN varieties v ON v.id = l.variety_id
            JOIN routine_versions n ON n.id = t.version_id JOIN routines r ON r.id = n.routine_id
            WHERE t.owner_id = $1 AND NOT t.voided ",
            $rest
        )
    };
}

const RUNNING: &str = listed!(
    "AND (t.soaking > 0 OR EXISTS (SELECT 1 FROM bags b
       WHERE b.trial_id = t.id AND NOT b.voided AND b.closed_at IS NULL))
     ORDER BY t.began_at DESC, length(p.mark_key), p.mark_key, t.id"
);
const PAST: &str = listed!(
    "AND t.soaking = 0 AND NOT EXISTS (SELECT 1 FROM bags b
       WHERE b.trial_id = t.id AND NOT b.voided AND b.closed_at IS NULL)
     ORDER BY t.began_at DESC, length(p.mark_key), p.mark_key, t.id LIMIT $2 OFFSET $3"
);
const PACKETS: &str = "SELECT p.id, p.mark, v.name AS variety, k.name AS kind, p.state, p.balance, p.rough
    FROM packets p JOIN lots l ON l.id = p.lot_id JOIN varieties v ON v.id = l.variety_id
    JOIN kinds k ON k.id = v.kind_id
    WHERE p.owner_id = $1 ORDER BY length(p.mark_key), p.mark_key, p.id";
const LAST_PLACE: &str = "SELECT place, warmth_c FROM bags
    WHERE owner_id = $1 AND NOT voided AND (place <> '' OR warmth_c IS NOT NULL)
    ORDER BY on_paper_at DESC, id DESC LIMIT 1";
const COMPANIONS: &str = listed!("AND t.pair = $2 AND t.id <> $3 ORDER BY t.id");

pub(super) const ALL: &[&str] =
    &[DUE, ALIKE, TRIAL, AFTER, BAGS, DONE, RUNNING, PAST, PACKETS, LAST_PLACE, COMPANIONS];

/// The member's trials with seeds in the soak, in the order of their running step's beginning.
pub async fn due(conn: &mut Conn, member: &MemberId) -> Result<Vec<Due>, AppError> {
    Ok(conn.all(DUE, args![member]).await?)
}

/// The member's other trials at the same step of the same routine.
pub async fn soaking_alike(
    conn: &mut Conn,
    member: &MemberId,
    trial: &TrialId,
) -> Result<Vec<Due>, AppError> {
    Ok(conn.all(ALIKE, args![member, trial]).await?)
}

/// One trial of the member's.
pub async fn trial(conn: &mut Conn, member: &MemberId, id: &TrialId) -> Result<Trial, AppError> {
    conn.maybe(TRIAL, args![id, member]).await?.ok_or(AppError::NotFound)
}

/// At most `most` trials of the member's in the order of their ids, after the one with id `after`.
pub async fn trials_after(
    conn: &mut Conn,
    member: &MemberId,
    after: &str,
    most: i64,
) -> Result<Vec<Trial>, AppError> {
    Ok(conn.all(AFTER, args![after, member, most]).await?)
}

/// One bag of a trial.
#[derive(Debug, Clone, FromRow)]
pub struct Bag {
    pub id: BagId,
    pub mark: String,
    pub floaters: bool,
    pub on_paper_at: At,
    pub place: String,
    pub warmth_c: Option<f64>,
    pub seeds: i64,
    pub rooted: i64,
    pub on_paper: i64,
    pub lost: i64,
    pub moved_in: i64,
    pub moved_out: i64,
    pub sown_unrooted: i64,
    /// What looks found, as [`Finding`](crate::notebook::bag::Finding) keeps it.
    pub findings: String,
    pub in_doubt: bool,
    pub closed_at: Option<At>,
    pub ending: String,
}

/// The bags of a trial.
pub async fn bags(conn: &mut Conn, trial: &TrialId) -> Result<Vec<Bag>, AppError> {
    Ok(conn.all(BAGS, args![trial]).await?)
}

/// A step as it was really done.
#[derive(Debug, Clone, FromRow)]
pub struct Done {
    pub position: i64,
    pub skipped: bool,
    pub began_at: At,
    pub at: At,
    pub percent: Option<f64>,
    pub solution: Option<String>,
    pub note: String,
}

/// The steps of a trial that were done.
pub async fn done(conn: &mut Conn, trial: &TrialId) -> Result<Vec<Done>, AppError> {
    Ok(conn.all(DONE, args![trial]).await?)
}

/// One line of a list of trials.
#[derive(Debug, Clone, FromRow)]
pub struct Listed {
    pub id: TrialId,
    pub mark: String,
    pub variety: String,
    pub routine: String,
    pub began_at: At,
    pub seeds: i64,
    pub soaking: i64,
    #[sqlx(flatten)]
    pub vial: Vial,
    pub bags: i64,
    pub open_bags: i64,
}

/// The member's trials that are soaking or have open bags.
pub async fn running(conn: &mut Conn, member: &MemberId) -> Result<Vec<Listed>, AppError> {
    Ok(conn.all(RUNNING, args![member]).await?)
}

/// The member's finished trials, newest first.
pub async fn past(
    conn: &mut Conn,
    member: &MemberId,
    limit: i64,
    skip: i64,
) -> Result<Vec<Listed>, AppError> {
    Ok(conn.all(PAST, args![member, limit, skip]).await?)
}

/// The other trials of a pair.
pub async fn companions(
    conn: &mut Conn,
    member: &MemberId,
    pair: &str,
    but: &TrialId,
) -> Result<Vec<Listed>, AppError> {
    Ok(conn.all(COMPANIONS, args![member, pair, but]).await?)
}

/// A packet that seeds can be taken from.
#[derive(Debug, Clone, FromRow)]
pub struct Packet {
    pub id: PacketId,
    pub mark: String,
    pub variety: String,
    pub kind: String,
    pub state: String,
    pub balance: i64,
    pub rough: bool,
}

/// The member's packets, by mark.
pub async fn packets(conn: &mut Conn, member: &MemberId) -> Result<Vec<Packet>, AppError> {
    Ok(conn.all(PACKETS, args![member]).await?)
}

/// Where a bag lies, in degrees C.
#[derive(Debug, Clone, Default, FromRow)]
pub struct Place {
    pub place: String,
    pub warmth_c: Option<f64>,
}

/// Where the member's last bag went.
pub async fn last_place(conn: &mut Conn, member: &MemberId) -> Result<Place, AppError> {
    Ok(conn.maybe(LAST_PLACE, args![member]).await?.unwrap_or_default())
}
