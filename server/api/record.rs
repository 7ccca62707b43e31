//! A save: what was sent becomes the fields of a form, and the form's own handler does the rest.

use super::ROOT;
use super::ask::Ask;
use super::problem::{Fault, Problem, kinds};
use super::table::Example;
use super::values::{Moment, SaveId, example_id};
use crate::db::Conn;
use crate::error::{AppError, Told};
use crate::notebook::history::{self, Entry};
use crate::notebook::void;
use crate::web::forms::{Faults, Form};
use crate::web::once;
use crate::web::session::Acting;
use axum::body::Body;
use axum::http::header::{CONTENT_TYPE, LOCATION};
use axum::http::{HeaderMap, Request, StatusCode};
use axum::response::{IntoResponse, Response};
use axum::{Json, Router};
use schemars::JsonSchema;
use serde::Serialize;
use serde::de::{DeserializeOwned, IgnoredAny};
use serde_json::Value;
use tower::ServiceExt;

/// What the id in the path names.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Subject {
    Nothing,
    Packet,
    Trial,
    Bag,
    Planting,
    Entry,
}

/// Something that can be saved, and the form that saves it.
pub trait Recording: DeserializeOwned + Serialize + JsonSchema + Send + Sync + 'static {
    const SUBJECT: Subject;
    /// The entry that it writes (none where empty), and the collection of what is to be read afterwards.
    const WRITES: (&'static str, &'static str);
    /// Address of the form, below the pages of `id`.
    fn form(id: &str) -> String;
    fn id(&self) -> &SaveId;
    fn at(&self) -> Option<&Moment>;
    /// The form's fields, but for key and moment.
    fn fields(&self) -> Pairs;
    /// Where in the body a field of the form comes from (a JSON pointer).
    fn pointer(field: &str) -> String {
        pointer(field)
    }
    /// Something to send; the first of them is saved.
    fn examples() -> Vec<(&'static str, &'static str, u16, Self)>;
}

/// Most fields have the name they have in the body.
pub fn pointer(field: &str) -> String {
    match field {
        "" | "sum" | "entry" => String::new(),
        "warmth" => "/warmth_c".into(),
        "potted" => "/potted_on".into(),
        "end_why" | "why_other" => "/why".into(),
        "member" => "/to".into(),
        own => format!("/{own}"),
    }
}

/// Fields of a form.
#[derive(Debug, Default)]
pub struct Pairs(Vec<(String, String)>);

impl Pairs {
    pub fn with(mut self, name: &str, value: impl ToString) -> Self {
        self.0.push((name.to_owned(), value.to_string()));
        self
    }

    /// The field, where there is a value.
    pub fn maybe(self, name: &str, value: Option<impl ToString>) -> Self {
        match value {
            Some(value) => self.with(name, value),
            None => self,
        }
    }

    /// The box, ticked or not there.
    pub fn tick(self, name: &str, on: bool) -> Self {
        self.maybe(name, on.then_some("yes"))
    }
}

/// What was saved.
#[derive(Debug, Serialize, JsonSchema)]
pub struct Saved {
    id: SaveId,
    /// Where to read how the thing stands now. The same address stands in the header Location.
    location: String,
    /// The entries that were written; each may be voided later.
    entries: Vec<Written>,
}

/// An entry that was written, and what it is about.
#[derive(Debug, Serialize, JsonSchema)]
pub struct Written {
    id: String,
    what: String,
    packet: Option<String>,
    trial: Option<String>,
    bag: Option<String>,
    planting: Option<String>,
}

impl Saved {
    /// What may come of saving an `R`.
    pub fn example<R: Recording>() -> Self {
        let (what, leads_to) = R::WRITES;
        let about = |subjects: &[Subject], collection: &str| {
            subjects.contains(&R::SUBJECT).then(|| example_id(collection))
        };
        let made = what.starts_with("bag").then(|| example_id("bags"));
        let written = Written {
            id: example_id("entries"),
            what: what.to_owned(),
            packet: about(&[Subject::Nothing, Subject::Packet, Subject::Trial], "packets"),
            trial: about(&[Subject::Nothing, Subject::Trial, Subject::Bag], "trials"),
            bag: about(&[Subject::Bag, Subject::Planting], "bags").or(made),
            planting: about(&[Subject::Planting], "plantings"),
        };
        let location = format!("{ROOT}/{leads_to}/{}", example_id(leads_to));
        let entries = if what.is_empty() { Vec::new() } else { vec![written] };
        Self { id: SaveId::example(), location, entries }
    }
}

