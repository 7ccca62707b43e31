//! Jobs that one process at a time may do, also where several serve one database.

use crate::args;
use crate::db::Conn;
use crate::db::ids::At;

const TAKE: &str = "INSERT INTO leases (job, holder, until_at) VALUES ($1, $2, $3)
    ON CONFLICT (job) DO UPDATE SET holder = excluded.holder, until_at = excluded.until_at
    WHERE leases.until_at < CAST($4 AS BIGINT)";
const GIVE_BACK: &str = "UPDATE leases SET until_at = 0 WHERE job = $1 AND holder = $2";

pub const ALL: &[&str] = &[TAKE, GIVE_BACK];

/// Takes `job` until `until` at most, unless somebody else has it at `now`.
pub async fn take(conn: &mut Conn, job: &str, holder: &str, now: At, until: At) -> Result<bool, sqlx::Error> {
    Ok(conn.run(TAKE, args![job, holder, until, now]).await? == 1)
}

/// Lets the next have it.
pub async fn give_back(conn: &mut Conn, job: &str, holder: &str) -> Result<(), sqlx::Error> {
    conn.run(GIVE_BACK, args![job, holder]).await.map(drop)
}
