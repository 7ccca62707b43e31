//! Erasing a member. What they counted stays in the club's table, by nobody: numbers, moments and the letters on marks.
//! Their name and the words that they wrote go, also out of entries: words are no part of any sum.

use crate::accounts;
use crate::accounts::store::OwnedLetters;
use crate::args;
use crate::audit::{self, Deed, What};
use crate::db::ids::{At, BagId, MemberId, PlantingId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::notebook::{bag, planting};
use crate::stock;
use crate::trays::model::LOST;

/// Makes nobody of the member: `$2` is what stands for the name.
const NOBODY: &str = "UPDATE members SET name = $2, sign_in = 'erased', sign_in_key = 'erased ' || id,
    password_hash = 'none', version = version + 1 WHERE id = $1";
const NAME: &str = "SELECT name FROM members WHERE id = $1";
const SAVED_BY: &str = "UPDATE sources SET name = $2, name_key = $3, version = version + 1
    WHERE member_id = $1 AND sort = 'saved by'";
const CAME_THROUGH: &str = "UPDATE packets SET through = '', version = version + 1 WHERE through = $1";
const WHY: &str =
    "UPDATE outcomes SET why = 'other' WHERE entry_id IN (SELECT id FROM entries WHERE by_member = $1)
    AND why NOT IN ('', 'replanted', 'tray emptied', $2, $3, $4, $5, $6)";
const BAGS: &str = "SELECT DISTINCT e.bag_id AS id FROM entries e JOIN bag_events v ON v.entry_id = e.id
    WHERE e.by_member = $1 AND e.bag_id IS NOT NULL ORDER BY id";
const PLANTINGS: &str =
    "SELECT DISTINCT e.planting_id AS id FROM entries e JOIN outcomes o ON o.entry_id = e.id
    WHERE e.by_member = $1 AND e.planting_id IS NOT NULL ORDER BY id";

/// Words of the member's own, where the row itself stays.
const WORDS: &[&str] = &[
    "UPDATE entries SET note = '' WHERE by_member = $1 AND note <> ''",
    "UPDATE voids SET why = 'erased' WHERE by_member = $1 AND why <> ''",
    "UPDATE bag_events SET place = '' WHERE entry_id IN (SELECT id FROM entries WHERE by_member = $1)",
    "UPDATE packets SET place = '', through = '', note = '', version = version + 1 WHERE owner_id = $1",
    "UPDATE holders SET place = '' WHERE owner_id = $1",
    "UPDATE trays SET name = '', place = '', version = version + 1 WHERE owner_id = $1",
    "UPDATE solutions SET note = '' WHERE made_by = $1",
];

/// Rows that are about the member alone.
const ROWS: &[&str] = &[
    "DELETE FROM photos WHERE entry_id IN (SELECT id FROM entries WHERE by_member = $1)",
    "DELETE FROM promises WHERE owner_id = $1",
    "DELETE FROM plan_lines WHERE plan_id IN (SELECT id FROM plans WHERE owner_id = $1)",
    "DELETE FROM plans WHERE owner_id = $1",
    "DELETE FROM card_bags WHERE card_id IN (SELECT id FROM cards WHERE owner_id = $1)",
    "DELETE FROM cards WHERE owner_id = $1",
    "DELETE FROM label_sheets WHERE owner_id = $1 AND NOT shared",
    "DELETE FROM uploads WHERE member_id = $1",
    "DELETE FROM brought_in WHERE member_id = $1",
    "DELETE FROM once WHERE member_id = $1",
    "DELETE FROM feeds WHERE member_id = $1",
    "DELETE FROM tokens WHERE member_id = $1",
    "DELETE FROM passkeys WHERE member_id = $1",
    "DELETE FROM passkey_asks WHERE member_id = $1",
];

/// What was worked out with names in it; it is worked out anew.
const WORKED_OUT: &str = "DELETE FROM standings";

pub fn all_sql() -> Vec<&'static str> {
    let ours = [NOBODY, NAME, SAVED_BY, CAME_THROUGH, WHY, BAGS, PLANTINGS, WORKED_OUT];
    ours.into_iter().chain(WORDS.iter().copied()).chain(ROWS.iter().copied()).collect()
}

#[derive(FromRow)]
struct Id {
    id: String,
}

#[derive(FromRow)]
struct Named {
    name: String,
}

/// Ends the membership and erases what is the member's own. Refused in field `sure` for the last organiser.
pub async fn erase(conn: &mut Conn, member: &MemberId, now: At) -> Result<(), AppError> {
    accounts::store::leave(conn, member, now).await?;
    let old: Named = conn.one(NAME, args![member]).await?;
    audit::note(conn, Deed::by(What::Erased, member), now).await?;
    for sql in WORDS.iter().chain(ROWS) {
        conn.run(sql, args![member]).await?;
    }
    let [why_a, why_b, why_c, why_d, why_e, _] = LOST;
    conn.run(WHY, args![member, why_a, why_b, why_c, why_d, why_e]).await?;
    conn.run(CAME_THROUGH, args![&old.name]).await?;
    let letters = letters(conn, member).await?;
    let name = format!("Former member ({letters})");
    let source = format!("saved by a former member ({letters})");
    conn.run(NOBODY, args![member, &name]).await?;
    conn.run(SAVED_BY, args![member, &source, stock::names::key(&source)]).await?;
    conn.run(WORKED_OUT, vec![]).await?;
    replay(conn, member).await
}

/// The first letters the member ever had: they stand on vials and trays, and tell former members apart.
async fn letters(conn: &mut Conn, member: &MemberId) -> Result<String, AppError> {
    let all: Vec<OwnedLetters> = accounts::store::all_letters(conn).await?;
    let first = all.into_iter().rev().find(|l| l.member_id == *member);
    Ok(first.map_or_else(|| "no letters".to_owned(), |l| l.shown))
}

/// Sums that carry words of entries are replayed from what the entries say now.
async fn replay(conn: &mut Conn, member: &MemberId) -> Result<(), AppError> {
    let bags: Vec<Id> = conn.all(BAGS, args![member]).await?;
    for id in bags {
        bag::keep(conn, &BagId(id.id)).await?;
    }
    let plantings: Vec<Id> = conn.all(PLANTINGS, args![member]).await?;
    let plantings: Vec<PlantingId> = plantings.into_iter().map(|id| PlantingId(id.id)).collect();
    planting::keep_all(conn, &plantings).await
}
