mod kinds;
mod ledger;
mod names;
mod packets;

use crate::support::{Browser, Club, Page};
use hilum::args;
use hilum::db::FromRow;

#[derive(FromRow)]
struct Number {
    n: i64,
}

/// A club with the built-in kinds.
pub async fn club() -> Club {
    let club = Club::new().await;
    let mut conn = club.app.db.write().await.unwrap();
    hilum::stock::ensure_kinds(&mut conn, club.app.now()).await.unwrap();
    conn.commit().await.unwrap();
    club
}

pub async fn number(club: &Club, sql: &'static str) -> i64 {
    let row: Number = club.app.db.read().await.unwrap().one(sql, args![]).await.unwrap();
    row.n
}

/// Adds a packet of 25 seeds through the form, with these fields besides.
pub async fn add(who: &Browser, variety: &str, fields: &[(&str, &str)]) -> Page {
    let form = who.get("/packets/new").await;
    let usual = [
        ("kind", "pepper"),
        ("variety", variety),
        ("source", "Testwood Seeds"),
        ("seeds", "25"),
        ("year", "2024"),
    ];
    let mut all: Vec<(&str, &str)> =
        usual.into_iter().filter(|(name, _)| !fields.iter().any(|(given, _)| given == name)).collect();
    all.extend(fields);
    let page = who.submit(&form, "/packets/new", &all).await;
    if page.body.contains("meant_variety") {
        return who.submit(&page, "/packets/new", &[("meant_variety", variety)]).await;
    }
    page
}

/// Breaches of I1 in the whole database.
pub async fn sound(club: &Club) {
    let mut conn = club.app.db.read().await.unwrap();
    let found = hilum::notebook::check::all(&mut conn, club.app.now()).await.unwrap();
    assert!(!found.iter().any(|breach| breach.starts_with("I1")), "{found:?}");
}
