use super::{member, opened, print};
use anyhow::Context;
use hilum::accounts::store::sessions;
use hilum::audit::{self, Deed, What};
use hilum::config::Config;
use std::process::ExitCode;

/// Ends every session of a member, or of everybody: for a phone that was lost, or where somebody got in.
#[derive(clap::Args)]
pub struct SignOut {
    /// Whose sessions: the letters on their marks.
    #[arg(long, required_unless_present = "all", conflicts_with = "all")]
    letters: Option<String>,
    /// Everybody's sessions.
    #[arg(long)]
    all: bool,
}

impl SignOut {
    pub async fn run(self, config: Config) -> anyhow::Result<ExitCode> {
        let app = opened(config).await?;
        let whose = match &self.letters {
            Some(letters) => Some(member(&app, letters).await?),
            None => None,
        };
        let mut conn = app.db.write().await.context("the database")?;
        let (ended, deed) = match &whose {
            Some(id) => {
                (sessions::close_all(&mut conn, id).await?, Deed::host(What::SessionsEnded).about(id))
            }
            None => (
                sessions::close_everybodys(&mut conn).await?,
                Deed::host(What::SessionsEnded).more("of everybody"),
            ),
        };
        audit::note(&mut conn, deed, app.now()).await?;
        conn.commit().await?;
        app.db.close().await;
        print(&format!("Ended sessions: {ended}.\n"));
        Ok(ExitCode::SUCCESS)
    }
}
