//! The loader of large clubs, checked against ordinary code: a small club made both ways is the same in every table
//! but for identities, and nothing breaks what must always hold.

use crate::support::Club as Empty;
use hilum::args;
use hilum::db::ids::{At, BagId, MemberId, PacketId, TrayId, TrialId};
use hilum::db::{Conn, FromRow};
use hilum::notebook::{About, Act, bag};
use hilum::stock::model::{Details, NewPacket};
use hilum::trays::model::Found;
use hilum::trays::store::{self as trays, NewTray, Plan};
use hilum::trials::model::{NewTrial, Paper, StepDone, Tally};
use hilum::trials::store as trials;
use hilum::upkeep::check;
use hilum::upkeep::scale::club::Club;
use hilum::upkeep::scale::trial::{Bag, Planted, TRAY, Trial};
use hilum::upkeep::scale::{self, Ground, Size};
use std::collections::HashMap;

const SIZE: Size = Size { members: 5, trials: 120, seasons: 3 };
const KEY: &str = "by ordinary code";

/// What each table says without identities, keys and stamps, in an order of its own.
const TABLES: &[(&str, &str)] = &[
    (
        "packets with their lots and marks",
        "SELECT p.mark || '|' || p.mark_key || '|' || k.shown || k.thing || k.made_at || '|' || m.name || '|' || v.name
            || '|' || s.name || '|' || l.year || '|' || p.balance || '|' || p.made_at || '|' || p.state AS line
          FROM packets p JOIN marks k ON k.key = p.mark_key AND k.thing_id = p.id JOIN members m ON m.id = p.owner_id
          JOIN lots l ON l.id = p.lot_id JOIN varieties v ON v.id = l.variety_id JOIN sources s ON s.id = l.source_id
          ORDER BY 1",
    ),
    (
        "trials",
        "SELECT p.mark || '|' || m.name || '|' || r.name || '|' || t.began_at || '|' || t.seeds || '|' || t.soaking || '|'
            || t.thrown_out || '|' || t.lost || '|' || t.returned || '|' || t.step || '|' || t.step_at || '|'
            || COALESCE(t.sank, -1) || '|' || COALESCE(t.floated, -1) || '|' || t.floaters || '|'
            || CASE WHEN t.voided OR t.treated_again THEN 1 ELSE 0 END AS line
          FROM trials t JOIN packets p ON p.id = t.packet_id JOIN members m ON m.id = t.owner_id
          JOIN routine_versions n ON n.id = t.version_id JOIN routines r ON r.id = n.routine_id ORDER BY 1",
    ),
    (
        "bags",
        "SELECT b.mark || '|' || k.shown || k.thing || k.made_at || '|' || t.began_at || '|' || m.name || '|'
            || b.on_paper_at || '|' || b.place || '|' || CAST(b.warmth_c AS BIGINT) || '|' || b.seeds || '|' || b.rooted
            || '|' || b.abnormal || '|' || b.dead || '|' || b.fresh || '|' || b.hard || '|' || b.not_examined || '|'
            || b.lost || '|' || b.sown_unrooted || '|' || b.moved_out || '|' || b.moved_in || '|' || b.on_paper || '|'
            || b.ended || '|' || COALESCE(b.looked_at, 0) || '|' || COALESCE(b.closed_at, 0) || '|' || b.ending || '|'
            || CASE WHEN b.voided OR b.weekly OR b.in_doubt OR b.floaters THEN 1 ELSE 0 END AS line
          FROM bags b JOIN marks k ON k.key = b.mark_key AND k.thing_id = b.id JOIN trials t ON t.id = b.trial_id
          JOIN members m ON m.id = b.owner_id ORDER BY 1",
    ),
    (
        "plantings and cells",
        "SELECT y.mark || '|' || k.shown || k.thing || k.made_at || '|' || y.tray_rows || '|' || y.tray_cols || '|'
            || y.made_at || '|' || m.name || '|' || g.cell || '|' || b.mark || '|' || g.planted_at || '|' || g.seeds || '|'
            || g.up || '|' || g.lost || '|' || g.thinned || '|' || g.potted || '|' || COALESCE(g.ended_at, 0) || '|'
            || g.end_why || '|' || COALESCE(c.cell, 0) AS line
          FROM plantings g JOIN trays y ON y.id = g.tray_id JOIN marks k ON k.key = y.mark_key AND k.thing_id = y.id
          JOIN members m ON m.id = y.owner_id JOIN bags b ON b.id = g.bag_id
          LEFT JOIN tray_cells c ON c.planting_id = g.id ORDER BY 1",
    ),
    (
        "entries",
        "SELECT e.what || '|' || COALESCE(p.mark, '') || '|' || COALESCE(t.began_at, 0) || '|' || COALESCE(b.mark, '')
            || '|' || COALESCE(y.mark, '') || '|' || COALESCE(g.cell, 0) || '|' || m.name || '|' || e.at || '|'
            || e.recorded_at || '|' || e.note || '|' || COALESCE(l.sort || l.seeds, '') || COALESCE(a.sort || a.seeds, '')
            || COALESCE('float ' || f.sank || '/' || f.floated || f.floaters, '')
            || COALESCE('step ' || s.position || '/' || s.began_at || '/' || CAST(10 * COALESCE(s.percent, 0) AS BIGINT), '')
            || COALESCE('look ' || o.rooted || '/' || o.abnormal || '/' || o.dead, '')
            || COALESCE(c.ending || c.fresh || '/' || c.hard || '/' || c.dead || '/' || c.abnormal || '/'
              || c.not_examined || '/' || c.lost, '') || COALESCE(w.sort || w.seeds, '')
            || COALESCE(v.sort || v.place || CAST(v.warmth_c AS BIGINT), '') || COALESCE(d.sort || d.seeds, '')
            || COALESCE(u.sort || u.seeds || u.why, '')
            || '|' || (SELECT COUNT(*) FROM entries n WHERE n.act_id = e.act_id) AS line
          FROM entries e JOIN members m ON m.id = e.by_member LEFT JOIN packets p ON p.id = e.packet_id
          LEFT JOIN trials t ON t.id = e.trial_id LEFT JOIN bags b ON b.id = e.bag_id LEFT JOIN trays y ON y.id = e.tray_id
          LEFT JOIN plantings g ON g.id = e.planting_id LEFT JOIN ledger l ON l.entry_id = e.id
          LEFT JOIN trial_seeds a ON a.entry_id = e.id LEFT JOIN float_tallies f ON f.entry_id = e.id
          LEFT JOIN steps_done s ON s.entry_id = e.id AND NOT s.skipped LEFT JOIN looks o ON o.entry_id = e.id
          LEFT JOIN closings c ON c.entry_id = e.id LEFT JOIN bag_seeds w ON w.entry_id = e.id
          LEFT JOIN bag_events v ON v.entry_id = e.id LEFT JOIN rooted_ends d ON d.entry_id = e.id
          LEFT JOIN outcomes u ON u.entry_id = e.id ORDER BY 1",
    ),
    ("marks", "SELECT key || '|' || shown || '|' || thing || '|' || made_at AS line FROM marks ORDER BY 1"),
    (
        "members and letters",
        "SELECT m.name || '|' || m.sign_in || '|' || m.role || '|' || l.shown || '|' || l.last_number AS line
          FROM members m JOIN letters l ON l.member_id = m.id ORDER BY 1",
    ),
    (
        "how many rows of the rest",
        "SELECT 'voids ' || (SELECT COUNT(*) FROM voids) || ' lots ' || (SELECT COUNT(*) FROM lots) || ' cells '
            || (SELECT COUNT(*) FROM tray_cells) || ' trays ' || (SELECT COUNT(*) FROM trays) || ' frozen '
            || (SELECT COUNT(*) FROM routine_versions WHERE frozen) AS line",
    ),
];

