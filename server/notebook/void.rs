//! Taking an entry back (I7): who, when, why; never by overwriting. What later entries stand on stays.

use super::{Broken, bag, packet, planting, trial};
use crate::args;
use crate::db::ids::{At, BagId, MemberId, PacketId, PlantingId, TrialId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use std::collections::BTreeSet;

const OF_ENTRY: &str =
    "SELECT e.id, e.packet_id, e.trial_id, e.bag_id, e.planting_id, e.by_member, e.recorded_at
    FROM entries e
    WHERE e.act_id = (SELECT act_id FROM entries WHERE id = $1)
      AND NOT EXISTS (SELECT 1 FROM voids v WHERE v.entry_id = e.id)
    ORDER BY e.id";
const OF_SAVE: &str =
    "SELECT e.id, e.packet_id, e.trial_id, e.bag_id, e.planting_id, e.by_member, e.recorded_at
    FROM entries e
    WHERE e.save_key = $1 AND e.by_member = $2
      AND NOT EXISTS (SELECT 1 FROM voids v WHERE v.entry_id = e.id)
    ORDER BY e.id";
const VOID: &str = "INSERT INTO voids (entry_id, by_member, at, why) VALUES ($1, $2, $3, $4)
    ON CONFLICT (entry_id) DO NOTHING";
const NAMED: &str = "SELECT e.what, e.at, COALESCE(b.mark, p.mark, '') AS mark FROM entries e
    LEFT JOIN bags b ON b.id = e.bag_id LEFT JOIN packets p ON p.id = e.packet_id WHERE e.id = $1";
const MAY: &str = "SELECT COUNT(*) AS n FROM entries e
    LEFT JOIN packets p ON p.id = e.packet_id LEFT JOIN trials t ON t.id = e.trial_id
    LEFT JOIN bags b ON b.id = e.bag_id
    WHERE e.id = $1 AND $2 IN (e.by_member, p.owner_id, t.owner_id, b.owner_id)";

pub(super) const ALL: &[&str] = &[OF_ENTRY, OF_SAVE, VOID, NAMED, MAY];

/// How long the undo of the last save is offered, with some grace for a slow signal.
pub const UNDO_SECONDS: i64 = 60;

#[derive(Debug, FromRow)]
struct Touched {
    id: String,
    packet_id: Option<String>,
    trial_id: Option<String>,
    bag_id: Option<String>,
    planting_id: Option<String>,
    recorded_at: i64,
}

#[derive(FromRow)]
struct Named {
    what: String,
    at: i64,
    mark: String,
}

#[derive(FromRow)]
struct Number {
    n: i64,
}

/// Voids the act that entry `entry` belongs to. Refused in field `entry` where later entries stand on it.
pub async fn entry(
    conn: &mut Conn,
    member: &MemberId,
    entry: &str,
    why: &str,
    now: At,
) -> Result<(), AppError> {
    let may: Number = conn.one(MAY, args![entry, member]).await?;
    if may.n == 0 {
        return Err(AppError::NotFound);
    }
    let touched: Vec<Touched> = conn.all(OF_ENTRY, args![entry]).await?;
    all(conn, member, &touched, why, now).await
}

/// Undoes the save with key `save`, within a minute of it. No reason is asked.
pub async fn save(conn: &mut Conn, member: &MemberId, save: &str, now: At) -> Result<(), AppError> {
    let touched: Vec<Touched> = conn.all(OF_SAVE, args![save, member]).await?;
    if touched.iter().any(|t| now.0 - t.recorded_at > UNDO_SECONDS) {
        return Err(AppError::refused(
            "save",
            "It is too late to undo in one tap. Void the entry in its history, with a reason.",
        ));
    }
    all(conn, member, &touched, "undone", now).await
}

async fn all(
    conn: &mut Conn,
    member: &MemberId,
    touched: &[Touched],
    why: &str,
    now: At,
) -> Result<(), AppError> {
    lock(conn, touched).await?;
    for t in touched {
        conn.run(VOID, args![t.id.as_str(), member, now, why]).await?;
    }
    for id in each(touched, |t| &t.planting_id) {
        planting::keep(conn, &PlantingId(id)).await?;
    }
    for id in each(touched, |t| &t.bag_id) {
        bag::keep(conn, &BagId(id)).await?;
    }
    for id in each(touched, |t| &t.trial_id) {
        trial::keep(conn, &TrialId(id)).await?;
    }
    for id in each(touched, |t| &t.packet_id) {
        packet::keep(conn, &PacketId(id)).await?;
    }
    Ok(())
}

/// Locks in the house order: packet, trial, bag, planting.
async fn lock(conn: &mut Conn, touched: &[Touched]) -> Result<(), AppError> {
    for id in each(touched, |t| &t.packet_id) {
        packet::lock(conn, &PacketId(id)).await?;
    }
    for id in each(touched, |t| &t.trial_id) {
        trial::lock(conn, &TrialId(id)).await?;
    }
    for id in each(touched, |t| &t.bag_id) {
        bag::lock(conn, &BagId(id)).await?;
    }
    for id in each(touched, |t| &t.planting_id) {
        planting::lock(conn, &PlantingId(id)).await?;
    }
    Ok(())
}

fn each(touched: &[Touched], of: impl Fn(&Touched) -> &Option<String>) -> BTreeSet<String> {
    touched.iter().filter_map(|t| of(t).clone()).collect()
}

/// The error that names the entry at which a replay breaks.
pub(super) async fn stands_on(conn: &mut Conn, broken: &Broken) -> Result<AppError, AppError> {
    let named: Option<Named> = conn.maybe(NAMED, args![broken.entry.as_str()]).await?;
    let zone = crate::accounts::store::zone(conn).await?;
    let what = named.map_or_else(String::new, |n| {
        let when = At(n.at).local(zone).format("%-d %b %Y %H:%M");
        format!("The {} of {} on {when}: ", n.what, n.mark)
    });
    Ok(AppError::refused("entry", format!("{what}{}.", broken.why)))
}
