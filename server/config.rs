//! Every setting, its default and its help text; the only reader of the environment.

mod network;

pub use network::Network;

use crate::clock::Clock;
use anyhow::Context;
use clap::Args;
use std::net::{Ipv4Addr, Ipv6Addr, SocketAddr};
use std::path::PathBuf;

const HOURS_BETWEEN_BACKUPS: i64 = 24;
const DAYS_KEPT: i64 = 14;
/// An outbox of a whole work day may go out at once.
const SAVES_A_MINUTE: u32 = 600;

/// Settings of a running server. Each can be a flag or an environment variable.
#[derive(Args, Clone, Debug)]
pub struct Config {
    /// Folder that holds the club's data.
    #[arg(long, env = "HILUM_DATA", default_value = "hilum-data", global = true)]
    pub data: PathBuf,

    /// postgres://... to keep the data in PostgreSQL; by default one SQLite file in the data folder.
    #[arg(long, env = "HILUM_DATABASE_URL", hide_env_values = true, global = true)]
    pub database_url: Option<String>,

    /// A file that holds that address, and nothing else: a secret that a container is given.
    #[arg(
        long,
        env = "HILUM_DATABASE_URL_FILE",
        value_name = "FILE",
        conflicts_with = "database_url",
        global = true
    )]
    pub database_url_file: Option<PathBuf>,

    /// Address to listen on.
    #[arg(long, env = "HILUM_LISTEN", default_value = "127.0.0.1:8420", global = true)]
    pub listen: SocketAddr,

    /// The address members type, such as https://hilum.example.org. Cookies are Secure when it is https.
    #[arg(long, env = "HILUM_BASE_URL", global = true)]
    pub base_url: Option<String>,

    /// Proxies that are believed when they say in X-Forwarded-For or Forwarded whom they ask for: addresses or networks
    /// with commas between. What anybody else says there is not read.
    #[arg(
        long = "trusted-proxies",
        env = "HILUM_TRUSTED_PROXIES",
        default_value = "127.0.0.1,::1",
        value_delimiter = ',',
        global = true
    )]
    pub trusted_proxies: Vec<Network>,

    /// Take back what phones keep of the pages for use without signal. Counts waiting on phones stay there and are
    /// sent from open pages.
    #[arg(long, env = "HILUM_NO_OFFLINE", global = true)]
    pub no_offline: bool,

    /// Hours between the backups that the program takes by itself into the folder "backups" of the data; 0 for none.
    #[arg(long, env = "HILUM_BACKUP_EVERY", default_value_t = HOURS_BETWEEN_BACKUPS, global = true,
          value_parser = clap::value_parser!(i64).range(0..=8784))]
    pub backup_every: i64,

    /// Days for which each backup is kept; older ones stay for a year, one of each week.
    #[arg(long, env = "HILUM_BACKUP_KEEP", default_value_t = DAYS_KEPT, global = true,
          value_parser = clap::value_parser!(i64).range(1..=3660))]
    pub backup_keep: i64,

    /// How many saves one session may send in a minute; files and prints count for ten. Whoever goes faster is asked to
    /// wait a little.
    #[arg(long, env = "HILUM_SAVES_A_MINUTE", default_value_t = SAVES_A_MINUTE, global = true)]
    pub saves_a_minute: u32,

    /// For tests: a file that holds the present moment, in seconds since 1970.
    #[arg(long, env = "HILUM_CLOCK_FILE", global = true)]
    pub clock_file: Option<PathBuf>,
}

impl Default for Config {
    fn default() -> Self {
        Self {
            data: "hilum-data".into(),
            database_url: None,
            database_url_file: None,
            listen: (Ipv4Addr::LOCALHOST, 8420).into(),
            base_url: None,
            trusted_proxies: vec![Network::of(Ipv4Addr::LOCALHOST), Network::of(Ipv6Addr::LOCALHOST)],
            no_offline: false,
            backup_every: HOURS_BETWEEN_BACKUPS,
            backup_keep: DAYS_KEPT,
            saves_a_minute: SAVES_A_MINUTE,
            clock_file: None,
        }
    }
}

impl Config {
    /// The same with what stands in the files that it names.
    pub fn with_secrets(mut self) -> anyhow::Result<Self> {
        if let Some(file) = &self.database_url_file {
            let text = std::fs::read_to_string(file).with_context(|| {
                format!("the file {} of the database address cannot be read", file.display())
            })?;
            let url = text.trim();
            anyhow::ensure!(!url.is_empty(), "the file {} of the database address is empty", file.display());
            self.database_url = Some(url.to_owned());
        }
        Ok(self)
    }

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

    /// Whether `ip` is a proxy that is believed.
    pub fn trusts(&self, ip: std::net::IpAddr) -> bool {
        self.trusted_proxies.iter().any(|network| network.holds(ip))
    }

    /// The clock these settings ask for.
    pub fn clock(&self) -> Clock {
        self.clock_file.clone().map_or(Clock::System, Clock::File)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::Parser;

    #[derive(Parser)]
    struct Line {
        #[command(flatten)]
        config: Config,
    }

    impl Config {
        /// What a command line with these words asks for.
        pub fn read<'a>(words: impl IntoIterator<Item = &'a str>) -> Self {
            Line::parse_from(std::iter::once("hilum").chain(words)).config
        }
    }

    #[test]
    fn the_defaults_are_those_of_the_command_line() {
        assert_eq!(format!("{:?}", Config::read([])), format!("{:?}", Config::default()));
    }
}
