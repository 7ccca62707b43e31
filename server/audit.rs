//! The record of who did what of security and of the club: only ever added to, in the transaction of the act itself.

use crate::args;
use crate::db::ids::{At, DeedId, MemberId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;

/// Every sort of act, its name in the database and in addresses, and its words.
macro_rules! acts {
    ($($name:ident $key:literal $words:expr;)*) => {
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum What { $($name),* }

        impl What {
            pub const ALL: &'static [Self] = &[$(Self::$name),*];

            pub fn key(self) -> &'static str {
                match self { $(Self::$name => $key),* }
            }

            pub fn words(self) -> &'static str {
                match self { $(Self::$name => $words),* }
            }
        }
    };
}

acts! {
    ClubSetUp "club set up" t!("accounts-did-set-up");
    Joined "joined" t!("accounts-did-join");
    SignedIn "signed in" t!("accounts-did-sign-in");
    SignInFailed "sign-in failed" t!("accounts-did-fail");
    Proved "proved" t!("accounts-did-prove");
    PasswordChanged "password changed" t!("accounts-did-change-password");
    PasswordReset "password reset" t!("accounts-did-reset-password");
    SignedOutElsewhere "signed out elsewhere" t!("accounts-did-sign-out-elsewhere");
    SessionsEnded "sessions ended" t!("accounts-did-end-sessions");
    Invited "invited" t!("accounts-did-invite");
    ResetMade "reset made" t!("accounts-did-make-reset");
    LinkWithdrawn "link withdrawn" t!("accounts-did-withdraw-link");
    RoleChanged "role changed" t!("accounts-did-change-role");
    Left "left" t!("accounts-did-end-membership");
    TokenMade "token made" t!("accounts-did-make-token");
    TokenEnded "token ended" t!("accounts-did-end-token");
    CalendarMade "calendar made" t!("accounts-did-make-calendar");
    CalendarEnded "calendar ended" t!("accounts-did-end-calendar");
    PasskeyAdded "passkey added" t!("accounts-did-add-passkey");
    PasskeyRemoved "passkey removed" t!("accounts-did-remove-passkey");
    SettingsChanged "settings changed" t!("accounts-did-change-settings");
    LettersTaken "letters taken" t!("accounts-did-take-letters");
    DataSaved "data saved" t!("accounts-did-save-data");
    Erased "erased" t!("accounts-did-erase");
    NamesMerged "names merged" t!("accounts-did-merge-names");
    KindRenamed "kind renamed" t!("accounts-did-rename-kind");
    MergeUndone "merge undone" t!("accounts-did-undo-merge");
    ListBroughtIn "list brought in" t!("accounts-did-bring-list");
    ClubUsed "club used" t!("accounts-did-use-club");
    ClubTaken "club taken" t!("accounts-did-take-club");
    ClubRemoved "club removed" t!("accounts-did-remove-club");
    BackupTaken "backup taken" t!("accounts-did-back-up");
    Restored "restored" t!("accounts-did-restore");
}

const ADD: &str =
    "INSERT INTO audit (id, at, what, by_member, about_member, more) VALUES ($1, $2, $3, $4, $5, $6)";
const PAGE: &str = "SELECT a.at, a.what, a.more, a.by_member, a.about_member,
    COALESCE(b.name, '') AS by_name, COALESCE(m.name, '') AS about_name
    FROM audit a LEFT JOIN members b ON b.id = a.by_member LEFT JOIN members m ON m.id = a.about_member
    WHERE ($1 = '' OR a.by_member = $1 OR a.about_member = $1) AND ($2 = '' OR a.what = $2)
    ORDER BY a.at DESC, a.id DESC LIMIT $3 OFFSET $4";
const SIGN_INS: &str =
    "SELECT CAST(COALESCE(SUM(CASE WHEN what = 'signed in' THEN 1 ELSE 0 END), 0) AS BIGINT) AS good,
    CAST(COALESCE(SUM(CASE WHEN what = 'signed in' THEN 0 ELSE 1 END), 0) AS BIGINT) AS failed
    FROM audit WHERE at > $1 AND what IN ('signed in', 'sign-in failed')";

