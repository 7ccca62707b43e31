//! What a packet of a running ring trial hangs on instead of its lot: every page that names a packet's variety
//! and source then says that it is blind, without knowing of ring trials.

use super::Id;
use crate::args;
use crate::db::Conn;
use crate::db::ids::{At, KindId, LotId, PacketId, SourceId, VarietyId};
use crate::error::AppError;

const VARIETY: &str = "blind lot";
const SOURCE: &str = "a hidden source";
/// A key that no typed name can have: signs are dropped from those.
const KEY: &str = "!";

const MAKE_VARIETY: &str =
    "INSERT INTO varieties (id, kind_id, name, name_key, species, root_id, made_at, version, blind)
    VALUES ($1, $2, $3, $4, '', $1, $5, 1, TRUE) ON CONFLICT (kind_id, name_key) DO NOTHING";
const VARIETY_ID: &str = "SELECT id FROM varieties WHERE kind_id = $1 AND name_key = $2";
const MAKE_SOURCE: &str = "INSERT INTO sources (id, name, name_key, sort, root_id, made_at, version, blind)
    VALUES ($1, $2, $3, 'swap', $1, $4, 1, TRUE) ON CONFLICT (name_key) DO NOTHING";
const SOURCE_ID: &str = "SELECT id FROM sources WHERE name_key = $1";
const MAKE_LOT: &str = "INSERT INTO lots (id, variety_id, source_id, year, code, code_key, pollination,
      doubtful_cross, made_at) VALUES ($1, $2, $3, 0, $4, $1, '', FALSE, $5)";
const OPEN: &str =
    "UPDATE packets SET lot_id = $3, given_from = $4, version = version + 1, lot_changes = lot_changes + 1
    WHERE id = $1 AND lot_id = $2";

pub(super) const ALL: &[&str] = &[MAKE_VARIETY, VARIETY_ID, MAKE_SOURCE, SOURCE_ID, MAKE_LOT, OPEN];

/// A new stand-in lot of the kind; `code` is what stands in the place of the lot code.
pub async fn blind_lot(conn: &mut Conn, kind: &KindId, code: &str, now: At) -> Result<LotId, AppError> {
    conn.run(MAKE_VARIETY, args![&VarietyId::new(), kind, VARIETY, KEY, now]).await?;
    let variety: Id = conn.one(VARIETY_ID, args![kind, KEY]).await?;
    conn.run(MAKE_SOURCE, args![&SourceId::new(), SOURCE, KEY, now]).await?;
    let source: Id = conn.one(SOURCE_ID, args![KEY]).await?;
    let id = LotId::new();
    conn.run(MAKE_LOT, args![&id, variety.id.as_str(), source.id.as_str(), code, now]).await?;
    Ok(id)
}

/// Moves a blind packet to the lot and the packet it came from.
pub async fn open_blind(
    conn: &mut Conn,
    packet: &PacketId,
    blind: &LotId,
    lot: &LotId,
    from: &PacketId,
) -> Result<(), AppError> {
    conn.run(OPEN, args![packet, blind, lot, from]).await?;
    Ok(())
}
