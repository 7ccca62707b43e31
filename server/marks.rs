//! Marks: the short identities on vials, bags and trays. Never given twice, however they are written.

use crate::args;
use crate::db::ids::{At, MemberId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;

const TAKE: &str = "INSERT INTO marks (key, shown, thing, thing_id, made_at) VALUES ($1, $2, $3, $4, $5)
    ON CONFLICT (key) DO NOTHING";
const NEXT_NUMBER: &str = "UPDATE letters SET last_number = last_number + 1
    WHERE key = $1 AND member_id = $2 RETURNING shown, last_number AS number";
const RAISE_NUMBER: &str = "UPDATE letters
    SET last_number = CASE WHEN last_number < CAST($3 AS BIGINT) THEN CAST($3 AS BIGINT) ELSE last_number END
    WHERE key = $1 AND member_id = $2 RETURNING shown, CAST($3 AS BIGINT) AS number";
const LETTERS: &str =
    "SELECT shown, last_number AS number FROM letters WHERE member_id = $1 ORDER BY made_at DESC, key";
const FIND: &str = "SELECT shown, thing, thing_id FROM marks WHERE key = $1";

pub const ALL: &[&str] = &[TAKE, NEXT_NUMBER, RAISE_NUMBER, LETTERS, FIND];

/// How many marks are tried before giving up; only a crowded neighbourhood needs more than one.
const TRIES: usize = 2000;

/// A member's letters and the last number given under them.
#[derive(Debug, Clone, FromRow)]
pub struct Letters {
    pub shown: String,
    pub number: i64,
}

/// What a mark stands on.
#[derive(Debug, Clone, FromRow)]
pub struct Marked {
    pub shown: String,
    pub thing: String,
    pub thing_id: String,
}

/// A mark that was just given.
#[derive(Debug, Clone)]
pub struct Mark {
    pub key: String,
    pub shown: String,
}

/// The key under which a mark is kept: case, spaces and signs do not count, and letters that look like
/// digits are those digits (O is 0, I and L are 1).
pub fn fold(mark: &str) -> String {
    // a capital may come with signs of its own, which do not count either: a key is its own key
    let plain = mark.chars().flat_map(char::to_uppercase).filter(|c| c.is_alphanumeric());
    plain
        .map(|c| match c {
            'O' => '0',
            'I' | 'L' => '1',
            other => other,
        })
        .collect()
}

/// The letters of a member, newest first.
pub async fn letters(conn: &mut Conn, member: &MemberId) -> Result<Vec<Letters>, AppError> {
    Ok(conn.all(LETTERS, args![member]).await?)
}

/// What a typed mark stands on, if it was ever given.
pub async fn find(conn: &mut Conn, typed: &str) -> Result<Option<Marked>, AppError> {
    Ok(conn.maybe(FIND, args![fold(typed)]).await?)
}

/// The next free packet mark under a member's `letters`.
pub async fn next_packet(
    conn: &mut Conn,
    member: &MemberId,
    letters: &str,
    packet: &str,
    now: At,
) -> Result<Mark, AppError> {
    for _ in 0..TRIES {
        let next: Option<Letters> = conn.maybe(NEXT_NUMBER, args![fold(letters), member]).await?;
        let next = next.ok_or_else(|| AppError::refused("letters", t!("web-not-your-letters")))?;
        if let Some(mark) =
            take(conn, format!("{} {}", next.shown, next.number), "packet", packet, now).await?
        {
            return Ok(mark);
        }
    }
    Err(AppError::refused("letters", t!("web-no-free-number")))
}

/// A number the grower already uses, kept as the mark when it is free.
pub async fn own_number(
    conn: &mut Conn,
    member: &MemberId,
    letters: &str,
    number: i64,
    packet: &str,
    now: At,
) -> Result<Mark, AppError> {
    let row: Option<Letters> = conn.maybe(RAISE_NUMBER, args![fold(letters), member, number]).await?;
    let row = row.ok_or_else(|| AppError::refused("letters", t!("web-not-your-letters")))?;
    let shown = format!("{} {}", row.shown, row.number);
    let mark = take(conn, shown.clone(), "packet", packet, now).await?;
    mark.ok_or_else(|| AppError::refused("number", t!("web-given-before", mark = shown)))
}

/// The mark of a packet's `n`-th bag, from 0.
pub fn of_bag(packet_mark: &str, n: usize) -> String {
    format!("{packet_mark} {}", suffix(n))
}

/// The next free bag mark of a packet: `JB 42 a`, `JB 42 b`, ...
pub async fn next_bag(conn: &mut Conn, packet_mark: &str, bag: &str, now: At) -> Result<Mark, AppError> {
    for n in 0..TRIES {
        if let Some(mark) = take(conn, of_bag(packet_mark, n), "bag", bag, now).await? {
            return Ok(mark);
        }
    }
    Err(AppError::refused("bags", t!("web-too-many-bags")))
}

/// The next free mark of a tray (`T`) or holder (`H`) of the member with `letters`: `JB T1`, `JB H1`, ...
pub async fn next_thing(
    conn: &mut Conn,
    letters: &str,
    thing: &'static str,
    id: &str,
    now: At,
) -> Result<Mark, AppError> {
    let sign = if thing == "tray" { 'T' } else { 'H' };
    for n in 1..=TRIES {
        if let Some(mark) = take(conn, format!("{letters} {sign}{n}"), thing, id, now).await? {
            return Ok(mark);
        }
    }
    Err(AppError::refused("letters", t!("web-no-free-mark")))
}

async fn take(
    conn: &mut Conn,
    shown: String,
    thing: &str,
    id: &str,
    now: At,
) -> Result<Option<Mark>, AppError> {
    let key = fold(&shown);
    let fresh = conn.run(TAKE, args![&key, &shown, thing, id, now]).await? == 1;
    Ok(fresh.then_some(Mark { key, shown }))
}

/// a, b, c ... without i, l and o, which look like digits; then aa, ab ...
fn suffix(n: usize) -> String {
    const LETTERS: &[u8] = b"abcdefghjkmnpqrstuvwxyz";
    let (tens, ones) = (n / LETTERS.len(), n % LETTERS.len());
    let one = char::from(LETTERS[ones]);
    if tens == 0 { one.to_string() } else { format!("{}{one}", suffix(tens - 1)) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn look_alikes_fold_together() {
        assert_eq!(fold(" jb-42 A "), "JB42A");
        assert_eq!(fold("JO 1O"), fold("j0 10"));
        assert_eq!(fold("IL 1"), "111");
        assert_eq!(fold(&fold("ΐ 1")), fold("ΐ 1"));
    }

    #[test]
    fn suffixes_never_repeat_after_folding() {
        let all: std::collections::BTreeSet<String> = (0..1500).map(|n| fold(&suffix(n))).collect();
        assert_eq!(all.len(), 1500);
    }
}
