//! What the club knows already, to be compared with a list before anything is written.

use crate::args;
use crate::db::ids::MemberId;
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::marks;
use crate::stock::names;
use crate::stock::published::kind_key;
use crate::stock::store;
use std::collections::{BTreeMap, BTreeSet};

const MARKS: &str = "SELECT key FROM marks WHERE key LIKE $1 ORDER BY key";

pub const ALL: &[&str] = &[MARKS];

#[derive(FromRow)]
struct Key {
    key: String,
}

/// Names in use by key, and the member's letters with the marks given under them.
pub struct Known {
    /// Key to name.
    pub kinds: BTreeMap<String, String>,
    pub sources: BTreeMap<String, String>,
    /// Kind key and variety key to name and species.
    pub varieties: BTreeMap<(String, String), (String, String)>,
    /// Folded letters to letters as shown.
    pub letters: BTreeMap<String, String>,
    pub marks: BTreeSet<String>,
}

impl Known {
    pub async fn load(conn: &mut Conn, member: &MemberId) -> Result<Self, AppError> {
        let letters = marks::letters(conn, member).await?;
        let mut given = BTreeSet::new();
        for set in &letters {
            let rows: Vec<Key> = conn.all(MARKS, args![format!("{}%", marks::fold(&set.shown))]).await?;
            given.extend(rows.into_iter().map(|r| r.key));
        }
        let kinds = store::kinds(conn).await?;
        let varieties = store::varieties(conn).await?;
        let sources = store::sources(conn).await?;
        Ok(Self {
            kinds: kinds.into_iter().map(|k| (k.name_key, k.name)).collect(),
            sources: sources.into_iter().map(|s| (s.name_key, s.name)).collect(),
            varieties: varieties
                .into_iter()
                .map(|v| ((kind_key(&v.kind), v.name_key), (v.name, v.species)))
                .collect(),
            letters: letters.into_iter().map(|l| (marks::fold(&l.shown), l.shown)).collect(),
            marks: given,
        })
    }

    /// Names near a new one: of kinds.
    pub fn near_kinds(&self, name: &str) -> Vec<String> {
        near(&kind_key(name), self.kinds.iter())
    }

    pub fn near_sources(&self, name: &str) -> Vec<String> {
        near(&names::key(name), self.sources.iter())
    }

    pub fn near_varieties(&self, kind: &str, name: &str) -> Vec<String> {
        let kind = kind_key(kind);
        let same = self.varieties.iter().filter(|((k, _), _)| *k == kind);
        near(&names::key(name), same.map(|((_, key), (name, _))| (key, name)))
    }

    /// The names of the list itself count as known for the rows below them.
    pub fn learn(&mut self, kind: &str, variety: &str, source: &str) {
        let kind_key = kind_key(kind);
        self.kinds.entry(kind_key.clone()).or_insert_with(|| kind.to_owned());
        self.sources.entry(names::key(source)).or_insert_with(|| source.to_owned());
        let variety_key = (kind_key, names::key(variety));
        self.varieties.entry(variety_key).or_insert_with(|| (variety.to_owned(), String::new()));
    }
}

fn near<'a>(key: &str, among: impl Iterator<Item = (&'a String, &'a String)>) -> Vec<String> {
    let all: Vec<(&String, &String)> = among.collect();
    let keys = all.iter().map(|(key, _)| key.as_str()).enumerate();
    names::nearest(key, keys).into_iter().map(|i| all[i].1.clone()).collect()
}
