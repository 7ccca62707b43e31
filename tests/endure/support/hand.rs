use super::ledger::{Ledger, Stand};
use super::{Answer, Client, START, key};
use hilum::args;
use hilum::db::ids::At;
use hilum::db::{Db, FromRow};
use std::sync::Mutex;

/// A member at work: one save after another, each sort in turn, never at a loss what to do next.
pub struct Hand {
    pub client: Client,
    work: Work,
    turn: usize,
    /// Sent, and not answered yet.
    pub pending: Option<Act>,
    last: String,
}

#[derive(Clone)]
pub enum Work {
    /// Counts, recounts and plantings of one bag.
    Bag { bag: String, trial: String, tray: String, seeds: i64 },
    /// The running step of a trial that soaks.
    Step { trial: String, step: i64 },
}

/// A form to send.
#[derive(Debug, Clone)]
pub struct Act {
    pub sort: &'static str,
    pub key: String,
    pub path: String,
    pub fields: Vec<(&'static str, String)>,
    /// The save it takes back.
    undoes: Option<String>,
}

#[derive(FromRow)]
struct Bag {
    sign_in: String,
    bag: String,
    trial: String,
    tray: String,
    seeds: i64,
}

#[derive(FromRow)]
struct Soaking {
    sign_in: String,
    trial: String,
    step: i64,
}

/// Members with an open bag and a tray, and members with a trial in a step: at most so many of each.
pub async fn hands(base: &str, db: &Db, bags: usize, steps: usize) -> Vec<Hand> {
    let sql = "SELECT m.sign_in, MIN(b.id) AS bag, MIN(b.trial_id) AS trial, MIN(y.id) AS tray, MIN(b.seeds) AS seeds
        FROM bags b JOIN members m ON m.id = b.owner_id JOIN trays y ON y.owner_id = m.id
        WHERE b.closed_at IS NULL AND b.on_paper > 0 AND b.id = (SELECT MIN(o.id) FROM bags o
          WHERE o.owner_id = m.id AND o.closed_at IS NULL AND o.on_paper > 0)
        GROUP BY m.sign_in ORDER BY m.sign_in";
    let found: Vec<Bag> = db.read().await.unwrap().all(sql, args![]).await.unwrap();
    let mut hands = Vec::new();
    for b in found.into_iter().take(bags) {
        let client = Client::sign_in(base, db, &b.sign_in, At(START)).await;
        let work = Work::Bag { bag: b.bag, trial: b.trial, tray: b.tray, seeds: b.seeds };
        hands.push(Hand { client, work, turn: 0, pending: None, last: String::new() });
    }
    let sql = "SELECT m.sign_in, t.id AS trial, t.step FROM trials t JOIN members m ON m.id = t.owner_id
        JOIN routine_steps s ON s.version_id = t.version_id AND s.position = t.step
        WHERE t.soaking > 0 AND NOT t.voided ORDER BY t.id";
    let found: Vec<Soaking> = db.read().await.unwrap().all(sql, args![]).await.unwrap();
    for t in found.into_iter().take(steps) {
        let client = Client::sign_in(base, db, &t.sign_in, At(START)).await;
        let work = Work::Step { trial: t.trial, step: t.step };
        hands.push(Hand { client, work, turn: 0, pending: None, last: String::new() });
    }
    assert!(hands.len() >= 2, "the invented club has work for two");
    hands
}

impl Act {
    pub fn borrowed(&self) -> Vec<(&str, &str)> {
        self.fields.iter().map(|(n, v)| (*n, v.as_str())).collect()
    }

    /// The key of the save that it is, or (`true`) that it takes back.
    pub fn about(&self) -> (String, bool) {
        (self.undoes.as_ref().unwrap_or(&self.key).clone(), self.undoes.is_some())
    }
}

impl Hand {
    /// Sends what waits, or what comes next, and tells the ledger. False where no answer came or "not now"; another
    /// answer than 303 is a failure of the test.
    pub async fn save(&mut self, ledger: &Mutex<Ledger>) -> bool {
        match self.send(ledger).await {
            Ok(answer) if answer.status == 303 => true,
            Ok(answer) if answer.status != 503 => panic!("{:?} {answer:?}", self.pending),
            _ => false,
        }
    }

    /// The same, whatever comes back.
    pub async fn send(&mut self, ledger: &Mutex<Ledger>) -> reqwest::Result<Answer> {
        let act = self.pending.take().unwrap_or_else(|| self.coming());
        tell(ledger, &act, Stand::Sent);
        let answer = self.client.post(&act.path, &act.key, &act.borrowed()).await;
        if answer.as_ref().is_ok_and(|answer| answer.status == 303) {
            tell(ledger, &act, Stand::Answered);
            self.is_saved(&act);
        } else {
            self.pending = Some(act);
        }
        answer
    }

    /// Every sort of save once: how many there are.
    pub fn turns(&self) -> usize {
        match self.work {
            Work::Bag { .. } => 6,
            Work::Step { .. } => 2,
        }
    }

    pub fn coming(&self) -> Act {
        let undo = self.undo();
        let turn = self.turn % self.turns();
        match &self.work {
            Work::Step { trial, step } => match turn {
                0 => act(
                    "step",
                    format!("/trials/{trial}/step"),
                    vec![("step", step.to_string()), ("at", String::new())],
                ),
                _ => undo,
            },
            Work::Bag { bag, trial, tray, seeds } => match turn {
                0 => act(
                    "note",
                    format!("/trials/{trial}/note"),
                    vec![("sort", "note".into()), ("text", "endured".into())],
                ),
                1 => act(
                    "recount",
                    format!("/bags/{bag}/count"),
                    vec![
                        ("rooted", "1".into()),
                        ("there_were", (seeds + 1).to_string()),
                        ("note", "endured".into()),
                    ],
                ),
                2 => act(
                    "planting",
                    format!("/bags/{bag}/plant"),
                    vec![
                        ("tray", tray.clone()),
                        ("seeds", "1".into()),
                        ("per_cell", "1".into()),
                        ("over", String::new()),
                    ],
                ),
                4 => act(
                    "look",
                    format!("/bags/{bag}/count"),
                    vec![("nothing", "yes".into()), ("note", "endured".into())],
                ),
                _ => undo,
            },
        }
    }

    fn undo(&self) -> Act {
        let fields = vec![("save", self.last.clone())];
        Act { undoes: Some(self.last.clone()), ..act("undo", "/undo".into(), fields) }
    }

    fn is_saved(&mut self, act: &Act) {
        if let (Work::Bag { seeds, .. }, "recount") = (&mut self.work, act.sort) {
            *seeds += 1;
        }
        self.last.clone_from(&act.key);
        self.turn += 1;
    }
}

/// A form with a new key.
pub fn act(sort: &'static str, path: String, fields: Vec<(&'static str, String)>) -> Act {
    Act { sort, key: key(), path, fields, undoes: None }
}

fn tell(ledger: &Mutex<Ledger>, act: &Act, stand: Stand) {
    let mut ledger = ledger.lock().unwrap();
    match &act.undoes {
        Some(key) => ledger.undone(key, stand),
        None => ledger.saved(&act.key, act.sort, stand),
    }
}
