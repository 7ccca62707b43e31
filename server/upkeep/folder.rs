//! The folder of the club's data is closed to everybody else on the computer.

use anyhow::Context;
use std::fs::{DirBuilder, OpenOptions, Permissions};
use std::os::unix::fs::{DirBuilderExt, OpenOptionsExt, PermissionsExt};
use std::path::Path;

/// What others than the owner and the group may do.
const OTHERS: u32 = 0o007;
const OWNER: u32 = 0o700;
const OWNER_FILE: u32 = 0o600;
/// In such a folder everybody keeps things of their own, as in `/tmp`.
const SHARED: u32 = 0o1000;

/// Makes the folder where it is missing, for its owner alone; takes from one that is there what others may do with it.
pub fn closed(folder: &Path) -> anyhow::Result<()> {
    let name = folder.display();
    let made = DirBuilder::new().recursive(true).mode(OWNER).create(folder);
    made.with_context(|| format!("the data folder {name} cannot be made"))?;
    let found =
        std::fs::metadata(folder).with_context(|| format!("the data folder {name} cannot be read"))?;
    let mode = found.permissions().mode() & 0o7777;
    if mode & OTHERS == 0 {
        return Ok(());
    }
    anyhow::ensure!(
        mode & SHARED == 0,
        "{name} is for everybody's things: give the club's data a folder of its own"
    );
    std::fs::set_permissions(folder, Permissions::from_mode(mode & !OTHERS)).with_context(|| {
        format!("others on this computer can read the data folder {name}; whoever owns it has to run: chmod o= {name}")
    })?;
    tracing::info!("others could read the data folder {name}: it is closed to them now");
    Ok(())
}

/// Makes a file, where it is missing, that only its owner may read; one that is there becomes so.
pub fn own_file(path: &Path) -> std::io::Result<()> {
    if !path.exists() {
        OpenOptions::new().write(true).create_new(true).mode(OWNER_FILE).open(path)?;
    }
    std::fs::set_permissions(path, Permissions::from_mode(OWNER_FILE))
}

/// Makes a folder inside the club's data, for its owner alone; one that is there is closed to others.
pub fn own_folder(path: &Path) -> std::io::Result<()> {
    DirBuilder::new().recursive(true).mode(OWNER).create(path)?;
    let mode = std::fs::metadata(path)?.permissions().mode() & 0o7777;
    if mode & OTHERS == 0 {
        Ok(())
    } else {
        std::fs::set_permissions(path, Permissions::from_mode(mode & !OTHERS))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mode(folder: &Path) -> u32 {
        std::fs::metadata(folder).unwrap().permissions().mode() & 0o7777
    }

    #[test]
    fn others_are_shut_out_and_the_group_is_left_to_the_host() {
        let place = tempfile::TempDir::new().unwrap();
        let new = place.path().join("a/b");
        closed(&new).unwrap();
        assert_eq!(mode(&new), 0o700);
        for (before, after) in [(0o755, 0o750), (0o777, 0o770), (0o750, 0o750), (0o700, 0o700)] {
            std::fs::set_permissions(&new, Permissions::from_mode(before)).unwrap();
            closed(&new).unwrap();
            assert_eq!(mode(&new), after, "{before:o}");
        }
        std::fs::set_permissions(&new, Permissions::from_mode(0o1777)).unwrap();
        assert!(closed(&new).unwrap_err().to_string().contains("a folder of its own"));
        assert_eq!(mode(&new), 0o1777);
        let file = place.path().join("file");
        std::fs::write(&file, "").unwrap();
        assert!(closed(&file).unwrap_err().to_string().contains("cannot be made"));
    }
}
