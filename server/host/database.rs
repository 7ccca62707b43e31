//! Whether the database and this program fit together, looked at without changing it.

use super::{Finding, Sign};
use crate::backups;
use crate::config::Config;
use crate::db::ids::At;
use crate::db::{Db, file, migrate, schema};

const FITS: &str = "Database of this version";
const LASTING: &str = "Saves outlive a power cut";

/// What is there.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Found {
    /// No database, so that one will be made.
    Nothing,
    /// It does not open, and why.
    Closed(String),
    Opened {
        step: i64,
        /// When the last good backup was taken, where the database is of this version and a club is in it.
        last_good: Option<At>,
        filled: bool,
        /// Settings of the engine that are off and should not be.
        weak: Vec<String>,
    },
}

/// Opens the database as it is, for reading.
pub async fn find(config: &Config) -> Found {
    let url = config.database();
    if file(&url).is_some_and(|path| !path.exists()) {
        return Found::Nothing;
    }
    match opened(&url, config).await {
        Ok(found) => found,
        Err(error) => Found::Closed(error.to_string()),
    }
}

async fn opened(url: &str, config: &Config) -> anyhow::Result<Found> {
    let db = Db::as_it_is(url).await?;
    let found = looked_at(&db, config).await;
    db.close().await;
    found
}

async fn looked_at(db: &Db, config: &Config) -> anyhow::Result<Found> {
    let mut conn = db.read().await?;
    let step = schema::step(&mut conn).await?;
    let filled = schema::is_filled(&mut conn).await?;
    let current = step == migrate::newest();
    let last = if current { backups::last_good(&mut conn, config).await? } else { None };
    drop(conn);
    let weak = db.weak_settings().await?;
    Ok(Found::Opened { step, last_good: last.map(|row| row.made_at), filled, weak })
}

/// What it means for whoever hosts it.
pub fn findings(config: &Config, found: &Found) -> Vec<Finding> {
    let newest = migrate::newest();
    let Found::Opened { step, weak, .. } = found else { return vec![missing(config, found)] };
    let fits = match *step {
        step if step > newest => Finding::new(
            FITS,
            Sign::No,
            format!("A newer Hilum made it (step {step}; this one knows {newest} steps)."),
            "Run the newer Hilum again, or restore a backup from before.",
        ),
        step if step < newest => Finding::new(
            FITS,
            Sign::Perhaps,
            format!("It is at step {step} of {newest}."),
            "The next start brings it up to date by itself, after a backup.",
        ),
        _ => Finding::yes(FITS, format!("It is at step {newest}.")),
    };
    let lasting = if weak.is_empty() {
        Finding::yes(LASTING, "The database waits for the disk before a save is confirmed.")
    } else {
        let what =
            format!("PostgreSQL runs with {} off: what members saw saved could be gone.", weak.join(" and "));
        Finding::new(LASTING, Sign::No, what, "Set it to on in postgresql.conf and restart PostgreSQL.")
    };
    vec![fits, lasting]
}

fn missing(config: &Config, found: &Found) -> Finding {
    let about = "Database there";
    match found {
        Found::Closed(why) => Finding::new(
            about,
            Sign::No,
            format!("It does not open: {why}."),
            "Run this as the user who runs Hilum, with the same settings; where it is damaged, restore the last backup.",
        ),
        _ => Finding::new(
            about,
            Sign::Perhaps,
            format!("There is none yet in {}.", config.data.display()),
            "The first start makes one; if there should be one, mend --data or --database-url.",
        ),
    }
}
