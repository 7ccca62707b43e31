use super::{MOST, named_and_dated};
use crate::api::record::{Pairs, Recording, Subject};
use crate::api::table::{Table, Words};
use crate::api::values::{Moment, SaveId, example_id};
use crate::trays::model::LOST;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

const GROUP: &str = "Trays";

/// Seeds of a bag into cells of a tray.
#[derive(Debug, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Plant {
    id: SaveId,
    /// When they were planted; now where it is left out.
    at: Option<Moment>,
    /// The id of your tray.
    tray: String,
    #[schemars(range(min = 1, max = MOST))]
    seeds: i64,
    /// Seeds to a cell; 1 where it is left out. The last cell takes what is left over.
    #[schemars(range(min = 1, max = 1_000))]
    per_cell: Option<i64>,
    /// The first cell, such as `B1`; the next free ones where it is left out.
    cell: Option<String>,
    /// Sow seeds that did not root, as a last chance.
    #[serde(default)]
    unrooted: bool,
    /// Ends what stands in the way, for this reason.
    #[schemars(length(min = 1, max = 150))]
    over: Option<String>,
}

impl Recording for Plant {
    const SUBJECT: Subject = Subject::Bag;
    const WRITES: (&'static str, &'static str) = ("planting", "trays");
    named_and_dated!();

    fn form(id: &str) -> String {
        format!("/bags/{id}/plant")
    }

    fn fields(&self) -> Pairs {
        let pairs = Pairs::default().with("tray", &self.tray).with("seeds", self.seeds);
        let pairs = pairs.with("per_cell", self.per_cell.unwrap_or(1)).maybe("cell", self.cell.as_ref());
        let pairs = pairs.tick("unrooted", self.unrooted).tick("over", self.over.is_some());
        pairs.maybe("why", self.over.as_ref())
    }

    fn pointer(field: &str) -> String {
        crate::api::record::pointer(if field == "why" { "over" } else { field })
    }

    fn examples() -> Vec<(&'static str, &'static str, u16, Self)> {
        let of = |seeds, cell: Option<&str>| Self {
            id: SaveId::example(),
            tray: example_id("trays"),
            seeds,
            cell: cell.map(str::to_owned),
            ..Self::default()
        };
        vec![
            ("planted", "2 rooted seeds into the next free cells", 201, of(2, None)),
            ("nowhere", "There is no such cell", 422, of(2, Some("Z99"))),
            ("over", "More than are rooted", 422, of(90, None)),
        ]
    }
}

/// What became of the seeds of a planting, new since the last word on it.
#[derive(Debug, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Outcome {
    id: SaveId,
    /// When you looked; now where it is left out.
    at: Option<Moment>,
    #[schemars(range(min = 0, max = 1_000))]
    up: Option<i64>,
    #[schemars(range(min = 0, max = 1_000))]
    lost: Option<i64>,
    #[schemars(range(min = 0, max = 1_000))]
    thinned: Option<i64>,
    #[schemars(range(min = 0, max = 1_000))]
    potted_on: Option<i64>,
    /// Why they are lost: `damped off`, `did not come up`, `eaten`, `broke`, `dried`, or words of your own.
    #[schemars(length(max = 150))]
    why: Option<String>,
}

impl Recording for Outcome {
    const SUBJECT: Subject = Subject::Planting;
    const WRITES: (&'static str, &'static str) = ("outcome", "plantings");
    named_and_dated!();

    fn form(id: &str) -> String {
        format!("/plantings/{id}/outcomes")
    }

    fn fields(&self) -> Pairs {
        let pairs = Pairs::default().maybe("up", self.up).maybe("lost", self.lost);
        let pairs = pairs.maybe("thinned", self.thinned).maybe("potted", self.potted_on);
        match self.why.as_deref() {
            None => pairs,
            Some(why) if LOST.contains(&why) => pairs.with("why", why),
            Some(own) => pairs.with("why", "other").with("why_other", own),
        }
    }

    fn examples() -> Vec<(&'static str, &'static str, u16, Self)> {
        let base = || Self { id: SaveId::example(), ..Self::default() };
        vec![
            ("up", "It is up", 201, Self { up: Some(1), ..base() }),
            ("lost", "Lost to slugs", 201, Self { lost: Some(1), why: Some("slugs".into()), ..base() }),
            ("unexplained", "Lost, without saying why", 422, Self { lost: Some(1), ..base() }),
        ]
    }
}

/// The end of a planting.
#[derive(Debug, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct End {
    id: SaveId,
    /// When it ended; now where it is left out.
    at: Option<Moment>,
    #[schemars(length(min = 1, max = 150))]
    why: String,
}

impl Recording for End {
    const SUBJECT: Subject = Subject::Planting;
    const WRITES: (&'static str, &'static str) = ("outcome", "plantings");
    named_and_dated!();

    fn form(id: &str) -> String {
        format!("/plantings/{id}/end")
    }

    fn fields(&self) -> Pairs {
        Pairs::default().with("end_why", &self.why)
    }

    fn examples() -> Vec<(&'static str, &'static str, u16, Self)> {
        let end = |why: &str| Self { id: SaveId::example(), at: None, why: why.into() };
        vec![
            ("ended", "The cell is wanted", 201, end("cell wanted for another")),
            ("unexplained", "Without a reason", 422, end("")),
        ]
    }
}

pub fn add(table: Table) -> Table {
    let words = |name, summary, about| Words { name, group: GROUP, summary, about };
    table
        .save::<Plant>("/bags/{id}/plantings", words("plant", "Plant seeds of a bag", ""))
        .save::<Outcome>("/plantings/{id}/outcomes", words("recordOutcome", "What became of a planting", ""))
        .save::<End>("/plantings/{id}/endings", words("endPlanting", "End a planting", ""))
}
