//! Merging of varieties and of sources, taken back exactly as it was made.
//!
//! Every name points straight at the root it counts under. A merge moves nothing but those pointers, and they
//! follow from the standing merges alone: [`settle`] works them out again after each merge and unmerge.

use crate::args;
use crate::audit::{self, Deed, What};
use crate::db::ids::{At, MemberId, MergeId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use std::collections::BTreeMap;

const INSERT: &str = "INSERT INTO merges (id, about, from_id, into_id, by_member, at)
    VALUES ($1, $2, $3, $4, $5, $6)";
const UNDO: &str = "UPDATE merges SET undone_by = $2, undone_at = $3
    WHERE id = $1 AND about = $4 AND from_id = $5 AND undone_at IS NULL";
const STANDING: &str = "SELECT from_id, into_id FROM merges WHERE about = $1 AND undone_at IS NULL
    ORDER BY at, id";
const OF: &str = "SELECT g.id, g.from_id, g.into_id, g.at, m.name AS by_name, u.name AS undone_by
    FROM merges g JOIN members m ON m.id = g.by_member LEFT JOIN members u ON u.id = g.undone_by
    WHERE g.about = $1 AND (g.from_id = $2 OR g.into_id = $2) ORDER BY g.at DESC, g.id DESC";
const LOCK_VARIETIES: &str = "UPDATE varieties SET version = version + 1 WHERE kind_id =
    (SELECT kind_id FROM varieties WHERE id = $1)";
const LOCK_SOURCES: &str = "UPDATE sources SET version = version + 1 WHERE id = id";
const VARIETIES: &str = "SELECT id, root_id, kind_id AS grouped FROM varieties WHERE NOT blind ORDER BY id";
const SOURCES: &str = "SELECT id, root_id, '' AS grouped FROM sources WHERE NOT blind ORDER BY id";
const POINT_VARIETY: &str = "UPDATE varieties SET root_id = $2 WHERE id = $1";
const POINT_SOURCE: &str = "UPDATE sources SET root_id = $2 WHERE id = $1";

pub(super) const ALL: &[&str] = &[
    INSERT,
    UNDO,
    STANDING,
    OF,
    LOCK_VARIETIES,
    LOCK_SOURCES,
    VARIETIES,
    SOURCES,
    POINT_VARIETY,
    POINT_SOURCE,
];

/// What a merge is about.
pub mod about {
    pub const VARIETY: &str = "variety";
    pub const SOURCE: &str = "source";
}

/// A merge on record.
#[derive(Debug, Clone, FromRow)]
pub struct Merge {
    pub id: MergeId,
    pub from_id: String,
    pub into_id: String,
    pub at: At,
    pub by_name: String,
    pub undone_by: Option<String>,
}

#[derive(FromRow)]
struct Pair {
    from_id: String,
    into_id: String,
}

#[derive(FromRow)]
struct Node {
    id: String,
    root_id: String,
    grouped: String,
}

/// Lets `from` count under `into` from now on. Refused in field `into`.
pub async fn merge(
    conn: &mut Conn,
    about: &'static str,
    (from, into): (&str, &str),
    by: &MemberId,
    now: At,
) -> Result<(), AppError> {
    lock(conn, about, from).await?;
    let nodes = nodes(conn, about).await?;
    let one = nodes.iter().find(|n| n.id == from).ok_or(AppError::NotFound)?;
    let other = nodes.iter().find(|n| n.id == into);
    let other = other.ok_or_else(|| AppError::refused("into", t!("stock-choose-a-name")))?;
    let refusal = if one.root_id != one.id {
        t!("stock-counts-under-another")
    } else if other.root_id == one.id {
        t!("stock-counts-under-this")
    } else if one.grouped != other.grouped {
        t!("stock-of-different-kinds")
    } else {
        conn.run(INSERT, args![&MergeId::new(), about, from, into, by, now]).await?;
        audit::note(conn, Deed::by(What::NamesMerged, by).more(about), now).await?;
        return settle(conn, about).await;
    };
    Err(AppError::refused("into", refusal))
}

/// Takes a merge back; what was merged into `from` before stays with it.
pub async fn unmerge(
    conn: &mut Conn,
    about: &'static str,
    (from, id): (&str, &MergeId),
    by: &MemberId,
    now: At,
) -> Result<(), AppError> {
    lock(conn, about, from).await?;
    if conn.run(UNDO, args![id, by, now, about, from]).await? != 1 {
        return Err(AppError::Conflict(t!("stock-merge-taken-back-already").into()));
    }
    audit::note(conn, Deed::by(What::MergeUndone, by).more(about), now).await?;
    settle(conn, about).await
}

/// The merges from and into a name, newest first, also those taken back.
pub async fn merges_of(conn: &mut Conn, about: &'static str, id: &str) -> Result<Vec<Merge>, AppError> {
    Ok(conn.all(OF, args![about, id]).await?)
}

async fn lock(conn: &mut Conn, about: &str, id: &str) -> Result<(), AppError> {
    if about == about::VARIETY {
        conn.run(LOCK_VARIETIES, args![id]).await?;
    } else {
        conn.run(LOCK_SOURCES, args![]).await?;
    }
    Ok(())
}

async fn nodes(conn: &mut Conn, about: &str) -> Result<Vec<Node>, AppError> {
    let sql = if about == about::VARIETY { VARIETIES } else { SOURCES };
    Ok(conn.all(sql, args![]).await?)
}

async fn settle(conn: &mut Conn, about: &'static str) -> Result<(), AppError> {
    let standing: Vec<Pair> = conn.all(STANDING, args![about]).await?;
    let into: BTreeMap<String, String> = standing.into_iter().map(|p| (p.from_id, p.into_id)).collect();
    let point = if about == about::VARIETY { POINT_VARIETY } else { POINT_SOURCE };
    for node in nodes(conn, about).await? {
        let root = root(&into, &node.id);
        if root != node.root_id {
            conn.run(point, args![&node.id, root]).await?;
        }
    }
    Ok(())
}

fn root<'a>(into: &'a BTreeMap<String, String>, id: &'a str) -> &'a str {
    let mut here = id;
    while let Some(next) = into.get(here) {
        here = next;
    }
    here
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn chains_lead_to_one_root() {
        let pair = |a: &str, b: &str| (a.to_owned(), b.to_owned());
        let into: BTreeMap<String, String> = [pair("a", "b"), pair("b", "c")].into();
        assert_eq!(["a", "b", "c", "d"].map(|id| root(&into, id)), ["c", "c", "c", "d"]);
    }
}
