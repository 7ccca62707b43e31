use super::model::{Bag, look_due};
use crate::args;
use crate::db::ids::{At, BagId, HolderId, MemberId, TrialId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use chrono::NaiveDate;
use chrono_tz::Tz;

macro_rules! bags {
    ($condition:literal) => {
        bags!($condition, " ORDER BY length(b.mark_key), b.mark_key")
    };
    ($condition:literal, $order:literal) => {
        concat!(
            "SELECT b.id, b.trial_id, t.packet_id, b.mark, v.name AS variety, s.name AS source, k.name AS kind,
              k.name_key AS kind_key, b.floaters, t.treated_again, b.on_paper_at, b.holder_id, h.mark AS holder,
              b.place, b.warmth_c, b.weekly, b.in_doubt, b.voided, b.seeds, b.rooted, b.on_paper, b.ended,
              b.looked_at, b.closed_at, b.ending, b.findings
            FROM bags b
            JOIN trials t ON t.id = b.trial_id
            JOIN packets p ON p.id = t.packet_id
            JOIN lots l ON l.id = p.lot_id
            JOIN varieties v ON v.id = l.variety_id
            JOIN sources s ON s.id = l.source_id
            JOIN kinds k ON k.id = v.kind_id
            LEFT JOIN holders h ON h.id = b.holder_id
            WHERE b.owner_id = $1 AND ",
            $condition,
            $order
        )
    };
}

const ONE: &str = bags!("b.id = $2");
const OPEN: &str = bags!("NOT b.voided AND b.closed_at IS NULL");
const TO_DO: &str = bags!("NOT b.voided AND (b.closed_at IS NULL OR b.rooted > b.ended)");
const OF_TRIAL: &str = bags!("NOT b.voided AND b.closed_at IS NULL AND b.trial_id = $2");
const IN_HOLDER: &str = bags!("NOT b.voided AND b.closed_at IS NULL AND b.holder_id = $2");

const AFTER: &str = bags!("NOT b.voided AND b.id > $2", " ORDER BY b.id LIMIT $3");
const OPEN_AFTER: &str =
    bags!("NOT b.voided AND b.closed_at IS NULL AND b.id > $2", " ORDER BY b.id LIMIT $3");

const WAITING: &str = "SELECT b.id, b.mark, b.on_paper_at, b.looked_at, b.weekly FROM bags b
    WHERE b.owner_id = $1 AND NOT b.voided AND b.closed_at IS NULL AND b.on_paper > 0 AND b.id <> $2
    ORDER BY length(b.mark_key), b.mark_key";

pub const ALL: &[&str] = &[ONE, AFTER, OPEN_AFTER, OPEN, TO_DO, OF_TRIAL, IN_HOLDER, WAITING];

/// A bag that waits for its next look.
#[derive(Debug, Clone, FromRow)]
pub struct Other {
    pub id: BagId,
    pub mark: String,
    on_paper_at: At,
    looked_at: Option<At>,
    weekly: bool,
}

impl Other {
    pub fn path(&self) -> String {
        format!("/bags/{}", self.id)
    }

    /// The day of its next look.
    fn due(&self, zone: Tz) -> Option<NaiveDate> {
        look_due(self.looked_at.unwrap_or(self.on_paper_at), self.weekly, zone)
    }
}

/// The first bag of `member` that is due for a look by `today`, other than `but`.
pub async fn next_due(
    conn: &mut Conn,
    (member, but): (&MemberId, &BagId),
    (today, zone): (NaiveDate, Tz),
) -> Result<Option<Other>, AppError> {
    let waiting: Vec<Other> = conn.all(WAITING, args![member, but]).await?;
    let due = |bag: Other| bag.due(zone).filter(|day| *day <= today).map(|day| (day, bag));
    Ok(waiting.into_iter().filter_map(due).min_by_key(|(day, _)| *day).map(|(_, bag)| bag))
}

/// One bag of `member`.
pub async fn bag(conn: &mut Conn, member: &MemberId, id: &BagId) -> Result<Bag, AppError> {
    let found: Option<Bag> = conn.maybe(ONE, args![member, id]).await?;
    found.ok_or(AppError::NotFound)
}

/// Every open bag of `member`, in order of marks.
pub async fn open(conn: &mut Conn, member: &MemberId) -> Result<Vec<Bag>, AppError> {
    Ok(conn.all(OPEN, args![member]).await?)
}

/// Open bags, and closed ones with rooted seeds that wait for a cell.
pub async fn to_do(conn: &mut Conn, member: &MemberId) -> Result<Vec<Bag>, AppError> {
    Ok(conn.all(TO_DO, args![member]).await?)
}

/// Open bags of one trial.
pub async fn of_trial(conn: &mut Conn, member: &MemberId, trial: &TrialId) -> Result<Vec<Bag>, AppError> {
    Ok(conn.all(OF_TRIAL, args![member, trial]).await?)
}

/// Open bags in one holder.
pub async fn in_holder(conn: &mut Conn, member: &MemberId, holder: &HolderId) -> Result<Vec<Bag>, AppError> {
    Ok(conn.all(IN_HOLDER, args![member, holder]).await?)
}

/// At most `most` bags of `member`, all or the open ones, in the order of their ids, after the one with id `after`.
pub async fn after(
    conn: &mut Conn,
    member: &MemberId,
    open: bool,
    (after, most): (&str, i64),
) -> Result<Vec<Bag>, AppError> {
    let sql = if open { OPEN_AFTER } else { AFTER };
    Ok(conn.all(sql, args![member, after, most]).await?)
}
