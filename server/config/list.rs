//! The list of settings, as flags, variables and lines of a file, and as the manual's table.

use super::Config;
use clap::{Arg, Args, Command};
use std::fmt::Write;

/// Variables that begin like those of settings and that tests alone read; a test keeps the list true.
const OF_TESTS: &[&str] = &[
    "HILUM_BACKUPS",
    "HILUM_CRASHES",
    "HILUM_DAMAGES",
    "HILUM_DISK_STEPS",
    "HILUM_FUZZ_FIRST",
    "HILUM_FUZZ_SECONDS",
    "HILUM_HISTORIES",
    "HILUM_HOSTILE_INPUTS",
    "HILUM_HOSTILE_SECONDS",
    "HILUM_HOSTILE_SEED",
    "HILUM_KEEP_PACKAGE",
    "HILUM_KILLS",
    "HILUM_LOAD_RATE",
    "HILUM_LOAD_SECONDS",
    "HILUM_LOAD_SIZE",
    "HILUM_MAKE_SCHEMAS",
    "HILUM_MINUTES",
    "HILUM_PAIRS",
    "HILUM_PARALLEL",
    "HILUM_PICTURES",
    "HILUM_POSTMASTER_CRASHES",
    "HILUM_POWER_CUTS",
    "HILUM_PROGRAM",
    "HILUM_RACES",
    "HILUM_REPLAYS",
    "HILUM_RESTORE_COUNTS",
    "HILUM_ROWS",
    "HILUM_SYNCS",
    "HILUM_SYNCED",
    "HILUM_TEST_CLUSTER",
    "HILUM_WALKS",
    "HILUM_WRITE",
];

/// One setting.
#[derive(Debug, Clone)]
pub struct Setting {
    /// Its name in a settings file, and its flag without the dashes.
    pub key: String,
    pub variable: String,
    /// As it would be typed; empty where there is none.
    pub default: String,
    pub meaning: String,
    /// Whether its value is never shown.
    pub secret: bool,
}

impl Setting {
    fn of(arg: &Arg) -> Option<Self> {
        let defaults: Vec<_> = arg.get_default_values().iter().map(|v| v.to_string_lossy()).collect();
        let meaning = arg.get_long_help().or(arg.get_help()).map(ToString::to_string).unwrap_or_default();
        Some(Self {
            key: arg.get_long()?.to_owned(),
            variable: arg.get_env()?.to_string_lossy().into_owned(),
            default: if arg.get_action().takes_values() { defaults.join(",") } else { "false".to_owned() },
            meaning: format!("{}.", meaning.trim_end_matches('.')),
            secret: arg.is_hide_env_values_set(),
        })
    }

    /// Its name within the program.
    pub(super) fn id(&self) -> String {
        self.key.replace('-', "_")
    }

    /// The setting that says the same in another way: in a file, or itself.
    pub(super) fn rival(&self) -> String {
        self.key.strip_suffix("-file").map_or_else(|| format!("{}-file", self.key), str::to_owned)
    }
}

/// The arguments that settings are, without the environment.
pub(super) fn command() -> Command {
    let command = Command::default().no_binary_name(true).disable_help_flag(true);
    Config::augment_args(command)
}

/// Every setting, in the order of the manual.
pub fn all() -> Vec<Setting> {
    command().get_arguments().filter_map(Setting::of).collect()
}

/// The manual's table of settings, in Markdown.
pub fn manual() -> String {
    let mut table = "| flag | variable | line of a settings file | default | meaning |\n| --- | --- | --- | --- | --- |\n"
        .to_owned();
    for setting in all() {
        let Setting { key, variable, default, meaning, secret } = &setting;
        let line = if key == "settings" { String::new() } else { format!("`{key} = ...`") };
        let default = if default.is_empty() { "none".to_owned() } else { format!("`{default}`") };
        let secret = if *secret { " A secret: never shown." } else { "" };
        let meaning = meaning.split_whitespace().collect::<Vec<_>>().join(" ");
        // a String takes everything
        let _ = writeln!(table, "| `--{key}` | `{variable}` | {line} | {default} | {meaning}{secret} |");
    }
    table
}

