use crate::api::ask::Ask;
use crate::api::list::{Listed, Slice};
use crate::api::problem::Problem;
use crate::api::table::{Name, Shown, Table, Words};
use crate::api::values::{Moment, example_id};
use crate::bags::model;
use crate::bags::store;
use crate::db::ids::{At, BagId};
use crate::error::AppError;
use chrono::NaiveDate;
use chrono_tz::Tz;
use schemars::JsonSchema;
use serde::Serialize;

/// One lot on one damp paper.
#[derive(Debug, Serialize, JsonSchema)]
struct Bag {
    id: String,
    trial: String,
    packet: String,
    mark: String,
    kind: String,
    variety: String,
    source: String,
    /// Whether it holds the floaters of its trial.
    floaters: bool,
    on_paper_at: Moment,
    /// Days on paper by the club's calendar; the day on paper is day 0.
    day: i64,
    place: String,
    /// Degrees C.
    warmth_c: Option<f64>,
    /// Seeds it holds in all.
    seeds: i64,
    rooted: i64,
    /// Still on paper.
    on_paper: i64,
    /// Rooted, and neither planted nor otherwise ended.
    waiting: i64,
    looked_at: Option<Moment>,
    /// The day (YYYY-MM-DD) of the next look; null where there is nothing to look at.
    #[schemars(extend("format" = "date"))]
    look_due: Option<String>,
    closed_at: Option<Moment>,
    /// `final count`, `abandoned`, or empty.
    ending: String,
    in_doubt: bool,
    voided: bool,
}

impl Shown for Bag {
    fn example() -> Self {
        Self {
            id: example_id("bags"),
            trial: example_id("trials"),
            packet: example_id("packets"),
            mark: "JB 1 a".into(),
            kind: "pepper".into(),
            variety: "Fenland Red".into(),
            source: "Alder Lane".into(),
            floaters: false,
            on_paper_at: Moment::example(),
            day: 3,
            place: "mat".into(),
            warmth_c: Some(28.0),
            seeds: 10,
            rooted: 4,
            on_paper: 5,
            waiting: 3,
            looked_at: None,
            look_due: Some("2026-03-03".into()),
            closed_at: None,
            ending: String::new(),
            in_doubt: false,
            voided: false,
        }
    }
}

impl Listed for Bag {
    fn key(&self) -> String {
        self.id.clone()
    }
}

impl Bag {
    fn of(b: model::Bag, now: At, zone: Tz) -> Self {
        Self {
            day: b.day(now, zone),
            waiting: b.waiting(),
            look_due: b.look_due(zone).map(|day: NaiveDate| day.to_string()),
            id: b.id.0,
            trial: b.trial_id.0,
            packet: b.packet_id.0,
            mark: b.mark,
            kind: b.kind,
            variety: b.variety,
            source: b.source,
            floaters: b.floaters,
            on_paper_at: Moment::of(b.on_paper_at, zone),
            place: b.place,
            warmth_c: b.warmth_c,
            seeds: b.seeds,
            rooted: b.rooted,
            on_paper: b.on_paper,
            looked_at: Moment::maybe(b.looked_at, zone),
            closed_at: Moment::maybe(b.closed_at, zone),
            ending: b.ending,
            in_doubt: b.in_doubt,
            voided: b.voided,
        }
    }
}

const GROUP: &str = "Bags";
const OPEN: Name = Name {
    name: "open",
    about: "With `yes`, only bags that are not closed.",
    one_of: &["yes", "no"],
    whole: false,
};

pub fn add(table: Table) -> Table {
    let list_words = Words {
        name: "listBags",
        group: GROUP,
        summary: "Your bags",
        about: "Those that stand, the first made first.",
    };
    let one_words = Words { name: "readBag", group: GROUP, summary: "One bag", about: "" };
    table.list("/bags", list_words, &[OPEN], list).one("/bags/{id}", one_words, one)
}

async fn list(ask: Ask, slice: Slice) -> Result<Vec<Bag>, Problem> {
    let open = match ask.value(OPEN.name) {
        "" | "no" => false,
        "yes" => true,
        _ => return Err(Problem::query(OPEN.name, "It is `yes` or `no`.")),
    };
    let mut conn = ask.conn().await?;
    let found = store::after(&mut conn, ask.member(), open, (&slice.after, slice.most)).await?;
    let (now, zone) = (ask.app.now(), ask.zone());
    Ok(found.into_iter().map(|b| Bag::of(b, now, zone)).collect())
}

async fn one(ask: Ask) -> Result<Bag, AppError> {
    let id = BagId(ask.id.clone());
    let bag = store::bag(&mut ask.conn().await?, ask.member(), &id).await?;
    Ok(Bag::of(bag, ask.app.now(), ask.zone()))
}
