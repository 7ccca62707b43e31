use crate::app::App;
use crate::error::AppError;
use crate::routines;
use crate::routines::cautions::{self, Caution};
use crate::stock::promises::{self, Promise};
use crate::trials::store::{self, Packet};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::{page, words};
use askama::Template;
use axum::extract::{Query, State};
use axum::response::Response;

/// How many seeds a trial takes where nothing else is said.
const SEEDS: i64 = 10;
pub const MOST_ROWS: i64 = 8;
/// Ticked: starts though a promise ended meanwhile.
pub const WITHOUT: &str = "without";

/// A packet's fields.
pub struct PacketRow {
    pub packet: Packet,
    pub words: String,
    pub seeds: String,
    pub seeds_label: String,
    pub recount: String,
    pub recount_label: String,
    pub may_recount: bool,
    /// What the plan promised of it; empty where nothing.
    pub planned: String,
}

/// One of paired trials.
pub struct PairRow {
    pub n: i64,
    pub routine: String,
    pub seeds: String,
    pub warmth: String,
    pub note: String,
}

#[derive(Template)]
#[template(path = "trials/new.html")]
struct New<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    packets: Vec<PacketRow>,
    pairs: Vec<PairRow>,
    more: bool,
    routines: Vec<(String, String)>,
    warmth: String,
    cautions: Vec<Caution>,
}

impl New<'_> {
    /// Whether to ask if the trial starts without its promise.
    fn asks_without(&self) -> bool {
        self.form.ticked(WITHOUT) || !self.form.error(WITHOUT).is_empty()
    }
}

#[derive(Template)]
#[template(path = "trials/choose.html")]
struct Choose<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    packets: Vec<PacketRow>,
}

/// GET /trials/new; `?packet=` chooses packets (many), `?pair=yes` splits one, `?routine=` presets the routine,
/// `?promise=` keeps what a plan promised.
pub async fn new(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    let mine = store::packets(&mut conn, &chrome.member.id).await?;
    let promised = promises::open(&mut conn, &chrome.member.id).await?;
    drop(conn);
    let given = query
        .into_iter()
        .filter(|(name, _)| matches!(name.as_str(), "packet" | "pair" | "routine" | "promise" | "go"));
    let mut form = given.fold(Form::new(), |form, (name, value)| form.with(&name, value));
    if form.values("packet").is_empty() {
        if !form.value("go").is_empty() {
            form.refuse("packet", t!("trials-tick-a-packet"));
        }
        let packets = mine.into_iter().map(|p| row(p, &form, &[])).collect();
        let choose = Choose { chrome: &chrome, form: &form, packets };
        return if form.failed() { page::refused(&choose) } else { page::page(&choose) };
    }
    let chosen: Vec<Packet> = mine.into_iter().filter(|p| form.has("packet", &p.id.0)).collect();
    let at = words::input_moment(chrome.now, chrome.member.zone());
    let form = preset(as_promised(form.with("at", at), &promised, &chosen), &chosen);
    draw(&app, &chrome, &form).await
}

/// Seeds of the packet that the promises named by the form are of.
fn promised_of(packet: &Packet, form: &Form, promised: &[Promise]) -> i64 {
    let named = promised.iter().filter(|r| r.packet_id == packet.id && form.has("promise", &r.id.0));
    named.map(|r| r.seeds).sum()
}

/// Why a start that would keep this promise is refused.
pub fn ended_meanwhile(promise: &Promise) -> String {
    let (seeds, mark) = (words::seeds(promise.seeds), &promise.mark);
    if promise.is_started() {
        t!("trials-promise-was-started", seeds = seeds, mark = mark)
    } else {
        t!("trials-promise-was-withdrawn", seeds = seeds, mark = mark)
    }
}

/// The routine that the plan reckoned with, and the seeds that it promised, as far as the packets hold them.
fn as_promised(form: Form, promised: &[Promise], chosen: &[Packet]) -> Form {
    let Some(first) = promised.iter().find(|r| form.has("promise", &r.id.0)) else { return form };
    let form = if form.value("routine").is_empty() { form.with("routine", &first.routine_id) } else { form };
    chosen.iter().fold(form, |form, p| match promised_of(p, &form, promised).min(p.balance) {
        seeds @ 1.. => form.with(&format!("seeds_{}", p.id), seeds),
        _ => form,
    })
}

