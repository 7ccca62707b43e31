use super::find_or_make_lot;
use crate::args;
use crate::db::ids::{At, LotId, MemberId, PacketId, TrialId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::marks;
use crate::notebook::{About, Act, packet as ledger};
use crate::stock::model::{Details, NewPacket, Packet};
use crate::stock::promises::holds;
use crate::web::words;

macro_rules! select {
    ($rest:literal) => {
        concat!(
            "SELECT p.id, p.owner_id, p.mark, p.balance, p.rough, p.place, p.state, p.seeds_per_gram, p.received_on,
              p.through, p.note, p.given_from, p.lot_id, l.year, l.code, l.parent_packet, l.pollination,
              l.doubtful_cross, v.kind_id, k.name AS kind, v.id AS variety_id, v.name AS variety, v.species,
              vr.name AS counts_as, s.id AS source_id, s.name AS source, s.sort AS source_sort,
              sr.name AS source_counts_as, v.blind,
              (SELECT CAST(COALESCE(SUM(r.seeds), 0) AS BIGINT) FROM promises r WHERE r.packet_id = p.id AND ",
            holds!(),
            ") AS promised
            FROM packets p JOIN lots l ON l.id = p.lot_id JOIN varieties v ON v.id = l.variety_id
            JOIN kinds k ON k.id = v.kind_id JOIN varieties vr ON vr.id = v.root_id
            JOIN sources s ON s.id = l.source_id JOIN sources sr ON sr.id = s.root_id ",
            $rest
        )
    };
}
const ONE: &str = select!("WHERE p.id = $1 AND p.owner_id = $2");
const ANY: &str = select!("WHERE p.id = $1");
const OWN: &str = select!("WHERE p.owner_id = $1 ORDER BY p.made_at, p.id");
const AFTER: &str = select!("WHERE p.owner_id = $1 AND p.id > $2 ORDER BY p.id LIMIT $3");
const CHILDREN: &str = select!("WHERE l.parent_packet = $1 ORDER BY p.made_at, p.id LIMIT 200");
const INSERT: &str =
    "INSERT INTO packets (id, lot_id, owner_id, mark_key, mark, place, received_on, seeds_per_gram,
      state, rough, through, given_from, note, balance, made_at, version)
    VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, 0, $14, 1)";
const CHANGE: &str =
    "UPDATE packets SET lot_id = $3, place = $4, received_on = $5, seeds_per_gram = $6, state = $7,
      rough = $8, through = $9, note = $10, version = version + 1, lot_changes = lot_changes + 1 WHERE id = $1 AND owner_id = $2";
const TRIALS: &str = "SELECT t.id, t.began_at, t.seeds, r.name AS routine,
      (SELECT COUNT(*) FROM bags b WHERE b.trial_id = t.id AND NOT b.voided) AS bags
    FROM trials t JOIN routine_versions w ON w.id = t.version_id JOIN routines r ON r.id = w.routine_id
    WHERE t.packet_id = $1 AND NOT t.voided ORDER BY t.began_at DESC, t.id DESC";

const OTHERS: &str = "SELECT id, name FROM members WHERE left_at IS NULL AND id <> $1";
const SET_ROUGH: &str = "UPDATE packets SET rough = $2 WHERE id = $1";

pub(super) const ALL: &[&str] = &[ONE, ANY, OWN, AFTER, CHILDREN, INSERT, CHANGE, TRIALS, OTHERS, SET_ROUGH];

/// A packet of this member; not found where it is somebody else's.
pub async fn packet(conn: &mut Conn, member: &MemberId, id: &PacketId) -> Result<Packet, AppError> {
    conn.maybe(ONE, args![id, member]).await?.ok_or(AppError::NotFound)
}

/// A packet, whoever owns it: for what a member may know of seed that passed through their hands.
pub async fn any_packet(conn: &mut Conn, id: &PacketId) -> Result<Packet, AppError> {
    conn.maybe(ANY, args![id]).await?.ok_or(AppError::NotFound)
}

/// All packets of a member, oldest first.
pub async fn packets(conn: &mut Conn, member: &MemberId) -> Result<Vec<Packet>, AppError> {
    Ok(conn.all(OWN, args![member]).await?)
}

/// At most `most` packets of a member in the order of their ids, after the one with id `after`.
pub async fn packets_after(
    conn: &mut Conn,
    member: &MemberId,
    after: &str,
    most: i64,
) -> Result<Vec<Packet>, AppError> {
    Ok(conn.all(AFTER, args![member, after, most]).await?)
}

/// Packets of seed that was saved from plants of this one, whoever owns them.
pub async fn children(conn: &mut Conn, id: &PacketId) -> Result<Vec<Packet>, AppError> {
    Ok(conn.all(CHILDREN, args![id]).await?)
}

/// A row of a packet to be inserted into a known lot.
pub struct Row<'a> {
    pub owner: &'a MemberId,
    pub lot: &'a LotId,
    pub letters: &'a str,
    pub number: Option<i64>,
    pub given_from: Option<&'a PacketId>,
    pub details: &'a Details,
}

