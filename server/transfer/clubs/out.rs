//! Our shared table as one file. No name of a member goes out unless the organiser ticks it: growers and trials are
//! numbered, and marks, whose letters tell whose they are, stay here.

use super::package::{Field, Head, Table, zipped};
use super::store;
use crate::accounts;
use crate::app::App;
use crate::error::AppError;
use crate::rates::book::{Counted, day_number};
use crate::rates::cache::{self, Read};
use crate::rates::choice::Choice;
use crate::rates::counts;
use crate::rates::unnamed::Numbers;
use crate::stock::store as stock;
use crate::web::away::away;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::made::Files;
use anyhow::anyhow;
use axum::extract::State;
use axum::http::header::{CONTENT_DISPOSITION, CONTENT_TYPE};
use axum::response::{IntoResponse, Response};
use chrono::NaiveDate;
use hilum_calc::analyse;
use hilum_calc::standard_day::final_count_day;
use hilum_calc::table::{Bag, Options, Reading};
use std::collections::BTreeMap;

/// The columns of the long table of counts.
const COUNTS: [Field; 19] = [
    ("kind", "string", "", "Kind of plant"),
    ("variety", "string", "", "Named cultivar of the kind"),
    ("source", "string", "", "Who the seed came from"),
    ("grower", "string", "", "Who grew it, see growers"),
    ("trial", "string", "", "One packet put through one routine by one grower at one time"),
    ("bag", "string", "", "One replicate on damp paper, told apart within its trial"),
    ("seeds", "integer", "seeds", "Seeds put on paper in this bag"),
    ("hours", "number", "h", "Hours since the bag went on paper, at this look"),
    ("rooted", "integer", "seeds", "Radicle out, new since the last look"),
    ("abnormal", "integer", "seeds", "Abnormal, new since the last look"),
    ("dead", "integer", "seeds", "Dead and removed, new since the last look"),
    ("soaked", "integer", "seeds", "Seeds put to soak that the bag stands for"),
    ("floated", "boolean", "", "A bag of floaters"),
    ("lot_year", "integer", "year", "Year of the lot"),
    ("routine", "string", "", "Steps before the paper"),
    ("warmth_c", "number", "degrees C", "Warmth of the bag"),
    ("age_years", "number", "years", "Age of the seed"),
    ("put_on_paper", "date", "", "Day the bag went on paper"),
    ("closed", "boolean", "", "The bag is closed"),
];
const GROWERS: [Field; 2] =
    [("grower", "string", "", "As in counts"), ("club", "string", "", "The club of the grower")];
/// The columns of the club table, but for the adjusted rates: each club works out its own.
const TABLE: [Field; 15] = [
    ("kind", "string", "", "Kind of plant"),
    ("variety", "string", "", "Named cultivar of the kind"),
    ("source", "string", "", "Who the seed came from"),
    ("growers", "integer", "growers", "Growers who tried it"),
    ("trials", "integer", "trials", "Trials"),
    ("bags", "integer", "bags", "Bags"),
    ("seeds", "integer", "seeds", "Seeds on paper"),
    ("soaked", "integer", "seeds", "Seeds put to soak"),
    ("rooted", "integer", "seeds", "Rooted by the standard day of the kind"),
    ("rate", "number", "share", "Rooted of seeds started, by the standard day"),
    ("low", "number", "share", "Lower end of its 95 % interval"),
    ("high", "number", "share", "Upper end of its 95 % interval"),
    (
        "design_effect",
        "number",
        "",
        "How much wider bags and trials make the interval, as a factor of the variance",
    ),
    ("median_days", "number", "d", "Days on paper until half of the seeds that root have rooted"),
    ("group", "integer", "", "Sources of one group can be compared with each other"),
];

/// What the organiser wants of the file.
#[derive(Debug, Clone, Default, PartialEq, Eq, Hash)]
pub struct Wanted {
    pub names: bool,
    pub licence: String,
}

impl Wanted {
    /// Reads it; a licence is a short name such as `CC-BY-4.0`, or an address.
    pub fn read(form: &mut Form) -> Self {
        let licence = form.text("licence", 200);
        let fits = |c: char| c.is_ascii_alphanumeric() || "-._".contains(c);
        let named = licence.chars().all(fits);
        let address = ["http://", "https://"].iter().any(|start| licence.starts_with(start));
        if !(named || address && !licence.contains(char::is_whitespace)) {
            form.refuse("licence", t!("transfer-licence-name-or-address"));
        }
        Self { names: form.ticked("names"), licence }
    }
}

