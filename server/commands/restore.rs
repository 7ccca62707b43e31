use super::print;
use hilum::backups::restore::{self, Order};
use hilum::config::Config;
use std::path::PathBuf;
use std::process::ExitCode;

/// Restores a backup of either engine into the database of these settings: all of it, or nothing.
#[derive(clap::Args)]
pub struct Restore {
    /// The backup: a copy (.db) or an archive (.zip).
    file: PathBuf,
    /// Also where there is a club in the database; that is put aside as a backup first.
    #[arg(long)]
    replace: bool,
    /// Also what breaks one of the rules that "hilum check" knows.
    #[arg(long)]
    despite_breaches: bool,
}

impl Restore {
    pub async fn run(self, config: Config) -> anyhow::Result<ExitCode> {
        let order = Order { file: self.file, replace: self.replace, despite_breaches: self.despite_breaches };
        let restored = restore::restore(&config, &order, config.clock().now()).await?;
        if let Some(kept) = &restored.kept {
            print(&format!("What was there is kept in {}\n", kept.display()));
        }
        for breach in &restored.breaches {
            print(&format!("{breach}\n"));
        }
        let checked = if restored.breaches.is_empty() {
            "checked: nothing is wrong with it"
        } else {
            "with what is above"
        };
        print(&format!("Restored from {} (schema {}), {checked}.\n", order.file.display(), restored.schema));
        Ok(ExitCode::SUCCESS)
    }
}
