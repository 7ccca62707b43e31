use crate::db::Trouble;
use crate::db::schema::Newer;
use crate::error::AppError;
use sqlx::error::ErrorKind;
use std::io;
use std::path::{Path, PathBuf};

/// Why there is no backup, or nothing was restored, in words for whoever hosts the club.
#[derive(Debug, thiserror::Error)]
pub enum Fault {
    #[error("There is no file {}.", .0.display())]
    Missing(PathBuf),
    #[error("There is no database at {0} to take a backup of.")]
    NoDatabase(String),
    #[error("{} is not a backup of Hilum.", .0.display())]
    NotABackup(PathBuf),
    #[error("{} is damaged ({why}). Nothing was taken from it; use another backup.", .path.display())]
    Damaged { path: PathBuf, why: String },
    #[error("{} cannot be used: {newer}.", .path.display())]
    Newer { path: PathBuf, newer: Newer },
    #[error("The disk is full: {} could not be written. What was there is as it was; make room and try again.", .0.display())]
    Full(PathBuf),
    #[error("The disk gives errors or has no room ({why}). What was there is as it was.")]
    Disk { why: String },
    #[error("{} cannot be written to: {why}.", .path.display())]
    Unwritable { path: PathBuf, why: io::Error },
    #[error("There is a club in this database already. With --replace it is put aside as a backup first.")]
    NotEmpty,
    #[error("Hilum is running on this database. Stop it first; nothing was changed.")]
    InUse,
    #[error("Restored, it would break what must always hold; nothing was changed. With --despite-breaches it is restored all the same.\n{}", .0.join("\n"))]
    Breaches(Vec<String>),
    #[error("The database says: {0}")]
    Engine(sqlx::Error),
    #[error("{0}")]
    Other(String),
}

impl Fault {
    /// What an error of a file that is being written means.
    pub(super) fn writing(path: &Path, why: io::Error) -> Self {
        let path = path.to_owned();
        let full = matches!(why.kind(), io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded);
        if full { Self::Full(path) } else { Self::Unwritable { path, why } }
    }

    /// What an error of the engine means, while it reads `from` and writes `to`.
    pub(super) fn engine(from: &Path, to: &Path, error: sqlx::Error) -> Self {
        let code = error.as_database_error().and_then(|e| e.code()).unwrap_or_default().into_owned();
        let said = error.as_database_error().map_or_else(|| error.to_string(), |e| e.message().to_owned());
        let damaged = |why: String| Self::Damaged { path: from.to_owned(), why };
        match (Trouble::of(&error), error) {
            (Some(Trouble::Full), _) => Self::Full(to.to_owned()),
            (Some(Trouble::Damaged), _) if code == "26" => Self::NotABackup(from.to_owned()),
            (Some(Trouble::Damaged), _) => damaged(said),
            (Some(Trouble::Disk), _) => Self::Disk { why: said },
            (_, sqlx::Error::Io(why)) => Self::writing(to, why),
            (_, sqlx::Error::Decode(why)) => damaged(why.to_string()),
            // a row of the file breaks a rule of the schema
            (_, sqlx::Error::Database(told)) if told.kind() != ErrorKind::Other => damaged(said),
            (_, error) => Self::Engine(error),
        }
    }
}

impl From<AppError> for Fault {
    fn from(error: AppError) -> Self {
        Self::Other(format!("The check could not be done: {error:#}"))
    }
}
