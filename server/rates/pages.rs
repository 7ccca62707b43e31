use super::adjusted::{Adjusted, Column};
use super::cache::{self, Read};
use super::choice::{Choice, Offers};
use super::links::Links;
use super::rows::{ClubRow, ClubTable};
use super::say::{self, SaidRate};
use super::{standing, store};
use crate::app::App;
use crate::error::AppError;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::{page, words};
use askama::Template;
use axum::extract::{Query, State};
use axum::response::Response;
use std::cmp::Ordering;

const PER_PAGE: usize = 50;
const FILTERS: [&str; 6] = ["of", "at", "kind", "season", "grower", "routine"];

/// Heads of the table: the word in the address, the words on the page, whether it holds numbers.
const HEADS: [(&str, &str, bool); 10] = [
    ("variety", "Variety", false),
    ("source", "Source", false),
    ("kind", "Kind", false),
    ("rate", "Rate", false),
    ("adjusted", "Adjusted", false),
    ("rooted", "Rooted", true),
    ("trials", "Trials", true),
    ("bags", "Bags", true),
    ("growers", "Growers", true),
    ("median", "Half rooted by", true),
];

struct Head {
    words: &'static str,
    number: bool,
    link: String,
    /// `ascending`, `descending` or empty.
    sorted: &'static str,
}

struct Line {
    kind: String,
    variety: String,
    source: String,
    rate: SaidRate,
    adjusted: Option<Adjusted>,
    links: Links,
    rooted: String,
    trials: usize,
    bags: usize,
    growers: usize,
    median: String,
    signs: Vec<String>,
}

#[derive(Template)]
#[template(path = "rates/table.html")]
struct ShowTable<'a> {
    /// Whether other clubs' results are in the adjusted column.
    others: bool,
    chrome: &'a Chrome,
    form: &'a Form,
    offers: &'a Offers,
    open: bool,
    meaning: String,
    days: String,
    by_day: bool,
    aside: String,
    /// As of when a large club's rates are.
    behind: String,
    column: &'a Column<'a>,
    /// The end of addresses that count by the same day.
    at: &'static str,
    heads: Vec<Head>,
    lines: Vec<Line>,
    caption: String,
    table_csv: String,
    counts_csv: String,
    /// What is chosen, to be sent along.
    chosen: Vec<(&'static str, String)>,
    pages: Pages,
}

struct Pages {
    at: usize,
    of: usize,
    earlier: Option<String>,
    later: Option<String>,
}

/// The club table: filters, sorting and pages come in the address.
pub async fn table(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    let zone = chrome.member.zone();
    let read = cache::book(&app, zone).await?;
    let mut form = Form::from_pairs(query);
    let choice = Choice::read(&mut form);
    let order = Order::read(&mut form);
    let at = form.whole("page", 1..=100_000).unwrap_or(1);
    let choice = if form.failed() { Choice::default() } else { choice };
    let table = cache::table(&app, &read, &choice, chrome.now.day(zone)).await?;
    let kept = standing::latest(&app, choice.at_close).await?;
    let column = Column::new(kept.as_deref(), &read.version, &chrome, (&choice, &table.besides));
    let offers = Offers::of(&read.book);
    let asked = Asked { choice: &choice, order, page: at };
    let behind = behind(&app, &read, &chrome).await?;
    let shown = ShowTable { behind, ..show(&chrome, &form, &offers, (&table, &column), &asked) };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

/// How far a large club's table is behind, in words; empty where it is always as of now.
async fn behind(app: &App, read: &Read, chrome: &Chrome) -> Result<String, AppError> {
    if !read.may_be_behind() {
        return Ok(String::new());
    }
    let since = store::counts_since(&mut app.db.read().await?, &read.version).await?;
    let when = words::moment(read.as_of, chrome.now, chrome.member.zone());
    Ok(say::behind(&when, since))
}

/// What the address asks for.
struct Asked<'a> {
    choice: &'a Choice,
    order: Order,
    page: i64,
}

fn show<'a>(
    chrome: &'a Chrome,
    form: &'a Form,
    offers: &'a Offers,
    (table, column): (&ClubTable, &'a Column<'a>),
    asked: &Asked,
) -> ShowTable<'a> {
    let choice = asked.choice;
    let rows = asked.order.sorted(&table.rows, column);
    let pages = Pages::new(form, rows.len(), asked.page);
    let here = rows.iter().skip((pages.at - 1) * PER_PAGE).take(PER_PAGE);
    let of = if choice.of_paper { "of seeds on paper" } else { "of seeds started" };
    let by = if choice.at_close { "at the close" } else { "by the standard day" };
    ShowTable {
        others: table.besides.whole().is_some(),
        chrome,
        form,
        offers,
        open: FILTERS.iter().any(|name| !form.value(name).is_empty()),
        meaning: say::meaning(choice),
        days: say::days(table),
        by_day: !choice.at_close,
        aside: say::aside(table),
        behind: String::new(),
        heads: asked.order.heads(form, column),
        lines: here.map(|r| line(r, choice, column)).collect(),
        column,
        at: if choice.at_close { "?at=close" } else { "" },
        caption: format!("Rooted {of}, {by}; 95 % interval in brackets"),
        table_csv: address("/table.csv", form, &FILTERS, &[]),
        counts_csv: address("/counts.csv", form, &FILTERS, &[]),
        chosen: FILTERS
            .iter()
            .map(|n| (*n, form.value(n).to_owned()))
            .filter(|(_, v)| !v.is_empty())
            .collect(),
        pages,
    }
}

