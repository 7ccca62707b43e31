use crate::db::Trouble;
use crate::db::schema::Newer;
use crate::error::AppError;
use sqlx::error::ErrorKind;
use std::path::{Path, PathBuf};
use std::{fmt, io};

/// What is said of a file that a library cannot read.
pub(super) const UNREADABLE: &str = "not all of it can be read";

/// Why there is no backup, or nothing was restored, in words for whoever hosts the club.
#[derive(Debug, thiserror::Error)]
pub enum Fault {
    #[error("There is no file {}.", .0.display())]
    Missing(PathBuf),
    #[error("There is no database at {0} to take a backup of.")]
    NoDatabase(String),
    #[error("{} is not a backup of Hilum.", .0.display())]
    NotABackup(PathBuf),
    #[error("There is no folder {}. Make it first, or name another: it may be on a disk that is not plugged in.", .0.display())]
    NoFolder(PathBuf),
    #[error("{} is damaged ({why}). Nothing was taken from it; use another backup.", .path.display())]
    Damaged { path: PathBuf, why: String },
    #[error("The club's database is damaged, and no backup was taken of it. Restore the last one.")]
    ClubDamaged,
    #[error("{} cannot be used: {newer}.", .path.display())]
    Newer { path: PathBuf, newer: Newer },
    #[error("The disk is full: {} could not be written. What was there is as it was; make room and try again.", .0.display())]
    Full(PathBuf),
    #[error("The disk gives errors or has no room. What was there is as it was.")]
    Disk,
    #[error("{} cannot be written to: {why}.", .path.display())]
    Unwritable { path: PathBuf, why: io::Error },
    #[error("There is a club in this database already. With --replace it is put aside first.")]
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

    /// A file that is damaged; what a library said of it is for the log.
    pub(super) fn damaged(path: &Path, why: &str, said: &dyn fmt::Display) -> Self {
        tracing::debug!(path = %path.display(), %said, "a file is damaged");
        Self::Damaged { path: path.to_owned(), why: why.to_owned() }
    }

    /// What an error of the engine means, while it reads `from` and writes `to`.
    pub(super) fn engine(from: &Path, to: &Path, error: sqlx::Error) -> Self {
        let code = error.as_database_error().and_then(|e| e.code()).unwrap_or_default().into_owned();
        match (Trouble::of(&error), error) {
            (Some(Trouble::Full), _) => Self::Full(to.to_owned()),
            (Some(Trouble::Damaged), _) if code == "26" => Self::NotABackup(from.to_owned()),
            (Some(Trouble::Damaged), error) => Self::damaged(from, UNREADABLE, &error),
            (Some(Trouble::Disk), error) => {
                tracing::debug!(%error, "the disk gives errors");
                Self::Disk
            }
            (_, sqlx::Error::Io(why)) => Self::writing(to, why),
            // words of our own
            (_, sqlx::Error::Decode(why)) => Self::damaged(from, &why.to_string(), &why),
            (_, sqlx::Error::Database(told)) if told.kind() != ErrorKind::Other => {
                Self::damaged(from, "a row of it breaks a rule of the schema", &told)
            }
            (_, error) => Self::Engine(error),
        }
    }

    /// The same of the club's own database.
    pub(super) fn of_the_club(self) -> Self {
        if matches!(self, Self::Damaged { .. } | Self::NotABackup(_)) { Self::ClubDamaged } else { self }
    }

    /// What it means that what was made of `from` could not be checked.
    pub(super) fn checking(from: &Path, error: AppError) -> Self {
        match error.trouble() {
            Some(Trouble::Damaged) => Self::damaged(from, UNREADABLE, &error),
            _ => error.into(),
        }
    }
}

impl From<AppError> for Fault {
    fn from(error: AppError) -> Self {
        tracing::debug!(cause = format!("{error:#}"), "a backup was not finished");
        Self::Other("What is in it could not be looked through.".to_owned())
    }
}
