use super::Fault;
use crate::args;
use crate::db::Conn;
use crate::db::ids::At;
use crate::error::AppError;

const PAPER_BEFORE_TRIAL: &str = "SELECT b.mark, 'paper' AS what, b.on_paper_at AS at
    FROM bags b JOIN trials t ON t.id = b.trial_id
    WHERE NOT b.voided AND b.on_paper_at < t.began_at ORDER BY b.mark_key LIMIT 200";
const LOOK_BEFORE_PAPER: &str = "SELECT b.mark, e.what, e.at FROM entries e JOIN bags b ON b.id = e.bag_id
    WHERE NOT b.voided AND e.what IN ('look', 'closing') AND e.at < b.on_paper_at
      AND NOT EXISTS (SELECT 1 FROM voids v WHERE v.entry_id = e.id)
    ORDER BY b.mark_key, e.at, e.id LIMIT 200";
const LOOK_AFTER_CLOSING: &str = "SELECT b.mark, e.what, e.at FROM entries e JOIN bags b ON b.id = e.bag_id
    WHERE NOT b.voided AND e.what = 'look' AND e.at > b.closed_at
      AND NOT EXISTS (SELECT 1 FROM voids v WHERE v.entry_id = e.id)
    ORDER BY b.mark_key, e.at, e.id LIMIT 200";
const IN_THE_FUTURE: &str = "SELECT COALESCE(b.mark, p.mark, y.mark, '(no mark)') AS mark, e.what, e.at
    FROM entries e LEFT JOIN bags b ON b.id = e.bag_id LEFT JOIN trials t ON t.id = e.trial_id
    LEFT JOIN packets p ON p.id = COALESCE(e.packet_id, t.packet_id) LEFT JOIN trays y ON y.id = e.tray_id
    WHERE (e.at > e.recorded_at OR e.recorded_at > $1)
      AND NOT EXISTS (SELECT 1 FROM voids v WHERE v.entry_id = e.id)
    ORDER BY e.at, e.id LIMIT 200";

pub(super) const ALL: &[&str] = &[PAPER_BEFORE_TRIAL, LOOK_BEFORE_PAPER, LOOK_AFTER_CLOSING, IN_THE_FUTURE];

/// I6: began <= on paper <= looks <= closed, and nothing later than it was written down.
pub(super) async fn all(conn: &mut Conn, now: At) -> Result<Vec<String>, AppError> {
    let rules = [
        (PAPER_BEFORE_TRIAL, args![], "is before the trial began"),
        (LOOK_BEFORE_PAPER, args![], "is before the bag was on paper"),
        (LOOK_AFTER_CLOSING, args![], "is after the bag was closed"),
        (IN_THE_FUTURE, args![now], "lies in the future of its writing down, or of now"),
    ];
    let mut found = Vec::new();
    for (sql, args, why) in rules {
        let faults: Vec<Fault> = conn.all(sql, args).await?;
        found.extend(faults.iter().map(|f| f.says("I6", why)));
    }
    Ok(found)
}
