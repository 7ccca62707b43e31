//! All that the club holds about a member, as one file: a table each, in JSON, and the photos. No secrets, no hashes.

use crate::app::App;
use crate::args;
use crate::db::FromRow;
use crate::db::ids::MemberId;
use crate::error::AppError;
use anyhow::Context;
use serde_json::{Map, Value};
use std::io::{Cursor, Write};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, ZipWriter};

/// The entries that a member made, or that are about what is theirs.
macro_rules! entries {
    ($what:literal, $columns:literal, $table:literal) => {
        (
            $what,
            concat!(
                "SELECT e.id, e.what, e.at, e.recorded_at, e.packet_id, e.trial_id, e.bag_id, e.tray_id, e.planting_id,
                   CASE WHEN e.by_member = $1 THEN 1 ELSE 0 END AS by_you,
                   CASE WHEN e.by_member = $1 THEN e.note ELSE '' END AS note,
                   CASE WHEN v.entry_id IS NULL THEN 0 ELSE 1 END AS voided, ",
                $columns,
                " FROM entries e JOIN ",
                $table,
                " d ON d.entry_id = e.id LEFT JOIN voids v ON v.entry_id = e.id
                 WHERE e.by_member = $1
                   OR e.packet_id IN (SELECT id FROM packets WHERE owner_id = $1)
                   OR e.trial_id IN (SELECT id FROM trials WHERE owner_id = $1)
                   OR e.bag_id IN (SELECT id FROM bags WHERE owner_id = $1)
                 ORDER BY e.id"
            ),
        )
    };
}

/// Each table of the file: its name, and its rows for member `$1`.
const TABLES: &[(&str, &str)] = &[
    ("account", "SELECT id, name, sign_in, role, measures, language, made_at, left_at FROM members WHERE id = $1"),
    ("letters", "SELECT shown AS letters, last_number, made_at FROM letters WHERE member_id = $1 ORDER BY made_at, key"),
    (
        "signed in",
        "SELECT device, made_at, seen_at, expires_at, proved_at, CASE WHEN by_passkey THEN 1 ELSE 0 END AS by_passkey
         FROM sessions WHERE member_id = $1
         ORDER BY made_at, token_hash",
    ),
    ("known browsers", "SELECT made_at, used_at FROM devices WHERE member_id = $1 ORDER BY made_at, secret_hash"),
    ("passkeys", "SELECT name, made_at, used_at FROM passkeys WHERE member_id = $1 ORDER BY made_at, id"),
    (
        "tokens",
        "SELECT name, may, made_at, expires_at, used_at, ended_at FROM tokens WHERE member_id = $1
         ORDER BY made_at, id",
    ),
    ("calendar", "SELECT made_at FROM feeds WHERE member_id = $1 ORDER BY made_at"),
    (
        "links",
        "SELECT purpose, role, made_at, expires_at, used_at FROM links
         WHERE member_id = $1 OR made_by = $1 OR used_by = $1 ORDER BY made_at, id",
    ),
    (
        "record",
        "SELECT at, what, more, CASE WHEN by_member = $1 THEN 1 ELSE 0 END AS by_you FROM audit
         WHERE by_member = $1 OR about_member = $1 ORDER BY at, id",
    ),
    (
        "packets",
        "SELECT p.id, p.mark, k.name AS kind, v.name AS variety, s.name AS source, l.year, l.code AS lot_code, p.place,
           p.received_on, p.seeds_per_gram, p.state, p.rough, p.through, p.note, p.balance, p.made_at
         FROM packets p JOIN lots l ON l.id = p.lot_id JOIN varieties v ON v.id = l.variety_id
         JOIN kinds k ON k.id = v.kind_id JOIN sources s ON s.id = l.source_id WHERE p.owner_id = $1 ORDER BY p.id",
    ),
    (
        "trials",
        "SELECT t.id, t.packet_id, r.name AS routine, n.number AS routine_version, t.began_at, t.seeds, t.soaking,
           t.thrown_out, t.lost, t.returned, t.sank, t.floated, t.floaters, t.treated_again, t.voided
         FROM trials t JOIN routine_versions n ON n.id = t.version_id JOIN routines r ON r.id = n.routine_id
         WHERE t.owner_id = $1 ORDER BY t.id",
    ),
    (
        "bags",
        "SELECT id, trial_id, mark, floaters, on_paper_at, place, warmth_c, seeds, rooted, abnormal, dead, fresh, hard,
           not_examined, lost, sown_unrooted, moved_out, moved_in, on_paper, ended, looked_at, closed_at, ending, voided
         FROM bags WHERE owner_id = $1 ORDER BY id",
    ),
    ("holders", "SELECT id, mark, place, warmth_c, made_at, gone_at FROM holders WHERE owner_id = $1 ORDER BY id"),
    (
        "trays",
        "SELECT id, mark, name, tray_rows, tray_cols, place, made_at, finished_at FROM trays WHERE owner_id = $1
         ORDER BY id",
    ),
    (
        "plantings",
        "SELECT p.id, p.tray_id, p.cell, p.bag_id, p.unrooted, p.planted_at, p.seeds, p.up, p.lost, p.thinned, p.potted,
           p.ended_at, p.end_why, p.voided FROM plantings p JOIN trays t ON t.id = p.tray_id WHERE t.owner_id = $1
         ORDER BY p.id",
    ),
    entries!("ledger", "d.sort, d.seeds", "ledger"),
    entries!("trial seeds", "d.sort, d.seeds", "trial_seeds"),
    entries!("float tallies", "d.sank, d.floated, d.floaters", "float_tallies"),
    entries!("steps", "d.position, d.skipped, d.began_at, d.percent", "steps_done"),
    entries!("trial events", "d.sort", "trial_events"),
    entries!("counts", "d.rooted, d.abnormal, d.dead", "looks"),
    entries!("closings", "d.ending, d.fresh, d.hard, d.dead, d.abnormal, d.not_examined, d.lost", "closings"),
    entries!("bag seeds", "d.sort, d.seeds", "bag_seeds"),
    entries!("bag events", "d.sort, d.place, d.warmth_c", "bag_events"),
    entries!("rooted ends", "d.sort, d.seeds", "rooted_ends"),
    entries!("outcomes", "d.sort, d.seeds, d.why", "outcomes"),
    ("voids", "SELECT entry_id, at, why FROM voids WHERE by_member = $1 ORDER BY at, entry_id"),
    (
        "solutions",
        "SELECT agent, stock_percent, percent, opened_on, volume_ml, vials, discard_at, note, made_at FROM solutions
         WHERE made_by = $1 ORDER BY made_at, id",
    ),
    ("routines", "SELECT id, name, made_at, retired_at FROM routines WHERE made_by = $1 ORDER BY made_at, id"),
    (
        "plans",
        "SELECT id, name, bag_seeds, warmth_c, tray_rows, tray_cols, certainty, mat_bags, trays, made_at FROM plans
         WHERE owner_id = $1 ORDER BY made_at, id",
    ),
    (
        "plan lines",
        "SELECT l.plan_id, v.name AS variety, l.plants, l.ready_on, l.certainty, l.raise_weeks, l.warmth_c, l.made_at,
           l.gone_at FROM plan_lines l JOIN plans p ON p.id = l.plan_id JOIN varieties v ON v.id = l.variety_id
         WHERE p.owner_id = $1 ORDER BY l.made_at, l.id",
    ),
    (
        "promises",
        "SELECT packet_id, seeds, start_on, made_at, ended_at, how FROM promises WHERE owner_id = $1
         ORDER BY made_at, id",
    ),
    (
        "count cards",
        "SELECT c.number, c.made_at, b.mark AS bag FROM cards c JOIN card_bags x ON x.card_id = c.id
         JOIN bags b ON b.id = x.bag_id WHERE c.owner_id = $1 ORDER BY c.number, x.place",
    ),
    (
        "label sheets",
        "SELECT name, shared, page_width, page_height, from_left, from_top, width, height, pitch_x, pitch_y, across,
           down, nudge_x, nudge_y, made_at FROM label_sheets WHERE owner_id = $1 ORDER BY made_at, id",
    ),
    ("lists brought in", "SELECT sort, name, made_at FROM uploads WHERE member_id = $1 ORDER BY made_at, id"),
    (
        "ring trials",
        "SELECT r.name, r.made_at, CASE WHEN r.made_by = $1 THEN 1 ELSE 0 END AS made_by_you FROM rings r
         WHERE r.made_by = $1 OR r.id IN (SELECT ring_id FROM ring_growers WHERE member_id = $1)
         ORDER BY r.made_at, r.id",
    ),
];

