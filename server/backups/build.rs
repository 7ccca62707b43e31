//! A backup made into a database again: in a scratch file, or inside a transaction of PostgreSQL.

use super::{Fault, archive, kind::Kind};
use crate::db::ids::At;
use crate::db::schema::Newer;
use crate::db::{Conn, Db, copy, migrate, schema};
use crate::notebook::check;
use crate::upkeep::folder;
use std::path::Path;

/// A database made from a backup.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Built {
    /// The step of the schema the backup is of.
    pub schema: i64,
    /// What the check finds in it, once its schema is up to date.
    pub breaches: Vec<String>,
}

/// Makes the SQLite file `scratch` from the backup `from`, brings its schema up to date and checks it; `from` stays as
/// it is. Where this fails, what is at `scratch` is worth nothing.
pub async fn scratch(from: &Path, scratch: &Path, now: At) -> Result<Built, Fault> {
    let kind = Kind::of(from)?;
    if kind == Kind::Copy {
        tokio::fs::copy(from, scratch).await.map_err(|why| Fault::writing(scratch, why))?;
    }
    folder::own_file(scratch).map_err(|why| Fault::writing(scratch, why))?;
    let engine = |error| Fault::engine(from, scratch, error);
    let db = Db::alone(&format!("sqlite:{}", scratch.display())).await.map_err(engine)?.aside();
    let built = async {
        let mut conn = db.write().await.map_err(engine)?;
        let schema = match kind {
            Kind::Copy => copied(&mut conn, from).await?,
            Kind::Archive => archive::fill(&mut conn, from).await?,
        };
        let built = finish(&mut conn, schema, from, now).await?;
        conn.commit().await.map_err(engine).map(|()| built)
    };
    let built = built.await;
    db.close().await;
    let built = built?;
    synced(scratch).map_err(|why| Fault::writing(scratch, why))?;
    Ok(built)
}

async fn copied(conn: &mut Conn, from: &Path) -> Result<i64, Fault> {
    let engine = |error| Fault::engine(from, from, error);
    copy::integrity(conn).await.map_err(engine)?;
    let step = schema::step(conn).await.map_err(engine)?;
    if step == 0 {
        return Err(Fault::NotABackup(from.to_owned()));
    }
    Newer::refuse(step).map_err(|newer| Fault::Newer { path: from.to_owned(), newer })?;
    copy::refer(conn).await.map_err(engine)?;
    Ok(step)
}

/// Brings what was filled up to date, and checks it.
pub async fn finish(conn: &mut Conn, schema: i64, from: &Path, now: At) -> Result<Built, Fault> {
    let engine = |error| Fault::engine(from, from, error);
    migrate::up_to(conn, migrate::newest()).await.map_err(engine)?;
    copy::refer(conn).await.map_err(engine)?;
    let breaches = check::all(conn, now).await.map_err(|error| Fault::checking(from, error))?;
    Ok(Built { schema, breaches })
}

/// Waits until a file is on the disk.
pub fn synced(path: &Path) -> std::io::Result<()> {
    std::fs::File::open(path)?.sync_all()
}
