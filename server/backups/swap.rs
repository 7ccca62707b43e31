//! A SQLite file put in the place of another, which is kept.

use super::Fault;
use super::build::synced;
use super::names::{self, Why};
use super::restore::Kept;
use crate::db::ids::At;
use crate::db::{Db, schema};
use crate::upkeep::folder;
use std::ffi::OsString;
use std::path::{Path, PathBuf};

/// What stands where a backup is to be restored.
pub struct Place {
    /// A club, or a file that cannot be read as a database.
    pub filled: bool,
    /// Its step of the schema, where that can be read.
    schema: i64,
    damaged: bool,
}

/// Looks at the place; refused where somebody has it open. An open journal is put away.
pub async fn look(target: &Path) -> Result<Place, Fault> {
    if !target.exists() {
        return Ok(Place { filled: false, schema: 0, damaged: false });
    }
    let unreadable = Place { filled: true, schema: 0, damaged: true };
    let Ok(db) = Db::as_it_is(&format!("sqlite:{}", target.display())).await else { return Ok(unreadable) };
    let db = db.aside();
    let place = match db.in_use().await {
        Ok(true) => Err(Fault::InUse),
        Ok(false) => Ok(read(&db).await.unwrap_or(unreadable)),
        Err(_) => Ok(unreadable),
    };
    db.close().await;
    place
}

async fn read(db: &Db) -> Result<Place, sqlx::Error> {
    let mut conn = db.read().await?;
    let (filled, schema) = (schema::is_filled(&mut conn).await?, schema::step(&mut conn).await?);
    drop(conn);
    Ok(Place { filled, schema, damaged: !db.faults().await.is_ok_and(|found| found.is_empty()) })
}

/// Puts the finished file `scratch` at `target`, in one step. What stood there is kept in `folder`; a journal that
/// belongs to what is gone would be read into the new file, so it goes first.
pub fn swap(
    scratch: &Path,
    target: &Path,
    place: &Place,
    folder: &Path,
    now: At,
) -> Result<Option<Kept>, Fault> {
    let kept = if place.filled { Some(keep(target, place, folder, now)?) } else { None };
    for ending in ["-shm", "-wal"] {
        let journal = beside(target, ending);
        if journal.exists() {
            std::fs::remove_file(&journal).map_err(|why| Fault::writing(&journal, why))?;
        }
    }
    let wrong = |why| Fault::writing(target, why);
    std::fs::rename(scratch, target).map_err(wrong)?;
    synced(target.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."))).map_err(wrong)?;
    Ok(kept)
}

fn keep(target: &Path, place: &Place, folder: &Path, now: At) -> Result<Kept, Fault> {
    folder::own_folder(folder).map_err(|why| Fault::writing(folder, why))?;
    let why = if place.damaged { Why::Damaged } else { Why::Replaced };
    let named = |nth| folder.join(names::name(now, place.schema, why, nth, "db"));
    let kept = (1..).map(named).find(|path| !path.exists()).unwrap_or_default();
    for ending in ["", "-wal"] {
        let (from, to) = (beside(target, ending), beside(&kept, ending));
        if from.exists() {
            let copied = std::fs::copy(&from, &to).and_then(|_| folder::own_file(&to));
            copied.and_then(|()| synced(&to)).map_err(|why| Fault::writing(&to, why))?;
        }
    }
    synced(folder).map_err(|why| Fault::writing(folder, why))?;
    Ok(Kept { path: kept, damaged: place.damaged })
}

fn beside(path: &Path, ending: &str) -> PathBuf {
    let mut name = OsString::from(path.as_os_str());
    name.push(ending);
    PathBuf::from(name)
}
