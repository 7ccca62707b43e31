use super::print;
use hilum::config::Config;
use std::io::{Read, Write};
use std::net::{SocketAddr, TcpStream};
use std::process::ExitCode;
use std::time::Duration;

const PATIENCE: Duration = Duration::from_secs(5);
/// As much of an answer as tells its status: `HTTP/1.1 200`.
const HEAD: usize = 12;

/// Asks the program at its listening address; status 1 where it does not answer, or only that it cannot.
pub fn run(config: &Config) -> ExitCode {
    match status(config.listen) {
        Ok(..500) => ExitCode::SUCCESS,
        Ok(status) => fault(&format!("{} answers with fault {status}.", config.listen)),
        Err(error) => fault(&format!("Nothing answers at {}: {error}.", config.listen)),
    }
}

fn fault(text: &str) -> ExitCode {
    print(&format!("{text}\n"));
    ExitCode::FAILURE
}

/// The status of the answer (RFC 9112, section 4).
fn status(at: SocketAddr) -> std::io::Result<u16> {
    let mut stream = TcpStream::connect_timeout(&at, PATIENCE)?;
    stream.set_read_timeout(Some(PATIENCE))?;
    stream.set_write_timeout(Some(PATIENCE))?;
    let asked = format!("GET /healthz HTTP/1.1\r\nHost: {at}\r\nConnection: close\r\n\r\n");
    stream.write_all(asked.as_bytes())?;
    let mut head = [0; HEAD];
    stream.read_exact(&mut head)?;
    let line = std::str::from_utf8(&head).ok().and_then(|line| line.strip_prefix("HTTP/1.1 "));
    line.and_then(|code| code.parse().ok()).ok_or_else(|| std::io::Error::other("that is no web server"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::net::TcpListener;

    /// What the command makes of a server that says `answer` once.
    fn told(answer: &'static str) -> ExitCode {
        let listener = TcpListener::bind("127.0.0.1:0").unwrap();
        let config = Config { listen: listener.local_addr().unwrap(), ..Config::default() };
        let server = std::thread::spawn(move || {
            let (mut stream, _) = listener.accept().unwrap();
            let mut asked = [0; 24];
            stream.read_exact(&mut asked).unwrap();
            assert_eq!(&asked, b"GET /healthz HTTP/1.1\r\nH");
            stream.write_all(answer.as_bytes()).unwrap();
        });
        let code = run(&config);
        server.join().unwrap();
        code
    }

    #[test]
    fn good_is_what_answers_and_can() {
        assert_eq!(told("HTTP/1.1 200 OK\r\n\r\n"), ExitCode::SUCCESS);
        assert_eq!(told("HTTP/1.1 503 Service Unavailable\r\n\r\n"), ExitCode::FAILURE);
        assert_eq!(told("SSH-2.0-something else\r\n"), ExitCode::FAILURE);
        assert_eq!(told(""), ExitCode::FAILURE);
    }

    #[test]
    fn nobody_there_is_a_fault() {
        // a port that no computer gives out by itself
        let listen = "127.0.0.1:1".parse().unwrap();
        assert_eq!(run(&Config { listen, ..Config::default() }), ExitCode::FAILURE);
    }
}
