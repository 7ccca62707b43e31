use clap::{Args, Command};
use hilum::config::Config;

/// Every setting is in the README with its flag, its variable and its default; and nothing else is.
#[test]
fn every_setting_is_in_the_readme() {
    let readme = include_str!("../../README.md");
    let (_, section) = readme.split_once("## Settings\n").expect("README.md has a section Settings");
    let section = section.split("\n## ").next().unwrap();
    let rows: Vec<&str> = section.lines().filter(|l| l.starts_with("| `--")).collect();
    let command = Config::augment_args(Command::new("hilum"));
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
