//! Backups by themselves: by one process at a time, tried out afterwards; old ones make room.

use super::here::last_good;
use super::names::Why;
use super::store::{self, Outcome, Row};
use super::take::{self, Taken, Wanted, folder, scratch_in};
use super::{Fault, build, keep};
use crate::app::App;
use crate::audit::{self, Deed, What};
use crate::db::ids::{At, BackupId};
use crate::db::schema;
use crate::error::AppError;
use crate::leases;
use anyhow::Context;
use std::path::Path;
use std::time::Duration;

const JOB: &str = "backup";
/// A process that died in a backup blocks the next for so long.
const LEASE_MINUTES: i64 = 60;
const PAUSE: Duration = Duration::from_secs(60);
/// After a backup that did not come about.
const AGAIN_MINUTES: i64 = 60;

/// Takes backups when they are due, for as long as the program runs.
pub async fn keep_going(app: App) {
    if app.config.backup_every == 0 {
        return;
    }
    loop {
        tokio::time::sleep(PAUSE).await;
        if let Err(error) = when_due(&app).await {
            tracing::error!("no backup: {error:#}");
        }
    }
}

/// Takes a backup where one is due, and tries it out; whether it did. Left to the process that is at it already.
pub async fn when_due(app: &App) -> Result<bool, AppError> {
    if !is_due(app).await? {
        return Ok(false);
    }
    let (now, holder) = (app.now(), uuid::Uuid::new_v4().simple().to_string());
    let mut conn = app.db.write().await?;
    let ours = leases::take(&mut conn, JOB, &holder, now, now.plus_minutes(LEASE_MINUTES)).await?;
    conn.commit().await?;
    if !ours {
        return Ok(false);
    }
    // another process may have taken it between the look and the lease
    let due = is_due(app).await?;
    let done = if due { take_and_try(app).await } else { Ok(()) };
    let mut conn = app.db.write().await?;
    leases::give_back(&mut conn, JOB, &holder).await?;
    conn.commit().await?;
    done.map(|()| due)
}

/// Never of a damaged database: what was kept of it while it was sound is worth more.
async fn is_due(app: &App) -> Result<bool, AppError> {
    if app.config.backup_every == 0 || app.db.damaged() {
        return Ok(false);
    }
    let mut conn = app.db.read().await?;
    if !schema::is_filled(&mut conn).await? {
        return Ok(false);
    }
    let since = |row: &Row| (app.now().0 - row.made_at.0) / 60;
    // what came about and is gone from here is no reason to wait
    let failed = store::latest(&mut conn).await?.first().filter(|row| !row.problem.is_empty()).map(since);
    let good = last_good(&mut conn, &app.config).await?.as_ref().map(since);
    let long_ago = |minutes: Option<i64>, most: i64| minutes.is_none_or(|m| m >= most || m < 0);
    Ok(long_ago(good, app.config.backup_every * 60) && long_ago(failed, AGAIN_MINUTES))
}

async fn take_and_try(app: &App) -> Result<(), AppError> {
    let (config, now) = (&app.config, app.now());
    let wanted = Wanted { folder: folder(config), archive: false, why: Why::Safety };
    match take::take(config, &wanted, now).await {
        Err(fault) => {
            record(app, &Outcome { problem: fault.to_string(), ..Outcome::default() }).await?;
            Err(anyhow::anyhow!("{fault}").into())
        }
        Ok(taken) => {
            let id = record(app, &store::taken(&taken, config)).await?;
            tracing::info!("backup {}, {} bytes", taken.path.display(), taken.bytes);
            let problem = try_out(&taken.path, &wanted.folder, now).await;
            let mut conn = app.db.write().await?;
            store::tried(&mut conn, &id, &problem, app.now()).await?;
            conn.commit().await?;
            if taken.breaches.is_empty() && problem.is_empty() {
                make_room(&wanted.folder, now, config.backup_keep).context("old backups were not removed")?;
            }
            Ok(())
        }
    }
}

async fn record(app: &App, outcome: &Outcome) -> Result<BackupId, AppError> {
    let mut conn = app.db.write().await?;
    let id = store::record(&mut conn, outcome, app.now()).await?;
    conn.commit().await?;
    Ok(id)
}

/// Writes down a backup that was taken by hand, into whichever folder.
pub async fn write_down(app: &App, taken: &Taken) -> Result<(), AppError> {
    let mut conn = app.db.write().await?;
    store::record(&mut conn, &store::taken(taken, &app.config), app.now()).await?;
    audit::note(&mut conn, Deed::host(What::BackupTaken), app.now()).await?;
    Ok(conn.commit().await?)
}

/// Restores a backup to a scratch place and checks it; what is wrong, or nothing.
pub async fn try_out(backup: &Path, folder: &Path, now: At) -> String {
    let tried = async {
        let scratch = scratch_in(folder)?;
        let built = build::scratch(backup, &scratch.path().join("club.db"), now).await?;
        Ok::<_, Fault>(store::said(&built.breaches))
    };
    tried.await.unwrap_or_else(|fault| fault.to_string())
}

fn make_room(folder: &Path, now: At, days: i64) -> std::io::Result<()> {
    take::tidy(folder)?;
    let files = std::fs::read_dir(folder)?.flatten().map(|e| e.file_name().to_string_lossy().into_owned());
    for file in keep::surplus(&files.collect::<Vec<_>>(), now, days) {
        std::fs::remove_file(folder.join(file))?;
    }
    Ok(())
}
