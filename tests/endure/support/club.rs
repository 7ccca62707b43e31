use super::START;
use super::database::{at, run, server};
use super::program::program;
use futures_util::StreamExt;
use hilum::app::App;
use hilum::args;
use hilum::backups::archive;
use hilum::config::Config;
use hilum::db::copy::{self, Table};
use hilum::db::{Db, migrate};
use hilum::rates::standing;
use hilum::upkeep::demo;
use serde_json::Value;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use tempfile::TempDir;

/// What a command said, and whether it went well.
#[derive(Debug)]
pub struct Told {
    pub good: bool,
    pub out: String,
    pub err: String,
}

impl From<Output> for Told {
    fn from(output: Output) -> Self {
        let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
        Self { good: output.status.success(), out: text(&output.stdout), err: text(&output.stderr) }
    }
}

/// The program on the database at `url`, with `data` for the rest, at the start of the tests' time.
pub fn hilum(url: &str, data: &Path) -> Command {
    let clock = data.join("clock");
    std::fs::create_dir_all(data).unwrap();
    std::fs::write(&clock, START.to_string()).unwrap();
    let mut command = Command::new(program());
    command.args(["--data", data.to_str().unwrap(), "--database-url", url]);
    command.args(["--clock-file", clock.to_str().unwrap()]);
    command
}

/// The address of a database of its own with nothing in it, and the folder that it is in.
pub async fn empty() -> (String, TempDir) {
    let folder = TempDir::new().unwrap();
    let Some(server) = server() else {
        return (format!("sqlite:{}", folder.path().join("club.db").display()), folder);
    };
    let name = format!("hilum_empty_{}", uuid::Uuid::new_v4().simple());
    run(&server, &format!("CREATE DATABASE {name} TEMPLATE template0 LC_COLLATE 'C' LC_CTYPE 'C.UTF-8'"))
        .await;
    (at(&server, &name), folder)
}

/// The invented club in the migrated database `db`, and a row of whatever it leaves empty.
pub async fn filled(db: &Db, url: &str, data: &Path) {
    let clock_file = data.join("clock");
    std::fs::write(&clock_file, START.to_string()).unwrap();
    let config = Config {
        data: data.to_owned(),
        database_url: Some(url.to_owned()),
        clock_file: Some(clock_file),
        ..Config::default()
    };
    let clock = config.clock();
    let app = App::new(db.clone(), config, clock);
    demo::club(&app).await.unwrap();
    standing::refresh(&app).await.unwrap();
    let mut conn = db.write().await.unwrap();
    for sql in EXTRAS {
        conn.run(sql, args![]).await.unwrap();
    }
    let photo: Vec<u8> = (0..6000_u32).map(|n| (n * n % 251) as u8).collect();
    let sql = "INSERT INTO photos (id, entry_id, jpeg, small, small_width, small_height)
        SELECT 'photo', MIN(entry_id), $1, $2, 3, 4 FROM looks";
    conn.run(sql, args![photo.clone(), photo[..99].to_vec()]).await.unwrap();
    let sql = "INSERT INTO uploads (id, member_id, sort, name, bytes, made_at)
        SELECT 'upload', MIN(id), 'counts', 'b\\a\\tc', $1, 5 FROM members";
    conn.run(sql, args![Vec::<u8>::new()]).await.unwrap();
    let sql = "UPDATE packets SET note = $1, seeds_per_gram = $2 WHERE id = (SELECT MIN(id) FROM packets)";
    conn.run(sql, args!["tab\tline\nreturn\rback\\slash \"quoted\" é 🌶 \\N", 0.1 + 0.2]).await.unwrap();
    conn.commit().await.unwrap();
}

