//! The schema as it stood after earlier steps, with rows in it: kept in `tests/reference/schemas`, and how they are made.

use crate::support::{copied, empty, filled, fixture, tables_of, times, whole};
use hilum::backups::archive;
use hilum::db::Db;

/// The steps whose schemas are kept, oldest first.
pub const STEPS: &[i64] = &[7, 8, 10, 12, 13, 14, 15, 19, 20, 21, 23];

/// `HILUM_MAKE_SCHEMAS=23` writes that of step 23 into `tests/reference/schemas`, from the invented club of today; without,
/// it does the same for step 14 elsewhere.
#[tokio::test]
async fn a_fixture_is_what_the_invented_club_has_at_that_step() {
    let wanted = i64::try_from(times("HILUM_MAKE_SCHEMAS", 0)).unwrap();
    let step = if wanted > 0 { wanted } else { 14 };
    let (url, data) = empty().await;
    let db = Db::open(&url).await.unwrap();
    filled(&db, &url, data.path()).await;
    let (old_url, folder) = empty().await;
    let old = copied(&db, &old_url, step).await;
    let to = if wanted > 0 { fixture(step) } else { folder.path().join("made.zip") };
    assert_eq!(archive::write(&old, &to).await.unwrap(), step);
    let tables = tables_of(&old).await;
    let rows = whole(&old, &tables).await;
    assert_eq!(rows, whole(&db, &tables).await);
    let filled = rows.values().filter(|rows| !rows.is_empty()).count();
    assert!(filled * 10 > tables.len() * 8, "{filled} of {} tables have rows", tables.len());
}
