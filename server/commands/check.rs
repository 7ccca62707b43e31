use super::print;
use anyhow::bail;
use hilum::app::App;
use hilum::config::Config;
use hilum::db::Db;
use hilum::upkeep::check;
use std::process::ExitCode;

/// Prints every breach of the invariants I1 to I9 in the club's database; status 1 where there is one.
pub async fn run(config: Config) -> anyhow::Result<ExitCode> {
    if config.database_url.is_none() && !config.data.join("hilum.db").exists() {
        bail!("there is no database in {}", config.data.display());
    }
    let db = Db::open(&config.database()).await?;
    let clock = config.clock();
    let app = App::new(db.clone(), config, clock);
    let breaches = check::breaches(&app).await?;
    db.close().await;
    for breach in &breaches {
        print(&format!("{breach}\n"));
    }
    if breaches.is_empty() {
        print(&format!("No breach: I1 to I9 hold in this {} database.\n", app.db.engine()));
        return Ok(ExitCode::SUCCESS);
    }
    Ok(ExitCode::FAILURE)
}
