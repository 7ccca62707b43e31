//! The entries about one thing, newest first, with what was voided and why.

use super::words;
use crate::args;
use crate::db::ids::{At, BagId, MemberId, PacketId, PlantingId, TrialId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::trays::cells::Geometry;
use crate::trays::model::reason;
use crate::web::words::{decimal, seeds};

macro_rules! history {
    ($condition:literal) => {
        history!($condition, "e.at DESC, e.id DESC LIMIT 500")
    };
    ($condition:literal, $order:literal) => {
        concat!(
            "SELECT e.id, e.packet_id, e.trial_id, e.bag_id, e.planting_id, e.what, e.at, e.recorded_at, e.note, m.name AS by_name, b.mark AS bag,
              COALESCE(g.sort, s.sort, c.ending, bs.sort, be.sort, x.sort, o.sort, te.sort, '') AS sort,
              COALESCE(g.seeds, s.seeds, bs.seeds, x.seeds, o.seeds) AS seeds,
              l.rooted, COALESCE(l.abnormal, c.abnormal) AS abnormal, COALESCE(l.dead, c.dead) AS dead,
              c.fresh, c.hard, c.not_examined, c.lost, f.sank, f.floated, f.floaters, d.position, d.skipped, d.percent,
              be.place, be.warmth_c, o.why, v.why AS void_why, vm.name AS void_by,
              y.mark AS tray, pg.cell, y.tray_rows, y.tray_cols,
              (SELECT COUNT(*) FROM packets bp JOIN lots bl ON bl.id = bp.lot_id
                JOIN varieties bv ON bv.id = bl.variety_id
                WHERE bv.blind AND g.sort IN ('given', 'received') AND bp.id IN (e.packet_id, g.other_packet)) AS blind
            FROM entries e
            JOIN members m ON m.id = e.by_member
            LEFT JOIN bags b ON b.id = e.bag_id
            LEFT JOIN ledger g ON g.entry_id = e.id
            LEFT JOIN trial_seeds s ON s.entry_id = e.id
            LEFT JOIN float_tallies f ON f.entry_id = e.id
            LEFT JOIN steps_done d ON d.entry_id = e.id
            LEFT JOIN trial_events te ON te.entry_id = e.id
            LEFT JOIN looks l ON l.entry_id = e.id
            LEFT JOIN closings c ON c.entry_id = e.id
            LEFT JOIN bag_seeds bs ON bs.entry_id = e.id
            LEFT JOIN bag_events be ON be.entry_id = e.id
            LEFT JOIN rooted_ends x ON x.entry_id = e.id
            LEFT JOIN outcomes o ON o.entry_id = e.id
            LEFT JOIN plantings pg ON pg.id = e.planting_id
            LEFT JOIN trays y ON y.id = pg.tray_id
            LEFT JOIN voids v ON v.entry_id = e.id
            LEFT JOIN members vm ON vm.id = v.by_member
            WHERE e.",
            $condition,
            " ORDER BY ",
            $order
        )
    };
}

const OF_PACKET: &str = history!("packet_id = $1");
const OF_TRIAL: &str = history!("trial_id = $1");
const OF_BAG: &str = history!("bag_id = $1");
const OF_PLANTING: &str = history!("planting_id = $1");
const OF_ACT: &str = history!("act_id = (SELECT act_id FROM entries WHERE id = $1)");
const OF_SAVE: &str = history!("save_key = $1 AND e.by_member = $2", "e.id");
const LOOKS: &str = history!(
    "what = 'look' AND e.bag_id IN (SELECT o.id FROM bags o WHERE o.owner_id = $1) AND e.id > $2",
    "e.id LIMIT $3"
);
const TALLIES: &str = history!(
    "what = 'float tally' AND e.trial_id IN (SELECT o.id FROM trials o WHERE o.owner_id = $1) AND e.id > $2",
    "e.id LIMIT $3"
);
const OUTCOMES: &str = history!(
    "what = 'outcome' AND e.planting_id IN (SELECT o.id FROM plantings o JOIN trays w ON w.id = o.tray_id
       WHERE w.owner_id = $1) AND e.id > $2",
    "e.id LIMIT $3"
);

pub(super) const ALL: &[&str] =
    &[OF_PACKET, OF_TRIAL, OF_BAG, OF_PLANTING, OF_ACT, OF_SAVE, LOOKS, TALLIES, OUTCOMES];

/// One entry as people read it.
#[derive(Debug, Clone, FromRow)]
pub struct Entry {
    pub id: String,
    pub packet_id: Option<PacketId>,
    pub trial_id: Option<TrialId>,
    pub bag_id: Option<BagId>,
    pub planting_id: Option<PlantingId>,
    pub what: String,
    pub at: At,
    pub recorded_at: At,
    pub note: String,
    pub by_name: String,
    pub bag: Option<String>,
    pub sort: String,
    pub seeds: Option<i64>,
    pub rooted: Option<i64>,
    pub abnormal: Option<i64>,
    pub dead: Option<i64>,
    pub fresh: Option<i64>,
    pub hard: Option<i64>,
    pub not_examined: Option<i64>,
    pub lost: Option<i64>,
    pub sank: Option<i64>,
    pub floated: Option<i64>,
    pub floaters: Option<String>,
    pub position: Option<i64>,
    pub skipped: Option<bool>,
    pub percent: Option<f64>,
    pub place: Option<String>,
    pub warmth_c: Option<f64>,
    pub why: Option<String>,
    pub void_why: Option<String>,
    pub void_by: Option<String>,
    /// The tray that a planting is in, and its cell there.
    pub tray: Option<String>,
    pub cell: Option<i64>,
    pub tray_rows: Option<i64>,
    pub tray_cols: Option<i64>,
    /// Above 0: the hand-out of a running ring trial, which only an organiser may take back.
    pub blind: i64,
}