/// Our shared table as it was last made, by what was wanted of it.
pub type SharedTables = Files<Wanted>;

/// POST /clubs/table.zip
pub async fn table(State(app): State<App>, chrome: Chrome, mut form: Form) -> Result<Response, AppError> {
    chrome.member.must_organise()?;
    let wanted = Wanted::read(&mut form);
    if form.failed() {
        return super::pages::draw(&app, &chrome, &form).await;
    }
    let (files, making) = (app.shared_tables.clone(), app.clone());
    let key = wanted.clone();
    let made = files.get(key, async move { Ok(shared_table(&making, &wanted).await?.into()) }).await?;
    let Some(bytes) = made else {
        return super::pages::draw_making(&app, &chrome, &form).await;
    };
    let day = chrome.now.day(chrome.member.zone());
    let name = format!("attachment; filename=\"shared-table-{day}.zip\"");
    let head = [(CONTENT_TYPE, "application/zip".to_owned()), (CONTENT_DISPOSITION, name)];
    Ok((head, bytes).into_response())
}

/// Our shared table as a zip archive.
pub async fn shared_table(app: &App, wanted: &Wanted) -> Result<Vec<u8>, AppError> {
    let mut conn = app.db.write().await?;
    let installation = store::installation(&mut conn).await?;
    conn.commit().await?;
    let mut conn = app.db.read().await?;
    let (club, zone) =
        (accounts::store::club_name(&mut conn).await?, accounts::store::zone(&mut conn).await?);
    let saved = stock::saved(&mut conn).await?;
    drop(conn);
    let Read { book, as_of, .. } = cache::book(app, zone).await?;
    let now = app.now();
    let (created, as_of) = (now.in_utc(), as_of.in_utc());
    let head = Head { club, installation, created, as_of, licence: wanted.licence.clone() };
    let (names, today) = (wanted.names, now.day(zone));
    let made = away(move || {
        let choice = Choice::default();
        let own = || choice.counting(&book);
        let mut numbers = Numbers::new(own(), &saved, &head.installation);
        let bags: Vec<Counted> = own().map(|b| if names { b.clone() } else { numbers.number(b) }).collect();
        zipped(&head, &tables(&bags, &head.club, today)?)
    });
    Ok(made.await??)
}

fn tables(bags: &[Counted], club: &str, today: NaiveDate) -> Result<Vec<Table>, anyhow::Error> {
    let counts = counts::written(bags.iter())?;
    let table = rates(bags, today)?;
    let growers: BTreeMap<&str, ()> = bags.iter().map(|b| (b.grower.as_str(), ())).collect();
    let mut writer = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    writer.write_record(GROWERS.map(|f| f.0))?;
    for grower in growers.keys() {
        writer.write_record([grower, club].map(super::super::cells::guarded))?;
    }
    let growers = String::from_utf8(writer.into_inner()?)?;
    Ok(vec![
        Table {
            name: "growers",
            title: "Growers",
            fields: GROWERS.to_vec(),
            key: &["grower"],
            points_at: None,
            csv: growers,
        },
        Table {
            name: "counts",
            title: "Counts: one line for each look into a bag",
            fields: COUNTS.to_vec(),
            key: &["trial", "bag", "hours"],
            points_at: Some((&["grower"], "growers", &["grower"])),
            csv: counts,
        },
        Table {
            name: "table",
            title: "Club table: rates by kind, variety and source",
            fields: TABLE.to_vec(),
            key: &["kind", "variety", "source"],
            points_at: None,
            csv: table,
        },
    ])
}

/// The table of these bags under [`TABLE`].
fn rates(bags: &[Counted], today: NaiveDate) -> Result<String, anyhow::Error> {
    let places: Option<Vec<usize>> =
        TABLE.iter().map(|(name, ..)| analyse::TABLE_HEADER.iter().position(|h| h == name)).collect();
    let places = places.ok_or_else(|| anyhow!("the table lacks a column"))?;
    let mut writer = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    writer.write_record(TABLE.map(|f| f.0))?;
    let bags: Vec<Bag> = bags.iter().map(Counted::bag).collect();
    let choice = Choice::default();
    let options = Options {
        of: choice.of(),
        at: choice.at(),
        as_of: Some(day_number(today)),
        standard_day: &final_count_day,
    };
    for row in Reading::new(bags, &options).rows() {
        let cells = analyse::table_cells(&row, None);
        writer.write_record(places.iter().map(|i| &cells[*i]))?;
    }
    Ok(String::from_utf8(writer.into_inner()?)?)
}
