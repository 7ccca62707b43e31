use super::Id;
use crate::args;
use crate::db::ids::{At, KindId};
use crate::db::{Conn, FromRow};
use crate::error::{AppError, taken};
use crate::stock::names;
use crate::stock::published::kind_key;

const INSERT: &str = "INSERT INTO kinds (id, name, name_key, built_in, made_at) VALUES ($1, $2, $3, $4, $5)
    ON CONFLICT DO NOTHING";
const NAME: &str = "UPDATE kinds SET name = $2 WHERE id = $1 AND built_in";
/// One called just so comes before one that has it among its usual names: a club may have had its own before this program
/// knew the name.
const BY_KEY: &str = "SELECT COALESCE(root_id, id) AS id FROM kinds WHERE name_key IN ($1, $2)
    ORDER BY CASE WHEN name_key = $1 THEN 0 ELSE 1 END LIMIT 1";
const EVERY: &str = "SELECT k.id, k.name, k.name_key, k.built_in,
      (SELECT COUNT(*) FROM varieties v WHERE v.kind_id = k.id AND NOT v.blind) AS varieties
    FROM kinds k WHERE k.root_id IS NULL ORDER BY lower(k.name), k.id";
const ONE: &str = "SELECT k.id, k.name, k.name_key, k.built_in,
      (SELECT COUNT(*) FROM varieties v WHERE v.kind_id = k.id AND NOT v.blind) AS varieties
    FROM kinds k WHERE k.id = (SELECT COALESCE(w.root_id, w.id) FROM kinds w WHERE w.id = $1)";
const LEADING: &str = "SELECT w.name_key, k.name FROM kinds w JOIN kinds k ON k.id = w.root_id";
const LOCK_OWN: &str = "UPDATE kinds SET name = name WHERE id = $1 AND NOT built_in AND root_id IS NULL";
const RENAME: &str = "UPDATE kinds SET name = $2, name_key = $3 WHERE id = $1 AND NOT built_in";
const FREE: &str = "DELETE FROM kinds WHERE root_id = $1 AND name_key = $2";
const LEAD: &str =
    "INSERT INTO kinds (id, name, name_key, built_in, made_at, root_id) VALUES ($1, $2, $3, FALSE, $4, $5)
    ON CONFLICT DO NOTHING";
/// The club table reads the kinds' names with the varieties.
const CHANGED: &str = "UPDATE varieties SET version = version + 1 WHERE kind_id = $1";

pub(super) const ALL: &[&str] =
    &[INSERT, NAME, BY_KEY, EVERY, ONE, LEADING, LOCK_OWN, RENAME, FREE, LEAD, CHANGED];

/// A kind, and how many varieties of it the club has.
#[derive(Debug, Clone, FromRow)]
pub struct Kind {
    pub id: KindId,
    pub name: String,
    pub name_key: String,
    pub built_in: bool,
    pub varieties: i64,
}

/// The key of a name that leads to another kind, and that kind's name.
#[derive(Debug, Clone, FromRow)]
pub struct Leading {
    pub name_key: String,
    pub name: String,
}

/// Adds a kind unless one of that name is there. The id of a built-in kind is its name.
pub async fn insert_kind(conn: &mut Conn, name: &str, built_in: bool, now: At) -> Result<(), AppError> {
    let key = kind_key(name);
    let id = if built_in { built_in_id(&key) } else { KindId::new() };
    conn.run(INSERT, args![&id, name, key, built_in, now]).await?;
    Ok(())
}

fn built_in_id(key: &str) -> KindId {
    KindId(key.replace(' ', "-"))
}

/// Gives the built-in kind of this key another of its usual names.
pub async fn name_kind(conn: &mut Conn, key: &str, name: &str) -> Result<(), AppError> {
    conn.run(NAME, args![&built_in_id(key), name]).await?;
    Ok(())
}

/// The kind of that name, or of another usual name of it.
pub async fn find_kind(conn: &mut Conn, name: &str) -> Result<Option<KindId>, AppError> {
    let row: Option<Id> = conn.maybe(BY_KEY, args![names::key(name), kind_key(name)]).await?;
    Ok(row.map(|r| KindId(r.id)))
}

/// The kind of that name, made where it is missing. `name` must hold a letter or digit.
pub async fn make_kind(conn: &mut Conn, name: &str, now: At) -> Result<KindId, AppError> {
    if kind_key(name).is_empty() {
        return Err(AppError::refused("kind", t!("stock-give-kind-a-name")));
    }
    insert_kind(conn, name, false, now).await?;
    find_kind(conn, name).await?.ok_or_else(|| AppError::Internal(anyhow::anyhow!("a kind went missing")))
}

pub async fn kinds(conn: &mut Conn) -> Result<Vec<Kind>, AppError> {
    Ok(conn.all(EVERY, args![]).await?)
}

/// The names that lead to another kind.
pub async fn leading(conn: &mut Conn) -> Result<Vec<Leading>, AppError> {
    Ok(conn.all(LEADING, args![]).await?)
}

/// The kind of this id, or the one that it turned out to be.
pub async fn kind(conn: &mut Conn, id: &KindId) -> Result<Kind, AppError> {
    conn.maybe(ONE, args![id]).await?.ok_or(AppError::NotFound)
}

/// A kind of the club's own; nobody else changes it before this transaction ends.
pub async fn own_kind(conn: &mut Conn, id: &KindId) -> Result<Kind, AppError> {
    match conn.run(LOCK_OWN, args![id]).await? {
        1 => kind(conn, id).await,
        _ => match kind(conn, id).await? {
            other if other.id == *id => Err(AppError::NotFound),
            other => Err(AppError::Conflict(t!("stock-kind-is-part-of", other = other.name))),
        },
    }
}

/// Gives `was`, a kind of the club's own that is locked, another name; the old one leads to it. Refused in field `name`
/// where another is called so.
pub async fn rename_kind(conn: &mut Conn, was: &Kind, name: &str, now: At) -> Result<(), AppError> {
    let (id, key) = (&was.id, kind_key(name));
    if let Some(other) = find_kind(conn, name).await?.filter(|other| other != id) {
        let there = kind(conn, &other).await?.name;
        return Err(AppError::refused("name", t!("stock-kind-is-here", name = there)));
    }
    let here = t!("stock-kind-is-here", name = name);
    conn.run(FREE, args![id, &key]).await?;
    taken(conn.run(RENAME, args![id, name, &key]).await, "name", &here)?;
    if key != was.name_key {
        conn.run(LEAD, args![&KindId::new(), &was.name, &was.name_key, now, id]).await?;
    }
    conn.run(CHANGED, args![id]).await?;
    Ok(())
}
