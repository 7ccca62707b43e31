use super::named_and_dated;
use crate::api::record::{Pairs, Recording, Subject};
use crate::api::table::{Table, Words};
use crate::api::values::{Moment, SaveId, one_of};
use crate::stock::model::BY_HAND;
use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::{Deserialize, Serialize};

/// A line of a packet's ledger, written by hand.
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct PacketSeeds {
    id: SaveId,
    /// When it happened; now where it is left out.
    at: Option<Moment>,
    /// With `recount`, how many are in the packet now; else how many came or went.
    #[schemars(range(min = 0, max = 1_000_000))]
    seeds: i64,
    #[schemars(schema_with = "sorts")]
    sort: String,
    /// With `recount`: the number is a rough one.
    #[serde(default)]
    rough: bool,
    #[schemars(length(max = 2000))]
    note: Option<String>,
}

fn sorts(_: &mut SchemaGenerator) -> Schema {
    one_of(BY_HAND)
}

impl Recording for PacketSeeds {
    const SUBJECT: Subject = Subject::Packet;
    const WRITES: (&'static str, &'static str) = ("ledger", "packets");
    named_and_dated!();

    fn form(id: &str) -> String {
        format!("/packets/{id}/seeds")
    }

    fn fields(&self) -> Pairs {
        let pairs = Pairs::default().with("sort", &self.sort).with("seeds", self.seeds);
        pairs.tick("rough", self.rough).maybe("note", self.note.as_ref())
    }

    fn examples() -> Vec<(&'static str, &'static str, u16, Self)> {
        let counted = |sort: &str, seeds| Self {
            id: SaveId::example(),
            at: None,
            seeds,
            sort: sort.into(),
            rough: false,
            note: None,
        };
        vec![
            ("recount", "There are 58 in it", 201, counted("recount", 58)),
            ("spoiled", "More than there are", 422, counted("spoiled", 900)),
        ]
    }
}

pub fn add(table: Table) -> Table {
    let words = Words {
        name: "recordSeedsOfPacket",
        group: "Packets",
        summary: "Count a packet anew, or note seeds that came or went",
        about: "",
    };
    table.save::<PacketSeeds>("/packets/{id}/seeds", words)
}