pub const ALL: &[&str] = &[ADD, PAGE, SIGN_INS];

/// One act: by whom (`None`: the host, or nobody who is known), about which member, and a word more of our own.
#[derive(Debug)]
pub struct Deed<'a> {
    what: What,
    by: Option<&'a MemberId>,
    about: Option<&'a MemberId>,
    more: &'a str,
}

impl<'a> Deed<'a> {
    /// An act of the host, at the command line.
    pub fn host(what: What) -> Self {
        Self { what, by: None, about: None, more: "" }
    }

    /// An act of a member.
    pub fn by(what: What, member: &'a MemberId) -> Self {
        Self { by: Some(member), ..Self::host(what) }
    }

    /// Whom it is about.
    pub fn about(self, member: &'a MemberId) -> Self {
        Self { about: Some(member), ..self }
    }

    /// A word more of our own; nothing that members typed.
    pub fn more(self, more: &'a str) -> Self {
        Self { more, ..self }
    }
}

/// Adds an act to the record.
pub async fn note(conn: &mut Conn, deed: Deed<'_>, now: At) -> Result<(), AppError> {
    let (what, by, about) = (deed.what.key(), deed.by, deed.about);
    tracing::info!(
        what,
        by = by.map(tracing::field::display),
        about = about.map(tracing::field::display),
        more = deed.more,
        "recorded"
    );
    conn.run(ADD, args![&DeedId::new(), now, what, by, about, deed.more]).await?;
    Ok(())
}

/// An act as it stands in the record.
#[derive(Debug, Clone, FromRow)]
pub struct DeedRow {
    pub at: At,
    what: String,
    pub more: String,
    pub by_member: Option<MemberId>,
    pub about_member: Option<MemberId>,
    /// Empty where nobody is known.
    pub by_name: String,
    pub about_name: String,
}

impl DeedRow {
    pub fn is(&self, what: What) -> bool {
        self.what == what.key()
    }

    /// What was done, in words; as it stands in the record where this program does not know it.
    pub fn words(&self) -> &str {
        What::ALL.iter().find(|w| w.key() == self.what).map_or(&self.what, |w| w.words())
    }

    /// The word more, in words.
    pub fn more_words(&self) -> &str {
        match self.more.as_str() {
            "grower" => t!("accounts-grower"),
            "organiser" => t!("accounts-organiser"),
            "password" => t!("accounts-by-password"),
            "passkey" => t!("accounts-by-passkey"),
            "invitation" => t!("accounts-by-invitation"),
            "reset link" => t!("accounts-by-reset-link"),
            "of everybody" => t!("accounts-of-everybody"),
            "read" => t!("accounts-to-read"),
            "record" => t!("accounts-to-record"),
            "packets" => t!("accounts-of-packets"),
            "counts" => t!("accounts-of-counts"),
            "variety" => t!("accounts-of-variety"),
            "source" => t!("accounts-of-source"),
            "kind" => t!("accounts-of-kind"),
            more => more,
        }
    }
}

/// Which part of the record: of one member ("" for all), of one sort ("" for all).
#[derive(Debug, Clone, Default)]
pub struct Wanted {
    pub member: String,
    pub what: String,
}

/// `most` acts after the first `skip`, the latest first.
pub async fn page(conn: &mut Conn, wanted: &Wanted, most: i64, skip: i64) -> Result<Vec<DeedRow>, AppError> {
    Ok(conn.all(PAGE, args![&wanted.member, &wanted.what, most, skip]).await?)
}

/// How many sign-ins went well, and how many failed.
#[derive(Debug, Clone, Copy, FromRow)]
pub struct SignIns {
    pub good: i64,
    pub failed: i64,
}

/// The sign-ins since `since`.
pub async fn sign_ins(conn: &mut Conn, since: At) -> Result<SignIns, AppError> {
    Ok(conn.one(SIGN_INS, args![since]).await?)
}
