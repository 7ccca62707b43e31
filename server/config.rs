//! Every setting: its name, what it means, its default and whether it is a secret, all in [`Config`]. From there come the
//! flags, the variables, the lines of a settings file and the manual's table. The only reader of the environment.

pub mod list;
mod network;
pub mod sources;
mod values;

pub use network::Network;
pub use values::{LogFormat, LogLevel};

use crate::clock::Clock;
use anyhow::Context;
use clap::Args;
use std::net::{Ipv4Addr, Ipv6Addr, SocketAddr};
use std::path::PathBuf;

const HOURS_BETWEEN_BACKUPS: i64 = 24;
const DAYS_KEPT: i64 = 14;
/// An outbox of a whole work day may go out at once.
const SAVES_A_MINUTE: u32 = 600;

/// Settings of a running server. What is said by a flag goes before a variable, that before the settings file, that
/// before the default.
#[derive(Args, Clone, Debug)]
pub struct Config {
    /// File with settings, one in a line, as TOML: the names of the flags without dashes in front, texts in quotes. A
    /// variable or a flag goes before what stands there.
    #[arg(long, env = "HILUM_SETTINGS", value_name = "FILE", global = true)]
    pub settings: Option<PathBuf>,

    /// Folder that holds the club's data.
    #[arg(long, env = "HILUM_DATA", value_name = "FOLDER", default_value = "hilum-data", global = true)]
    pub data: PathBuf,

    /// Where the data are kept: postgres://... for PostgreSQL; by default one SQLite file in the data folder.
    #[arg(long, env = "HILUM_DATABASE_URL", value_name = "ADDRESS", hide_env_values = true, global = true,
          value_parser = values::database)]
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

    /// Address and port to listen on.
    #[arg(long, env = "HILUM_LISTEN", value_name = "ADDRESS:PORT", default_value = "127.0.0.1:8420", global = true,
          value_parser = values::listening)]
    pub listen: SocketAddr,

    /// The address members type, such as https://hilum.example.org; by default the listening address. It is in links and
    /// in the codes on labels. Cookies are Secure when it is https.
    #[arg(long, env = "HILUM_BASE_URL", value_name = "ADDRESS", global = true, value_parser = values::base)]
    pub base_url: Option<String>,

    /// Proxies that are believed when they say in X-Forwarded-For or Forwarded whom they ask for: addresses or networks
    /// with commas between. What anybody else says there is not read.
    #[arg(
        long = "trusted-proxies",
        env = "HILUM_TRUSTED_PROXIES",
        value_name = "ADDRESSES",
        default_value = "127.0.0.1,::1",
        value_delimiter = ',',
        global = true
    )]
    pub trusted_proxies: Vec<Network>,

    /// Take back what phones keep of the pages for use without signal. Counts waiting on phones stay there and are
    /// sent from open pages.
    #[arg(long, env = "HILUM_NO_OFFLINE", global = true)]
    pub no_offline: bool,

    /// Organisers come in by a passkey: with their password alone they can do nothing but add their first one. Tokens
    /// of their programs go on. Needs a --base-url with https and a name.
    #[arg(long, env = "HILUM_ORGANISERS_BY_PASSKEY", global = true)]
    pub organisers_by_passkey: bool,

    /// Folder for backups; by default "backups" in the data folder. On another disk they outlive this one.
    #[arg(long, env = "HILUM_BACKUP_FOLDER", value_name = "FOLDER", global = true)]
    pub backup_folder: Option<PathBuf>,

    /// Hours between the backups that the program takes by itself; 0 for none.
    #[arg(long, env = "HILUM_BACKUP_EVERY", value_name = "HOURS", default_value_t = HOURS_BETWEEN_BACKUPS, global = true,
          value_parser = values::within::<i64, 0, 8784>)]
    pub backup_every: i64,

    /// Days for which each backup is kept; older ones stay for a year, one of each week.
    #[arg(long, env = "HILUM_BACKUP_KEEP", value_name = "DAYS", default_value_t = DAYS_KEPT, global = true,
          value_parser = values::within::<i64, 1, 3660>)]
    pub backup_keep: i64,

    /// How many saves one session may send in a minute, of which a minute's worth may come at once; files, prints and
    /// finding count for ten. An address may send ten times as many. Whoever goes faster is asked to wait a little.
    #[arg(long, env = "HILUM_SAVES_A_MINUTE", value_name = "SAVES", default_value_t = SAVES_A_MINUTE, global = true,
          value_parser = values::within::<u32, 1, 1_000_000>)]
    pub saves_a_minute: u32,

    /// Address and port, beside the club's own, at which a monitor reads /metrics in the text format of Prometheus; by
    /// default none. Whoever reaches it can read them: keep it on 127.0.0.1 or on a network of your own.
    #[arg(long, env = "HILUM_METRICS_LISTEN", value_name = "ADDRESS:PORT", global = true,
          value_parser = values::listening)]
    pub metrics_listen: Option<SocketAddr>,

    /// How lines of the log are written: as text, or as JSON, one object in a line.
    #[arg(long, env = "HILUM_LOG_FORMAT", value_enum, default_value_t = LogFormat::Text, global = true)]
    pub log_format: LogFormat,

    /// How much is written to the log: faults alone (error), also refusals (warn), also sign-ins and saves (info), also
    /// each page shown (debug).
    #[arg(long, env = "HILUM_LOG_LEVEL", value_enum, default_value_t = LogLevel::Info, global = true)]
    pub log_level: LogLevel,

    /// For tests: a file that holds the present moment, in seconds since 1970.
    #[arg(long, env = "HILUM_CLOCK_FILE", value_name = "FILE", global = true)]
    pub clock_file: Option<PathBuf>,
}

impl Default for Config {
    fn default() -> Self {
        Self {
            settings: None,
            data: "hilum-data".into(),
            database_url: None,
            database_url_file: None,
            listen: (Ipv4Addr::LOCALHOST, 8420).into(),
            base_url: None,
            trusted_proxies: vec![Network::of(Ipv4Addr::LOCALHOST), Network::of(Ipv6Addr::LOCALHOST)],
            no_offline: false,
            organisers_by_passkey: false,
            backup_folder: None,
            backup_every: HOURS_BETWEEN_BACKUPS,
            backup_keep: DAYS_KEPT,
            saves_a_minute: SAVES_A_MINUTE,
            metrics_listen: None,
            log_format: LogFormat::Text,
            log_level: LogLevel::Info,
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
            let url = values::database(url).map_err(|why| anyhow::anyhow!("{}: {why}", file.display()))?;
            self.database_url = Some(url);
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
