//! Names in use, kept so that those near a new one are found without comparing all of them.

use super::names::{NEAR, core, digits};
use std::collections::{BTreeMap, HashMap};

/// Letters are counted in so many drawers: two letters may share one, which only makes names look nearer.
const DRAWERS: usize = 32;

struct Spelling {
    key: String,
    name: String,
    core: String,
    letters: [u8; DRAWERS],
    /// The drawers that are not empty, as bits.
    used: u32,
}

/// Names by the digits in them, which must agree, and the length of what tells them apart.
#[derive(Default)]
pub struct Spellings(HashMap<String, BTreeMap<usize, Vec<Spelling>>>);

impl Spellings {
    pub fn add(&mut self, key: &str, name: &str) {
        let core = core(key);
        let lengths = self.0.entry(digits(key)).or_default();
        let letters = letters(&core);
        let used = used(&letters);
        let spelling = Spelling { key: key.to_owned(), name: name.to_owned(), core, letters, used };
        lengths.entry(spelling.core.chars().count()).or_default().push(spelling);
    }

    /// The names near `key` as [`super::names::near`] finds them, nearest first, at most three.
    pub fn nearest(&self, key: &str) -> Vec<String> {
        let Some(lengths) = self.0.get(&digits(key)) else { return Vec::new() };
        let wanted = core(key);
        let (length, own) = (wanted.chars().count(), letters(&wanted));
        let mask = used(&own);
        let (least, most) = ((length as f64 * NEAR).floor() as usize, (length as f64 / NEAR).ceil() as usize);
        let mut found: Vec<(f64, &Spelling)> = Vec::new();
        for (other, spellings) in lengths.range(least..=most) {
            let changes = ((1.0 - NEAR) * length.max(*other) as f64 + 1e-9).floor() as usize;
            for s in spellings {
                // the cheapest look first: most names have letters that the other lacks altogether
                let lacking = (mask & !s.used).count_ones().max((s.used & !mask).count_ones()) as usize;
                if lacking > changes || apart(&own, &s.letters) > changes || s.key == key {
                    continue;
                }
                let alike = strsim::normalized_damerau_levenshtein(&wanted, &s.core);
                found.extend((alike >= NEAR || s.core == wanted).then_some((alike, s)));
            }
        }
        found.sort_by(|a, b| b.0.total_cmp(&a.0).then_with(|| a.1.key.cmp(&b.1.key)));
        found.into_iter().take(3).map(|(_, s)| s.name.clone()).collect()
    }
}

fn letters(core: &str) -> [u8; DRAWERS] {
    let mut letters = [0_u8; DRAWERS];
    for c in core.chars() {
        let drawer = &mut letters[c as usize % DRAWERS];
        *drawer = drawer.saturating_add(1);
    }
    letters
}

fn used(letters: &[u8; DRAWERS]) -> u32 {
    let full = letters.iter().enumerate().filter(|(_, n)| **n > 0);
    full.fold(0, |mask, (drawer, _)| mask | 1 << drawer)
}

/// At least so many changes lie between two names: letters of one that the other lacks.
fn apart(a: &[u8; DRAWERS], b: &[u8; DRAWERS]) -> usize {
    let (mut more, mut fewer) = (0_usize, 0_usize);
    for (a, b) in a.iter().zip(b) {
        more += usize::from(a.saturating_sub(*b));
        fewer += usize::from(b.saturating_sub(*a));
    }
    more.max(fewer)
}

#[cfg(test)]
mod tests {
    use super::super::names::{near, nearest};
    use super::*;

    #[test]
    fn the_same_names_are_near_as_by_comparing_all() {
        let parts = ["ke", "stre", "l", "ll", "os", "prey", "wren", " red", " 1", " 2", "the ", "é"];
        let mut dice = 12_345_usize;
        let mut roll = |n: usize| {
            dice = dice.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (dice >> 33) % n
        };
        let mut keys: Vec<String> = (0..300)
            .map(|_| (0..2 + roll(3)).map(|_| parts[roll(parts.len())]).collect::<String>())
            .collect();
        keys = keys.iter().map(|k| super::super::names::key(k)).filter(|k| !k.is_empty()).collect();
        keys.sort();
        keys.dedup();
        let mut spellings = Spellings::default();
        keys.iter().for_each(|k| spellings.add(k, k));
        let mut some = 0;
        for key in &keys {
            let all = nearest(key, keys.iter().map(String::as_str).enumerate());
            let all: Vec<&String> = all.into_iter().map(|i| &keys[i]).collect();
            assert_eq!(spellings.nearest(key).iter().collect::<Vec<_>>(), all, "{key}");
            some += all.iter().filter(|other| near(key, other)).count();
        }
        assert!(some > 100, "{some}");
    }
}