#[derive(FromRow)]
struct Line {
    line: String,
}

#[tokio::test]
async fn the_loader_makes_what_ordinary_code_makes() {
    let (bulk, plain) = (Empty::new().await, Empty::new().await);
    scale::fill(&bulk.app, SIZE).await.unwrap();
    by_ordinary_code(&plain).await;
    let (mut a, mut b) = (bulk.app.db.read().await.unwrap(), plain.app.db.read().await.unwrap());
    for (table, sql) in TABLES {
        let (a, b) = (lines(&mut a, sql).await, lines(&mut b, sql).await);
        assert!(!a.is_empty(), "there are no {table}");
        let only = |x: &[String], y: &[String]| {
            x.iter().filter(|l| !y.contains(l)).take(5).cloned().collect::<Vec<_>>()
        };
        assert!(
            a == b,
            "{table}: {} and {}\nonly loaded {:#?}\nonly plain {:#?}",
            a.len(),
            b.len(),
            only(&a, &b),
            only(&b, &a)
        );
    }
    drop((a, b));
    for club in [&bulk, &plain] {
        assert_eq!(check::breaches(&club.app).await.unwrap(), Vec::<String>::new());
    }
}

#[tokio::test]
async fn a_club_of_a_size_has_what_it_says_and_is_the_same_again() {
    let (one, two) = (Empty::new().await, Empty::new().await);
    let size: Size = "12,300,2".parse().unwrap();
    for club in [&one, &two] {
        scale::fill(&club.app, size).await.unwrap();
    }
    let mut a = one.app.db.read().await.unwrap();
    let sql =
        "SELECT CAST(COUNT(*) AS TEXT) AS line FROM looks UNION ALL SELECT CAST(COUNT(*) AS TEXT) FROM trials
        UNION ALL SELECT CAST(COUNT(*) AS TEXT) FROM members";
    let counted: Vec<usize> = lines(&mut a, sql).await.iter().map(|n| n.parse().unwrap()).collect();
    assert!((4800..6900).contains(&counted[0]) && counted[1..] == [300, 12], "{counted:?}");
    // ids of the rows written by the loader too
    let sql = "SELECT e.id || e.act_id || e.what || e.at AS line FROM entries e ORDER BY e.id";
    assert!(lines(&mut a, sql).await == lines(&mut two.app.db.read().await.unwrap(), sql).await);
    for wrong in ["", "1,2", "0,1,1", "500,50000,99", "a,b,c"] {
        assert!(wrong.parse::<Size>().unwrap_err().contains("such as 500,50000,5"), "{wrong}");
    }
}

