use super::{Rows, differing};
use crate::db::ids::PlantingId;
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::notebook::planting;

const PLANTINGS: &str =
    "SELECT p.id, b.mark, t.mark AS tray, p.tray_id, p.cell, p.voided, p.seeds, p.up, p.lost, p.thinned, p.potted,
      p.ended_at, p.end_why, t.tray_rows * t.tray_cols AS cells, c.tray_id AS in_tray, c.cell AS in_cell,
      (SELECT CAST(COALESCE(SUM(COALESCE(r.seeds, s.seeds)), 0) AS BIGINT) FROM entries e
        LEFT JOIN rooted_ends r ON r.entry_id = e.id LEFT JOIN bag_seeds s ON s.entry_id = e.id
        WHERE e.planting_id = p.id AND e.what IN ('rooted end', 'bag seeds')
          AND NOT EXISTS (SELECT 1 FROM voids v WHERE v.entry_id = e.id)) AS from_bag
    FROM plantings p JOIN bags b ON b.id = p.bag_id JOIN trays t ON t.id = p.tray_id
    LEFT JOIN tray_cells c ON c.planting_id = p.id
    WHERE p.id > $1 ORDER BY p.id LIMIT $2";

pub(super) const ALL: &[&str] = &[PLANTINGS];

#[derive(FromRow)]
struct Planting {
    id: String,
    mark: String,
    tray: String,
    tray_id: String,
    cell: i64,
    voided: bool,
    seeds: i64,
    up: i64,
    lost: i64,
    thinned: i64,
    potted: i64,
    ended_at: Option<i64>,
    end_why: String,
    cells: i64,
    in_tray: Option<String>,
    in_cell: Option<i64>,
    from_bag: i64,
}

/// I4 and I5: plantings that do not come out with their bag, their outcomes or their cell.
pub(super) async fn all(conn: &mut Conn) -> Result<Vec<String>, AppError> {
    let mut found = Vec::new();
    let mut rows = Rows::of(PLANTINGS, |p: &Planting| &p.id);
    while let Some(kept) = rows.next(conn).await? {
        for p in kept {
            found.extend(of_planting(conn, &p).await?);
        }
    }
    Ok(found)
}

async fn of_planting(conn: &mut Conn, p: &Planting) -> Result<Vec<String>, AppError> {
    let mut found = Vec::new();
    let of = format!("planting of {} in cell {} of tray {}", p.mark, p.cell, p.tray);
    match planting::sums(conn, &PlantingId(p.id.clone())).await? {
        Err(broken) => found.push(format!("I5 {of}: an entry does not come out: {}", broken.why)),
        Ok(now) => found.extend(differs(p, &now).into_iter().map(|why| format!("I5 {of}: {why}"))),
    }
    found.extend(p.cell_at_fault().map(|why| format!("I5 {of}: {why}")));
    if !p.voided && p.from_bag != p.seeds {
        let (given, seeds) = (p.from_bag, p.seeds);
        found.push(format!("I4 {of}: the bag gave {given} seeds, the planting has {seeds}"));
    }
    Ok(found)
}

fn differs(kept: &Planting, now: &planting::Sums) -> Vec<String> {
    let fields = differing!(kept, now, [voided, up, lost, thinned, potted, ended_at, end_why]);
    fields.into_iter().map(|(_, why)| why).collect()
}

impl Planting {
    fn cell_at_fault(&self) -> Option<String> {
        let living = !self.voided && self.ended_at.is_none();
        let there = self.in_tray.as_deref() == Some(&self.tray_id) && self.in_cell == Some(self.cell);
        if self.cell > self.cells {
            Some(format!("the tray has only {} cells", self.cells))
        } else if living && !there {
            Some("the cell does not hold it".into())
        } else if !living && self.in_cell.is_some() {
            Some("it has ended and still holds its cell".into())
        } else {
            None
        }
    }
}