/// The examples of `R` as they are sent, without what is left out.
pub fn examples<R: Recording>() -> Vec<Example> {
    let value = |body: &R| bare(serde_json::to_value(body).unwrap_or_default());
    let all = R::examples().into_iter();
    all.map(|(name, summary, status, body)| Example { name, summary, status, body: value(&body) }).collect()
}

/// The value without nulls and boxes that are not ticked.
fn bare(value: Value) -> Value {
    match value {
        Value::Object(fields) => {
            let told = fields.into_iter().filter(|(_, v)| !v.is_null() && *v != Value::Bool(false));
            told.map(|(name, v)| (name, bare(v))).collect()
        }
        Value::Array(items) => items.into_iter().map(bare).collect(),
        other => other,
    }
}

/// Saves what was sent: 201; 200 with the same answer where it was saved before.
pub async fn save<R: Recording>(
    ask: Ask,
    forms: Router,
    headers: &HeaderMap,
    body: &[u8],
) -> Result<Response, Problem> {
    if !ask.holder.may_record() {
        let more = ", error=\"insufficient_scope\", scope=\"record\"";
        return Err(Problem::of(&kinds::READ_ONLY).challenge(more));
    }
    ask.knows([].into_iter())?;
    let told: R = read(headers, body)?;
    if !ask.id.bytes().all(|b| b.is_ascii_alphanumeric()) {
        return Err(Problem::of(&kinds::NOT_FOUND));
    }
    let pairs = told.fields().maybe("at", told.at().map(|at| &at.0)).with("key", &told.id().0).0;
    let form = Form::from_pairs(pairs.clone());
    if let Some(answer) = before::<R>(&ask, &form).await? {
        return Ok((StatusCode::OK, answer).into_response());
    }
    let faults = Faults::default();
    let response = hand_on(&ask, forms, &R::form(&ask.id), &pairs, &faults).await?;
    if !response.status().is_redirection() {
        return Err(refusal::<R>(&response, &faults));
    }
    match before::<R>(&ask, &form).await? {
        Some(answer) => Ok((StatusCode::CREATED, answer).into_response()),
        None => Err(AppError::Internal(anyhow::anyhow!("a form saved nothing under its key")).into()),
    }
}

fn read<R: Recording>(headers: &HeaderMap, body: &[u8]) -> Result<R, Problem> {
    let sort = headers.get(CONTENT_TYPE).and_then(|v| v.to_str().ok()).unwrap_or_default();
    let sort = sort.split(';').next().unwrap_or_default().trim();
    if !sort.eq_ignore_ascii_case("application/json") {
        return Err(Problem::of(&kinds::NOT_JSON));
    }
    serde_json::from_slice::<IgnoredAny>(body).map_err(|_| Problem::of(&kinds::BAD))?;
    let mut json = serde_json::Deserializer::from_slice(body);
    let told: R = serde_path_to_error::deserialize(&mut json).map_err(|e| unfit(&e))?;
    if !told.id().is_good() {
        let why = "32 hexadecimal digits, please: 128 random bits, new for each save.";
        return Err(Problem::refused("/id", why));
    }
    if told.at().is_some_and(|at| !at.is_good()) {
        let why = "A moment with its offset from UTC, please, such as 2026-03-02T07:30:00+01:00.";
        return Err(Problem::refused("/at", why));
    }
    Ok(told)
}

/// What does not fit is refused where it does not, in words that do not name types of ours.
fn unfit(error: &serde_path_to_error::Error<serde_json::Error>) -> Problem {
    use serde_path_to_error::Segment;
    let step = |s: &Segment| match s {
        Segment::Seq { index } => format!("/{index}"),
        Segment::Map { key } => format!("/{}", key.replace('~', "~0").replace('/', "~1")),
        Segment::Enum { .. } | Segment::Unknown => String::new(),
    };
    let pointer: String = error.path().iter().map(step).collect();
    let said = error.inner().to_string();
    let said = said.split(" at line ").next().unwrap_or_default();
    let said = said.split(", expected struct").next().unwrap_or_default();
    let said =
        said.replace("expected i64", "expected a whole number").replace("expected f64", "expected a number");
    Problem::refused(pointer, format!("This does not fit: {said}."))
}