pub async fn of_packet(conn: &mut Conn, id: &PacketId) -> Result<Vec<Entry>, AppError> {
    Ok(conn.all(OF_PACKET, args![id]).await?)
}

pub async fn of_trial(conn: &mut Conn, id: &TrialId) -> Result<Vec<Entry>, AppError> {
    Ok(conn.all(OF_TRIAL, args![id]).await?)
}

pub async fn of_bag(conn: &mut Conn, id: &BagId) -> Result<Vec<Entry>, AppError> {
    Ok(conn.all(OF_BAG, args![id]).await?)
}

pub async fn of_planting(conn: &mut Conn, id: &PlantingId) -> Result<Vec<Entry>, AppError> {
    Ok(conn.all(OF_PLANTING, args![id]).await?)
}

/// The entries of the act that `entry` belongs to.
pub async fn of_act(conn: &mut Conn, entry: &str) -> Result<Vec<Entry>, AppError> {
    Ok(conn.all(OF_ACT, args![entry]).await?)
}

/// What the member's save with this key wrote, in the order written.
pub async fn of_save(conn: &mut Conn, key: &str, member: &MemberId) -> Result<Vec<Entry>, AppError> {
    Ok(conn.all(OF_SAVE, args![key, member]).await?)
}

/// Which entries of a member's things are asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sort {
    /// Looks into their bags.
    Looks,
    /// Float tallies of their trials.
    Tallies,
    /// What became of plantings in their trays.
    Outcomes,
}

/// At most `most` entries of this sort about the member's things, in the order written, after the one with id
/// `after`; voided ones too.
pub async fn after(
    conn: &mut Conn,
    member: &MemberId,
    sort: Sort,
    (after, most): (&str, i64),
) -> Result<Vec<Entry>, AppError> {
    let sql = match sort {
        Sort::Looks => LOOKS,
        Sort::Tallies => TALLIES,
        Sort::Outcomes => OUTCOMES,
    };
    Ok(conn.all(sql, args![member, after, most]).await?)
}

impl Entry {
    /// The entry in words: "look: 2 rooted, 1 dead", "taken: 10 seeds".
    pub fn words(&self) -> String {
        let position = self.position.unwrap_or(0);
        match self.what.as_str() {
            "look" => t!("notebook-look-found", found = self.found()),
            "closing" => t!("notebook-closed", ending = words::sort(&self.sort), found = self.found()),
            "float tally" => {
                let (sank, floated) = (self.sank.unwrap_or(0), self.floated.unwrap_or(0));
                t!("notebook-sank-floated", sank = sank, floated = floated)
            }
            "step" if self.skipped == Some(true) => t!("notebook-step-skipped", n = position),
            "step" => t!("notebook-step-done", n = position),
            "bag event" => self.event(),
            _ => self.sorted(),
        }
    }

    fn found(&self) -> String {
        let some = |n: Option<i64>, said: fn(i64) -> String| n.filter(|n| *n > 0).map(said);
        let parts = [
            some(self.rooted, |n| t!("notebook-found-rooted", n = n)),
            some(self.abnormal, |n| t!("notebook-found-abnormal", n = n)),
            some(self.dead, |n| t!("notebook-found-dead", n = n)),
            some(self.fresh, |n| t!("notebook-found-fresh", n = n)),
            some(self.hard, |n| t!("notebook-found-hard", n = n)),
            some(self.not_examined, |n| t!("notebook-found-not-examined", n = n)),
            some(self.lost, |n| t!("notebook-found-lost", n = n)),
        ];
        let said: Vec<String> = parts.into_iter().flatten().collect();
        if said.is_empty() { t!("notebook-found-nothing").to_owned() } else { said.join(", ") }
    }

    fn event(&self) -> String {
        let event = words::sort(&self.sort);
        let place = self.place.as_deref().filter(|place| !place.is_empty());
        let warmth = self.warmth_c.map(|c| decimal(&c.to_string()));
        match (place, warmth) {
            (Some(place), Some(warmth)) => {
                t!("notebook-event-to-at", event = event, place = place, warmth = warmth)
            }
            (Some(place), None) => t!("notebook-event-to", event = event, place = place),
            (None, Some(warmth)) => t!("notebook-event-at", event = event, warmth = warmth),
            (None, None) => event.to_owned(),
        }
    }

    fn sorted(&self) -> String {
        let told = self.seeds.filter(|_| self.sort != "ended").map(|n| format!(": {}", seeds(n)));
        let why = self.why.as_deref().filter(|why| !why.is_empty()).map(|why| format!(" ({})", reason(why)));
        let (told, why) = (told.unwrap_or_default(), why.unwrap_or_default());
        let entry = format!("{}{told}{why}", words::sort(&self.sort));
        match (&self.tray, self.cell_name()) {
            (Some(tray), Some(cell)) => t!("notebook-in-cell", entry = entry, tray = tray, cell = cell),
            _ => entry,
        }
    }

    /// `B3`, where it is about a planting.
    fn cell_name(&self) -> Option<String> {
        let (rows, cols) = (self.tray_rows?, self.tray_cols?);
        Some(Geometry { rows, cols }.name(self.cell?))
    }
}
