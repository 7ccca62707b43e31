use crate::support::Club;
use hilum::args;
use hilum::db::{Conn, Db, FromRow};
use std::collections::{BTreeSet, HashMap};

/// Every SQL text of the app is prepared on the engine under test, so that a mistake in one shows at once.
#[tokio::test]
async fn every_statement_prepares() {
    use sqlx::Executor;
    use sqlx::SqlSafeStr;
    let club = Club::new().await;
    let mut faults = Vec::new();
    for sql in hilum::all_sql() {
        let text = sql.into_sql_str();
        let prepared = match &mut club.app.db.write().await.unwrap() {
            Conn::SqliteWrite(c, _) => (&mut **c).prepare(text).await.map(drop),
            Conn::PostgresWrite(c, _) => (&mut **c).prepare(text).await.map(drop),
            _ => unreachable!("a write connection writes"),
        };
        faults.extend(prepared.err().map(|e| format!("{sql}\n  {e}")));
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// Tables that a club fills year after year.
const GROWING: &[&str] = &[
    "bag_events",
    "bag_seeds",
    "bags",
    "closings",
    "entries",
    "float_tallies",
    "ledger",
    "looks",
    "marks",
    "once",
    "outcomes",
    "packets",
    "plantings",
    "rooted_ends",
    "steps_done",
    "trial_events",
    "trial_seeds",
    "trials",
    "voids",
];

/// Statements that read all of a growing table, by words of theirs, and when that is done.
const WHOLE: &[(&str, &str)] = &[
    (
        "(SELECT COUNT(*) FROM entries WHERE id > $1) AS entries, (SELECT MAX(id)",
        "entries since: a range of the key",
    ),
    ("SELECT COUNT(*) AS n FROM entries WHERE id <= $1", "once a minute at most in a large club"),
    ("SELECT MAX(id) AS id FROM entries", "the end of the key"),
    ("SELECT MAX(recorded_at) AS at FROM entries", "the end of an index, for the page of backups"),
    ("SELECT id FROM packets ORDER BY id", "the club table is read for the first time"),
    ("t.floaters AS fate", "the page of floaters, of all trials"),
    ("COUNT(*) AS plantings", "the club's cells, of all plantings"),
    ("CASE WHEN g.up < g.seeds - g.lost THEN g.up", "the same by source"),
    ("SELECT t.packet_id, t.version_id", "what is on paper in the whole club, kept between changes"),
    ("COUNT(DISTINCT p.lot_id) AS lots", "an organiser plans a ring trial"),
    ("SELECT key FROM marks WHERE key LIKE $1", "a list is brought in"),
    ("SET through = ''", "a member is erased"),
    ("AS mark, e.what, e.at FROM entries e", "check"),
    ("SELECT b.mark, e.what, e.at FROM entries e", "check"),
    ("SELECT b.mark, 'paper' AS what", "check"),
    ("'look' AS what, e.at FROM entries e", "check"),
    ("'save (' || o.action || ')'", "check"),
    ("SELECT x.thing, x.mark, x.mark_key", "check"),
    ("SELECT p.mark FROM packets p", "check"),
    ("SELECT p.mark FROM ring_packets x", "check"),
    ("DELETE FROM once", "keys of a member who is erased"),
];

#[derive(FromRow)]
struct Step {
    opcode: String,
    p1: i64,
    p2: i64,
}

#[derive(FromRow)]
struct Root {
    page: i64,
    name: String,
}

/// The tables whose rows, or whose index's entries, SQLite's program for a statement goes through from an end.
async fn by_sqlite(conn: &mut Conn, sql: &str) -> BTreeSet<String> {
    let names = "SELECT rootpage AS page, tbl_name AS name FROM sqlite_schema WHERE rootpage > 0";
    let roots: Vec<Root> = conn.all(names, args![]).await.unwrap();
    let explain: &'static str = format!("EXPLAIN {sql}").leak();
    let steps: Vec<Step> = conn.all(explain, args![]).await.unwrap();
    let (mut open, mut found) = (HashMap::new(), BTreeSet::new());
    for step in steps {
        match step.opcode.as_str() {
            "OpenRead" | "OpenWrite" => drop(open.insert(step.p1, step.p2)),
            "Rewind" | "Last" => {
                let root = open.get(&step.p1).and_then(|page| roots.iter().find(|root| root.page == *page));
                found.extend(root.map(|root| root.name.clone()));
            }
            _ => {}
        }
    }
    found
}

#[derive(FromRow)]
struct Line {
    #[sqlx(rename = "QUERY PLAN")]
    line: String,
}

/// The tables that PostgreSQL reads from end to end although it is told to use an index wherever one serves.
async fn by_postgres(conn: &mut Conn, sql: &str) -> BTreeSet<String> {
    let most = sql.split('$').skip(1).filter_map(|rest| {
        rest.split(|c: char| !c.is_ascii_digit()).next().and_then(|digits| digits.parse::<usize>().ok())
    });
    let nulls = vec!["NULL"; most.max().unwrap_or(0)].join(", ");
    let nulls = if nulls.is_empty() { nulls } else { format!("({nulls})") };
    for text in ["SET plan_cache_mode = force_generic_plan", "SET enable_seqscan = off"] {
        conn.run(text, args![]).await.unwrap();
    }
    conn.run(format!("PREPARE asked AS {sql}").leak(), args![]).await.unwrap();
    let plan: Vec<Line> = conn.all(format!("EXPLAIN EXECUTE asked{nulls}").leak(), args![]).await.unwrap();
    conn.run("DEALLOCATE asked", args![]).await.unwrap();
    let scans = plan.iter().filter_map(|l| l.line.split("Seq Scan on ").nth(1));
    scans.map(|rest| rest.split(' ').next().unwrap_or_default().to_owned()).collect()
}

/// What a page costs must not grow with the years: proved by what the engine says that it would do.
#[tokio::test]
async fn statements_find_what_they_want_by_an_index() {
    let club = Club::new().await;
    let mut conn = club.app.db.read().await.unwrap();
    let (mut faults, mut known) = (Vec::new(), BTreeSet::new());
    for sql in hilum::all_sql() {
        let words = sql.split_whitespace().collect::<Vec<_>>().join(" ");
        let found = match club.app.db {
            Db::Sqlite { .. } => by_sqlite(&mut conn, sql).await,
            Db::Postgres { .. } => by_postgres(&mut conn, sql).await,
        };
        let growing: Vec<_> = found.iter().filter(|name| GROWING.contains(&name.as_str())).collect();
        let why = WHOLE.iter().find(|(part, _)| words.contains(part));
        known.extend(why.map(|(part, _)| *part));
        if why.is_none() && !growing.is_empty() {
            faults.push(format!("{growing:?}: {words}"));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    let gone: Vec<_> = WHOLE.iter().filter(|(part, _)| !known.contains(part)).collect();
    assert!(gone.is_empty(), "no statement has these words any more: {gone:?}");
}
