use crate::db::ids::{LinkId, MemberId};
use crate::error::AppError;
use crate::web::forms::Form;
use argon2::password_hash::{PasswordHash, PasswordHasher, PasswordVerifier, SaltString};
use argon2::{Algorithm, Argon2, Params, Version};
use sqlx::FromRow;

pub const PASSWORD_LEAST: usize = 15;
pub const PASSWORD_MOST: usize = 256;

/// A one-time link that is still good.
#[derive(Debug, Clone, FromRow)]
pub struct Link {
    pub id: LinkId,
    pub purpose: String,
    pub role: String,
    pub member_id: Option<MemberId>,
}

/// Who wants to join, as typed and checked.
#[derive(Debug)]
pub struct NewMember {
    pub name: String,
    pub sign_in: String,
    pub letters: String,
    pub password: String,
    pub role: String,
}

impl NewMember {
    pub fn parse(form: &mut Form, role: &str) -> Self {
        let name = form.must_text("name", 80);
        let sign_in = form.must_text("sign_in", 60);
        let letters = letters(form);
        let password = new_password(form, "password");
        Self { name, sign_in, letters, password, role: role.to_owned() }
    }
}

/// 1 to 4 letters A to Z, in upper case.
pub fn letters(form: &mut Form) -> String {
    let typed = form.must_text("letters", 6).to_uppercase();
    if !typed.is_empty() && !((1..=4).contains(&typed.len()) && typed.bytes().all(|b| b.is_ascii_uppercase()))
    {
        form.refuse("letters", "1 to 4 letters from A to Z, please.");
    }
    typed
}

/// The name by which people are told apart when they sign in.
pub fn sign_in_key(sign_in: &str) -> String {
    sign_in.trim().to_lowercase()
}

/// A password long enough to stand alone; neither trimmed nor folded.
pub fn new_password(form: &mut Form, field: &'static str) -> String {
    let typed = form.value(field).to_owned();
    let length = typed.chars().count();
    if length < PASSWORD_LEAST {
        form.refuse(field, format!("At least {PASSWORD_LEAST} characters, please; this has {length}."));
    } else if length > PASSWORD_MOST {
        form.refuse(field, format!("At most {PASSWORD_MOST} characters, please."));
    }
    typed
}

/// Argon2id with 19 MiB, 2 passes, 1 lane (OWASP Password Storage Cheat Sheet).
fn hasher() -> Argon2<'static> {
    let params = Params::new(19 * 1024, 2, 1, None).expect("the parameters are in range");
    Argon2::new(Algorithm::Argon2id, Version::V0x13, params)
}

/// The hash to keep. Slow by design: call it outside transactions, through [`super::store::hashed`].
pub fn hash(password: &str) -> Result<String, AppError> {
    let mut bytes = [0u8; 16];
    getrandom::fill(&mut bytes).map_err(|e| anyhow::anyhow!("no random bytes: {e}"))?;
    let salt = SaltString::encode_b64(&bytes).map_err(|e| anyhow::anyhow!("salt: {e}"))?;
    let hash =
        hasher().hash_password(password.as_bytes(), &salt).map_err(|e| anyhow::anyhow!("hash: {e}"))?;
    Ok(hash.to_string())
}

/// Whether `password` is the one that `hash` was made of.
pub fn matches(password: &str, hash: &str) -> bool {
    PasswordHash::new(hash).is_ok_and(|parsed| hasher().verify_password(password.as_bytes(), &parsed).is_ok())
}

/// A path of ours to go on to after signing in; anything else leads home.
pub fn safe_next(next: &str) -> &str {
    let inside = next.starts_with('/')
        && !next.starts_with("//")
        && !next.contains('\\')
        && !next.contains(char::is_control);
    if inside { next } else { "/" }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_our_own_paths_follow_signing_in() {
        assert_eq!(safe_next("/bags/1?x=2"), "/bags/1?x=2");
        for bad in ["//evil.test", "/\\evil.test", "https://evil.test", "", "/a\nb"] {
            assert_eq!(safe_next(bad), "/");
        }
    }
}