/// Of the tables that the invented club leaves empty; doubles of every size, truth, days, and what is not known.
const EXTRAS: &[&str] = &[
    "INSERT INTO links (id, token_hash, purpose, role, member_id, made_by, made_at, expires_at, used_at, used_by)
     SELECT 'link', 'hash', 'reset', 'grower', MIN(id), NULL, 5, 6, NULL, NULL FROM members",
    "INSERT INTO sessions (token_hash, member_id, made_at, seen_at, expires_at)
     SELECT 'hash', MIN(id), 5, 6, 7 FROM members",
    "INSERT INTO once (key, member_id, action, digest, location, at)
     SELECT 'a-key-of-sixteen-or-more', MIN(id), 'look', 'digest', '/', 5 FROM members",
    "INSERT INTO merges (id, about, from_id, into_id, by_member, at, undone_by, undone_at)
     SELECT 'merge', 'source', 'a', 'b', MIN(id), 5, MIN(id), 6 FROM members",
    "INSERT INTO solutions (id, made_by, agent, stock_percent, percent, opened_on, volume_ml, vials, discard_at, note, made_at)
     SELECT 'solution', MIN(id), 'peroxide', 3, 0.5, '2026-02-28', 12.000000000000002, 3, NULL, '', 5 FROM members",
    "INSERT INTO marks (key, shown, thing, thing_id, made_at) VALUES ('ZZH1', 'ZZH 1', 'holder', 'holder', 5)",
    "INSERT INTO holders (id, owner_id, mark_key, mark, place, warmth_c, made_at, gone_at)
     SELECT 'holder', MIN(id), 'ZZH1', 'ZZH 1', 'mat', -0.5, 5, NULL FROM members",
    "INSERT INTO rings (id, name, variety_id, difference, certainty, lots_each, bags, bag_seeds, made_by, made_at, drawn_at,
       blind_lot, opened_at, opened_by, why, given_up_at, version)
     SELECT 'ring', 'Ring', MIN(v.id), 20, 90, 2, 2, 10, MIN(m.id), 5, NULL, NULL, NULL, NULL, '', NULL, 1
     FROM varieties v CROSS JOIN members m",
    "INSERT INTO ring_lots (ring_id, place, packet_id) SELECT 'ring', 0, MIN(id) FROM packets",
    "INSERT INTO ring_growers (ring_id, member_id) SELECT 'ring', MIN(id) FROM members",
    "INSERT INTO feeds (member_id, secret_hash, made_at) SELECT MIN(id), 'hash', 5 FROM members",
    "INSERT INTO tokens (id, member_id, secret_hash, name, may, made_at, expires_at, used_at, ended_at)
     SELECT 'token', MIN(id), 'hash', 'sensor', 'read', 5, NULL, NULL, 9 FROM members",
    "INSERT INTO label_sheets (id, owner_id, name, name_key, shared, page_width, page_height, from_left, from_top, width,
       height, pitch_x, pitch_y, across, down, nudge_x, nudge_y, made_at)
     SELECT 'sheet', MIN(id), 'A', 'a', TRUE, 210.5, 297, 1e-300, 0.1, 1.0000000000000002, 63.5, 72.3, 99.9, 3, 7, -0.3,
       2.5, 5 FROM members",
    "INSERT INTO cards (id, owner_id, number, card_key, made_at) SELECT 'card', MIN(id), 1, 'ZZ-1', 5 FROM members",
    "INSERT INTO card_bags (card_id, place, bag_id) SELECT 'card', 1, MIN(id) FROM bags",
    "INSERT INTO plans (id, owner_id, name, name_key, routine_id, bag_seeds, warmth_c, tray_rows, tray_cols, certainty,
       mat_bags, trays, made_at) SELECT 'plan', MIN(m.id), '2026', '2026', MIN(r.id), 10, 28.5, 6, 12, 90, NULL, 4, 5
     FROM members m CROSS JOIN routines r",
    "INSERT INTO plan_lines (id, plan_id, variety_id, source_id, plants, ready_on, certainty, raise_weeks, warmth_c,
       made_at, gone_at, version) SELECT 'line', 'plan', MIN(id), NULL, 12, '2026-05-15', NULL, 8, NULL, 5, NULL, 1
     FROM varieties",
    "INSERT INTO promises (id, line_id, packet_id, owner_id, seeds, start_on, made_at, ended_at, how, trial_id)
     SELECT 'promise', 'line', p.id, p.owner_id, 1, '2026-03-09', 5, 9, 'withdrawn', NULL
     FROM packets p WHERE p.id = (SELECT MIN(id) FROM packets)",
    "INSERT INTO brought_in (member_id, digest, line, entry_id)
     SELECT MIN(id), '0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef', 1, NULL FROM members",
    "INSERT INTO installation (id, code) VALUES (1, '0123456789abcdef0123456789abcdef') ON CONFLICT (id) DO NOTHING",
    "INSERT INTO other_clubs (code, name, counts, names, seeds, bags, growers, made_on, licence, used, by_member, at,
       removed_at, version) SELECT 'ffffffffffffffffffffffffffffffff', 'The others', '', '{}', 9, 1, 1, '2025-11-30',
       'CC-BY-4.0', FALSE, MIN(id), 5, NULL, 1 FROM members",
    "INSERT INTO devices (secret_hash, member_id, made_at, used_at) SELECT 'hash', MIN(id), 5, 6 FROM members",
    "INSERT INTO passkeys (id, member_id, credential, name, document, made_at, used_at)
     SELECT 'passkey', MIN(id), 'credential', 'phone', '{}', 5, NULL FROM members",
    "INSERT INTO passkey_asks (secret_hash, member_id, document, expires_at) VALUES ('hash', NULL, '{}', 7)",
    "INSERT INTO audit (id, at, what, by_member, about_member, more)
     SELECT 'deed', 5, 'signed in', NULL, MIN(id), '' FROM members",
    "INSERT INTO backups (id, made_at, file, bytes, problem, tried_at, tried_problem)
     VALUES ('backup', 5, '', 0, 'The disk is full.', NULL, '')",
];

