//! What a password must be, and how it is kept.

use crate::app::App;
use crate::error::AppError;
use crate::web::forms::Form;
use argon2::password_hash::{PasswordHash, PasswordHasher, PasswordVerifier, SaltString};
use argon2::{Algorithm, Argon2, Params, Version};
use std::collections::HashSet;
use std::sync::{Arc, LazyLock};
use tokio::sync::Semaphore;

/// Fewest and most characters of a password.
pub const LEAST: usize = 15;
pub const MOST: usize = 256;

/// Pieces that a password may not mostly be made of, besides the club's and the member's own names.
const TRADE: &[&str] = &["hilum", "germination", "germinate", "seeds", "seed", "password", "passwort"];

static COMMON: LazyLock<HashSet<&'static str>> =
    LazyLock::new(|| include_str!("common.txt").lines().filter(|l| !l.starts_with('#')).collect());

/// A password long enough to stand alone, from `field`; neither trimmed nor folded. `names` are those of the
/// club and the member.
pub fn new(form: &mut Form, field: &'static str, names: &[&str]) -> String {
    let typed = form.value(field).to_owned();
    let length = typed.chars().count();
    if length < LEAST {
        form.refuse(field, t!("accounts-password-too-short", least = LEAST, n = length));
    } else if length > MOST {
        form.refuse(field, t!("accounts-password-too-long", most = MOST, n = length));
    } else if is_common(&typed) {
        form.refuse(field, t!("accounts-password-common"));
    } else if is_mostly(&typed, names) {
        form.refuse(field, t!("accounts-password-mostly-a-name"));
    }
    typed
}

/// Whether `password` is one or two common pieces, one piece over and over, or signs in their order.
fn is_common(password: &str) -> bool {
    let plain: Vec<char> = password.chars().flat_map(char::to_lowercase).collect();
    repeats(&plain) || counts_up(&plain) || pieces(&plain).is_some_and(|n| n <= 2)
}

/// Whether the text is a piece of at most a third of its length, over and over.
fn repeats(text: &[char]) -> bool {
    (1..=text.len() / 3).any(|step| text.iter().zip(&text[step..]).all(|(a, b)| a == b))
}

/// Whether nearly each sign follows the one before in the alphabet or among the digits.
fn counts_up(text: &[char]) -> bool {
    let near = |pair: &&[char]| (u32::from(pair[0])).abs_diff(u32::from(pair[1])) <= 1;
    text.windows(2).filter(near).count() * 10 >= text.len() * 8
}

/// The fewest common pieces that make up the whole text; `None` where none do.
fn pieces(text: &[char]) -> Option<usize> {
    let longest = COMMON.iter().map(|piece| piece.chars().count()).max().unwrap_or(0);
    let mut fewest = vec![Some(0)];
    for end in 1..=text.len() {
        let starts = end.saturating_sub(longest)..end;
        let fits = starts.filter_map(|start| {
            let before: usize = fewest[start]?;
            COMMON.contains(text[start..end].iter().collect::<String>().as_str()).then_some(before + 1)
        });
        fewest.push(fits.min());
    }
    fewest[text.len()]
}

/// Whether more than half of the letters and digits of `password` are names that others know.
fn is_mostly(password: &str, names: &[&str]) -> bool {
    let plain = squashed(password);
    let parts = names.iter().flat_map(|n| n.split(|c: char| !c.is_alphanumeric()));
    let mut known: Vec<String> =
        names.iter().copied().chain(parts).chain(TRADE.iter().copied()).map(squashed).collect();
    known.retain(|word| word.chars().count() >= 3);
    known.sort_by_key(|word| std::cmp::Reverse(word.len()));
    let left = known.iter().fold(plain.clone(), |text, word| text.replace(word.as_str(), "\n"));
    let left = left.chars().filter(|c| *c != '\n').count();
    let total = plain.chars().count();
    total > 0 && (total - left) * 2 > total
}

fn squashed(text: &str) -> String {
    text.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_lowercase).collect()
}

/// Argon2id with 19 MiB, 2 passes, 1 lane (OWASP Password Storage Cheat Sheet).
fn hasher() -> Argon2<'static> {
    let params = Params::new(19 * 1024, 2, 1, None).expect("the parameters are in range");
    Argon2::new(Algorithm::Argon2id, Version::V0x13, params)
}

fn hash(password: &str) -> Result<String, AppError> {
    let mut bytes = [0u8; 16];
    getrandom::fill(&mut bytes).map_err(|e| anyhow::anyhow!("no random bytes: {e}"))?;
    let salt = SaltString::encode_b64(&bytes).map_err(|e| anyhow::anyhow!("salt: {e}"))?;
    let hash =
        hasher().hash_password(password.as_bytes(), &salt).map_err(|e| anyhow::anyhow!("hash: {e}"))?;
    Ok(hash.to_string())
}

fn fits(password: &str, hash: &str) -> bool {
    PasswordHash::new(hash).is_ok_and(|parsed| hasher().verify_password(password.as_bytes(), &parsed).is_ok())
}

