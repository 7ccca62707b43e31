use super::free_port;
use std::sync::Arc;
use std::sync::atomic::{AtomicU8, Ordering};
use std::time::Duration;
use tokio::io::{AsyncReadExt, AsyncWriteExt};
use tokio::net::{TcpListener, TcpStream};
use tokio::time::sleep;

/// What the signal does to requests.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mode {
    Up,
    Down,
    Slow,
    /// Pages take longer than a phone with a kept page waits; sent forms do not.
    SlowPages,
    /// Requests arrive and are done; answers to sent forms never come back.
    AnswerLost,
    /// Sent forms meet a fault of the server.
    Fault,
}

const FAULT: &[u8] = b"HTTP/1.1 500 Internal Server Error\r\ncontent-length: 0\r\nconnection: close\r\n\r\n";

/// Stands between the phone and the program, on an address of its own.
pub struct Proxy {
    pub base: String,
    mode: Arc<AtomicU8>,
}

impl Proxy {
    pub async fn start(to: u16) -> Self {
        let port = free_port();
        let listener = TcpListener::bind(("127.0.0.1", port)).await.unwrap();
        let mode = Arc::new(AtomicU8::new(Mode::Up as u8));
        let shared = mode.clone();
        tokio::spawn(async move {
            while let Ok((phone, _)) = listener.accept().await {
                tokio::spawn(carry(phone, to, shared.clone()));
            }
        });
        Self { base: format!("http://127.0.0.1:{port}"), mode }
    }

    pub fn set(&self, mode: Mode) {
        self.mode.store(mode as u8, Ordering::SeqCst);
    }
}

/// One connection: requests of the phone to the program, answers back, as the mode of the moment allows.
async fn carry(mut phone: TcpStream, to: u16, mode: Arc<AtomicU8>) {
    let is = |m: Mode| mode.load(Ordering::SeqCst) == m as u8;
    let Ok(mut program) = TcpStream::connect(("127.0.0.1", to)).await else { return };
    let (mut up, mut down) = (vec![0; 65_536], vec![0; 65_536]);
    let mut lost = false;
    loop {
        tokio::select! {
            read = phone.read(&mut up) => {
                let Ok(n @ 1..) = read else { return };
                if is(Mode::Down) { return; }
                if is(Mode::Slow) { sleep(Duration::from_millis(1800)).await; }
                if is(Mode::SlowPages) && up.starts_with(b"GET") { sleep(Duration::from_millis(4500)).await; }
                if is(Mode::Fault) && up.starts_with(b"POST") {
                    let _ = phone.write_all(FAULT).await;
                    return;
                }
                lost |= is(Mode::AnswerLost) && up.starts_with(b"POST");
                if program.write_all(&up[..n]).await.is_err() { return; }
            }
            read = program.read(&mut down) => {
                let Ok(n @ 1..) = read else { return };
                if lost || is(Mode::Down) { return; }
                if phone.write_all(&down[..n]).await.is_err() { return; }
            }
        }
    }
}
