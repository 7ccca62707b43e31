//! Rows in bulk: one INSERT of many rows at a time, with the same text on both engines.

use crate::db::{Arg, Conn};
use crate::error::AppError;
use std::sync::LazyLock;

/// Rows of one statement: each parameter is looked up by its name among all others, so that more are slower.
const MANY: usize = 16;
/// So many rows of one table are held back before all are written.
const HELD: usize = 1000;

/// The tables, each after those that its rows name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Table {
    Marks,
    Packets,
    Trials,
    Bags,
    Trays,
    Plantings,
    TrayCells,
    Entries,
    Ledger,
    TrialSeeds,
    FloatTallies,
    StepsDone,
    Looks,
    Closings,
    BagSeeds,
    BagEvents,
    RootedEnds,
    Outcomes,
}

const COLUMNS: [(&str, &str); 18] = [
    ("marks", "key, shown, thing, thing_id, made_at"),
    (
        "packets",
        "id, lot_id, owner_id, mark_key, mark, place, state, rough, through, note, balance, made_at, version",
    ),
    (
        "trials",
        "id, packet_id, owner_id, version_id, began_at, voided, treated_again, seeds, soaking, thrown_out, lost, \
         returned, step, step_at, sank, floated, floaters, version",
    ),
    (
        "bags",
        "id, trial_id, owner_id, mark_key, mark, floaters, on_paper_at, place, warmth_c, weekly, in_doubt, voided, \
         seeds, rooted, abnormal, dead, fresh, hard, not_examined, lost, sown_unrooted, moved_out, moved_in, \
         on_paper, ended, findings, looked_at, closed_at, ending, version",
    ),
    ("trays", "id, owner_id, mark_key, mark, name, tray_rows, tray_cols, place, made_at, version"),
    (
        "plantings",
        "id, tray_id, cell, bag_id, unrooted, planted_at, voided, seeds, up, lost, thinned, potted, ended_at, end_why",
    ),
    ("tray_cells", "tray_id, cell, planting_id"),
    (
        "entries",
        "id, act_id, save_key, what, packet_id, trial_id, bag_id, tray_id, planting_id, by_member, at, recorded_at, \
         note",
    ),
    ("ledger", "entry_id, sort, seeds"),
    ("trial_seeds", "entry_id, sort, seeds"),
    ("float_tallies", "entry_id, sank, floated, floaters"),
    ("steps_done", "entry_id, position, skipped, began_at, percent"),
    ("looks", "entry_id, rooted, abnormal, dead"),
    ("closings", "entry_id, ending, fresh, hard, dead, abnormal, not_examined, lost"),
    ("bag_seeds", "entry_id, sort, seeds"),
    ("bag_events", "entry_id, sort, place, warmth_c"),
    ("rooted_ends", "entry_id, sort, seeds"),
    ("outcomes", "entry_id, sort, seeds, why"),
];

struct Insert {
    one: String,
    many: String,
    columns: usize,
}

static INSERTS: LazyLock<Vec<Insert>> = LazyLock::new(|| {
    let insert = |(table, columns): (&str, &str)| {
        let width = columns.split(',').count();
        let text = |rows| format!("INSERT INTO {table} ({columns}) VALUES {}", values(rows, width));
        Insert { one: text(1), many: text(MANY), columns: width }
    };
    COLUMNS.into_iter().map(insert).collect()
});

/// `($1, $2), ($3, $4)`.
fn values(rows: usize, columns: usize) -> String {
    let row = |r: usize| {
        let places: Vec<String> = (1..=columns).map(|c| format!("${}", r * columns + c)).collect();
        format!("({})", places.join(", "))
    };
    (0..rows).map(row).collect::<Vec<_>>().join(", ")
}

pub fn all_sql() -> Vec<&'static str> {
    INSERTS.iter().flat_map(|i| [i.one.as_str(), i.many.as_str()]).collect()
}

/// Rows that wait to be written.
#[derive(Debug, Default)]
pub struct Rows {
    held: [Vec<Arg>; COLUMNS.len()],
}

impl Rows {
    /// Holds back a row: its columns in the order of [`COLUMNS`].
    pub fn put(&mut self, table: Table, row: Vec<Arg>) {
        self.held[table as usize].extend(row);
    }

    /// Writes what is held back once there is enough of it.
    pub async fn write_some(&mut self, conn: &mut Conn) -> Result<(), AppError> {
        let entries = Table::Entries as usize;
        if self.held[entries].len() < HELD * INSERTS[entries].columns {
            return Ok(());
        }
        self.write(conn).await
    }

    /// Writes all that is held back.
    pub async fn write(&mut self, conn: &mut Conn) -> Result<(), AppError> {
        for (held, insert) in self.held.iter_mut().zip(INSERTS.iter()) {
            let mut rows = std::mem::take(held).into_iter().peekable();
            while rows.len() >= MANY * insert.columns {
                conn.run(&insert.many, rows.by_ref().take(MANY * insert.columns).collect()).await?;
            }
            while rows.peek().is_some() {
                conn.run(&insert.one, rows.by_ref().take(insert.columns).collect()).await?;
            }
        }
        Ok(())
    }
}
