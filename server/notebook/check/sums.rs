use super::{Rows, differing};
use crate::db::ids::{BagId, PacketId, TrialId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::notebook::{bag, packet, trial};

const PACKETS: &str = "SELECT id, mark, balance AS n FROM packets
    WHERE id > $1 ORDER BY id LIMIT $2";
const TRIALS: &str =
    "SELECT t.id, p.mark, t.voided, t.seeds, t.soaking, t.thrown_out, t.lost, t.returned, t.step,
      t.step_at, t.sank, t.floated, t.floaters,
      (SELECT CAST(COALESCE(SUM(l.seeds), 0) AS BIGINT) FROM entries e JOIN ledger l ON l.entry_id = e.id
        WHERE e.trial_id = t.id AND l.sort = 'taken'
          AND NOT EXISTS (SELECT 1 FROM voids v WHERE v.entry_id = e.id)) AS from_packet,
      (SELECT CAST(COALESCE(SUM(s.seeds), 0) AS BIGINT) FROM entries e JOIN trial_seeds s ON s.entry_id = e.id
        WHERE e.trial_id = t.id AND s.sort = 'taken'
          AND NOT EXISTS (SELECT 1 FROM voids v WHERE v.entry_id = e.id)) AS taken,
      (SELECT CAST(COALESCE(SUM(s.seeds), 0) AS BIGINT) FROM bags b JOIN entries e ON e.bag_id = b.id
        JOIN bag_seeds s ON s.entry_id = e.id
        WHERE b.trial_id = t.id AND s.sort IN ('on paper', 'recount')
          AND NOT EXISTS (SELECT 1 FROM voids v WHERE v.entry_id = e.id)) AS in_bags
    FROM trials t JOIN packets p ON p.id = t.packet_id WHERE t.id > $1 ORDER BY t.id LIMIT $2";
const BAGS: &str =
    "SELECT id, mark, voided, seeds, rooted, abnormal, dead, fresh, hard, not_examined, lost, sown_unrooted,
      moved_out, moved_in, on_paper, ended, findings, on_paper_at, looked_at, closed_at, ending, weekly, in_doubt, place, warmth_c,
      holder_id, owner_id
    FROM bags WHERE id > $1 ORDER BY id LIMIT $2";

pub(super) const ALL: &[&str] = &[PACKETS, TRIALS, BAGS];

#[derive(FromRow)]
struct Packet {
    id: String,
    mark: String,
    n: i64,
}

#[derive(FromRow)]
struct Trial {
    id: String,
    mark: String,
    voided: bool,
    seeds: i64,
    soaking: i64,
    thrown_out: i64,
    lost: i64,
    returned: i64,
    step: i64,
    step_at: i64,
    sank: Option<i64>,
    floated: Option<i64>,
    floaters: String,
    from_packet: i64,
    taken: i64,
    in_bags: i64,
}

#[derive(FromRow)]
struct Bag {
    id: String,
    mark: String,
    voided: bool,
    seeds: i64,
    rooted: i64,
    abnormal: i64,
    dead: i64,
    fresh: i64,
    hard: i64,
    not_examined: i64,
    lost: i64,
    sown_unrooted: i64,
    moved_out: i64,
    moved_in: i64,
    on_paper: i64,
    ended: i64,
    findings: String,
    on_paper_at: i64,
    looked_at: Option<i64>,
    closed_at: Option<i64>,
    ending: String,
    weekly: bool,
    in_doubt: bool,
    place: String,
    warmth_c: Option<f64>,
    holder_id: Option<String>,
    owner_id: String,
}

/// I1: a kept balance that is not the sum of its ledger, or below zero.
pub(super) async fn packets(conn: &mut Conn) -> Result<Vec<String>, AppError> {
    let mut found = Vec::new();
    let mut rows = Rows::of(PACKETS, |p: &Packet| &p.id);
    while let Some(kept) = rows.next(conn).await? {
        for p in kept {
            let sum = packet::sum(conn, &PacketId(p.id)).await?;
            if sum != p.n || sum < 0 {
                found.push(format!("I1 packet {}: the ledger says {sum}, the balance {}", p.mark, p.n));
            }
        }
    }
    Ok(found)
}

/// I2: seeds of a trial that are not all somewhere, or not where its packet and bags say.
pub(super) async fn trials(conn: &mut Conn) -> Result<Vec<String>, AppError> {
    let mut found = Vec::new();
    let mut rows = Rows::of(TRIALS, |t: &Trial| &t.id);
    while let Some(kept) = rows.next(conn).await? {
        for t in kept {
            found.extend(of_trial(conn, &t).await?);
        }
    }
    Ok(found)
}

async fn of_trial(conn: &mut Conn, t: &Trial) -> Result<Vec<String>, AppError> {
    let mut found = Vec::new();
    let says = |why: String| format!("I2 trial of {}: {why}", t.mark);
    match trial::sums(conn, &TrialId(t.id.clone())).await? {
        Err(broken) => found.push(says(format!("an entry does not come out: {}", broken.why))),
        Ok(now) => {
            found.extend(differs(t, &now).into_iter().map(says));
            if now.to_paper != t.in_bags {
                let (to, there) = (now.to_paper, t.in_bags);
                found.push(says(format!("{to} seeds went to paper, its bags were given {there}")));
            }
        }
    }
    if t.taken != -t.from_packet {
        let (taken, from) = (t.taken, -t.from_packet);
        found.push(says(format!("{taken} seeds were taken, the packet gave {from}")));
    }
    Ok(found)
}

fn differs(kept: &Trial, now: &trial::Sums) -> Vec<String> {
    let fields = differing!(
        kept,
        now,
        [voided, seeds, soaking, thrown_out, lost, returned, step, step_at, sank, floated, floaters]
    );
    fields.into_iter().map(|(_, why)| why).collect()
}

/// I3, I4, I6: kept sums and moments of a bag that its entries do not give.
pub(super) async fn bags(conn: &mut Conn) -> Result<Vec<String>, AppError> {
    let mut found = Vec::new();
    let mut rows = Rows::of(BAGS, |b: &Bag| &b.id);
    while let Some(kept) = rows.next(conn).await? {
        for b in kept {
            found.extend(of_bag(conn, &b).await?);
        }
    }
    Ok(found)
}

async fn of_bag(conn: &mut Conn, b: &Bag) -> Result<Vec<String>, AppError> {
    let mut found = Vec::new();
    match bag::sums(conn, &BagId(b.id.clone())).await? {
        Err(broken) => {
            found.push(format!("I3 bag {}: an entry does not come out: {}", b.mark, broken.why));
        }
        Ok(now) => {
            let says = |(field, why): (&str, String)| format!("{} bag {}: {why}", rule(field), b.mark);
            found.extend(bag_differs(b, &now).into_iter().map(says));
        }
    }
    Ok(found)
}

fn bag_differs(kept: &Bag, now: &bag::Sums) -> Vec<(&'static str, String)> {
    [seeds_differ(kept, now), state_differs(kept, now)].concat()
}

#[rustfmt::skip]
fn seeds_differ(kept: &Bag, now: &bag::Sums) -> Vec<(&'static str, String)> {
    differing!(kept, now, [
        voided, seeds, rooted, abnormal, dead, fresh, hard, not_examined, lost, sown_unrooted, moved_out, moved_in,
        on_paper, ended, findings,
    ])
}

#[rustfmt::skip]
fn state_differs(kept: &Bag, now: &bag::Sums) -> Vec<(&'static str, String)> {
    differing!(kept, now, [
        on_paper_at, looked_at, closed_at, ending, weekly, in_doubt, place, warmth_c, holder_id, owner_id,
    ])
}

fn rule(field: &str) -> &'static str {
    match field {
        "ended" => "I4",
        "on_paper_at" | "looked_at" | "closed_at" => "I6",
        _ => "I3",
    }
}
