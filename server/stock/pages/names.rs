//! Varieties and sources: two lists of names that differ in little, so one set of pages draws both.

use crate::app::App;
use crate::db::Conn;
use crate::db::ids::{SourceId, VarietyId};
use crate::error::AppError;
use crate::stock::model::sort_words;
use crate::stock::store::{self, Merge, about};
use crate::stock::{names, published};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::{page, words};
use askama::Template;
use axum::extract::{Path, State};
use axum::response::Response;

const MOST_NEAR: usize = 50;

/// A name of either list.
pub struct Name {
    pub id: String,
    pub name: String,
    pub key: String,
    /// The kind of a variety, the sort of a source.
    pub group: String,
    pub group_id: String,
    pub species: String,
    pub root_id: String,
    pub counts_as: String,
    pub lots: i64,
    pub packets: i64,
}

impl Name {
    fn merged(&self) -> bool {
        self.root_id != self.id
    }
}

/// Which of the two lists.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Which {
    Varieties,
    Sources,
}

impl Which {
    pub fn about(self) -> &'static str {
        if self == Self::Varieties { about::VARIETY } else { about::SOURCE }
    }

    pub fn root(self) -> &'static str {
        if self == Self::Varieties { "/varieties" } else { "/sources" }
    }

    fn title(self) -> &'static str {
        if self == Self::Varieties { t!("stock-varieties") } else { t!("stock-sources") }
    }

    fn caption(self) -> &'static str {
        if self == Self::Varieties { t!("stock-varieties-of-club") } else { t!("stock-sources-of-club") }
    }

    fn group(self) -> &'static str {
        if self == Self::Varieties { t!("stock-kind") } else { t!("stock-sort") }
    }

    pub async fn all(self, conn: &mut Conn) -> Result<Vec<Name>, AppError> {
        Ok(match self {
            Self::Varieties => store::varieties(conn).await?.into_iter().map(of_variety).collect(),
            Self::Sources => store::sources(conn).await?.into_iter().map(of_source).collect(),
        })
    }

    pub async fn one(self, conn: &mut Conn, id: &str) -> Result<Name, AppError> {
        Ok(match self {
            Self::Varieties => of_variety(store::variety(conn, &VarietyId(id.to_owned())).await?),
            Self::Sources => of_source(store::source(conn, &SourceId(id.to_owned())).await?),
        })
    }
}

fn of_variety(v: store::Variety) -> Name {
    Name {
        id: v.id.0,
        name: v.name,
        key: v.name_key,
        group: v.kind,
        group_id: v.kind_id.0,
        species: v.species,
        root_id: v.root_id.0,
        counts_as: v.counts_as,
        lots: v.lots,
        packets: v.packets,
    }
}

fn of_source(s: store::Source) -> Name {
    Name {
        id: s.id.0,
        name: s.name,
        key: s.name_key,
        group: sort_words(&s.sort).to_owned(),
        group_id: String::new(),
        species: String::new(),
        root_id: s.root_id.0,
        counts_as: s.counts_as,
        lots: s.lots,
        packets: s.packets,
    }
}

#[derive(Template)]
#[template(path = "stock/names.html")]
struct List<'a> {
    chrome: &'a Chrome,
    which: Which,
    names: &'a [Name],
    near: Vec<(&'a Name, &'a Name)>,
}

/// GET /varieties
pub async fn varieties(State(app): State<App>, chrome: Chrome) -> Result<Response, AppError> {
    list(&app, &chrome, Which::Varieties).await
}

/// GET /sources
pub async fn sources(State(app): State<App>, chrome: Chrome) -> Result<Response, AppError> {
    list(&app, &chrome, Which::Sources).await
}

async fn list(app: &App, chrome: &Chrome, which: Which) -> Result<Response, AppError> {
    let names = which.all(&mut app.db.read().await?).await?;
    let near = near(&names);
    page::page(&List { chrome, which, names: &names, near })
}

/// Pairs of unmerged names of one kind that are near each other in spelling.
fn near(all: &[Name]) -> Vec<(&Name, &Name)> {
    let roots: Vec<&Name> = all.iter().filter(|n| !n.merged()).collect();
    let keys: Vec<&str> = roots.iter().map(|n| n.key.as_str()).collect();
    let pairs = names::near_pairs(&keys);
    let named = pairs.into_iter().map(|(i, j)| (roots[i], roots[j]));
    named.filter(|(a, b)| a.group_id == b.group_id).take(MOST_NEAR).collect()
}

/// A merge as people read it.
struct Line {
    id: String,
    words: String,
    when: String,
    /// Whether this name is the one that was merged, and the merge stands.
    may_undo: bool,
    undone: Option<String>,
}

#[derive(Template)]
#[template(path = "stock/name.html")]
struct Show<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    root: &'a str,
    n: &'a Name,
    under: Vec<&'a Name>,
    choices: Vec<(&'a str, &'a str)>,
    near: Vec<&'a Name>,
    lines: Vec<Line>,
    has_facts: bool,
}

/// GET /varieties/{id}
pub async fn variety(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<String>,
) -> Result<Response, AppError> {
    draw(&mut app.db.read().await?, &chrome, Which::Varieties, &id, &Form::new()).await
}

/// GET /sources/{id}
pub async fn source(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<String>,
) -> Result<Response, AppError> {
    draw(&mut app.db.read().await?, &chrome, Which::Sources, &id, &Form::new()).await
}

pub async fn draw(
    conn: &mut Conn,
    chrome: &Chrome,
    which: Which,
    id: &str,
    form: &Form,
) -> Result<Response, AppError> {
    let n = which.one(conn, id).await?;
    let all = which.all(conn).await?;
    let lines = store::merges_of(conn, which.about(), id).await?;
    let lines = lines.into_iter().map(|m| line(chrome, id, m, &all)).collect();
    let others: Vec<&Name> =
        all.iter().filter(|o| o.id != n.id && o.group_id == n.group_id && o.root_id != n.id).collect();
    let keys = others.iter().map(|o| o.key.as_str()).enumerate();
    let near = names::nearest(&n.key, keys).into_iter().map(|i| others[i]).collect();
    let mut choices = vec![("", t!("stock-choose"))];
    choices.extend(others.iter().map(|o| (o.id.as_str(), o.name.as_str())));
    let shown = Show {
        chrome,
        form,
        root: which.root(),
        under: all.iter().filter(|o| o.root_id == n.id && o.id != n.id).collect(),
        choices,
        near,
        lines,
        has_facts: published::of(&n.group).is_some(),
        n: &n,
    };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

fn line(chrome: &Chrome, id: &str, m: Merge, all: &[Name]) -> Line {
    let name = |id: &str| all.iter().find(|n| n.id == id).map_or(t!("stock-a-name"), |n| &n.name);
    Line {
        words: t!("stock-let-count-under", by = m.by_name, name = name(&m.from_id), other = name(&m.into_id)),
        when: words::moment(m.at, chrome.now, chrome.member.zone()),
        may_undo: m.undone_by.is_none() && m.from_id == id && chrome.member.is_organiser(),
        id: m.id.0,
        undone: m.undone_by,
    }
}
