use super::{opened, print};
use hilum::backups::names::Why;
use hilum::backups::take::{self, Taken, Wanted};
use hilum::backups::{schedule, size};
use hilum::config::Config;
use hilum::db::migrate;
use std::path::PathBuf;
use std::process::ExitCode;

/// Takes a backup, also while the program runs, then opens and checks it.
#[derive(clap::Args)]
pub struct Backup {
    /// Folder to put it in, which has to be there; by default that of the settings.
    #[arg(long)]
    to: Option<PathBuf>,
    /// As an archive that either engine takes back, also where the data are in SQLite (with PostgreSQL it always is one).
    #[arg(long)]
    archive: bool,
}

impl Backup {
    pub async fn run(self, config: Config) -> anyhow::Result<ExitCode> {
        let now = config.clock().now();
        let folder = self.to.clone().unwrap_or_else(|| take::folder(&config));
        let taken =
            take::take(&config, &Wanted { folder, archive: self.archive, why: Why::Safety }, now).await?;
        let noted =
            if taken.schema == migrate::newest() { written_down(config, &taken).await } else { Ok(()) };
        let bytes = size(i64::try_from(taken.bytes).unwrap_or(i64::MAX));
        print(&format!("{} ({bytes}, schema {})\n", taken.path.display(), taken.schema));
        if let Err(error) = noted {
            tracing::debug!("not written down: {error:#}");
            print("The club's database took no note of it, so it is not on the page Backups.\n");
        }
        for breach in &taken.breaches {
            print(&format!("{breach}\n"));
        }
        if taken.breaches.is_empty() {
            print("Opened and checked: nothing is wrong with it.\n");
            return Ok(ExitCode::SUCCESS);
        }
        print("It can be restored, but the check finds what is above, in the club's data as in it.\n");
        Ok(ExitCode::FAILURE)
    }
}

/// Tells the club of it. Without that it is as good a backup.
async fn written_down(config: Config, taken: &Taken) -> anyhow::Result<()> {
    let app = opened(config).await?;
    let noted = schedule::write_down(&app, taken).await;
    app.db.close().await;
    Ok(noted?)
}
