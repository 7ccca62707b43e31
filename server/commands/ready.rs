use super::print;
use hilum::config::Config;
use hilum::host::ask;
use std::process::ExitCode;

/// Asks the running program whether members can work; for the health check of a container, which has no other program
/// to ask with.
pub async fn run(config: &Config) -> ExitCode {
    match ask::ask(config.listen, "/readyz").await {
        Some((status, words)) => {
            print(&words);
            if status == 200 { ExitCode::SUCCESS } else { ExitCode::FAILURE }
        }
        None => {
            print(&format!("Nothing answers at {}.\n", config.listen));
            ExitCode::FAILURE
        }
    }
}
