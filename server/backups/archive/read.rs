use super::{DIGEST, FORMAT, Foot, Head, ROWS, TableHead, digest_line};
use crate::backups::Fault;
use crate::backups::fault::UNREADABLE;
use crate::db::copy::{self, Table};
use crate::db::schema::Newer;
use crate::db::{Conn, migrate};
use serde::Deserialize;
use serde_json::Value;
use sha2::{Digest, Sha256};
use std::fs::File;
use std::io::{self, BufRead, BufReader, ErrorKind, Read};
use std::path::Path;
use tokio::sync::mpsc::{Receiver, Sender, channel};
use zip::ZipArchive;

/// Rows are handed on so many at a time, or fewer where they are long.
const AT_ONCE: usize = 2000;
const PIECE: usize = 256 * 1024;

/// What is wrong with an archive, in our own words.
#[derive(Debug, thiserror::Error)]
#[error("{0}")]
struct Wrong(String);

fn wrong(why: impl Into<String>) -> io::Error {
    io::Error::other(Wrong(why.into()))
}

enum Part {
    Head(Head),
    Table(TableHead),
    Rows(Vec<Vec<Value>>),
}

/// Fills an empty database inside its transaction: the schema of the archive's own step, then all rows, then the rules
/// between them. The archive's step. An error leaves it to the caller to drop the transaction.
pub async fn fill(conn: &mut Conn, from: &Path) -> Result<i64, Fault> {
    let (parts, received) = channel(4);
    let file = from.to_owned();
    let unpacking = tokio::task::spawn_blocking(move || unpack(&file, &parts));
    let put = put_all(conn, received, from).await;
    let unpacked = unpacking.await.map_err(|e| Fault::Other(format!("The archive was not read: {e}")))?;
    match unpacked {
        Err(why) if why.kind() != ErrorKind::BrokenPipe => {
            let ours = why.get_ref().and_then(|inner| inner.downcast_ref::<Wrong>());
            Err(Fault::damaged(from, ours.map_or(UNREADABLE, |wrong| &wrong.0), &why))
        }
        _ => put,
    }
}

async fn put_all(conn: &mut Conn, mut parts: Receiver<Part>, from: &Path) -> Result<i64, Fault> {
    let engine = |error| Fault::engine(from, from, error);
    let Some(Part::Head(head)) = parts.recv().await else { return Err(Fault::NotABackup(from.to_owned())) };
    Newer::refuse(head.schema).map_err(|newer| Fault::Newer { path: from.to_owned(), newer })?;
    migrate::up_to(conn, head.schema).await.map_err(engine)?;
    let held = copy::loosen(conn).await.map_err(engine)?;
    let tables = copy::tables(conn).await.map_err(engine)?;
    let mut into: Option<(&Table, Vec<String>)> = None;
    while let Some(part) = parts.recv().await {
        match (part, &into) {
            (Part::Table(TableHead { table, columns }), _) => {
                let found = tables.iter().find(|t| t.name == table);
                let unknown = || sqlx::Error::Decode(format!("there is no table {table}").into());
                into = Some((found.ok_or_else(unknown).map_err(engine)?, columns));
            }
            (Part::Rows(rows), Some((table, names))) => {
                copy::put(conn, table, names, &rows).await.map_err(engine)?;
            }
            _ => return Err(engine(sqlx::Error::Decode("its lines are out of order".into()))),
        }
    }
    copy::tighten(conn, held).await.map_err(engine)?;
    Ok(head.schema)
}

/// Reads the lines, and the digest at the end.
fn unpack(from: &Path, parts: &Sender<Part>) -> io::Result<()> {
    let mut zip = ZipArchive::new(BufReader::new(File::open(from)?))?;
    let mut digest = Sha256::new();
    let lines = Lines { from: BufReader::new(zip.by_name(ROWS)?), digest: &mut digest, line: Vec::new() };
    lines.hand_on(parts)?;
    let mut said = String::new();
    zip.by_name(DIGEST)?.take(1000).read_to_string(&mut said)?;
    if said == digest_line(&digest.finalize()) {
        return Ok(());
    }
    Err(wrong("its digest is another"))
}

struct Lines<'a, R> {
    from: BufReader<R>,
    digest: &'a mut Sha256,
    line: Vec<u8>,
}

impl<R: Read> Lines<'_, R> {
    fn hand_on(mut self, parts: &Sender<Part>) -> io::Result<()> {
        let head: Head = self.next()?;
        if head.hilum_archive != FORMAT {
            return Err(wrong(format!("its format is {}", head.hilum_archive)));
        }
        send(parts, Part::Head(head))?;
        let (mut rows, mut size, mut count) = (Vec::new(), 0, 0);
        loop {
            self.fetch()?;
            if self.line.starts_with(b"[") {
                rows.push(self.parse()?);
                (size, count) = (size + self.line.len(), count + 1);
            }
            let table = self.line.starts_with(b"{\"table\"");
            let last = !table && !self.line.starts_with(b"[");
            if !rows.is_empty() && (table || last || rows.len() == AT_ONCE || size > PIECE) {
                send(parts, Part::Rows(std::mem::take(&mut rows)))?;
                size = 0;
            }
            if table {
                send(parts, Part::Table(self.parse()?))?;
            }
            if last {
                return self.end(count);
            }
        }
    }

    fn end(mut self, count: u64) -> io::Result<()> {
        let foot: Foot = self.parse()?;
        self.line.clear();
        let more = self.from.read_until(b'\n', &mut self.line)?;
        if foot.rows == count && more == 0 {
            return Ok(());
        }
        Err(wrong(format!("it should have {} rows and has {count}", foot.rows)))
    }

    fn next<T: for<'de> Deserialize<'de>>(&mut self) -> io::Result<T> {
        self.fetch()?;
        self.parse()
    }

    fn fetch(&mut self) -> io::Result<()> {
        self.line.clear();
        self.from.read_until(b'\n', &mut self.line)?;
        self.digest.update(&self.line);
        if self.line.ends_with(b"\n") { Ok(()) } else { Err(wrong("its end is missing")) }
    }

    fn parse<T: for<'de> Deserialize<'de>>(&self) -> io::Result<T> {
        serde_json::from_slice(&self.line).map_err(|_| wrong("a line cannot be read"))
    }
}

fn send(parts: &Sender<Part>, part: Part) -> io::Result<()> {
    parts.blocking_send(part).map_err(|_| ErrorKind::BrokenPipe.into())
}
