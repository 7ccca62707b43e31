//! How the sources stand: the club's model, fitted off the request path and kept in the database.

mod refit;
mod say;
mod store;

pub use refit::{keep_current, refresh};
pub use say::{adjusted_for, age, age_on_paper, settled, with_others};
pub use store::ALL;

use super::store::Version;
use crate::app::App;
use crate::db::Conn;
use crate::db::ids::At;
use crate::error::AppError;
use anyhow::Context;
use chrono::NaiveDate;
use hilum_calc::club::Standing;
use std::sync::Arc;

/// A standing with its age.
#[derive(Debug)]
pub struct Kept {
    pub standing: Standing,
    /// When it was computed.
    pub made_at: At,
    /// The day it was read at.
    pub as_of: NaiveDate,
    /// The version of the club's data it was computed from.
    of_version: String,
}

impl Kept {
    /// Whether nothing was recorded since.
    pub fn is_current(&self, version: &Version, today: NaiveDate) -> bool {
        self.as_of == today && version.text().is_ok_and(|text| text == self.of_version)
    }
}

/// The last standing, of seeds rooted by the standard day or at the close; `None` before the first fit.
pub async fn latest(app: &App, at_close: bool) -> Result<Option<Arc<Kept>>, AppError> {
    let by_when = by_when(at_close);
    let mut conn = app.db.read().await?;
    let stamp = store::stamp(&mut conn, by_when).await?;
    kept(app, conn, by_when, stamp).await
}

/// The same, and how many counts were told since `version`.
pub async fn latest_and_since(
    app: &App,
    at_close: bool,
    version: &Version,
) -> Result<(Option<Arc<Kept>>, i64), AppError> {
    let by_when = by_when(at_close);
    let mut conn = app.db.read().await?;
    let (stamp, since) = store::stamp_and_since(&mut conn, by_when, version).await?;
    Ok((kept(app, conn, by_when, stamp).await?, since))
}

/// The standing of a stamp, read where it is not kept.
async fn kept(
    app: &App,
    mut conn: Conn,
    by_when: &'static str,
    stamp: Option<store::Stamp>,
) -> Result<Option<Arc<Kept>>, AppError> {
    let Some(stamp) = stamp else { return Ok(None) };
    if let Some(kept) = app.tables.standing(by_when, &stamp) {
        return Ok(Some(kept));
    }
    let Some(row) = store::whole(&mut conn, by_when).await? else { return Ok(None) };
    drop(conn);
    let standing = serde_json::from_str(&row.document).context("a kept standing does not read back")?;
    let kept = Kept { standing, made_at: row.made_at, as_of: row.as_of, of_version: row.of_version };
    let kept = Arc::new(kept);
    app.tables.keep_standing(by_when, kept.clone());
    Ok(Some(kept))
}

fn by_when(at_close: bool) -> &'static str {
    if at_close { "close" } else { "day" }
}

impl super::cache::Tables {
    fn standing(&self, by_when: &str, stamp: &store::Stamp) -> Option<Arc<Kept>> {
        let same = |k: &&Arc<Kept>| {
            (k.made_at, k.as_of, &k.of_version) == (stamp.made_at, stamp.as_of, &stamp.of_version)
        };
        self.with_standings(|kept| kept.get(by_when).filter(same).cloned())
    }

    fn keep_standing(&self, by_when: &'static str, standing: Arc<Kept>) {
        self.with_standings(|kept| drop(kept.insert(by_when, standing)));
    }
}
