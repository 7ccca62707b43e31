//! What looks into a bag found, as it is kept beside the bag's sums: five numbers for each look, parted by blanks, and a
//! semicolon between two looks.

use super::Entry;
use crate::db::ids::At;
use crate::error::AppError;
use anyhow::Context;

/// What was found at one moment; `sown` seeds left the bag unrooted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Finding {
    pub at: At,
    pub rooted: i64,
    pub abnormal: i64,
    pub dead: i64,
    pub sown: i64,
}

impl Finding {
    /// What an entry tells of; `None` where it tells of no look.
    pub(super) fn of(entry: &Entry) -> Option<Self> {
        let Entry { rooted, abnormal, dead, .. } = *entry;
        let at = At(entry.at);
        match (entry.what.as_str(), entry.sort.as_deref()) {
            ("look" | "closing", _) => Some(Self { at, rooted, abnormal, dead, sown: 0 }),
            ("bag seeds", Some("sown unrooted")) => {
                Some(Self { at, rooted: 0, abnormal: 0, dead: 0, sown: entry.seeds.unwrap_or(0) })
            }
            _ => None,
        }
    }

    /// Writes it behind those before.
    pub(super) fn put(&self, text: &mut String) {
        let Self { at, rooted, abnormal, dead, sown } = self;
        let between = if text.is_empty() { "" } else { ";" };
        text.push_str(&format!("{between}{} {rooted} {abnormal} {dead} {sown}", at.0));
    }

    /// All that stand in `text`, in order of time.
    pub fn all(text: &str) -> Result<Vec<Self>, AppError> {
        let all = text.split_terminator(';').map(Self::read).collect::<Option<_>>();
        Ok(all.with_context(|| format!("findings do not read: {text}"))?)
    }

    fn read(text: &str) -> Option<Self> {
        let mut numbers = text.split(' ').map(|n| n.parse().ok());
        let mut next = || numbers.next().flatten();
        Some(Self { at: At(next()?), rooted: next()?, abnormal: next()?, dead: next()?, sown: next()? })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn findings_come_back_as_they_were() {
        let found = [
            Finding { at: At(1_772_449_200), rooted: 3, abnormal: 0, dead: 1, sown: 0 },
            Finding { at: At(1_772_535_600), rooted: 0, abnormal: 0, dead: 0, sown: 12 },
        ];
        let mut text = String::new();
        found.iter().for_each(|f| f.put(&mut text));
        assert_eq!(text, "1772449200 3 0 1 0;1772535600 0 0 0 12");
        assert_eq!(Finding::all(&text).unwrap(), found);
        assert_eq!(Finding::all("").unwrap(), []);
        for other in ["1772449200 3 0 1", "1772449200 3 0 1 x"] {
            assert!(Finding::all(other).is_err(), "{other}");
        }
    }
}