/// The newest of the fixtures.
pub const LAST: i64 = 23;

/// The archive of the schema after `step`, with rows.
pub fn fixture(step: i64) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("tests/reference/schemas/{step:04}.zip"))
}

/// What stands in a database, by table; a row as one line.
pub type Whole = BTreeMap<String, Vec<String>>;

/// All rows of `tables`, which may be those of an older schema.
pub async fn whole(db: &Db, tables: &[Table]) -> Whole {
    let mut conn = db.snapshot().await.unwrap();
    let mut whole = BTreeMap::new();
    for table in tables {
        let rows: Vec<String> =
            copy::rows(&mut conn, table).map(|row| Value::from(row.unwrap()).to_string()).collect().await;
        whole.insert(table.name.clone(), rows);
    }
    whole
}

pub async fn tables_of(db: &Db) -> Vec<Table> {
    copy::tables(&mut db.read().await.unwrap()).await.unwrap()
}

/// Copies what an older schema holds of `from` into the empty database at `url`, at the schema after `step`.
pub async fn copied(from: &Db, url: &str, step: i64) -> Db {
    let into = Db::alone(url).await.unwrap();
    let mut conn = into.write().await.unwrap();
    migrate::up_to(&mut conn, step).await.unwrap();
    let held = copy::loosen(&mut conn).await.unwrap();
    let mut old = from.snapshot().await.unwrap();
    for table in copy::tables(&mut conn).await.unwrap() {
        let names: Vec<String> = table.columns.iter().map(|c| c.name.clone()).collect();
        let rows: Vec<Vec<Value>> = copy::rows(&mut old, &table).map(|row| row.unwrap()).collect().await;
        for some in rows.chunks(500) {
            copy::put(&mut conn, &table, &names, some).await.unwrap();
        }
    }
    copy::tighten(&mut conn, held).await.unwrap();
    conn.commit().await.unwrap();
    into
}

/// The fixture of `step` in the empty database at `url`.
pub async fn at_step(url: &str, step: i64) {
    let db = Db::alone(url).await.unwrap();
    let mut conn = db.write().await.unwrap();
    assert_eq!(archive::fill(&mut conn, &fixture(step)).await.unwrap(), step);
    conn.commit().await.unwrap();
    db.close().await;
}

/// A club of today in the empty database at `url`: the last fixture, brought up to date.
pub async fn grown(url: &str) {
    at_step(url, LAST).await;
    Db::open(url).await.unwrap().close().await;
}
