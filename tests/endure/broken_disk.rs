//! A full disk (ENOSPC) and a broken one (EIO) at the first, second, third ... write or sync of each sort of save
//! (SQLite): strace makes those calls fail from there on. Pages can still be read; the form comes back with what was
//! typed and its key, as 507 or 503; sent again once the disk is well it is saved, without a restart; and nothing is
//! half done.
//!
//! Here at steps 1, 2, 4, 8 ...; at each of them: `HILUM_DISK_STEPS=1 cargo test --test endure broken_disk`

use crate::support::cluster::on_postgres;
use crate::support::hand::{Act, act};
use crate::support::strace::Strace;
use crate::support::{Client, Filled, Program, START, breaches, fresh, held_off, times};
use hilum::args;
use hilum::db::ids::At;
use hilum::db::{Db, FromRow};

/// What fails, from the n-th call on, and how it is answered.
const FAULTS: [(&str, &str, u16); 3] =
    [("write,pwrite64", "ENOSPC", 507), ("write,pwrite64", "EIO", 503), ("fdatasync,fsync", "EIO", 503)];
const TRACED: &str = "trace=write,pwrite64,fdatasync,fsync";
/// No save makes more calls.
const MOST: usize = 2000;

#[derive(FromRow)]
struct Things {
    bag: String,
    trial: String,
    tray: String,
    soaking: String,
    seeds: i64,
    packet: String,
    routine: String,
}

#[derive(FromRow)]
struct Count {
    n: i64,
}

/// Agnes's things in the invented club.
async fn things(db: &Db) -> Things {
    let sql = "SELECT b.id AS bag, b.trial_id AS trial, y.id AS tray, s.id AS soaking, s.soaking AS seeds,
          p.id AS packet, r.id AS routine
        FROM members m JOIN bags b ON b.owner_id = m.id AND b.closed_at IS NULL AND b.on_paper > 1
        JOIN trays y ON y.owner_id = m.id
        JOIN trials s ON s.owner_id = m.id AND s.soaking > 0 AND NOT s.voided
        JOIN routines q ON q.name = 'Plain water overnight'
        JOIN routine_versions v ON v.id = s.version_id AND v.routine_id = q.id
        JOIN packets p ON p.owner_id = m.id AND p.balance > 5 CROSS JOIN routines r
        WHERE m.sign_in = 'agnes' AND r.name = 'Plain water overnight'
        ORDER BY b.id, y.id, s.id, p.id LIMIT 1";
    db.read().await.unwrap().one(sql, args![]).await.unwrap()
}

