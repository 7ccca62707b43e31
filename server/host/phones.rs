//! What the host's settings mean for phones in the shed: the four lines of /phone, and what the host can mend.

use super::{Finding, Sign};
use crate::config::Config;
use axum::http::Uri;
use std::net::IpAddr;

/// The address that members type, as their browsers see it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Address {
    /// None was given, or one that only this computer opens.
    ThisComputer,
    /// Not encrypted.
    Http,
    /// Encrypted, under a name or number for which no public authority signs.
    HttpsAtHome,
    Https,
}

impl Address {
    pub fn of(config: &Config) -> Self {
        let Some(uri) = config.base_url.as_ref().and_then(|_| config.base().parse::<Uri>().ok()) else {
            return Self::ThisComputer;
        };
        let host = uri.host().unwrap_or_default().trim_matches(['[', ']']).to_ascii_lowercase();
        let number: Option<IpAddr> = host.parse().ok();
        if host == "localhost" || host.ends_with(".localhost") || number.is_some_and(|n| n.is_loopback()) {
            return Self::ThisComputer;
        }
        if !config.secure() {
            return Self::Http;
        }
        let at_home = [".local", ".lan", ".home.arpa", ".internal"].iter().any(|end| host.ends_with(end));
        if at_home || number.is_some() || !host.contains('.') { Self::HttpsAtHome } else { Self::Https }
    }
}

/// What phones will find with these settings.
pub fn findings(config: &Config) -> Vec<Finding> {
    let address = Address::of(config);
    let all = [
        trusted(config, address),
        pages(config, address),
        counts(address),
        lasting(),
        reached(config, address),
    ];
    all.into()
}

fn trusted(config: &Config, address: Address) -> Finding {
    let base = config.base();
    let (sign, what, mend) = match address {
        Address::ThisComputer => (
            Sign::No,
            format!("Links, and codes on labels, lead to {base}, which only this computer opens."),
            "Set --base-url to the address that members type.",
        ),
        Address::Http => (
            Sign::No,
            format!("{base} is not encrypted: passwords cross the network in the open."),
            "Give the club a name with a certificate: by DNS challenge, so that nothing need be reachable from \
             outside, or on a small public host. A proxy in front of Hilum can hold it.",
        ),
        Address::HttpsAtHome => (
            Sign::Perhaps,
            format!(
                "No public authority signs for {base}: each phone must be told to trust its certificate."
            ),
            "Clicking past a warning is not enough: pages then work but are not kept. Install your authority on \
             each phone, or use a name of your own with a certificate by DNS challenge.",
        ),
        Address::Https => (Sign::Yes, format!("{base} is encrypted."), ""),
    };
    Finding::new("Trusted address (https)", sign, what, mend)
}

fn pages(config: &Config, address: Address) -> Finding {
    let about = "Pages open without signal";
    if config.no_offline {
        return Finding::new(about, Sign::No, "Switched off by --no-offline.", "Leave that setting out.");
    }
    let (sign, what) = match address {
        Address::Https => (Sign::Yes, "Phones keep their member's open bags and trays."),
        Address::HttpsAtHome => {
            (Sign::Perhaps, "Phones that trust the certificate keep their member's pages.")
        }
        Address::ThisComputer | Address::Http => {
            (Sign::No, "Browsers allow that on trusted addresses alone.")
        }
    };
    Finding::new(about, sign, what, "")
}

fn counts(address: Address) -> Finding {
    let (sign, what) = match address {
        Address::Https => (Sign::Yes, "They wait on the phone and are sent once."),
        Address::HttpsAtHome => {
            (Sign::Perhaps, "On phones that trust the certificate; on others as with http.")
        }
        Address::ThisComputer | Address::Http => {
            (Sign::No, "They wait only in a page that stays open until it says Sent.")
        }
    };
    Finding::new("Counts kept on the phone", sign, what, "")
}

fn lasting() -> Finding {
    Finding::new(
        "Kept until members clear them",
        Sign::Perhaps,
        "Each browser decides; some clear what was not visited for a week.",
        "Ask members to open \"This phone\" once, and to add the club to the home screen.",
    )
}

fn reached(config: &Config, address: Address) -> Finding {
    let (near, secure) = (config.listen.ip().is_loopback(), config.secure());
    let listen = config.listen;
    let (sign, what, mend) = match (near, secure) {
        (true, true) => (Sign::Yes, format!("A proxy on this computer reaches {listen}, nobody else."), ""),
        (true, false) => {
            let sign = if address == Address::Http { Sign::Perhaps } else { Sign::No };
            let mend = "Put a proxy that holds a certificate in front of it.";
            (sign, format!("Only this computer reaches {listen}."), mend)
        }
        (false, true) => (
            Sign::Perhaps,
            format!("Whoever reaches {listen} gets in past the encryption."),
            "Listen on 127.0.0.1 and let the proxy alone be reached.",
        ),
        (false, false) => (Sign::Perhaps, format!("The network reaches {listen} without encryption."), ""),
    };
    Finding::new("Reached as it should be", sign, what, mend)
}
