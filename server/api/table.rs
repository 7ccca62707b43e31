//! The table of operations: each line gives an address its handler and its place in the document at once.

use super::ROOT;
use super::ask::Ask;
use super::list::{self, List, Listed, Slice};
use super::problem::Problem;
use super::record::{self, Recording, Saved};
use crate::app::App;
use crate::error::AppError;
use axum::body::Bytes;
use axum::http::HeaderMap;
use axum::response::Response;
use axum::routing::{get, post};
use axum::{Json, Router};
use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::Serialize;
use serde_json::Value;

/// What is answered, with an example of it.
pub trait Shown: Serialize + JsonSchema + Send + 'static {
    fn example() -> Self;
}

/// What people read of an operation.
#[derive(Debug, Clone, Copy)]
pub struct Words {
    pub name: &'static str,
    pub group: &'static str,
    pub summary: &'static str,
    pub about: &'static str,
}

/// A name that the query may have.
#[derive(Debug, Clone, Copy)]
pub struct Name {
    pub name: &'static str,
    pub about: &'static str,
    /// The values it takes; none for any.
    pub one_of: &'static [&'static str],
    pub whole: bool,
}

const PAGING: [Name; 2] = [
    Name {
        name: "limit",
        about: "How many at most, from 1 to 200; 50 where it is left out.",
        one_of: &[],
        whole: true,
    },
    Name { name: "after", about: "Where to go on, as `next` gave it.", one_of: &[], whole: false },
];

/// Something that may be sent, and the status of the answer to it.
#[derive(Debug, Clone)]
pub struct Example {
    pub name: &'static str,
    pub summary: &'static str,
    pub status: u16,
    pub body: Value,
}

type Described = fn(&mut SchemaGenerator) -> Schema;

/// One address and method.
pub struct Operation {
    pub path: &'static str,
    pub words: Words,
    pub names: Vec<Name>,
    /// What it takes; `None` where it only reads.
    pub takes: Option<(Described, Vec<Example>)>,
    pub gives: Described,
    pub example: Value,
}

/// The operations, and the router that answers them.
pub struct Table {
    pub router: Router<App>,
    pub operations: Vec<Operation>,
    forms: Router,
}

impl Table {
    pub fn new(forms: Router) -> Self {
        Self { router: Router::new(), operations: Vec::new(), forms }
    }

    /// GET of one thing.
    pub fn one<T, F, Fut>(mut self, path: &'static str, words: Words, read: F) -> Self
    where
        T: Shown,
        F: Fn(Ask) -> Fut + Clone + Send + Sync + 'static,
        Fut: Future<Output = Result<T, AppError>> + Send,
    {
        let run = move |ask: Ask| async move {
            ask.knows([].into_iter())?;
            Ok::<_, Problem>(Json(read(ask).await?))
        };
        self.router = self.router.route(&format!("{ROOT}{path}"), get(run));
        self.describe::<T>(path, words, Vec::new())
    }

    /// GET of a list, a page at a time; `names` are what its query may have besides.
    pub fn list<T, F, Fut>(mut self, path: &'static str, words: Words, names: &[Name], read: F) -> Self
    where
        T: Listed,
        F: Fn(Ask, Slice) -> Fut + Clone + Send + Sync + 'static,
        Fut: Future<Output = Result<Vec<T>, Problem>> + Send,
    {
        let names: Vec<Name> = names.iter().chain(&PAGING).copied().collect();
        let known: Vec<&'static str> = names.iter().map(|n| n.name).collect();
        let run = move |ask: Ask| async move {
            ask.knows(known.into_iter())?;
            let slice = list::slice(&ask)?;
            let rows = read(ask.clone(), slice.clone()).await?;
            Ok::<Response, Problem>(list::answer(&ask, &slice, rows))
        };
        self.router = self.router.route(&format!("{ROOT}{path}"), get(run));
        self.describe::<List<T>>(path, words, names)
    }

    fn describe<T: Shown>(self, path: &'static str, words: Words, names: Vec<Name>) -> Self {
        let example = serde_json::to_value(T::example()).unwrap_or_default();
        let gives: Described = |generator| generator.subschema_for::<T>();
        self.with(Operation { path, words, names, takes: None, gives, example })
    }

    fn with(mut self, operation: Operation) -> Self {
        self.operations.push(operation);
        self
    }

    /// POST of something to be saved.
    pub fn save<R: Recording>(mut self, path: &'static str, words: Words) -> Self {
        let forms = self.forms.clone();
        let run = move |ask: Ask, headers: HeaderMap, body: Bytes| async move {
            record::save::<R>(ask, forms, &headers, &body).await
        };
        self.router = self.router.route(&format!("{ROOT}{path}"), post(run));
        let takes: Described = |generator| generator.subschema_for::<R>();
        let gives: Described = |generator| generator.subschema_for::<Saved>();
        let example = serde_json::to_value(Saved::example::<R>()).unwrap_or_default();
        let takes = Some((takes, record::examples::<R>()));
        self.with(Operation { path, words, names: Vec::new(), takes, gives, example })
    }
}
