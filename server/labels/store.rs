use super::measures::Measures;
use crate::args;
use crate::db::ids::{At, MemberId, PlantingId, SheetId, TrialId};
use crate::db::{Arg, Conn, FromRow};
use crate::error::AppError;
use crate::stock::names;

const OF_VIAL: &str = "SELECT t.id FROM trials t JOIN packets p ON p.id = t.packet_id
    WHERE t.owner_id = $1 AND p.mark_key = $2 ORDER BY t.id LIMIT 1 OFFSET $3";
const POTS: &str =
    "SELECT p.id, b.mark AS bag, v.name AS variety, t.mark AS tray, t.tray_rows, t.tray_cols, p.cell,
      p.potted,
      (SELECT COUNT(*) FROM plantings o WHERE o.bag_id = p.bag_id AND o.id <= p.id) AS number,
      COALESCE((SELECT MAX(e.at) FROM entries e JOIN outcomes o ON o.entry_id = e.id
        WHERE e.planting_id = p.id AND o.sort = 'potted on'
          AND NOT EXISTS (SELECT 1 FROM voids x WHERE x.entry_id = e.id)), p.planted_at) AS at
    FROM plantings p
    JOIN trays t ON t.id = p.tray_id
    JOIN bags b ON b.id = p.bag_id
    JOIN trials r ON r.id = b.trial_id
    JOIN packets k ON k.id = r.packet_id
    JOIN lots l ON l.id = k.lot_id
    JOIN varieties v ON v.id = l.variety_id
    WHERE t.owner_id = $1 AND NOT p.voided AND p.potted > 0
    ORDER BY length(b.mark_key), b.mark_key, p.id";
const OF_POT: &str =
    "SELECT p.id FROM plantings p JOIN bags b ON b.id = p.bag_id JOIN trays t ON t.id = p.tray_id
    WHERE t.owner_id = $1 AND NOT p.voided AND b.mark_key = $2
      AND (SELECT COUNT(*) FROM plantings o WHERE o.bag_id = p.bag_id AND o.id <= p.id) = $3
    ORDER BY p.id";

macro_rules! sheets {
    ($condition:literal) => {
        concat!(
            "SELECT id, owner_id = $1 AS own, name, shared, page_width, page_height, from_left, from_top, width, height,
              pitch_x, pitch_y, across, down, nudge_x, nudge_y
            FROM label_sheets WHERE ",
            $condition
        )
    };
}

const SHEETS: &str =
    sheets!("owner_id = $1 OR shared ORDER BY CASE WHEN owner_id = $1 THEN 0 ELSE 1 END, name_key, id");
const SHEET: &str = sheets!("owner_id = $1 AND id = $2");
const TAKEN: &str = "SELECT id FROM label_sheets WHERE owner_id = $1 AND name_key = $2 AND id <> $3";
const ADD: &str =
    "INSERT INTO label_sheets (id, owner_id, name, name_key, shared, page_width, page_height, from_left,
      from_top, width, height, pitch_x, pitch_y, across, down, nudge_x, nudge_y, made_at)
    VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16, $17, $18)
    ON CONFLICT (owner_id, name_key) DO NOTHING";
const CHANGE: &str = "UPDATE label_sheets SET name = $3, name_key = $4, shared = $5, page_width = $6, page_height = $7,
      from_left = $8, from_top = $9, width = $10, height = $11, pitch_x = $12, pitch_y = $13, across = $14, down = $15,
      nudge_x = $16, nudge_y = $17
    WHERE id = $1 AND owner_id = $2";
const LOCK: &str = "UPDATE label_sheets SET name = name WHERE id = $1 AND owner_id = $2";
const REMOVE: &str = "DELETE FROM label_sheets WHERE id = $1 AND owner_id = $2";

pub const ALL: &[&str] = &[OF_VIAL, POTS, OF_POT, SHEETS, SHEET, TAKEN, ADD, CHANGE, LOCK, REMOVE];

#[derive(FromRow)]
struct Found {
    id: TrialId,
}

#[derive(FromRow)]
struct FoundPlanting {
    id: PlantingId,
}

#[derive(FromRow)]
struct FoundSheet {
    id: SheetId,
}

/// A planting of which plants were potted on.
#[derive(Debug, Clone, FromRow)]
pub struct Pot {
    pub id: PlantingId,
    pub bag: String,
    pub variety: String,
    pub tray: String,
    pub tray_rows: i64,
    pub tray_cols: i64,
    pub cell: i64,
    /// Plants, each of which needs a label.
    pub potted: i64,
    /// Which of its bag's plantings it is, from 1.
    pub number: i64,
    /// When the last of them was potted on.
    pub at: At,
}