/// Whether the program or its tests read this variable.
pub(super) fn is_known(variable: &str) -> bool {
    OF_TESTS.contains(&variable) || all().iter().any(|setting| setting.variable == variable)
}

/// The known name that is most like `name`, where one is like it.
pub(super) fn nearest(name: &str, known: impl Iterator<Item = String>) -> Option<String> {
    const LIKE: f64 = 0.75;
    let near = known.map(|other| (strsim::jaro_winkler(&name.to_lowercase(), &other.to_lowercase()), other));
    let best = near.max_by(|a, b| a.0.total_cmp(&b.0));
    best.filter(|(like, _)| *like >= LIKE).map(|(_, other)| other)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;
    use std::path::{Path, PathBuf};

    /// `HILUM_WRITE=1` writes the copy anew.
    #[test]
    fn the_manuals_table_is_what_the_program_prints() {
        let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("server/config/settings.md");
        if std::env::vars_os().any(|(name, _)| name == "HILUM_WRITE") {
            std::fs::write(&file, manual()).unwrap();
        }
        assert_eq!(std::fs::read_to_string(file).unwrap(), manual(), "write it anew with HILUM_WRITE=1");
    }

    #[test]
    fn names_of_flags_variables_and_lines_follow_from_each_other() {
        let all = all();
        assert!(all.len() >= 15);
        for setting in &all {
            assert_eq!(setting.variable, format!("HILUM_{}", setting.key.to_uppercase().replace('-', "_")));
            assert!(setting.meaning.len() > 20, "{} says what it means", setting.key);
        }
        let secrets: Vec<&str> = all.iter().filter(|s| s.secret).map(|s| s.key.as_str()).collect();
        assert_eq!(secrets, ["database-url"]);
        for secret in secrets {
            assert!(all.iter().any(|s| s.key == format!("{secret}-file")), "{secret} may stand in a file");
        }
    }

    #[test]
    fn what_is_mistyped_is_told_by_the_nearest_name() {
        let near = |name: &str| nearest(name, all().into_iter().map(|s| s.key));
        assert_eq!(near("bas-url").as_deref(), Some("base-url"));
        assert_eq!(near("base_url").as_deref(), Some("base-url"));
        assert_eq!(near("backup-evry").as_deref(), Some("backup-every"));
        assert_eq!(near("zzz"), None);
    }

    fn texts(folder: &Path, found: &mut Vec<String>) {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path: PathBuf = entry.unwrap().path();
            let skipped = ["node_modules", "target", "corpus"].iter().any(|name| path.ends_with(name));
            if path.is_dir() && !skipped {
                texts(&path, found);
            } else if let Ok(text) = std::fs::read_to_string(&path) {
                found.push(text);
            }
        }
    }

    /// In sources a variable stands in quotes, in scripts behind `$` or `${`.
    #[test]
    fn the_variables_of_tests_are_those_that_they_read() {
        let root = Path::new(env!("CARGO_MANIFEST_DIR"));
        let mut found = Vec::new();
        for folder in ["tests", "server/calc/tests"] {
            texts(&root.join(folder), &mut found);
        }
        let starts = ["\"HILUM_", "$HILUM_", "${HILUM_"];
        let of = |text: &str| -> Vec<String> {
            let rests = starts.iter().flat_map(|start| text.split(start).skip(1));
            let names = rests.map(|rest| rest.split(|c: char| c != '_' && !c.is_ascii_uppercase()).next());
            names.map(|name| format!("HILUM_{}", name.unwrap_or_default())).collect()
        };
        let read: BTreeSet<String> = found.iter().flat_map(|text| of(text)).collect();
        let settings: Vec<String> = all().into_iter().map(|s| s.variable).collect();
        let wrong = |name: &&String| name.ends_with('_') || settings.contains(name);
        let read: BTreeSet<String> = read.iter().filter(|name| !wrong(name)).cloned().collect();
        assert_eq!(read, OF_TESTS.iter().map(|name| (*name).to_owned()).collect());
    }
}
