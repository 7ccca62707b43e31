use super::model::Photo;
use crate::args;
use crate::db::ids::{At, BagId, EntryId, MemberId, PhotoId, TrialId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use chrono_tz::Tz;

const ADD: &str = "INSERT INTO photos (id, entry_id, jpeg, small, small_width, small_height)
    VALUES ($1, $2, $3, $4, $5, $6)";

macro_rules! photos {
    ($columns:literal, $condition:literal) => {
        concat!(
            "SELECT ",
            $columns,
            " FROM photos f JOIN entries e ON e.id = f.entry_id JOIN bags b ON b.id = e.bag_id
            WHERE b.owner_id = $1 AND NOT EXISTS (SELECT 1 FROM voids v WHERE v.entry_id = e.id) AND ",
            $condition,
            " ORDER BY e.at, f.id"
        )
    };
}

const OF_BAG: &str =
    photos!("f.id, f.entry_id, b.mark, e.at, b.on_paper_at, f.small_width, f.small_height", "b.id = $2");
const OF_TRIAL: &str = photos!(
    "f.id, f.entry_id, b.mark, e.at, b.on_paper_at, f.small_width, f.small_height",
    "b.trial_id = $2"
);
const LARGE: &str = photos!("f.jpeg AS bytes", "f.id = $2");
const SMALL: &str = photos!("f.small AS bytes", "f.id = $2");

pub const ALL: &[&str] = &[ADD, OF_BAG, OF_TRIAL, LARGE, SMALL];

/// A photo as pages show it; its bytes have an address of their own.
#[derive(Debug, Clone, FromRow)]
pub struct Shown {
    pub id: PhotoId,
    pub entry_id: String,
    mark: String,
    at: At,
    on_paper_at: At,
    pub small_width: i64,
    pub small_height: i64,
}

impl Shown {
    /// `JB 1 a, day 6`: by the club's calendar; the day on paper is day 0.
    pub fn of(&self, zone: Tz) -> String {
        let day = (self.at.day(zone) - self.on_paper_at.day(zone)).num_days();
        t!("photos-of-day", mark = self.mark, n = day)
    }
}

#[derive(FromRow)]
struct Bytes {
    bytes: Vec<u8>,
}

/// Keeps a photo with the entry that it belongs to.
pub async fn add(conn: &mut Conn, entry: &EntryId, photo: &Photo) -> Result<(), AppError> {
    let row = args![
        &PhotoId::new(),
        entry,
        photo.jpeg.clone(),
        photo.small.clone(),
        photo.small_width,
        photo.small_height
    ];
    conn.run(ADD, row).await?;
    Ok(())
}

/// The photos of a bag of `member`'s, the oldest first; those of voided entries are left out.
pub async fn of_bag(conn: &mut Conn, member: &MemberId, bag: &BagId) -> Result<Vec<Shown>, AppError> {
    Ok(conn.all(OF_BAG, args![member, bag]).await?)
}

/// The photos of those bags of a trial that are `member`'s.
pub async fn of_trial(conn: &mut Conn, member: &MemberId, trial: &TrialId) -> Result<Vec<Shown>, AppError> {
    Ok(conn.all(OF_TRIAL, args![member, trial]).await?)
}

/// The JPEG of one photo of `member`'s, large or small.
pub async fn bytes(
    conn: &mut Conn,
    member: &MemberId,
    id: &PhotoId,
    small: bool,
) -> Result<Vec<u8>, AppError> {
    let found: Option<Bytes> = conn.maybe(if small { SMALL } else { LARGE }, args![member, id]).await?;
    Ok(found.ok_or(AppError::NotFound)?.bytes)
}
