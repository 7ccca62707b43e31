use crate::app::App;
use crate::db::ids::At;
use crate::error::AppError;
use crate::web::help;
use crate::web::said::{LastSaid, Said};
use crate::web::session::Member;
use crate::web::static_files;
use axum::extract::FromRequestParts;
use axum::http::request::Parts;

/// What stands around every page: who is signed in, where they are, what the last save said.
#[derive(Debug, Clone)]
pub struct Chrome {
    pub member: Member,
    pub said: Option<Said>,
    pub path: String,
    pub now: At,
    /// Whether phones may keep pages for use without signal.
    pub offline: bool,
    /// Whether the database was found damaged.
    pub damaged: bool,
}

impl Chrome {
    /// The main places and their names.
    pub fn places(&self) -> [(&'static str, &'static str); 8] {
        [
            ("/", t!("web-place-due-now")),
            ("/packets", t!("web-place-packets")),
            ("/plan", t!("web-place-plan")),
            ("/trays", t!("web-place-trays")),
            ("/table", t!("web-place-club-table")),
            ("/rings", t!("web-place-ring-trials")),
            ("/routines", t!("web-place-routines")),
            ("/members", t!("web-place-members")),
        ]
    }

    /// `page` where the navigation entry at `root` is the current place, else empty.
    pub fn current(&self, root: &str) -> &'static str {
        let inside = if root == "/" { self.path == "/" } else { self.path.starts_with(root) };
        if inside { "page" } else { "" }
    }

    /// The part of the manual that tells of this page.
    pub fn help(&self) -> &'static str {
        help::of(&self.path)
    }

    pub fn css(&self) -> &'static str {
        static_files::css()
    }

    pub fn print_css(&self) -> &'static str {
        static_files::print_css()
    }

    pub fn js(&self) -> &'static str {
        static_files::js()
    }
}

impl FromRequestParts<App> for Chrome {
    type Rejection = AppError;

    async fn from_request_parts(parts: &mut Parts, app: &App) -> Result<Self, AppError> {
        let member = Member::from_request_parts(parts, app).await?;
        let LastSaid(said) = LastSaid::from_request_parts(parts, app).await.unwrap_or(LastSaid(None));
        Ok(Self {
            member,
            said,
            path: parts.uri.path().to_owned(),
            now: app.now(),
            offline: !app.config.no_offline,
            damaged: app.db.damaged(),
        })
    }
}
