use super::print;
use hilum::config::list;
use hilum::config::sources::{InForce, Source};
use std::process::ExitCode;

/// Prints the manual's table of settings, as Markdown.
#[derive(clap::Args)]
pub struct Settings {
    /// What they are now instead, and where each was said; secrets are not shown.
    #[arg(long)]
    in_force: bool,
}

impl Settings {
    pub fn run(&self, in_force: &[InForce]) -> ExitCode {
        if !self.in_force {
            print(&list::manual());
            return ExitCode::SUCCESS;
        }
        for InForce { key, value, from } in in_force {
            let value = if value.is_empty() { "none" } else { value };
            let from = if *from == Source::Default { String::new() } else { format!("  (from {from})") };
            print(&format!("{key} = {value}{from}\n"));
        }
        ExitCode::SUCCESS
    }
}
