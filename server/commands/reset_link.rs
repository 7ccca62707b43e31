use super::{member, opened, print};
use anyhow::Context;
use hilum::accounts::store::{self, links};
use hilum::audit::{self, Deed, What};
use hilum::config::Config;
use std::process::ExitCode;

/// Make a link by which a member chooses a new password, once, within a day: for an only organiser who forgot it or lost
/// the passkey. Everywhere else they are signed out then, and their passkeys end.
#[derive(clap::Args)]
pub struct ResetLink {
    /// Whose: the letters on their marks.
    #[arg(long)]
    letters: String,
}

impl ResetLink {
    pub async fn run(self, config: Config) -> anyhow::Result<ExitCode> {
        let app = opened(config).await?;
        let id = member(&app, &self.letters).await?;
        let mut conn = app.db.write().await.context("the database")?;
        let member = store::member(&mut conn, &id).await?;
        anyhow::ensure!(member.left_at.is_none(), "{} is no longer a member", member.name);
        let token = links::make_reset(&mut conn, &member, None, app.now()).await?;
        audit::note(&mut conn, Deed::host(What::ResetMade).about(&id), app.now()).await?;
        conn.commit().await?;
        app.db.close().await;
        print(&format!(
            "For {}, once, within a day:\n\n    {}/reset/{token}\n",
            member.name,
            app.config.base()
        ));
        Ok(ExitCode::SUCCESS)
    }
}