fn preset(form: Form, chosen: &[Packet]) -> Form {
    if form.ticked("pair") {
        let balance = chosen.first().map_or(0, |p| p.balance);
        let (half, routine) = ((balance / 2).min(SEEDS), form.value("routine").to_owned());
        let rows = (1..=2).fold(form.with("rows", 2), |form, n| form.with(&format!("routine_{n}"), &routine));
        return (1..=2).fold(rows, |form, n| form.with(&format!("seeds_{n}"), number(half)));
    }
    chosen.iter().fold(form, |form, p| form.with(&format!("seeds_{}", p.id), number(p.balance.min(SEEDS))))
}

fn number(n: i64) -> String {
    if n > 0 { n.to_string() } else { String::new() }
}

/// How many of the paired trials the form has rows for.
pub fn pair_rows(form: &Form) -> i64 {
    form.value("rows").parse().unwrap_or(2).clamp(2, MOST_ROWS)
}

/// `about 40 seeds left, treated`.
fn left(packet: &Packet) -> String {
    let seeds = words::seeds(packet.balance);
    let left = if packet.rough {
        t!("trials-about-so-many-left", seeds = seeds)
    } else {
        t!("trials-so-many-left", seeds = seeds)
    };
    if packet.state == "plain" {
        return left;
    }
    t!("trials-left-in-state", left = left, state = packet.state)
}

fn row(packet: Packet, form: &Form, promised: &[Promise]) -> PacketRow {
    let recount = format!("recount_{}", packet.id);
    let seeds = if form.ticked("pair") { "seeds_1".to_owned() } else { format!("seeds_{}", packet.id) };
    let short = [&recount, &seeds].iter().any(|name| !form.error(name).is_empty());
    let planned = match promised_of(&packet, form, promised) {
        0 => String::new(),
        n if n > packet.balance => {
            t!("trials-promised-but-short", seeds = words::seeds(n), short = n - packet.balance)
        }
        n => t!("trials-promised", seeds = words::seeds(n)),
    };
    PacketRow {
        planned,
        words: left(&packet),
        seeds: format!("seeds_{}", packet.id),
        seeds_label: t!("trials-seeds-of", mark = packet.mark),
        recount_label: t!("trials-counted-in", mark = packet.mark),
        may_recount: packet.rough || packet.balance == 0 || short,
        recount,
        packet,
    }
}

pub async fn draw(app: &App, chrome: &Chrome, form: &Form) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    let mine = store::packets(&mut conn, &chrome.member.id).await?;
    let chosen: Vec<Packet> = mine.into_iter().filter(|p| form.has("packet", &p.id.0)).collect();
    if chosen.is_empty() {
        return Err(AppError::NotFound);
    }
    let promised = if form.values("promise").is_empty() {
        Vec::new()
    } else {
        promises::open(&mut conn, &chrome.member.id).await?
    };
    let current = routines::store::routines(&mut conn).await?.into_iter().filter(|r| r.retired_at.is_none());
    let rows = if form.ticked("pair") { pair_rows(form) } else { 0 };
    let found = chosen.iter().flat_map(|p| cautions::of_seed(&p.state, &p.kind)).collect();
    let us = chrome.member.us();
    let shown = New {
        chrome,
        form,
        packets: chosen
            .into_iter()
            .take(if rows > 0 { 1 } else { usize::MAX })
            .map(|p| row(p, form, &promised))
            .collect(),
        pairs: (1..=rows).map(pair_row).collect(),
        more: rows < MOST_ROWS,
        routines: std::iter::once((String::new(), t!("trials-choose").to_owned()))
            .chain(current.map(|r| (r.id.to_string(), r.shown_name().to_owned())))
            .collect(),
        warmth: t!("trials-warmth-meant-for", unit = routines::model::unit(us)),
        cautions: cautions::said(found),
    };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

fn pair_row(n: i64) -> PairRow {
    PairRow {
        n,
        routine: format!("routine_{n}"),
        seeds: format!("seeds_{n}"),
        warmth: format!("warmth_{n}"),
        note: format!("note_{n}"),
    }
}
