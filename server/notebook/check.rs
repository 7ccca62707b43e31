//! Compares every kept sum with its replay: what `hilum check` prints.

use super::packet;
use crate::args;
use crate::db::ids::PacketId;
use crate::db::{Conn, FromRow};
use crate::error::AppError;

const PACKETS: &str = "SELECT id, mark, balance AS n FROM packets ORDER BY id";

pub const ALL: &[&str] = &[PACKETS];

#[derive(FromRow)]
struct Kept {
    id: String,
    mark: String,
    n: i64,
}

/// Breaches of I1: a kept balance that is not the sum of its ledger.
pub async fn packets(conn: &mut Conn) -> Result<Vec<String>, AppError> {
    let mut found = Vec::new();
    let kept: Vec<Kept> = conn.all(PACKETS, args![]).await?;
    for k in kept {
        let sum = packet::sum(conn, &PacketId(k.id)).await?;
        if sum != k.n || sum < 0 {
            found.push(format!("I1 packet {}: the ledger says {sum}, the balance {}", k.mark, k.n));
        }
    }
    Ok(found)
}
