//! Four pages of the same thing, opened and saved in any order, some at the very same moment. A model holds what stands
//! and what each page showed: no save may replace a value that its page did not show, and a refused one tells it.
//! `HILUM_HISTORIES=10000 cargo test --test http histories` for long.

use crate::planning;
use crate::support::{Browser, Chance, Club, Page, time_is_left, times};
use axum::http::StatusCode;
use std::collections::BTreeMap;
use std::sync::Arc;
use tokio::task::JoinSet;

const PAGES: usize = 4;
const STEPS: usize = 14;
/// Histories of one club.
const IN_A_CLUB: usize = 200;

const PACKET: &[(&str, Sort)] =
    &[("place", Words), ("through", Words), ("note", Words), ("seeds_per_gram", Number(1, 900))];

type Values = BTreeMap<&'static str, String>;

/// How a field is filled.
#[derive(Clone, Copy)]
enum Sort {
    Words,
    Number(usize, usize),
}
use Sort::{Number, Words};

/// Something that several pages edit.
struct Thing {
    page: String,
    action: String,
    fields: &'static [(&'static str, Sort)],
    by: Vec<Arc<Browser>>,
}

/// A page that somebody has before them: its form, and what stood when it was drawn.
struct Open {
    page: Page,
    showed: Values,
}

/// What came of a save: what was sent, on what page, and the answer.
struct Sent {
    typed: Values,
    showed: Values,
    answer: Page,
}

fn of(page: String, action: String, fields: &'static [(&'static str, Sort)], by: Vec<Arc<Browser>>) -> Thing {
    Thing { page, action, fields, by }
}

fn values(page: &Page, thing: &Thing) -> Values {
    let pairs: BTreeMap<String, String> = page.form(&thing.action).filled(&[]).into_iter().collect();
    thing.fields.iter().map(|(name, _)| (*name, pairs.get(*name).cloned().unwrap_or_default())).collect()
}

async fn again(club: &Club, by: &Browser) -> Vec<Arc<Browser>> {
    let mut pages = Vec::new();
    for _ in 0..PAGES {
        pages.push(Arc::new(club.again(by).await));
    }
    pages
}

/// The addresses of one thing of each sort that has an edit form.
struct Made {
    packet: String,
    tray: String,
    sheet: String,
    season: String,
    line: String,
    routine: String,
}

async fn made(club: &Club, jo: &Browser) -> Made {
    let packet = format!("/packets/{}/edit", club.packet(jo, "Kestrel", 400).await);
    let tray = jo.submit(&jo.get("/trays/new").await, "/trays/new", &[]).await.path;
    let form = jo.get("/labels/sheets/new?from=roll-62x29").await;
    let sheet = jo.submit(&form, "/labels/sheets/new", &[("name", "roll")]).await.path;
    let sheet = sheet.trim_end_matches("/test").to_owned();
    let season = jo.get("/plan").await.link("What it is reckoned with");
    planning::paste(jo, "Kestrel, 12, 2026-06-01").await;
    let line = planning::line(jo, "Kestrel").await;
    let form = jo.get("/routines/new").await;
    let fields = [("name", "Warm soak"), ("act_1", "rinse"), ("agent_1", "water"), ("time_1", "10")];
    let routine = format!("{}/edit", jo.submit(&form, "/routines/new", &fields).await.path);
    Made { packet, tray, sheet, season, line, routine }
}

async fn things() -> (Club, Vec<Thing>) {
    let (club, jo) = planning::club().await;
    let lea = club.organiser("Lea", "LM").await;
    let Made { packet, tray, sheet, season, line, routine } = made(&club, &jo).await;
    let mut both = again(&club, &jo).await;
    both.splice(..2, again(&club, &lea).await.into_iter().take(2));
    let things = vec![
        of(packet.clone(), packet, PACKET, again(&club, &jo).await),
        of(tray.clone(), format!("{tray}/place"), &[("place", Words)], again(&club, &jo).await),
        of(
            sheet.clone(),
            sheet,
            &[("nudge_x", Number(0, 4)), ("nudge_y", Number(0, 4))],
            again(&club, &jo).await,
        ),
        of(
            season,
            "/plan/season".into(),
            &[("bag_seeds", Number(1, 99)), ("mat_bags", Number(1, 99)), ("trays", Number(1, 99))],
            again(&club, &jo).await,
        ),
        of(
            line.clone(),
            line,
            &[("plants", Number(1, 99)), ("certainty", Number(50, 99)), ("weeks", Number(1, 20))],
            again(&club, &jo).await,
        ),
        of(
            routine.clone(),
            routine,
            &[("note", Words), ("agent_1", Words), ("time_1", Number(1, 119))],
            both,
        ),
        of("/me".into(), "/me".into(), &[("name", Words)], again(&club, &jo).await),
    ];
    (club, things)
}

impl Thing {
    async fn open(&self, n: usize) -> Open {
        let page = self.by[n].get(&self.page).await;
        let showed = values(&page, self);
        Open { page, showed }
    }