/// Whether hashes are made in another way today.
pub fn is_old(hash: &str) -> bool {
    let hasher = hasher();
    let today = |parsed: &PasswordHash<'_>| {
        parsed.algorithm == Algorithm::Argon2id.ident()
            && parsed.version == Some(Version::V0x13.into())
            && Params::try_from(parsed).is_ok_and(|params| {
                let now = hasher.params();
                (params.m_cost(), params.t_cost(), params.p_cost())
                    == (now.m_cost(), now.t_cost(), now.p_cost())
            })
    };
    !PasswordHash::new(hash).is_ok_and(|parsed| today(&parsed))
}

/// The hash to keep. Slow by design, a few at a time: call it outside transactions.
pub async fn hashed(app: &App, password: String) -> Result<String, AppError> {
    in_turn(&app.hashing, move || hash(&password)).await?
}

/// Whether `password` is the one that `hash` was made of; as slow as [`hashed`].
pub async fn matches(app: &App, password: String, hash: String) -> Result<bool, AppError> {
    in_turn(&app.hashing, move || fits(&password, &hash)).await
}

/// The place is held until the work is done: whoever asked may go away before, and the next would take memory beside it.
async fn in_turn<T: Send + 'static>(
    places: &Arc<Semaphore>,
    work: impl FnOnce() -> T + Send + 'static,
) -> Result<T, AppError> {
    let place = places.clone().acquire_owned().await.map_err(|e| anyhow::anyhow!(e))?;
    let work = move || {
        let _place = place;
        work()
    };
    Ok(tokio::task::spawn_blocking(work).await.map_err(|e| anyhow::anyhow!(e))?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::time::Duration;

    fn error(password: &str) -> String {
        let mut form = Form::new().with("password", password);
        let kept = new(&mut form, "password", &["Moorland Growers", "ines", "Ines Brandt"]);
        assert_eq!(kept, password, "neither trimmed nor folded");
        form.error("password").to_owned()
    }

    #[test]
    fn length_is_the_only_rule_of_form() {
        for good in [
            "four words quite unrelated",
            " spaces around it too ",
            "830475629184630",
            "🌱🪴🌶🍅🧅🌽🥕🥬🥒🥔🧄🌰🫘🥜🍄",
            "AaBbCcXyZq19!?#%",
        ] {
            assert_eq!(error(good), "", "{good}");
        }
        for length in [64, 128, 256] {
            let words: String = (0..length).map(|n| char::from(b'a' + (n * n * n / 7 % 23) as u8)).collect();
            assert_eq!(error(&words), "", "{length}");
        }
        assert!(error("fourteen chars").contains("this has 14"));
        assert!(error(&"four words quite unrelated ".repeat(2500)).contains("At most 256"));
    }

    #[test]
    fn what_others_would_try_is_refused() {
        for common in [
            "123456789012345",
            "aaaaaaaaaaaaaaa",
            "abcabcabcabcabc",
            "qwertyuiopasdfghjkl",
            "Password12345678",
            "iloveyouiloveyou",
            "1q2w3e4r5t6y7u8i9o0p",
            "abcdefghijklmnop",
        ] {
            assert!(error(common).contains("first that others would try"), "{common}: {}", error(common));
        }
    }

    #[test]
    fn a_hash_made_in_another_way_is_old() {
        assert!(!is_old(&hash("four words quite unrelated").unwrap()));
        let salt = SaltString::encode_b64(&[7; 16]).unwrap();
        for (m, t, p) in [(9 * 1024, 2, 1), (19 * 1024, 1, 1), (19 * 1024, 2, 2)] {
            let other = Argon2::new(Algorithm::Argon2id, Version::V0x13, Params::new(m, t, p, None).unwrap());
            assert!(is_old(&other.hash_password(b"four words", &salt).unwrap().to_string()), "{m} {t} {p}");
        }
        for (sort, version) in [(Algorithm::Argon2i, Version::V0x13), (Algorithm::Argon2id, Version::V0x10)] {
            let other = Argon2::new(sort, version, hasher().params().clone());
            assert!(is_old(&other.hash_password(b"four words", &salt).unwrap().to_string()), "{sort}");
        }
        assert!(is_old("none"));
    }

    #[test]
    fn names_that_others_know_are_refused_where_they_are_most_of_it() {
        for known in ["MoorlandGrowers!1", "ines brandt ines", "hilum germination 9", "Growers of seeds 77"] {
            assert!(error(known).contains("mostly a name"), "{known}: {}", error(known));
        }
        assert_eq!(error("ines likes twelve blue doors"), "");
    }

    #[tokio::test]
    async fn a_place_is_free_again_only_when_the_work_is_done() {
        let places = Arc::new(Semaphore::new(1));
        let (go, going) = std::sync::mpsc::channel::<()>();
        let work = in_turn(&places, move || going.recv().is_ok());
        assert!(tokio::time::timeout(Duration::from_millis(20), work).await.is_err());
        assert_eq!(places.available_permits(), 0, "nobody waits, but the work goes on");
        go.send(()).unwrap();
        assert!(in_turn(&places, || true).await.unwrap());
    }
}
