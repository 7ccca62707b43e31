//! Names as people type them: the key under which two spellings are one, and which spellings are near.

use unicode_normalization::UnicodeNormalization;

/// What does not tell one source from another.
const SMALL_WORDS: &[&str] = &["the", "seed", "seeds", "co", "company", "ltd", "inc", "llc", "gmbh", "and"];
/// How alike near spellings are, at least.
pub const NEAR: f64 = 0.8;

/// Lower case, words parted by single spaces, signs dropped, letters put together: `Aji  Rosado!` and `aji rosado` are one.
pub fn key(name: &str) -> String {
    let plain: String = name
        .nfc()
        .filter(|c| !matches!(c, '\'' | '’' | '‘' | '`'))
        .flat_map(char::to_lowercase)
        .map(|c| if c.is_alphanumeric() { c } else { ' ' })
        .collect();
    plain.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The key with German letters spelled out, as on keyboards without them: `wärme` and `waerme` are one.
pub fn plain_key(name: &str) -> String {
    key(name).replace('ä', "ae").replace('ö', "oe").replace('ü', "ue").replace('ß', "ss")
}

/// Whether two different keys may well be one name: few letters apart (Damerau-Levenshtein, one change in five
/// letters), or alike without small words and spaces. Numbers in names must agree.
pub fn near(a: &str, b: &str) -> bool {
    if a == b || digits(a) != digits(b) {
        return false;
    }
    let (a, b) = (core(a), core(b));
    a == b || strsim::normalized_damerau_levenshtein(&a, &b) >= NEAR
}

/// The places in `among` of the names near `name`, nearest first, at most three.
pub fn nearest<'a>(name: &str, among: impl Iterator<Item = (usize, &'a str)>) -> Vec<usize> {
    let wanted = core(name);
    let mut found: Vec<(f64, usize)> = among
        .filter(|(_, other)| near(name, other))
        .map(|(i, other)| (strsim::normalized_damerau_levenshtein(&wanted, &core(other)), i))
        .collect();
    found.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
    found.into_iter().take(3).map(|(_, i)| i).collect()
}

/// Pairs of places in `keys` whose names are near each other.
pub fn near_pairs(keys: &[&str]) -> Vec<(usize, usize)> {
    let cores: Vec<(String, String)> = keys.iter().map(|k| (core(k), digits(k))).collect();
    let mut found = Vec::new();
    for (i, (a, a_digits)) in cores.iter().enumerate() {
        for (j, (b, b_digits)) in cores.iter().enumerate().skip(i + 1) {
            let lengths = a.len().abs_diff(b.len()) * 4 <= a.len().max(b.len());
            let alike = || a == b || strsim::normalized_damerau_levenshtein(a, b) >= NEAR;
            if lengths && a_digits == b_digits && alike() {
                found.push((i, j));
            }
        }
    }
    found
}

/// What tells a name apart: its key without small words and spaces.
pub fn core(key: &str) -> String {
    let words: Vec<&str> = key.split(' ').filter(|w| !SMALL_WORDS.contains(w)).collect();
    if words.is_empty() { key.replace(' ', "") } else { words.concat() }
}

/// The digits in a key.
pub fn digits(key: &str) -> String {
    key.chars().filter(char::is_ascii_digit).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_drop_what_hands_differ_in() {
        assert_eq!(key("  Aji   ROSADO! "), "aji rosado");
        assert_eq!(key("Grandma's-Best"), "grandmas best");
    }

    #[test]
    fn near_spellings_are_found_and_numbers_keep_names_apart() {
        assert!(near("kestrel", "kestrell"));
        assert!(near("testwood", "testwood seeds"));
        assert!(near("red alder", "redalder"));
        assert!(!near("kestrel", "kestrel"));
        assert!(!near("line 1", "line 2"));
        assert!(!near("kestrel", "osprey"));
    }

    #[test]
    fn near_pairs_are_those_that_near_finds() {
        let keys = ["kestrel", "kestrell", "line 1", "line 2", "osprey", "the osprey"];
        assert_eq!(near_pairs(&keys), [(0, 1), (4, 5)]);
    }

    #[test]
    fn the_nearest_comes_first() {
        let all = ["osprey", "kestrells", "kestrels red", "kestrel"];
        assert_eq!(nearest("kestrell", all.iter().copied().enumerate()), [1, 3]);
    }
}
