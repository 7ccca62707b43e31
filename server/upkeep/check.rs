//! `hilum check`: the invariants of a whole database, while it is in use or not.

use crate::app::App;
use crate::error::AppError;
use crate::notebook::check;

/// Every breach of I1 to I9, one sentence each, or else what the engine finds damaged. Somebody may be saving
/// meanwhile, so a breach counts only when a second pass finds it unchanged.
pub async fn breaches(app: &App) -> Result<Vec<String>, AppError> {
    let damaged = app.db.faults().await?;
    if !damaged.is_empty() {
        tracing::debug!(found = damaged.join("; "), "what the engine finds");
        return Ok(vec![
            "The database is damaged: not all of it can be read. Restore the last backup.".into(),
        ]);
    }
    let mut conn = app.db.read().await?;
    let mut found = check::all(&mut conn, app.now()).await?;
    if !found.is_empty() {
        let again = check::all(&mut conn, app.now()).await?;
        found.retain(|breach| again.contains(breach));
    }
    Ok(found)
}
