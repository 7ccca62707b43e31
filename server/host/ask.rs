//! Asks a Hilum on this computer how it is, over its own port.

use std::net::{IpAddr, Ipv4Addr, Ipv6Addr, SocketAddr};
use std::time::Duration;
use tokio::io::{AsyncReadExt, AsyncWriteExt};
use tokio::net::TcpStream;
use tokio::time::timeout;

const PATIENCE: Duration = Duration::from_secs(5);
/// More than any answer that is asked for here.
const LONGEST: u64 = 4 * 1024 * 1024;

/// The status and the words of `path` at an address that a program listens on; `None` where nobody answers.
pub async fn ask(listen: SocketAddr, path: &str) -> Option<(u16, String)> {
    timeout(PATIENCE, answer(reachable(listen), path)).await.ok()?.ok()
}

async fn answer(at: SocketAddr, path: &str) -> std::io::Result<(u16, String)> {
    let mut stream = TcpStream::connect(at).await?;
    let request = format!("GET {path} HTTP/1.0\r\nHost: {at}\r\n\r\n");
    stream.write_all(request.as_bytes()).await?;
    let mut answer = Vec::new();
    stream.take(LONGEST).read_to_end(&mut answer).await?;
    let answer = String::from_utf8_lossy(&answer).into_owned();
    let (head, words) = answer.split_once("\r\n\r\n").unwrap_or((&answer, ""));
    let status = head.split_whitespace().nth(1).and_then(|status| status.parse().ok());
    Ok((status.unwrap_or_default(), words.to_owned()))
}

/// Who listens on all addresses is reached on this computer's own.
fn reachable(listen: SocketAddr) -> SocketAddr {
    let ip = match listen.ip() {
        IpAddr::V4(ip) if ip.is_unspecified() => Ipv4Addr::LOCALHOST.into(),
        IpAddr::V6(ip) if ip.is_unspecified() => Ipv6Addr::LOCALHOST.into(),
        ip => ip,
    };
    SocketAddr::new(ip, listen.port())
}
