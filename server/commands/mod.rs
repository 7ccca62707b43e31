//! Commands besides `serve`, each in its own file; each gives the status to exit with. `manager` is whom `serve` tells.

pub mod analyse;
pub mod backup;
pub mod check;
pub mod export;
pub mod host_check;
pub mod import;
pub mod manager;
pub mod ready;
pub mod reckon;
pub mod reset_link;
pub mod restore;
pub mod settings;
pub mod sign_out;

use anyhow::{Context, bail};
use hilum::app::App;
use hilum::backups::upgrade;
use hilum::config::Config;
use hilum::db::ids::MemberId;
use std::process::ExitCode;

/// Status of a command whose input is malformed.
pub const MALFORMED: u8 = 2;

/// Prints `text` on standard output; a reader that went away is no fault of ours.
fn print(text: &str) {
    use std::io::Write;
    let mut out = std::io::stdout().lock();
    let _ = out.write_all(text.as_bytes()).and_then(|()| out.flush());
}

fn malformed(text: &str) -> ExitCode {
    print(text);
    ExitCode::from(MALFORMED)
}

/// The club's database as the pages use it; refused where there is none.
async fn opened(config: Config) -> anyhow::Result<App> {
    if config.database_url.is_none() && !config.data.join("hilum.db").exists() {
        bail!("there is no database in {}", config.data.display());
    }
    let clock = config.clock();
    let db = upgrade::open(&config, clock.now()).await?;
    Ok(App::new(db, config, clock))
}

/// The member who has these letters on their marks.
async fn member(app: &App, letters: &str) -> anyhow::Result<MemberId> {
    let found = hilum::transfer::whose(&mut app.db.read().await?, letters).await?;
    found.with_context(|| format!("nobody has the letters {letters}"))
}
