//! Eight copies of each form of the program at the same moment, under one key: they lead to what one copy leads to, and all
//! eight are answered alike. What one copy leads to is counted in every table, beside a form just like it that is sent
//! alone. `HILUM_PARALLEL=10000 cargo test --test endure parallel` goes round until so many forms were sent eight times.

mod made;
mod table;

use crate::support::{Answer, Client, Filled, Program, Season, at_once, routes, time_is_left, times};
use hilum::args;
use hilum::db::FromRow;
use made::Made;
use std::collections::BTreeSet;
use table::{By, ENDING, FILES, Leads, Post};

const COPIES: usize = 8;
const ROUNDS: usize = 5;

/// What a form may write to; sessions are each device's own, and drafts and what is computed are nobody's.
const TABLES: [&str; 46] = [
    "members",
    "letters",
    "links",
    "once",
    "kinds",
    "varieties",
    "sources",
    "merges",
    "marks",
    "lots",
    "packets",
    "routines",
    "routine_versions",
    "routine_steps",
    "solutions",
    "trials",
    "holders",
    "bags",
    "trays",
    "plantings",
    "tray_cells",
    "entries",
    "voids",
    "ledger",
    "trial_seeds",
    "float_tallies",
    "steps_done",
    "trial_events",
    "looks",
    "closings",
    "bag_seeds",
    "bag_events",
    "rooted_ends",
    "outcomes",
    "rings",
    "ring_lots",
    "ring_growers",
    "ring_packets",
    "feeds",
    "plans",
    "plan_lines",
    "promises",
    "label_sheets",
    "cards",
    "card_bags",
    "tokens",
];

#[derive(FromRow)]
struct Rows {
    n: i64,
}

/// How many rows each table has.
async fn rows(season: &Season) -> Vec<i64> {
    static SQL: std::sync::LazyLock<&str> = std::sync::LazyLock::new(|| {
        let each = TABLES.iter().enumerate();
        let each = each.map(|(n, table)| format!("SELECT {n} AS place, COUNT(*) AS n FROM {table}"));
        let all = each.collect::<Vec<_>>().join(" UNION ALL ");
        Box::leak(format!("SELECT n FROM ({all}) AS counted ORDER BY place").into_boxed_str())
    });
    let rows: Vec<Rows> = season.db.read().await.unwrap().all(*SQL, args![]).await.unwrap();
    rows.into_iter().map(|row| row.n).collect()
}

fn more(before: &[i64], after: &[i64]) -> Vec<(&'static str, i64)> {
    let each = TABLES.iter().zip(before.iter().zip(after));
    each.map(|(table, (before, after))| (*table, after - before)).filter(|(_, more)| *more != 0).collect()
}

/// A form that is ready to be sent, and by whom.
async fn ready(season: &Season, hash: &str, post: &Post) -> (Client, Filled) {
    let mut made = Made::new(season, hash);
    let by = match post.by {
        By::Agnes => season.agnes.clone(),
        By::Device => season.device("agnes").await,
        By::Newcomer => made.newcomer().await,
        By::Stranger => Client::with_session(&season.program.base, String::new()),
    };
    let (page, action) = (made.fill(post.page).await, made.fill(post.action).await);
    let (mut fields, mut unseen) = (Vec::new(), Vec::new());
    for (name, value) in post.fields {
        let (name, value) = (made.fill(name).await, made.fill(value).await);
        match name.strip_prefix('+') {
            Some(name) => unseen.push((name.to_owned(), value)),
            None => fields.push((name, value)),
        }
    }
    let fields: Vec<(&str, &str)> = fields.iter().map(|(n, v)| (n.as_str(), v.as_str())).collect();
    let mut form = if page.is_empty() {
        Filled::of(&action, &fields)
    } else if let Some(first) = page.strip_prefix('>') {
        // the form stands on what another form is answered with
        let asked = by.filled(first, first, &fields).await;
        let drawn = by.send(&asked).await.unwrap();
        let found = Filled::on(&drawn.body, first, &action, &[]);
        found.unwrap_or_else(|| panic!("no form {action}: {drawn:?}"))
    } else {
        by.filled(&page, &action, &fields).await
    };
    form.pairs.extend(unseen);
    (by, form)
}

/// Whether all copies were answered alike. What is shown only once (a link, a secret) is shown to one of them; a link that
/// is used up says so.
fn alike(answers: &[Answer]) -> bool {
    let used = |a: &Answer| a.body.contains("If you have just used it");
    let good = |a: &Answer| [303, 200, 409].iter().any(|status| a.status == *status) || used(a);
    let gone_on = |a: &&Answer| a.status == 303 && !a.location.starts_with("/sign-in?");
    let to: BTreeSet<&str> = answers.iter().filter(gone_on).map(|a| a.location.as_str()).collect();
    answers.iter().all(good) && to.len() <= 1 && answers.iter().any(|a| a.status == 303 || a.status == 200)
}

/// What is wrong with eight copies beside one.
async fn eight_beside_one(season: &Season, hash: &str, post: &Post) -> Option<String> {
    let (by, alone) = ready(season, hash, post).await;
    let before = rows(season).await;
    let answer = by.send(&alone).await.unwrap();
    if answer.status != 303 && answer.status != 200 {
        return Some(format!("{}, alone: {answer:?}", post.route));
    }
    let one = more(&before, &rows(season).await);
    let (by, form) = ready(season, hash, post).await;
    let before = rows(season).await;
    let answers = at_once(vec![(by, form); COPIES]).await;
    if !alike(&answers) {
        return Some(format!("{}, eight at once: {answers:?}", post.route));
    }
    let eight = more(&before, &rows(season).await);
    let wrong = post.leads == Leads::Once && eight != one;
    wrong.then(|| format!("{}: one wrote {one:?}, eight wrote {eight:?}", post.route))
}

/// A few rounds of the whole table in one club, so that it does not grow without end; how many forms were sent.
async fn rounds(wanted: usize) -> usize {
    let mut hashed = String::new();
    let program = Program::demo_and(async |app| hashed = made::hash(app).await).await;
    let mut season = Season::of(program).await;
    // the first draw of a kind makes what stands in for its lots
    Made::new(&season, &hashed).fill("{drawn}").await;
    let (mut sent, mut faults) = (0, Vec::new());
    for _ in 0..ROUNDS {
        for post in table::all().take(wanted - sent.min(wanted)).take_while(|_| time_is_left()) {
            faults.extend(eight_beside_one(&season, &hashed, &post).await);
            sent += 1;
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    season.sound();
    sent
}

/// Every POST of the router stands in the table, and none that is no more.
#[test]
fn every_form_is_in_the_table() {
    let found: BTreeSet<String> = routes::all().into_iter().filter(|r| r.post).map(|r| r.path).collect();
    let mut listed: BTreeSet<String> = table::all().map(|post| post.route.to_owned()).collect();
    listed.extend(FILES.into_iter().chain(ENDING).map(str::to_owned));
    let missing: Vec<_> = found.difference(&listed).collect();
    assert!(missing.is_empty(), "say how these are sent: {missing:#?}");
    let gone: Vec<_> = listed.difference(&found).collect();
    assert!(gone.is_empty(), "these are no more: {gone:#?}");
}

#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
async fn eight_copies_at_the_same_moment_count_once() {
    let wanted = times("HILUM_PARALLEL", table::all().count());
    let mut sent = 0;
    while sent < wanted && time_is_left() {
        sent += rounds(wanted - sent).await;
    }
    println!("{sent} forms, {COPIES} copies of each at the same moment: each counted once");
}
