use super::print;
use hilum::config::Config;
use hilum::upkeep::host::{self, Sign};
use std::net::SocketAddr;
use std::process::ExitCode;
use std::time::Duration;
use tokio::net::TcpStream;
use tokio::time::timeout;

const PATIENCE: Duration = Duration::from_secs(2);

/// Prints what these settings mean for members' phones and how to mend it; status 1 where something is missing.
pub async fn run(config: &Config) -> ExitCode {
    let findings = host::findings(config, answers(config.listen).await);
    for finding in &findings {
        print(&finding.to_string());
    }
    let good = findings.iter().all(|finding| finding.sign != Sign::No);
    if good { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

async fn answers(listen: SocketAddr) -> bool {
    matches!(timeout(PATIENCE, TcpStream::connect(listen)).await, Ok(Ok(_)))
}
