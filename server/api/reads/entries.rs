use crate::api::ask::Ask;
use crate::api::list::{Listed, Slice};
use crate::api::problem::Problem;
use crate::api::table::{Shown, Table, Words};
use crate::api::values::{Moment, example_id};
use crate::bags::store as bags;
use crate::db::ids::{BagId, PacketId, PlantingId, TrialId};
use crate::notebook::history::{self, Sort};
use crate::stock::store as stock;
use crate::trays::store as trays;
use crate::trials::store as trials;
use chrono_tz::Tz;
use schemars::JsonSchema;
use serde::Serialize;

/// An entry of the notebook. Numbers that do not belong to its sort are left out.
#[derive(Debug, Default, Serialize, JsonSchema)]
struct Entry {
    id: String,
    /// `ledger`, `trial seeds`, `float tally`, `step`, `trial event`, `look`, `closing`, `bag seeds`, `bag event`,
    /// `rooted end`, `planting` or `outcome`.
    what: String,
    /// What sort of that, such as `damped` or `potted on`; may be empty.
    sort: String,
    /// The entry in words.
    words: String,
    at: Option<Moment>,
    recorded_at: Option<Moment>,
    /// Who wrote it.
    by: String,
    note: String,
    packet: Option<String>,
    trial: Option<String>,
    bag: Option<String>,
    planting: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    seeds: Option<i64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    rooted: Option<i64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    abnormal: Option<i64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    dead: Option<i64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    fresh: Option<i64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    hard: Option<i64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    not_examined: Option<i64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    lost: Option<i64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    sank: Option<i64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    floated: Option<i64>,
    /// Who took it back, and why; null where it stands.
    voided: Option<Voided>,
}

/// Who took an entry back, and why.
#[derive(Debug, Serialize, JsonSchema)]
struct Voided {
    by: String,
    why: String,
}

impl Shown for Entry {
    fn example() -> Self {
        Self {
            id: example_id("entries"),
            what: "look".into(),
            words: "look: 4 rooted, 1 dead".into(),
            at: Some(Moment::example()),
            recorded_at: Some(Moment::example()),
            by: "Jo".into(),
            trial: Some(example_id("trials")),
            bag: Some(example_id("bags")),
            rooted: Some(4),
            abnormal: Some(0),
            dead: Some(1),
            ..Self::default()
        }
    }
}

impl Listed for Entry {
    fn key(&self) -> String {
        self.id.clone()
    }
}

impl Entry {
    fn of(e: history::Entry, zone: Tz) -> Self {
        Self {
            words: e.words(),
            id: e.id,
            what: e.what,
            sort: e.sort,
            at: Some(Moment::of(e.at, zone)),
            recorded_at: Some(Moment::of(e.recorded_at, zone)),
            by: e.by_name,
            note: e.note,
            packet: e.packet_id.map(|i| i.0),
            trial: e.trial_id.map(|i| i.0),
            bag: e.bag_id.map(|i| i.0),
            planting: e.planting_id.map(|i| i.0),
            seeds: e.seeds,
            rooted: e.rooted,
            abnormal: e.abnormal,
            dead: e.dead,
            fresh: e.fresh,
            hard: e.hard,
            not_examined: e.not_examined,
            lost: e.lost,
            sank: e.sank,
            floated: e.floated,
            voided: e.void_by.map(|by| Voided { by, why: e.void_why.unwrap_or_default() }),
        }
    }
}

const fn words(name: &'static str, group: &'static str, summary: &'static str) -> Words {
    let about = "In the order written, voided entries too.";
    Words { name, group, summary, about }
}

pub fn add(table: Table) -> Table {
    let of = "The newest 500 at most, in the order written, voided entries too.";
    let one = |name, group, summary| Words { name, group, summary, about: of };
    table
        .list("/counts", words("listCounts", "Bags", "Every look into your bags"), &[], counts)
        .list("/tallies", words("listTallies", "Trials", "Every float tally of your trials"), &[], tallies)
        .list(
            "/outcomes",
            words("listOutcomes", "Trays", "What became of plantings in your trays"),
            &[],
            outcomes,
        )
        .list(
            "/packets/{id}/entries",
            one("listEntriesOfPacket", "Packets", "A packet's ledger"),
            &[],
            of_packet,
        )
        .list(
            "/trials/{id}/entries",
            one("listEntriesOfTrial", "Trials", "The entries of a trial"),
            &[],
            of_trial,
        )
        .list("/bags/{id}/entries", one("listEntriesOfBag", "Bags", "The entries of a bag"), &[], of_bag)
        .list(
            "/plantings/{id}/entries",
            one("listEntriesOfPlanting", "Trays", "The entries of a planting"),
            &[],
            of_planting,
        )
}

async fn counts(ask: Ask, slice: Slice) -> Result<Vec<Entry>, Problem> {
    sorted(&ask, &slice, Sort::Looks).await
}

async fn tallies(ask: Ask, slice: Slice) -> Result<Vec<Entry>, Problem> {
    sorted(&ask, &slice, Sort::Tallies).await
}

async fn outcomes(ask: Ask, slice: Slice) -> Result<Vec<Entry>, Problem> {
    sorted(&ask, &slice, Sort::Outcomes).await
}

async fn sorted(ask: &Ask, slice: &Slice, sort: Sort) -> Result<Vec<Entry>, Problem> {
    let mut conn = ask.conn().await?;
    let found = history::after(&mut conn, ask.member(), sort, (&slice.after, slice.most)).await?;
    Ok(shown(ask, found))
}

fn shown(ask: &Ask, found: Vec<history::Entry>) -> Vec<Entry> {
    let zone = ask.zone();
    found.into_iter().map(|e| Entry::of(e, zone)).collect()
}

async fn of_packet(ask: Ask, _: Slice) -> Result<Vec<Entry>, Problem> {
    let (mut conn, id) = (ask.conn().await?, PacketId(ask.id.clone()));
    stock::packet(&mut conn, ask.member(), &id).await?;
    let found = history::of_packet(&mut conn, &id).await?;
    // the id of a blind hand-out tells in which order they were made
    let told = |e: &history::Entry| e.blind == 0 || ask.holder.member.is_organiser();
    Ok(shown(&ask, found.into_iter().filter(|e| e.what == "ledger" && told(e)).collect()))
}

async fn of_trial(ask: Ask, _: Slice) -> Result<Vec<Entry>, Problem> {
    let (mut conn, id) = (ask.conn().await?, TrialId(ask.id.clone()));
    trials::trial(&mut conn, ask.member(), &id).await?;
    Ok(shown(&ask, history::of_trial(&mut conn, &id).await?))
}

async fn of_bag(ask: Ask, _: Slice) -> Result<Vec<Entry>, Problem> {
    let (mut conn, id) = (ask.conn().await?, BagId(ask.id.clone()));
    bags::bag(&mut conn, ask.member(), &id).await?;
    Ok(shown(&ask, history::of_bag(&mut conn, &id).await?))
}

async fn of_planting(ask: Ask, _: Slice) -> Result<Vec<Entry>, Problem> {
    let (mut conn, id) = (ask.conn().await?, PlantingId(ask.id.clone()));
    trays::plantings::planting(&mut conn, ask.member(), &id).await?;
    Ok(shown(&ask, history::of_planting(&mut conn, &id).await?))
}
