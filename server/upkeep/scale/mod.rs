//! A large invented club, drawn by rule: the same for the same size and moment. For trying how the program bears
//! a large club.

pub mod club;
mod load;
mod names;
mod rows;
pub mod trial;

pub use load::Ground;
pub(crate) use rows::all_sql;

use super::demo::PASSWORD;
use crate::accounts::{self, model::NewMember};
use crate::app::App;
use crate::args;
use crate::db::Conn;
use crate::db::ids::LotId;
use crate::error::AppError;
use crate::routines;
use crate::stock::{self, model::Naming};
use club::{Club, Packet};
use load::Loader;
use std::collections::HashMap;
use std::str::FromStr;

const NUMBERED: &str = "UPDATE letters SET last_number = $2 WHERE member_id = $1";
pub(crate) const ALL: &[&str] = &[NUMBERED];

/// How large a club is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Size {
    /// 1 to 10,000.
    pub members: usize,
    /// 1 to 1,000,000; each has about 20 counts.
    pub trials: usize,
    /// Years, 1 to 20.
    pub seasons: usize,
}

impl FromStr for Size {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let numbers: Vec<usize> = text.split(',').filter_map(|n| n.trim().parse().ok()).collect();
        let within = |n: usize, most: usize| (1..=most).contains(&n);
        match numbers[..] {
            [members, trials, seasons]
                if within(members, 10_000) && within(trials, 1_000_000) && within(seasons, 20) =>
            {
                Ok(Self { members, trials, seasons })
            }
            _ => Err("give members (up to 10,000), trials (1,000,000) and seasons (20), such as 500,50000,5"
                .into()),
        }
    }
}

/// Fills an empty database with a club of that size as it is now.
pub async fn fill(app: &App, size: Size) -> anyhow::Result<()> {
    let club = Club::new(size, app.now());
    let mut conn = app.db.write().await?;
    let ground = ground(app, &mut conn, &club).await?;
    for (n, id) in ground.members.iter().enumerate() {
        conn.run(NUMBERED, args![id, club.packets_of(n) as i64]).await?;
    }
    conn.commit().await?;
    Ok(Loader::new(&club, &ground).all(&app.db).await?)
}

/// The club with its members, names, lots and routines, by ordinary code; nothing is started yet.
pub async fn ground(app: &App, conn: &mut Conn, club: &Club) -> anyhow::Result<Ground> {
    let founded = club.founded();
    accounts::store::make_club(conn, "The Large Growing Club", "Europe/Berlin", founded).await?;
    stock::ensure_kinds(conn, founded).await?;
    routines::ensure_starters(conn, founded).await?;
    let hash = accounts::passwords::hashed(app, PASSWORD.to_owned()).await?;
    let mut ground =
        Ground { members: Vec::new(), lots: HashMap::new(), routines: Vec::new(), steps: Vec::new() };
    for m in &club.members {
        let new = NewMember {
            name: m.name.clone(),
            sign_in: m.sign_in.clone(),
            letters: m.letters.clone(),
            password: String::new(),
            role: m.role.into(),
        };
        ground.members.push(accounts::store::add(conn, &new, &hash, founded).await?);
    }
    for routine in routines::store::routines(conn).await? {
        routines::store::freeze(conn, &routine.version_id).await?;
        ground.steps.push(routines::store::steps(conn, &routine.version_id).await?);
        ground.routines.push(routine);
    }
    for member in 0..club.members.len() {
        for nth in 0..club.packets_of(member) {
            let packet = club.packet(member, nth);
            if !ground.lots.contains_key(&packet.lot()) {
                let lot = lot(conn, club, &ground, &packet).await?;
                ground.lots.insert(packet.lot(), lot);
            }
        }
    }
    Ok(ground)
}

async fn lot(conn: &mut Conn, club: &Club, ground: &Ground, packet: &Packet) -> Result<LotId, AppError> {
    let member = &ground.members[packet.member];
    stock::store::find_or_make_lot(conn, member, &club.naming(packet), club.founded()).await
}

impl Club {
    /// What a packet's lot is called.
    pub fn naming(&self, packet: &Packet) -> Naming {
        let variety = &self.varieties[packet.variety];
        Naming {
            kind: variety.kind.into(),
            variety: variety.name.clone(),
            source: self.sources[packet.source].clone(),
            sort: "merchant".into(),
            year: packet.year,
            ..Naming::default()
        }
    }
}
