//! `hilum import` and `hilum export` do what the pages do.

use super::text_of;
use crate::stock::{club, number};
use crate::support::Club;
use std::process::Command;

fn hilum(club: &Club, words: &[&str]) -> (Option<i32>, Vec<u8>) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_hilum"));
    let out = command.args(words).env("HILUM_DATABASE_URL", club.app.config.database()).output().unwrap();
    (out.status.code(), out.stdout)
}

#[tokio::test]
async fn lists_come_in_and_go_out_on_the_command_line() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference/lists");
    let list = root.join("season.ods");
    let import = ["import", "packets", list.to_str().unwrap(), "--letters", "jb"];
    let said = |out: &[u8]| String::from_utf8(out.to_vec()).unwrap();
    let (status, out) = hilum(&club, &import);
    assert_eq!((status, said(&out).as_str()), (Some(0), "Brought in: 3 packets.\n"));
    let (status, out) = hilum(&club, &import);
    assert_eq!(status, Some(2), "the same list once more");
    assert!(said(&out).contains("Every row of this list was brought in before"), "{}", said(&out));
    let (status, out) = hilum(&club, &[&import[..], &["--sheet", "Read me"]].concat());
    assert_eq!(status, Some(2));
    assert!(said(&out).starts_with("line 1, kind: There is no column named kind."), "{}", said(&out));
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM packets").await, 3);

    let (_, packets) = hilum(&club, &["export", "packets", "--letters", "JB"]);
    assert_eq!(said(&packets), text_of(&jo, "/packets.csv").await);
    let (_, mcpd) = hilum(&club, &["export", "mcpd", "--letters", "JB"]);
    assert_eq!(said(&mcpd), text_of(&jo, "/packets/mcpd.csv").await);
    let (_, counts) = hilum(&club, &["export", "counts", "--names"]);
    assert_eq!(said(&counts), text_of(&jo, "/counts.csv").await, "all of it is Jo's own");
    let (_, unnamed) = hilum(&club, &["export", "counts"]);
    assert!(!said(&unnamed).contains("Jo") && !said(&unnamed).contains("JB"), "{}", said(&unnamed));
    assert_eq!(said(&unnamed).lines().count(), said(&counts).lines().count());
    let (status, shared) = hilum(&club, &["export", "shared"]);
    assert!(status == Some(0) && shared.starts_with(b"PK"));
    assert_ne!(
        hilum(&club, &["export", "packets", "--letters", "ZZ"]).0,
        Some(0),
        "nobody has these letters"
    );
    assert_eq!(hilum(&club, &["export", "packets"]).0, Some(2), "whose packets?");
}
