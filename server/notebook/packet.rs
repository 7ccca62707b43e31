//! A packet's ledger (I1): its balance is the sum of its entries and never negative.

use super::{About, Act, write};
use crate::args;
use crate::db::ids::PacketId;
use crate::db::{Conn, FromRow};
use crate::error::AppError;

const INSERT: &str = "INSERT INTO ledger (entry_id, sort, seeds, other_packet) VALUES ($1, $2, $3, $4)";
const LOCK: &str = "UPDATE packets SET version = version + 1 WHERE id = $1 RETURNING balance AS n";
const SUM: &str = "SELECT CAST(COALESCE(SUM(l.seeds), 0) AS BIGINT) AS n
    FROM entries e JOIN ledger l ON l.entry_id = e.id
    WHERE e.packet_id = $1 AND NOT EXISTS (SELECT 1 FROM voids v WHERE v.entry_id = e.id)";
const KEEP: &str = "UPDATE packets SET balance = $2 WHERE id = $1";

pub(super) const ALL: &[&str] = &[INSERT, LOCK, SUM, KEEP];

#[derive(FromRow)]
struct Sum {
    n: i64,
}

/// Locks the packet's row until the transaction ends; gives its balance.
pub async fn lock(conn: &mut Conn, packet: &PacketId) -> Result<i64, AppError> {
    let row: Option<Sum> = conn.maybe(LOCK, args![packet]).await?;
    Ok(row.ok_or(AppError::NotFound)?.n)
}

/// A line of the ledger: `seeds` is positive for seeds in, negative for seeds out.
#[derive(Debug, Clone, Copy)]
pub struct Line<'a> {
    pub sort: &'a str,
    pub seeds: i64,
    pub other: Option<&'a PacketId>,
    pub note: &'a str,
}

/// Adds a line and brings the balance up to date. Taking more than there is is refused in field `seeds`.
pub async fn add(conn: &mut Conn, act: &Act<'_>, about: About<'_>, line: Line<'_>) -> Result<(), AppError> {
    let packet = about.packet.ok_or_else(|| anyhow::anyhow!("a ledger line needs its packet"))?;
    let balance = lock(conn, packet).await?;
    if balance + line.seeds < 0 {
        return Err(short(balance));
    }
    let entry = write(conn, act, "ledger", about, line.note).await?;
    conn.run(INSERT, args![&entry, line.sort, line.seeds, line.other]).await?;
    keep(conn, packet).await
}

fn short(balance: i64) -> AppError {
    AppError::refused("seeds", t!("notebook-left-by-the-book", n = balance))
}

/// Brings the kept balance up to date with the entries.
pub async fn keep(conn: &mut Conn, packet: &PacketId) -> Result<(), AppError> {
    let sum = sum(conn, packet).await?;
    if sum < 0 {
        return Err(AppError::refused("entry", t!("notebook-taken-later")));
    }
    conn.run(KEEP, args![packet, sum]).await?;
    Ok(())
}

/// The sum of the ledger, without voided entries.
pub async fn sum(conn: &mut Conn, packet: &PacketId) -> Result<i64, AppError> {
    let row: Sum = conn.one(SUM, args![packet]).await?;
    Ok(row.n)
}