fn line(r: &ClubRow, choice: &Choice, column: &Column) -> Line {
    Line {
        kind: r.row.kind.clone(),
        variety: r.row.variety.clone(),
        source: r.row.source.clone(),
        rate: say::rate(r, choice),
        adjusted: column.of(r),
        links: Links::of((&r.row.kind, &r.row.variety, &r.row.source), choice.at_close),
        rooted: format!("{} of {}", r.row.rooted, say::base(r, choice)),
        trials: r.row.trials,
        bags: r.row.bags,
        growers: r.row.growers,
        median: say::median(r),
        signs: say::signs(r, choice),
    }
}

/// `path` with the fields of `form` named in `keep`, then `more`.
fn address(path: &str, form: &Form, keep: &[&str], more: &[(&str, String)]) -> String {
    let kept = keep.iter().map(|name| (*name, form.value(name).to_owned())).filter(|(_, v)| !v.is_empty());
    let pairs: Vec<(&str, String)> = kept.chain(more.iter().map(|(n, v)| (*n, v.clone()))).collect();
    match serde_html_form::to_string(&pairs) {
        Ok(query) if !query.is_empty() => format!("{path}?{query}"),
        _ => path.to_owned(),
    }
}

impl Pages {
    fn new(form: &Form, rows: usize, at: i64) -> Self {
        let of = rows.div_ceil(PER_PAGE).max(1);
        let at = usize::try_from(at).unwrap_or(1).clamp(1, of);
        let keep = [&FILTERS[..], &["sort", "way"]].concat();
        let link = |n: usize| address("/table", form, &keep, &[("page", n.to_string())]);
        Self { at, of, earlier: (at > 1).then(|| link(at - 1)), later: (at < of).then(|| link(at + 1)) }
    }
}

/// How the rows are sorted; by kind, variety and source where nothing is asked.
#[derive(Clone, Copy)]
struct Order {
    by: Option<&'static str>,
    down: bool,
}

impl Order {
    fn read(form: &mut Form) -> Self {
        let asked = form.value("sort");
        let by = HEADS.iter().map(|h| h.0).find(|name| *name == asked);
        if by.is_none() && !asked.is_empty() {
            form.refuse("sort", "The table has no such column.");
        }
        Self { by, down: form.value("way") == "down" }
    }

    fn heads(self, form: &Form, column: &Column) -> Vec<Head> {
        let head = |(name, words, number): (&'static str, &'static str, bool)| {
            let current = self.by == Some(name);
            let way = if current && !self.down { "down" } else { "up" };
            let more = [("sort", name.to_owned()), ("way", way.to_owned())];
            let sorted = match (current, self.down) {
                (false, _) => "",
                (true, false) => "ascending",
                (true, true) => "descending",
            };
            Head { words, number, link: address("/table", form, &FILTERS, &more), sorted }
        };
        HEADS.into_iter().filter(|h| h.0 != "adjusted" || column.shown()).map(head).collect()
    }

    /// Rows without the number come last, whichever way.
    fn sorted<'r>(self, rows: &'r [ClubRow], column: &Column) -> Vec<&'r ClubRow> {
        let mut rows: Vec<&'r ClubRow> = rows.iter().collect();
        let Some(by) = self.by else { return rows };
        if by == "adjusted" {
            let mut rated: Vec<_> = rows.into_iter().map(|r| (column.rate(r), r)).collect();
            rated.sort_by(|a, b| self.known(a.0, b.0));
            return rated.into_iter().map(|(_, r)| r).collect();
        }
        rows.sort_by(|a, b| {
            let (a, b) = (&a.row, &b.row);
            let turn = |o: Ordering| if self.down { o.reverse() } else { o };
            match by {
                "kind" => turn(a.kind.cmp(&b.kind)),
                "variety" => turn(a.variety.to_lowercase().cmp(&b.variety.to_lowercase())),
                "source" => turn(a.source.to_lowercase().cmp(&b.source.to_lowercase())),
                "rate" => self.known(a.rate, b.rate),
                "median" => self.known(a.median_days, b.median_days),
                "rooted" => turn(a.rooted.cmp(&b.rooted)),
                "trials" => turn(a.trials.cmp(&b.trials)),
                "bags" => turn(a.bags.cmp(&b.bags)),
                _ => turn(a.growers.cmp(&b.growers)),
            }
        });
        rows
    }

    fn known(self, a: Option<f64>, b: Option<f64>) -> Ordering {
        match (a, b) {
            (Some(a), Some(b)) if self.down => b.total_cmp(&a),
            (Some(a), Some(b)) => a.total_cmp(&b),
            (a, b) => b.is_some().cmp(&a.is_some()),
        }
    }
}
