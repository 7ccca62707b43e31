use crate::api::ask::Ask;
use crate::api::list::{Listed, Slice};
use crate::api::problem::Problem;
use crate::api::table::{Shown, Table, Words};
use crate::api::values::example_id;
use crate::db::ids::PacketId;
use crate::error::AppError;
use crate::stock::model;
use crate::stock::store;
use schemars::JsonSchema;
use serde::Serialize;

/// A numbered holding of a lot.
#[derive(Debug, Serialize, JsonSchema)]
struct Packet {
    id: String,
    mark: String,
    kind: String,
    variety: String,
    /// The name the variety counts under in the club table, where that is another.
    counts_as: String,
    species: String,
    source: String,
    /// The year of the lot.
    year: Option<i64>,
    /// The supplier's lot code.
    lot_code: String,
    /// Seeds by the book.
    seeds: i64,
    /// Whether that number is a rough one.
    rough: bool,
    place: String,
    /// `plain`, `pelleted`, `primed` or `treated`.
    state: String,
    note: String,
}

impl Shown for Packet {
    fn example() -> Self {
        Self {
            id: example_id("packets"),
            mark: "JB 1".into(),
            kind: "pepper".into(),
            variety: "Fenland Red".into(),
            counts_as: "Fenland Red".into(),
            species: String::new(),
            source: "Alder Lane".into(),
            year: Some(2025),
            lot_code: String::new(),
            seeds: 60,
            rough: false,
            place: "fridge".into(),
            state: "plain".into(),
            note: String::new(),
        }
    }
}

impl Listed for Packet {
    fn key(&self) -> String {
        self.id.clone()
    }
}

impl From<model::Packet> for Packet {
    fn from(p: model::Packet) -> Self {
        Self {
            id: p.id.0,
            mark: p.mark,
            kind: p.kind,
            variety: p.variety,
            counts_as: p.counts_as,
            species: p.species,
            source: p.source,
            year: (p.year != 0).then_some(p.year),
            lot_code: p.code,
            seeds: p.balance,
            rough: p.rough,
            place: p.place,
            state: p.state,
            note: p.note,
        }
    }
}

const GROUP: &str = "Packets";

pub fn add(table: Table) -> Table {
    let list_words = Words {
        name: "listPackets",
        group: GROUP,
        summary: "Your packets",
        about: "All of them, the first made first.",
    };
    let one_words = Words { name: "readPacket", group: GROUP, summary: "One packet", about: "" };
    table.list("/packets", list_words, &[], list).one("/packets/{id}", one_words, one)
}

async fn list(ask: Ask, slice: Slice) -> Result<Vec<Packet>, Problem> {
    let mut conn = ask.conn().await?;
    let found = store::packets_after(&mut conn, ask.member(), &slice.after, slice.most).await?;
    Ok(found.into_iter().map(Packet::from).collect())
}

async fn one(ask: Ask) -> Result<Packet, AppError> {
    let id = PacketId(ask.id.clone());
    Ok(store::packet(&mut ask.conn().await?, ask.member(), &id).await?.into())
}
