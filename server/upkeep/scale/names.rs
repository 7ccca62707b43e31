//! Names by rule, so that nobody has to think of ten thousand.

const FIRST: [&str; 20] = [
    "Ba", "Ce", "Di", "Fo", "Gu", "Ha", "Je", "Ki", "Lo", "Mu", "Na", "Pe", "Ri", "So", "Tu", "Va", "We",
    "Ye", "Zo", "Bru",
];
const MIDDLE: [&str; 10] = ["la", "me", "ri", "no", "su", "ta", "ve", "di", "po", "ru"];
const LAST: [&str; 7] = ["n", "ka", "lo", "mir", "sa", "th", "vel"];
/// Without those that look like digits.
const LETTERS: &[u8] = b"ABCDEFGHJKMNPQRSTUVWXYZ";

/// Invented words; each `n` below 1,400 has its own.
pub fn word(n: usize) -> String {
    let (first, rest) = (n % FIRST.len(), n / FIRST.len());
    let (last, middle) = (rest % LAST.len(), rest / LAST.len());
    let again = if middle < MIDDLE.len() { "" } else { MIDDLE[middle / MIDDLE.len() % MIDDLE.len()] };
    format!("{}{}{again}{}", FIRST[first], MIDDLE[(middle + n) % MIDDLE.len()], LAST[last])
}

/// The letters of the `n`-th member of `members`: as many for each, so that no mark runs into another's.
pub fn letters(n: usize, members: usize) -> String {
    let (base, mut n) = (LETTERS.len(), n);
    let long = if members > base * base { 3 } else { 2 };
    let mut out = vec![b' '; long];
    for place in out.iter_mut().rev() {
        *place = LETTERS[n % base];
        n /= base;
    }
    out.into_iter().map(char::from).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn words_and_letters_differ() {
        assert_eq!((0..1400).map(word).collect::<BTreeSet<_>>().len(), 1400);
        for members in [500, 5000] {
            let all: BTreeSet<String> = (0..members).map(|n| letters(n, members)).collect();
            assert_eq!(all.len(), members);
        }
    }
}
