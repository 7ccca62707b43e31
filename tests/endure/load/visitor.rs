use crate::support::{Client, START, key};
use hilum::args;
use hilum::db::ids::At;
use hilum::db::{Db, FromRow};
use hilum::web::static_files;
use hilum_calc::dice::Dice;
use std::collections::HashMap;
use std::sync::Mutex;
use std::sync::atomic::AtomicI64;
use std::sync::atomic::Ordering::SeqCst;

/// The status, or why there was none.
pub type Answer = Result<u16, String>;

const READS: u64 = 101;
const MEMBERS: &str = "SELECT id, sign_in AS more, CAST(0 AS BIGINT) AS n FROM members ORDER BY id";
const BAGS: &str =
    "SELECT owner_id AS id, id AS more, on_paper AS n FROM bags WHERE closed_at IS NULL ORDER BY id";
const TRIALS: &str = "SELECT owner_id AS id, MAX(id) AS more, CAST(0 AS BIGINT) AS n FROM trials GROUP BY owner_id ORDER BY owner_id";
const TRAYS: &str = "SELECT owner_id AS id, id AS more, CAST(0 AS BIGINT) AS n FROM trays ORDER BY id";
const PACKETS: &str =
    "SELECT owner_id AS id, MAX(id) AS more, CAST(0 AS BIGINT) AS n FROM packets WHERE balance > 4 GROUP BY owner_id
    ORDER BY owner_id";
const MARKS: &str = "SELECT owner_id AS id, MAX(mark) AS more, CAST(0 AS BIGINT) AS n FROM bags GROUP BY owner_id ORDER BY owner_id";
const ROUTINE: &str = "SELECT r.id, r.name AS more, COUNT(*) AS n FROM routines r JOIN routine_versions v
    ON v.routine_id = r.id JOIN routine_steps s ON s.version_id = v.id GROUP BY r.id, r.name ORDER BY 3 DESC";

#[derive(FromRow)]
struct Row {
    id: String,
    more: String,
    n: i64,
}

/// A signed-in member and some of what is theirs.
struct Visitor {
    client: Client,
    /// Open bags and the seeds still on paper in them.
    bags: Vec<(String, AtomicI64)>,
    trial: Option<String>,
    tray: Option<String>,
    packet: Option<String>,
    mark: Option<String>,
    /// Trials started here and the steps that are still to do.
    soaking: Mutex<Vec<(String, i64)>>,
}

/// Every member of the club.
pub struct Visitors {
    all: Vec<Visitor>,
    routine: String,
    steps: i64,
}

impl Visitors {
    pub async fn new(base: &str, db: &Db) -> Self {
        let members = rows(db, MEMBERS).await;
        let mut bags: HashMap<String, Vec<(String, AtomicI64)>> = HashMap::new();
        for row in rows(db, BAGS).await {
            bags.entry(row.id).or_default().push((row.more, AtomicI64::new(row.n)));
        }
        let (trials, trays, packets, marks) = (
            by_member(db, TRIALS).await,
            by_member(db, TRAYS).await,
            by_member(db, PACKETS).await,
            by_member(db, MARKS).await,
        );
        let routine = rows(db, ROUTINE).await.remove(0);
        let mut all = Vec::new();
        for m in members {
            all.push(Visitor {
                client: Client::sign_in(base, db, &m.more, At(START)).await,
                bags: bags.remove(&m.id).unwrap_or_default(),
                trial: trials.get(&m.id).cloned(),
                tray: trays.get(&m.id).cloned(),
                packet: packets.get(&m.id).cloned(),
                mark: marks.get(&m.id).cloned(),
                soaking: Mutex::default(),
            });
        }
        Self { all, routine: routine.id, steps: routine.n }
    }

    /// The `n`-th request: what it is, and what came back.
    pub async fn visit(&self, n: usize) -> (&'static str, Answer) {
        let mut dice = Dice::of(READS, n);
        let who = &self.all[dice.among(0, self.all.len() as i64 - 1) as usize];
        if n.is_multiple_of(10) { self.write(who, &mut dice).await } else { who.read(&mut dice).await }
    }