/// Inserts an empty packet with a mark of its own: the number asked for, refused in field `number` where it was
/// given before, or the next free one.
pub async fn insert_packet(conn: &mut Conn, new: &Row<'_>, now: At) -> Result<PacketId, AppError> {
    let id = PacketId::new();
    let mark = match new.number {
        Some(n) => marks::own_number(conn, new.owner, new.letters, n, &id.0, now).await?,
        None => marks::next_packet(conn, new.owner, new.letters, &id.0, now).await?,
    };
    insert_marked(conn, &id, &mark, new, now).await?;
    Ok(id)
}

/// Inserts an empty packet whose identity and mark were given before; number and letters do not count.
pub async fn insert_marked(
    conn: &mut Conn,
    id: &PacketId,
    mark: &marks::Mark,
    new: &Row<'_>,
    now: At,
) -> Result<(), AppError> {
    let d = new.details;
    let row = args![
        id,
        new.lot,
        new.owner,
        &mark.key,
        &mark.shown,
        &d.place,
        d.received_on,
        d.seeds_per_gram,
        &d.state,
        d.rough,
        &d.through,
        new.given_from,
        &d.note,
        now,
    ];
    conn.run(INSERT, row).await?;
    Ok(())
}

/// Adds a packet of the acting member with its lot, its mark and the first line of its ledger.
pub async fn add_packet(conn: &mut Conn, act: &Act<'_>, new: &NewPacket) -> Result<PacketId, AppError> {
    let lot = find_or_make_lot(conn, act.member, &new.naming, act.now).await?;
    let row = Row {
        owner: act.member,
        lot: &lot,
        letters: &new.letters,
        number: new.number,
        given_from: None,
        details: &new.details,
    };
    let id = insert_packet(conn, &row, act.now).await?;
    if new.seeds > 0 {
        let line = ledger::Line { sort: "received", seeds: new.seeds, other: None, note: "" };
        ledger::add(conn, act, About { packet: Some(&id), ..About::default() }, line).await?;
    }
    Ok(id)
}

/// Gives `seeds` of a packet to another member in one act: less here, a new packet and mark there, of the same
/// lot. `through` is who gave.
pub async fn give(
    conn: &mut Conn,
    act: &Act<'_>,
    from: &Packet,
    to: &MemberId,
    seeds: i64,
    through: &str,
) -> Result<PacketId, AppError> {
    if from.blind {
        return Err(AppError::refused("to", t!("stock-give-in-ring-trial")));
    }
    ledger::lock(conn, &from.id).await?;
    let letters = marks::letters(conn, to).await?;
    let letters =
        letters.first().ok_or_else(|| AppError::refused("to", t!("stock-member-without-letters")))?;
    let details = Details {
        through: through.to_owned(),
        state: from.state.clone(),
        seeds_per_gram: from.seeds_per_gram,
        rough: from.rough,
        ..Details::default()
    };
    let row = Row {
        owner: to,
        lot: &from.lot_id,
        letters: &letters.shown,
        number: None,
        given_from: Some(&from.id),
        details: &details,
    };
    let id = insert_packet(conn, &row, act.now).await?;
    pass_on(conn, act, (&from.id, &id), seeds, "").await?;
    Ok(id)
}

/// Moves `seeds` from one packet to another in the act: given here, received there.
pub async fn pass_on(
    conn: &mut Conn,
    act: &Act<'_>,
    (from, to): (&PacketId, &PacketId),
    seeds: i64,
    note: &str,
) -> Result<(), AppError> {
    let about = |packet| About { packet: Some(packet), ..About::default() };
    let less = ledger::Line { sort: "given", seeds: -seeds, other: Some(to), note };
    ledger::add(conn, act, about(from), less).await?;
    let more = ledger::Line { sort: "received", seeds, other: Some(from), note };
    ledger::add(conn, act, about(to), more).await
}

/// Changes what is known of a packet of the acting member.
pub async fn change(
    conn: &mut Conn,
    member: &MemberId,
    id: &PacketId,
    lot: &LotId,
    d: &Details,
) -> Result<(), AppError> {
    let row = args![
        id,
        member,
        lot,
        &d.place,
        d.received_on,
        d.seeds_per_gram,
        &d.state,
        d.rough,
        &d.through,
        &d.note,
    ];
    match conn.run(CHANGE, row).await? {
        1 => Ok(()),
        _ => Err(AppError::NotFound),
    }
}

/// A trial made from a packet.
#[derive(Debug, Clone, FromRow)]
pub struct Trial {
    pub id: TrialId,
    pub began_at: At,
    pub seeds: i64,
    pub routine: String,
    pub bags: i64,
}

/// The trials made from a packet, newest first.
pub async fn trials_of(conn: &mut Conn, id: &PacketId) -> Result<Vec<Trial>, AppError> {
    Ok(conn.all(TRIALS, args![id]).await?)
}

/// Another member to whom seed can be given.
#[derive(Debug, Clone, FromRow)]
pub struct Other {
    pub id: MemberId,
    pub name: String,
}

/// The members who are here, but for `member`.
pub async fn other_members(conn: &mut Conn, member: &MemberId) -> Result<Vec<Other>, AppError> {
    Ok(words::by_name(conn.all(OTHERS, args![member]).await?, |o: &Other| &o.name))
}

/// Notes whether the packet's number of seeds is a rough one.
pub async fn set_rough(conn: &mut Conn, id: &PacketId, rough: bool) -> Result<(), AppError> {
    conn.run(SET_ROUGH, args![id, rough]).await?;
    Ok(())
}
