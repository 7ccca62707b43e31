use super::Fault;
use crate::args;
use crate::db::Conn;
use crate::error::AppError;

macro_rules! faults {
    ($from:literal) => {
        concat!(
            "SELECT COALESCE(b.mark, p.mark, y.mark, '(no mark)') AS mark, e.what, e.at
            FROM entries e LEFT JOIN bags b ON b.id = e.bag_id LEFT JOIN trials t ON t.id = e.trial_id
            LEFT JOIN packets p ON p.id = COALESCE(e.packet_id, t.packet_id) LEFT JOIN trays y ON y.id = e.tray_id ",
            $from,
            " ORDER BY e.at, e.id LIMIT 200"
        )
    };
}

const HALF_VOIDED: &str = faults!(
    "WHERE NOT EXISTS (SELECT 1 FROM voids v WHERE v.entry_id = e.id)
       AND EXISTS (SELECT 1 FROM entries o JOIN voids v ON v.entry_id = o.id WHERE o.act_id = e.act_id)"
);
const VOIDED_BEFORE: &str = faults!("JOIN voids v ON v.entry_id = e.id WHERE v.at < e.recorded_at");
const WITHOUT_REASON: &str = faults!("JOIN voids v ON v.entry_id = e.id WHERE TRIM(v.why) = ''");
const PARTICULARS: &str = faults!(
    "LEFT JOIN (SELECT entry_id, 'ledger' AS name FROM ledger
       UNION ALL SELECT entry_id, 'trial seeds' FROM trial_seeds
       UNION ALL SELECT entry_id, 'float tally' FROM float_tallies
       UNION ALL SELECT entry_id, 'step' FROM steps_done
       UNION ALL SELECT entry_id, 'trial event' FROM trial_events
       UNION ALL SELECT entry_id, 'look' FROM looks
       UNION ALL SELECT entry_id, 'closing' FROM closings
       UNION ALL SELECT entry_id, 'bag seeds' FROM bag_seeds
       UNION ALL SELECT entry_id, 'bag event' FROM bag_events
       UNION ALL SELECT entry_id, 'rooted end' FROM rooted_ends
       UNION ALL SELECT entry_id, 'outcome' FROM outcomes) d ON d.entry_id = e.id
     WHERE e.what <> 'planting' AND (d.name IS NULL OR d.name <> e.what)"
);

pub(super) const ALL: &[&str] = &[HALF_VOIDED, VOIDED_BEFORE, WITHOUT_REASON, PARTICULARS];

/// I7: entries of one act stand and fall together; a void has its reason; no entry lost its particulars.
pub(super) async fn all(conn: &mut Conn) -> Result<Vec<String>, AppError> {
    let rules = [
        (HALF_VOIDED, "stands, though others of the same act are voided"),
        (VOIDED_BEFORE, "was voided before it was written down"),
        (WITHOUT_REASON, "was voided without a reason"),
        (PARTICULARS, "lost its particulars or has some of another sort"),
    ];
    let mut found = Vec::new();
    for (sql, why) in rules {
        let faults: Vec<Fault> = conn.all(sql, args![]).await?;
        found.extend(faults.iter().map(|f| f.says("I7", why)));
    }
    Ok(found)
}
