use crate::api::ask::Ask;
use crate::api::list::{Listed, Slice};
use crate::api::problem::{Fault, Problem, kinds};
use crate::api::table::{Name, Shown, Table, Words};
use crate::error::AppError;
use crate::rates::cache;
use crate::rates::choice::Choice;
use crate::rates::rows::ClubRow;
use crate::rates::standing;
use crate::web::forms::Form;
use schemars::JsonSchema;
use serde::Serialize;

/// A row of the club table: everybody's counts of one variety from one source, pooled. Rates are shares from 0 to 1.
#[derive(Debug, Serialize, JsonSchema)]
struct Rate {
    kind: String,
    variety: String,
    source: String,
    /// Rooted, of the seeds that were asked for; null where it is not known yet.
    rate: Option<f64>,
    /// The 95 % interval, which allows for bags and trials being unlike each other.
    low: f64,
    high: f64,
    /// The share that a grower of average care would see, of seeds on paper, with its interval; null where the model
    /// gives none.
    adjusted: Option<Adjusted>,
    rooted: u64,
    /// Seeds that went on paper.
    seeds_on_paper: u64,
    /// Seeds that were started.
    seeds_started: u64,
    growers: usize,
    trials: usize,
    bags: usize,
    /// Days on paper by which half of those that root have rooted.
    median_days: Option<f64>,
    /// The day by which a seed must have rooted to count; null at the close.
    day: Option<f64>,
    /// Whether no day is published and the club's own stands in.
    own_day: bool,
    /// Whether the curve stood in for a look on the day.
    estimated: bool,
    /// Sources of different groups of one variety share no grower and cannot be compared.
    group: usize,
    groups: usize,
    /// Bags that are not in the rate: on paper too lately, in doubt, abandoned.
    waiting_bags: usize,
    doubtful_bags: usize,
    abandoned_bags: usize,
}

/// An adjusted rate with its interval.
#[derive(Debug, Serialize, JsonSchema)]
struct Adjusted {
    rate: f64,
    low: f64,
    high: f64,
}

impl Shown for Rate {
    fn example() -> Self {
        Self {
            kind: "pepper".into(),
            variety: "Fenland Red".into(),
            source: "Alder Lane".into(),
            rate: Some(0.86),
            low: 0.78,
            high: 0.92,
            adjusted: Some(Adjusted { rate: 0.84, low: 0.75, high: 0.91 }),
            rooted: 103,
            seeds_on_paper: 120,
            seeds_started: 120,
            growers: 4,
            trials: 8,
            bags: 12,
            median_days: Some(6.5),
            day: Some(14.0),
            own_day: false,
            estimated: false,
            group: 1,
            groups: 1,
            waiting_bags: 1,
            doubtful_bags: 0,
            abandoned_bags: 0,
        }
    }
}

impl Listed for Rate {
    fn key(&self) -> String {
        [self.kind.as_str(), &self.variety, &self.source].join("\u{1f}")
    }
}

impl Rate {
    fn of(club: &ClubRow, adjusted: Option<Adjusted>) -> Self {
        let r = &club.row;
        Self {
            kind: r.kind.clone(),
            variety: r.variety.clone(),
            source: r.source.clone(),
            rate: r.rate,
            low: r.low,
            high: r.high,
            adjusted,
            rooted: r.rooted,
            seeds_on_paper: r.seeds,
            seeds_started: r.soaked,
            growers: r.growers,
            trials: r.trials,
            bags: r.bags,
            median_days: r.median_days,
            day: r.day,
            own_day: r.club_day,
            estimated: r.estimated,
            group: r.group,
            groups: club.groups,
            waiting_bags: club.waiting,
            doubtful_bags: club.in_doubt,
            abandoned_bags: club.abandoned,
        }
    }
}

const NAMES: [Name; 4] = [
    Name {
        name: "of",
        about: "Rates of seeds started (the usual), or of seeds on paper.",
        one_of: &["started", "paper"],
        whole: false,
    },
    Name {
        name: "at",
        about: "Rooted by the standard day (the usual), or at the close.",
        one_of: &["day", "close"],
        whole: false,
    },
    Name { name: "kind", about: "Only this kind, by its id.", one_of: &[], whole: false },
    Name { name: "season", about: "Only bags that went on paper in this year.", one_of: &[], whole: true },
];

pub fn add(table: Table) -> Table {
    let words = Words {
        name: "listRates",
        group: "Kinds and rates",
        summary: "The club table",
        about: "Germination by variety and source, in their order. A rate from few seeds says little: see its interval.",
    };
    table.list("/table", words, &NAMES, list)
}

async fn list(ask: Ask, _: Slice) -> Result<Vec<Rate>, Problem> {
    let mut form = Form::from_pairs(ask.query.clone());
    let choice = Choice::read(&mut form);
    if form.failed() {
        let fault = |(name, why): &(String, String)| Fault {
            pointer: None,
            parameter: Some(name.clone()),
            detail: why.clone(),
        };
        return Err(Problem::of(&kinds::REFUSED).errors(form.errors().iter().map(fault).collect()));
    }
    Ok(rows(&ask, &choice).await?)
}

async fn rows(ask: &Ask, choice: &Choice) -> Result<Vec<Rate>, AppError> {
    let (app, zone) = (&ask.app, ask.zone());
    let read = cache::book(app, zone).await?;
    let table = cache::table(app, &read, choice, app.now().day(zone)).await?;
    let kept = standing::latest(app, choice.at_close).await?;
    let settled = standing::settled(kept.as_deref()).ok().filter(|_| choice.is_whole());
    let row = |r: &ClubRow| {
        let place = (r.row.kind.as_str(), r.row.variety.as_str(), r.row.source.as_str());
        let found = settled.and_then(|kept| kept.standing.adjusted(place));
        Rate::of(r, found.map(|a| Adjusted { rate: a.rate, low: a.low, high: a.high }))
    };
    Ok(table.rows.iter().map(row).collect())
}
