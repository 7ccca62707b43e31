use super::Who::{self, *};
use crate::support::{Browser, Club};
use hilum::db::ids::BagId;
use hilum::notebook::{self, Act};
use hilum::trays::store::{self, NewTray, Plan};

/// A club in which Jo owns one thing of each kind.
pub struct Season {
    pub club: Club,
    pub jo: Browser,
    pub kim: Browser,
    pub lea: Browser,
    pub packet: String,
    pub trial: String,
    pub bag: String,
    tray: String,
    planting: String,
    entry: String,
}

impl Season {
    pub async fn new() -> Self {
        let club = Club::new().await;
        let jo = club.grower("Jo", "JB").await;
        let kim = club.grower("Kim", "KL").await;
        let lea = club.organiser("Lea", "LM").await;
        let packet = club.packet(&jo, "Kestrel", 40).await;
        let trial = club.trial(&jo, &packet, 20).await;
        let bag = club.bag(&jo, &trial, 10).await;
        club.look(&jo, &bag, 2, 0).await;
        let (tray, planting, entry) = planted(&club, &jo, &bag).await;
        Self { packet: packet.0, trial: trial.0, bag: bag.0, tray, planting, entry, club, jo, kim, lea }
    }

    pub fn path(&self, pattern: &str, who: Who) -> String {
        let id = match who {
            Packet => &self.packet,
            Trial => &self.trial,
            Bag => &self.bag,
            Tray => &self.tray,
            Planting => &self.planting,
            Entry => &self.entry,
            _ => "1",
        };
        let (start, rest) = pattern.split_once('{').unwrap_or((pattern, ""));
        let Some((_, rest)) = rest.split_once('}') else { return start.to_owned() };
        format!("{start}{id}{}", crate::csrf::filled(rest))
    }
}

/// A tray with one planting of the bag, and the entry of that planting.
async fn planted(club: &Club, jo: &Browser, bag: &BagId) -> (String, String, String) {
    let now = club.app.now();
    let mut conn = club.app.db.write().await.unwrap();
    let new = NewTray { name: "Bench", rows: 2, cols: 3, place: "" };
    let (tray, _) = store::make(&mut conn, jo.id(), &new, now).await.unwrap();
    let plan = Plan { bag, tray: &tray, seeds: 1, per_cell: 1, from: None, unrooted: false, over: None };
    let placed = store::plant(&mut conn, &Act::new(jo.id(), "season", now, now), &plan).await.unwrap();
    let planting = placed[0].planting.0.clone();
    let entry = notebook::history::of_planting(&mut conn, &placed[0].planting).await.unwrap()[0].id.clone();
    conn.commit().await.unwrap();
    (tray.0, planting, entry)
}
