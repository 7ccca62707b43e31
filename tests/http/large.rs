//! A large club over HTTP: its table says how far it is behind, and no file of it keeps anybody waiting.

use crate::support::{Browser, Club, Page, START};
use hilum::app::App;
use hilum::args;
use hilum::clock::Clock;
use hilum::config::Config;
use hilum::db::FromRow;
use hilum::db::ids::{BagId, MemberId};
use hilum::notebook::{About, Act, bag};
use hilum::upkeep::scale::{self, Size};
use hilum::web::session;
use std::time::{Duration, Instant};

/// A little more than the 10,000 bags from which a club is large.
const SIZE: Size = Size { members: 40, trials: 7_000, seasons: 3 };
/// No request for a file may take longer.
const LONGEST: Duration = Duration::from_secs(1);

#[derive(FromRow)]
struct Somebody {
    id: MemberId,
    bag: BagId,
    bags: i64,
}

/// The club as `hilum demo --size` has it, with the patience of the program itself.
struct Large {
    _club: Club,
    app: App,
    organiser: Browser,
    bag: BagId,
}

impl Large {
    async fn new() -> Self {
        let club = Club::new().await;
        scale::fill(&club.app, SIZE).await.unwrap();
        let app = App::new(club.app.db.clone(), Config::default(), Clock::fixed(START));
        let sql = "SELECT m.id, b.id AS bag, (SELECT COUNT(*) FROM bags) AS bags
            FROM members m JOIN trials t ON t.owner_id = m.id JOIN bags b ON b.trial_id = t.id
            WHERE b.closed_at IS NULL AND b.on_paper > 5 ORDER BY b.id LIMIT 1";
        let found: Somebody = app.db.read().await.unwrap().one(sql, args![]).await.unwrap();
        assert!(found.bags >= 10_000, "{} bags are no large club", found.bags);
        let mut conn = app.db.write().await.unwrap();
        conn.run("UPDATE members SET role = 'organiser' WHERE id = $1", args![&found.id]).await.unwrap();
        let token = session::open(&mut conn, &found.id, START).await.unwrap();
        conn.commit().await.unwrap();
        let organiser = Browser::new(app.clone().router(), Some(token), Some(found.id));
        Self { _club: club, app, organiser, bag: found.bag }
    }

    /// One more look into a bag, without news.
    async fn look(&self) {
        let now = self.app.now();
        let mut conn = self.app.db.write().await.unwrap();
        let act = Act::new(self.organiser.id(), "large", now, now);
        let about = About { bag: Some(&self.bag), ..About::default() };
        bag::add_look(&mut conn, &act, about, bag::Look::default(), "").await.unwrap();
        bag::keep(&mut conn, &self.bag).await.unwrap();
        conn.commit().await.unwrap();
    }

    /// Counts and looks at the table until it says that it is behind.
    async fn until_behind(&self) -> String {
        let began = Instant::now();
        loop {
            self.look().await;
            let told = self.organiser.get("/table").await.all("#behind").join(" ");
            if told.contains(" since: they come in within a minute") {
                return told;
            }
            assert!(began.elapsed() < Duration::from_secs(60), "no count was told: {told}");
        }
    }

    /// Looks at the table until every count is in it; how long that took.
    async fn until_current(&self) -> Duration {
        let began = Instant::now();
        while !self.organiser.get("/table").await.text().contains("with every count in them") {
            assert!(began.elapsed() < Duration::from_secs(90), "the counts never came in");
            tokio::time::sleep(Duration::from_millis(500)).await;
        }
        began.elapsed()
    }

    /// Asks again and again, each time for a moment, until the file is there; how often it was not.
    async fn until_there(&self, what: &str, ask: impl AsyncFn() -> Page) -> (Page, usize) {
        for refused in 0..240 {
            let began = Instant::now();
            let page = ask().await;
            let took = began.elapsed();
            assert!(took < LONGEST, "{what} took {took:?}, answered {}", page.status);
            match page.status.as_u16() {
                200 => return (page, refused),
                202 | 503 => assert!(page.text().contains("is being made"), "{what}: {}", page.text()),
                _ => panic!("{what}: {} {}", page.status, page.text()),
            }
            tokio::time::sleep(Duration::from_millis(500)).await;
        }
        panic!("{what} was never made");
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn a_large_clubs_table_says_how_old_it_is_and_its_files_keep_nobody_waiting() {
    let large = Large::new().await;
    let who = &large.organiser;
    let (table, often) = large.until_there("/table.csv", async || who.get("/table.csv").await).await;
    assert!(table.body.lines().count() > 5 && table.body.contains(&START.in_utc()), "{}", table.body);
    println!("/table.csv: {often} times not yet");
    let clubs = who.get("/clubs").await;
    let key = clubs.form("/clubs/table.zip").filled(&[("licence", "CC-BY-4.0")]);
    let fields: Vec<(&str, &str)> = key.iter().map(|(n, v)| (n.as_str(), v.as_str())).collect();
    let (zip, often) =
        large.until_there("/clubs/table.zip", async || who.post("/clubs/table.zip", &fields).await).await;
    assert_eq!(zip.headers["content-type"], "application/zip");
    println!("/clubs/table.zip: {often} times not yet");

    who.get("/table").await.says("with every count in them");
    large.app.clock.set(START.plus_minutes(5));
    let told = large.until_behind().await;
    println!("{told}");
    assert!(told.starts_with("The rates are as of today 09:0") && told.contains(" count"), "{told}");
    println!("the counts came in after {:?}", large.until_current().await);
    let (new, _) = large.until_there("/table.csv", async || who.get("/table.csv").await).await;
    assert!(new.body.contains(&START.plus_minutes(5).in_utc()), "{}", new.body);
}
