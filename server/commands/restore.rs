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
    /// Also where there is a club in the database; that is put aside in the folder "replaced" of the data first.
    #[arg(long)]
    replace: bool,
    /// Also what breaks one of the rules that "hilum check" knows.
    #[arg(long)]
    despite_breaches: bool,
    /// For a club that moves to another engine or computer, and does not go back: sessions and open links stay good, and
    /// nothing is written into the record.
    #[arg(long)]
    as_it_was: bool,
}

impl Restore {
    pub async fn run(self, config: Config) -> anyhow::Result<ExitCode> {
        let order = Order {
            file: self.file,
            replace: self.replace,
            despite_breaches: self.despite_breaches,
            as_it_was: self.as_it_was,
        };
        let restored = restore::restore(&config, &order, config.clock().now()).await?;
        if let Some(kept) = &restored.kept {
            let how = if kept.damaged {
                "What was there before is damaged, and is"
            } else {
                "What was there before is"
            };
            print(&format!("{how} kept in {}\n", kept.path.display()));
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
        if let Some(ended) = restored.ended {
            print(&format!("{}\n", ended.words()));
        }
        Ok(ExitCode::SUCCESS)
    }
}
