//! Passkeys with the browser's own virtual authenticator (W3C Web Authentication, section 11: user agent automation).

use crate::support::{Phone, Program};
use serde_json::{Value, json};

/// Signs in from script: what the device signs may be spoilt by `spoil` (of `key`), and is sent `times` times. Gives the
/// addresses that the answers lead to, with their status.
const SIGN_IN: &str = "
    const bytes = text => Uint8Array.from(atob(text.replaceAll('-', '+').replaceAll('_', '/')), c => c.charCodeAt(0));
    const plain = buffer => btoa(String.fromCharCode(...new Uint8Array(buffer)))
      .replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '');
    const post = (path, fields) => fetch(path, { method: 'POST', body: new URLSearchParams(fields) });
    const { publicKey } = await (await post('/sign-in/passkey/ask', {})).json();
    const made = await navigator.credentials.get({ publicKey: { ...publicKey, challenge: bytes(publicKey.challenge) } });
    const key = { id: made.id, rawId: plain(made.rawId), type: made.type, response: {} };
    for (const part of ['authenticatorData', 'clientDataJSON', 'signature', 'userHandle'])
      key.response[part] = new Uint8Array(made.response[part]);
    SPOIL;
    for (const part in key.response) key.response[part] = plain(key.response[part]);
    const seen = [];
    for (let n = 0; n < TIMES; n++) {
      const answer = await post('/sign-in/passkey', { answer: JSON.stringify(key) });
      seen.push(answer.status + ' ' + new URL(answer.url).pathname);
    }
    return seen.join(', ');";

async fn authenticator(phone: &Phone, verifies: bool) -> String {
    let options = json!({ "protocol": "ctap2", "transport": "internal", "hasResidentKey": true,
        "hasUserVerification": true, "isUserVerified": verifies, "automaticPresenceSimulation": true });
    let made = phone.cdp("WebAuthn.addVirtualAuthenticator", json!({ "options": options })).await;
    made["authenticatorId"].as_str().unwrap().to_owned()
}

async fn keys(phone: &Phone, authenticator: &str) -> Vec<Value> {
    let found = phone.cdp("WebAuthn.getCredentials", json!({ "authenticatorId": authenticator })).await;
    found["credentials"].as_array().unwrap().clone()
}

async fn sign_in_by_script(phone: &Phone, spoil: &str, times: u32) -> String {
    sign_out(phone).await;
    phone.goto("/sign-in").await;
    let script = SIGN_IN.replace("SPOIL", spoil).replace("TIMES", &times.to_string());
    phone.ask(&script).await.as_str().unwrap_or_default().to_owned()
}

async fn sign_out(phone: &Phone) {
    phone.session("").await;
}

#[tokio::test]
async fn a_member_signs_in_by_a_passkey_of_their_own() {
    let mut program = Program::demo().await;
    // a name, which browsers take for secure
    program.stop();
    program.base = format!("http://localhost:{}", program.port);
    program.again().await;
    let phone = Phone::open(&program.base).await;
    phone.cdp("WebAuthn.enable", json!({})).await;
    let device = authenticator(&phone, true).await;
    phone.sign_in("agnes").await;
    phone.goto("/me").await;
    phone.tap_words("Your passkeys").await;
    phone.says("You have none.").await;
    phone.look("passkeys-none").await;
    phone.fill("#f-name", "My phone").await;
    phone.tap("form[data-passkey] button.main").await;
    phone.says("From now on you can sign in with this passkey.").await;
    phone.says("not used yet").await;
    phone.look("passkeys").await;
    let made = keys(&phone, &device).await;
    assert_eq!(made.len(), 1);
    assert_eq!((&made[0]["isResidentCredential"], &made[0]["rpId"]), (&json!(true), &json!("localhost")));

    phone.fill("#f-name", "The same again").await;
    phone.tap("form[data-passkey] button.main").await;
    phone.says("No passkey was used.").await;
    assert_eq!(keys(&phone, &device).await.len(), 1, "a device keeps one for each member");

    sign_out(&phone).await;
    phone.goto("/sign-in?next=/members").await;
    phone.look("sign-in-passkey").await;
    phone.tap_words("Sign in with a passkey").await;
    phone.says("Invite somebody").await;
    assert_eq!(phone.path().await, "/members");
    phone.goto("/members/record").await;
    phone.says("signed in (passkey)").await;
    phone.says("added a passkey").await;
    phone.goto("/me/passkeys").await;
    phone.says("last used").await;
    refuses(&phone, &device).await;
    removed(&phone).await;
    phone.close().await;
}

