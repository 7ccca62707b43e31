//! Trays of the invented club.

use super::files::{self, Planting};
use super::load::{Loaded, SAVE, bag_of};
use crate::db::Conn;
use crate::db::ids::{At, MemberId, TrayId};
use crate::notebook::Act;
use crate::trays::model::Found;
use crate::trays::store::{self, NewTray, Plan};
use anyhow::Context;
use std::collections::HashMap;

const MADE_DAYS_AGO: i64 = 45;
const UP_AFTER_DAYS: i64 = 6;

/// Makes the trays, plants into them in order of time, and notes what came up.
pub async fn trays(
    conn: &mut Conn,
    members: &HashMap<String, MemberId>,
    loaded: &HashMap<String, Loaded>,
    now: At,
) -> anyhow::Result<()> {
    let mut made = HashMap::new();
    for row in files::trays() {
        let owner = members.get(&row.letters).context("a tray names a member")?;
        let new = NewTray { name: &row.name, rows: row.rows, cols: row.cols, place: &row.place };
        let (id, _) = store::make(conn, owner, &new, now.plus_days(-MADE_DAYS_AGO)).await?;
        made.insert(row.letters, id);
    }
    let mut rows: Vec<(At, Planting)> = Vec::new();
    for row in files::plantings() {
        let (t, _) = bag_of(loaded, &row.trial, row.bag)?;
        rows.push((t.paper_at.plus_minutes(row.hours * 60), row));
    }
    rows.sort_by_key(|(at, row)| (*at, row.trial.clone(), row.bag));
    for (at, row) in rows {
        let tray = made.get(&row.letters).context("a planting names a tray")?;
        plant(conn, loaded, (&row, at), tray, now).await?;
    }
    Ok(())
}

async fn plant(
    conn: &mut Conn,
    loaded: &HashMap<String, Loaded>,
    (row, at): (&Planting, At),
    tray: &TrayId,
    now: At,
) -> anyhow::Result<()> {
    let (t, bag) = bag_of(loaded, &row.trial, row.bag)?;
    let plan = Plan { bag, tray, seeds: row.seeds, per_cell: 1, from: None, unrooted: false, over: None };
    let placed = store::plant(conn, &Act::new(&t.owner, SAVE, at, now), &plan).await?;
    let later = at.plus_days(UP_AFTER_DAYS);
    if later > now {
        return Ok(());
    }
    for (p, i) in placed.iter().zip(0..) {
        let found =
            if i < row.up { Found::new("up", 1, "") } else { Found::new("lost", 1, "did not come up") };
        store::outcome(conn, &Act::new(&t.owner, SAVE, later, now), &p.planting, &[found]).await?;
    }
    Ok(())
}
