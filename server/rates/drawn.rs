//! The parts of the club table's page that are the same for every member, kept as they were drawn.

use super::adjusted::{Adjusted, Column};
use super::book::Book;
use super::choice::{Choice, FILTERS, Offers, address};
use super::links::Links;
use super::name;
use super::order::{Head, Order};
use super::rows::{ClubRow, ClubTable};
use super::say::{self, SaidRate};
use super::standing::Kept as Standing;
use crate::error::AppError;
use crate::texts::Language;
use crate::web::forms::Form;
use askama::Template;
use std::collections::HashMap;
use std::sync::{Arc, Mutex, PoisonError, Weak};

const PER_PAGE: usize = 50;
/// How many pages of tables are kept at once.
const MOST: usize = 64;

/// What the address asks for.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Asked {
    pub choice: Choice,
    pub order: Order,
    pub page: i64,
    pub language: Language,
    /// As it was asked: what the filters show and the links carry on.
    pub said: String,
}

/// What it is drawn from.
pub struct Source {
    pub book: Arc<Book>,
    pub table: Arc<ClubTable>,
    pub standing: Option<Arc<Standing>>,
    /// Whether the standing is of all that was saved.
    pub current: bool,
}

/// What something was drawn from, known again and not kept: the books of older counts would fill the memory.
struct Origin {
    book: Weak<Book>,
    table: Weak<ClubTable>,
    standing: Option<Weak<Standing>>,
    current: bool,
}

impl Origin {
    fn of(source: &Source) -> Self {
        Self {
            book: Arc::downgrade(&source.book),
            table: Arc::downgrade(&source.table),
            standing: source.standing.as_ref().map(Arc::downgrade),
            current: source.current,
        }
    }

    fn is(&self, other: &Self) -> bool {
        let standing = match (&self.standing, &other.standing) {
            (Some(one), Some(other)) => one.ptr_eq(other),
            (one, other) => one.is_none() && other.is_none(),
        };
        let same = self.book.ptr_eq(&other.book) && self.table.ptr_eq(&other.table);
        same && standing && self.current == other.current
    }
}

/// Pieces of HTML, and sentences.
pub struct Drawn {
    pub filters: String,
    pub rows: String,
    /// The standard days of the kinds.
    pub days: String,
    /// What is not in the rates.
    pub aside: String,
}

/// What was drawn, by what was asked.
type Kept = HashMap<Asked, (Origin, Arc<Drawn>)>;

/// Shared by all requests of this process.
#[derive(Clone, Default)]
pub struct Drawings(Arc<Mutex<Kept>>);

impl Drawings {
    /// The pieces that were drawn of the same, or those that `draw` makes.
    pub fn kept(
        &self,
        asked: &Asked,
        source: &Source,
        draw: impl FnOnce() -> Result<Drawn, AppError>,
    ) -> Result<Arc<Drawn>, AppError> {
        let origin = Origin::of(source);
        let found =
            self.with(|kept| kept.get(asked).filter(|(of, _)| of.is(&origin)).map(|(_, d)| d.clone()));
        if let Some(drawn) = found {
            return Ok(drawn);
        }
        let drawn = Arc::new(draw()?);
        self.with(|kept| {
            if kept.len() >= MOST {
                kept.clear();
            }
            kept.insert(asked.clone(), (origin, drawn.clone()));
        });
        Ok(drawn)
    }

    fn with<T>(&self, what: impl FnOnce(&mut Kept) -> T) -> T {
        what(&mut self.0.lock().unwrap_or_else(PoisonError::into_inner))
    }
}

#[derive(Template)]
#[template(path = "rates/_filters.html")]
struct ShowFilters<'a> {
    form: &'a Form,
    offers: Offers,
    open: bool,
}

#[derive(Template)]
#[template(path = "rates/_rows.html")]
struct ShowRows {
    heads: Vec<Head>,
    lines: Vec<Line>,
    caption: &'static str,
    pages: Pages,
}

struct Pages {
    at: usize,
    of: usize,
    earlier: Option<String>,
    later: Option<String>,
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

/// Draws the pieces.
pub fn draw(form: &Form, asked: &Asked, source: &Source, column: &Column) -> Result<Drawn, AppError> {
    let filters = ShowFilters {
        form,
        offers: source.book.offers().or_any(),
        open: FILTERS.iter().any(|name| !form.value(name).is_empty()),
    };
    let html = |drawn: Result<String, askama::Error>| drawn.map_err(|e| AppError::Internal(e.into()));
    Ok(Drawn {
        filters: html(filters.render())?,
        rows: html(rows(form, asked, &source.table, column).render())?,
        days: say::days(&source.table),
        aside: say::aside(&source.table),
    })
}

fn rows(form: &Form, asked: &Asked, table: &ClubTable, column: &Column) -> ShowRows {
    let choice = &asked.choice;
    let rows = asked.order.sorted(&table.rows, column);
    let pages = Pages::new(form, rows.len(), asked.page);
    let here = rows.iter().skip((pages.at - 1) * PER_PAGE).take(PER_PAGE);
    ShowRows {
        heads: asked.order.heads(form, column),
        lines: here.map(|r| line(r, choice, column)).collect(),
        caption: say::caption(choice),
        pages,
    }
}

fn line(r: &ClubRow, choice: &Choice, column: &Column) -> Line {
    Line {
        kind: r.row.kind.clone(),
        variety: name::read(&r.row.variety),
        source: r.row.source.clone(),
        rate: say::rate(r, choice),
        adjusted: column.of(r),
        links: Links::of((&r.row.kind, &r.row.variety, &r.row.source), choice.at_close),
        rooted: t!("rates-part-of", n = r.row.rooted, all = say::base(r, choice)),
        trials: r.row.trials,
        bags: r.row.bags,
        growers: r.row.growers,
        median: say::median(r),
        signs: say::signs(r, choice),
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
