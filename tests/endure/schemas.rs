//! The schema as it stood after earlier steps, with rows in it: kept in `tests/reference/schemas`, and how they are made.

use crate::support::{copied, empty, filled, fixture, tables_of, times, whole};
use hilum::backups::archive;
use hilum::db::Db;

/// The steps whose schemas are kept, oldest first.
pub const STEPS: &[i64] = &[7, 8, 10, 12, 13, 14, 15];

/// With `HILUM_MAKE_SCHEMA=14` writes `tests/reference/schemas/0014.zip` anew from the invented club of today; without,
/// it does the same for step 14 elsewhere.
#[tokio::test]
async fn a_fixture_is_what_the_invented_club_has_at_that_step() {
    let asked = i64::try_from(times("HILUM_MAKE_SCHEMA", 0)).unwrap();
    let step = if asked == 0 { 14 } else { asked };
    let ((url, data), (old_url, folder)) = (empty().await, empty().await);
    let db = Db::open(&url).await.unwrap();
    filled(&db, &url, data.path()).await;
    let old = copied(&db, &old_url, step).await;
    let to = if asked == 0 { folder.path().join("made.zip") } else { fixture(step) };
    assert_eq!(archive::write(&old, &to).await.unwrap(), step);
    let tables = tables_of(&old).await;
    assert_eq!(whole(&old, &tables).await, whole(&db, &tables).await);
    let filled = whole(&old, &tables).await.values().filter(|rows| !rows.is_empty()).count();
    assert!(filled * 10 > tables.len() * 8, "{filled} of {} tables have rows", tables.len());
}
