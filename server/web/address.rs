//! Where a request comes from.

use crate::app::App;
use crate::config::Config;
use axum::extract::{ConnectInfo, FromRequestParts};
use axum::http::HeaderMap;
use axum::http::request::Parts;
use std::convert::Infallible;
use std::net::{IpAddr, SocketAddr};

/// The sender's address, as coarse as throttles need it; empty where it is not known.
#[derive(Debug, Clone)]
pub struct Address(pub String);

impl FromRequestParts<App> for Address {
    type Rejection = Infallible;

    async fn from_request_parts(parts: &mut Parts, app: &App) -> Result<Self, Infallible> {
        let peer = parts.extensions.get::<ConnectInfo<SocketAddr>>().map(|c| c.0.ip());
        Ok(Self(peer.map_or_else(String::new, |ip| coarse(origin(&app.config, ip, &parts.headers)))))
    }
}

/// Behind proxies that are believed, the address that the outermost of them saw; else the peer's own. A proxy passes
/// on untouched whichever of the two headers it does not write itself, so where both came and differ, neither counts.
fn origin(config: &Config, peer: IpAddr, headers: &HeaderMap) -> IpAddr {
    let (old, new) = (x_forwarded_for(headers), forwarded(headers));
    if !old.is_empty() && !new.is_empty() && old != new {
        return peer;
    }
    let mut hops = if new.is_empty() { old } else { new }.into_iter().rev();
    let mut seen = peer;
    while config.trusts(seen) {
        match hops.next().flatten() {
            Some(before) => seen = before,
            None => break,
        }
    }
    seen
}

/// The hops of X-Forwarded-For, the nearest last; `None` where one is no address.
fn x_forwarded_for(headers: &HeaderMap) -> Vec<Option<IpAddr>> {
    items(headers, "x-forwarded-for").map(|item| address(&item)).collect()
}

/// The hops of Forwarded (RFC 7239), the nearest last; `None` where one does not say for whom.
fn forwarded(headers: &HeaderMap) -> Vec<Option<IpAddr>> {
    let asks_for = |item: String| {
        let pairs = item.split(';').filter_map(|pair| pair.split_once('='));
        let mut whom = pairs.filter(|(name, _)| name.trim().eq_ignore_ascii_case("for"));
        whom.next().and_then(|(_, value)| address(value.trim().trim_matches('"')))
    };
    items(headers, "forwarded").map(asks_for).collect()
}

fn items(headers: &HeaderMap, name: &'static str) -> impl Iterator<Item = String> {
    let lines = headers.get_all(name).iter().map(|v| v.to_str().unwrap_or_default());
    lines.flat_map(|line| line.split(',')).map(|item| item.trim().to_owned())
}

/// An address, with or without brackets and a port.
fn address(text: &str) -> Option<IpAddr> {
    let plain = || text.trim_start_matches('[').trim_end_matches(']').parse().ok();
    text.parse::<SocketAddr>().map(|a| a.ip()).ok().or_else(plain)
}

/// One household has a whole /64 of IPv6.
fn coarse(ip: IpAddr) -> String {
    match ip.to_canonical() {
        IpAddr::V4(v4) => v4.to_string(),
        IpAddr::V6(v6) => v6.segments()[..4].iter().map(|s| format!("{s:x}:")).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn config(proxies: &[&str]) -> Config {
        Config::read(proxies.iter().flat_map(|p| ["--trusted-proxies", p]))
    }

    fn from(config: &Config, peer: &str, headers: &[(&'static str, &str)]) -> String {
        let mut all = HeaderMap::new();
        for (name, value) in headers {
            all.append(*name, value.parse().unwrap());
        }
        coarse(origin(config, peer.parse().unwrap(), &all))
    }

    const OLD: &str = "x-forwarded-for";
    const NEW: &str = "forwarded";

    #[test]
    fn only_a_proxy_on_this_machine_is_believed_by_default() {
        let plain = config(&[]);
        assert_eq!(from(&plain, "127.0.0.1", &[(OLD, "203.0.113.9, 198.51.100.7")]), "198.51.100.7");
        assert_eq!(from(&plain, "::1", &[(NEW, "for=203.0.113.9;proto=https")]), "203.0.113.9");
        for peer in ["203.0.113.77", "192.168.1.5", "10.0.0.2"] {
            assert_eq!(from(&plain, peer, &[(OLD, "198.51.100.7")]), peer);
            assert_eq!(from(&plain, peer, &[(NEW, "for=198.51.100.7")]), peer);
        }
    }

    #[test]
    fn what_a_sender_wrote_before_the_proxies_does_not_count() {
        let two = config(&["10.0.0.0/8,192.0.2.1"]);
        let hops = "1.1.1.1, 203.0.113.9, 192.0.2.1";
        assert_eq!(from(&two, "10.0.0.2", &[(OLD, hops)]), "203.0.113.9");
        assert_eq!(
            from(&two, "127.0.0.1", &[(OLD, hops)]),
            "127.0.0.1",
            "the list stands in for the default"
        );
        assert_eq!(from(&two, "10.0.0.2", &[(OLD, "1.1.1.1"), (OLD, "203.0.113.9")]), "203.0.113.9");
        assert_eq!(from(&two, "10.0.0.2", &[(OLD, "10.0.0.9")]), "10.0.0.9", "a sender inside the network");
    }

    #[test]
    fn headers_that_disagree_or_say_nothing_count_for_nothing() {
        let plain = config(&[]);
        let both = [(OLD, "203.0.113.9"), (NEW, "for=198.51.100.7")];
        assert_eq!(from(&plain, "127.0.0.1", &both), "127.0.0.1");
        assert_eq!(
            from(&plain, "127.0.0.1", &[(OLD, "203.0.113.9"), (NEW, "for=203.0.113.9")]),
            "203.0.113.9"
        );
        for odd in ["", "unknown", "_hidden", "203.0.113.9, unknown", "'"] {
            assert_eq!(from(&plain, "127.0.0.1", &[(OLD, odd)]), "127.0.0.1", "{odd}");
            assert_eq!(from(&plain, "127.0.0.1", &[(NEW, &format!("for={odd}"))]), "127.0.0.1", "{odd}");
        }
    }

    #[test]
    fn addresses_come_in_several_spellings() {
        let plain = config(&[]);
        let forms = ["For=\"[2001:db8:1:2:3:4:5:6]:4711\"", "for=\"[2001:db8:1:2::9]\";by=203.0.113.43"];
        for form in forms {
            assert_eq!(from(&plain, "127.0.0.1", &[(NEW, form)]), "2001:db8:1:2:", "{form}");
        }
        assert_eq!(from(&plain, "127.0.0.1", &[(OLD, "198.51.100.7:1234")]), "198.51.100.7");
        assert_eq!(from(&plain, "::ffff:127.0.0.1", &[(OLD, "2001:db8:1:2::9")]), "2001:db8:1:2:");
    }
}
