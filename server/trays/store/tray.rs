use crate::args;
use crate::db::Conn;
use crate::db::ids::{At, MemberId, TrayId};
use crate::error::AppError;
use crate::marks;
use crate::trays::model::Tray;

macro_rules! trays {
    ($rest:literal) => {
        concat!(
            "SELECT t.id, t.mark, t.mark_key, t.name, t.tray_rows, t.tray_cols, t.place, t.made_at, t.finished_at,
              (SELECT COUNT(*) FROM tray_cells c WHERE c.tray_id = t.id) AS planted
            FROM trays t WHERE t.owner_id = $1 ",
            $rest
        )
    };
}

const INSERT: &str = "INSERT INTO trays
    (id, owner_id, mark_key, mark, name, tray_rows, tray_cols, place, made_at, version)
    VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, 1)";
const ONE: &str = trays!("AND t.id = $2");
const EVERY: &str = trays!(
    "ORDER BY CASE WHEN t.finished_at IS NULL THEN 0 ELSE 1 END, t.finished_at DESC, t.made_at DESC, t.id DESC"
);
/// The last one planted into first.
const OPEN: &str = trays!(
    "AND t.finished_at IS NULL
    ORDER BY COALESCE((SELECT MAX(p.planted_at) FROM plantings p WHERE p.tray_id = t.id AND NOT p.voided), t.made_at) DESC,
      t.made_at DESC, t.id DESC"
);
const AFTER: &str = trays!("AND t.id > $2 ORDER BY t.id LIMIT $3");
const LOCK: &str = "UPDATE trays SET version = version + 1 WHERE id = $2 AND owner_id = $1";
const PLACE: &str = "UPDATE trays SET place = $3 WHERE id = $2 AND owner_id = $1";
const FINISH: &str = "UPDATE trays SET finished_at = $3 WHERE id = $2 AND owner_id = $1";

pub const ALL: &[&str] = &[INSERT, ONE, EVERY, OPEN, AFTER, LOCK, PLACE, FINISH];

/// A tray to be made: 1 to 60 rows and columns.
#[derive(Debug, Clone)]
pub struct NewTray<'a> {
    pub name: &'a str,
    pub rows: i64,
    pub cols: i64,
    pub place: &'a str,
}

/// Makes a tray with the next free tray mark under the member's newest letters; gives its id and mark.
pub async fn make(
    conn: &mut Conn,
    member: &MemberId,
    new: &NewTray<'_>,
    now: At,
) -> Result<(TrayId, String), AppError> {
    let id = TrayId::new();
    let letters = marks::letters(conn, member).await?;
    let own = letters.first().ok_or_else(|| AppError::refused("letters", t!("trays-no-letters-yet")))?;
    let mark = marks::next_thing(conn, &own.shown, "tray", &id.0, now).await?;
    let row = args![&id, member, &mark.key, &mark.shown, new.name, new.rows, new.cols, new.place, now];
    conn.run(INSERT, row).await?;
    Ok((id, mark.shown))
}

/// The member's tray.
pub async fn tray(conn: &mut Conn, member: &MemberId, id: &TrayId) -> Result<Tray, AppError> {
    conn.maybe(ONE, args![member, id]).await?.ok_or(AppError::NotFound)
}

/// All trays of the member, those in use first.
pub async fn every(conn: &mut Conn, member: &MemberId) -> Result<Vec<Tray>, AppError> {
    Ok(conn.all(EVERY, args![member]).await?)
}

/// The trays in use, the last one planted into first.
pub async fn open(conn: &mut Conn, member: &MemberId) -> Result<Vec<Tray>, AppError> {
    Ok(conn.all(OPEN, args![member]).await?)
}

/// At most `most` trays of the member in the order of their ids, after the one with id `after`.
pub async fn after(
    conn: &mut Conn,
    member: &MemberId,
    after: &str,
    most: i64,
) -> Result<Vec<Tray>, AppError> {
    Ok(conn.all(AFTER, args![member, after, most]).await?)
}

/// Locks the member's tray until the transaction ends.
pub async fn lock(conn: &mut Conn, member: &MemberId, id: &TrayId) -> Result<Tray, AppError> {
    match conn.run(LOCK, args![member, id]).await? {
        1 => tray(conn, member, id).await,
        _ => Err(AppError::NotFound),
    }
}

/// Puts the tray in another place.
pub async fn put(conn: &mut Conn, member: &MemberId, id: &TrayId, place: &str) -> Result<(), AppError> {
    match conn.run(PLACE, args![member, id, place]).await? {
        1 => Ok(()),
        _ => Err(AppError::NotFound),
    }
}

/// Finishes the tray, or with `None` takes it into use again.
pub async fn finish(conn: &mut Conn, member: &MemberId, id: &TrayId, at: Option<At>) -> Result<(), AppError> {
    match conn.run(FINISH, args![member, id, at]).await? {
        1 => Ok(()),
        _ => Err(AppError::NotFound),
    }
}
