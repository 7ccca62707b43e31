//! A kind of the club's own that turns out to be another one. Its varieties go there for good, and its name leads there
//! from then on.

use super::kinds::Kind;
use super::merges::{self, about};
use crate::args;
use crate::audit::{self, Deed, What};
use crate::db::ids::{At, KindId, MemberId, VarietyId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::stock::names::key;
use std::collections::BTreeMap;

const OF: &str = "SELECT id, name, name_key, root_id, blind FROM varieties WHERE kind_id = $1 ORDER BY id";
const MOVE: &str =
    "UPDATE varieties SET kind_id = $2, name = $3, name_key = $4, version = version + 1 WHERE id = $1";
const LEAD: &str = "UPDATE kinds SET root_id = $2 WHERE id = $1 OR root_id = $1";

pub(super) const ALL: &[&str] = &[OF, MOVE, LEAD];

/// The most characters in the name of a variety.
const LONGEST: usize = 120;

#[derive(FromRow)]
struct Variety {
    id: VarietyId,
    name: String,
    name_key: String,
    root_id: VarietyId,
    blind: bool,
}

/// Puts `from`, a kind of the club's own that is locked, under `into`. A variety whose name is there already takes the
/// name of its old kind along and counts under the one that was there, unless it counted under another before.
pub async fn join(
    conn: &mut Conn,
    from: &Kind,
    into: &KindId,
    by: &MemberId,
    now: At,
) -> Result<(), AppError> {
    let there: Vec<Variety> = conn.all(OF, args![into]).await?;
    let mut there: BTreeMap<String, Variety> = there.into_iter().map(|v| (v.name_key.clone(), v)).collect();
    let mut same = Vec::new();
    for mut variety in conn.all::<Variety>(OF, args![&from.id]).await? {
        if let Some(other) = there.get(&variety.name_key) {
            if !variety.blind && !other.blind && variety.root_id == variety.id {
                same.push((variety.id.clone(), other.id.clone()));
            }
            variety.name = beside(&variety.name, &from.name, &there);
            variety.name_key = key(&variety.name);
        }
        conn.run(MOVE, args![&variety.id, into, &variety.name, &variety.name_key]).await?;
        there.insert(variety.name_key.clone(), variety);
    }
    for (one, other) in same {
        merges::merge(conn, about::VARIETY, (&one.0, &other.0), by, now).await?;
    }
    conn.run(LEAD, args![&from.id, into]).await?;
    audit::note(conn, Deed::by(What::NamesMerged, by).more("kind"), now).await
}

/// `Sunrise (old kind)`, or with a number where that is taken too.
fn beside(name: &str, kind: &str, there: &BTreeMap<String, Variety>) -> String {
    let numbered = |n: u32| {
        let ending = if n == 1 { format!(" ({kind})") } else { format!(" ({kind} {n})") };
        let room = LONGEST - ending.chars().count();
        name.chars().take(room).chain(ending.chars()).collect::<String>()
    };
    (1..).map(numbered).find(|name| !there.contains_key(&key(name))).unwrap_or_default()
}
