//! The invented club: `seed-demo/*.csv` through the same code that forms and imports use.

mod files;
mod load;
mod plants;

pub(crate) use load::ALL;
pub use load::club;

use super::scale::{self, Size};
use crate::app::App;
use crate::config::Config;
use crate::db::Db;
use crate::rates;
use std::net::{SocketAddr, TcpListener};

/// The one password of all invented members.
pub const PASSWORD: &str = "a growing club of our own";

/// An app with the invented club in a folder of its own, which is gone when the returned guard is dropped.
pub async fn app(config: Config) -> anyhow::Result<(App, tempfile::TempDir)> {
    let (app, folder) = empty(config).await?;
    load::club(&app).await?;
    rates::standing::refresh(&app).await?;
    Ok((app, folder))
}

/// The same with a club of that size, drawn by rule.
pub async fn large(config: Config, size: Size) -> anyhow::Result<(App, tempfile::TempDir)> {
    let (app, folder) = empty(config).await?;
    scale::fill(&app, size).await?;
    Ok((app, folder))
}

async fn empty(mut config: Config) -> anyhow::Result<(App, tempfile::TempDir)> {
    let folder = tempfile::Builder::new().prefix("hilum-demo-").tempdir()?;
    config.data = folder.path().to_owned();
    config.database_url = None;
    config.base_url = None;
    config.backup_every = 0;
    config.listen = free(config.listen)?;
    let db = Db::open(&config.database()).await?;
    let clock = config.clock();
    Ok((App::new(db, config, clock), folder))
}

/// `wanted` on this machine's own address, or another port where that one is taken.
fn free(wanted: SocketAddr) -> anyhow::Result<SocketAddr> {
    let local = |port| SocketAddr::from(([127, 0, 0, 1], port));
    let bound = TcpListener::bind(local(wanted.port())).or_else(|_| TcpListener::bind(local(0)))?;
    Ok(bound.local_addr()?)
}

/// What to say on the terminal.
pub fn greeting(app: &App) -> String {
    let names: Vec<String> = files::members().iter().map(|m| format!("{} ({})", m.sign_in, m.role)).collect();
    said(app, &names.join(", "))
}

/// The same of a club of that size.
pub fn greeting_of(app: &App, size: Size) -> String {
    let club = scale::club::Club::new(size, app.now());
    let named = |m: &scale::club::Member| format!("{} ({})", m.sign_in, m.role);
    let ends = [club.members.first(), club.members.last()];
    let names: Vec<String> = ends.into_iter().flatten().map(named).collect();
    said(app, &format!("one of {} members, such as {}", size.members, names.join(" or ")))
}

fn said(app: &App, names: &str) -> String {
    format!(
        "The invented club is at {}\nIts data lives in {} until you stop it with Ctrl-C.\n\
         Sign in as {names}.\nThe password of each: {PASSWORD}",
        app.config.base(),
        app.config.data.display(),
    )
}
