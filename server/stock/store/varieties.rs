use super::Id;
use crate::args;
use crate::db::ids::{At, KindId, VarietyId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::stock::names::key;

const INSERT: &str = "INSERT INTO varieties (id, kind_id, name, name_key, species, root_id, made_at, version)
    VALUES ($1, $2, $3, $4, '', $1, $5, 1) ON CONFLICT (kind_id, name_key) DO NOTHING";
const BY_KEY: &str = "SELECT id FROM varieties WHERE kind_id = $1 AND name_key = $2";
const NOTE_SPECIES: &str = "UPDATE varieties SET species = $2, version = version + 1
    WHERE id = $1 AND species = ''";
const SPECIES: &str = "SELECT species AS id FROM varieties WHERE id = $1";
macro_rules! select {
    ($rest:literal) => {
        concat!(
            "SELECT v.id, v.name, v.name_key, v.species, v.kind_id, k.name AS kind, v.root_id, r.name AS counts_as,
              (SELECT COUNT(*) FROM lots l WHERE l.variety_id = v.id) AS lots,
              (SELECT COUNT(*) FROM packets p JOIN lots l ON l.id = p.lot_id WHERE l.variety_id = v.id) AS packets
            FROM varieties v JOIN kinds k ON k.id = v.kind_id JOIN varieties r ON r.id = v.root_id ",
            $rest
        )
    };
}
const EVERY: &str = select!("WHERE NOT v.blind ORDER BY lower(k.name), v.name_key");
const ONE: &str = select!("WHERE v.id = $1 AND NOT v.blind");

pub(super) const ALL: &[&str] = &[INSERT, BY_KEY, NOTE_SPECIES, SPECIES, EVERY, ONE];

/// A variety, the name it counts under, and what the club has of it.
#[derive(Debug, Clone, FromRow)]
pub struct Variety {
    pub id: VarietyId,
    pub name: String,
    pub name_key: String,
    pub species: String,
    pub kind_id: KindId,
    pub kind: String,
    pub root_id: VarietyId,
    pub counts_as: String,
    pub lots: i64,
    pub packets: i64,
}

/// The variety of that name and kind, made where it is missing.
pub async fn find_or_make_variety(
    conn: &mut Conn,
    kind: &KindId,
    name: &str,
    now: At,
) -> Result<VarietyId, AppError> {
    let key = key(name);
    if key.is_empty() {
        return Err(AppError::refused("variety", t!("stock-give-variety-a-name")));
    }
    conn.run(INSERT, args![&VarietyId::new(), kind, name.trim(), &key, now]).await?;
    let row: Id = conn.one(BY_KEY, args![kind, &key]).await?;
    Ok(VarietyId(row.id))
}

/// Notes the species of a variety; refused where another one is noted already.
pub async fn note_species(conn: &mut Conn, id: &VarietyId, species: &str) -> Result<(), AppError> {
    if species.is_empty() {
        return Ok(());
    }
    conn.run(NOTE_SPECIES, args![id, species]).await?;
    let noted: Id = conn.one(SPECIES, args![id]).await?;
    if key(&noted.id) == key(species) {
        return Ok(());
    }
    Err(AppError::refused("species", t!("stock-species-noted", species = noted.id)))
}

pub async fn varieties(conn: &mut Conn) -> Result<Vec<Variety>, AppError> {
    Ok(conn.all(EVERY, args![]).await?)
}

pub async fn variety(conn: &mut Conn, id: &VarietyId) -> Result<Variety, AppError> {
    conn.maybe(ONE, args![id]).await?.ok_or(AppError::NotFound)
}
