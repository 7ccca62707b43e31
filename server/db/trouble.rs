use sqlx::postgres::PgDatabaseError;
use sqlx::sqlite::SqliteError;
use std::sync::Arc;

/// What can be wrong with the place where the club's book is kept. None of it is the fault of what was sent: the same
/// will be taken later, once the trouble is over.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Trouble {
    /// No room is left on the disk.
    Full,
    /// The disk, or the server's disk, gives errors.
    Disk,
    /// What is read back is not what was written.
    Damaged,
    /// The database server cannot be reached, or is going down or coming up.
    Away,
    /// All connections are in use, or somebody holds a lock for too long.
    Busy,
    /// Others were at the same things, and the engine took everything back: the same may go through when it is tried again.
    Contended,
}

/// Why a write was refused without trying: see [`super::Health`].
#[derive(Debug, thiserror::Error)]
#[error("the database is damaged: nothing is written any more")]
pub(super) struct Damaged;

/// Why a save does not last that shared its commit with others.
#[derive(Debug, thiserror::Error)]
pub(super) enum Together {
    #[error("the commit failed: {0}")]
    Failed(Arc<sqlx::Error>),
    #[error("another save of the same commit failed")]
    Undone,
}

impl Trouble {
    /// What `error` tells of the place; `None` where it is about what was asked.
    pub fn of(error: &sqlx::Error) -> Option<Self> {
        match error {
            sqlx::Error::Database(told) => {
                if let Some(told) = told.try_downcast_ref::<SqliteError>() {
                    return Self::of_sqlite(told);
                }
                told.try_downcast_ref::<PgDatabaseError>().and_then(|told| Self::of_postgres(told.code()))
            }
            sqlx::Error::Configuration(why) if why.is::<Damaged>() => Some(Self::Damaged),
            sqlx::Error::Configuration(why) => why.downcast_ref::<Together>().and_then(Self::of_shared),
            sqlx::Error::PoolTimedOut => Some(Self::Busy),
            sqlx::Error::Io(_)
            | sqlx::Error::Tls(_)
            | sqlx::Error::Protocol(_)
            | sqlx::Error::PoolClosed
            | sqlx::Error::WorkerCrashed => Some(Self::Away),
            _ => None,
        }
    }

    fn of_shared(why: &Together) -> Option<Self> {
        match why {
            Together::Failed(error) => Self::of(error),
            Together::Undone => Some(Self::Contended),
        }
    }

    /// What stands behind an error that was passed on.
    pub fn behind(cause: &anyhow::Error) -> Option<Self> {
        cause.chain().find_map(|e| e.downcast_ref::<sqlx::Error>()).and_then(Self::of)
    }

    /// By SQLite's result codes; the lowest byte is the sort, the rest says where.
    fn of_sqlite(told: &SqliteError) -> Option<Self> {
        use sqlx::error::DatabaseError;
        let code: i64 = told.code()?.parse().ok()?;
        match code & 0xff {
            5 | 6 => Some(Self::Contended),
            15 => Some(Self::Busy),
            7 | 8 | 10 | 14 => Some(Self::Disk),
            11 | 26 => Some(Self::Damaged),
            13 => Some(Self::Full),
            _ => None,
        }
    }

    /// By SQLSTATE, as PostgreSQL's manual lists them.
    fn of_postgres(code: &str) -> Option<Self> {
        match code {
            "53100" => Some(Self::Full),
            "XX001" | "XX002" => Some(Self::Damaged),
            // a server that recovers only reads
            "25006" | "57P01" | "57P02" | "57P03" => Some(Self::Away),
            "57014" | "55P03" => Some(Self::Busy),
            "40001" | "40P01" => Some(Self::Contended),
            _ if code.starts_with("08") => Some(Self::Away),
            _ if code.starts_with("53") => Some(Self::Busy),
            _ if code.starts_with("58") => Some(Self::Disk),
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_server_says_is_told_apart() {
        let cases = [
            ("53100", Some(Trouble::Full)),
            ("53300", Some(Trouble::Busy)),
            ("40P01", Some(Trouble::Contended)),
            ("57P03", Some(Trouble::Away)),
            ("08006", Some(Trouble::Away)),
            ("58030", Some(Trouble::Disk)),
            ("XX001", Some(Trouble::Damaged)),
            ("23505", None),
        ];
        for (code, trouble) in cases {
            assert_eq!(Trouble::of_postgres(code), trouble, "{code}");
        }
    }

    #[test]
    fn an_error_is_known_behind_others() {
        use anyhow::Context;
        let cause =
            Err::<(), _>(sqlx::Error::PoolTimedOut).context("the book could not be read").unwrap_err();
        assert_eq!(Trouble::behind(&cause), Some(Trouble::Busy));
        assert_eq!(Trouble::behind(&anyhow::anyhow!("something else")), None);
    }
}