#[tokio::test]
async fn where_the_host_asks_for_it_an_organiser_comes_by_a_passkey_alone() {
    let mut program = Program::demo().await;
    program.stop();
    program.base = format!("http://localhost:{}", program.port);
    program.settings = vec!["--organisers-by-passkey"];
    program.again().await;
    let phone = Phone::open(&program.base).await;
    phone.cdp("WebAuthn.enable", json!({})).await;
    authenticator(&phone, true).await;
    phone.goto("/sign-in").await;
    phone.look("sign-in-organisers").await;
    with_password(&phone).await;
    phone.says("Add yours here first").await;
    phone.look("passkeys-first").await;
    phone.goto("/members").await;
    phone.says("Add yours here first").await;
    phone.fill("#f-name", "My phone").await;
    phone.tap("form[data-passkey] button.main").await;
    phone.says("From now on you can sign in with this passkey.").await;
    phone.goto("/members").await;
    phone.says("Invite somebody").await;
    sign_out(&phone).await;
    phone.goto("/sign-in").await;
    with_password(&phone).await;
    phone.says("Organisers sign in with a passkey here").await;
    phone.look("sign-in-use-passkey").await;
    phone.tap_words("Sign in with a passkey").await;
    phone.says("Due now").await;
    phone.goto("/me/passkeys").await;
    phone.tap("form[action$='/remove'] button").await;
    phone.says("This is your only passkey").await;
    phone.close().await;
}

async fn with_password(phone: &Phone) {
    phone.fill("#f-sign_in", "agnes").await;
    phone.fill("#f-password", hilum::upkeep::demo::PASSWORD).await;
    phone.tap("form[action='/sign-in'] button").await;
}

/// What must not let anybody in.
async fn refuses(phone: &Phone, device: &str) {
    assert_eq!(sign_in_by_script(phone, "", 1).await, "200 /", "as it is");
    assert_eq!(
        sign_in_by_script(phone, "", 2).await,
        "200 /, 422 /sign-in/passkey",
        "an answer is good once"
    );
    for spoilt in [
        "key.response.signature[20] ^= 1",
        "key.response.authenticatorData[3] ^= 1",
        "key.response.clientDataJSON = new TextEncoder().encode(new TextDecoder().decode(key.response.clientDataJSON)
           .replace('localhost', 'elsewhere'))",
        "key.response.userHandle = crypto.getRandomValues(new Uint8Array(16))",
        "key.rawId = plain(crypto.getRandomValues(new Uint8Array(32)))",
        "await post('/sign-in/passkey/ask', {})",
    ] {
        assert_eq!(sign_in_by_script(phone, spoilt, 1).await, "422 /sign-in/passkey", "{spoilt}");
    }
    let unverified = json!({ "authenticatorId": device, "isUserVerified": false });
    phone.cdp("WebAuthn.setUserVerified", unverified).await;
    let answer = sign_in_by_script(phone, "", 1).await;
    assert!(!answer.contains("200"), "a device that did not see its owner: {answer}");
    phone.cdp("WebAuthn.setUserVerified", json!({ "authenticatorId": device, "isUserVerified": true })).await;
}

/// A passkey that was removed opens nothing.
async fn removed(phone: &Phone) {
    phone.sign_in("agnes").await;
    phone.goto("/me/passkeys").await;
    phone.tap("form[action$='/remove'] button").await;
    phone.says("Removed.").await;
    sign_out(phone).await;
    phone.goto("/sign-in").await;
    phone.tap_words("Sign in with a passkey").await;
    phone.says("The passkey did not fit").await;
    phone.says("Not signed in").await;
}

#[tokio::test]
async fn where_browsers_offer_no_passkeys_the_page_says_so() {
    let program = Program::demo().await;
    let phone = Phone::open(&program.base).await;
    phone.sign_in("agnes").await;
    phone.goto("/me/passkeys").await;
    phone.says("browsers offer passkeys only at an address with https and a name").await;
    phone.look("passkeys-not-here").await;
    sign_out(&phone).await;
    phone.goto("/sign-in").await;
    phone.hides("passkey").await;
    phone.close().await;
}
