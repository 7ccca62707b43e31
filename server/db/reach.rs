//! How a PostgreSQL server is reached: plainly on this machine, over TLS with its certificate checked on another.

use sqlx::postgres::{PgConnectOptions, PgPoolOptions, PgSslMode};
use sqlx::{Error, PgPool};
use std::io::ErrorKind;
use std::net::IpAddr;
use std::str::FromStr;

/// What guards the way to the server (OWASP ASVS 5.0, 12.3.1).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reach {
    /// It does not leave this machine.
    Here,
    /// Encrypted, and the server's certificate is checked.
    Checked,
    /// Encrypted, but whoever answers is taken for the server.
    Unchecked,
    /// In the open.
    Open,
}

impl Reach {
    /// Of the address `url`.
    pub fn of(url: &str) -> Result<Self, Error> {
        let options = options(url)?;
        Ok(match options.get_ssl_mode() {
            _ if is_here(&options) => Self::Here,
            PgSslMode::VerifyFull | PgSslMode::VerifyCa => Self::Checked,
            PgSslMode::Require => Self::Unchecked,
            PgSslMode::Disable | PgSslMode::Allow | PgSslMode::Prefer => Self::Open,
        })
    }
}

/// The options of an address. Where it leaves open how to connect, that is without TLS on this machine, and over TLS with
/// a certificate of the server's own name on another: "if the server can" would be in the open whenever somebody between
/// wants it so.
pub fn options(url: &str) -> Result<PgConnectOptions, Error> {
    let options = PgConnectOptions::from_str(url)?;
    let mode = match options.get_ssl_mode() {
        PgSslMode::Allow | PgSslMode::Prefer if is_here(&options) => PgSslMode::Disable,
        PgSslMode::Allow | PgSslMode::Prefer => PgSslMode::VerifyFull,
        said => said,
    };
    Ok(options.ssl_mode(mode))
}

fn is_here(options: &PgConnectOptions) -> bool {
    let host = options.get_host();
    let number: Option<IpAddr> = host.trim_matches(['[', ']']).parse().ok();
    options.get_socket().is_some()
        || host.starts_with('/')
        || host.eq_ignore_ascii_case("localhost")
        || number.is_some_and(|n| n.is_loopback())
}

/// Connects; says what to do where the certificate is what is wrong.
pub async fn connect(pool: PgPoolOptions, options: PgConnectOptions) -> Result<PgPool, Error> {
    pool.connect_with(options).await.map_err(|error| {
        let of_tls = match &error {
            Error::Tls(_) => true,
            Error::Io(why) => why.kind() == ErrorKind::InvalidData,
            _ => false,
        };
        if of_tls { Error::Configuration(refused(&error).into()) } else { error }
    })
}

fn refused(error: &Error) -> String {
    format!(
        "PostgreSQL on another machine has to speak TLS, with a certificate of the name in its address: {error}. For an \
         authority of your own, add sslrootcert=FILE to the address; sslmode=disable says that the network between is \
         yours alone"
    )
}

#[cfg(test)]
mod tests {
    use super::Reach::{self, *};

    #[test]
    fn an_address_on_another_machine_is_checked_unless_it_says_otherwise() {
        for (url, reach) in [
            ("postgres://hilum@127.0.0.1/club", Here),
            ("postgres://hilum@127.0.0.1/club?sslmode=verify-full", Here),
            ("postgres://hilum@[::1]:5433/club", Here),
            ("postgres://hilum@LocalHost/club?sslmode=prefer", Here),
            ("postgres://hilum@%2Fvar%2Frun%2Fpostgresql/club", Here),
            ("postgres:///club?host=/var/run/postgresql", Here),
            ("postgres://hilum@db.example.org/club", Checked),
            ("postgres://hilum@db.example.org/club?sslmode=prefer", Checked),
            ("postgres://hilum@192.0.2.7/club?sslmode=allow", Checked),
            ("postgres://hilum@db.example.org/club?sslmode=verify-ca", Checked),
            ("postgres://hilum@localhost.example.org/club?sslmode=require", Unchecked),
            ("postgres://hilum@192.0.2.7/club?sslmode=disable", Open),
        ] {
            assert_eq!(Reach::of(url).unwrap(), reach, "{url}");
        }
    }
}
