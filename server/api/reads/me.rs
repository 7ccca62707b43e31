use crate::api::ask::Ask;
use crate::api::table::{Shown, Table, Words};
use crate::error::AppError;
use schemars::JsonSchema;
use serde::Serialize;

/// Whose token it is, and what it may do.
#[derive(Debug, Serialize, JsonSchema)]
struct Me {
    name: String,
    /// `grower` or `organiser`.
    role: String,
    club: String,
    /// Days are those of this time zone.
    time_zone: String,
    /// Whether this token may record.
    may_record: bool,
}

impl Shown for Me {
    fn example() -> Self {
        Self {
            name: "Jo".into(),
            role: "grower".into(),
            club: "Test Club".into(),
            time_zone: "Europe/Berlin".into(),
            may_record: true,
        }
    }
}

pub fn add(table: Table) -> Table {
    let words = Words {
        name: "readMe",
        group: "Who asks",
        summary: "Whose token this is",
        about: "A good first request: it says that the token works, and what it may do.",
    };
    table.one("/me", words, show)
}

async fn show(ask: Ask) -> Result<Me, AppError> {
    let member = &ask.holder.member;
    Ok(Me {
        name: member.name.clone(),
        role: member.role.clone(),
        club: member.club.clone(),
        time_zone: member.zone().name().to_owned(),
        may_record: ask.holder.may_record(),
    })
}