async fn lines(conn: &mut Conn, sql: &'static str) -> Vec<String> {
    let rows: Vec<Line> = conn.all(sql, args![]).await.unwrap();
    let mut lines: Vec<String> = rows.into_iter().map(|l| l.line).collect();
    if !sql.contains("UNION ALL") {
        lines.sort();
    }
    lines
}

/// What the loader writes, by the stores that the forms use.
struct Plain<'a> {
    club: &'a Club,
    ground: &'a Ground,
    packets: HashMap<(usize, usize), PacketId>,
    trays: HashMap<usize, TrayId>,
}

async fn by_ordinary_code(empty: &Empty) {
    let club = Club::new(SIZE, empty.app.now());
    let mut conn = empty.app.db.write().await.unwrap();
    let ground = scale::ground(&empty.app, &mut conn, &club).await.unwrap();
    let mut plain = Plain { club: &club, ground: &ground, packets: HashMap::new(), trays: HashMap::new() };
    for member in 0..SIZE.members {
        for nth in 0..club.packets_of(member) {
            plain.packet(&mut conn, member, nth).await;
        }
    }
    for n in 0..SIZE.trials {
        plain.trial(&mut conn, &club.trial(n, &ground.steps)).await;
    }
    conn.commit().await.unwrap();
}

fn act(member: &MemberId, at: At) -> Act<'_> {
    Act::new(member, KEY, at, at)
}

