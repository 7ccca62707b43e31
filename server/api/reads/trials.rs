use crate::api::ask::Ask;
use crate::api::list::{Listed, Slice};
use crate::api::problem::Problem;
use crate::api::table::{Shown, Table, Words};
use crate::api::values::{Moment, example_id};
use crate::db::ids::TrialId;
use crate::error::AppError;
use crate::routines::store as routines;
use crate::trials::model;
use crate::trials::store;
use chrono_tz::Tz;
use schemars::JsonSchema;
use serde::Serialize;

/// One packet put through one routine.
#[derive(Debug, Serialize, JsonSchema)]
struct Trial {
    id: String,
    packet: String,
    /// The mark of the packet.
    mark: String,
    kind: String,
    variety: String,
    source: String,
    /// The name of the routine, and which version of it.
    routine: String,
    version: i64,
    began_at: Moment,
    /// Seeds taken for it.
    seeds: i64,
    soaking: i64,
    thrown_out: i64,
    lost: i64,
    /// Put back into the packet.
    returned: i64,
    /// The running step, from 1; above the number of steps when all are done.
    step: i64,
    step_at: Moment,
    /// What the float tally found; null before it.
    sank: Option<i64>,
    floated: Option<i64>,
    /// What became of floaters: `own bag`, `thrown out`, `kept in`, or empty.
    floaters: String,
    treated_again: bool,
    voided: bool,
}

impl Shown for Trial {
    fn example() -> Self {
        Self {
            id: example_id("trials"),
            packet: example_id("packets"),
            mark: "JB 1".into(),
            kind: "pepper".into(),
            variety: "Fenland Red".into(),
            source: "Alder Lane".into(),
            routine: "Dry".into(),
            version: 1,
            began_at: Moment::example(),
            seeds: 40,
            soaking: 30,
            thrown_out: 0,
            lost: 0,
            returned: 0,
            step: 1,
            step_at: Moment::example(),
            sank: None,
            floated: None,
            floaters: String::new(),
            treated_again: false,
            voided: false,
        }
    }
}

impl Listed for Trial {
    fn key(&self) -> String {
        self.id.clone()
    }
}

impl Trial {
    fn of(t: model::Trial, zone: Tz) -> Self {
        Self {
            id: t.id.0,
            packet: t.packet_id.0,
            mark: t.mark,
            kind: t.kind,
            variety: t.variety,
            source: t.source,
            routine: t.routine,
            version: t.number,
            began_at: Moment::of(t.began_at, zone),
            seeds: t.seeds,
            soaking: t.soaking,
            thrown_out: t.thrown_out,
            lost: t.lost,
            returned: t.returned,
            step: t.step,
            step_at: Moment::of(t.step_at, zone),
            sank: t.sank,
            floated: t.floated,
            floaters: t.floaters,
            treated_again: t.treated_again,
            voided: t.voided,
        }
    }
}

/// A routine that trials can be put through.
#[derive(Debug, Serialize, JsonSchema)]
struct Routine {
    id: String,
    name: String,
}

impl Shown for Routine {
    fn example() -> Self {
        Self { id: example_id("routines"), name: "Dry".into() }
    }
}

impl Listed for Routine {
    fn key(&self) -> String {
        self.id.clone()
    }
}

const GROUP: &str = "Trials";

pub fn add(table: Table) -> Table {
    let list_words = Words {
        name: "listTrials",
        group: GROUP,
        summary: "Your trials",
        about: "Those that stand, running and past, the first made first.",
    };
    let one_words = Words { name: "readTrial", group: GROUP, summary: "One trial", about: "" };
    let routine_words = Words {
        name: "listRoutines",
        group: GROUP,
        summary: "The club's routines",
        about: "Those in use: a trial that is started names one of them.",
    };
    table.list("/trials", list_words, &[], list).one("/trials/{id}", one_words, one).list(
        "/routines",
        routine_words,
        &[],
        routines_list,
    )
}

async fn list(ask: Ask, slice: Slice) -> Result<Vec<Trial>, Problem> {
    let zone = ask.zone();
    let mut conn = ask.conn().await?;
    let found = store::trials_after(&mut conn, ask.member(), &slice.after, slice.most).await?;
    Ok(found.into_iter().map(|t| Trial::of(t, zone)).collect())
}

async fn one(ask: Ask) -> Result<Trial, AppError> {
    let id = TrialId(ask.id.clone());
    Ok(Trial::of(store::trial(&mut ask.conn().await?, ask.member(), &id).await?, ask.zone()))
}

async fn routines_list(ask: Ask, _: Slice) -> Result<Vec<Routine>, Problem> {
    let found = routines::routines(&mut ask.conn().await?).await?;
    let used = found.into_iter().filter(|r| r.retired_at.is_none());
    Ok(used.map(|r| Routine { id: r.id.0, name: r.name }).collect())
}
