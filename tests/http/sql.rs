use crate::support::Club;
use hilum::db::Conn;

/// Every SQL text of the app is prepared on the engine under test, so that a mistake in one shows at once.
#[tokio::test]
async fn every_statement_prepares() {
    use sqlx::Executor;
    use sqlx::SqlSafeStr;
    let club = Club::new().await;
    let mut faults = Vec::new();
    for sql in hilum::all_sql() {
        let text = sql.into_sql_str();
        let prepared = match &mut club.app.db.write().await.unwrap() {
            Conn::SqliteWrite(c, _) => (&mut **c).prepare(text).await.map(drop),
            Conn::PostgresWrite(c, _) => (&mut **c).prepare(text).await.map(drop),
            _ => unreachable!("a write connection writes"),
        };
        faults.extend(prepared.err().map(|e| format!("{sql}\n  {e}")));
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}
