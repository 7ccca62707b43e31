//! Proving with a password who one is; slow when it went wrong often.

use super::throttle::Address;
use super::{model, passwords, store};
use crate::app::App;
use crate::db::ids::MemberId;
use crate::error::AppError;
use crate::web::words;

/// Compared against when the name is unknown, so that both answers take the same time.
const NOBODY: &str =
    "$argon2id$v=19$m=19456,t=2,p=1$AAAAAAAAAAAAAAAAAAAAAA$AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA";

/// What came of a try.
#[derive(Debug)]
pub enum Proof {
    Member(MemberId),
    Wrong,
    /// Seconds until the next try is looked at.
    Wait(i64),
}

/// Looks whether `password` is that of `sign_in`. Call it outside transactions.
pub async fn prove(app: &App, sign_in: &str, password: &str, from: &Address) -> Result<Proof, AppError> {
    let account = model::sign_in_key(sign_in);
    if let Err(seconds) = app.throttle.begin(&account, &from.0, app.now()) {
        return Ok(Proof::Wait(seconds));
    }
    let known = store::secret(&mut app.db.read().await?, sign_in).await?;
    let hash = known.as_ref().map_or(NOBODY, |s| &s.password_hash).to_owned();
    let good = passwords::matches(app, password.to_owned(), hash).await?;
    let Some(secret) = known.filter(|_| good) else { return Ok(Proof::Wrong) };
    app.throttle.succeeded(&account, &from.0);
    Ok(Proof::Member(secret.id))
}

/// What to tell somebody who has to wait.
pub fn wait_words(seconds: i64) -> String {
    let seconds = words::counted(seconds, "second", "seconds");
    format!("Too many tries in a row. Wait {seconds} and try again; the right password works then.")
}
