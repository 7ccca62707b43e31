use super::{DIGEST, FORMAT, Foot, Head, ROWS, TableHead, digest_line};
use crate::backups::Fault;
use crate::db::copy::{self, Table};
use crate::db::{Conn, Db, schema};
use futures_util::StreamExt;
use serde::Serialize;
use sha2::{Digest, Sha256};
use std::fs::File;
use std::io::{self, BufWriter, Write};
use std::path::Path;
use tokio::sync::mpsc::{Receiver, Sender, channel};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, ZipWriter};

/// Lines go to the thread that packs them in pieces of about so many bytes.
const PIECE: usize = 64 * 1024;

/// Writes all tables of `db`, as they are at one moment, to the file `to`; which step of the schema they are at.
pub async fn write(db: &Db, to: &Path) -> Result<i64, Fault> {
    let file = File::create(to).map_err(|why| Fault::writing(to, why))?;
    let (lines, pieces) = channel(8);
    let packing = tokio::task::spawn_blocking(move || pack(file, pieces));
    let mut lines = Lines { to: lines, piece: Vec::with_capacity(PIECE), rows: 0 };
    let read = all(db, &mut lines).await;
    drop(lines);
    let packed = packing.await.map_err(|e| Fault::Other(format!("The archive was not written: {e}")))?;
    packed.map_err(|why| Fault::writing(to, why))?;
    read.map_err(|error| Fault::engine(to, to, error))
}

async fn all(db: &Db, lines: &mut Lines) -> Result<i64, sqlx::Error> {
    let mut conn = db.snapshot().await?;
    let step = schema::step(&mut conn).await?;
    lines.add(&Head { hilum_archive: FORMAT, schema: step }).await?;
    for table in copy::tables(&mut conn).await? {
        let columns = table.columns.iter().map(|c| c.name.clone()).collect();
        lines.add(&TableHead { table: table.name.clone(), columns }).await?;
        rows(&mut conn, &table, lines).await?;
    }
    lines.add(&Foot { rows: lines.rows }).await?;
    lines.send().await?;
    Ok(step)
}

async fn rows(conn: &mut Conn, table: &Table, lines: &mut Lines) -> Result<(), sqlx::Error> {
    let mut rows = copy::rows(conn, table);
    while let Some(row) = rows.next().await {
        lines.rows += 1;
        lines.add(&row?).await?;
    }
    Ok(())
}

struct Lines {
    to: Sender<Vec<u8>>,
    piece: Vec<u8>,
    rows: u64,
}

impl Lines {
    async fn add(&mut self, line: &impl Serialize) -> Result<(), sqlx::Error> {
        serde_json::to_writer(&mut self.piece, line).map_err(|e| sqlx::Error::Encode(e.into()))?;
        self.piece.push(b'\n');
        if self.piece.len() < PIECE { Ok(()) } else { self.send().await }
    }

    async fn send(&mut self) -> Result<(), sqlx::Error> {
        let piece = std::mem::replace(&mut self.piece, Vec::with_capacity(PIECE));
        // the packing thread has stopped: its own error tells why
        self.to.send(piece).await.map_err(|_| sqlx::Error::WorkerCrashed)
    }
}

fn pack(file: File, mut pieces: Receiver<Vec<u8>>) -> io::Result<()> {
    let packed = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Deflated)
        .last_modified_time(DateTime::default())
        .unix_permissions(0o600)
        .large_file(true);
    let mut zip = ZipWriter::new(BufWriter::new(file));
    zip.start_file(ROWS, packed)?;
    let mut digest = Sha256::new();
    while let Some(piece) = pieces.blocking_recv() {
        digest.update(&piece);
        zip.write_all(&piece)?;
    }
    zip.start_file(DIGEST, packed)?;
    zip.write_all(digest_line(&digest.finalize()).as_bytes())?;
    zip.finish()?.into_inner()?.sync_all()
}
