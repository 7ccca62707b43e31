use super::{opened, print};
use hilum::backups::names::Why;
use hilum::backups::take::{self, Wanted};
use hilum::backups::{schedule, size};
use hilum::config::Config;
use hilum::db::migrate;
use std::path::PathBuf;
use std::process::ExitCode;

/// Takes a backup, also while the program runs, then opens and checks it.
#[derive(clap::Args)]
pub struct Backup {
    /// Folder to put it in; by default that of the settings.
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
        if self.to.is_none() && taken.schema == migrate::newest() {
            let app = opened(config).await?;
            schedule::write_down(&app, &taken).await?;
            app.db.close().await;
        }
        let bytes = size(i64::try_from(taken.bytes).unwrap_or(i64::MAX));
        print(&format!("{} ({bytes}, schema {})\n", taken.path.display(), taken.schema));
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
