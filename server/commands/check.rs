use super::print;
use hilum::config::Config;
use hilum::upkeep::check;
use std::process::ExitCode;

/// Prints every breach of the invariants I1 to I9 in the club's database; status 1 where there is one.
pub async fn run(config: Config) -> anyhow::Result<ExitCode> {
    let app = super::opened(config).await?;
    let breaches = check::breaches(&app).await?;
    app.db.close().await;
    for breach in &breaches {
        print(&format!("{breach}\n"));
    }
    if breaches.is_empty() {
        print(&format!("No breach: I1 to I9 hold in this {} database.\n", app.db.engine()));
        return Ok(ExitCode::SUCCESS);
    }
    Ok(ExitCode::FAILURE)
}
