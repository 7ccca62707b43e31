use crate::api::ask::Ask;
use crate::api::list::{Listed, Slice};
use crate::api::problem::Problem;
use crate::api::table::{Shown, Table, Words};
use crate::db::ids::KindId;
use crate::error::AppError;
use crate::stock::{published, store};
use schemars::JsonSchema;
use serde::Serialize;

/// A kind of seed, with what is published of it. Where it was published stands on the page of the kind.
#[derive(Debug, Serialize, JsonSchema)]
struct Kind {
    id: String,
    name: String,
    /// How many varieties of it the club has.
    varieties: i64,
    /// Days to the first and to the final count of the laboratory test, which is of normal seedlings.
    first_count_day: Option<i64>,
    final_count_day: Option<i64>,
    /// Least percentage of normal seedlings; not of root emergence.
    standard_percent: Option<f64>,
    seeds_per_gram: Option<f64>,
}

impl Shown for Kind {
    fn example() -> Self {
        Self {
            id: "pepper".into(),
            name: "pepper".into(),
            varieties: 1,
            first_count_day: Some(6),
            final_count_day: Some(14),
            standard_percent: Some(55.0),
            seeds_per_gram: Some(165.0),
        }
    }
}

impl Listed for Kind {
    fn key(&self) -> String {
        self.id.clone()
    }
}

impl From<store::Kind> for Kind {
    fn from(k: store::Kind) -> Self {
        let known = published::of(&k.name);
        let counts = known.and_then(|p| p.counts.as_ref()).map(|f| &f.value);
        Self {
            id: k.id.0,
            varieties: k.varieties,
            first_count_day: counts.map(|c| c.first_day),
            final_count_day: counts.map(|c| c.final_day),
            standard_percent: known.and_then(|p| p.standard_percent.as_ref()).map(|f| f.value),
            seeds_per_gram: published::seeds_per_gram(&k.name),
            name: k.name,
        }
    }
}

const GROUP: &str = "Kinds and rates";

pub fn add(table: Table) -> Table {
    let kinds = Words {
        name: "listKinds",
        group: GROUP,
        summary: "The kinds the club knows",
        about: "With the published days, percentage and seeds in a gram, where they are known.",
    };
    let kind = Words { name: "readKind", group: GROUP, summary: "One kind", about: "" };
    table.list("/kinds", kinds, &[], list).one("/kinds/{id}", kind, one)
}

async fn list(ask: Ask, _: Slice) -> Result<Vec<Kind>, Problem> {
    let found = store::kinds(&mut ask.conn().await?).await?;
    Ok(found.into_iter().map(Kind::from).collect())
}

async fn one(ask: Ask) -> Result<Kind, AppError> {
    Ok(store::kind(&mut ask.conn().await?, &KindId(ask.id.clone())).await?.into())
}