    async fn write(&self, who: &Visitor, dice: &mut Dice) -> (&'static str, Answer) {
        if !who.bags.is_empty() && dice.happens(0.8) {
            return who.count(dice).await;
        }
        let soaking = who.soaking.lock().unwrap().pop();
        match (soaking, &who.packet) {
            (Some((trial, step)), _) => self.step(who, trial, step).await,
            (None, Some(packet)) => self.start(who, packet).await,
            (None, None) => who.read(dice).await,
        }
    }

    async fn start(&self, who: &Visitor, packet: &str) -> (&'static str, Answer) {
        let seeds = format!("seeds_{packet}");
        let fields = [("packet", packet), (seeds.as_str(), "1"), ("routine", self.routine.as_str())];
        let answer = who.client.post("/trials/new", &key(), &fields).await;
        if let Some(trial) = answer.as_ref().ok().and_then(|a| a.location.strip_prefix("/trials/")) {
            who.soaking.lock().unwrap().push((trial.to_owned(), 1));
        }
        ("POST start of a trial", answer.map(|a| a.status.as_u16()).map_err(|e| e.to_string()))
    }

    async fn step(&self, who: &Visitor, trial: String, step: i64) -> (&'static str, Answer) {
        let answer = who.post(&format!("/trials/{trial}/step"), &[("step", &step.to_string())]).await;
        if answer == Ok(303) && step < self.steps {
            who.soaking.lock().unwrap().push((trial, step + 1));
        }
        ("POST step", answer)
    }
}

impl Visitor {
    async fn read(&self, dice: &mut Dice) -> (&'static str, Answer) {
        let bag = self.bags.get(dice.among(0, self.bags.len().max(1) as i64 - 1) as usize);
        let (what, path) = match (dice.among(0, 99), bag) {
            (0..25, _) => ("due now", "/".to_owned()),
            (25..50, Some((bag, _))) => ("bag", format!("/bags/{bag}")),
            (50..58, _) => ("club table", "/table".to_owned()),
            (58..66, _) => ("packets", "/packets".to_owned()),
            (66..74, _) => {
                ("trial", self.trial.as_ref().map_or("/trials".to_owned(), |t| format!("/trials/{t}")))
            }
            (74..79, _) => {
                ("tray", self.tray.as_ref().map_or("/trays".to_owned(), |t| format!("/trays/{t}")))
            }
            (79..83, _) => ("plan", "/plan".to_owned()),
            (83..88, _) => {
                ("find", format!("/find?q={}", self.mark.as_deref().unwrap_or("x").replace(' ', "+")))
            }
            (88..92, _) => ("offline.json", "/offline.json".to_owned()),
            (n, _) => {
                ("static file", if n % 2 == 0 { static_files::css() } else { static_files::js() }.to_owned())
            }
        };
        let answer = self.client.get(&path).await;
        // a mark that is found leads on to its thing
        let found = what == "find" && answer.as_ref().is_ok_and(|a| a.status == 303);
        let status = answer.map(|a| if found { 200 } else { a.status.as_u16() });
        (what, status.map_err(|e| e.to_string()))
    }

    /// One look in ten finds a root, as long as there are seeds on paper.
    async fn count(&self, dice: &mut Dice) -> (&'static str, Answer) {
        let (bag, left) = &self.bags[dice.among(0, self.bags.len() as i64 - 1) as usize];
        let news =
            dice.happens(0.1) && left.fetch_update(SeqCst, SeqCst, |n| (n > 0).then_some(n - 1)).is_ok();
        let field = if news { ("rooted", "1") } else { ("nothing", "yes") };
        ("POST count", self.post(&format!("/bags/{bag}/count"), &[field]).await)
    }

    async fn post(&self, path: &str, fields: &[(&str, &str)]) -> Answer {
        let answer = self.client.post(path, &key(), fields).await;
        answer.map(|a| a.status.as_u16()).map_err(|e| e.to_string())
    }
}

async fn rows(db: &Db, sql: &'static str) -> Vec<Row> {
    db.read().await.unwrap().all(sql, args![]).await.unwrap()
}

async fn by_member(db: &Db, sql: &'static str) -> HashMap<String, String> {
    rows(db, sql).await.into_iter().map(|row| (row.id, row.more)).collect()
}
