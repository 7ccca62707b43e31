use super::Fault;
use super::fault::UNREADABLE;
use std::fs::File;
use std::io::{ErrorKind, Read};
use std::path::Path;

/// What a file is, by its first bytes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A whole SQLite database.
    Copy,
    /// An archive, of either engine.
    Archive,
}

impl Kind {
    pub fn of(path: &Path) -> Result<Self, Fault> {
        let mut first = [0; 16];
        let mut file = File::open(path).map_err(|why| match why.kind() {
            ErrorKind::NotFound => Fault::Missing(path.to_owned()),
            _ => Fault::damaged(path, UNREADABLE, &why),
        })?;
        match file.read_exact(&mut first) {
            Ok(()) if first == *b"SQLite format 3\0" => Ok(Self::Copy),
            Ok(()) if first.starts_with(b"PK\x03\x04") => Ok(Self::Archive),
            _ => Err(Fault::NotABackup(path.to_owned())),
        }
    }

    pub fn ending(self) -> &'static str {
        match self {
            Self::Copy => "db",
            Self::Archive => "zip",
        }
    }
}
