use crate::accounts::{PASSWORD, set_up, sign_in};
use crate::support::{Browser, Club, Page, routes};
use axum::http::StatusCode;
use hilum::args;
use hilum::audit::{self, Wanted};
use hilum::db::FromRow;
use hilum::db::ids::{BagId, MemberId};
use serde_json::Value;
use std::collections::BTreeMap;
use std::io::{Cursor, Read};

const NAME: &str = "Wilhelmina Quasthoff";
const SIGN_IN: &str = "wq-sign-in";
const NOTE: &str = "unmistakable remark";

/// A member who left words wherever a member can, with her own session.
struct Member {
    club: Club,
    ines: Browser,
    kim: Browser,
    will: Browser,
    id: MemberId,
    bag: BagId,
}

fn link(page: &Page) -> String {
    page.all("#link").remove(0).strip_prefix("http://127.0.0.1:8420").unwrap().to_owned()
}

async fn joined(club: &Club, ines: &Browser) -> Browser {
    let invited = ines.submit(&ines.get("/members").await, "/members/invite", &[]).await;
    let will = club.stranger();
    let page = will.get(&link(&invited)).await;
    let fields = [("name", NAME), ("sign_in", SIGN_IN), ("letters", "WQ"), ("password", PASSWORD)];
    assert_eq!(will.submit(&page, "", &fields).await.path, "/");
    will
}

#[derive(FromRow)]
struct Id {
    id: String,
}

impl Member {
    async fn new() -> Self {
        let club = Club::new().await;
        let ines = set_up(&club).await;
        let kim = club.grower("Kim", "KL").await;
        let will = joined(&club, &ines).await;
        let sql = "SELECT id FROM members WHERE sign_in = $1";
        let row: Id = club.app.db.read().await.unwrap().one(sql, args![SIGN_IN]).await.unwrap();
        let id = MemberId(row.id);
        let owner = club.again_of(&id).await;
        let packet = club.packet(&owner, "Kestrel", 40).await;
        let trial = club.trial(&owner, &packet, 20).await;
        let bag = club.bag(&owner, &trial, 10).await;
        let made = Self { club, ines, kim, will, id, bag };
        made.words(&packet.0, &trial.0).await;
        made
    }

    /// Notes, places, names: by the pages themselves.
    async fn words(&self, packet: &str, trial: &str) {
        let will = &self.will;
        let path = format!("/packets/{packet}");
        let page = will.get(&format!("{path}/edit")).await;
        will.submit(&page, &format!("{path}/edit"), &[("place", NOTE), ("note", NOTE)]).await.says(NOTE);
        let page = will.get(&format!("{path}/give")).await;
        let fields = [("to", self.kim.id().0.as_str()), ("seeds", "5")];
        will.submit(&page, &format!("{path}/give"), &fields).await;
        let page = will.get(&format!("/trials/{trial}")).await;
        will.submit(&page, &format!("/trials/{trial}/note"), &[("text", NOTE)]).await;
        let bag = format!("/bags/{}", self.bag);
        let page = will.get(&bag).await;
        will.submit(&page, &format!("{bag}/count"), &[("rooted", "3"), ("note", NOTE)]).await;
        let page = will.get(&format!("{bag}/happened")).await;
        will.submit(
            &page,
            &format!("{bag}/happened"),
            &[("happened", "moved"), ("place", NOTE), ("note", NOTE)],
        )
        .await;
        let page = will.get("/trays/new").await;
        will.submit(&page, "/trays/new", &[("name", NOTE), ("place", NOTE)]).await;
        let page = will.get("/me/tokens").await;
        will.submit(&page, "/me/tokens", &[("name", NOTE)]).await;
        self.traces().await;
    }

    /// Seed saved by the member, whose source bears her name; a packet that came through her; a photo.
    async fn traces(&self) {
        let mut conn = self.club.app.db.write().await.unwrap();
        hilum::stock::store::saved_by(&mut conn, &self.id, self.club.app.now()).await.unwrap();
        let sql = "UPDATE packets SET through = $2 WHERE owner_id = $1";
        conn.run(sql, args![self.kim.id(), NAME]).await.unwrap();
        let sql = "INSERT INTO photos (id, entry_id, jpeg, small, small_width, small_height)
            SELECT 'photo', MAX(e.id), $2, $2, 1, 1 FROM entries e JOIN looks d ON d.entry_id = e.id
            WHERE e.by_member = $1";
        conn.run(sql, args![&self.id, b"a picture".to_vec()]).await.unwrap();
        conn.commit().await.unwrap();
    }

    async fn photos(&self) -> usize {
        let mut conn = self.club.app.db.read().await.unwrap();
        conn.all::<Id>("SELECT id FROM photos ORDER BY id", vec![]).await.unwrap().len()
    }

    async fn erase(&self) -> Page {
        let page = self.will.get("/me/data").await;
        self.will.submit(&page, "/me/data/erase", &[("sure", "yes")]).await
    }
}