/// One save of each sort, in an order in which each can follow the one before.
fn saves(t: &Things) -> Vec<Act> {
    let half = t.seeds / 2;
    let to_paper = (t.seeds - half).to_string();
    let text =
        |words: &[(&'static str, &str)]| words.iter().map(|(n, v)| (*n, (*v).to_owned())).collect::<Vec<_>>();
    vec![
        act("note", format!("/trials/{}/note", t.trial), text(&[("sort", "note"), ("text", "endured")])),
        act("count", format!("/bags/{}/count", t.bag), text(&[("rooted", "1"), ("note", "endured")])),
        act(
            "planting",
            format!("/bags/{}/plant", t.bag),
            text(&[("tray", &t.tray), ("seeds", "1"), ("per_cell", "1"), ("over", ""), ("why", "endured")]),
        ),
        act("event", format!("/bags/{}/happened", t.bag), text(&[("happened", "note"), ("note", "endured")])),
        act(
            "tally",
            format!("/trials/{}/tally", t.soaking),
            text(&[("sank", &half.to_string()), ("floated", &to_paper), ("floaters", "own bag")]),
        ),
        act(
            "paper",
            format!("/trials/{}/paper", t.soaking),
            text(&[("seeds_1", &to_paper), ("place_1", "endured"), ("warmth_1", "24")]),
        ),
        act(
            "start",
            "/trials/new".into(),
            vec![
                ("packet", t.packet.clone()),
                (leaked(format!("seeds_{}", t.packet)), "2".into()),
                ("routine", t.routine.clone()),
            ],
        ),
        act(
            "packet",
            "/packets/new".into(),
            text(&[
                ("kind", "pepper"),
                ("variety", "Endured"),
                ("source", "Endured Seeds"),
                ("seeds", "25"),
                ("letters", "AM"),
                ("note", "endured"),
            ]),
        ),
    ]
}

/// A field's name that is made of an id.
fn leaked(name: String) -> &'static str {
    Box::leak(name.into_boxed_str())
}

/// A season's list; confirmed, it comes in as one save.
const LIST: &str =
    "No,Kind,Variety,Source,Seeds\n,pepper,Windlass,Shingle Bank,25\n,onion,Cormorant,Shingle Bank,40\n";

/// The form that brings the list in, once it was looked at.
async fn import(client: &Client) -> Act {
    let fields = [("list", LIST), ("letters", "AM")];
    let page = client.post("/packets/import", &crate::support::key(), &fields).await.unwrap();
    let confirm = "/packets/import/confirm";
    let form = Filled::on(&page.body, "/packets/import", confirm, &[]);
    let form = form.unwrap_or_else(|| panic!("the list cannot be brought in: {page:?}"));
    act("import", confirm.into(), form.pairs.into_iter().map(|(n, v)| (leaked(n), v)).collect())
}

/// A program whose disk can be broken, and who works with it.
struct Bench {
    program: Program,
    client: Client,
    db: Db,
}

impl Bench {
    async fn new() -> Self {
        let program = Program::demo_in(fresh().await, held_off).await;
        let db = program.db().await;
        let client = Client::sign_in(&program.base, &db, "agnes", At(START)).await;
        Self { program, client, db }
    }

    /// The disk fails at the n-th of `calls` and from there on.
    fn broken(&self, (calls, error, _): (&str, &str, u16), n: usize) -> Strace {
        let file = self.program.database.url.trim_start_matches("sqlite:").to_owned();
        let inject = format!("inject={calls}:error={error}:when={n}+");
        let log = format!("{file}-wal");
        Strace::attach(&self.program, &["-s", "0", "-e", TRACED, "-e", &inject, "-P", &file, "-P", &log])
    }

    /// Tries `act` on a disk that breaks ever later, until it breaks no more before the save is done. How often it did.
    async fn endures(&self, act: &Act, fault: (&str, &str, u16), every: bool) -> usize {
        let (mut n, mut broke) = (1, 0);
        while n < MOST {
            let strace = self.broken(fault, n);
            let answer = self.client.post(&act.path, &act.key, &act.borrowed()).await.unwrap();
            let page = self.client.get("/").await.unwrap();
            let failed = strace.detach().iter().any(|call| call.result < 0);
            assert_eq!(page.status, 200, "{} {fault:?} at {n}: pages can still be read", act.sort);
            if answer.status == 303 {
                assert!(broke > 0, "{} {fault:?}: nothing was broken", act.sort);
                return broke;
            }
            assert!(failed, "{} {fault:?} at {n}: {answer:?}", act.sort);
            assert_eq!(answer.status, fault.2, "{} {fault:?} at {n}: {}", act.sort, answer.body);
            assert!(
                !answer.retry.is_empty() && answer.body.contains(&act.key),
                "{} {}",
                act.sort,
                answer.body
            );
            for (name, value) in &act.fields {
                assert!(value.is_empty() || answer.body.contains(value), "{} lost {name} at {n}", act.sort);
            }
            assert_eq!(self.there(&act.key).await, 0, "{} {fault:?} at {n}: half done", act.sort);
            broke += 1;
            n = if every { n + 1 } else { n * 2 };
        }
        panic!("{} {fault:?}: never saved", act.sort);
    }

    /// Entries and the key itself.
    async fn there(&self, key: &str) -> i64 {
        let sql = "SELECT (SELECT COUNT(*) FROM once WHERE key = $1)
            + (SELECT COUNT(*) FROM entries WHERE save_key = $1) AS n";
        let count: Count = self.db.read().await.unwrap().one(sql, args![key]).await.unwrap();
        count.n
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn a_save_that_the_disk_does_not_take_comes_back_and_can_be_sent_again() {
    if on_postgres() {
        return;
    }
    let every = times("HILUM_DISK_STEPS", 0) > 0;
    let mut broke = 0;
    for fault in FAULTS {
        let bench = Bench::new().await;
        let things = things(&bench.db).await;
        let saves = saves(&things).into_iter().chain([import(&bench.client).await]);
        for act in saves {
            broke += bench.endures(&act, fault, every).await;
            assert!(bench.there(&act.key).await >= 1, "{}", act.sort);
            let again = bench.client.post(&act.path, &act.key, &act.borrowed()).await.unwrap();
            assert_eq!(again.status, 303, "sent twice is once: {again:?}");
        }
        assert_eq!(breaches(&bench.db).await, Vec::<String>::new());
        bench.db.close().await;
    }
    println!("{broke} broken saves, each came back whole and was saved later");
}

#[tokio::test(flavor = "multi_thread")]
async fn photos_and_the_outbox_wait_for_room_too() {
    if on_postgres() {
        return;
    }
    let bench = Bench::new().await;
    let things = things(&bench.db).await;
    let path = format!("/bags/{}/count", things.bag);
    let (full, key) = (FAULTS[0], crate::support::key());
    let fields = [("rooted", "1"), ("note", "endured")];
    let strace = bench.broken(full, 1);
    let answer = bench.client.photo(&path, &key, &fields, &photo()).await.unwrap();
    assert_eq!(answer.status, 507, "{answer:?}");
    for words in ["endured", key.as_str(), "Choose the file again", "disk of the club"] {
        assert!(answer.body.contains(words), "{words}: {}", answer.body);
    }
    let answer = bench.client.outbox(&path, &key, &fields).await.unwrap();
    strace.detach();
    assert_eq!(answer.status, 507, "{answer:?}");
    assert!(answer.body.starts_with("{\"later\":"), "{answer:?}");
    assert_eq!(bench.there(&key).await, 0);
    let answer = bench.client.photo(&path, &key, &fields, &photo()).await.unwrap();
    assert_eq!(answer.status, 303, "{answer:?}");
    assert_eq!(bench.there(&key).await, 2, "the key and its entry");
    assert_eq!(breaches(&bench.db).await, Vec::<String>::new());
}

#[tokio::test(flavor = "multi_thread")]
async fn a_list_to_look_at_waits_for_room_too() {
    if on_postgres() {
        return;
    }
    let bench = Bench::new().await;
    let (key, fields) = (crate::support::key(), [("list", LIST), ("letters", "AM")]);
    for fault in FAULTS {
        let strace = bench.broken(fault, 1);
        let answer = bench.client.post("/packets/import", &key, &fields).await.unwrap();
        strace.detach();
        assert_eq!(answer.status, fault.2, "{answer:?}");
        assert!(answer.body.contains("Windlass") && !answer.retry.is_empty(), "{}", answer.body);
    }
    let answer = bench.client.post("/packets/import", &key, &fields).await.unwrap();
    assert!(answer.status == 200 && answer.body.contains("Nothing is saved yet: 2 packets"), "{answer:?}");
}

/// A save that failed leaves a connection that is not used again; while no file can be opened, there is no other.
#[tokio::test(flavor = "multi_thread")]
async fn a_disk_that_opens_nothing_keeps_nobody_from_reading_and_saves_come_back() {
    if on_postgres() {
        return;
    }
    let bench = Bench::new().await;
    let mut opened = 0;
    for error in ["EMFILE", "EIO", "EACCES"] {
        let things = things(&bench.db).await;
        for act in saves(&things).into_iter().take(2) {
            let file = bench.program.database.url.trim_start_matches("sqlite:").to_owned();
            let (full, shut) =
                ("inject=pwrite64:error=ENOSPC:when=1", format!("inject=openat:error={error}"));
            let log = format!("{file}-wal");
            let faults =
                ["-s", "0", "-e", "trace=pwrite64,openat", "-e", full, "-e", &shut, "-P", &file, "-P", &log];
            let strace = Strace::attach(&bench.program, &faults);
            for status in [507, 503] {
                let answer = bench.client.post(&act.path, &act.key, &act.borrowed()).await.unwrap();
                assert_eq!(answer.status, status, "{} {error}: {answer:?}", act.sort);
                assert!(answer.body.contains(&act.key) && !answer.retry.is_empty(), "{}", answer.body);
                assert_eq!(bench.client.get("/").await.unwrap().status, 200, "pages can still be read");
            }
            let calls = strace.detach();
            opened += calls.iter().filter(|call| call.name == "openat" && call.result < 0).count();
            assert_eq!(bench.there(&act.key).await, 0, "{} {error}: half done", act.sort);
            let answer = bench.client.post(&act.path, &act.key, &act.borrowed()).await.unwrap();
            assert_eq!(answer.status, 303, "{} {error}: {answer:?}", act.sort);
        }
    }
    assert!(opened >= 6, "{opened} files were not opened");
    assert_eq!(breaches(&bench.db).await, Vec::<String>::new());
}

impl Bench {
    /// A start at which `call` fails as `when` says; whether it serves all the same, and how many calls failed.
    async fn starts(&mut self, call: &str, when: &str) -> (bool, usize) {
        let file = self.program.database.url.trim_start_matches("sqlite:").to_owned();
        // nobody else has the file open, so that the start does all there is to do
        self.db.close().await;
        self.program.stop();
        let inject = format!("inject={call}:error=EIO:when={when}");
        let came = self.program.tried(&["-e", &format!("trace={call}"), "-e", &inject], &file).await;
        match &came {
            Ok(()) => assert_eq!(self.client.get("/").await.unwrap().status, 200, "{inject}"),
            Err(said) => assert!(said.contains("cannot be opened"), "{inject}: {said}"),
        }
        self.program.stop();
        (came.is_ok(), self.program.injected())
    }

    /// A start on a disk that is well: what was saved is there, and more is taken.
    async fn starts_well(&mut self, saved: &Act) {
        self.program.again().await;
        self.db = self.program.db().await;
        assert_eq!(self.client.get("/").await.unwrap().status, 200);
        assert!(self.there(&saved.key).await >= 2, "a save is gone");
        let save = act("note", saved.path.clone(), saved.fields.clone());
        let answer = self.client.post(&save.path, &save.key, &save.borrowed()).await.unwrap();
        assert_eq!(answer.status, 303, "{answer:?}");
    }
}

/// Each call by which a start opens or cuts a file of the database fails, once or from there on: the program serves all
/// the same or says why not, and a start on a disk that is well finds everything.
#[tokio::test(flavor = "multi_thread")]
async fn a_start_on_a_disk_that_opens_or_cuts_nothing_loses_nothing() {
    if on_postgres() {
        return;
    }
    let mut bench = Bench::new().await;
    let note = saves(&things(&bench.db).await).remove(0);
    assert_eq!(bench.client.post(&note.path, &note.key, &note.borrowed()).await.unwrap().status, 303);
    let (mut refused, mut served) = (0, 0);
    for call in ["openat", "ftruncate"] {
        let mut hit = 0;
        for when in (1..=6).flat_map(|n| [format!("{n}"), format!("{n}+")]) {
            let (serves, failed) = bench.starts(call, &when).await;
            bench.starts_well(&note).await;
            (served, refused) = (served + usize::from(serves), refused + usize::from(!serves));
            hit += failed;
        }
        assert!(hit > 0, "no {call} was made to fail");
        println!("{hit} times {call} failed");
    }
    assert!(refused > 0 && served > 0, "{refused} starts were refused, {served} served");
    assert_eq!(breaches(&bench.db).await, Vec::<String>::new());
    println!("{refused} starts said why not, {served} served all the same; nothing was lost");
}

#[tokio::test(flavor = "multi_thread")]
async fn a_slow_disk_keeps_nobody_from_reading() {
    if on_postgres() {
        return;
    }
    let bench = Bench::new().await;
    let things = things(&bench.db).await;
    let path = format!("/trials/{}/note", things.trial);
    let file = bench.program.database.url.trim_start_matches("sqlite:").to_owned();
    let slow = "inject=fdatasync,fsync:delay_enter=4000000";
    let strace = Strace::attach(&bench.program, &["-e", TRACED, "-e", slow, "-P", &format!("{file}-wal")]);
    let keys: Vec<String> = (0..4).map(|_| crate::support::key()).collect();
    let sent: Vec<_> = keys
        .iter()
        .cloned()
        .map(|key| {
            let (client, path) = (bench.client.clone(), path.clone());
            tokio::spawn(async move {
                client.post(&path, &key, &[("sort", "note"), ("text", "endured")]).await.unwrap()
            })
        })
        .collect();
    let began = std::time::Instant::now();
    let page = bench.client.get("/").await.unwrap();
    assert!(page.status == 200 && began.elapsed().as_secs() < 4, "{:?} {}", began.elapsed(), page.status);
    let mut waits = 0;
    for (answer, key) in sent.into_iter().zip(&keys) {
        let answer = answer.await.unwrap();
        assert!([303, 503].contains(&answer.status.as_u16()), "{answer:?}");
        if answer.status == 503 {
            waits += 1;
            assert!(answer.body.contains(key) && !answer.retry.is_empty(), "{answer:?}");
        }
    }
    strace.detach();
    for key in &keys {
        let answer = bench.client.post(&path, key, &[("sort", "note"), ("text", "endured")]).await.unwrap();
        assert_eq!((answer.status.as_u16(), bench.there(key).await), (303, 2));
    }
    println!("a sync took 4 s: {waits} of 4 saves were told to wait, none counted twice");
}

/// A small picture.
fn photo() -> Vec<u8> {
    let mut png = std::io::Cursor::new(Vec::new());
    image::RgbImage::from_pixel(60, 40, image::Rgb([90, 120, 60]))
        .write_to(&mut png, image::ImageFormat::Png)
        .unwrap();
    png.into_inner()
}
