use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};
use tokio::io::{AsyncReadExt, AsyncWriteExt};
use tokio::net::{TcpListener, TcpStream};
use tokio::task::JoinHandle;

/// Stands before several processes and gives each connection to the next of them in turn; one request a connection.
pub struct Proxy {
    pub base: String,
    work: JoinHandle<()>,
}

impl Proxy {
    pub async fn before(ports: Vec<u16>) -> Self {
        let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
        let base = format!("http://{}", listener.local_addr().unwrap());
        let (turn, ports) = (Arc::new(AtomicUsize::new(0)), Arc::new(ports));
        let work = tokio::spawn(async move {
            loop {
                let (client, _) = listener.accept().await.unwrap();
                let port = ports[turn.fetch_add(1, Ordering::SeqCst) % ports.len()];
                tokio::spawn(async move {
                    let server = TcpStream::connect(("127.0.0.1", port)).await.unwrap();
                    // a side that goes away ends it
                    drop(pass_on(client, server).await);
                });
            }
        });
        Self { base, work }
    }
}

impl Drop for Proxy {
    fn drop(&mut self) {
        self.work.abort();
    }
}

/// Asks the server to end the connection after its answer, so that the next request comes by the proxy again.
async fn pass_on(client: TcpStream, server: TcpStream) -> std::io::Result<()> {
    let ((mut from, mut to), (mut back, mut there)) = (client.into_split(), server.into_split());
    let mut head = Vec::new();
    let mut part = [0; 4096];
    let end = loop {
        let n = from.read(&mut part).await?;
        head.extend_from_slice(&part[..n]);
        let found = head.windows(2).position(|two| two == b"\r\n");
        if n == 0 || found.is_some() {
            break found.unwrap_or(head.len());
        }
    };
    there.write_all(&head[..end]).await?;
    there.write_all(b"\r\nconnection: close").await?;
    there.write_all(&head[end..]).await?;
    let request = tokio::spawn(async move { tokio::io::copy(&mut from, &mut there).await });
    tokio::io::copy(&mut back, &mut to).await?;
    to.shutdown().await?;
    request.abort();
    Ok(())
}
