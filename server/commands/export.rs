use super::{member, opened};
use anyhow::Context;
use clap::ValueEnum;
use hilum::app::App;
use hilum::config::Config;
use hilum::rates::choice::Choice;
use hilum::rates::{self, counts};
use hilum::{accounts, transfer};
use std::io::Write;
use std::process::ExitCode;

/// Writes a file to standard output, as the pages save it.
#[derive(clap::Args)]
pub struct Export {
    /// What to write.
    #[arg(value_enum)]
    what: What,
    /// Whose packets: the letters on their marks.
    #[arg(long, required_if_eq_any([("what", "packets"), ("what", "mcpd")]))]
    letters: Option<String>,
    /// For the counts and the shared table: with the names of growers and the marks of their packets.
    #[arg(long)]
    names: bool,
    /// For the shared table: a short name such as CC-BY-4.0.
    #[arg(long, default_value = "")]
    licence: String,
}

#[derive(Clone, Copy, ValueEnum)]
enum What {
    /// A member's packets (CSV), to be brought in again.
    Packets,
    /// The same in the descriptors of gene banks (MCPD V.2.1, CSV).
    Mcpd,
    /// The long table of counts (CSV), for `hilum analyse`.
    Counts,
    /// The club's shared table (Data Package 2.0, zip), for another club.
    Shared,
}

impl Export {
    pub async fn run(self, config: Config) -> anyhow::Result<ExitCode> {
        let app = opened(config).await?;
        let bytes = self.bytes(&app).await?;
        app.db.close().await;
        let mut out = std::io::stdout().lock();
        // a reader that went away is no fault of ours
        let _ = out.write_all(&bytes).and_then(|()| out.flush());
        Ok(ExitCode::SUCCESS)
    }

    async fn bytes(&self, app: &App) -> anyhow::Result<Vec<u8>> {
        let letters = self.letters.as_deref().unwrap_or_default();
        Ok(match self.what {
            What::Packets => {
                let member = member(app, letters).await?;
                transfer::season_list(&mut app.db.read().await?, &member).await?
            }
            What::Mcpd => {
                let member = member(app, letters).await?;
                transfer::seed_list(&mut app.db.read().await?, &member).await?
            }
            What::Counts => {
                let zone = accounts::store::zone(&mut app.db.read().await?).await?;
                let book = rates::book(app, zone).await?.book;
                let numbers = if self.names { None } else { Some(rates::numbers(app, &book).await?) };
                let pieces: Result<String, _> = counts::pieces(book, Choice::default(), numbers).collect();
                pieces?.into_bytes()
            }
            What::Shared => {
                let wanted = transfer::Wanted { names: self.names, licence: self.licence.clone() };
                transfer::shared_table(app, &wanted).await.context("the shared table")?
            }
        })
    }
}
