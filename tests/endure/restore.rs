//! How long a restore takes. `HILUM_RESTORE_COUNTS=1000000 cargo test --test endure restore:: -- --nocapture` for the long
//! run, with a program built for release.

use crate::support::{Told, empty, grown, hilum, times};
use hilum::args;
use hilum::db::{Db, FromRow};
use std::path::PathBuf;
use std::time::{Duration, Instant};
use tempfile::TempDir;

/// Counts without news, at the moments of those that are there: no sum changes.
const ENTRIES: &str = "INSERT INTO entries (id, act_id, save_key, what, packet_id, trial_id, bag_id, tray_id, planting_id,
      by_member, at, recorded_at, note)
    WITH RECURSIVE n (i) AS (SELECT CAST(1 AS BIGINT) UNION ALL SELECT i + 1 FROM n WHERE i < CAST($1 AS BIGINT))
    SELECT 'load-' || e.id || '-' || n.i, 'load-' || e.id || '-' || n.i, 'load-' || e.id || '-' || n.i, e.what, e.packet_id,
      e.trial_id, e.bag_id, e.tray_id, e.planting_id, e.by_member, e.at, e.recorded_at, ''
    FROM entries e CROSS JOIN n WHERE e.what = 'look' AND NOT EXISTS (SELECT 1 FROM voids v WHERE v.entry_id = e.id)";
const LOOKS: &str = "INSERT INTO looks (entry_id, rooted, abnormal, dead)
    SELECT id, 0, 0, 0 FROM entries WHERE id LIKE 'load-%'";
/// Brings what looks found up to date beside each bag, as this step does for an older club.
const STEP: &str = include_str!("../../migrations/0020_findings.sql");
const COUNTS: &str = "SELECT COUNT(*) AS n FROM looks";
const LIMIT: Duration = Duration::from_secs(60);

#[derive(FromRow)]
struct Tally {
    n: i64,
}

async fn counts(db: &Db) -> i64 {
    db.read().await.unwrap().one::<Tally>(COUNTS, args![]).await.unwrap().n
}

async fn loaded(db: &Db, wanted: i64) -> i64 {
    let there = counts(db).await;
    let mut conn = db.write().await.unwrap();
    conn.run(ENTRIES, args![(wanted - there).max(there) / there]).await.unwrap();
    conn.run(LOOKS, args![]).await.unwrap();
    let found = &STEP[STEP.find("UPDATE bags").unwrap()..];
    conn.run(found.trim_end().trim_end_matches(';'), args![]).await.unwrap();
    conn.commit().await.unwrap();
    counts(db).await
}

#[tokio::test(flavor = "multi_thread")]
async fn many_counts_are_back_within_a_minute() {
    let (url, data) = empty().await;
    grown(&url).await;
    let db = Db::open(&url).await.unwrap();
    let loaded = loaded(&db, i64::try_from(times("HILUM_RESTORE_COUNTS", 20_000)).unwrap()).await;
    db.close().await;
    for archive in [false, true] {
        let folder = TempDir::new().unwrap();
        let (mut backup, began) = (hilum(&url, data.path()), Instant::now());
        backup.args(["backup", "--to", folder.path().to_str().unwrap()]);
        let told = Told::from(if archive { backup.arg("--archive") } else { &mut backup }.output().unwrap());
        assert!(told.good, "{told:?}");
        let file = PathBuf::from(told.out.split(" (").next().unwrap());
        let (back, elsewhere) = empty().await;
        let (took, began) = (began.elapsed(), Instant::now());
        let told = Told::from(hilum(&back, elsewhere.path()).arg("restore").arg(&file).output().unwrap());
        let restored = began.elapsed();
        assert!(told.good, "{told:?}");
        let back = Db::as_it_is(&back).await.unwrap();
        assert_eq!(counts(&back).await, loaded);
        let name = file.extension().unwrap().to_string_lossy().into_owned();
        println!("{loaded} counts, {}, {name}: backup {took:?}, restore {restored:?}", back.engine());
        assert!(restored < LIMIT, "{restored:?}");
    }
}
