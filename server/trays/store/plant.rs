use super::tray;
use crate::args;
use crate::db::ids::{ActId, BagId, MemberId, PlantingId, TrayId, TrialId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::notebook::{About, Act, bag, planting};
use crate::trays::cells::{self, Geometry, Unfit};
use crate::trays::model::Tray;
use std::collections::BTreeMap;

const BAG: &str =
    "SELECT b.id, b.trial_id, b.mark, b.rooted, b.ended, b.on_paper, rv.name AS variety, rs.name AS source
    FROM bags b
    JOIN trials r ON r.id = b.trial_id
    JOIN packets k ON k.id = r.packet_id
    JOIN lots l ON l.id = k.lot_id
    JOIN varieties v ON v.id = l.variety_id JOIN varieties rv ON rv.id = v.root_id
    JOIN sources s ON s.id = l.source_id JOIN sources rs ON rs.id = s.root_id
    WHERE b.owner_id = $1 AND b.id = $2 AND NOT b.voided";
const TAKEN: &str = "SELECT c.cell, c.planting_id, p.bag_id, b.mark FROM tray_cells c
    JOIN plantings p ON p.id = c.planting_id JOIN bags b ON b.id = p.bag_id
    WHERE c.tray_id = $1 ORDER BY c.cell";
const INSERT: &str = "INSERT INTO plantings
    (id, tray_id, cell, bag_id, unrooted, planted_at, voided, seeds, up, lost, thinned, potted, end_why)
    VALUES ($1, $2, $3, $4, $5, $6, FALSE, $7, 0, 0, 0, 0, '')";
const NEXT_BAG: &str = "SELECT b.id, b.mark, b.rooted - b.ended AS ready FROM bags b
    WHERE b.owner_id = $1 AND b.id <> $2 AND NOT b.voided AND b.rooted > b.ended ORDER BY length(b.mark_key), b.mark_key LIMIT 1";

pub const ALL: &[&str] = &[BAG, TAKEN, INSERT, NEXT_BAG];

/// A bag as far as planting goes.
#[derive(Debug, Clone, FromRow)]
pub struct Ready {
    pub id: BagId,
    pub trial_id: TrialId,
    pub mark: String,
    pub rooted: i64,
    pub ended: i64,
    pub on_paper: i64,
    pub variety: String,
    pub source: String,
}

impl Ready {
    /// How many seeds may be planted: rooted ones not ended yet, or ones still on paper.
    pub fn most(&self, unrooted: bool) -> i64 {
        if unrooted { self.on_paper } else { self.rooted - self.ended }
    }
}

#[derive(Debug, Clone, FromRow)]
struct Held {
    cell: i64,
    planting_id: String,
    bag_id: BagId,
    mark: String,
}

/// Another bag with rooted seeds.
#[derive(Debug, Clone, FromRow)]
pub struct NextBag {
    pub id: BagId,
    pub mark: String,
    pub ready: i64,
}

/// What is to be planted where.
#[derive(Debug, Clone)]
pub struct Plan<'a> {
    pub bag: &'a BagId,
    pub tray: &'a TrayId,
    pub seeds: i64,
    /// Seeds to a cell; the last cell takes what is left over.
    pub per_cell: i64,
    /// The first cell; `None` for the next free ones.
    pub from: Option<i64>,
    /// A last chance for seeds that did not root.
    pub unrooted: bool,
    /// Why plantings that stand in the way are ended; `None` keeps to free cells.
    pub over: Option<&'a str>,
}

impl Plan<'_> {
    /// How many cells it takes.
    pub fn cells(&self) -> usize {
        usize::try_from((self.seeds + self.per_cell - 1) / self.per_cell.max(1)).unwrap_or(0)
    }
}

/// What was planted into one cell.
#[derive(Debug, Clone)]
pub struct Placed {
    pub planting: PlantingId,
    pub cell: i64,
    pub seeds: i64,
}

/// The member's bag.
pub async fn ready(conn: &mut Conn, member: &MemberId, id: &BagId) -> Result<Ready, AppError> {
    conn.maybe(BAG, args![member, id]).await?.ok_or(AppError::NotFound)
}

/// The first other bag of the member with rooted seeds to plant.
pub async fn next_bag(conn: &mut Conn, member: &MemberId, but: &BagId) -> Result<Option<NextBag>, AppError> {
    Ok(conn.maybe(NEXT_BAG, args![member, but]).await?)
}

async fn held(conn: &mut Conn, tray: &TrayId) -> Result<Vec<Held>, AppError> {
    Ok(conn.all(TAKEN, args![tray]).await?)
}

