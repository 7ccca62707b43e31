use std::net::TcpListener;
use std::time::{Duration, Instant};

/// A port that is free now.
pub fn free_port() -> u16 {
    TcpListener::bind("127.0.0.1:0").unwrap().local_addr().unwrap().port()
}

/// Waits until something answers on `port`.
pub async fn answers(port: u16) {
    let until = Instant::now() + Duration::from_secs(30);
    while tokio::net::TcpStream::connect(("127.0.0.1", port)).await.is_err() {
        assert!(Instant::now() < until, "nothing answers on port {port}");
        tokio::time::sleep(Duration::from_millis(5)).await;
    }
}
