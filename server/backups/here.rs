//! Which backups lie in the folder of the club: the database may come from elsewhere, and files may be gone.

use super::store::{self, Row};
use super::take;
use crate::config::Config;
use crate::db::Conn;
use crate::error::AppError;
use std::collections::HashSet;

/// The names in the folder.
pub struct Here(HashSet<String>);

impl Here {
    /// Looks into the folder of these settings; nothing is in one that cannot be read.
    pub fn look(config: &Config) -> Self {
        let entries = std::fs::read_dir(take::folder(config)).into_iter().flatten().flatten();
        Self(entries.map(|entry| entry.file_name().to_string_lossy().into_owned()).collect())
    }

    pub fn holds(&self, row: &Row) -> bool {
        self.0.contains(&row.file)
    }
}

/// The newest good backup that still lies in the folder.
pub async fn last_good(conn: &mut Conn, config: &Config) -> Result<Option<Row>, AppError> {
    let here = Here::look(config);
    Ok(store::good(conn).await?.into_iter().find(|row| here.holds(row)))
}
