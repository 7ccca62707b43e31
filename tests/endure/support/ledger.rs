use hilum::args;
use hilum::db::{Db, FromRow};
use std::collections::BTreeMap;

/// What was sent and what was answered, kept outside the database: the judge of what must be in it.
#[derive(Default)]
pub struct Ledger {
    lines: BTreeMap<String, Line>,
    /// How many entries a save of each sort writes.
    whole: BTreeMap<&'static str, i64>,
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Stand {
    No,
    Sent,
    /// The answer 303 came.
    Answered,
}

#[derive(Debug, Clone)]
struct Line {
    sort: &'static str,
    saved: Stand,
    undone: Stand,
    /// Whether its place in the database was compared since it last changed.
    compared: bool,
}

#[derive(Debug, FromRow)]
struct There {
    kept: i64,
    entries: i64,
    voided: i64,
}

impl Ledger {
    pub fn saved(&mut self, key: &str, sort: &'static str, stand: Stand) {
        let line = Line { sort, saved: stand, undone: Stand::No, compared: false };
        let line = self.lines.entry(key.to_owned()).or_insert(line);
        (line.saved, line.compared) = (stand, false);
    }

    /// The save under `key` was taken back.
    pub fn undone(&mut self, key: &str, stand: Stand) {
        let line = self.lines.get_mut(key).expect("only what was saved is undone");
        (line.undone, line.compared) = (stand, false);
    }

    pub fn answered(&self) -> usize {
        self.lines.values().filter(|line| line.saved == Stand::Answered).count()
    }

    /// Notes how many entries each sort of save writes, from saves that nothing disturbed.
    pub async fn learn(&mut self, db: &Db) {
        for (key, line) in &self.lines {
            let there = there(db, key).await;
            let known = *self.whole.entry(line.sort).or_insert(there.entries);
            assert!(known > 0 && known == there.entries, "{line:?} {there:?}");
        }
    }

    /// What of it the database has otherwise; of everything, or of what changed since the last time.
    pub async fn compare(&mut self, db: &Db, all: bool) -> Vec<String> {
        let mut wrong = Vec::new();
        for (key, line) in self.lines.iter_mut().filter(|(_, line)| all || !line.compared) {
            let there = there(db, key).await;
            if !agrees(line, self.whole[line.sort], &there) {
                wrong.push(format!("{key} {line:?} {there:?}"));
            }
            line.compared = line.saved != Stand::Sent && line.undone != Stand::Sent;
        }
        wrong
    }

    /// What is not in `db` of the saves (`false`) and takings back (`true`) that had been answered by then.
    pub async fn lost(&self, db: &Db, answered: &[(String, bool)]) -> Vec<String> {
        let mut lost = Vec::new();
        for (key, undone) in answered {
            let (line, there) = (&self.lines[key], there(db, key).await);
            let back = *undone && there.voided != there.entries;
            if back || there.kept != 1 || there.entries != self.whole[line.sort] {
                lost.push(format!("{key} {line:?} {there:?}"));
            }
        }
        lost
    }
}

fn agrees(line: &Line, whole: i64, there: &There) -> bool {
    let saved = match line.saved {
        Stand::No => there.kept == 0,
        Stand::Sent => there.kept <= 1,
        Stand::Answered => there.kept == 1,
    };
    let undone = match line.undone {
        Stand::No => there.voided == 0,
        Stand::Sent => there.voided == 0 || there.voided == there.entries,
        Stand::Answered => there.voided == there.entries && there.entries > 0,
    };
    saved && undone && there.entries == there.kept * whole
}

async fn there(db: &Db, key: &str) -> There {
    let sql = "SELECT (SELECT COUNT(*) FROM once WHERE key = $1) AS kept,
        (SELECT COUNT(*) FROM entries WHERE save_key = $1) AS entries,
        (SELECT COUNT(*) FROM voids v JOIN entries e ON e.id = v.entry_id WHERE e.save_key = $1) AS voided";
    db.read().await.unwrap().one(sql, args![key]).await.unwrap()
}

#[test]
fn a_ledger_tells_lost_and_halved_saves() {
    let line = |saved, undone| Line { sort: "x", saved, undone, compared: false };
    let there = |kept, entries, voided| There { kept, entries, voided };
    use Stand::{Answered, No, Sent};
    assert!(agrees(&line(Answered, No), 4, &there(1, 4, 0)));
    assert!(agrees(&line(Sent, No), 4, &there(0, 0, 0)) && agrees(&line(Sent, No), 4, &there(1, 4, 0)));
    assert!(
        agrees(&line(Answered, Sent), 2, &there(1, 2, 0))
            && agrees(&line(Answered, Answered), 2, &there(1, 2, 2))
    );
    let wrong = [(Answered, No, 0, 0, 0), (Sent, No, 1, 3, 0), (Sent, No, 0, 4, 0), (Answered, No, 1, 8, 0)];
    for (saved, undone, kept, entries, voided) in wrong {
        assert!(!agrees(&line(saved, undone), 4, &there(kept, entries, voided)));
    }
    assert!(!agrees(&line(Answered, Sent), 2, &there(1, 2, 1)), "half undone");
    assert!(!agrees(&line(Answered, Answered), 2, &there(1, 2, 0)), "undone and back");
}
