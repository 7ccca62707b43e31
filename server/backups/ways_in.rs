//! What a restore ends: a backup also brings back who could come in when it was taken.

use super::{names, store};
use crate::accounts::store::{devices, links, passkeys, sessions};
use crate::audit::{self, Deed, What};
use crate::db::Conn;
use crate::db::ids::At;
use crate::error::AppError;
use crate::web::words;
use std::path::Path;

/// How many of each were ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Ended {
    sessions: u64,
    browsers: u64,
    links: u64,
    asks: u64,
}

impl Ended {
    /// What whoever restored has to know, in one line.
    pub fn words(self) -> String {
        let counted = |n: u64, one, many| format!("{n} {}", if n == 1 { one } else { many });
        let ended = [
            counted(self.sessions, "session", "sessions"),
            counted(self.browsers, "browser that was known", "browsers that were known"),
            counted(self.links, "open link", "open links"),
            counted(self.asks, "passkey being asked for", "passkeys being asked for"),
        ];
        format!(
            "Ended: {}. Passwords, passkeys, tokens and members are as they were then: who changed or lost one since, \
             or left, has it back.",
            words::and(&ended)
        )
    }
}

/// Ends every way in that needs no password or passkey, and writes down that `from` was restored.
pub async fn end(conn: &mut Conn, from: &Path, now: At) -> Result<Ended, AppError> {
    let name = from.file_name().map(|n| n.to_string_lossy().into_owned()).unwrap_or_default();
    let state = match names::moment(&name) {
        Some(at) => at,
        None => store::last_saved(conn).await?.unwrap_or(now),
    };
    let ended = Ended {
        sessions: sessions::close_everybodys(conn).await?,
        browsers: devices::forget_everybodys(conn).await?,
        links: links::end_everybodys(conn, now).await?,
        asks: passkeys::forget_asks(conn).await?,
    };
    let state = state.local(chrono_tz::UTC).format("%Y-%m-%d %H:%M UTC").to_string();
    audit::note(conn, Deed::host(What::Restored).more(&state), now).await?;
    Ok(ended)
}
