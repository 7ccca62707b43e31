use super::{malformed, print};
use clap::ValueEnum;
use hilum_calc::analyse::{self, Analysis, Options};
use hilum_calc::table::{At, Of};
use std::path::PathBuf;
use std::process::ExitCode;

/// Computes everything from a file of counts: bags, club table, model, pairs of sources, linked groups.
#[derive(clap::Args)]
pub struct Analyse {
    /// The club's long table of counts (CSV): one line for each look into a bag.
    file: PathBuf,
    /// Print the club table as CSV, not everything as JSON.
    #[arg(long)]
    table: bool,
    /// What the rate is a share of.
    #[arg(long, value_enum, default_value = "started")]
    of: Base,
    /// By when a seed must have rooted: the standard day of its kind, or the close of its bag.
    #[arg(long, value_enum, default_value = "day")]
    at: Time,
    /// Day of the reading (YYYY-MM-DD): bags that went on paper later than a standard day before it wait.
    #[arg(long, value_parser = day)]
    as_of: Option<i32>,
}

#[derive(Clone, Copy, ValueEnum)]
enum Base {
    Started,
    Paper,
}

#[derive(Clone, Copy, ValueEnum)]
enum Time {
    Day,
    Close,
}

fn day(text: &str) -> Result<i32, String> {
    analyse::day_number(text).ok_or_else(|| "must be a date such as 2026-03-31".to_owned())
}

impl Analyse {
    pub fn run(&self) -> ExitCode {
        match self.analysis() {
            Ok(analysis) if self.table => print(&analysis.table_csv()),
            Ok(analysis) => print(&format!("{}\n", analysis.json())),
            Err(faults) => return malformed(&faults),
        }
        ExitCode::SUCCESS
    }

    fn analysis(&self) -> Result<Analysis, String> {
        let bytes = std::fs::read(&self.file)
            .map_err(|e| format!("{} cannot be read: {e}\n", self.file.display()))?;
        let text =
            String::from_utf8(bytes).map_err(|e| not_utf8(e.as_bytes(), e.utf8_error().valid_up_to()))?;
        let options = Options {
            of: match self.of {
                Base::Started => Of::Started,
                Base::Paper => Of::Paper,
            },
            at: match self.at {
                Time::Day => At::Day,
                Time::Close => At::Close,
            },
            as_of: self.as_of,
        };
        analyse::run(&text, options)
            .map_err(|faults| faults.iter().map(|fault| format!("{fault}\n")).collect())
    }
}

fn not_utf8(bytes: &[u8], upto: usize) -> String {
    let line = bytes[..upto].iter().filter(|b| **b == b'\n').count() + 1;
    format!("line {line}: the file is not UTF-8 from here on; save it as UTF-8\n")
}
