use super::Fault;
use crate::args;
use crate::db::Conn;
use crate::error::AppError;

const NOWHERE: &str = "SELECT m.name AS mark, 'save (' || o.action || ')' AS what, o.at
    FROM once o JOIN members m ON m.id = o.member_id WHERE o.location = '' ORDER BY o.at, o.key LIMIT 200";
const OF_ANOTHER: &str = "SELECT COALESCE(b.mark, p.mark, '(no mark)') AS mark, e.what, e.at
    FROM entries e JOIN once o ON o.key = e.save_key
    LEFT JOIN bags b ON b.id = e.bag_id LEFT JOIN packets p ON p.id = e.packet_id
    WHERE o.member_id <> e.by_member ORDER BY e.at, e.id LIMIT 200";
const TWICE: &str = "SELECT MIN(b.mark) AS mark, 'look' AS what, e.at
    FROM entries e JOIN once o ON o.key = e.save_key JOIN bags b ON b.id = e.bag_id
    WHERE e.what = 'look' AND NOT EXISTS (SELECT 1 FROM voids v WHERE v.entry_id = e.id)
    GROUP BY e.save_key, e.bag_id, e.at HAVING COUNT(*) > 1 ORDER BY e.at, e.bag_id LIMIT 200";

pub(super) const ALL: &[&str] = &[NOWHERE, OF_ANOTHER, TWICE];

/// I8: a request counts once. The key itself is unique in the table; here, that it led somewhere, that its
/// entries are its sender's, and that no bag was looked at twice by it.
pub(super) async fn all(conn: &mut Conn) -> Result<Vec<String>, AppError> {
    let rules = [
        (NOWHERE, "led nowhere"),
        (OF_ANOTHER, "is of another member than the save it came with"),
        (TWICE, "stands twice from one save"),
    ];
    let mut found = Vec::new();
    for (sql, why) in rules {
        let faults: Vec<Fault> = conn.all(sql, args![]).await?;
        found.extend(faults.iter().map(|f| f.says("I8", why)));
    }
    Ok(found)
}