    /// One or two fields, with new values.
    fn typed(&self, chance: &mut Chance) -> Vec<(&'static str, String)> {
        let mut typed: Vec<(&'static str, String)> = Vec::new();
        for _ in 0..=chance.below(2) {
            let (name, sort) = self.fields[chance.below(self.fields.len())];
            let value = match sort {
                Words => format!("words {}", chance.below(100_000)),
                Number(least, most) => (least + chance.below(most - least + 1)).to_string(),
            };
            if typed.iter().all(|(n, _)| *n != name) {
                typed.push((name, value));
            }
        }
        typed
    }
}

async fn save(
    by: Arc<Browser>,
    action: String,
    open: Open,
    typed: Vec<(&'static str, String)>,
    now: Values,
) -> Sent {
    let fields: Vec<(&str, &str)> = typed.iter().map(|(n, v)| (*n, v.as_str())).collect();
    let answer = by.submit(&open.page, &action, &fields).await;
    let mut sent = now;
    sent.extend(typed);
    Sent { typed: sent, showed: open.showed, answer }
}

/// The values that the save would replace, but for those that its page showed.
fn unseen(sent: &Sent, stands: &Values) -> Vec<&'static str> {
    let replaced = |name: &&'static str| sent.typed[name] != stands[name];
    stands.keys().copied().filter(replaced).filter(|name| sent.showed[name] != stands[name]).collect()
}

/// Whether these saves, one after the other in some order, none of them unseen, lead from what stood to what stands.
fn in_some_order(saved: &[&Sent], stood: &Values, stands: &Values) -> bool {
    if saved.is_empty() {
        return stood == stands;
    }
    (0..saved.len()).any(|n| {
        let mut rest = saved.to_vec();
        let next = rest.remove(n);
        unseen(next, stood).is_empty() && in_some_order(&rest, &next.typed, stands)
    })
}

/// A history of one thing.
struct History<'a> {
    thing: &'a Thing,
    stands: Values,
    open: Vec<Option<Open>>,
    told: usize,
}

impl<'a> History<'a> {
    async fn new(thing: &'a Thing) -> Self {
        let stands = thing.open(0).await.showed;
        Self { thing, stands, open: (0..PAGES).map(|_| None).collect(), told: 0 }
    }

    async fn step(&mut self, chance: &mut Chance) {
        let n = chance.below(PAGES);
        if self.open[n].is_none() || chance.below(4) == 0 {
            let open = self.thing.open(n).await;
            assert_eq!(open.showed, self.stands, "{}: what stands is shown", self.thing.page);
            self.open[n] = Some(open);
        } else if chance.below(3) == 0 {
            self.together(chance).await;
        } else {
            let sent = self.send(n, chance).await;
            self.after_one(n, sent);
        }
    }

    fn ready(&mut self, n: usize, chance: &mut Chance) -> impl Future<Output = Sent> + Send + use<> {
        let open = self.open[n].take().expect("a page is open");
        let now = values(&open.page, self.thing);
        save(self.thing.by[n].clone(), self.thing.action.clone(), open, self.thing.typed(chance), now)
    }

    async fn send(&mut self, n: usize, chance: &mut Chance) -> Sent {
        self.ready(n, chance).await
    }

    fn after_one(&mut self, n: usize, sent: Sent) {
        let unseen = unseen(&sent, &self.stands);
        if sent.answer.status == StatusCode::OK {
            assert!(unseen.is_empty(), "{}: {unseen:?} replaced unseen", self.thing.page);
            self.stands = sent.typed;
            return;
        }
        assert_eq!(sent.answer.status, StatusCode::UNPROCESSABLE_ENTITY, "{}", sent.answer.text());
        assert!(!unseen.is_empty(), "{}: refused without a cause: {}", self.thing.page, sent.answer.text());
        let drawn = values(&sent.answer, self.thing);
        for name in unseen {
            sent.answer.refuses(name, &self.stands[name]);
            let alone = sent.typed[name] == sent.showed[name];
            let kept = if alone { &self.stands[name] } else { &sent.typed[name] };
            assert_eq!(drawn[name], *kept, "{}: what was typed stays", self.thing.page);
        }
        self.told += 1;
        self.open[n] = Some(Open { page: sent.answer, showed: self.stands.clone() });
    }

    /// Every page that is open is saved at the same moment.
    async fn together(&mut self, chance: &mut Chance) {
        let mut saves = JoinSet::new();
        for n in 0..PAGES {
            if self.open[n].is_some() {
                saves.spawn(self.ready(n, chance));
            }
        }
        let all = saves.join_all().await;
        let saved: Vec<&Sent> = all.iter().filter(|s| s.answer.status == StatusCode::OK).collect();
        for sent in &all {
            assert!(!sent.answer.status.is_server_error(), "{}", sent.answer.text());
            self.told += usize::from(sent.answer.status == StatusCode::UNPROCESSABLE_ENTITY);
        }
        let shown = self.thing.open(0).await.showed;
        let fits = in_some_order(&saved, &self.stands, &shown);
        assert!(
            fits,
            "{}: no order of what was saved leads from {:?} to {shown:?}",
            self.thing.page, self.stands
        );
        self.stands = shown;
    }
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn no_value_is_overwritten_unread() {
    let wanted = times("HILUM_HISTORIES", 50);
    let (mut done, mut told) = (0, 0);
    while done < wanted && time_is_left() {
        let (_club, things) = things().await;
        for seed in (done..wanted.min(done + IN_A_CLUB)).take_while(|_| time_is_left()) {
            let mut chance = Chance(seed as u64);
            let mut history = History::new(&things[seed % things.len()]).await;
            for _ in 0..STEPS {
                history.step(&mut chance).await;
            }
            told += history.told;
            done += 1;
        }
    }
    assert!(told >= done.min(20), "there was something to tell: {told}");
    println!("{done} histories, {told} saves that were told what others had saved: none silent");
}
