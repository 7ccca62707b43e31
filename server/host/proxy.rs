//! Who may reach the program and whose word about senders it takes.

use super::{Finding, Sign};
use crate::config::Config;
use crate::db::reach::Reach;
use std::net::{IpAddr, Ipv4Addr, Ipv6Addr};

const BELIEVED: &str = "Senders told apart";

/// What the settings say of proxies, of metrics and of the database's own address.
pub fn findings(config: &Config) -> Vec<Finding> {
    [Some(believed(config)), metrics(config), remote(config)].into_iter().flatten().collect()
}

fn believed(config: &Config) -> Finding {
    let own: [IpAddr; 2] = [Ipv4Addr::LOCALHOST.into(), Ipv6Addr::LOCALHOST.into()];
    // addresses for documentation (RFC 5737, RFC 3849): no proxy has one
    let nobody: [IpAddr; 2] =
        [Ipv4Addr::new(203, 0, 113, 1).into(), Ipv6Addr::from(0x2001_0db8_u128 << 96).into()];
    let near = config.listen.ip().is_loopback();
    if nobody.iter().any(|ip| config.trusts(*ip)) {
        let what =
            "Everybody is believed about where they come from, so nobody who guesses passwords is held back.";
        return Finding::new(
            BELIEVED,
            Sign::No,
            what,
            "Name in --trusted-proxies only the proxy's own address.",
        );
    }
    if near && config.secure() && !own.iter().any(|ip| config.trusts(*ip)) {
        let what = "The proxy on this computer is not believed: all members seem to come from one address.";
        return Finding::new(BELIEVED, Sign::No, what, "Add 127.0.0.1,::1 to --trusted-proxies.");
    }
    let only_own = config.trusted_proxies.iter().all(|network| own.iter().any(|ip| network.holds(*ip)));
    if !near && config.secure() && only_own {
        let what = "A proxy on another computer is not believed: all members seem to come from one address.";
        let mend = "Name it in --trusted-proxies; or let a proxy on this computer speak https, and listen on 127.0.0.1.";
        return Finding::new(BELIEVED, Sign::Perhaps, what, mend);
    }
    if !near && config.listen.ip().is_unspecified() && !config.secure() {
        let what = format!("{} is open to every network of this computer, without a proxy.", config.listen);
        let mend = "Listen on 127.0.0.1 and put a proxy that speaks https in front of it.";
        return Finding::new(BELIEVED, Sign::No, what, mend);
    }
    Finding::yes(
        BELIEVED,
        "Only proxies that you named are believed. Let yours set X-Forwarded-For or Forwarded.",
    )
}

fn metrics(config: &Config) -> Option<Finding> {
    let about = "Metrics kept to yourself";
    let at = config.metrics_listen?;
    if at.ip().is_loopback() {
        return Some(Finding::yes(about, format!("Only this computer reads http://{at}/metrics.")));
    }
    let what = format!("Whoever reaches {at} can read how much the club works.");
    Some(Finding::new(
        about,
        Sign::Perhaps,
        what,
        "Set --metrics-listen to 127.0.0.1:9464, or keep others out.",
    ))
}

/// Where PostgreSQL is and how it is reached, as its address says; nothing of the rest of the address.
fn remote(config: &Config) -> Option<Finding> {
    let about = "Database on this computer";
    let url = config.database_url.as_deref().filter(|url| url.starts_with("postgres"))?;
    let (sign, what) = match Reach::of(url).ok()? {
        Reach::Here => return Some(Finding::yes(about, "PostgreSQL is asked over this computer alone.")),
        Reach::Checked => {
            (Sign::Perhaps, "PostgreSQL is on another computer: where the network fails, nothing is saved.")
        }
        Reach::Unchecked => {
            (Sign::No, "PostgreSQL is on another computer, and nobody checks that it is the right one.")
        }
        Reach::Open => {
            (Sign::No, "PostgreSQL is on another computer, and what goes there and back is not encrypted.")
        }
    };
    let mend =
        "Keep PostgreSQL on this computer; else give it a certificate and leave sslmode out of its address.";
    Some(Finding::new(about, sign, what, mend))
}