/// A label sheet of a member, or of an organiser for all.
#[derive(Debug, Clone, FromRow)]
pub struct Sheet {
    pub id: SheetId,
    pub own: bool,
    pub name: String,
    pub shared: bool,
    #[sqlx(flatten)]
    pub measures: Measures,
}

/// The member's trial whose vial says this: the packet's mark, and which of its trials (from 1).
pub async fn of_vial(
    conn: &mut Conn,
    member: &MemberId,
    mark_key: &str,
    number: i64,
) -> Result<TrialId, AppError> {
    let found: Option<Found> = conn.maybe(OF_VIAL, args![member, mark_key, number - 1]).await?;
    Ok(found.ok_or(AppError::NotFound)?.id)
}

/// The member's plantings with plants potted on, in order of marks.
pub async fn pots(conn: &mut Conn, member: &MemberId) -> Result<Vec<Pot>, AppError> {
    Ok(conn.all(POTS, args![member]).await?)
}

/// The member's planting whose pot says this: the bag's mark, and which of its plantings (from 1).
pub async fn of_pot(
    conn: &mut Conn,
    member: &MemberId,
    mark_key: &str,
    number: i64,
) -> Result<PlantingId, AppError> {
    let found: Option<FoundPlanting> = conn.maybe(OF_POT, args![member, mark_key, number]).await?;
    Ok(found.ok_or(AppError::NotFound)?.id)
}

/// The label sheets a member may print on: their own, then those an organiser shares.
pub async fn sheets(conn: &mut Conn, member: &MemberId) -> Result<Vec<Sheet>, AppError> {
    Ok(conn.all(SHEETS, args![member]).await?)
}

/// A label sheet of the member's own.
pub async fn sheet(conn: &mut Conn, member: &MemberId, id: &SheetId) -> Result<Sheet, AppError> {
    conn.maybe(SHEET, args![member, id]).await?.ok_or(AppError::NotFound)
}

/// [`sheet`], held for the rest of the transaction.
pub async fn lock(conn: &mut Conn, member: &MemberId, id: &SheetId) -> Result<Sheet, AppError> {
    conn.run(LOCK, args![id, member]).await?;
    sheet(conn, member, id).await
}

/// What is kept of a label sheet besides who has it.
pub struct Kept<'a> {
    pub name: &'a str,
    pub shared: bool,
    pub measures: &'a Measures,
}

impl Kept<'_> {
    fn key(&self) -> String {
        names::key(self.name)
    }

    fn row(&self, id: &SheetId, member: &MemberId) -> Vec<Arg> {
        let m = self.measures;
        let mut row = args![id, member, self.name, self.key(), self.shared, m.page_width, m.page_height];
        row.extend(args![m.from_left, m.from_top, m.width, m.height, m.pitch_x, m.pitch_y]);
        row.extend(args![m.across, m.down, m.nudge_x, m.nudge_y]);
        row
    }
}

fn name_taken() -> AppError {
    AppError::refused("name", t!("labels-name-is-taken"))
}

/// Keeps a new label sheet; refused in field `name` where the member has one of that name.
pub async fn add(conn: &mut Conn, member: &MemberId, kept: &Kept<'_>, now: At) -> Result<SheetId, AppError> {
    let id = SheetId::new();
    let mut row = kept.row(&id, member);
    row.extend(args![now]);
    match conn.run(ADD, row).await? {
        1 => Ok(id),
        _ => Err(name_taken()),
    }
}

/// Changes the member's label sheet; refused in field `name` where another one has that name.
pub async fn change(
    conn: &mut Conn,
    member: &MemberId,
    id: &SheetId,
    kept: &Kept<'_>,
) -> Result<(), AppError> {
    let taken: Option<FoundSheet> = conn.maybe(TAKEN, args![member, kept.key(), id]).await?;
    if taken.is_some_and(|t| t.id != *id) {
        return Err(name_taken());
    }
    match conn.run(CHANGE, kept.row(id, member)).await? {
        1 => Ok(()),
        _ => Err(AppError::NotFound),
    }
}

/// Forgets the member's label sheet.
pub async fn remove(conn: &mut Conn, member: &MemberId, id: &SheetId) -> Result<(), AppError> {
    match conn.run(REMOVE, args![id, member]).await? {
        1 => Ok(()),
        _ => Err(AppError::NotFound),
    }
}
