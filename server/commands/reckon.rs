use super::{malformed, print};
use hilum_calc::reckon;
use hilum_calc::reckon::Fault;
use std::io::Read;
use std::process::ExitCode;

/// Runs one published method on the JSON object on standard input.
#[derive(clap::Args)]
pub struct Reckon {
    /// rate, two-rates, times, curve, event-time, sow, power, warmth, ageing, pooled, club, shrink, replicates, mix
    /// or linked.
    method: String,
}

impl Reckon {
    pub fn run(&self) -> ExitCode {
        match self.answer() {
            Ok(answer) => {
                print(&format!("{answer}\n"));
                ExitCode::SUCCESS
            }
            Err(fault) => malformed(&format!("{}\n", fault.json())),
        }
    }

    fn answer(&self) -> Result<serde_json::Value, Fault> {
        let mut text = Vec::new();
        std::io::stdin()
            .read_to_end(&mut text)
            .map_err(|e| Fault::new("", format!("standard input cannot be read: {e}")))?;
        let input =
            serde_json::from_slice(&text).map_err(|e| Fault::new("", format!("this is not JSON: {e}")))?;
        reckon::run(&self.method, &input)
    }
}
