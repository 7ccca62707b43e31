//! Requests that a proxy and the program might read in two ways (RFC 9112, sections 5.1, 5.2, 6.3 and 11.2): each gets one
//! answer at most, and nothing behind it is taken for a request of its own.

use crate::support::Program;
use std::time::Duration;
use tokio::io::{AsyncReadExt, AsyncWriteExt};
use tokio::net::TcpStream;
use tokio::time::timeout;

const POST: &str =
    "POST /nowhere HTTP/1.1\r\nHost: club.test\r\nContent-Type: application/x-www-form-urlencoded\r\n";

/// The lines of status that came back before the connection was closed, or a moment passed.
async fn answers(program: &Program, request: &str) -> Vec<String> {
    let mut stream = TcpStream::connect(("127.0.0.1", program.port)).await.unwrap();
    stream.write_all(request.as_bytes()).await.unwrap();
    let mut bytes = Vec::new();
    let _ = timeout(Duration::from_secs(2), stream.read_to_end(&mut bytes)).await;
    let text = String::from_utf8_lossy(&bytes).into_owned();
    text.split("HTTP/1.1 ").skip(1).map(|rest| rest.chars().take(3).collect()).collect()
}

#[tokio::test]
async fn a_request_that_can_be_read_in_two_ways_is_answered_once_and_refused() {
    let program = Program::start().await;
    for (what, rest) in [
        ("two lengths", "Content-Length: 3\r\nContent-Length: 40\r\n\r\na=b"),
        ("a length that is none", "Content-Length: 3x\r\n\r\na=b"),
        ("a length below nothing", "Content-Length: -3\r\n\r\na=b"),
        ("a space before the colon", "Content-Length : 3\r\n\r\na=b"),
        ("a coding that is not the last", "Transfer-Encoding: chunked, gzip\r\n\r\n0\r\n\r\n"),
        ("a chunk without a size", "Transfer-Encoding: chunked\r\n\r\nZZ\r\na=b\r\n0\r\n\r\n"),
        ("a folded header", "X-One: a\r\n b\r\n\r\n"),
        ("a bare line feed within a header", "X-One: a\rb\r\n\r\n"),
    ] {
        let smuggled = "GET /nowhere HTTP/1.1\r\nHost: club.test\r\n\r\n";
        let came = answers(&program, &format!("{POST}{rest}{smuggled}")).await;
        // there is nothing here to read a body for: its chunks may not have been looked at
        let refused = came == ["400"] || what.contains("chunk") && came == ["404"];
        assert!(refused, "{what}: {came:?}");
    }
}

#[tokio::test]
async fn where_chunks_and_a_length_come_together_the_chunks_count() {
    let program = Program::start().await;
    let both = "Content-Length: 60\r\nTransfer-Encoding: chunked\r\n\r\n3\r\na=b\r\n0\r\n\r\n";
    let came =
        answers(&program, &format!("{POST}{both}GET /nowhere HTTP/1.1\r\nHost: club.test\r\n\r\n")).await;
    assert!(
        came.len() <= 2 && ["400", "404"].contains(&came[0].as_str()),
        "read as the standard says, or refused: {came:?}"
    );
}
