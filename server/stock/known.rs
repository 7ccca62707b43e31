//! What the club knows already, to be compared with a list before anything is written.

use crate::args;
use crate::db::ids::MemberId;
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::marks;
use crate::stock::names;
use crate::stock::near::Spellings;
use crate::stock::published::kind_key;
use crate::stock::store;
use std::collections::{BTreeMap, BTreeSet, HashMap};

const MARKS: &str = "SELECT key FROM marks WHERE key LIKE $1 ORDER BY key";

pub const ALL: &[&str] = &[MARKS];

#[derive(FromRow)]
struct Key {
    key: String,
}

/// Names in use by key, and the member's letters with the marks given under them.
pub struct Known {
    /// Key to name; the key of a name that leads to another kind to the name of that one.
    pub kinds: BTreeMap<String, String>,
    pub sources: BTreeMap<String, String>,
    /// Kind key and variety key to name and species.
    pub varieties: BTreeMap<(String, String), (String, String)>,
    /// Folded letters to letters as shown.
    pub letters: BTreeMap<String, String>,
    pub marks: BTreeSet<String>,
    near_kinds: Spellings,
    near_sources: Spellings,
    /// By kind key.
    near_varieties: HashMap<String, Spellings>,
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
        let mut known = Self {
            kinds: kinds.into_iter().map(|k| (k.name_key, k.name)).collect(),
            sources: sources.into_iter().map(|s| (s.name_key, s.name)).collect(),
            varieties: varieties
                .into_iter()
                .map(|v| ((kind_key(&v.kind), v.name_key), (v.name, v.species)))
                .collect(),
            letters: letters.into_iter().map(|l| (marks::fold(&l.shown), l.shown)).collect(),
            marks: given,
            near_kinds: Spellings::default(),
            near_sources: Spellings::default(),
            near_varieties: HashMap::new(),
        };
        known.kinds.iter().for_each(|(key, name)| known.near_kinds.add(key, name));
        known.sources.iter().for_each(|(key, name)| known.near_sources.add(key, name));
        for ((kind, key), (name, _)) in &known.varieties {
            known.near_varieties.entry(kind.clone()).or_default().add(key, name);
        }
        for name in store::leading(conn).await? {
            known.kinds.entry(name.name_key).or_insert(name.name);
        }
        Ok(known)
    }

    /// Names near a new one: of kinds.
    pub fn near_kinds(&self, name: &str) -> Vec<String> {
        self.near_kinds.nearest(&kind_key(name))
    }

    pub fn near_sources(&self, name: &str) -> Vec<String> {
        self.near_sources.nearest(&names::key(name))
    }

    pub fn near_varieties(&self, kind: &str, name: &str) -> Vec<String> {
        self.near_varieties.get(&kind_key(kind)).map_or_else(Vec::new, |s| s.nearest(&names::key(name)))
    }

    /// The names of the list itself count as known for the rows below them.
    pub fn learn(&mut self, kind: &str, variety: &str, source: &str) {
        let kind_key = kind_key(kind);
        if !self.kinds.contains_key(&kind_key) {
            self.near_kinds.add(&kind_key, kind);
            self.kinds.insert(kind_key.clone(), kind.to_owned());
        }
        let source_key = names::key(source);
        if !self.sources.contains_key(&source_key) {
            self.near_sources.add(&source_key, source);
            self.sources.insert(source_key, source.to_owned());
        }
        let key = (kind_key, names::key(variety));
        if !self.varieties.contains_key(&key) {
            self.near_varieties.entry(key.0.clone()).or_default().add(&key.1, variety);
            self.varieties.insert(key, (variety.to_owned(), String::new()));
        }
    }
}
