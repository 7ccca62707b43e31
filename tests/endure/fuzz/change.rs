//! Kept inputs, changed by chance.

use crate::support::Chance;

/// Words at which readers trip.
const WORDS: &[&str] = &[
    "",
    "0",
    "-1",
    "1e308",
    "-1e-308",
    "NaN",
    "inf",
    "null",
    "true",
    "[",
    "]",
    "{}",
    "\"",
    "\"\"",
    "'",
    "=",
    "&",
    "%",
    "%00",
    "%ff",
    "%F0%9F%8C%B1",
    "+",
    ",",
    ";",
    "\t",
    "\n",
    "\r\n",
    "\n\n",
    "\0",
    "--x\r\n",
    "\u{feff}",
    "é",
    "ﬀ",
    "İ",
    "\u{301}",
    "\u{202e}",
    "🌱",
    "9223372036854775807",
    "-9223372036854775808",
    "99999999999999999999",
    "0.1",
    "1,5",
    "2026-02-29",
    "0000-00-00",
    "9999-12-31",
    "262142-12-31",
    "-262143-01-01",
    "2026-03-29T02:30",
    "23:59:60",
    "1970-01-01T00:00:00Z",
    "../",
    "//",
    "?",
    "#",
    "{bags}",
    "{key}",
];

/// One of the kept inputs with one to eight changes, at most `longest` bytes.
pub fn changed(kept: &[(String, Vec<u8>)], longest: usize, chance: &mut Chance) -> Vec<u8> {
    let mut input = kept[chance.below(kept.len())].1.clone();
    for _ in 0..=chance.below(8) {
        change(&mut input, kept, chance);
    }
    input.truncate(longest);
    input
}

fn change(input: &mut Vec<u8>, kept: &[(String, Vec<u8>)], chance: &mut Chance) {
    let place = chance.below(input.len() + 1);
    let end = (place + 1 + chance.below(16)).min(input.len());
    match chance.below(8) {
        0 => flip(input, place, 1 << chance.below(8)),
        1 => flip(input, place, chance.below(256) as u8),
        2 => drop(input.drain(place.min(end)..end)),
        3 => input.truncate(place),
        4 => {
            let again = input[place.min(end)..end].repeat(1 + chance.below(4));
            input.splice(place..place, again);
        }
        5 => {
            let word = WORDS[chance.below(WORDS.len())].bytes();
            input.splice(place..place, word);
        }
        6 => {
            let word = WORDS[chance.below(WORDS.len())].bytes();
            input.splice(place.min(end)..end, word);
        }
        _ => {
            let other = &kept[chance.below(kept.len())].1;
            input.splice(place.., other[chance.below(other.len() + 1)..].iter().copied());
        }
    }
}

fn flip(input: &mut [u8], place: usize, bits: u8) {
    if let Some(byte) = input.get_mut(place) {
        *byte ^= bits;
    }
}