impl Plain<'_> {
    async fn packet(&mut self, conn: &mut Conn, member: usize, nth: usize) {
        let p = self.club.packet(member, nth);
        let new = NewPacket {
            naming: self.club.naming(&p),
            details: Details { state: "plain".into(), ..Details::default() },
            letters: self.club.members[member].letters.clone(),
            number: None,
            seeds: p.seeds,
        };
        let owner = &self.ground.members[member];
        let id = hilum::stock::store::add_packet(conn, &act(owner, p.received_at), &new).await.unwrap();
        self.packets.insert((member, nth), id);
    }

    async fn trial(&mut self, conn: &mut Conn, t: &Trial) {
        let owner = &self.ground.members[t.member];
        let new = NewTrial {
            packet: self.packets[&(t.member, t.packet)].clone(),
            routine: self.ground.routines[t.routine].id.clone(),
            seeds: t.seeds,
            recount: None,
            pair: None,
            plan: String::new(),
        };
        let id = trials::start(conn, &act(owner, t.began), &[new]).await.unwrap().remove(0);
        for (position, at) in &t.steps {
            let percent = self.ground.steps[t.routine][*position as usize - 1].percent;
            let done = StepDone { position: *position, percent, ..StepDone::default() };
            trials::step_done(conn, &act(owner, *at), &id, &done).await.unwrap();
        }
        if let Some(f) = &t.tally {
            let floaters = f.floaters().to_owned();
            let tally = Tally { sank: f.sank, floated: f.floated, floaters, recount: false };
            trials::tally(conn, &act(owner, f.at), &id, &tally).await.unwrap();
        }
        let member = &self.club.members[t.member];
        let paper = |b: &Bag| Paper {
            seeds: b.seeds,
            floaters: false,
            place: member.place.into(),
            warmth_c: Some(member.warmth_c),
            rooted: None,
        };
        let papers: Vec<Paper> = t.bags.iter().map(paper).collect();
        let Some(first) = t.bags.first() else { return };
        let made = trials::put_on_paper(conn, &act(owner, first.at), &id, &papers, false).await.unwrap();
        for (bag, drawn) in made.iter().zip(&t.bags) {
            self.bag(conn, (t, &id), bag, drawn).await;
        }
    }

    async fn bag(&mut self, conn: &mut Conn, (t, trial): (&Trial, &TrialId), id: &BagId, drawn: &Bag) {
        let owner = &self.ground.members[t.member];
        let about = About { trial: Some(trial), bag: Some(id), ..About::default() };
        for l in &drawn.looks {
            let look = bag::Look { rooted: l.rooted, abnormal: l.abnormal, dead: l.dead };
            bag::add_look(conn, &act(owner, l.at), about, look, "").await.unwrap();
        }
        if let Some(c) = drawn.closing {
            let (fresh, dead, not_examined) = (c.fresh, c.dead, c.not_examined);
            let closing =
                bag::Closing { ending: c.ending(), fresh, dead, not_examined, ..bag::Closing::default() };
            bag::add_closing(conn, &act(owner, c.at), about, closing, c.why()).await.unwrap();
        }
        bag::keep(conn, id).await.unwrap();
        if let Some(planted) = &drawn.planted {
            self.plant(conn, t.member, id, planted).await;
        }
        if let Some((at, seeds)) = drawn.given {
            bag::add_end(conn, &act(owner, at), about, "given", seeds).await.unwrap();
            bag::keep(conn, id).await.unwrap();
        }
    }

    async fn plant(&mut self, conn: &mut Conn, member: usize, bag: &BagId, planted: &Planted) {
        let owner = &self.ground.members[member];
        if !self.trays.contains_key(&member) {
            let new = NewTray { name: "", rows: TRAY.0, cols: TRAY.1, place: "" };
            let (id, _) = trays::make(conn, owner, &new, self.club.trays_made()).await.unwrap();
            self.trays.insert(member, id);
        }
        let tray = &self.trays[&member];
        let from = Some(planted.cell);
        let plan = Plan { bag, tray, seeds: planted.seeds, per_cell: 1, from, unrooted: false, over: None };
        let placed = trays::plant(conn, &act(owner, planted.at), &plan).await.unwrap();
        for (p, n) in placed.iter().zip(0..) {
            if let Some((at, sort, why)) = planted.fate(n) {
                let found = Found::new(sort, 1, why);
                trays::outcome(conn, &act(owner, at), &p.planting, &[found]).await.unwrap();
            }
        }
    }
}
