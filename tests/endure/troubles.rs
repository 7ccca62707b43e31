//! What backup and restore say and leave behind when something is in their way.

use crate::schemas::STEPS;
use crate::support::{Told, at_step, empty, grown, hilum, tables_of, whole};
use hilum::args;
use hilum::db::{Db, file};
use std::path::{Path, PathBuf};
use std::process::Command;
use tempfile::TempDir;

struct Club {
    url: String,
    data: TempDir,
}

impl Club {
    async fn new() -> Self {
        let (url, data) = empty().await;
        grown(&url).await;
        Self { url, data }
    }

    fn run(&self, args: &[&str]) -> Told {
        Told::from(hilum(&self.url, self.data.path()).args(args).output().unwrap())
    }

    fn backup(&self, args: &[&str]) -> PathBuf {
        let told = self.run(&[&["backup"], args].concat());
        assert!(told.good, "{told:?}");
        PathBuf::from(told.out.split(" (").next().unwrap())
    }

    /// Refused with these words, by a command that ends badly; none of the program's own calls are shown.
    fn refused(&self, args: &[&str], words: &str) {
        let mut command = hilum(&self.url, self.data.path());
        let told = Told::from(command.args(args).env("RUST_BACKTRACE", "1").output().unwrap());
        assert!(!told.good && told.err.contains(words), "wanted {words}: {told:?}");
        assert!(!told.err.contains("backtrace") && !told.err.contains("panicked"), "{told:?}");
        let theirs = ["EOCD", "malformed", "not found in archive", "Invalid", "code: "];
        assert!(theirs.iter().all(|words| !told.err.contains(words)), "words of a library: {told:?}");
        let backup = args[0] == "restore";
        assert!(!backup || !told.err.contains("the database is damaged"), "the club's is not: {told:?}");
    }
}

/// Puts an empty database in the place of what is at `club`.
async fn with_nobody() -> Club {
    let (url, data) = empty().await;
    Club { url, data }
}

fn altered(from: &Path, to: &Path, change: impl Fn(&mut Vec<u8>)) -> String {
    let mut bytes = std::fs::read(from).unwrap();
    change(&mut bytes);
    std::fs::write(to, bytes).unwrap();
    to.to_str().unwrap().to_owned()
}

/// Whether a file system of one's own may be mounted here; some containers forbid it even to root.
fn may_mount() -> bool {
    let tried = Command::new("unshare").args(["-rm", "mount", "-t", "tmpfs", "tmpfs", "/mnt"]).output();
    tried.is_ok_and(|out| out.status.success())
}

/// A backup into a disk of 64 KiB; what it says, and as output what it leaves there.
fn into_a_small_disk(club: &Club, at: &str, archive: &[&str]) -> Told {
    let mut backup = hilum(&club.url, club.data.path());
    backup.args(["backup", "--to", at]).args(archive);
    let words: Vec<String> = std::iter::once(backup.get_program())
        .chain(backup.get_args())
        .map(|w| format!("'{}'", w.to_str().unwrap()))
        .collect();
    let script = format!(
        "mount -t tmpfs -o size=64k tmpfs '{at}' && {} ; code=$?; ls -A '{at}'; exit $code",
        words.join(" ")
    );
    Told::from(Command::new("unshare").args(["-rm", "sh", "-c", &script]).output().unwrap())
}

/// A backup in which the `nth` of these calls fails.
fn with_a_failing(calls: &str, error: &str, nth: usize, club: &Club, at: &str) -> Told {
    let backup = hilum(&club.url, club.data.path());
    let mut strace = Command::new("strace");
    strace.args(["-f", "-qq", "-o", "/dev/null", "-e", &format!("trace={calls}")]);
    strace.args(["-e", &format!("inject={calls}:error={error}:when={nth}")]);
    strace.arg(backup.get_program()).args(backup.get_args()).args(["backup", "--to", at]);
    Told::from(strace.output().unwrap())
}