/// Sends the fields to the form's own handler, in the name of the token's member.
async fn hand_on(
    ask: &Ask,
    forms: Router,
    path: &str,
    pairs: &[(String, String)],
    faults: &Faults,
) -> Result<Response, AppError> {
    let body = serde_html_form::to_string(pairs).map_err(anyhow::Error::new)?;
    let request = Request::post(path)
        .header(CONTENT_TYPE, "application/x-www-form-urlencoded")
        .extension(Acting(ask.holder.member.clone()))
        .extension(faults.clone())
        .body(Body::from(body))
        .map_err(anyhow::Error::new)?;
    let Ok(response) = forms.oneshot(request).await;
    Ok(response)
}

/// The answer, where this very thing was saved before under this id.
async fn before<R: Recording>(ask: &Ask, form: &Form) -> Result<Option<Response>, AppError> {
    let mut conn = ask.conn().await?;
    let Some(to) = once::before(&mut conn, &ask.holder.member, form).await? else { return Ok(None) };
    let entries = history::of_save(&mut conn, form.key(), ask.member()).await?;
    if !is_about::<R>(&mut conn, ask, &to, &entries).await? {
        return Err(AppError::Conflict(String::new()));
    }
    let location = place(&to);
    let entries = entries.into_iter().map(written).collect();
    let saved = Saved { id: SaveId(form.key().to_owned()), location: location.clone(), entries };
    Ok(Some(([(LOCATION, location)], Json(saved)).into_response()))
}

/// Whether the save was about what the path names.
async fn is_about<R: Recording>(
    conn: &mut Conn,
    ask: &Ask,
    to: &str,
    entries: &[Entry],
) -> Result<bool, AppError> {
    let id = ask.id.as_str();
    let named = |of: fn(&Entry) -> Option<&str>| entries.iter().any(|e| of(e) == Some(id));
    Ok(match R::SUBJECT {
        Subject::Nothing => true,
        Subject::Packet => {
            named(|e| e.packet_id.as_ref().map(|i| i.0.as_str())) || to == format!("/packets/{id}")
        }
        Subject::Trial => {
            named(|e| e.trial_id.as_ref().map(|i| i.0.as_str())) || to == format!("/trials/{id}")
        }
        Subject::Bag => named(|e| e.bag_id.as_ref().map(|i| i.0.as_str())) || to == format!("/bags/{id}"),
        Subject::Planting => named(|e| e.planting_id.as_ref().map(|i| i.0.as_str())),
        Subject::Entry => {
            void::may(conn, ask.member(), id).await?;
            entries.is_empty() && history::of_act(conn, id).await?.iter().all(|e| e.void_by.is_some())
        }
    })
}

fn written(e: Entry) -> Written {
    Written {
        id: e.id,
        what: e.what,
        packet: e.packet_id.map(|i| i.0),
        trial: e.trial_id.map(|i| i.0),
        bag: e.bag_id.map(|i| i.0),
        planting: e.planting_id.map(|i| i.0),
    }
}

/// The address here of the page that a form leads to.
fn place(page: &str) -> String {
    let parts: Vec<&str> = page.trim_start_matches('/').split(['/', '?']).collect();
    match parts.as_slice() {
        [folder @ ("bags" | "trials" | "packets" | "trays" | "plantings"), id, ..] => {
            format!("{ROOT}/{folder}/{id}")
        }
        ["trials"] => format!("{ROOT}/trials"),
        _ => format!("{ROOT}/due"),
    }
}

/// What a form's handler that did not save had to say.
fn refusal<R: Recording>(response: &Response, faults: &Faults) -> Problem {
    let told = response.extensions().get::<Told>().map(|t| t.0.clone());
    let mut said = faults.said();
    said.dedup();
    let fault = |(field, detail): (String, String)| Fault {
        pointer: Some(R::pointer(&field)),
        parameter: None,
        detail,
    };
    let errors: Vec<Fault> = said.into_iter().map(fault).collect();
    if !errors.is_empty() {
        return Problem::of(&kinds::REFUSED).errors(errors);
    }
    match (response.status(), told) {
        (StatusCode::NOT_FOUND, _) => Problem::of(&kinds::NOT_FOUND),
        (StatusCode::CONFLICT, _) => Problem::of(&kinds::CONFLICT),
        (StatusCode::FORBIDDEN, Some(why)) => Problem::new(&kinds::FORBIDDEN, why),
        (StatusCode::UNPROCESSABLE_ENTITY, Some(why)) => Problem::refused("", why),
        (StatusCode::BAD_REQUEST, _) => Problem::of(&kinds::BAD),
        (StatusCode::SERVICE_UNAVAILABLE, _) => Problem::of(&kinds::BUSY).after_seconds(10),
        (status, _) => {
            tracing::error!(%status, "a form neither saved nor said why");
            Problem::of(&kinds::FAILED)
        }
    }
}
