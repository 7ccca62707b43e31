//! Passkeys: a second way in, by a key that a member's phone or computer keeps and unlocks (W3C Web Authentication).
//! A browser lets them be used over https alone, and bound to a name, not to a bare address.

use crate::config::Config;
use crate::db::ids::MemberId;
use crate::error::AppError;
use serde_json::{Value, json};
use webauthn_rs::prelude::{
    AuthenticationResult, CredentialID, DiscoverableAuthentication, Passkey, PasskeyRegistration,
    PublicKeyCredential, RegisterPublicKeyCredential, Url, Uuid, Webauthn, WebauthnBuilder,
};

/// Minutes within which a browser has to answer.
pub const ASK_MINUTES: i64 = 5;

/// Whether members can use passkeys at the address they come by.
pub fn possible(config: &Config) -> bool {
    relying(config, "").is_some()
}

/// Refuses a host who lets organisers in by passkeys alone at an address where there are none.
pub fn must_be_possible(config: &Config) -> anyhow::Result<()> {
    anyhow::ensure!(
        !config.organisers_by_passkey || possible(config),
        "--organisers-by-passkey (HILUM_ORGANISERS_BY_PASSKEY) would keep every organiser out: browsers offer passkeys \
         only at a --base-url with https and a name, such as https://hilum.example.org"
    );
    Ok(())
}

/// The library, set for the address members come by; `None` where browsers offer no passkeys there.
fn relying(config: &Config, club: &str) -> Option<Webauthn> {
    let url = Url::parse(&config.base()).ok()?;
    let host = url.domain()?;
    let safe = url.scheme() == "https" || host == "localhost" || host.ends_with(".localhost");
    let builder = WebauthnBuilder::new(host, &url).ok().filter(|_| safe)?;
    builder.rp_name(club).build().ok()
}

/// What a browser is to sign, and what must be known when it answers.
pub struct Ask {
    /// For the browser.
    pub options: Value,
    /// For us: JSON.
    pub document: String,
}

fn internal(error: impl std::fmt::Display) -> AppError {
    AppError::Internal(anyhow::anyhow!("passkeys: {error}"))
}

/// Asks for a new passkey of a member, none of those with the ids in `had`.
pub fn ask_new(
    config: &Config,
    club: &str,
    (id, sign_in, name): (&MemberId, &str, &str),
    had: &[String],
) -> Result<Ask, AppError> {
    let relying = relying(config, club).ok_or(AppError::NotFound)?;
    let user = Uuid::parse_str(&id.0).map_err(internal)?;
    let had = had.iter().filter_map(|id| data_encoding::BASE64URL_NOPAD.decode(id.as_bytes()).ok());
    let had: Vec<CredentialID> = had.collect();
    let (asked, state) =
        relying.start_passkey_registration(user, sign_in, name, Some(had)).map_err(internal)?;
    let mut options = serde_json::to_value(asked).map_err(internal)?;
    // whoever signs in gives no name: the key itself has to say whose it is
    if let Some(selection) = options["publicKey"]["authenticatorSelection"].as_object_mut() {
        selection.insert("residentKey".into(), json!("required"));
        selection.insert("requireResidentKey".into(), json!(true));
    }
    Ok(Ask { options, document: serde_json::to_string(&state).map_err(internal)? })
}

/// A new passkey, by what the browser answered; `None` where that does not fit what was asked.
pub fn read_new(config: &Config, document: &str, answer: &str) -> Result<Option<Passkey>, AppError> {
    let relying = relying(config, "").ok_or(AppError::NotFound)?;
    let state: PasskeyRegistration = serde_json::from_str(document).map_err(internal)?;
    let Ok(answer) = serde_json::from_str::<RegisterPublicKeyCredential>(answer) else { return Ok(None) };
    Ok(relying.finish_passkey_registration(&answer, &state).ok())
}

/// Asks for any passkey that was made here.
pub fn ask_any(config: &Config, club: &str) -> Result<Ask, AppError> {
    let relying = relying(config, club).ok_or(AppError::NotFound)?;
    let (asked, state) = relying.start_discoverable_authentication().map_err(internal)?;
    let mut options = serde_json::to_value(asked).map_err(internal)?;
    // asked for by a button, not offered beside a field
    if let Some(options) = options.as_object_mut() {
        options.remove("mediation");
    }
    Ok(Ask { options, document: serde_json::to_string(&state).map_err(internal)? })
}

/// A browser's answer, and whose it says it is: nothing of it is proved yet.
pub struct Claim {
    answer: PublicKeyCredential,
    pub member: MemberId,
    /// As [`credential`] writes it.
    pub credential: String,
}

/// Reads an answer; `None` where it is none.
pub fn claim(answer: &str) -> Option<Claim> {
    let answer: PublicKeyCredential = serde_json::from_str(answer).ok()?;
    let user = Uuid::from_slice(answer.response.user_handle.as_ref()?).ok()?;
    let credential = data_encoding::BASE64URL_NOPAD.encode(&answer.raw_id);
    Some(Claim { answer, member: MemberId(user.simple().to_string()), credential })
}

/// Whether the answer was made by `passkey`, for what was asked; the passkey as it is to be kept then.
pub fn verify(
    config: &Config,
    document: &str,
    claim: &Claim,
    mut passkey: Passkey,
) -> Result<Option<Passkey>, AppError> {
    let relying = relying(config, "").ok_or(AppError::NotFound)?;
    let state: DiscoverableAuthentication = serde_json::from_str(document).map_err(internal)?;
    let proved = relying.finish_discoverable_authentication_v2(&claim.answer, state, &passkey);
    let Ok(result) = proved.as_ref().map(|result: &AuthenticationResult| result) else { return Ok(None) };
    passkey.update_credential(result);
    Ok(result.user_verified().then_some(passkey))
}

/// The passkey's id as text.
pub fn credential(passkey: &Passkey) -> String {
    data_encoding::BASE64URL_NOPAD.encode(passkey.cred_id())
}

#[cfg(test)]
mod tests {
    use super::possible;
    use crate::config::Config;

    fn at(base: &str) -> bool {
        possible(&Config { base_url: Some(base.to_owned()), ..Config::default() })
    }

    #[test]
    fn passkeys_need_https_and_a_name() {
        assert!(
            at("https://hilum.example.org")
                && at("https://hilum.example.org:8443/")
                && at("http://localhost:8420")
        );
        for base in
            ["http://hilum.example.org", "https://192.0.2.7", "http://127.0.0.1:8420", "https://[::1]", "x"]
        {
            assert!(!at(base), "{base}");
        }
    }
}
