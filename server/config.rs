//! Every setting, its default and its help text; the only reader of the environment.

use crate::clock::Clock;
use clap::Args;
use std::net::SocketAddr;
use std::path::PathBuf;

/// Settings of a running server. Each can be a flag or an environment variable.
#[derive(Args, Clone, Debug)]
pub struct Config {
    /// Folder that holds the club's data.
    #[arg(long, env = "HILUM_DATA", default_value = "hilum-data", global = true)]
    pub data: PathBuf,

    /// postgres://... to keep the data in PostgreSQL; by default one SQLite file in the data folder.
    #[arg(long, env = "HILUM_DATABASE_URL", hide_env_values = true, global = true)]
    pub database_url: Option<String>,

    /// Address to listen on.
    #[arg(long, env = "HILUM_LISTEN", default_value = "127.0.0.1:8420", global = true)]
    pub listen: SocketAddr,

    /// The address members type, such as https://hilum.example.org. Cookies are Secure when it is https.
    #[arg(long, env = "HILUM_BASE_URL", global = true)]
    pub base_url: Option<String>,

    /// Take back what phones keep of the pages for use without signal. Counts waiting on phones stay there and are
    /// sent from open pages.
    #[arg(long, env = "HILUM_NO_OFFLINE", global = true)]
    pub no_offline: bool,

    /// Hours between the backups that the program takes by itself into the folder "backups" of the data; 0 for none.
    #[arg(long, env = "HILUM_BACKUP_EVERY", default_value_t = 24, global = true,
          value_parser = clap::value_parser!(i64).range(0..=8784))]
    pub backup_every: i64,

    /// Days for which each backup is kept; older ones stay for a year, one of each week.
    #[arg(long, env = "HILUM_BACKUP_KEEP", default_value_t = 14, global = true,
          value_parser = clap::value_parser!(i64).range(1..=3660))]
    pub backup_keep: i64,

    /// For tests: a file that holds the present moment, in seconds since 1970.
    #[arg(long, env = "HILUM_CLOCK_FILE", global = true)]
    pub clock_file: Option<PathBuf>,
}

impl Config {
    /// Where the data lives, as `Db::open` takes it.
    pub fn database(&self) -> String {
        self.database_url
            .clone()
            .unwrap_or_else(|| format!("sqlite:{}", self.data.join("hilum.db").display()))
    }

    /// The address in links and codes, without a slash at the end.
    pub fn base(&self) -> String {
        match &self.base_url {
            Some(url) => url.trim_end_matches('/').to_owned(),
            None => format!("http://{}", self.listen),
        }
    }

    /// Whether members come by https.
    pub fn secure(&self) -> bool {
        self.base().starts_with("https://")
    }

    /// The clock these settings ask for.
    pub fn clock(&self) -> Clock {
        self.clock_file.clone().map_or(Clock::System, Clock::File)
    }
}
