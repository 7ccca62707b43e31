//! The schema as it stood after earlier steps, with rows in it: kept in `tests/reference/schemas`, and how they are made.

use crate::support::{copied, empty, filled, fixture, tables_of, times, whole};
use hilum::backups::archive;
use hilum::db::Db;

/// The steps whose schemas are kept, oldest first.
pub const STEPS: &[i64] = &[7, 8, 10, 12, 13, 14, 15];

/// With `HILUM_MAKE_SCHEMAS=1` writes all of `tests/reference/schemas` anew from the invented club of today; without,
/// it does the same for step 14 elsewhere.
#[tokio::test]
async fn a_fixture_is_what_the_invented_club_has_at_that_step() {
    let all = times("HILUM_MAKE_SCHEMAS", 0) > 0;
    let (url, data) = empty().await;
    let db = Db::open(&url).await.unwrap();
    filled(&db, &url, data.path()).await;
    for step in STEPS.iter().copied().filter(|step| all || *step == 14) {
        let (old_url, folder) = empty().await;
        let old = copied(&db, &old_url, step).await;
        let to = if all { fixture(step) } else { folder.path().join("made.zip") };
        assert_eq!(archive::write(&old, &to).await.unwrap(), step);
        let tables = tables_of(&old).await;
        let rows = whole(&old, &tables).await;
        assert_eq!(rows, whole(&db, &tables).await);
        let filled = rows.values().filter(|rows| !rows.is_empty()).count();
        assert!(filled * 10 > tables.len() * 8, "{filled} of {} tables have rows", tables.len());
    }
}