/// Every text in the database, as `table: text`.
async fn texts(club: &Club) -> Vec<String> {
    let tables = tables(club).await;
    assert!(tables.len() > 40, "{tables:?}");
    let mut found = Vec::new();
    for table in tables {
        let sql: &'static str = Box::leak(format!("SELECT * FROM {table}").into_boxed_str());
        let rows = club.app.db.read().await.unwrap().objects(sql, vec![]).await.unwrap();
        let values = rows.into_iter().flat_map(|row| row.into_values().collect::<Vec<_>>());
        found.extend(values.filter_map(|v| v.as_str().map(|text| format!("{table}: {text}"))));
    }
    found
}

async fn tables(club: &Club) -> Vec<String> {
    let sql = match club.app.db.engine() {
        "SQLite" => "SELECT name AS id FROM sqlite_schema WHERE type = 'table' ORDER BY name",
        _ => {
            "SELECT CAST(tablename AS TEXT) AS id FROM pg_tables WHERE schemaname = 'public' ORDER BY tablename"
        }
    };
    let rows: Vec<Id> = club.app.db.read().await.unwrap().all(sql, vec![]).await.unwrap();
    rows.into_iter().map(|row| row.id).collect()
}

fn with(texts: &[String], word: &str) -> Vec<String> {
    texts.iter().filter(|text| text.to_lowercase().contains(&word.to_lowercase())).cloned().collect()
}

fn unzipped(bytes: Vec<u8>) -> BTreeMap<String, String> {
    let mut archive = zip::ZipArchive::new(Cursor::new(bytes)).unwrap();
    let names: Vec<String> = archive.file_names().map(|name| name.unwrap().into_owned()).collect();
    let read = |name: String| {
        let mut bytes = Vec::new();
        archive.by_name(&name).unwrap().read_to_end(&mut bytes).unwrap();
        (name, String::from_utf8_lossy(&bytes).into_owned())
    };
    names.into_iter().map(read).collect()
}

#[tokio::test]
async fn a_member_saves_all_that_the_club_holds_about_them() {
    let m = Member::new().await;
    let page = m.will.get("/me/data").await;
    let files = unzipped(m.will.download(&page, "/me/data/copy.zip", &[]).await);
    let rows = |name: &str| -> Vec<Value> {
        serde_json::from_str(&files[name]).unwrap_or_else(|e| panic!("{name}: {e}: {}", files[name]))
    };
    assert_eq!(rows("account.json")[0]["name"], NAME);
    assert_eq!(rows("account.json")[0]["sign_in"], SIGN_IN);
    assert_eq!(rows("letters.json")[0]["letters"], "WQ");
    assert_eq!(rows("packets.json")[0]["note"], NOTE);
    assert_eq!(rows("counts.json")[0]["rooted"], 3);
    assert_eq!(rows("counts.json")[0]["note"], NOTE);
    assert_eq!(rows("bags.json")[0]["rooted"], 3);
    assert_eq!(rows("tokens.json")[0]["name"], NOTE);
    assert!(rows("record.json").iter().any(|act| act["what"] == "joined"));
    assert!(rows("signed-in.json").len() >= 2);
    let photos: Vec<&String> =
        files.iter().filter(|(name, _)| name.starts_with("photos/")).map(|(_, p)| p).collect();
    assert_eq!(photos, ["a picture"]);
    let all: String = files.values().cloned().collect();
    for secret in ["argon2", "secret_hash", "token_hash", "password_hash", &m.will.cookie("hilum")] {
        assert!(!all.contains(secret), "{secret} is in the file");
    }
    let hashes = texts(&m.club).await;
    let hashes: Vec<&str> =
        hashes.iter().filter_map(|t| t.split(": ").nth(1)).filter(|t| t.len() == 64).collect();
    assert!(
        !hashes.is_empty() && hashes.iter().all(|hash| !all.contains(hash)),
        "no hash of a secret is in the file"
    );
    assert!(!all.contains("Kim"), "what is others' is theirs");
    let mut conn = m.club.app.db.read().await.unwrap();
    let acts = audit::page(&mut conn, &Wanted::default(), 5, 0).await.unwrap();
    assert_eq!(acts[0].words(), "saved a copy of own data");
}

/// Every table that names members has its part in the file, or is known to hold nothing about one alone.
#[tokio::test]
async fn no_table_about_members_is_left_out_of_the_file() {
    const NOTHING_OWN: &[&str] = &[
        "once",
        "merges",
        "passkey_asks",
        "sources",
        "routine_versions",
        "other_clubs",
        "brought_in",
        "ring_packets",
    ];
    let club = Club::new().await;
    let all = hilum::own::copy::all_sql().concat();
    for table in tables(&club).await.iter().filter(|t| !NOTHING_OWN.contains(&t.as_str())) {
        let owned = ["member_id", "owner_id", "by_member", "made_by"];
        let mut about = false;
        for column in owned {
            let sql: &'static str =
                Box::leak(format!("SELECT {column} FROM {table} LIMIT 1").into_boxed_str());
            about |= club.app.db.read().await.unwrap().objects(sql, vec![]).await.is_ok();
        }
        assert!(!about || all.contains(table), "{table} is about members and not in the file");
    }
}

