//! What phones send when signal comes and goes: saved forms of several members in any order, twice, three times, cut off
//! on the way, or never. The club must then stand as if each form had come once, in the order of first arrival; a
//! model of ten lines a form says how that is. `HILUM_REPLAYS=1000000 cargo test --test http replays` for long.

mod model;

use crate::support::{Browser, Chance, Club, time_is_left, times};
use axum::body::{Body, Bytes};
use axum::http::header::{CONTENT_LENGTH, CONTENT_TYPE, HOST, ORIGIN};
use axum::http::{Request, StatusCode};
use futures_util::stream;
use hilum::args;
use hilum::db::FromRow;
use hilum::db::ids::BagId;
use hilum::trays::store::{self, NewTray};
use model::{Model, Sums, What};
use tokio::task::JoinSet;

/// Sent in one club, so that it does not grow without end.
const IN_A_CLUB: usize = 1000;
const MEMBERS: [(&str, &str); 4] = [("Jo", "JB"), ("Kim", "KL"), ("Lea", "LM"), ("Max", "MX")];
/// Bags of each member, and seeds in each.
const BAGS: usize = 2;
const SEEDS: i64 = 12;
const FORMS: usize = 16;
/// How many clubs are tried side by side.
const SIDE_BY_SIDE: usize = 2;

/// A form that a phone keeps, and what it asks for.
struct Form {
    key: String,
    by: usize,
    what: What,
}

/// One round: fresh bags and a tray of each member, forms, and in which order they are sent.
struct Round<'a> {
    club: &'a Club,
    members: &'a [Browser],
    /// By member and bag, in one row.
    bags: Vec<BagId>,
    trays: Vec<String>,
    forms: Vec<Form>,
    model: Model,
}

#[derive(FromRow)]
struct Id {
    id: String,
}

impl<'a> Round<'a> {
    async fn new(club: &'a Club, members: &'a [Browser], chance: &mut Chance) -> Self {
        let (mut bags, mut trays) = (Vec::new(), Vec::new());
        for by in members {
            let packet = club.packet(by, "Kestrel", 30).await;
            let trial = club.trial(by, &packet, BAGS as i64 * SEEDS).await;
            for _ in 0..BAGS {
                bags.push(club.bag(by, &trial, SEEDS).await);
            }
            let mut conn = club.app.db.write().await.unwrap();
            let new = NewTray { name: "", rows: 12, cols: 6, place: "" };
            trays.push(store::make(&mut conn, by.id(), &new, club.app.now()).await.unwrap().0.0);
            conn.commit().await.unwrap();
        }
        club.pass_minutes(10);
        let forms = (0..FORMS).map(|n| form(n, chance)).collect();
        Self { club, members, model: Model::new(bags.len(), SEEDS), bags, trays, forms }
    }

    /// Sends each form up to four times, all of them in a mixed order that may stop early; how many were sent.
    async fn send(&mut self, chance: &mut Chance) -> usize {
        let mut order: Vec<usize> = (0..FORMS).flat_map(|n| vec![n; 1 + chance.below(4)]).collect();
        for i in (1..order.len()).rev() {
            order.swap(i, chance.below(i + 1));
        }
        order.truncate(order.len() - chance.below(order.len() / 3));
        for n in &order {
            if chance.below(16) == 0 {
                self.cut_off(*n).await;
            } else if self.model.is_kept(*n) && chance.below(8) == 0 {
                self.altered(*n).await;
            } else {
                self.once_more(*n).await;
            }
        }
        order.len()
    }