#[tokio::test(flavor = "multi_thread")]
async fn a_full_disk() {
    if !may_mount() {
        println!("not shown: nothing can be mounted here");
        return;
    }
    let club = Club::new().await;
    let folder = club.data.path().join("small");
    std::fs::create_dir(&folder).unwrap();
    for archive in [&[][..], &["--archive"]] {
        let told = into_a_small_disk(&club, folder.to_str().unwrap(), archive);
        assert!(!told.good && told.err.contains("The disk is full"), "{told:?}");
        assert_eq!(told.out, "", "nothing is left behind");
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn a_disk_that_fails_at_any_step_of_a_backup() {
    let club = Club::new().await;
    let folder = club.data.path().join("failing");
    std::fs::create_dir(&folder).unwrap();
    let left = || std::fs::read_dir(&folder).unwrap().count();
    for (calls, error) in [("pwrite64", "ENOSPC"), ("pwrite64", "EIO"), ("fsync,fdatasync", "EIO")] {
        let mut nth = 1;
        loop {
            let told = with_a_failing(calls, error, nth, &club, folder.to_str().unwrap());
            if told.good {
                break;
            }
            let words = ["The disk ", "cannot be written to"].iter().any(|w| told.err.contains(w));
            assert!(words && told.out.is_empty(), "{calls} {nth}: {told:?}");
            assert_eq!(left(), 0, "{calls} {nth}");
            nth *= 2;
        }
        assert!(nth > 1, "no {calls} was made");
        for backup in std::fs::read_dir(&folder).unwrap() {
            std::fs::remove_file(backup.unwrap().path()).unwrap();
        }
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn a_folder_that_cannot_be_written_to() {
    let club = Club::new().await;
    let beside = club.data.path().join("no-folder");
    std::fs::write(&beside, "a file").unwrap();
    club.refused(&["backup", "--to", beside.to_str().unwrap()], "cannot be written to");
    assert!(club.run(&["check"]).out.contains("No breach"));
    with_nobody().await.refused(&["backup"], "There is no database");
}

#[tokio::test(flavor = "multi_thread")]
async fn files_that_are_no_backups_damaged_or_newer() {
    let (club, place) = (Club::new().await, with_nobody().await);
    let archive = club.backup(&["--archive"]);
    let file = |name: &str| place.data.path().join(name);
    place.refused(&["restore", "/no-such-file"], "There is no file /no-such-file.");
    std::fs::write(file("letter"), "Dear members, here are the minutes of our last meeting.").unwrap();
    place.refused(&["restore", file("letter").to_str().unwrap()], "is not a backup of Hilum");
    let short = altered(&archive, &file("short"), |bytes| bytes.truncate(bytes.len() / 2));
    place.refused(&["restore", &short], "is damaged");
    for part in [3, 5, 7] {
        let bent = altered(&archive, &file("bent"), |bytes| {
            let at = bytes.len() * part / 10;
            bytes[at] ^= 0x55;
        });
        place.refused(&["restore", &bent], "is damaged");
    }
    let newer =
        rewritten(&archive, &file("newer"), |lines| lines.replacen(&schema(&newest()), &schema("9001"), 1));
    place.refused(&["restore", &newer], "at step 9001 of the schema, made by a newer Hilum");
    let other =
        rewritten(&archive, &file("other"), |lines| lines.replacen("\"peroxide\"", "\"peroxides\"", 1));
    place.refused(&["restore", &other], "its digest is another");
    if hilum::db::file(&club.url).is_some() {
        copies(&club, &place).await;
    }
    assert!(place.run(&["backup"]).err.contains("There is no database"), "nothing was restored");
}

fn newest() -> String {
    hilum::db::migrate::newest().to_string()
}

fn schema(step: &str) -> String {
    format!("\"schema\":{step}}}")
}

/// The same of a copy of a SQLite file.
async fn copies(club: &Club, place: &Club) {
    let copy = club.backup(&[]);
    let file = |name: &str| place.data.path().join(name);
    let short = altered(&copy, &file("short.db"), |bytes| bytes.truncate(bytes.len() / 2));
    place.refused(&["restore", &short], "is damaged");
    let bent = altered(&copy, &file("bent.db"), |bytes| {
        let middle = bytes.len() / 2;
        bytes[middle..middle + 4096].fill(0xAA);
    });
    place.refused(&["restore", &bent], "is damaged");
    let orphan = file("orphan.db");
    std::fs::copy(&copy, &orphan).unwrap();
    let db = Db::alone(&format!("sqlite:{}", orphan.display())).await.unwrap();
    let mut conn = db.write().await.unwrap();
    conn.run("UPDATE bags SET trial_id = 'nowhere' WHERE id = (SELECT MIN(id) FROM bags)", args![])
        .await
        .unwrap();
    conn.commit().await.unwrap();
    db.close().await;
    place.refused(&["restore", orphan.to_str().unwrap()], "name rows of trials that are not there");
}

/// The archive with other lines, its digest left as it is.
fn rewritten(from: &Path, to: &Path, change: impl Fn(String) -> String) -> String {
    use std::io::{Read, Write};
    let mut old = zip::ZipArchive::new(std::fs::File::open(from).unwrap()).unwrap();
    let mut new = zip::ZipWriter::new(std::fs::File::create(to).unwrap());
    for name in ["club.jsonl", "club.sha256"] {
        let mut text = String::new();
        old.by_name(name).unwrap().read_to_string(&mut text).unwrap();
        let changed = if name == "club.jsonl" { change(text.clone()) } else { text.clone() };
        assert!(name != "club.jsonl" || changed != text, "nothing was changed");
        new.start_file(name, zip::write::SimpleFileOptions::default()).unwrap();
        new.write_all(changed.as_bytes()).unwrap();
    }
    new.finish().unwrap();
    to.to_str().unwrap().to_owned()
}

#[tokio::test(flavor = "multi_thread")]
async fn a_club_that_is_there_is_put_aside_and_never_lost() {
    let (club, other) = (Club::new().await, Club::new().await);
    let db = Db::open(&other.url).await.unwrap();
    let mut conn = db.write().await.unwrap();
    conn.run("UPDATE club SET name = 'The other club'", args![]).await.unwrap();
    conn.commit().await.unwrap();
    db.close().await;
    let backup = other.backup(&[]);
    let backup = backup.to_str().unwrap();
    club.refused(&["restore", backup], "There is a club in this database already");
    // somebody serves it
    let open = Db::open(&club.url).await.unwrap();
    club.refused(&["restore", backup, "--replace"], "Hilum is running on this database");
    let tables = tables_of(&open).await;
    let before = whole(&open, &tables).await;
    open.close().await;
    if let Some(path) = file(&club.url) {
        // a journal that a crash left behind belongs to what goes
        let journal = format!("{}-wal", path.display());
        std::fs::write(&journal, "not a journal").unwrap();
        std::fs::write(format!("{}-shm", path.display()), "").unwrap();
    }
    let told = club.run(&["restore", backup, "--replace"]);
    let kept = "What was there before is kept in ";
    let kept = told.out.lines().find_map(|l| l.strip_prefix(kept)).map(PathBuf::from);
    assert!(told.good && kept.is_some(), "{told:?}");
    let beside = kept.as_ref().unwrap().parent().unwrap();
    assert_eq!(beside, club.data.path().join("replaced"), "not among the backups");
    let name = async |url: &str| {
        let db = Db::open(url).await.unwrap();
        let tables = tables_of(&db).await;
        let whole = whole(&db, &tables).await;
        db.close().await;
        whole
    };
    assert!(name(&club.url).await["club"][0].contains("The other club"));
    let again = club.run(&["restore", kept.unwrap().to_str().unwrap(), "--replace", "--as-it-was"]);
    assert!(again.good, "{again:?}");
    assert_eq!(name(&club.url).await, before);
}

#[tokio::test(flavor = "multi_thread")]
async fn a_restore_lets_nobody_in_who_could_come_in_then() {
    let (club, place) = (Club::new().await, with_nobody().await);
    let db = Db::open(&club.url).await.unwrap();
    let mut conn = db.write().await.unwrap();
    for sql in [
        "INSERT INTO sessions (token_hash, member_id, device, made_at, seen_at, proved_at, expires_at)
         SELECT 'endured', MIN(id), '', 1, 1, 1, 9999999999 FROM members",
        "INSERT INTO devices (secret_hash, member_id, made_at, used_at) SELECT 'endured', MIN(id), 1, 1 FROM members",
        "INSERT INTO links (id, token_hash, purpose, role, made_at, expires_at)
         VALUES ('endured', 'endured', 'invitation', 'grower', 1, 9999999999)",
        "INSERT INTO passkey_asks (secret_hash, document, expires_at) VALUES ('endured', '{}', 9999999999)",
    ] {
        conn.run(sql, args![]).await.unwrap();
    }
    conn.commit().await.unwrap();
    db.close().await;
    let backup = club.backup(&["--archive"]);
    let backup = backup.to_str().unwrap();
    let told = place.run(&["restore", backup]);
    assert!(told.good && told.out.contains("Ended: ") && told.out.contains("as they were then"), "{told:?}");
    let back = Db::open(&place.url).await.unwrap();
    let rows = whole(&back, &tables_of(&back).await).await;
    for table in ["sessions", "devices", "passkey_asks"] {
        assert!(rows[table].is_empty(), "{table}: {:?}", rows[table]);
    }
    let open = rows["links"].iter().filter(|link| link.contains("9999999999")).count();
    assert_eq!(open, 0, "{:?}", rows["links"]);
    assert!(
        rows["audit"].iter().any(|deed| deed.contains("restored") && deed.contains("UTC")),
        "{:?}",
        rows["audit"]
    );
    back.close().await;
    let told = place.run(&["restore", backup, "--replace", "--as-it-was"]);
    assert!(told.good && !told.out.contains("Ended"), "{told:?}");
    let back = Db::open(&place.url).await.unwrap();
    let rows = whole(&back, &tables_of(&back).await).await;
    assert!(rows["sessions"].iter().any(|row| row.contains("endured")), "{:?}", rows["sessions"]);
    back.close().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn what_a_restore_leaves_is_for_its_owner_alone() {
    use std::os::unix::fs::PermissionsExt;
    let (club, place) = (Club::new().await, with_nobody().await);
    let Some(path) = file(&place.url) else { return };
    let mode = |path: &Path| std::fs::metadata(path).unwrap().permissions().mode() & 0o777;
    for kind in [&[][..], &["--archive"]] {
        let backup = club.backup(kind);
        std::fs::set_permissions(&backup, std::fs::Permissions::from_mode(0o666)).unwrap();
        let told = place.run(&["restore", backup.to_str().unwrap(), "--replace"]);
        assert!(told.good, "{told:?}");
        assert_eq!(mode(path), 0o600, "{kind:?}");
        std::fs::set_permissions(path, std::fs::Permissions::from_mode(0o666)).unwrap();
    }
    let replaced = place.data.path().join("replaced");
    assert_eq!(mode(&replaced), 0o700);
    for kept in std::fs::read_dir(&replaced).unwrap().flatten() {
        assert_eq!(mode(&kept.path()), 0o600, "{:?}", kept.path());
    }
    assert_eq!(mode(&club.data.path().join("backups")), 0o700);
}

#[tokio::test(flavor = "multi_thread")]
async fn what_breaks_a_rule_is_restored_only_when_asked_for() {
    let (club, place) = (Club::new().await, with_nobody().await);
    let db = Db::open(&club.url).await.unwrap();
    let mut conn = db.write().await.unwrap();
    conn.run("UPDATE packets SET balance = balance + 1 WHERE id = (SELECT MIN(id) FROM packets)", args![])
        .await
        .unwrap();
    conn.commit().await.unwrap();
    db.close().await;
    let told = club.run(&["backup"]);
    assert!(!told.good && told.out.contains("I1 packet"), "{told:?}");
    let file = told.out.split(" (").next().unwrap();
    place.refused(&["restore", file], "I1 packet");
    assert!(!place.run(&["backup"]).good, "nothing was restored");
    let told = place.run(&["restore", file, "--despite-breaches"]);
    assert!(told.good && told.out.contains("I1 packet"), "{told:?}");
}

/// Overwrites the middle of a database.
fn spoil(path: &Path) {
    let mut bytes = std::fs::read(path).unwrap();
    let middle = bytes.len() / 2;
    bytes[middle..middle + 4096].fill(0xAA);
    std::fs::write(path, bytes).unwrap();
}

#[tokio::test(flavor = "multi_thread")]
async fn a_damaged_database_makes_room_for_its_last_backup_and_is_not_upgraded() {
    let club = Club::new().await;
    let Some(path) = file(&club.url) else { return };
    let backup = club.backup(&[]);
    let backup = backup.to_str().unwrap();
    spoil(path);
    club.refused(&["backup"], "is damaged");
    assert!(club.run(&["check"]).out.contains("The database is damaged"));
    club.refused(&["restore", backup], "There is a club in this database already");
    let told = club.run(&["restore", backup, "--replace"]);
    assert!(told.good && told.out.contains("What was there before is damaged, and is kept in"), "{told:?}");
    assert!(told.out.contains("-damaged.db"), "{told:?}");
    let backups = std::fs::read_dir(club.data.path().join("backups")).unwrap();
    assert!(backups.flatten().all(|f| !f.file_name().to_string_lossy().contains("-damaged")));
    assert!(club.run(&["check"]).out.contains("No breach"));
    // an older one
    let old = with_nobody().await;
    let path = file(&old.url).unwrap();
    at_step(&old.url, STEPS[0]).await;
    spoil(path);
    let before = std::fs::read(path).unwrap();
    old.refused(&["check"], "its tables are of another version");
    assert!(std::fs::read(path).unwrap() == before, "it was changed");
}