#[tokio::test]
async fn after_erasing_neither_name_nor_words_are_anywhere() {
    let m = Member::new().await;
    let before = texts(&m.club).await;
    for word in [NAME, SIGN_IN, NOTE] {
        assert!(!with(&before, word).is_empty(), "{word} is there before");
    }
    assert!(with(&before, NOTE).len() >= 7, "{:#?}", with(&before, NOTE));
    assert!(with(&before, NAME).len() >= 3, "{:#?}", with(&before, NAME));
    let table = m.ines.get("/counts.csv?names=yes").await.body;
    let counted = table.lines().count();
    assert!(counted > 1 && table.contains(NAME), "{table}");

    assert_eq!(m.photos().await, 1);
    let page = m.erase().await;
    assert_eq!((page.path.as_str(), m.photos().await), ("/sign-in?said=erased", 0));
    let after = texts(&m.club).await;
    for word in [NAME, SIGN_IN, NOTE] {
        assert!(with(&after, word).is_empty(), "{word}: {:#?}", with(&after, word));
    }
    nowhere(&m).await;
    let table = m.ines.get("/counts.csv?names=yes").await.body;
    assert_eq!(table.lines().count(), counted, "the counts stay");
    assert!(table.contains("Former member (WQ)"), "{table}");
    let breaches = hilum::upkeep::check::breaches(&m.club.app).await.unwrap();
    assert!(breaches.is_empty(), "{breaches:#?}");
}

/// Looks at every page and file that needs no id, as a grower and as an organiser.
async fn nowhere(m: &Member) {
    let addresses: Vec<String> =
        routes::all().into_iter().filter(|r| r.get && !r.path.contains('{')).map(|r| r.path).collect();
    assert!(addresses.len() > 40);
    for path in addresses {
        for browser in [&m.kim, &m.ines] {
            let page = browser.get(&path).await;
            for word in [NAME, SIGN_IN, NOTE] {
                assert!(!page.body.contains(word), "{word} is on {path}");
            }
        }
    }
    m.ines.get("/members").await.says("Former member (WQ)");
    m.ines.get("/members/record").await.says("erased own data and left").says("Former member (WQ)");
}

#[tokio::test]
async fn who_erased_everything_cannot_come_back_in_any_way() {
    let m = Member::new().await;
    let tokens = m.will.get("/me/tokens").await;
    let made = m.will.submit(&tokens, "/me/tokens", &[("name", "sensor")]).await;
    assert!(!made.all("#link").is_empty());
    let session = m.will.cookie("hilum");
    m.erase().await;
    assert_eq!(m.will.with_cookie("hilum", &session).get("/me").await.path, "/sign-in?next=%2Fme");
    for name in [SIGN_IN, "erased", &format!("erased {}", m.id)] {
        sign_in(&m.club, name, PASSWORD).await.1.refuses("password", "do not go together");
    }
    let invited = m.ines.submit(&m.ines.get("/members").await, "/members/invite", &[]).await;
    let other = m.club.stranger();
    let page = other.get(&link(&invited)).await;
    let fields = [("name", "Otto"), ("sign_in", SIGN_IN), ("letters", "WQ"), ("password", PASSWORD)];
    other.submit(&page, "", &fields).await.refuses("letters", "that are taken");
}

#[tokio::test]
async fn erasing_needs_a_fresh_proof_and_a_tick_and_another_organiser() {
    let m = Member::new().await;
    let page = m.will.get("/me/data").await;
    page.says("there is no way back").says("your letters on marks");
    m.will.submit(&page, "/me/data/erase", &[]).await.refuses("sure", "Please tick this");
    let last = m.ines.get("/me/data").await;
    m.ines.submit(&last, "/me/data/erase", &[("sure", "yes")]).await.refuses("sure", "this is the last one");
    m.ines.get("/me").await.says("Ines Brandt");

    m.club.pass_minutes(15);
    let page = m.will.get("/me/data").await;
    page.says("Both need a fresh proof");
    m.will.submit(&page, "/me/data/erase", &[("sure", "yes")]).await.says("Nothing was done yet");
    m.will.submit(&page, "/me/data/copy.zip", &[]).await.says("Nothing was done yet");
    m.will.get("/me").await.says(NAME);
    let proof = m.will.get(&page.link("Prove it with your password")).await;
    let back = m.will.submit(&proof, "/me/proof", &[("current", PASSWORD)]).await;
    assert_eq!((back.path.as_str(), back.status), ("/me/data", StatusCode::OK));
    let done = m.erase().await;
    assert_eq!(done.path, "/sign-in?said=erased");
    done.says("Your data is erased and your membership has ended.");
}
