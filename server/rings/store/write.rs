use crate::args;
use crate::db::ids::{At, LotId, MemberId, PacketId, RingId, VarietyId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::marks::{self, Mark};
use crate::notebook::Act;
use crate::rings::model::{Asked, Lot, Part, Ring};
use crate::stock::model::Details;
use crate::stock::store as stock;

const MAKE: &str =
    "INSERT INTO rings (id, name, variety_id, difference, certainty, lots_each, bags, bag_seeds, made_by,
      made_at, why, version) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, '', 1)";
const ADD_LOT: &str = "INSERT INTO ring_lots (ring_id, place, packet_id) VALUES ($1, $2, $3)";
const ADD_GROWER: &str = "INSERT INTO ring_growers (ring_id, member_id) VALUES ($1, $2)";
const LOCK: &str = "UPDATE rings SET version = version + 1 WHERE id = $1 RETURNING id";
const NUMBERS: &str =
    "UPDATE rings SET difference = $2, certainty = $3, lots_each = $4, bags = $5, bag_seeds = $6
    WHERE id = $1";
const DRAWN: &str = "UPDATE rings SET drawn_at = $2, blind_lot = $3 WHERE id = $1";
const ADD_PART: &str = "INSERT INTO ring_packets (packet_id, ring_id, place, member_id, mark_key, mark)
    VALUES ($1, $2, $3, $4, $5, $6)";
const OPENED: &str = "UPDATE rings SET opened_at = $2, opened_by = $3, why = $4 WHERE id = $1";
const GIVEN_UP: &str = "UPDATE rings SET given_up_at = $2, why = $3 WHERE id = $1";

pub(super) const ALL: &[&str] =
    &[MAKE, ADD_LOT, ADD_GROWER, LOCK, NUMBERS, DRAWN, ADD_PART, OPENED, GIVEN_UP];

#[derive(FromRow)]
struct Id {
    #[sqlx(rename = "id")]
    _id: String,
}

/// The numbers of a plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Numbers {
    pub difference: i64,
    pub certainty: i64,
    pub lots_each: i64,
    pub bags: i64,
    pub bag_seeds: i64,
}

/// Keeps a new plan.
pub async fn make(
    conn: &mut Conn,
    (by, now): (&MemberId, At),
    variety: &VarietyId,
    asked: &Asked,
    n: Numbers,
) -> Result<RingId, AppError> {
    let id = RingId::new();
    let row = args![
        &id,
        &asked.name,
        variety,
        n.difference,
        n.certainty,
        n.lots_each,
        n.bags,
        n.bag_seeds,
        by,
        now
    ];
    conn.run(MAKE, row).await?;
    for (place, packet) in (0_i64..).zip(&asked.packets) {
        conn.run(ADD_LOT, args![&id, place, packet]).await?;
    }
    for grower in &asked.growers {
        conn.run(ADD_GROWER, args![&id, grower]).await?;
    }
    Ok(id)
}

/// Locks the ring trial until the transaction ends; gives it as it then stands.
pub async fn lock(conn: &mut Conn, id: &RingId) -> Result<Ring, AppError> {
    let locked: Option<Id> = conn.maybe(LOCK, args![id]).await?;
    if locked.is_none() {
        return Err(AppError::NotFound);
    }
    super::ring(conn, id).await
}

pub async fn set_numbers(conn: &mut Conn, id: &RingId, n: Numbers) -> Result<(), AppError> {
    let row = args![id, n.difference, n.certainty, n.lots_each, n.bags, n.bag_seeds];
    conn.run(NUMBERS, row).await?;
    Ok(())
}

/// Which lots (by place) a grower gets, in the order of their marks.
pub struct Drawn {
    pub member: MemberId,
    pub places: Vec<usize>,
}

/// Gives every lot of every grower its blind mark: the grower's next numbers, in the order drawn.
pub async fn put_drawn(conn: &mut Conn, ring: &Ring, drawn: &[Drawn], now: At) -> Result<(), AppError> {
    let blind = stock::blind_lot(conn, &ring.kind_id, &ring.name, now).await?;
    for d in drawn {
        let letters = marks::letters(conn, &d.member).await?;
        let letters = letters.first().ok_or_else(|| AppError::refused("draw", t!("rings-no-letters")))?;
        for place in &d.places {
            let id = PacketId::new();
            let mark = marks::next_packet(conn, &d.member, &letters.shown, &id.0, now).await?;
            let place = i64::try_from(*place).map_err(anyhow::Error::new)?;
            let row = args![&id, &ring.id, place, &d.member, &mark.key, &mark.shown];
            conn.run(ADD_PART, row).await?;
        }
    }
    conn.run(DRAWN, args![&ring.id, now, &blind]).await?;
    Ok(())
}

/// Moves the seeds of one lot into the blind packet of one grower, as one act.
pub async fn hand_out(
    conn: &mut Conn,
    act: &Act<'_>,
    (ring, blind): (&Ring, &LotId),
    (part, from): (&Part, &Lot),
    day: chrono::NaiveDate,
) -> Result<(), AppError> {
    if !part.made {
        let details = Details {
            state: from.state.clone(),
            received_on: Some(day),
            through: format!("ring trial {}", ring.name),
            ..Details::default()
        };
        let row = stock::Row {
            owner: &part.member_id,
            lot: blind,
            letters: "",
            number: None,
            given_from: None,
            details: &details,
        };
        let mark = Mark { key: marks::fold(&part.mark), shown: part.mark.clone() };
        stock::insert_marked(conn, &part.packet_id, &mark, &row, act.now).await?;
    }
    let packets = (&from.packet_id, &part.packet_id);
    stock::pass_on(conn, act, packets, ring.seeds_each(), &format!("ring trial {}", ring.name)).await
}

/// Ends the blindness: every packet that was handed out moves to its lot.
pub async fn open(
    conn: &mut Conn,
    (ring, blind): (&Ring, &LotId),
    (lots, parts): (&[Lot], &[Part]),
    (by, now, why): (&MemberId, At, &str),
) -> Result<(), AppError> {
    for part in parts.iter().filter(|p| p.made) {
        let place = usize::try_from(part.place).map_err(anyhow::Error::new)?;
        let lot = lots.get(place).ok_or_else(|| anyhow::anyhow!("a part without its lot"))?;
        stock::open_blind(conn, &part.packet_id, blind, &lot.lot_id, &lot.packet_id).await?;
    }
    conn.run(OPENED, args![&ring.id, now, by, why]).await?;
    Ok(())
}

pub async fn give_up(conn: &mut Conn, id: &RingId, now: At, why: &str) -> Result<(), AppError> {
    conn.run(GIVEN_UP, args![id, now, why]).await?;
    Ok(())
}
