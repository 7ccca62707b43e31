use super::print;
use hilum::config::Config;
use hilum::host::{self, Sign};
use std::process::ExitCode;

/// Prints the usual mistakes of a host, each with its mend, and what these settings mean for members' phones; status 1
/// where something has to be mended.
pub async fn run(config: &Config) -> ExitCode {
    let findings = host::look(config).await;
    for finding in &findings {
        print(&finding.to_string());
    }
    let count = |sign| findings.iter().filter(|finding| finding.sign == sign).count();
    let (wrong, perhaps) = (count(Sign::No), count(Sign::Perhaps));
    print(&format!("\nTo be mended: {wrong}. To be thought of: {perhaps}.\n"));
    if wrong == 0 { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}
