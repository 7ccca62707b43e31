use super::{malformed, member, opened, print};
use anyhow::Context;
use clap::ValueEnum;
use hilum::config::Config;
use hilum::transfer::{self, Fault};
use std::path::PathBuf;
use std::process::ExitCode;

/// Brings a list in from CSV, XLSX or ODS, as the pages do: all of it, or nothing and every fault; once.
#[derive(clap::Args)]
pub struct Import {
    /// What the list holds.
    #[arg(value_enum)]
    what: What,
    file: PathBuf,
    /// Whose list it is: the letters on their marks, under which new packets are numbered.
    #[arg(long)]
    letters: String,
    /// The sheet of a workbook; the one that suits best where it is not given.
    #[arg(long, default_value = "")]
    sheet: String,
}

#[derive(Clone, Copy, ValueEnum)]
enum What {
    /// A season's packets.
    Packets,
    /// Looks into bags, or whole bags of seasons past.
    Counts,
}

impl Import {
    pub async fn run(self, config: Config) -> anyhow::Result<ExitCode> {
        let file = std::fs::read(&self.file).with_context(|| self.file.display().to_string())?;
        let app = opened(config).await?;
        let member = member(&app, &self.letters).await?;
        let mut conn = app.db.write().await?;
        let read = (file.as_slice(), self.sheet.as_str());
        let (letters, now) = (self.letters.as_str(), app.now());
        let done = match self.what {
            What::Packets => {
                let done = transfer::import_season_list(&mut conn, &member, letters, read, now).await?;
                done.map(|packets| format!("Brought in: {} packets.\n", packets.len()))
            }
            What::Counts => {
                let done = transfer::import_counts(&mut conn, &member, letters, read, now).await?;
                done.map(|looks| format!("Brought in: {looks} looks.\n"))
            }
        };
        let answer = match done {
            Ok(said) => {
                conn.commit().await?;
                print(&said);
                ExitCode::SUCCESS
            }
            Err(faults) => {
                drop(conn);
                malformed(&faults.iter().map(said).collect::<String>())
            }
        };
        app.db.close().await;
        Ok(answer)
    }
}

fn said(fault: &Fault) -> String {
    match (fault.line, fault.column.as_str()) {
        (0, _) => format!("{}\n", fault.message),
        (line, "") => format!("line {line}: {}\n", fault.message),
        (line, column) => format!("line {line}, {column}: {}\n", fault.message),
    }
}
