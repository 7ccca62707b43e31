//! Random walks: whatever happens to phone, signal and session, each count ends on the server exactly once or stands
//! visibly in "needs attention". `HILUM_WALKS=0..1000` for more than the usual 20; `HILUM_WALKS=7..8` for one alone.

use super::{kept, on_paper};
use crate::support::{Chance, Mode, Phone, Program, Proxy, START};
use hilum::args;
use hilum::db::ids::{At, MemberId};
use hilum::db::{Db, FromRow};
use hilum::web::session;
use std::ops::Range;
use std::time::{Duration, Instant};
use tokio::time::sleep;

const STEPS: u64 = 9;
const PATIENCE: Duration = Duration::from_secs(150);
const SEED: u64 = 20_261_125;
/// Ten days after the start: every bag is on paper and due.
const NOW: i64 = 10 * 24 * 60;

#[derive(FromRow)]
struct Id {
    id: String,
}

#[derive(FromRow)]
struct Tally {
    n: i64,
    first: Option<i64>,
    last: Option<i64>,
}

/// One count that was typed: its note, whether the phone said that it has it, whether its number is impossible.
#[derive(Debug)]
struct Count {
    note: String,
    told: bool,
    wrong: bool,
}

struct Walk {
    phone: Phone,
    proxy: Proxy,
    db: Db,
    bag: String,
    jonas: String,
    ines: String,
    counts: Vec<Count>,
    trail: Vec<String>,
}

#[expect(clippy::disallowed_methods, reason = "how many walks is for whoever runs the test")]
fn walks() -> Range<u64> {
    let asked = std::env::var("HILUM_WALKS").ok();
    let ends = asked.as_deref().and_then(|r| r.split_once(".."));
    ends.map_or(0..20, |(from, to)| from.parse().unwrap()..to.parse().unwrap())
}

#[tokio::test]
async fn every_count_ends_on_the_server_once_or_needs_attention() {
    let mut program = Program::start().await;
    let proxy = Proxy::start(program.port).await;
    let mut phone = Phone::open(&proxy.base).await;
    phone.hurry().await;
    program.set_up = program.set_up.replace(&program.base, &proxy.base);
    let bags = on_paper(&mut phone, &program).await;
    program.at_minute(NOW);
    let db = program.db().await;
    let (jonas, ines) = (open_session(&db, "jonas").await, open_session(&db, "ines").await);
    let bag = bags[0].clone();
    let mut walk = Walk { phone, proxy, db, bag, jonas, ines, counts: Vec::new(), trail: Vec::new() };
    let (mut sent, mut attention) = (0, 0);
    for n in walks() {
        let mut chance = Chance(SEED + n);
        walk.begin(n).await;
        for step in 0..STEPS {
            walk.step(&mut chance, n * STEPS + step).await;
        }
        let (s, a) = walk.settle().await;
        println!("walk {n}: {s} on the server, {a} in need of attention");
        sent += s;
        attention += a;
    }
    println!("walks {:?}: {sent} counts on the server, {attention} in need of attention", walks());
    walk.phone.close().await;
    walk.db.close().await;
}

async fn open_session(db: &Db, name: &str) -> String {
    let mut conn = db.write().await.unwrap();
    let sql = "SELECT id FROM members WHERE sign_in = $1";
    let id: Id = conn.one(sql, args![name]).await.unwrap();
    let token = session::open(&mut conn, &MemberId(id.id), At(START + NOW * 60)).await.unwrap();
    conn.commit().await.unwrap();
    token
}

impl Walk {
    async fn begin(&mut self, n: u64) {
        self.counts.clear();
        self.trail = vec![format!("walk {n}")];
        self.proxy.set(Mode::Up);
        self.phone.session(&self.jonas).await;
        self.phone.goto("/").await;
        kept(&self.phone, std::slice::from_ref(&self.bag)).await;
    }

    async fn step(&mut self, chance: &mut Chance, n: u64) {
        let roll = chance.below(20);
        let what = match roll {
            0..=5 => self.save(n, false, false).await,
            6 => self.save(n, true, false).await,
            7 => self.save(n, false, true).await,
            8 => {
                let _ = self.phone.driver.refresh().await;
                "reload"
            }
            9 => {
                self.phone.close_tab().await;
                "close tab"
            }
            10 => {
                self.phone.kill_and_reopen().await;
                "kill"
            }
            11 | 12 => self.signal(Mode::Up, "up"),
            13 => self.signal(Mode::Down, "down"),
            14 => self.signal(Mode::Slow, "slow"),
            15 => self.signal(Mode::Fault, "fault"),
            16 => self.signal(Mode::AnswerLost, "answer lost"),
            17 => {
                self.phone.session("").await;
                "session over"
            }
            18 => self.other_member().await,
            _ => {
                let minutes = i64::try_from(chance.below(8000)).unwrap() - 4000;
                self.phone.move_clock(minutes).await;
                "clock moved"
            }
        };
        if chance.below(3) == 0 && roll != 17 && roll != 18 {
            self.phone.session(&self.jonas).await;
        }
        self.trail.push(what.to_owned());
    }

