//! What looks into a bag found, as it is kept beside the bag's sums: five numbers for each look, parted by blanks, and a
//! semicolon between two looks.

use super::Entry;

/// What was found at one moment; `sown` seeds left the bag unrooted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Finding {
    /// Seconds since 1970 in UTC.
    pub at: i64,
    pub rooted: i64,
    pub abnormal: i64,
    pub dead: i64,
    pub sown: i64,
}

impl Finding {
    /// What an entry tells of; `None` where it tells of no look.
    pub(super) fn of(entry: &Entry) -> Option<Self> {
        let Entry { at, rooted, abnormal, dead, .. } = *entry;
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
        text.push_str(&format!("{between}{at} {rooted} {abnormal} {dead} {sown}"));
    }

    /// All that stand in `text`, in order of time; `None` where it was written otherwise.
    pub fn all(text: &str) -> Option<Vec<Self>> {
        text.split_terminator(';').map(Self::read).collect()
    }

    fn read(text: &str) -> Option<Self> {
        let mut numbers = text.split(' ').map(|n| n.parse().ok());
        let mut next = || numbers.next().flatten();
        Some(Self { at: next()?, rooted: next()?, abnormal: next()?, dead: next()?, sown: next()? })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn findings_come_back_as_they_were() {
        let found = [
            Finding { at: 1_772_449_200, rooted: 3, abnormal: 0, dead: 1, sown: 0 },
            Finding { at: 1_772_535_600, rooted: 0, abnormal: 0, dead: 0, sown: 12 },
        ];
        let mut text = String::new();
        found.iter().for_each(|f| f.put(&mut text));
        assert_eq!(text, "1772449200 3 0 1 0;1772535600 0 0 0 12");
        assert_eq!(Finding::all(&text).unwrap(), found);
        assert_eq!(Finding::all("").unwrap(), []);
        assert_eq!(Finding::all("1772449200 3 0 1"), None);
        assert_eq!(Finding::all("1772449200 3 0 1 x"), None);
    }
}
