//! The names and words of the ready routines in the language of the request. They are stored in English; what members
//! wrote stays as it is.

use super::model::name_key;
use crate::texts::{Language, speaking};

pub(super) const PEROXIDE_BATH: &str = "Peroxide soak, then overnight in the cold";
pub(super) const OVERNIGHT: &str = "Plain water overnight";
pub(super) const STANDING: &str = "Standing water, then overnight";
pub(super) const DRY: &str = "Dry seed, straight to paper";
const NAMES: [&str; 4] = [PEROXIDE_BATH, OVERNIGHT, STANDING, DRY];

pub(super) const SOURCE: &str = "Common practice, no source.";
pub(super) const PEROXIDE: &str = "hydrogen peroxide";
pub(super) const EQUAL_PARTS: &str = "equal parts of 3 % peroxide and water";
pub(super) const WATER: &str = "water";
pub(super) const THREE_WATERS: &str = "three waters";
pub(super) const TAP_WATER: &str = "tap water";
pub(super) const OPEN_JAR: &str = "In an open jar; the seeds stay dry until the next step.";
pub(super) const REFRIGERATOR: &str = "refrigerator";
const TEXTS: [&str; 8] =
    [SOURCE, PEROXIDE, EQUAL_PARTS, WATER, THREE_WATERS, TAP_WATER, OPEN_JAR, REFRIGERATOR];

/// The name of a routine as it is shown.
pub fn name(stored: &str) -> &str {
    match stored {
        PEROXIDE_BATH => t!("routines-ready-peroxide"),
        OVERNIGHT => t!("routines-ready-overnight"),
        STANDING => t!("routines-ready-standing"),
        DRY => t!("routines-ready-dry"),
        own => own,
    }
}

/// Whether a routine goes by this name in any language; `key` is as [`name_key`] has it.
pub fn is_called(stored: &str, key: &str) -> bool {
    Language::ALL.into_iter().any(|language| speaking(language, || name_key(name(stored)) == key))
}

/// A note, agent, dose or place as it is shown.
pub fn text(stored: &str) -> &str {
    match stored {
        SOURCE => t!("routines-common-practice"),
        PEROXIDE => t!("routines-hydrogen-peroxide"),
        EQUAL_PARTS => t!("routines-equal-parts-of-peroxide"),
        WATER => t!("routines-water"),
        THREE_WATERS => t!("routines-three-waters"),
        TAP_WATER => t!("routines-tap-water"),
        OPEN_JAR => t!("routines-open-jar"),
        REFRIGERATOR => t!("routines-refrigerator"),
        own => own,
    }
}

/// The name to store for one that came back as it is shown, or was typed.
pub(super) fn stored_name(shown: String) -> String {
    stored(shown, &NAMES, name)
}

/// The note, agent, dose or place to store for one that came back as it is shown, or was typed.
pub(super) fn stored_text(shown: String) -> String {
    stored(shown, &TEXTS, text)
}

fn stored(shown: String, ready: &[&str], said: fn(&str) -> &str) -> String {
    match ready.iter().find(|ready| said(ready) == shown) {
        Some(ready) => (*ready).to_owned(),
        None => shown,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ready_words_come_back_as_they_are_stored() {
        for language in Language::ALL {
            speaking(language, || {
                for ready in NAMES {
                    assert_eq!(stored_name(name(ready).to_owned()), ready);
                    assert_eq!(name(ready) == ready, language == Language::English, "{ready}");
                }
                for ready in TEXTS {
                    assert_eq!(stored_text(text(ready).to_owned()), ready);
                }
                assert_eq!(stored_name("Cold nights".to_owned()), name("Cold nights"));
            });
        }
    }
}
