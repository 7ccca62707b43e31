//! Seeds that a plan counts on. A promise ends when its trial starts or when it is withdrawn; it holds again where the
//! start was taken back.

use crate::args;
use crate::db::ids::{At, LineId, MemberId, PacketId, PlanId, PromiseId, RoutineId, TrialId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use chrono::NaiveDate;
use std::collections::BTreeMap;

/// Whether the promise `r` holds.
macro_rules! holds {
    () => {
        "(r.how = '' OR (r.how = 'started' AND EXISTS (SELECT 1 FROM trials x WHERE x.id = r.trial_id AND x.voided)))"
    };
}
pub(super) use holds;

macro_rules! select {
    ($($rest:tt)*) => {
        concat!(
            "SELECT r.id, r.line_id, r.packet_id, p.mark, p.balance, v.name AS variety, r.seeds, r.start_on, r.trial_id, s.routine_id,
              CASE WHEN ",
            holds!(),
            " THEN '' ELSE r.how END AS how
            FROM promises r JOIN packets p ON p.id = r.packet_id JOIN lots l ON l.id = p.lot_id
            JOIN varieties v ON v.id = l.variety_id JOIN plan_lines i ON i.id = r.line_id JOIN plans s ON s.id = i.plan_id
            ",
            $($rest)*
        )
    };
}

const OPEN: &str = select!("WHERE r.owner_id = $1 AND ", holds!(), " ORDER BY r.start_on, p.mark_key, r.id");
const ONE: &str = select!("WHERE r.owner_id = $1 AND r.id = $2");
const OF_PLAN: &str = select!("WHERE i.plan_id = $1 ORDER BY r.line_id, r.id");
const OF_PACKET: &str = select!("WHERE r.packet_id = $1 AND ", holds!(), " ORDER BY r.start_on, r.id");
const MAKE: &str = "INSERT INTO promises (id, line_id, packet_id, owner_id, seeds, start_on, made_at, how)
    VALUES ($1, $2, $3, $4, $5, $6, $7, '')";
const KEEP: &str = concat!(
    "UPDATE promises AS r SET how = 'started', trial_id = $2, ended_at = $3
    WHERE r.id = $1 AND r.owner_id = $4 AND r.packet_id = $5 AND ",
    holds!()
);
const WITHDRAW: &str = concat!(
    "UPDATE promises AS r SET how = 'withdrawn', trial_id = NULL, ended_at = $2 WHERE r.line_id = $1 AND ",
    holds!()
);

pub const ALL: &[&str] = &[OPEN, ONE, OF_PLAN, OF_PACKET, MAKE, KEEP, WITHDRAW];

/// Seeds of one packet promised for one line of a plan.
#[derive(Debug, Clone, FromRow)]
pub struct Promise {
    pub id: PromiseId,
    pub line_id: LineId,
    pub packet_id: PacketId,
    pub mark: String,
    /// Seeds that the packet holds.
    pub balance: i64,
    pub variety: String,
    pub seeds: i64,
    pub start_on: NaiveDate,
    /// The trial that kept it; a voided one where it holds again.
    pub trial_id: Option<TrialId>,
    /// The routine that the plan reckons with.
    pub routine_id: RoutineId,
    /// Empty while it holds, else `started` or `withdrawn`.
    pub how: String,
}

impl Promise {
    pub fn holds(&self) -> bool {
        self.how.is_empty()
    }

    pub fn is_started(&self) -> bool {
        self.how == "started"
    }

    /// Where its trial is started.
    pub fn start_path(&self) -> String {
        format!("/trials/new?packet={}&promise={}", self.packet_id, self.id)
    }

    pub fn line_path(&self) -> String {
        format!("/plan/lines/{}", self.line_id)
    }
}

/// `40 seeds, 24 promised`; what is promised beyond the balance is said as short.
pub fn beside(left: &str, balance: i64, promised: i64) -> String {
    match (promised, promised - balance) {
        (0, _) => left.to_owned(),
        (_, short @ 1..) => t!("stock-left-promised-and-short", left = left, n = promised, short = short),
        _ => t!("stock-left-and-promised", left = left, n = promised),
    }
}

/// Seeds that the packets can give to each of a member's promises that hold, the first to start served first.
pub fn gives(open: &[Promise]) -> BTreeMap<PromiseId, i64> {
    let mut order: Vec<&Promise> = open.iter().collect();
    order.sort_by_key(|r| r.start_on);
    let mut left: BTreeMap<&PacketId, i64> = BTreeMap::new();
    let mut given = BTreeMap::new();
    for r in order {
        let held = left.entry(&r.packet_id).or_insert(r.balance);
        let seeds = r.seeds.min(*held).max(0);
        *held -= seeds;
        given.insert(r.id.clone(), seeds);
    }
    given
}

/// `24 seeds of JB 42`, or `5 of 93 seeds of JB 42, 88 short` where the packet can give 5.
pub fn given(promise: &Promise, gives: i64) -> String {
    let (seeds, mark) = (promise.seeds, &promise.mark);
    match seeds - gives {
        short @ 1.. => t!("stock-gives-short", gives = gives, n = seeds, mark = mark, short = short),
        _ => t!("stock-gives", n = seeds, mark = mark),
    }
}

/// The member's promises that hold, by the day they start on.
pub async fn open(conn: &mut Conn, member: &MemberId) -> Result<Vec<Promise>, AppError> {
    Ok(conn.all(OPEN, args![member]).await?)
}

/// Every promise ever made for the lines of a plan.
pub async fn of_plan(conn: &mut Conn, plan: &PlanId) -> Result<Vec<Promise>, AppError> {
    Ok(conn.all(OF_PLAN, args![plan]).await?)
}

/// The promises of a packet that hold.
pub async fn of_packet(conn: &mut Conn, packet: &PacketId) -> Result<Vec<Promise>, AppError> {
    Ok(conn.all(OF_PACKET, args![packet]).await?)
}

/// A promise to be made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct New {
    pub packet: PacketId,
    /// At least 1.
    pub seeds: i64,
    pub start_on: NaiveDate,
}

