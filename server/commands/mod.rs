//! Commands besides `serve`, each in its own file; each gives the status to exit with.

pub mod analyse;
pub mod check;
pub mod host_check;
pub mod reckon;

use std::process::ExitCode;

/// Status of a command whose input is malformed.
const MALFORMED: u8 = 2;

/// Prints `text` on standard output; a reader that went away is no fault of ours.
fn print(text: &str) {
    use std::io::Write;
    let mut out = std::io::stdout().lock();
    let _ = out.write_all(text.as_bytes()).and_then(|()| out.flush());
}

fn malformed(text: &str) -> ExitCode {
    print(text);
    ExitCode::from(MALFORMED)
}
