//! An older database brought up to date at the start: after a backup of it was taken, opened, and upgraded for a trial.

use super::build::{self, Built};
use super::names::Why;
use super::take::{self, Taken, Wanted, scratch_in};
use super::{Fault, store};
use crate::config::Config;
use crate::db::Db;
use crate::db::ids::At;
use crate::error::AppError;
use std::error::Error;

/// Opens the database of these settings; an older one is upgraded, all at once, by one process.
pub async fn open(config: &Config, now: At) -> anyhow::Result<Db> {
    let url = config.database();
    let mut before = None;
    let rehearse = async |from: i64| -> Result<(), Box<dyn Error + Send + Sync>> {
        let (taken, built) = rehearsed(config, now).await?;
        tracing::info!(
            "the schema goes on from step {from}; as it was, it is kept in {}",
            taken.path.display()
        );
        for breach in &built.breaches {
            tracing::warn!("after the upgrade: {breach}");
        }
        before = Some(taken);
        Ok(())
    };
    let db = Db::open_after(&url, rehearse).await.map_err(plain)?;
    if let Some(taken) = before {
        record(&db, config, &taken, now).await?;
    }
    Ok(db)
}

async fn rehearsed(config: &Config, now: At) -> Result<(Taken, Built), Fault> {
    let refused = |fault| Fault::Other(format!("The upgrade was not begun, nothing was changed. {fault}"));
    let wanted = Wanted { folder: take::folder(config), archive: false, why: Why::BeforeUpgrade };
    let taken = take::take(config, &wanted, now).await.map_err(refused)?;
    let scratch = scratch_in(&wanted.folder)?;
    let built = build::scratch(&taken.path, &scratch.path().join("club.db"), now).await.map_err(refused)?;
    Ok((taken, built))
}

async fn record(db: &Db, config: &Config, taken: &Taken, now: At) -> Result<(), AppError> {
    let mut conn = db.write().await?;
    store::record(&mut conn, &store::taken(taken, config), now).await?;
    Ok(conn.commit().await?)
}

/// The words of our own refusals, without the engine's before them.
fn plain(error: sqlx::Error) -> anyhow::Error {
    match error {
        sqlx::Error::Configuration(ours) => match ours.downcast::<crate::db::schema::Newer>() {
            Ok(newer) => anyhow::anyhow!("The database cannot be opened: {newer}."),
            Err(other) => anyhow::anyhow!("{other}"),
        },
        error => anyhow::anyhow!("The database cannot be opened: {error}."),
    }
}
