//! A backup in the place of a database, all of it or nothing.

use super::build::{self, Built};
use super::kind::Kind;
use super::names::Why;
use super::take::{self, Taken, Wanted, scratch_in};
use super::ways_in::{self, Ended};
use super::{Fault, archive, swap};
use crate::config::Config;
use crate::db::ids::At;
use crate::db::{Conn, Db, copy, file, schema};
use crate::upkeep::folder;
use std::path::{Path, PathBuf};

/// Which file, and how far it may go.
#[derive(Debug, Clone)]
pub struct Order {
    pub file: PathBuf,
    /// Also where a club is in the database; that is kept as a backup.
    pub replace: bool,
    /// Also what breaks an invariant.
    pub despite_breaches: bool,
    /// Nothing is ended and nothing written down: for a club that moves, not one that goes back.
    pub as_it_was: bool,
}

impl Order {
    fn accept(&self, built: &Built) -> Result<(), Fault> {
        if built.breaches.is_empty() || self.despite_breaches {
            return Ok(());
        }
        Err(Fault::Breaches(built.breaches.clone()))
    }
}

/// What was restored.
#[derive(Debug)]
pub struct Restored {
    /// The step of the schema that the backup was of; the database is up to date.
    pub schema: i64,
    pub breaches: Vec<String>,
    /// What stood there before.
    pub kept: Option<Kept>,
    /// What was ended.
    pub ended: Option<Ended>,
}

/// Where what stood there before is put aside.
#[derive(Debug)]
pub struct Kept {
    pub path: PathBuf,
    pub damaged: bool,
}

/// Restores into the database of these settings. An error means that nothing was changed.
pub async fn restore(config: &Config, order: &Order, now: At) -> Result<Restored, Fault> {
    Kind::of(&order.file)?;
    take::must_exist(&config.data)?;
    folder::closed(&config.data).map_err(|why| Fault::Other(format!("{why:#}.")))?;
    let url = config.database();
    match file(&url) {
        Some(target) => into_sqlite(config, order, target, now).await,
        None => into_postgres(config, order, &url, now).await,
    }
}

async fn into_sqlite(config: &Config, order: &Order, target: &Path, now: At) -> Result<Restored, Fault> {
    let place = swap::look(target).await?;
    if place.filled && !order.replace {
        return Err(Fault::NotEmpty);
    }
    let beside = target.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let scratch = scratch_in(beside)?;
    let club = scratch.path().join("club.db");
    let built = build::scratch(&order.file, &club, now).await?;
    order.accept(&built)?;
    // somebody may have started the program meanwhile
    let place = swap::look(target).await?;
    if place.filled && !order.replace {
        return Err(Fault::NotEmpty);
    }
    let ended = if order.as_it_was { None } else { Some(ended_in(&club, order, now).await?) };
    let kept = swap::swap(&club, target, &place, &take::replaced(config), now)?;
    Ok(Restored { schema: built.schema, breaches: built.breaches, kept, ended })
}

/// Ends in the finished file `club` what a restore ends.
async fn ended_in(club: &Path, order: &Order, now: At) -> Result<Ended, Fault> {
    let engine = |error| Fault::engine(&order.file, club, error);
    let db = Db::alone(&format!("sqlite:{}", club.display())).await.map_err(engine)?.aside();
    let ended = async {
        let mut conn = db.write().await.map_err(engine)?;
        let ended = ways_in::end(&mut conn, &order.file, now).await?;
        conn.commit().await.map_err(engine)?;
        Ok(ended)
    };
    let ended = ended.await;
    db.close().await;
    build::synced(club).map_err(|why| Fault::writing(club, why))?;
    ended
}

async fn into_postgres(config: &Config, order: &Order, url: &str, now: At) -> Result<Restored, Fault> {
    let (scratch, from) = as_archive(config, order).await?;
    let engine = |error| Fault::engine(&order.file, Path::new("PostgreSQL's own disk"), error);
    let db = Db::alone(url).await.map_err(engine)?;
    let restored = async {
        if db.in_use().await.map_err(engine)? {
            return Err(Fault::InUse);
        }
        let mut conn = db.write().await.map_err(engine)?;
        schema::take_turn(&mut conn).await.map_err(engine)?;
        let kept = emptied(&mut conn, config, order, now).await?;
        let schema = archive::fill(&mut conn, &from).await?;
        let built = build::finish(&mut conn, schema, &order.file, now).await?;
        order.accept(&built)?;
        let ended =
            if order.as_it_was { None } else { Some(ways_in::end(&mut conn, &order.file, now).await?) };
        conn.commit().await.map_err(engine)?;
        let kept = kept.map(|taken| Kept { path: taken.path, damaged: false });
        Ok(Restored { schema, breaches: built.breaches, kept, ended })
    };
    let restored = restored.await;
    db.close().await;
    drop(scratch);
    restored
}

/// The file as an archive: a copy of a SQLite database is made into one, in a folder that goes when it is dropped.
async fn as_archive(config: &Config, order: &Order) -> Result<(Option<tempfile::TempDir>, PathBuf), Fault> {
    if Kind::of(&order.file)? == Kind::Archive {
        return Ok((None, order.file.clone()));
    }
    let scratch = scratch_in(&config.data)?;
    let made = scratch.path().join("club.zip");
    let engine = |error| Fault::engine(&order.file, &made, error);
    let db = Db::still(&order.file).await.map_err(engine)?;
    let sound = copy::integrity(&mut db.read().await.map_err(engine)?).await.map_err(engine);
    let written = match sound {
        Ok(()) => archive::write(&db, &made).await,
        Err(fault) => Err(fault),
    };
    db.close().await;
    if written? == 0 {
        return Err(Fault::NotABackup(order.file.clone()));
    }
    Ok((Some(scratch), made))
}

/// Takes the tables away within the transaction, once a club in them is kept as a backup.
async fn emptied(conn: &mut Conn, config: &Config, order: &Order, now: At) -> Result<Option<Taken>, Fault> {
    let engine = |error| Fault::engine(&order.file, &order.file, error);
    let kept = if schema::is_filled(conn).await.map_err(engine)? {
        if !order.replace {
            return Err(Fault::NotEmpty);
        }
        let wanted = Wanted { folder: take::replaced(config), archive: true, why: Why::Replaced };
        Some(take::take(config, &wanted, now).await?)
    } else {
        None
    };
    copy::clear(conn).await.map_err(engine)?;
    Ok(kept)
}
