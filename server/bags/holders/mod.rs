//! /holders: one zip bag or box that groups several bags; moved and damped together.

mod pages;
pub mod store;

use crate::db::Conn;
use crate::db::ids::MemberId;
use crate::error::AppError;

pub use pages::{add, list, save, show};

/// The holders of a member, as choices of a field.
pub async fn choices(conn: &mut Conn, member: &MemberId) -> Result<Vec<(String, String)>, AppError> {
    let all = store::all(conn, member).await?;
    let words = |h: &store::Holder| match h.place.as_str() {
        "" => h.mark.clone(),
        place => format!("{} ({place})", h.mark),
    };
    Ok(all.iter().map(|h| (h.id.0.clone(), words(h))).collect())
}
