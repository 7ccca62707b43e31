//! Whether a bad day would find a backup.

use super::{Finding, Sign};
use crate::backups::take;
use crate::config::Config;
use crate::db::ids::At;
use std::os::unix::fs::MetadataExt;
use std::path::Path;

const TAKEN: &str = "A backup of these two days";
const DAYS: i64 = 2;

/// What is known of backups: `last_good` is when the last good one was taken.
pub fn findings(config: &Config, last_good: Option<At>, now: At) -> Vec<Finding> {
    vec![taken(config, last_good, now), elsewhere(config)]
}

fn taken(config: &Config, last_good: Option<At>, now: At) -> Finding {
    let folder = take::folder(config);
    let mend = if config.backup_every == 0 {
        "Set --backup-every to 24, or run hilum backup each day by a timer of your own.".to_owned()
    } else {
        format!(
            "Look at Backups in Hilum for what went wrong; take one now by: hilum backup. It goes to {}.",
            folder.display()
        )
    };
    let Some(at) = last_good else {
        return Finding::new(TAKEN, Sign::No, "None was ever taken, or none was good.", mend);
    };
    let days = (now.0 - at.0) / 86_400;
    if days >= DAYS {
        return Finding::new(TAKEN, Sign::No, format!("The last good one is {days} days old."), mend);
    }
    Finding::yes(TAKEN, format!("The last good one is in {}.", folder.display()))
}

fn elsewhere(config: &Config) -> Finding {
    let about = "Backups on another disk";
    let folder = take::folder(config);
    let name = folder.display();
    let disk =
        |place: &Path| place.ancestors().find_map(|place| std::fs::metadata(place).ok()).map(|m| m.dev());
    let same = disk(&folder).is_some_and(|own| Some(own) == disk(&config.data));
    if same {
        let what = format!("{name} is on the same disk as the data: what takes one takes both.");
        let mend =
            format!("Copy {name} to another computer each day, or set --backup-folder to another disk.");
        return Finding::new(about, Sign::Perhaps, what, mend);
    }
    Finding::yes(about, format!("{name} is on a disk of its own."))
}