    fn signal(&self, mode: Mode, name: &'static str) -> &'static str {
        self.proxy.set(mode);
        name
    }

    async fn try_goto(&self, path: &str) {
        let _ = self.phone.driver.goto(format!("{}{path}", self.proxy.base)).await;
    }

    /// Types a look with a note of its own and saves it; where `dies`, the browser is killed at once.
    async fn save(&mut self, n: u64, wrong: bool, dies: bool) -> &'static str {
        self.try_goto(&self.bag).await;
        let note = format!("look-{n}-{}", self.counts.len());
        let (rooted, button) = if wrong { ("9999", "main") } else { ("", "plain") };
        let script = format!(
            "const form = document.querySelector('form[data-outbox]'); if (!form) return false;
             document.getElementById('said')?.remove();
             form.elements.note.value = '{note}'; form.elements.rooted.value = '{rooted}';
             form.querySelector('.save button.{button}').click(); return true;"
        );
        if self.phone.ask(&script).await != true {
            return "no page to save on";
        }
        if dies {
            self.counts.push(Count { note, told: false, wrong });
            self.phone.kill_and_reopen().await;
            return "saved and killed";
        }
        let told = self.told().await;
        self.counts.push(Count { note, told, wrong });
        if told { "saved" } else { "saved, nothing said" }
    }

    /// Whether the phone says within eight seconds that it has the count, or shows the page after it.
    async fn told(&self) -> bool {
        // "Saving on this phone" promises nothing yet
        let script = "return /(Saved|Kept) on this phone/.test(document.querySelector('.told')?.textContent) || Boolean(document.getElementById('said'));";
        for _ in 0..40 {
            if self.phone.ask(script).await == true {
                return true;
            }
            sleep(Duration::from_millis(200)).await;
        }
        false
    }

    async fn other_member(&self) -> &'static str {
        self.phone.session(&self.ines).await;
        self.try_goto("/outbox").await;
        let live = self.phone.ask("return document.documentElement.dataset.now !== undefined;").await == true;
        let text = self.phone.text().await;
        assert!(!live || !text.contains("look-"), "{:?}: another member reads {text}", self.trail);
        "other member"
    }

    /// Signal and session are back: sends what waits and compares with what was typed.
    async fn settle(&mut self) -> (usize, usize) {
        self.proxy.set(Mode::Up);
        self.phone.session(&self.jonas).await;
        self.phone.goto("/outbox").await;
        self.all_sent().await;
        let standing = self.phone.ask("return (await outbox.all()).map(e => e.words).join('|');").await;
        let standing = standing.as_str().unwrap_or_default().to_owned();
        let (mut sent, mut attention) = (0, 0);
        for count in &self.counts {
            let n = self.on_server(&count.note).await;
            let stands = standing.contains(&count.note);
            let good = match count {
                Count { wrong: true, .. } => n == 0,
                Count { told: true, .. } => n == 1 && !stands || n == 0 && stands,
                Count { .. } => n <= 1 && !(n == 1 && stands),
            };
            assert!(good, "{count:?}: {n} on the server, standing: {stands}; {:?}", self.trail);
            sent += usize::from(n == 1);
            attention += usize::from(stands);
        }
        if !standing.is_empty() {
            self.phone.says("attention").await;
            self.phone.ask("for (const e of await outbox.all()) await outbox.remove(e.id);").await;
        }
        (sent, attention)
    }

    /// Waits until nothing waits on the phone; a try that failed is made again after a while only.
    async fn all_sent(&self) {
        let began = Instant::now();
        while began.elapsed() < PATIENCE {
            let script = "return !(await outbox.all()).some(e => outbox.isDue(e) || e.handed);";
            if self.phone.ask(script).await == true {
                return;
            }
            sleep(Duration::from_millis(200)).await;
        }
        let script = "return [await navigator.locks.query(), await outbox.all()];";
        panic!("{:?}: not sent within {PATIENCE:?}: {}", self.trail, self.phone.ask(script).await);
    }

    /// How many looks with this note the server has; each must be of the time of the walk.
    async fn on_server(&self, note: &str) -> i64 {
        let sql = "SELECT COUNT(*) AS n, MIN(at) AS first, MAX(at) AS last FROM entries WHERE what = 'look' AND note = $1";
        let found: Tally = self.db.read().await.unwrap().one(sql, args![note]).await.unwrap();
        let now = START + NOW * 60;
        let near = |at: Option<i64>| at.is_none_or(|at| (now - 60..=now).contains(&at));
        assert!(near(found.first) && near(found.last), "{note} is dated {:?}; {:?}", found.first, self.trail);
        found.n
    }
}
