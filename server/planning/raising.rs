//! How long a plant is raised from the rooted seed in its cell until it can go out.

use crate::stock::published::kind_key;

/// Weeks where nothing usual is noted of a kind (our own choice, no source).
const OTHERWISE: i64 = 6;
/// By kind, under its usual key. Common practice, no source; written down from memory.
const USUAL: [(&str, i64); 33] = [
    ("artichoke", 8),
    ("asparagus", 10),
    ("aubergine", 9),
    ("basil", 6),
    ("beet", 5),
    ("broccoli", 5),
    ("brussels sprouts", 6),
    ("cabbage", 5),
    ("cauliflower", 5),
    ("celeriac", 11),
    ("celery", 11),
    ("chard, swiss", 5),
    ("chinese cabbage", 4),
    ("chives", 8),
    ("collards", 5),
    ("corn, sweet", 3),
    ("cucumber", 3),
    ("endive", 5),
    ("kale", 5),
    ("kohlrabi", 5),
    ("leek", 10),
    ("lettuce", 4),
    ("melon", 4),
    ("okra", 5),
    ("onion", 10),
    ("pak-choi", 4),
    ("parsley", 8),
    ("pepper", 9),
    ("pumpkin", 3),
    ("squash", 3),
    ("tomatillo", 7),
    ("tomato", 7),
    ("watermelon", 4),
];

/// Weeks to raise a kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Weeks {
    /// The grower's own.
    Own(i64),
    /// Usual for the kind.
    Usual(i64),
    /// Nothing usual is noted.
    Guess,
}

impl Weeks {
    pub fn of(kind: &str, own: Option<i64>) -> Self {
        let key = kind_key(kind);
        let usual = || USUAL.iter().find(|(name, _)| kind_key(name) == key).map(|(_, weeks)| *weeks);
        own.map(Self::Own).or_else(|| usual().map(Self::Usual)).unwrap_or(Self::Guess)
    }

    pub fn number(self) -> i64 {
        match self {
            Self::Own(weeks) | Self::Usual(weeks) => weeks,
            Self::Guess => OTHERWISE,
        }
    }

    /// Where the number comes from.
    pub fn words(self, kind: &str) -> String {
        match self {
            Self::Own(weeks) => t!("planning-weeks-own", n = weeks),
            Self::Usual(weeks) => t!("planning-weeks-usual", n = weeks, kind = kind),
            Self::Guess => t!("planning-weeks-guessed", n = OTHERWISE, kind = kind),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_usual_kind_is_found_by_its_published_name() {
        let lost: Vec<&str> = USUAL
            .iter()
            .map(|(kind, _)| *kind)
            .filter(|k| crate::stock::published::of(k).is_none())
            .collect();
        assert_eq!(lost, Vec::<&str>::new());
    }

    #[test]
    fn the_growers_own_number_comes_first() {
        assert_eq!(Weeks::of("pepper", Some(12)), Weeks::Own(12));
        assert_eq!(Weeks::of("Eggplant", None), Weeks::Usual(9));
        assert_eq!(Weeks::of("moonflower", None).number(), 6);
    }
}
