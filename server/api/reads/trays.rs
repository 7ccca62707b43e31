use crate::api::ask::Ask;
use crate::api::list::{Listed, Slice};
use crate::api::problem::Problem;
use crate::api::table::{Shown, Table, Words};
use crate::api::values::{Moment, example_id};
use crate::db::ids::{PlantingId, TrayId};
use crate::error::AppError;
use crate::trays::model;
use crate::trays::store;
use chrono_tz::Tz;
use schemars::JsonSchema;
use serde::Serialize;

/// A tray of cells.
#[derive(Debug, Serialize, JsonSchema)]
struct Tray {
    id: String,
    mark: String,
    name: String,
    rows: i64,
    columns: i64,
    /// Cells that hold a planting now.
    planted: i64,
    free: i64,
    place: String,
    made_at: Moment,
    finished_at: Option<Moment>,
}

impl Shown for Tray {
    fn example() -> Self {
        Self {
            id: example_id("trays"),
            mark: "JB T1".into(),
            name: "Bench".into(),
            rows: 2,
            columns: 3,
            planted: 1,
            free: 5,
            place: String::new(),
            made_at: Moment::example(),
            finished_at: None,
        }
    }
}

impl Listed for Tray {
    fn key(&self) -> String {
        self.id.clone()
    }
}

impl Tray {
    fn of(t: model::Tray, zone: Tz) -> Self {
        Self {
            free: t.free(),
            id: t.id.0,
            mark: t.mark,
            name: t.name,
            rows: t.tray_rows,
            columns: t.tray_cols,
            planted: t.planted,
            place: t.place,
            made_at: Moment::of(t.made_at, zone),
            finished_at: Moment::maybe(t.finished_at, zone),
        }
    }
}

/// Seeds of one bag in one cell.
#[derive(Debug, Serialize, JsonSchema)]
struct Planting {
    id: String,
    tray: String,
    /// Letter of the column and number of the row, such as `B1`.
    cell: String,
    bag: String,
    bag_mark: String,
    variety: String,
    source: String,
    /// Sown unrooted, as a last chance.
    unrooted: bool,
    planted_at: Moment,
    seeds: i64,
    up: i64,
    lost: i64,
    thinned: i64,
    potted_on: i64,
    ended_at: Option<Moment>,
    /// Whether it is in its cell now.
    here: bool,
    /// Its state in words.
    state: String,
}

impl Shown for Planting {
    fn example() -> Self {
        Self {
            id: example_id("plantings"),
            tray: example_id("trays"),
            cell: "A1".into(),
            bag: example_id("bags"),
            bag_mark: "JB 1 a".into(),
            variety: "Fenland Red".into(),
            source: "Alder Lane".into(),
            unrooted: false,
            planted_at: Moment::example(),
            seeds: 1,
            up: 0,
            lost: 0,
            thinned: 0,
            potted_on: 0,
            ended_at: None,
            here: true,
            state: "waiting".into(),
        }
    }
}

impl Listed for Planting {
    fn key(&self) -> String {
        self.id.clone()
    }
}

impl Planting {
    fn of(p: model::Planting, tray: &model::Tray, zone: Tz) -> Self {
        Self {
            state: p.state(),
            cell: tray.geometry().name(p.cell),
            id: p.id.0,
            tray: p.tray_id.0,
            bag: p.bag_id.0,
            bag_mark: p.bag,
            variety: p.variety,
            source: p.source,
            unrooted: p.unrooted,
            planted_at: Moment::of(p.planted_at, zone),
            seeds: p.seeds,
            up: p.up,
            lost: p.lost,
            thinned: p.thinned,
            potted_on: p.potted,
            ended_at: Moment::maybe(p.ended_at, zone),
            here: p.here,
        }
    }
}

const GROUP: &str = "Trays";

pub fn add(table: Table) -> Table {
    let trays = Words {
        name: "listTrays",
        group: GROUP,
        summary: "Your trays",
        about: "In use and finished, the first made first.",
    };
    let tray = Words { name: "readTray", group: GROUP, summary: "One tray", about: "" };
    let plantings = Words {
        name: "listPlantings",
        group: GROUP,
        summary: "What a tray holds and held",
        about: "Every planting that stands, the first made first.",
    };
    let planting = Words { name: "readPlanting", group: GROUP, summary: "One planting", about: "" };
    table
        .list("/trays", trays, &[], list)
        .one("/trays/{id}", tray, one)
        .list("/trays/{id}/plantings", plantings, &[], of_tray)
        .one("/plantings/{id}", planting, one_planting)
}

async fn list(ask: Ask, slice: Slice) -> Result<Vec<Tray>, Problem> {
    let zone = ask.zone();
    let mut conn = ask.conn().await?;
    let found = store::tray::after(&mut conn, ask.member(), &slice.after, slice.most).await?;
    Ok(found.into_iter().map(|t| Tray::of(t, zone)).collect())
}

async fn one(ask: Ask) -> Result<Tray, AppError> {
    let id = TrayId(ask.id.clone());
    Ok(Tray::of(store::tray::tray(&mut ask.conn().await?, ask.member(), &id).await?, ask.zone()))
}

async fn of_tray(ask: Ask, _: Slice) -> Result<Vec<Planting>, Problem> {
    let (mut conn, id) = (ask.conn().await?, TrayId(ask.id.clone()));
    let tray = store::tray::tray(&mut conn, ask.member(), &id).await?;
    let found = store::plantings::of_tray(&mut conn, ask.member(), &id).await?;
    let zone = ask.zone();
    Ok(found.into_iter().map(|p| Planting::of(p, &tray, zone)).collect())
}

async fn one_planting(ask: Ask) -> Result<Planting, AppError> {
    let (mut conn, id) = (ask.conn().await?, PlantingId(ask.id.clone()));
    let planting = store::plantings::planting(&mut conn, ask.member(), &id).await?;
    let tray = store::tray::tray(&mut conn, ask.member(), &planting.tray_id).await?;
    Ok(Planting::of(planting, &tray, ask.zone()))
}
