use crate::support::strace::Call;
use crate::support::{Chance, by_lot};
use std::collections::{BTreeMap, HashMap};
use std::path::Path;

const SECTOR: usize = 512;

/// What was done to a file, by its name in the folder; or that an answer went out.
#[derive(Debug)]
pub enum Step {
    Write {
        file: String,
        at: usize,
        bytes: Vec<u8>,
    },
    Cut {
        file: String,
        length: usize,
    },
    Sync {
        file: String,
    },
    /// The save with this key, or (`true`) its taking back, was answered.
    Answer {
        about: (String, bool),
    },
}

/// The steps of a recording that concern `folder`, with the answers in the order of `keys`. A file that is made,
/// renamed or removed meanwhile fails the test: SQLite does none of that while it is open.
pub fn steps(calls: &[Call], folder: &str, keys: &[(String, bool)]) -> Vec<Step> {
    let mut in_order: Vec<&Call> = calls.iter().collect();
    // a write counts from its beginning, a sync from its end
    in_order.sort_by_key(|call| if call.name.ends_with("sync") { call.ended } else { call.began });
    let mut places: HashMap<(u32, i64), usize> = HashMap::new();
    let mut keys = keys.iter();
    let mut steps = Vec::new();
    for call in in_order {
        if call.data.starts_with(b"HTTP/1.1 303") {
            steps.push(Step::Answer { about: keys.next().expect("an answer for each save").clone() });
            continue;
        }
        let Some(file) = call.path.strip_prefix(folder).map(|rest| rest.trim_start_matches('/').to_owned())
        else {
            continue;
        };
        if !file.ends_with("-shm") && call.result >= 0 {
            steps.extend(step(call, file, &mut places));
        }
    }
    assert_eq!(keys.next(), None, "every save was answered");
    steps
}

fn step(call: &Call, file: String, places: &mut HashMap<(u32, i64), usize>) -> Option<Step> {
    let place = places.entry((call.thread, call.fd)).or_default();
    match call.name.as_str() {
        "lseek" => *place = call.result as usize,
        "write" => {
            let at = *place;
            *place += call.data.len();
            return Some(Step::Write { file, at, bytes: call.data.clone() });
        }
        "pwrite64" => {
            let at = usize::try_from(*call.numbers.last()?).ok()?;
            return Some(Step::Write { file, at, bytes: call.data.clone() });
        }
        "ftruncate" => return Some(Step::Cut { file, length: usize::try_from(*call.numbers.last()?).ok()? }),
        "fdatasync" | "fsync" => return Some(Step::Sync { file }),
        "openat" => {}
        other => panic!("{other} of {file} is not played back"),
    }
    None
}

/// Files as a disk holds them: what is safe, and what was told it since the last sync.
#[derive(Default)]
pub struct Disk {
    files: BTreeMap<String, File>,
}

#[derive(Default)]
struct File {
    safe: Vec<u8>,
    told: Vec<Change>,
}

#[derive(Clone)]
enum Change {
    Write(usize, Vec<u8>),
    Cut(usize),
}

impl Disk {
    pub fn read(folder: &Path) -> Self {
        let files = std::fs::read_dir(folder).unwrap().map(|file| {
            let file = file.unwrap();
            let safe = std::fs::read(file.path()).unwrap();
            (file.file_name().into_string().unwrap(), File { safe, told: Vec::new() })
        });
        Self { files: files.collect() }
    }

    /// Plays the steps; what was answered. Without `syncs` the disk takes no notice of being told to sync.
    pub fn play(&mut self, steps: &[Step], syncs: bool) -> Vec<(String, bool)> {
        let mut answered = Vec::new();
        for step in steps {
            match step {
                Step::Write { file, at, bytes } => {
                    self.file(file).told.push(Change::Write(*at, bytes.clone()));
                }
                Step::Cut { file, length } => self.file(file).told.push(Change::Cut(*length)),
                Step::Sync { file } if syncs => {
                    let file = self.file(file);
                    for change in std::mem::take(&mut file.told) {
                        change.apply(&mut file.safe);
                    }
                }
                Step::Sync { .. } => {}
                Step::Answer { about } => answered.push(about.clone()),
            }
        }
        answered
    }

    fn file(&mut self, name: &str) -> &mut File {
        self.files.entry(name.to_owned()).or_default()
    }

    /// Of what was not synced, each change reaches the disk or does not, or in part: some of its sectors.
    pub fn lose_power(mut self, chance: &mut Chance) -> Self {
        for file in self.files.values_mut() {
            for change in std::mem::take(&mut file.told) {
                match (chance.below(3), &change) {
                    (0, _) => {}
                    (1, Change::Write(at, bytes)) => {
                        for (sector, part) in
                            bytes.chunks(SECTOR).enumerate().filter(|_| chance.below(2) == 0)
                        {
                            Change::Write(at + sector * SECTOR, part.to_vec()).apply(&mut file.safe);
                        }
                    }
                    _ => change.apply(&mut file.safe),
                }
            }
        }
        self
    }

    pub fn write(&self, folder: &Path) {
        for (name, file) in &self.files {
            std::fs::write(folder.join(name), &file.safe).unwrap();
        }
    }
}

impl Change {
    fn apply(&self, bytes: &mut Vec<u8>) {
        match self {
            Self::Cut(length) => bytes.resize(*length, 0),
            Self::Write(at, new) => {
                bytes.resize(bytes.len().max(at + new.len()), 0);
                bytes[*at..at + new.len()].copy_from_slice(new);
            }
        }
    }
}

#[test]
fn only_what_was_synced_is_sure() {
    let write = |at: usize, text: &str| Step::Write { file: "a".into(), at, bytes: text.into() };
    let steps = [write(0, "safe"), Step::Sync { file: "a".into() }, write(2, "xx"), write(4, "yy")];
    let mut seen = std::collections::BTreeSet::new();
    let mut chance = by_lot("a small disk");
    for _ in 0..200 {
        let mut disk = Disk::default();
        disk.play(&steps, true);
        let disk = disk.lose_power(&mut chance);
        seen.insert(String::from_utf8(disk.files["a"].safe.clone()).unwrap());
    }
    let all = ["safe", "saxx", "safeyy", "saxxyy"].map(str::to_owned);
    assert_eq!(seen, all.into_iter().collect());
}
