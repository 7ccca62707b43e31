use crate::support::Club;
use clap::Args;
use hilum::config::Config;
use std::fs::Permissions;
use std::io::{BufRead, BufReader};
use std::os::unix::fs::PermissionsExt;
use std::path::Path;
use std::process::{Command, Stdio};

/// Every setting is in the README with its flag, its variable and its default; and nothing else is.
#[test]
fn every_setting_is_in_the_readme() {
    let readme = include_str!("../../README.md");
    let (_, section) = readme.split_once("## Settings\n").expect("README.md has a section Settings");
    let section = section.split("\n## ").next().unwrap();
    let rows: Vec<&str> = section.lines().filter(|l| l.starts_with("| `--")).collect();
    let command = Config::augment_args(clap::Command::new("hilum"));
    let mut known = 0;
    for argument in command.get_arguments() {
        let flag = format!("| `--{}` |", argument.get_long().expect("settings are long flags"));
        let row = rows.iter().find(|r| r.starts_with(&flag));
        let row = row.unwrap_or_else(|| panic!("README.md has no row '{flag}'"));
        let variable = argument.get_env().expect("settings have a variable").to_str().unwrap();
        assert!(row.contains(&format!("| `{variable}` |")), "{flag} is {variable}: {row}");
        for default in argument.get_default_values() {
            let default = format!("`{}`", default.to_str().unwrap());
            assert!(row.contains(&default), "{flag} is {default} by default: {row}");
        }
        known += 1;
    }
    assert!(known >= 5);
    assert_eq!(rows.len(), known, "README.md names a setting that is none");
}

fn hilum(words: &[&str]) -> Command {
    let mut hilum = Command::new(env!("CARGO_BIN_EXE_hilum"));
    hilum.args(words).env_remove("HILUM_DATABASE_URL").stdout(Stdio::piped()).stderr(Stdio::piped());
    hilum
}

#[tokio::test]
async fn the_address_of_the_database_may_stand_in_a_file() {
    let club = Club::new().await;
    let url = club.app.config.database();
    let folder = tempfile::TempDir::new().unwrap();
    let file = folder.path().join("address");
    std::fs::write(&file, format!("{url}\n")).unwrap();
    let by = |file: &Path| hilum(&["check"]).env("HILUM_DATABASE_URL_FILE", file).output().unwrap();
    let out = by(&file);
    assert!(out.status.success(), "{}", String::from_utf8_lossy(&out.stderr));
    std::fs::write(&file, " \n").unwrap();
    for (file, words) in [(file.as_path(), "is empty"), (Path::new("/nowhere"), "cannot be read")] {
        let out = by(file);
        let said = String::from_utf8(out.stderr).unwrap();
        assert!(!out.status.success() && said.contains(words), "{said}");
    }
    let both =
        hilum(&["check", "--database-url-file", "a"]).env("HILUM_DATABASE_URL", &url).output().unwrap();
    let said = String::from_utf8(both.stderr).unwrap();
    assert!(!both.status.success() && said.contains("cannot be used with") && !said.contains(&url), "{said}");
}

/// Starts it with this data folder, until it serves or ends; what it said.
fn served(data: &Path) -> String {
    let words = ["--data", data.to_str().unwrap(), "--listen", "127.0.0.1:0"];
    let mut child = hilum(&words).spawn().unwrap();
    let out = BufReader::new(child.stdout.take().unwrap()).lines().map_while(Result::ok);
    let serves = out.into_iter().find(|line| line.starts_with("Hilum is at"));
    child.kill().unwrap();
    let said = child.wait_with_output().unwrap();
    serves.unwrap_or_default() + &String::from_utf8(said.stderr).unwrap()
}

#[test]
fn a_start_closes_the_data_folder_to_others() {
    let place = tempfile::TempDir::new().unwrap();
    let mode = |data: &Path| std::fs::metadata(data).unwrap().permissions().mode() & 0o7777;
    let set = |data: &Path, mode| std::fs::set_permissions(data, Permissions::from_mode(mode)).unwrap();
    let data = place.path().join("data");
    assert!(served(&data).starts_with("Hilum is at"));
    assert_eq!(mode(&data), 0o700, "made for its owner alone");
    set(&data, 0o755);
    let said = served(&data);
    assert!(said.starts_with("Hilum is at") && said.contains("closed to them now"), "{said}");
    assert_eq!(mode(&data), 0o750, "others are shut out; the group is the host's choice");
    set(&data, 0o1777);
    let said = served(&data);
    assert!(said.contains("a folder of its own") && !said.contains("Hilum is at"), "{said}");
    assert_eq!(mode(&data), 0o1777, "what everybody uses is not closed");
}
