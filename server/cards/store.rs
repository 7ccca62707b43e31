use super::model::{Card, Counted, Line};
use crate::args;
use crate::db::ids::{At, BagId, CardId, MemberId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::marks;

const OPEN: &str = "SELECT c.id, c.number, c.card_key, c.made_at FROM cards c
    WHERE c.owner_id = $1 AND EXISTS (SELECT 1 FROM card_bags r JOIN bags b ON b.id = r.bag_id
      WHERE r.card_id = c.id AND b.owner_id = $1 AND NOT b.voided AND b.closed_at IS NULL)
    ORDER BY c.number DESC";
const ONE: &str = "SELECT id, number, card_key, made_at FROM cards WHERE owner_id = $1 AND id = $2";
const BY_KEY: &str = "SELECT id, number, card_key, made_at FROM cards WHERE owner_id = $1 AND card_key = $2";
const LINES: &str = "SELECT r.place, r.bag_id, b.mark, v.name AS variety
    FROM card_bags r
    JOIN cards c ON c.id = r.card_id
    JOIN bags b ON b.id = r.bag_id
    JOIN trials t ON t.id = b.trial_id
    JOIN packets p ON p.id = t.packet_id
    JOIN lots l ON l.id = p.lot_id
    JOIN varieties v ON v.id = l.variety_id
    WHERE c.owner_id = $1 AND r.card_id = $2 ORDER BY r.place";
const COUNTED: &str = "SELECT e.bag_id, e.at, l.rooted, l.dead
    FROM card_bags r
    JOIN entries e ON e.bag_id = r.bag_id
    JOIN looks l ON l.entry_id = e.id
    WHERE r.card_id = $1 AND NOT EXISTS (SELECT 1 FROM voids x WHERE x.entry_id = e.id)
    ORDER BY e.at, e.id";
const LAST: &str = "SELECT COALESCE(MAX(number), 0) AS n FROM cards WHERE owner_id = $1";
const ADD: &str = "INSERT INTO cards (id, owner_id, number, card_key, made_at) VALUES ($1, $2, $3, $4, $5)
    ON CONFLICT DO NOTHING";
const ADD_BAG: &str = "INSERT INTO card_bags (card_id, place, bag_id) VALUES ($1, $2, $3)";

pub const ALL: &[&str] = &[OPEN, ONE, BY_KEY, LINES, COUNTED, LAST, ADD, ADD_BAG];

/// How often a number is tried that another device may take at the same moment.
const TRIES: i64 = 100;

#[derive(FromRow)]
struct Number {
    n: i64,
}

/// The member's cards with open bags on them, the newest first.
pub async fn open(conn: &mut Conn, member: &MemberId) -> Result<Vec<Card>, AppError> {
    Ok(conn.all(OPEN, args![member]).await?)
}

/// A card of the member.
pub async fn card(conn: &mut Conn, member: &MemberId, id: &CardId) -> Result<Card, AppError> {
    conn.maybe(ONE, args![member, id]).await?.ok_or(AppError::NotFound)
}

/// The member's card whose code says this, such as `JB-3`.
pub async fn by_key(conn: &mut Conn, member: &MemberId, key: &str) -> Result<Card, AppError> {
    conn.maybe(BY_KEY, args![member, key]).await?.ok_or(AppError::NotFound)
}

/// The rows of the member's card, in their order.
pub async fn lines(conn: &mut Conn, member: &MemberId, id: &CardId) -> Result<Vec<Line>, AppError> {
    Ok(conn.all(LINES, args![member, id]).await?)
}

/// Every look into the bags of a card that stands.
pub async fn counted(conn: &mut Conn, id: &CardId) -> Result<Vec<Counted>, AppError> {
    Ok(conn.all(COUNTED, args![id]).await?)
}

/// Keeps a new card with these bags, under the member's next number.
pub async fn add(conn: &mut Conn, member: &MemberId, bags: &[&BagId], now: At) -> Result<CardId, AppError> {
    let id = CardId::new();
    let letters = marks::letters(conn, member).await?;
    let own = letters.first().ok_or_else(|| AppError::refused("place", t!("cards-no-letters-yet")))?;
    let last: Number = conn.one(LAST, args![member]).await?;
    let mut number = last.n;
    loop {
        number += 1;
        let key = format!("{}-{number}", marks::fold(&own.shown));
        if conn.run(ADD, args![&id, member, number, key, now]).await? == 1 {
            break;
        }
        if number - last.n > TRIES {
            return Err(AppError::refused("place", t!("cards-no-free-number")));
        }
    }
    for (place, bag) in (1_i64..).zip(bags) {
        conn.run(ADD_BAG, args![&id, place, *bag]).await?;
    }
    Ok(id)
}
