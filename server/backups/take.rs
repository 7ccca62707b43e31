//! One backup, while the program runs: written under another name, synced, opened and checked, and only then named.

use super::build::{self, synced};
use super::kind::Kind;
use super::names::{self, Why};
use super::{Fault, archive};
use crate::config::Config;
use crate::db::ids::At;
use crate::db::schema::Newer;
use crate::db::{Db, copy, file, migrate, schema};
use crate::notebook::check;
use crate::upkeep::folder;
use std::path::{Path, PathBuf};
use tempfile::{TempDir, TempPath};

/// The names of files in the making begin so.
const MAKING: &str = ".making-";

/// What backup is wanted.
#[derive(Debug, Clone)]
pub struct Wanted {
    pub folder: PathBuf,
    /// An archive also where the data are in SQLite.
    pub archive: bool,
    pub why: Why,
}

/// A backup that was opened and read again.
#[derive(Debug)]
pub struct Taken {
    pub path: PathBuf,
    pub bytes: u64,
    pub schema: i64,
    /// What the check finds in it; older schemas are not checked.
    pub breaches: Vec<String>,
}

/// Where backups of these settings go by default.
pub fn folder(config: &Config) -> PathBuf {
    config.backup_folder.clone().unwrap_or_else(|| config.data.join("backups"))
}

/// Where these settings put what a restore took the place of: not among the backups, since it may be damaged.
pub fn replaced(config: &Config) -> PathBuf {
    config.data.join("replaced")
}

/// Takes a backup of the database of these settings.
pub async fn take(config: &Config, wanted: &Wanted, now: At) -> Result<Taken, Fault> {
    let to = &wanted.folder;
    let url = config.database();
    if let Some(path) = file(&url).filter(|path| !path.exists()) {
        return Err(Fault::NoDatabase(path.display().to_string()));
    }
    ready(config, to)?;
    let scratch = scratch_in(to)?;
    let making = tempfile::Builder::new().tempfile_in(scratch.path());
    let making = making.map_err(|why| Fault::writing(to, why))?.into_temp_path();
    let engine = |error| Fault::engine(Path::new("The database"), to, error).of_the_club();
    let db = Db::as_it_is(&url).await.map_err(engine)?;
    let kind = if file(&url).is_none() || wanted.archive { Kind::Archive } else { Kind::Copy };
    let written = match kind {
        Kind::Archive => archive::write(&db, &making).await.map(drop),
        Kind::Copy => db.copy_into(&making).await.map_err(engine),
    };
    db.close().await;
    written.map_err(Fault::of_the_club)?;
    synced(&making).map_err(|why| Fault::writing(to, why))?;
    let (schema, breaches) = opened(&making, kind, scratch.path(), now).await?;
    if schema == 0 {
        return Err(Fault::NoDatabase("this address".to_owned()));
    }
    let bytes = std::fs::metadata(&making).map_err(|why| Fault::writing(to, why))?.len();
    let path = named(making, to, |nth| names::name(now, schema, wanted.why, nth, kind.ending()))?;
    Ok(Taken { path, bytes, schema, breaches })
}

/// Makes a folder of ours where it is missing. Others are not made: who gives one may have forgotten to plug its disk in.
fn ready(config: &Config, folder: &Path) -> Result<(), Fault> {
    if folder.parent() == Some(config.data.as_path()) {
        must_exist(&config.data)?;
        return folder::own_folder(folder).map_err(|why| Fault::writing(folder, why));
    }
    must_exist(folder)
}

/// Refuses a folder that is not there.
pub fn must_exist(folder: &Path) -> Result<(), Fault> {
    if folder.exists() { Ok(()) } else { Err(Fault::NoFolder(folder.to_owned())) }
}

/// Opens a backup as whoever needs it will.
async fn opened(making: &Path, kind: Kind, scratch: &Path, now: At) -> Result<(i64, Vec<String>), Fault> {
    if kind == Kind::Archive {
        let built = build::scratch(making, &scratch.join("club.db"), now).await?;
        return Ok((built.schema, built.breaches));
    }
    let db = Db::still(making).await.map_err(|error| Fault::engine(making, scratch, error))?;
    let read = read(&db, now).await;
    db.close().await;
    read.map_err(|fault| match fault {
        Fault::Engine(error) => Fault::engine(making, scratch, error),
        fault => fault,
    })
}

async fn read(db: &Db, now: At) -> Result<(i64, Vec<String>), Fault> {
    let mut conn = db.read().await.map_err(Fault::Engine)?;
    copy::integrity(&mut conn).await.map_err(Fault::Engine)?;
    copy::refer(&mut conn).await.map_err(Fault::Engine)?;
    let step = schema::step(&mut conn).await.map_err(Fault::Engine)?;
    Newer::refuse(step).map_err(|newer| Fault::Newer { path: PathBuf::from("The database"), newer })?;
    let breaches = if step == migrate::newest() {
        check::all(&mut conn, now).await.map_err(|e| Fault::checking(Path::new("The backup"), e))?
    } else {
        Vec::new()
    };
    Ok((step, breaches))
}

/// A folder beside the backups that is gone when it is dropped.
pub fn scratch_in(folder: &Path) -> Result<TempDir, Fault> {
    let made = tempfile::Builder::new().prefix(MAKING).tempdir_in(folder);
    made.map_err(|why| Fault::writing(folder, why))
}

/// Gives a finished file the first name that is free, and waits until the folder knows it.
fn named(mut making: TempPath, folder: &Path, name: impl Fn(u32) -> String) -> Result<PathBuf, Fault> {
    let mut nth = 1;
    loop {
        let path = folder.join(name(nth));
        match making.persist_noclobber(&path) {
            Ok(()) => {
                if let Err(why) = synced(folder) {
                    // said not to be there, so that nobody counts on it
                    let _ = std::fs::remove_file(&path);
                    return Err(Fault::writing(folder, why));
                }
                return Ok(path);
            }
            Err(taken) if taken.error.kind() == std::io::ErrorKind::AlreadyExists => {
                (making, nth) = (taken.path, nth + 1);
            }
            Err(other) => return Err(Fault::writing(&path, other.error)),
        }
    }
}

/// Removes what a backup that was cut short a day ago or more left behind.
pub fn tidy(folder: &Path) -> std::io::Result<()> {
    const DAY: std::time::Duration = std::time::Duration::from_hours(24);
    let fresh =
        tempfile::Builder::new().prefix(MAKING).tempfile_in(folder)?.as_file().metadata()?.modified()?;
    for entry in std::fs::read_dir(folder)?.flatten() {
        let ours = entry.file_name().to_string_lossy().starts_with(MAKING);
        let Ok(about) = entry.metadata() else { continue };
        if ours && about.modified().is_ok_and(|at| fresh.duration_since(at).is_ok_and(|age| age > DAY)) {
            let path = entry.path();
            if about.is_dir() { std::fs::remove_dir_all(path)? } else { std::fs::remove_file(path)? }
        }
    }
    Ok(())
}
