//! The archive, from one engine to the other and back: the same bytes at the end. With `TEST_DATABASE_URL` the way
//! leads through PostgreSQL, else through another SQLite file.

use crate::support::{Told, empty, filled, hilum, tables_of, whole};
use hilum::db::Db;
use sha2::{Digest, Sha256};
use std::collections::BTreeSet;
use std::io::Read;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

fn backup(url: &str, data: &Path, to: &Path) -> PathBuf {
    std::fs::create_dir(to).unwrap();
    let args = ["backup", "--archive", "--to", to.to_str().unwrap()];
    let told = Told::from(hilum(url, data).args(args).output().unwrap());
    assert!(told.good && told.out.contains("nothing is wrong"), "{told:?}");
    PathBuf::from(told.out.split(" (").next().unwrap())
}

fn restore(url: &str, data: &Path, file: &Path) {
    let told = Told::from(hilum(url, data).args(["restore", "--as-it-was"]).arg(file).output().unwrap());
    assert!(told.good && told.out.contains("Restored from") && !told.out.contains("Ended"), "{told:?}");
}

fn sqlite(folder: &TempDir, name: &str) -> String {
    format!("sqlite:{}", folder.path().join(name).display())
}

#[tokio::test(flavor = "multi_thread")]
async fn there_and_back_gives_the_same_bytes() {
    let (home, (there, data)) = (TempDir::new().unwrap(), empty().await);
    let here = sqlite(&home, "here.db");
    let db = Db::open(&here).await.unwrap();
    filled(&db, &here, home.path()).await;
    let tables = tables_of(&db).await;
    let before = whole(&db, &tables).await;
    assert!(tables.iter().all(|t| t.columns.len() > 1) && tables.len() > 50, "{}", tables.len());
    let empty: Vec<&String> =
        before.iter().filter(|(_, rows)| rows.is_empty()).map(|(name, _)| name).collect();
    assert!(empty.len() <= 3, "tables that this does not try: {empty:?}");
    let first = backup(&here, home.path(), &home.path().join("a"));
    restore(&there, data.path(), &first);
    let second = backup(&there, data.path(), &home.path().join("b"));
    let back = sqlite(&home, "back.db");
    restore(&back, home.path(), &second);
    let moved = Db::open(&back).await.unwrap();
    assert_eq!(whole(&moved, &tables).await, before);
    moved.close().await;
    let third = backup(&back, home.path(), &home.path().join("c"));
    let read = |path: &PathBuf| std::fs::read(path).unwrap();
    assert!(read(&first) == read(&second) && read(&second) == read(&third), "the archives differ");
    digest_of_others(&first);
    // a copy of the SQLite file goes the same way, with what the backup before wrote down
    let before = whole(&db, &tables).await;
    let copy = Told::from(hilum(&here, home.path()).arg("backup").output().unwrap());
    let copy = PathBuf::from(copy.out.split(" (").next().unwrap());
    assert_eq!(copy.extension().unwrap(), "db");
    let (elsewhere, data) = crate::support::empty().await;
    restore(&elsewhere, data.path(), &copy);
    let elsewhere = Db::open(&elsewhere).await.unwrap();
    assert_eq!(whole(&elsewhere, &tables_of(&elsewhere).await).await, before);
}

/// The lines are JSON, and the digest beside them is theirs.
fn digest_of_others(archive: &Path) {
    let mut zip = zip::ZipArchive::new(std::fs::File::open(archive).unwrap()).unwrap();
    let mut text = |name: &str| {
        let mut text = String::new();
        zip.by_name(name).unwrap().read_to_string(&mut text).unwrap();
        text
    };
    let (lines, said) = (text("club.jsonl"), text("club.sha256"));
    let digest = data_encoding::HEXLOWER.encode(&Sha256::digest(lines.as_bytes()));
    assert_eq!(said, format!("{digest}  club.jsonl\n"));
    let kinds: BTreeSet<char> = lines.lines().map(|l| l.chars().next().unwrap()).collect();
    assert_eq!(kinds, BTreeSet::from(['[', '{']));
    for line in lines.lines() {
        serde_json::from_str::<serde_json::Value>(line).unwrap();
    }
}
