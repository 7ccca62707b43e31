//! Taking an entry back (I7): who, when, why; never by overwriting. What later entries stand on stays.

use super::{Broken, bag, packet, planting, trial, words};
use crate::args;
use crate::db::ids::{At, BagId, MemberId, PacketId, PlantingId, TrialId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::trays::cells::Geometry;
use crate::web::words::{clock, date};
use std::collections::BTreeSet;

const OF_ENTRY: &str =
    "SELECT e.id, e.packet_id, e.trial_id, e.bag_id, e.tray_id, e.planting_id, e.by_member, e.recorded_at
    FROM entries e
    WHERE e.act_id = (SELECT act_id FROM entries WHERE id = $1)
      AND NOT EXISTS (SELECT 1 FROM voids v WHERE v.entry_id = e.id)
    ORDER BY e.id";
const OF_SAVE: &str =
    "SELECT e.id, e.packet_id, e.trial_id, e.bag_id, e.tray_id, e.planting_id, e.by_member, e.recorded_at
    FROM entries e
    WHERE e.save_key = $1 AND e.by_member = $2
      AND NOT EXISTS (SELECT 1 FROM voids v WHERE v.entry_id = e.id)
    ORDER BY e.id";
const VOID: &str = "INSERT INTO voids (entry_id, by_member, at, why) VALUES ($1, $2, $3, $4)
    ON CONFLICT (entry_id) DO NOTHING";
const NAMED: &str = "SELECT e.what, e.at, COALESCE(b.mark, p.mark, '') AS mark, y.mark AS tray, g.cell, y.tray_rows, y.tray_cols
    FROM entries e
    LEFT JOIN bags b ON b.id = e.bag_id LEFT JOIN packets p ON p.id = e.packet_id
    LEFT JOIN plantings g ON g.id = e.planting_id LEFT JOIN trays y ON y.id = g.tray_id WHERE e.id = $1";
const LOCK_TRAY: &str = "UPDATE trays SET version = version + 1 WHERE id = $1";
const MAY: &str = "SELECT COUNT(*) AS n FROM entries e
    LEFT JOIN packets p ON p.id = e.packet_id LEFT JOIN trials t ON t.id = e.trial_id
    LEFT JOIN bags b ON b.id = e.bag_id
    WHERE e.id = $1 AND $2 IN (e.by_member, p.owner_id, t.owner_id, b.owner_id)";

// a hand-out tells which packet a blind one came from
const BLIND: &str = "SELECT COUNT(*) AS n FROM entries e JOIN ledger g ON g.entry_id = e.id
    JOIN packets p ON p.id = e.packet_id JOIN lots l ON l.id = p.lot_id JOIN varieties v ON v.id = l.variety_id
    WHERE e.act_id = (SELECT act_id FROM entries WHERE id = $1) AND v.blind AND g.sort IN ('given', 'received')
      AND NOT EXISTS (SELECT 1 FROM members m WHERE m.id = $2 AND m.role = 'organiser')";

pub(super) const ALL: &[&str] = &[OF_ENTRY, OF_SAVE, VOID, NAMED, LOCK_TRAY, MAY, BLIND];

/// How long the undo of the last save is offered, with some grace for a slow signal.
pub const UNDO_SECONDS: i64 = 60;

#[derive(Debug, FromRow)]
struct Touched {
    id: String,
    packet_id: Option<String>,
    trial_id: Option<String>,
    bag_id: Option<String>,
    tray_id: Option<String>,
    planting_id: Option<String>,
    recorded_at: i64,
}

#[derive(FromRow)]
struct Named {
    what: String,
    at: i64,
    mark: String,
    tray: Option<String>,
    cell: Option<i64>,
    tray_rows: Option<i64>,
    tray_cols: Option<i64>,
}

impl Named {
    /// `look of JB 42 a`, `planting of JB 42 a in JB T1, cell B3`
    fn words(&self) -> String {
        let (Some(tray), Some(cell), Some(rows), Some(cols)) =
            (&self.tray, self.cell, self.tray_rows, self.tray_cols)
        else {
            return t!("notebook-entry-of", what = words::what(&self.what), mark = self.mark);
        };
        let what = words::what(if self.what == "outcome" { "outcome" } else { "planting" });
        let cell = Geometry { rows, cols }.name(cell);
        t!("notebook-entry-in-cell", what = what, mark = self.mark, tray = tray, cell = cell)
    }
}

#[derive(FromRow)]
struct Number {
    n: i64,
}

/// Refuses everybody but who wrote the entry and who owns what it is about; of a running ring trial's hand-out,
/// everybody but organisers.
pub async fn may(conn: &mut Conn, member: &MemberId, entry: &str) -> Result<(), AppError> {
    let may: Number = conn.one(MAY, args![entry, member]).await?;
    if may.n == 0 {
        return Err(AppError::NotFound);
    }
    let blind: Number = conn.one(BLIND, args![entry, member]).await?;
    if blind.n > 0 {
        return Err(AppError::Forbidden(t!("notebook-only-an-organiser")));
    }
    Ok(())
}

/// Voids the act that entry `entry` belongs to. Refused in field `entry` where later entries stand on it.
pub async fn entry(
    conn: &mut Conn,
    member: &MemberId,
    entry: &str,
    why: &str,
    now: At,
) -> Result<(), AppError> {
    may(conn, member, entry).await?;
    let touched: Vec<Touched> = conn.all(OF_ENTRY, args![entry]).await?;
    // somebody may have taken it back between the look at it and the lock
    if all(conn, member, &touched, why, now).await? == 0 {
        return Err(AppError::refused("entry", t!("notebook-taken-back-already")));
    }
    Ok(())
}

/// Undoes the save with key `save`, within a minute of it. No reason is asked.
pub async fn save(conn: &mut Conn, member: &MemberId, save: &str, now: At) -> Result<(), AppError> {
    let touched: Vec<Touched> = conn.all(OF_SAVE, args![save, member]).await?;
    if touched.iter().any(|t| now.0 - t.recorded_at > UNDO_SECONDS) {
        return Err(AppError::refused("save", t!("notebook-too-late-to-undo")));
    }
    all(conn, member, &touched, "undone", now).await?;
    Ok(())
}

/// Voids these entries; how many of them still stood.
async fn all(
    conn: &mut Conn,
    member: &MemberId,
    touched: &[Touched],
    why: &str,
    now: At,
) -> Result<u64, AppError> {
    lock(conn, touched).await?;
    let mut voided = 0;
    for t in touched {
        voided += conn.run(VOID, args![t.id.as_str(), member, now, why]).await?;
    }
    let plantings: Vec<PlantingId> = each(touched, |t| &t.planting_id).into_iter().map(PlantingId).collect();
    planting::keep_all(conn, &plantings).await?;
    for id in each(touched, |t| &t.bag_id) {
        bag::keep(conn, &BagId(id)).await?;
    }
    for id in each(touched, |t| &t.trial_id) {
        trial::keep(conn, &TrialId(id)).await?;
    }
    for id in each(touched, |t| &t.packet_id) {
        packet::keep(conn, &PacketId(id)).await?;
    }
    Ok(voided)
}

/// Locks in the house order: packet, trial, bag, tray, planting.
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
    for id in each(touched, |t| &t.tray_id) {
        conn.run(LOCK_TRAY, args![id]).await?;
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
    let why = match named {
        Some(n) => {
            let when = format!("{} {}", date(At(n.at).day(zone)), clock(At(n.at), zone));
            t!("notebook-stands-on", entry = n.words(), when = when, why = broken.why)
        }
        None => format!("{}.", broken.why),
    };
    Ok(AppError::refused("entry", why))
}
