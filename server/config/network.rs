use std::net::IpAddr;
use std::str::FromStr;

/// Addresses that begin alike: `10.0.0.0/8`, or one address by itself.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Network {
    start: IpAddr,
    /// How many bits are alike.
    bits: u32,
}

impl Network {
    /// One address by itself.
    pub fn of(ip: impl Into<IpAddr>) -> Self {
        let start = ip.into();
        Self { start, bits: if start.is_ipv4() { 32 } else { 128 } }
    }

    /// Whether `ip` is one of these addresses; one of IPv4 is the same when it comes written as IPv6.
    pub fn holds(&self, ip: IpAddr) -> bool {
        match (self.start, ip.to_canonical()) {
            (IpAddr::V4(start), IpAddr::V4(ip)) => {
                alike(start.to_bits().into(), ip.to_bits().into(), self.bits + 96)
            }
            (IpAddr::V6(start), IpAddr::V6(ip)) => alike(start.to_bits(), ip.to_bits(), self.bits),
            _ => false,
        }
    }
}

fn alike(a: u128, b: u128, bits: u32) -> bool {
    (a ^ b).leading_zeros() >= bits
}

impl FromStr for Network {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let wrong = || format!("'{text}' is no address such as 10.0.0.2 and no network such as 10.0.0.0/8");
        let (start, bits) = text.split_once('/').map_or((text, None), |(start, bits)| (start, Some(bits)));
        let start: IpAddr = start.trim().parse().map_err(|_| wrong())?;
        let most = if start.is_ipv4() { 32 } else { 128 };
        let bits = bits.map_or(Ok(most), |b| b.trim().parse().map_err(|_| wrong()))?;
        if bits > most { Err(wrong()) } else { Ok(Self { start, bits }) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_network_holds_what_begins_alike() {
        let holds = |network: &str, ip: &str| network.parse::<Network>().unwrap().holds(ip.parse().unwrap());
        assert!(holds("10.0.0.0/8", "10.255.3.4") && !holds("10.0.0.0/8", "11.0.0.1"));
        assert!(holds("192.0.2.7", "192.0.2.7") && !holds("192.0.2.7", "192.0.2.6"));
        assert!(holds("192.0.2.7", "::ffff:192.0.2.7"));
        assert!(holds("2001:db8::/32", "2001:db8:ffff::1") && !holds("2001:db8::/32", "2001:db9::1"));
        assert!(holds("0.0.0.0/0", "203.0.113.9") && !holds("0.0.0.0/0", "::1"));
        for bad in ["", "10.0.0", "10.0.0.0/33", "::/129", "10.0.0.0/x", "proxy.test"] {
            assert!(bad.parse::<Network>().is_err(), "{bad}");
        }
    }
}