    /// The address and fields of a form; `None` while the phone cannot know what it is to take back.
    async fn filled(&self, n: usize) -> Option<(String, Vec<(&'static str, String)>)> {
        let form = &self.forms[n];
        let at = |bag: usize, end: &str| format!("/bags/{}/{end}", self.bags[bag]);
        let mut fields = vec![("key", form.key.clone())];
        let path = match form.what {
            What::Count { bag, rooted, dead } => {
                fields.extend([("rooted", rooted.to_string()), ("dead", dead.to_string())]);
                at(bag, "count")
            }
            What::Leave { bag, sort, seeds } => {
                fields.extend([("went", sort.to_owned()), ("seeds", seeds.to_string())]);
                at(bag, "elsewhere")
            }
            What::Move { from, to, seeds } => {
                let other = self.bags[to].0.clone();
                fields.extend([("went", "moved".to_owned()), ("seeds", seeds.to_string()), ("other", other)]);
                at(from, "elsewhere")
            }
            What::Plant { bag, seeds } => {
                let tray = self.trays[form.by].clone();
                fields.extend([("tray", tray), ("seeds", seeds.to_string()), ("per_cell", "1".to_owned())]);
                at(bag, "plant")
            }
            What::Void { form } => {
                fields.push(("why", "a slip".to_owned()));
                format!("/entries/{}/void", self.first_entry(form).await?)
            }
            What::Undo { form } => {
                fields.push(("save", self.forms[form].key.clone()));
                "/undo".to_owned()
            }
        };
        Some((path, fields))
    }

    async fn first_entry(&self, form: usize) -> Option<String> {
        let sql = "SELECT id FROM entries WHERE save_key = $1 ORDER BY id LIMIT 1";
        let mut conn = self.club.app.db.read().await.unwrap();
        let entry: Option<Id> = conn.maybe(sql, args![&self.forms[form].key]).await.unwrap();
        entry.map(|e| e.id)
    }

    async fn answer(&self, n: usize, body: Body, length: usize, path: &str) -> StatusCode {
        let request = Request::post(path)
            .header(HOST, "club.test")
            .header(ORIGIN, "http://club.test")
            .header(CONTENT_TYPE, "application/x-www-form-urlencoded")
            .header(CONTENT_LENGTH, length);
        self.members[self.forms[n].by].raw(request.body(body).unwrap()).await.status()
    }

    async fn once_more(&mut self, n: usize) {
        let Some((path, fields)) = self.filled(n).await else { return };
        let body = serde_html_form::to_string(&fields).unwrap();
        let length = body.len();
        let status = self.answer(n, Body::from(body), length, &path).await;
        let what = self.forms[n].what;
        let expected = self.model.send(n, what);
        let as_expected = if expected { status.is_redirection() } else { status.is_client_error() };
        assert!(as_expected, "{what:?} should be {expected}: {status}; {:?}", self.model);
    }

    /// The connection breaks in the middle of the form.
    async fn cut_off(&self, n: usize) {
        let Some((path, fields)) = self.filled(n).await else { return };
        let body = Bytes::from(serde_html_form::to_string(&fields).unwrap());
        let (length, part) = (body.len(), body.slice(..body.len() / 2));
        let broken = stream::iter([Ok(part), Err(std::io::Error::other("cut off"))]);
        let status = self.answer(n, Body::from_stream(broken), length, &path).await;
        assert!(status.is_client_error(), "half a form is none: {status}");
    }

    /// Another form under a key that is kept: refused, whatever it says.
    async fn altered(&self, n: usize) {
        let Some((path, mut fields)) = self.filled(n).await else { return };
        if path == "/undo" {
            return;
        }
        fields.push(("note", "more".to_owned()));
        let body = serde_html_form::to_string(&fields).unwrap();
        let length = body.len();
        let status = self.answer(n, Body::from(body), length, &path).await;
        assert_eq!(status, StatusCode::CONFLICT, "{:?}", self.forms[n].what);
    }

    async fn adds_up(&self) {
        let sql = "SELECT rooted, dead, lost, moved_out, moved_in, ended, on_paper FROM bags WHERE id = $1";
        let mut conn = self.club.app.db.read().await.unwrap();
        for (bag, id) in self.bags.iter().enumerate() {
            let found: Sums = conn.one(sql, args![id]).await.unwrap();
            assert_eq!(found, self.model.sums(bag), "bag {bag}: {:?}", self.model);
        }
    }
}

fn form(n: usize, chance: &mut Chance) -> Form {
    let by = chance.below(MEMBERS.len());
    let bag = by * BAGS + chance.below(BAGS);
    let seeds = 1 + chance.below(4) as i64;
    // what is taken back may be anybody's: others' forms are refused
    let form = chance.below(FORMS);
    let what = match chance.below(10) {
        0..=3 => What::Count { bag, rooted: seeds, dead: chance.below(2) as i64 },
        4 => What::Leave { bag, sort: "lost", seeds },
        5 => What::Leave { bag, sort: "surplus", seeds },
        6 => What::Move { from: bag, to: bag ^ 1, seeds },
        7 => What::Plant { bag, seeds },
        8 => What::Void { form },
        _ => What::Undo { form },
    };
    let key = uuid::Uuid::new_v4().simple().to_string();
    let by = if let What::Void { .. } | What::Undo { .. } = what { n % MEMBERS.len() } else { by };
    Form { key, by, what }
}

/// One club, sent to until at least so many forms have come; how many came.
async fn club(seed: u64, most: usize) -> usize {
    let (mut chance, club, mut members) = (Chance(seed), Club::new().await, Vec::new());
    for (name, letters) in MEMBERS {
        members.push(club.grower(name, letters).await);
    }
    let mut sent = 0;
    while sent < most {
        let mut round = Round::new(&club, &members, &mut chance).await;
        let owners: Vec<usize> = round.forms.iter().map(|f| f.by).collect();
        round.model.owned_by(owners);
        sent += round.send(&mut chance).await;
        round.adds_up().await;
    }
    let mut conn = club.app.db.read().await.unwrap();
    let found = hilum::notebook::check::all(&mut conn, club.app.now()).await.unwrap();
    assert!(found.is_empty(), "seed {seed}: {found:?}");
    sent
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn any_order_of_arrivals_is_each_form_once() {
    let wanted = times("HILUM_REPLAYS", 2000);
    let (mut sent, mut seed) = (0, 0);
    while sent < wanted && time_is_left() {
        let mut clubs = JoinSet::new();
        for _ in 0..SIDE_BY_SIDE {
            seed += 1;
            clubs.spawn(club(seed, IN_A_CLUB.min(wanted)));
        }
        sent += clubs.join_all().await.iter().sum::<usize>();
    }
    println!("{sent} forms arrived in {seed} clubs: each counted once");
}
