//! What a monitor reads: the program's counters, and how the club's data and backups stand now.

use crate::app::App;
use crate::backups;
use crate::db::{file, migrate, schema};
use crate::metrics::text;
use anyhow::Context;
use axum::Router;
use axum::extract::State;
use axum::http::StatusCode;
use axum::http::header::CONTENT_TYPE;
use axum::response::{IntoResponse, Response};
use axum::routing::get;
use prometheus_client::encoding::prometheus_text;
use prometheus_client::metrics::gauge::ConstGauge;
use prometheus_client::registry::Registry;
use rustix::fs::statvfs;
use tokio::net::TcpListener;

/// The one address on a listener of its own; the club's own pages do not have it.
pub const PATH: &str = "/metrics";

/// Serves the metrics on their own listener, for as long as the program runs.
pub async fn serve(app: App, listener: TcpListener) {
    if let Err(error) = axum::serve(listener, router(app)).await {
        tracing::error!("metrics are not served any more: {error}");
    }
}

/// Metrics and nothing else.
pub fn router(app: App) -> Router {
    Router::new().route(PATH, get(show)).with_state(app)
}

async fn show(State(app): State<App>) -> Response {
    match written(&app).await {
        Ok(text) => ([(CONTENT_TYPE, prometheus_text::CONTENT_TYPE)], text).into_response(),
        Err(error) => {
            tracing::error!("metrics could not be written: {error:#}");
            StatusCode::INTERNAL_SERVER_ERROR.into_response()
        }
    }
}

async fn written(app: &App) -> anyhow::Result<String> {
    let own = app.metrics.text().context("the counters")?;
    let now = text(&standing(app).await).context("the standing")?;
    Ok([own, now].concat())
}

/// A number that is not known is left out.
async fn standing(app: &App) -> Registry {
    let mut all = Registry::default();
    let mut gauge = |name: &str, help: &str, value: Option<i64>| {
        if let Some(value) = value {
            all.register(name, help, ConstGauge::new(value));
        }
    };
    let kept = kept(app).await;
    let up = kept.as_ref().is_some_and(|kept| kept.current);
    gauge("hilum_database_up", "Whether it answers and is of this version", Some(i64::from(up)));
    gauge("hilum_database_sound", "Whether no damage was found", Some(i64::from(!app.db.damaged())));
    let (good, tried) = kept.map_or((None, None), |kept| (kept.good, kept.tried));
    let made = good.as_ref().map(|row| row.made_at.0);
    let age = made.map(|at| app.now().0 - at);
    gauge("hilum_backup_last_good_timestamp_seconds", "When the last good backup was taken", made);
    gauge("hilum_backup_age_seconds", "How long ago that was", age);
    gauge("hilum_backup_size_bytes", "How large it is", good.map(|row| row.bytes));
    let tried = tried.and_then(|row| row.tried_at).map(|at| at.0);
    gauge("hilum_backup_last_trial_timestamp_seconds", "When one was last restored for a trial, well", tried);
    gauge("hilum_database_size_bytes", "The SQLite file", size(app, ""));
    gauge("hilum_database_log_bytes", "SQLite's log of what is not yet in that file", size(app, "-wal"));
    gauge("hilum_disk_free_bytes", "Room left where the data folder is", free(app));
    gauge("process_resident_memory_bytes", "Memory that the program takes", memory());
    all
}

struct Kept {
    current: bool,
    good: Option<backups::Row>,
    tried: Option<backups::Row>,
}

/// What the database says; `None` where it does not.
async fn kept(app: &App) -> Option<Kept> {
    let mut conn = app.db.read().await.ok()?;
    let current = schema::step(&mut conn).await.ok()? == migrate::newest();
    let good = backups::last_good(&mut conn, &app.config).await.ok()?;
    let tried = backups::last_tried(&mut conn).await.ok()?;
    Some(Kept { current, good, tried })
}

/// Of the file of a SQLite database, or of what SQLite keeps beside it.
fn size(app: &App, ending: &str) -> Option<i64> {
    let url = app.config.database();
    let mut name = file(&url)?.as_os_str().to_owned();
    name.push(ending);
    i64::try_from(std::fs::metadata(name).ok()?.len()).ok()
}

fn free(app: &App) -> Option<i64> {
    let disk = statvfs(&app.config.data).ok()?;
    i64::try_from(disk.f_bavail.saturating_mul(disk.f_frsize)).ok()
}

/// By Linux's own account, which gives kB.
fn memory() -> Option<i64> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find_map(|line| line.strip_prefix("VmRSS:"))?;
    let kilobytes: i64 = line.trim().trim_end_matches("kB").trim().parse().ok()?;
    Some(kilobytes * 1024)
}
