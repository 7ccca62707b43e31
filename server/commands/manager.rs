use std::ffi::{OsStr, OsString};
use std::io;
use std::os::linux::net::SocketAddrExt;
use std::os::unix::ffi::OsStrExt;
use std::os::unix::net::{SocketAddr, UnixDatagram};

/// The service manager that started the program and waits for its word, as sd_notify(3) describes; or none.
pub struct Manager(pub Option<OsString>);

impl Manager {
    /// The program listens.
    pub fn ready(&self) {
        if let Some(socket) = &self.0
            && let Err(error) = send(socket, "READY=1")
        {
            tracing::warn!("the service manager was not told that the program is ready: {error}");
        }
    }
}

fn send(socket: &OsStr, word: &str) -> io::Result<()> {
    let address = match socket.as_bytes() {
        [b'@', name @ ..] => SocketAddr::from_abstract_name(name)?,
        _ => SocketAddr::from_pathname(socket)?,
    };
    UnixDatagram::unbound()?.send_to_addr(word.as_bytes(), &address).map(|_| ())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn heard(socket: &UnixDatagram) -> String {
        let mut word = [0; 99];
        let length = socket.recv(&mut word).unwrap();
        String::from_utf8_lossy(&word[..length]).into_owned()
    }

    #[test]
    fn both_kinds_of_socket_are_told() {
        let folder = tempfile::TempDir::new().unwrap();
        let path = folder.path().join("socket");
        let name = format!("hilum-test-{}", std::process::id());
        let sockets = [
            (path.clone().into_os_string(), SocketAddr::from_pathname(&path).unwrap()),
            (format!("@{name}").into(), SocketAddr::from_abstract_name(&name).unwrap()),
        ];
        for (told, bound) in sockets {
            let socket = UnixDatagram::bind_addr(&bound).unwrap();
            Manager(Some(told)).ready();
            assert_eq!(heard(&socket), "READY=1");
        }
    }

    #[test]
    fn nobody_to_tell_is_no_fault() {
        Manager(None).ready();
        Manager(Some("/nowhere/at/all".into())).ready();
        assert_eq!(send("/nowhere/at/all".as_ref(), "READY=1").unwrap_err().kind(), io::ErrorKind::NotFound);
    }
}
