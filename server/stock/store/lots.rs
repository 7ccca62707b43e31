use super::{find_or_make_source, find_or_make_variety, make_kind, note_species, saved_by};
use crate::args;
use crate::db::ids::{At, LotId, MemberId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::stock::model::Naming;
use crate::stock::names::key;

const INSERT: &str =
    "INSERT INTO lots (id, variety_id, source_id, year, code, code_key, parent_packet, pollination,
      doubtful_cross, made_at) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)
    ON CONFLICT (variety_id, source_id, year, code_key) DO NOTHING";
const FOUND: &str = "SELECT id, parent_packet, pollination, doubtful_cross FROM lots
    WHERE variety_id = $1 AND source_id = $2 AND year = $3 AND code_key = $4";

const CORRECT: &str = "UPDATE lots SET pollination = $2, doubtful_cross = $3 WHERE id = $1";

pub(super) const ALL: &[&str] = &[INSERT, FOUND, CORRECT];

#[derive(FromRow)]
struct Found {
    id: LotId,
    parent_packet: Option<String>,
    pollination: String,
    doubtful_cross: bool,
}

/// The lot that `naming` describes, made with its kind, variety and source where they are missing. A lot of the
/// same name but of other parents is refused in field `code`.
pub async fn find_or_make_lot(
    conn: &mut Conn,
    member: &MemberId,
    naming: &Naming,
    now: At,
) -> Result<LotId, AppError> {
    let kind = make_kind(conn, &naming.kind, now).await?;
    let variety = find_or_make_variety(conn, &kind, &naming.variety, now).await?;
    note_species(conn, &variety, &naming.species).await?;
    let own = naming.own.as_ref();
    let source = match own {
        Some(_) => saved_by(conn, member, now).await?,
        None => find_or_make_source(conn, &naming.source, &naming.sort, now).await?,
    };
    let (parent, pollination, doubtful) = match own {
        Some(own) => (Some(&own.parent), own.pollination.as_str(), own.doubtful_cross),
        None => (None, "", false),
    };
    let code_key = key(&naming.code);
    let code = naming.code.trim();
    let id = LotId::new();
    let row = args![&id, &variety, &source, naming.year, code, &code_key, parent, pollination, doubtful, now];
    conn.run(INSERT, row).await?;
    let found: Found = conn.one(FOUND, args![&variety, &source, naming.year, &code_key]).await?;
    let same = (found.parent_packet.as_deref(), found.pollination.as_str(), found.doubtful_cross)
        == (parent.map(|p| p.0.as_str()), pollination, doubtful);
    if own.is_some() && !same {
        return Err(AppError::refused("code", t!("stock-own-seed-from-others")));
    }
    Ok(found.id)
}

/// Corrects how a lot of own seed came about.
pub async fn correct_parents(
    conn: &mut Conn,
    lot: &LotId,
    pollination: &str,
    doubtful: bool,
) -> Result<(), AppError> {
    conn.run(CORRECT, args![lot, pollination, doubtful]).await?;
    Ok(())
}
