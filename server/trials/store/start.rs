use crate::args;
use crate::db::ids::{At, PacketId, TrialId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::notebook::{About, Act, packet, trial};
use crate::routines;
use crate::trials::model::{NewTrial, Shortage};
use chrono::Datelike;
use std::collections::BTreeMap;

const LOCK_PACKET: &str =
    "UPDATE packets SET version = version + 1 WHERE id = $1 AND owner_id = $2 RETURNING balance AS n";
const INSERT: &str =
    "INSERT INTO trials (id, packet_id, owner_id, version_id, pair, began_at, voided, treated_again,
      seeds, soaking, thrown_out, lost, returned, step, step_at, floaters, version)
    VALUES ($1, $2, $3, $4, $5, $6, FALSE, FALSE, 0, 0, 0, 0, 0, 1, $6, '', 1)";

const SEED: &str = "SELECT p.mark, l.year FROM packets p JOIN lots l ON l.id = p.lot_id WHERE p.id = $1";

pub(super) const ALL: &[&str] = &[LOCK_PACKET, INSERT, SEED];

#[derive(FromRow)]
struct Balance {
    n: i64,
}

#[derive(FromRow)]
struct Seed {
    mark: String,
    year: Option<i64>,
}

impl Seed {
    /// Refuses a start before there was any such seed. What is packed for a year is sold, and may be started, in the
    /// year before (common practice, no source).
    fn must_be_there(&self, at: At) -> Result<(), AppError> {
        let began = i64::from(at.day(chrono_tz::UTC).year());
        match self.year {
            Some(year) if began + 1 < year => {
                let why = t!("trials-before-there-was-seed", mark = self.mark, year = year, began = began);
                Err(AppError::refused("at", why))
            }
            _ => Ok(()),
        }
    }
}

/// Locks the packets (the acting member's) and tells which hold fewer seeds than are wanted of them,
/// recounts allowed for.
pub async fn shortages(conn: &mut Conn, act: &Act<'_>, new: &[NewTrial]) -> Result<Vec<Shortage>, AppError> {
    let mut wanted: BTreeMap<&PacketId, (i64, Option<i64>)> = BTreeMap::new();
    for n in new {
        let sum = wanted.entry(&n.packet).or_default();
        *sum = (sum.0 + n.seeds, sum.1.or(n.recount));
    }
    let mut short = Vec::new();
    for (packet, (wanted, recount)) in wanted {
        let row: Option<Balance> = conn.maybe(LOCK_PACKET, args![packet, act.member]).await?;
        let left = recount.unwrap_or(row.ok_or(AppError::NotFound)?.n);
        if left < wanted {
            short.push(Shortage { packet: packet.clone(), left, wanted });
        }
    }
    Ok(short)
}

/// Starts trials, all at the act's moment: takes the seeds from the packets (recounted first where told),
/// freezes the routines' newest versions. Each trial is an act of its own under the same save key.
/// Refused in field `seeds` where a packet holds too few; ask [`shortages`] first to say which.
pub async fn start(conn: &mut Conn, act: &Act<'_>, new: &[NewTrial]) -> Result<Vec<TrialId>, AppError> {
    if let Some(short) = shortages(conn, act, new).await?.first() {
        return Err(AppError::refused("seeds", short.words()));
    }
    let mut made = Vec::new();
    for n in new {
        if let Some(count) = n.recount {
            recount(conn, act, &n.packet, count).await?;
        }
        made.push(one(conn, act, n).await?);
    }
    Ok(made)
}

async fn recount(conn: &mut Conn, act: &Act<'_>, id: &PacketId, count: i64) -> Result<(), AppError> {
    let off = count - packet::lock(conn, id).await?;
    if off == 0 {
        return Ok(());
    }
    let act = Act::new(act.member, act.save_key, act.at, act.now);
    let about = About { packet: Some(id), ..About::default() };
    let line = packet::Line { sort: "recount", seeds: off, other: None, note: "" };
    packet::add(conn, &act, about, line).await
}

async fn one(conn: &mut Conn, act: &Act<'_>, new: &NewTrial) -> Result<TrialId, AppError> {
    let routine = routines::store::routine(conn, &new.routine).await?.ok_or(AppError::NotFound)?;
    if routine.retired_at.is_some() {
        return Err(AppError::refused("routine", t!("trials-routine-was-retired")));
    }
    let seed: Seed = conn.one(SEED, args![&new.packet]).await?;
    seed.must_be_there(act.at)?;
    routines::store::freeze(conn, &routine.version_id).await?;
    let id = TrialId::new();
    let row = args![&id, &new.packet, act.member, &routine.version_id, new.pair.clone(), act.at];
    conn.run(INSERT, row).await?;
    let act = Act::new(act.member, act.save_key, act.at, act.now);
    let about = About { packet: Some(&new.packet), trial: Some(&id), ..About::default() };
    let line = packet::Line { sort: "taken", seeds: -new.seeds, other: None, note: "" };
    packet::add(conn, &act, about, line).await?;
    trial::add_seeds(conn, &act, about, "taken", new.seeds).await?;
    if !new.plan.is_empty() {
        trial::add_event(conn, &act, about, "note", &new.plan).await?;
    }
    trial::keep(conn, &id).await?;
    Ok(id)
}