const PHOTOS: &str = "SELECT p.entry_id, p.jpeg FROM photos p JOIN entries e ON e.id = p.entry_id
    WHERE e.by_member = $1 AND p.entry_id > $2 ORDER BY p.entry_id LIMIT 20";

pub fn all_sql() -> Vec<&'static str> {
    TABLES.iter().map(|(_, sql)| *sql).chain([PHOTOS]).collect()
}

#[derive(FromRow)]
struct Photo {
    entry_id: String,
    jpeg: Vec<u8>,
}

type Archive = ZipWriter<Cursor<Vec<u8>>>;

/// What stands beside the tables.
fn readme() -> String {
    let lines = [
        t!("own-readme-title"),
        "",
        t!("own-readme-moments"),
        t!("own-readme-yes-and-no"),
        t!("own-readme-secrets"),
        "",
    ];
    lines.join("\n")
}

/// The file.
pub async fn zipped(app: &App, member: &MemberId) -> Result<Vec<u8>, AppError> {
    let mut archive = ZipWriter::new(Cursor::new(Vec::new()));
    add(&mut archive, "README.txt", readme().as_bytes())?;
    let mut conn = app.db.read().await?;
    for (name, sql) in TABLES {
        let rows = conn.objects(sql, args![member]).await?;
        add(&mut archive, &format!("{}.json", name.replace(' ', "-")), &json(rows)?)?;
    }
    let mut last = String::new();
    loop {
        let photos: Vec<Photo> = conn.all(PHOTOS, args![member, &last]).await?;
        let Some(newest) = photos.last() else { break };
        last.clone_from(&newest.entry_id);
        for photo in photos {
            add(&mut archive, &format!("photos/{}.jpg", photo.entry_id), &photo.jpeg)?;
        }
    }
    Ok(archive.finish().context("the copy of a member's data")?.into_inner())
}

fn json(rows: Vec<Map<String, Value>>) -> Result<Vec<u8>, AppError> {
    Ok(serde_json::to_vec_pretty(&rows).context("rows as JSON")?)
}

fn add(archive: &mut Archive, name: &str, bytes: &[u8]) -> Result<(), AppError> {
    let options = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Deflated)
        .last_modified_time(DateTime::default());
    archive.start_file(name, options).context("a file of the copy")?;
    Ok(archive.write_all(bytes).context("a file of the copy")?)
}