/// Promises seeds of the member's packet for a line of theirs.
pub async fn make(
    conn: &mut Conn,
    member: &MemberId,
    line: &LineId,
    new: &New,
    now: At,
) -> Result<(), AppError> {
    let row = args![&PromiseId::new(), line, &new.packet, member, new.seeds, new.start_on, now];
    conn.run(MAKE, row).await?;
    Ok(())
}

/// A promise of the member's, whether it holds or not.
pub async fn find(conn: &mut Conn, member: &MemberId, id: &PromiseId) -> Result<Option<Promise>, AppError> {
    Ok(conn.maybe(ONE, args![member, id]).await?)
}

/// The trial, of this packet of the member's, keeps the promise; whether it did. A promise that ended meanwhile, or is
/// not the member's, stays as it is.
pub async fn keep(
    conn: &mut Conn,
    member: &MemberId,
    (promise, packet): (&PromiseId, &PacketId),
    trial: &TrialId,
    now: At,
) -> Result<bool, AppError> {
    Ok(conn.run(KEEP, args![promise, trial, now, member, packet]).await? == 1)
}

/// Withdraws what is promised for a line.
pub async fn withdraw(conn: &mut Conn, line: &LineId, now: At) -> Result<(), AppError> {
    conn.run(WITHDRAW, args![line, now]).await?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn promise(id: &str, (packet, balance): (&str, i64), seeds: i64, start: &str) -> Promise {
        Promise {
            id: PromiseId(id.into()),
            line_id: LineId("line".into()),
            packet_id: PacketId(packet.into()),
            mark: packet.into(),
            balance,
            variety: "Kestrel".into(),
            seeds,
            start_on: start.parse().unwrap(),
            trial_id: None,
            routine_id: RoutineId("plain".into()),
            how: String::new(),
        }
    }

    #[test]
    fn a_packet_gives_no_more_than_it_holds_and_the_first_start_is_served_first() {
        let open = [
            promise("late", ("AM 6", 7), 5, "2026-03-09"),
            promise("early", ("AM 6", 7), 4, "2026-03-02"),
            promise("last", ("AM 6", 7), 2, "2026-03-16"),
            promise("other", ("AM 9", 5), 5, "2026-03-02"),
        ];
        let gives = gives(&open);
        let told: Vec<String> = open.iter().map(|r| given(r, gives[&r.id])).collect();
        assert_eq!(
            told,
            [
                "3 of 5 seeds of AM 6, 2 short",
                "4 seeds of AM 6",
                "0 of 2 seeds of AM 6, 2 short",
                "5 seeds of AM 9"
            ]
        );
    }

    #[test]
    fn what_is_promised_stands_beside_the_balance() {
        assert_eq!(beside("40 seeds", 40, 0), "40 seeds");
        assert_eq!(beside("40 seeds", 40, 24), "40 seeds, 24 promised");
        assert_eq!(beside("about 40 seeds", 40, 64), "about 40 seeds, 64 promised: 24 short");
    }
}