/// The cells that `plan` would take now. Refused in field `cell` or `seeds` where they are not to be had.
pub async fn preview(conn: &mut Conn, tray: &Tray, plan: &Plan<'_>) -> Result<Vec<i64>, AppError> {
    let held = held(conn, &tray.id).await?;
    chosen(tray.geometry(), &held, plan)
}

fn chosen(g: Geometry, held: &[Held], plan: &Plan<'_>) -> Result<Vec<i64>, AppError> {
    let taken: BTreeMap<i64, String> = held.iter().map(|h| (h.cell, h.mark.clone())).collect();
    let from = plan.from.map(|cell| g.name(cell));
    cells::choose(g.cells(), &taken, plan.from, plan.cells(), plan.over.is_some()).map_err(|unfit| {
        match (unfit, from) {
            (Unfit::Taken(bag), from) => {
                let cell = from.unwrap_or_else(|| g.name(1));
                AppError::refused("cell", t!("trays-cell-is-taken", cell = cell, bag = bag))
            }
            (Unfit::Short(n), Some(cell)) => {
                AppError::refused("seeds", t!("trays-too-few-free-from", n = n, cell = cell))
            }
            (Unfit::Short(n), None) => AppError::refused("seeds", t!("trays-too-few-free", n = n)),
        }
    })
}

/// Plants. One act for each cell, so that a slip in one cell is voided alone; the undo of the save takes all
/// back. Refused in fields `seeds`, `cell`, `tray` or (by the notebook) `entry`.
pub async fn plant(conn: &mut Conn, act: &Act<'_>, plan: &Plan<'_>) -> Result<Vec<Placed>, AppError> {
    ready(conn, act.member, plan.bag).await?;
    bag::lock(conn, plan.bag).await?;
    let ready = ready(conn, act.member, plan.bag).await?;
    enough(&ready, plan)?;
    let tray = tray::lock(conn, act.member, plan.tray).await?;
    if tray.finished_at.is_some() {
        return Err(AppError::refused("tray", t!("trays-tray-is-finished")));
    }
    let held = held(conn, &tray.id).await?;
    let mut left = plan.seeds;
    let mut placed = Vec::new();
    for cell in chosen(tray.geometry(), &held, plan)? {
        let seeds = left.min(plan.per_cell);
        left -= seeds;
        let own = Act { id: ActId::new(), ..act.clone() };
        if let (Some(why), Some(old)) = (plan.over, held.iter().find(|h| h.cell == cell)) {
            clear(conn, &own, &tray, old, why).await?;
        }
        placed.push(fill(conn, &own, &ready, plan, (cell, seeds)).await?);
    }
    bag::keep(conn, plan.bag).await?;
    Ok(placed)
}

fn enough(ready: &Ready, plan: &Plan<'_>) -> Result<(), AppError> {
    let most = ready.most(plan.unrooted);
    if plan.seeds <= most {
        return Ok(());
    }
    let message = if plan.unrooted {
        t!("trays-not-so-many-on-paper", bag = ready.mark, n = most)
    } else {
        t!("trays-not-so-many-rooted", bag = ready.mark, n = most)
    };
    Err(AppError::refused("seeds", message))
}

async fn clear(conn: &mut Conn, act: &Act<'_>, tray: &Tray, old: &Held, why: &str) -> Result<(), AppError> {
    let id = PlantingId(old.planting_id.clone());
    planting::lock(conn, &id).await?;
    let about =
        About { bag: Some(&old.bag_id), tray: Some(&tray.id), planting: Some(&id), ..About::default() };
    planting::add_outcome(conn, act, about, "ended", 0, why).await?;
    planting::keep(conn, &id).await?;
    Ok(())
}

async fn fill(
    conn: &mut Conn,
    act: &Act<'_>,
    ready: &Ready,
    plan: &Plan<'_>,
    (cell, seeds): (i64, i64),
) -> Result<Placed, AppError> {
    let planting = PlantingId::new();
    let row = args![&planting, plan.tray, cell, plan.bag, plan.unrooted, act.at, seeds];
    conn.run(INSERT, row).await?;
    let about = About {
        trial: Some(&ready.trial_id),
        bag: Some(plan.bag),
        tray: Some(plan.tray),
        planting: Some(&planting),
        ..About::default()
    };
    if plan.unrooted {
        bag::add_seeds(conn, act, about, "sown unrooted", seeds, None).await?;
    } else {
        bag::add_end(conn, act, about, "planted", seeds).await?;
    }
    planting::keep(conn, &planting).await?;
    Ok(Placed { planting, cell, seeds })
}
