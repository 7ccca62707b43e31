//! The sowing plan over HTTP: lines typed and pasted, what they take, promised seeds, ageing seed, what to buy.

mod cost;
mod lines;
mod promises;
mod stock;

use crate::support::{Browser, Club, Page};
use hilum::args;
use hilum::db::ids::RoutineId;

pub const ENTER: &str = "/plan/lines";
/// A routine that takes half a day (common practice, no source), from the ready ones.
const ROUTINE: &str = "Plain water overnight";

/// A club with the ready routines, and Jo with a plan for 2026.
pub async fn club() -> (Club, Browser) {
    let club = Club::new().await;
    club.app.furnish().await.unwrap();
    let jo = club.grower("Jo", "JB").await;
    plan(&club, &jo, &[]).await.says("The plan 2026 is made");
    (club, jo)
}

/// Makes a plan named 2026 with these fields besides.
pub async fn plan(club: &Club, by: &Browser, fields: &[(&str, &str)]) -> Page {
    let page = by.get("/plan/season").await;
    let routine = routine(club).await;
    let set = [("routine", routine.0.as_str()), ("bag_seeds", "10"), ("mat_bags", "3"), ("trays", "1")];
    let own = set.iter().filter(|(name, _)| !fields.iter().any(|(n, _)| n == name)).chain(fields);
    by.submit(&page, "/plan/season", &own.copied().collect::<Vec<_>>()).await
}

pub async fn routine(club: &Club) -> RoutineId {
    routine_named(club, ROUTINE).await
}

pub async fn routine_named(club: &Club, name: &str) -> RoutineId {
    #[derive(hilum::db::FromRow)]
    struct Row {
        id: RoutineId,
    }
    let sql = "SELECT id FROM routines WHERE name = $1";
    let row: Row = club.app.db.read().await.unwrap().one(sql, args![name]).await.unwrap();
    row.id
}

/// Pastes lines into the newest plan.
pub async fn paste(by: &Browser, list: &str) -> Page {
    let page = by.get(ENTER).await;
    by.submit(&page, ENTER, &[("list", list)]).await
}

/// The address of the line of this variety.
pub async fn line(by: &Browser, variety: &str) -> String {
    by.get("/plan").await.link(variety)
}

/// The cells of the plan's row that begins with `variety`.
#[track_caller]
pub fn row(page: &Page, variety: &str) -> String {
    let rows = page.all("table.list tbody tr");
    rows.iter()
        .find(|row| row.starts_with(variety))
        .unwrap_or_else(|| panic!("no {variety} in {rows:?}"))
        .clone()
}
