//! The computer itself: room on its disk, and its clock.

use super::{Finding, Sign};
use crate::backups::size;
use crate::config::Config;
use crate::db::file;
use crate::db::ids::At;
use rustix::fs::statvfs;
use std::path::{Path, PathBuf};
use std::time::UNIX_EPOCH;

const ROOM: &str = "Room on the disk";
const CLOCK: &str = "Clock right";
/// Backups, upgrades and a morning's photos need as much.
const LEAST: u64 = 200_000_000;
/// A clock this much behind is wrong by more than a slow network disk could explain.
const BEHIND_MINUTES: i64 = 5;

/// Room on a disk, in bytes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Disk {
    pub free: u64,
    pub whole: u64,
    /// What the database takes; a backup takes about as much, an upgrade twice.
    pub data: u64,
}

impl Disk {
    /// The disk that the data folder, or the folder it is to be in, is on.
    pub fn of(config: &Config) -> Option<Self> {
        let place = config.data.ancestors().find(|place| place.exists()).unwrap_or(Path::new("."));
        let disk = statvfs(place).ok()?;
        let data =
            file(&config.database()).and_then(|file| std::fs::metadata(file).ok()).map_or(0, |m| m.len());
        let bytes = |blocks: u64| blocks.saturating_mul(disk.f_frsize);
        Some(Self { free: bytes(disk.f_bavail), whole: bytes(disk.f_blocks), data })
    }

    pub fn finding(self) -> Finding {
        let said = size(i64::try_from(self.free).unwrap_or(i64::MAX));
        let mend = "Make room, or move the data and backups to a larger disk.";
        if self.free < LEAST.max(self.data.saturating_mul(3)) {
            let what = format!("{said} are left: too little for backups and upgrades.");
            return Finding::new(ROOM, Sign::No, what, mend);
        }
        if self.free < self.whole / 20 {
            return Finding::new(ROOM, Sign::Perhaps, format!("{said} are left, less than 5 % of it."), mend);
        }
        Finding::yes(ROOM, format!("{said} are left."))
    }
}

/// What tells a wrong clock from a right one, without asking anybody.
#[derive(Debug, Clone, Default)]
pub struct Times {
    /// When the newest of our files was written, the program's own among them, and which it is.
    pub newest: Option<(At, PathBuf)>,
    /// Whether the system says that a time server was asked; `None` where it does not say.
    pub set_by_server: Option<bool>,
}

impl Times {
    /// Looks at files of the data folder, at the program's own, and at what the system notes of time servers.
    pub fn of(config: &Config) -> Self {
        let folders = [config.data.clone(), crate::backups::take::folder(config)];
        let inside = folders.iter().filter_map(|folder| std::fs::read_dir(folder).ok()).flatten().flatten();
        let files = inside.map(|entry| entry.path()).chain(std::env::current_exe().ok());
        let newest = files.filter_map(|path| Some((written(&path)?, path))).max_by_key(|(at, _)| *at);
        let noted = Path::new("/run/systemd/timesync");
        let set_by_server = noted.exists().then(|| noted.join("synchronized").exists());
        Self { newest, set_by_server }
    }

    pub fn finding(&self, now: At) -> Finding {
        let mend =
            "Let the system set its clock by a time server (timedatectl set-ntp true), then restart Hilum.";
        if let Some((at, file)) = &self.newest
            && *at > now.plus_minutes(BEHIND_MINUTES)
        {
            let what = format!(
                "It is behind: {} was written {} minutes from now.",
                file.display(),
                (at.0 - now.0) / 60
            );
            return Finding::new(CLOCK, Sign::No, what, mend);
        }
        if self.set_by_server == Some(false) {
            return Finding::new(CLOCK, Sign::Perhaps, "No time server has set it since the start.", mend);
        }
        Finding::yes(CLOCK, "No file is newer than it.")
    }
}

fn written(path: &Path) -> Option<At> {
    let at = std::fs::metadata(path).ok()?.modified().ok()?.duration_since(UNIX_EPOCH).ok()?;
    i64::try_from(at.as_secs()).ok().map(At)
}
