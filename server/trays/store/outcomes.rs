use super::{plantings, tray};
use crate::args;
use crate::db::Conn;
use crate::db::ids::{ActId, PlantingId, TrayId};
use crate::error::AppError;
use crate::notebook::{About, Act, planting};
use crate::trays::model::{self, Found, Planting, Unnoted};

const TRAY_OF: &str = "SELECT p.tray_id FROM plantings p JOIN trays t ON t.id = p.tray_id
    WHERE p.id = $2 AND t.owner_id = $1 AND NOT p.voided";

pub const ALL: &[&str] = &[TRAY_OF];

#[derive(crate::db::FromRow)]
struct TrayOf {
    tray_id: TrayId,
}

/// Notes outcomes of one planting of the acting member, as one act. What is thinned or potted on is noted as up
/// where it was not. Refused in field `entry` where it tells of more seeds than there are.
pub async fn outcome(
    conn: &mut Conn,
    act: &Act<'_>,
    id: &PlantingId,
    found: &[Found],
) -> Result<(), AppError> {
    let row: Option<TrayOf> = conn.maybe(TRAY_OF, args![act.member, id]).await?;
    let tray_id = row.ok_or(AppError::NotFound)?.tray_id;
    tray::lock(conn, act.member, &tray_id).await?;
    planting::lock(conn, id).await?;
    let p = plantings::planting(conn, act.member, id).await?;
    note(conn, act, &p, found).await
}

async fn note(conn: &mut Conn, act: &Act<'_>, p: &Planting, found: &[Found]) -> Result<(), AppError> {
    let about =
        About { bag: Some(&p.bag_id), tray: Some(&p.tray_id), planting: Some(&p.id), ..About::default() };
    for f in model::with_up(p, found) {
        planting::add_outcome(conn, act, about, f.sort, f.seeds, &f.why).await?;
    }
    planting::keep(conn, &p.id).await?;
    Ok(())
}

/// Notes `sort` for everything left in each of `ticked` plantings of a tray: one act for each cell. How many
/// cells were noted; those with nothing left stay as they are.
pub async fn of_tray(
    conn: &mut Conn,
    act: &Act<'_>,
    tray_id: &TrayId,
    ticked: &[&str],
    (sort, why): (&'static str, &str),
) -> Result<usize, AppError> {
    let tray = tray::lock(conn, act.member, tray_id).await?;
    let all = plantings::of_tray(conn, act.member, tray_id).await?;
    let mut noted = 0;
    let mut chosen: Vec<&Planting> =
        all.iter().filter(|p| p.here && ticked.contains(&p.id.0.as_str())).collect();
    chosen.sort_by(|a, b| a.id.cmp(&b.id));
    for p in chosen {
        planting::lock(conn, &p.id).await?;
        let p = plantings::planting(conn, act.member, &p.id).await?;
        let found = model::for_ticked(&p, sort, why).map_err(|Unnoted| {
            let cell = tray.geometry().name(p.cell);
            AppError::refused("planting", t!("trays-not-noted-how-many-up", cell = cell, n = p.seeds))
        })?;
        if let Some(found) = found {
            note(conn, &Act { id: ActId::new(), ..act.clone() }, &p, &[found]).await?;
            noted += 1;
        }
    }
    Ok(noted)
}

/// Ends everything that still stands in a tray; how many cells that were.
pub async fn end_all(conn: &mut Conn, act: &Act<'_>, tray_id: &TrayId, why: &str) -> Result<usize, AppError> {
    let all = plantings::of_tray(conn, act.member, tray_id).await?;
    let mut here: Vec<&Planting> = all.iter().filter(|p| p.here).collect();
    here.sort_by(|a, b| a.id.cmp(&b.id));
    for p in &here {
        planting::lock(conn, &p.id).await?;
        note(conn, act, p, &[Found::new("ended", 0, why)]).await?;
    }
    Ok(here.len())
}
