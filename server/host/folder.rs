//! Where the data lie, and who else can read them.

use super::{Finding, Sign};
use crate::config::Config;
use crate::db::file;
use std::os::unix::fs::{MetadataExt, PermissionsExt};
use std::path::{Path, PathBuf};

/// What others than the owner and the group may do.
const OTHERS: u32 = 0o007;
/// Names under which Linux mounts disks of other computers.
const NETWORK: &[&str] = &[
    "nfs",
    "cifs",
    "smb",
    "ncp",
    "afs",
    "ceph",
    "glusterfs",
    "lustre",
    "9p",
    "davfs",
    "sshfs",
    "rclone",
    "s3fs",
];

/// What the files say. `mounts` is the text of `/proc/self/mounts`.
pub fn findings(config: &Config, mounts: &str) -> Vec<Finding> {
    let all = [network(config, mounts), closed(config), secrets(config), by_root(config)];
    all.into_iter().flatten().collect()
}

/// The folder that the database or, with PostgreSQL, the backups are in.
fn place(config: &Config) -> PathBuf {
    let url = config.database();
    let parent = file(&url).and_then(Path::parent).map(Path::to_owned);
    let place = parent.unwrap_or_else(|| config.data.clone());
    let here = PathBuf::from(".");
    whole(if place.as_os_str().is_empty() { &here } else { &place })
}

fn whole(path: &Path) -> PathBuf {
    std::fs::canonicalize(path).unwrap_or_else(|_| path.to_owned())
}

fn network(config: &Config, mounts: &str) -> Option<Finding> {
    let about = "Data on a disk of this computer";
    file(&config.database())?;
    let place = place(config);
    let lines = mounts.lines().filter_map(|line| {
        let mut words = line.split(' ').skip(1);
        Some((words.next()?.replace("\\040", " "), words.next()?))
    });
    let holding = lines.filter(|(at, _)| place.starts_with(at)).max_by_key(|(at, _)| at.len());
    let (at, sort) = holding?;
    let name = place.display();
    // such as "fuse.sshfs", "nfs4"
    let plain = sort.trim_start_matches("fuse.");
    if NETWORK.iter().any(|start| plain.starts_with(start)) {
        let what = format!("{name} is on a network disk ({sort} at {at}): SQLite can lose counts there.");
        let mend = "Move the data to a disk of this computer, or keep them in PostgreSQL.";
        return Some(Finding::new(about, Sign::No, what, mend));
    }
    Some(Finding::yes(about, format!("{name} is on {sort}.")))
}

fn closed(config: &Config) -> Option<Finding> {
    let about = "Data closed to others";
    let backups = crate::backups::take::folder(config);
    let folders = [place(config), whole(&backups)].into_iter().filter(|folder| folder.exists());
    let mode = |folder: &Path| std::fs::metadata(folder).map_or(0, |m| m.permissions().mode());
    // a folder within one that is closed is closed too
    let open = |folder: &&PathBuf| folder.ancestors().all(|folder| mode(folder) & OTHERS != 0);
    let all: Vec<PathBuf> = folders.collect();
    Some(told(about, all.first()?, all.iter().find(open), ""))
}

/// Whether others can read one of some files or folders, of which `first` is named where they cannot.
fn told(about: &'static str, first: &Path, open: Option<&PathBuf>, more: &str) -> Finding {
    let Some(open) = open else {
        return Finding::yes(about, format!("Others on this computer cannot read {}.", first.display()));
    };
    let name = open.display();
    let what = format!("Others on this computer can read {name}{more}.");
    Finding::new(about, Sign::No, what, format!("chmod o= {name}"))
}

/// Files of settings that hold a secret.
fn secrets(config: &Config) -> Option<Finding> {
    let about = "Secrets closed to others";
    let holds = |file: &&PathBuf| {
        let text = std::fs::read_to_string(file).unwrap_or_default();
        let table: Option<toml::Table> = text.parse().ok();
        table.is_some_and(|table| table.contains_key("database-url"))
    };
    let files = config.settings.iter().filter(holds).chain(&config.database_url_file);
    let files: Vec<&PathBuf> = files.filter(|file| file.exists()).collect();
    let open = |file: &&&PathBuf| std::fs::metadata(file).is_ok_and(|m| m.permissions().mode() & OTHERS != 0);
    let found = files.iter().find(open).copied();
    Some(told(about, files.first()?, found, ", which holds the address of the database"))
}

/// By the owner of what the program made.
fn by_root(config: &Config) -> Option<Finding> {
    let about = "Run by a user of its own";
    let url = config.database();
    let made = file(&url).filter(|file| file.exists()).map_or_else(|| config.data.clone(), Path::to_owned);
    let owner = std::fs::metadata(&made).ok()?.uid();
    let name = made.display();
    if owner != 0 {
        return Some(Finding::yes(about, format!("{name} belongs to user {owner}.")));
    }
    let what = format!("{name} belongs to root: whoever breaks into Hilum would have the whole computer.");
    let mend = "Make a user for it, give that user the data folder (chown -R), and start Hilum as that user.";
    Some(Finding::new(about, Sign::Perhaps, what, mend))
}
