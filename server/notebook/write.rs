use crate::args;
use crate::db::ids::{ActId, At, BagId, EntryId, MemberId, PacketId, PlantingId, TrayId, TrialId};
use crate::db::{Arg, Conn};
use crate::error::AppError;

const WRITE: &str = "INSERT INTO entries
    (id, act_id, save_key, what, packet_id, trial_id, bag_id, tray_id, planting_id, by_member, at, recorded_at, note)
    VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13)";

pub(super) const ALL: &[&str] = &[WRITE];

/// One thing a member did at one moment. Its entries stand and fall together.
#[derive(Debug, Clone)]
pub struct Act<'a> {
    pub id: ActId,
    pub member: &'a MemberId,
    /// Key of the form that was saved; several acts of one save share it.
    pub save_key: &'a str,
    /// When it happened.
    pub at: At,
    /// When it was written down.
    pub now: At,
}

impl<'a> Act<'a> {
    pub fn new(member: &'a MemberId, save_key: &'a str, at: At, now: At) -> Self {
        Self { id: ActId::new(), member, save_key, at, now }
    }
}

/// What an entry is about.
#[derive(Debug, Clone, Copy, Default)]
pub struct About<'a> {
    pub packet: Option<&'a PacketId>,
    pub trial: Option<&'a TrialId>,
    pub bag: Option<&'a BagId>,
    pub tray: Option<&'a TrayId>,
    pub planting: Option<&'a PlantingId>,
}

/// Adds an entry; its particulars follow in the table named by `what`.
pub async fn write(
    conn: &mut Conn,
    act: &Act<'_>,
    what: &str,
    about: About<'_>,
    note: &str,
) -> Result<EntryId, AppError> {
    let id = EntryId::new();
    conn.later(WRITE, row(&id, act, what, about, note)).await?;
    Ok(id)
}

/// An entry as it stands in its table, in the order of its columns.
pub fn row(id: &EntryId, act: &Act<'_>, what: &str, about: About<'_>, note: &str) -> Vec<Arg> {
    args![
        id,
        act.id.0.as_str(),
        act.save_key,
        what,
        about.packet,
        about.trial,
        about.bag,
        about.tray,
        about.planting,
        act.member,
        act.at,
        act.now,
        note,
    ]
}
