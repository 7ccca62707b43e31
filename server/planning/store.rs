use super::entry::{Named, NewLine};
use super::model::{Line, Numbers, Plan};
use crate::args;
use crate::db::Conn;
use crate::db::ids::{At, LineId, MemberId, PlanId, VarietyId};
use crate::error::{AppError, taken};
use crate::stock;

macro_rules! plan {
    ($rest:literal) => {
        concat!(
            "SELECT p.id, p.name, p.routine_id, r.name AS routine, p.bag_seeds, p.warmth_c, p.tray_rows, p.tray_cols,
              p.certainty, p.mat_bags, p.trays,
              (SELECT CAST(COALESCE(SUM(s.minutes), 0) AS BIGINT) FROM routine_steps s
                JOIN routine_versions n ON n.id = s.version_id
                WHERE n.routine_id = p.routine_id AND n.number = (SELECT MAX(m.number) FROM routine_versions m
                  WHERE m.routine_id = p.routine_id)) AS soak_minutes
            FROM plans p JOIN routines r ON r.id = p.routine_id WHERE p.owner_id = $1 ",
            $rest
        )
    };
}
const PLANS: &str = plan!("ORDER BY p.made_at DESC, p.id DESC");
const INSERT: &str =
    "INSERT INTO plans (id, owner_id, name, name_key, routine_id, bag_seeds, warmth_c, tray_rows, tray_cols,
      certainty, mat_bags, trays, made_at) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13)";
const CHANGE: &str =
    "UPDATE plans SET name = $3, name_key = $4, routine_id = $5, bag_seeds = $6, warmth_c = $7, tray_rows = $8,
      tray_cols = $9, certainty = $10, mat_bags = $11, trays = $12 WHERE id = $1 AND owner_id = $2";
const PLAN: &str = plan!("AND p.id = $2");
const LOCK_PLAN: &str = "UPDATE plans SET name = name WHERE owner_id = $1 AND id = $2";

macro_rules! line {
    ($rest:literal) => {
        concat!(
            "SELECT i.id, i.plan_id, v.id AS variety_id, v.name AS variety, k.id AS kind_id, k.name AS kind,
              s.id AS source_id, s.name AS source, i.plants, i.ready_on, i.certainty, i.raise_weeks, i.warmth_c
            FROM plan_lines i JOIN plans p ON p.id = i.plan_id
            JOIN varieties own ON own.id = i.variety_id JOIN varieties v ON v.id = own.root_id
            JOIN kinds k ON k.id = v.kind_id
            LEFT JOIN sources from_whom ON from_whom.id = i.source_id LEFT JOIN sources s ON s.id = from_whom.root_id
            WHERE i.gone_at IS NULL AND p.owner_id = $1 ",
            $rest
        )
    };
}
const LINES: &str = line!("AND i.plan_id = $2 ORDER BY i.ready_on, v.name_key, i.id");
const LINE: &str = line!("AND i.id = $2");
const INSERT_LINE: &str =
    "INSERT INTO plan_lines (id, plan_id, variety_id, source_id, plants, ready_on, made_at, version)
    VALUES ($1, $2, $3, $4, $5, $6, $7, 1)";
const CHANGE_LINE: &str =
    "UPDATE plan_lines SET plants = $2, ready_on = $3, certainty = $4, raise_weeks = $5, warmth_c = $6,
      version = version + 1 WHERE id = $1 AND gone_at IS NULL";
const LOCK: &str = "UPDATE plan_lines SET version = version WHERE id = $1 AND gone_at IS NULL";
const REMOVE: &str =
    "UPDATE plan_lines SET gone_at = $2, version = version + 1 WHERE id = $1 AND gone_at IS NULL";

pub const ALL: &[&str] =
    &[PLANS, INSERT, CHANGE, PLAN, LOCK_PLAN, LINES, LINE, INSERT_LINE, CHANGE_LINE, LOCK, REMOVE];

/// The member's plans, the newest first.
pub async fn plans(conn: &mut Conn, member: &MemberId) -> Result<Vec<Plan>, AppError> {
    Ok(conn.all(PLANS, args![member]).await?)
}

/// Makes a plan of the member's with these values; its id is ignored.
pub async fn make(conn: &mut Conn, member: &MemberId, plan: &Plan, now: At) -> Result<PlanId, AppError> {
    let id = PlanId::new();
    let mut row = values(&id, member, plan);
    row.extend(args![now]);
    taken(conn.run(INSERT, row).await, "name", t!("planning-name-taken"))?;
    Ok(id)
}

/// A plan of the member's, held for the rest of the transaction.
pub async fn lock_plan(conn: &mut Conn, member: &MemberId, id: &PlanId) -> Result<Plan, AppError> {
    conn.run(LOCK_PLAN, args![member, id]).await?;
    conn.maybe(PLAN, args![member, id]).await?.ok_or(AppError::NotFound)
}

/// Changes a plan of the member's to these values.
pub async fn change(conn: &mut Conn, member: &MemberId, plan: &Plan) -> Result<(), AppError> {
    match taken(conn.run(CHANGE, values(&plan.id, member, plan)).await, "name", t!("planning-name-taken"))? {
        1 => Ok(()),
        _ => Err(AppError::NotFound),
    }
}

fn values(id: &PlanId, member: &MemberId, p: &Plan) -> Vec<crate::db::Arg> {
    args![
        id,
        member,
        &p.name,
        stock::names::key(&p.name),
        &p.routine_id,
        p.bag_seeds,
        p.warmth_c,
        p.tray_rows,
        p.tray_cols,
        p.certainty,
        p.mat_bags,
        p.trays,
    ]
}

/// The lines of a plan of the member's, by the day they should be ready.
pub async fn lines(conn: &mut Conn, member: &MemberId, plan: &PlanId) -> Result<Vec<Line>, AppError> {
    Ok(conn.all(LINES, args![member, plan]).await?)
}

/// A line of the member's that is not taken off.
pub async fn line(conn: &mut Conn, member: &MemberId, id: &LineId) -> Result<Line, AppError> {
    conn.maybe(LINE, args![member, id]).await?.ok_or(AppError::NotFound)
}

/// [`line`], held for the rest of the transaction.
pub async fn lock(conn: &mut Conn, member: &MemberId, id: &LineId) -> Result<Line, AppError> {
    conn.run(LOCK, args![id]).await?;
    line(conn, member, id).await
}

/// Adds lines to a plan; varieties that are new are made.
pub async fn add(conn: &mut Conn, plan: &PlanId, new: &[NewLine], now: At) -> Result<(), AppError> {
    for line in new {
        let variety: VarietyId = match &line.variety {
            Named::Known(id) => id.clone(),
            Named::New { kind, name } => stock::store::find_or_make_variety(conn, kind, name, now).await?,
        };
        let source = line.source.as_ref();
        let row = args![&LineId::new(), plan, &variety, source, line.plants, line.ready_on, now];
        conn.run(INSERT_LINE, row).await?;
    }
    Ok(())
}

/// Changes the numbers of a line that is locked.
pub async fn change_line(conn: &mut Conn, id: &LineId, n: &Numbers) -> Result<(), AppError> {
    conn.run(CHANGE_LINE, args![id, n.plants, n.ready_on, n.certainty, n.raise_weeks, n.warmth_c]).await?;
    Ok(())
}

/// Takes a line off its plan.
pub async fn remove(conn: &mut Conn, id: &LineId, now: At) -> Result<(), AppError> {
    conn.run(REMOVE, args![id, now]).await?;
    Ok(())
}
