use crate::api::ask::Ask;
use crate::api::list::{Listed, Slice};
use crate::api::problem::Problem;
use crate::api::table::{Shown, Table, Words};
use crate::api::values::{Moment, example_id};
use crate::bags::model::Bag;
use crate::bags::store;
use crate::db::ids::At;
use crate::error::AppError;
use crate::trials::model::{Due as Soaking, Next};
use crate::trials::store as trials;
use chrono::{NaiveDate, NaiveTime, TimeZone};
use chrono_tz::Tz;
use schemars::JsonSchema;
use serde::Serialize;

/// One thing that needs doing.
#[derive(Debug, Serialize, JsonSchema)]
struct Due {
    /// `step`, `tally` or `paper` of a trial; `look`, `plant` or `close` of a bag.
    what: &'static str,
    mark: String,
    variety: String,
    /// When it was or will be due.
    due: Moment,
    /// Seeds it is about: soaking, still on paper, or rooted and waiting for a cell.
    seeds: i64,
    trial: String,
    bag: Option<String>,
    #[serde(skip)]
    at: At,
}

impl Shown for Due {
    fn example() -> Self {
        Self {
            what: "look",
            mark: "JB 1 a".into(),
            variety: "Fenland Red".into(),
            due: Moment("2026-03-03T00:00:00+01:00".into()),
            seeds: 6,
            trial: example_id("trials"),
            bag: Some(example_id("bags")),
            at: At(0),
        }
    }
}

impl Listed for Due {
    fn key(&self) -> String {
        let thing = self.bag.as_ref().unwrap_or(&self.trial);
        format!("{:012} {} {thing}", self.at.0, self.what)
    }
}

pub fn add(table: Table) -> Table {
    let words = Words {
        name: "listDue",
        group: "Due now",
        summary: "What needs doing",
        about: "Steps of soaks with the moment they end, also those still to come; looks that are due by today; rooted \
                seeds that wait for a cell; empty bags to close. Soonest first.",
    };
    table.list("/due", words, &[], list)
}

async fn list(ask: Ask, _: Slice) -> Result<Vec<Due>, Problem> {
    Ok(everything(&ask).await?)
}

async fn everything(ask: &Ask) -> Result<Vec<Due>, AppError> {
    let (now, zone) = (ask.app.now(), ask.zone());
    let mut conn = ask.conn().await?;
    let soaking = trials::due(&mut conn, ask.member()).await?;
    let bags = store::to_do(&mut conn, ask.member()).await?;
    let soaks = soaking.into_iter().map(|t| of_trial(t, zone));
    Ok(soaks.chain(bags.iter().flat_map(|b| of_bag(b, now, zone))).collect())
}

fn of_trial(t: Soaking, zone: Tz) -> Due {
    let what = match t.next() {
        Next::Step => "step",
        Next::Tally => "tally",
        Next::Paper => "paper",
    };
    let at = t.due_at();
    let due = Moment::of(at, zone);
    Due { what, due, at, seeds: t.soaking, trial: t.trial_id.0, bag: None, mark: t.mark, variety: t.variety }
}

fn of_bag(bag: &Bag, now: At, zone: Tz) -> Vec<Due> {
    let since = bag.rooted_at().or(bag.looked_at).unwrap_or(bag.on_paper_at);
    let plant = (!bag.voided && bag.waiting() > 0).then(|| ("plant", since, bag.waiting()));
    let empty = bag.is_open() && bag.on_paper == 0;
    let close = empty.then(|| ("close", bag.looked_at.unwrap_or(bag.on_paper_at), 0));
    let day = bag.look_due(zone).filter(|_| bag.is_due(now, zone));
    let look = day.map(|day| ("look", midnight(day, zone), bag.on_paper));
    let thing = |(what, at, seeds)| Due {
        what,
        at,
        seeds,
        due: Moment::of(at, zone),
        mark: bag.mark.clone(),
        variety: bag.variety.clone(),
        trial: bag.trial_id.0.clone(),
        bag: Some(bag.id.0.clone()),
    };
    [plant, close, look].into_iter().flatten().map(thing).collect()
}

fn midnight(day: NaiveDate, zone: Tz) -> At {
    let start = zone.from_local_datetime(&day.and_time(NaiveTime::MIN)).earliest();
    At(start.map_or_else(|| day.and_time(NaiveTime::MIN).and_utc().timestamp(), |t| t.timestamp()))
}
