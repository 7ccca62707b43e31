//! Counts come in: looks into bags that are here, and bags of seasons past.

use super::writers::xlsx;
use super::{text_of, upload_list};
use crate::stock::{number, sound};
use crate::support::{Browser, Club, Page};
use axum::http::StatusCode;
use hilum::{routines, stock};

async fn furnished() -> Club {
    let club = Club::new().await;
    club.app.furnish().await.unwrap();
    club
}

async fn look(who: &Browser, list: &str) -> Page {
    let form = who.get("/counts/import").await;
    who.submit(&form, "/counts/import", &[("list", list)]).await
}

async fn confirm(who: &Browser, page: &Page) -> Page {
    who.submit(page, "/counts/import/confirm", &[]).await
}

#[tokio::test]
async fn looks_into_own_bags_come_in_whole_and_once() {
    let club = furnished().await;
    let jo = club.grower("Jo", "JB").await;
    let packet = club.packet(&jo, "Kestrel", 40).await;
    let trial = club.trial(&jo, &packet, 20).await;
    club.bag(&jo, &trial, 10).await;
    club.pass_days(6);
    let list = "Bag,Date,Rooted,Dead\nJB 1 a,5.3.2026,2,\njb1a,2026-03-06,0,1\nJB 1 a,7/3/2026 07:30,3,0\n";
    let page = look(&jo, list).await;
    page.says("Nothing is saved yet: 3 looks")
        .says("JB 1 a")
        .says("2 rooted")
        .says("1 dead")
        .says("day first: 3 April");
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM looks").await, 0);
    confirm(&jo, &page).await.says("Brought in: 3 looks");
    confirm(&jo, &page).await;
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM looks").await, 3);
    assert_eq!(number(&club, "SELECT rooted AS n FROM bags").await, 5);
    let again = look(&jo, list).await;
    assert_eq!(again.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(again.text().contains("Every row of this list was brought in before"), "{}", again.text());
    // the same looks in another list are here already, another number is not
    let page = look(&jo, "Bag,Date,Rooted,Dead\nJB 1 a,5.3.2026,2,0\nJB 1 a,2026-03-08,1,0\n").await;
    page.says("Rows that are here already, so left out: 1.").says("1 look,");
    let page = look(&jo, "Bag,Date,Rooted\nJB 1 a,5.3.2026,1\n").await;
    assert_eq!(
        page.all(".flash li"),
        ["Line 2, date of the look: JB 1 a has a look at that time, with other numbers."]
    );
    sound(&club).await;
}

#[tokio::test]
async fn every_fault_of_counts_is_told_by_its_cell_and_nothing_comes_in() {
    let club = furnished().await;
    let (jo, kim) = (club.grower("Jo", "JB").await, club.grower("Kim", "KK").await);
    for who in [&jo, &kim] {
        let packet = club.packet(who, "Kestrel", 40).await;
        let trial = club.trial(who, &packet, 20).await;
        club.bag(who, &trial, 10).await;
    }
    club.pass_days(3);
    let list = "Bag,Date,Hours,Rooted,Dead,Kind,Variety,Source,Seeds,On paper\n\
        JB 1 a,2026-03-04,,a few,,,,,,\nJB 1 a,soon,,1,,,,,,\nJB 1 a,2026-03-30,,1,,,,,,\nKK 1 a,2026-03-04,,1,,,,,,\n\
        JB 1,2026-03-04,,1,,,,,,\nJB 1 a,2026-03-04,,,,,,,,\nold 1,,48,1,,pepper,Wren,Testwood,,2025-03-01\n\
        old 2,,48,9,,pepper,Wren,Testwood,8,2025-03-01\nJB 1 a,2026-02-27,,1,,,,,,\nold 3,,1,1,,pepper,,Testwood,8,2025-03-01\n";
    let page = look(&jo, list).await;
    assert_eq!(page.status, StatusCode::UNPROCESSABLE_ENTITY);
    let faults = page.all(".flash li");
    let starts = [
        "Line 2, rooted: \"a few\" is not a number",
        "Line 3, date of the look: \"soon\" is not a day",
        "Line 4, date of the look: That is in the future",
        "Line 5, bag: KK 1 a is another grower's bag",
        "Line 6, bag: JB 1 is the mark of a packet",
        "Line 7, rooted: Nothing is counted here",
        "Line 8, seeds: No bag here has this mark",
        "Line 9, rooted: Up to this look more seeds were counted than the 8",
        "Line 10, date of the look: The bag was not on paper yet",
        "Line 11, variety: Please fill this in",
    ];
    for start in starts {
        assert!(faults.iter().any(|f| f.starts_with(start)), "{start}: {faults:#?}");
    }
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM looks").await, 0);
    // eleven rooted of ten: one by one they would do, together the notebook refuses all of them
    let list = "Bag,Date,Rooted\nJB 1 a,2026-03-03,6\nJB 1 a,2026-03-04,5\n";
    let page = look(&jo, list).await;
    let refused = confirm(&jo, &page).await;
    assert_eq!(refused.status, StatusCode::UNPROCESSABLE_ENTITY, "{}", refused.text());
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM looks").await, 0);
    sound(&club).await;
}

#[tokio::test]
async fn bags_of_seasons_past_become_packets_trials_and_bags_that_hold_together() {
    let club = furnished().await;
    let jo = club.grower("Jo", "JB").await;
    let list = "kind,variety,source,trial,bag,seeds,hours,rooted,abnormal,dead,soaked,lot_year,routine,warmth_c,put_on_paper\n\
        pepper,Kestrel,Testwood,T1,a,10,72,2,0,0,12,2023,Plain water overnight,28,2025-02-01\n\
        pepper,Kestrel,Testwood,T1,a,10,144,5,1,0,12,2023,Plain water overnight,28,2025-02-01\n\
        pepper,Kestrel,Testwood,T1,b,8,72,8,0,0,8,2023,Plain water overnight,28,2025-02-01\n\
        tomato,Wren,Hollin,,x,9,100,3,0,1,,,,,2025-02-03\n";
    let page = look(&jo, list).await;
    page.says("Nothing is saved yet: 4 looks").says("Kestrel").says("Plain water overnight").says("Dry seed");
    confirm(&jo, &page).await.says("Brought in: 4 looks");
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM packets WHERE balance = 0").await, 2);
    assert_eq!(
        number(&club, "SELECT COUNT(*) AS n FROM bags WHERE closed_at IS NOT NULL AND on_paper = 0").await,
        3
    );
    assert_eq!(number(&club, "SELECT thrown_out AS n FROM trials WHERE seeds = 20").await, 2);
    sound(&club).await;
    let out = text_of(&jo, "/counts.csv").await;
    assert!(out.contains("pepper,Kestrel,Testwood,Jo,JB 1 trial 1,JB 1 a,10,72,2,0,0,12,0,2023"), "{out}");
    jo.get("/table?of=paper").await.says("Kestrel").says("Wren");
    // what the club table gives out comes in again as what is here already
    let again = look(&jo, &out).await;
    assert_eq!(again.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(again.text().contains("nothing is left to add"), "{}", again.text());
}

/// `/counts.csv` of one club, brought in by another: the file that comes out there says the same counts.
#[tokio::test]
async fn the_long_table_goes_from_club_to_club_without_losing_a_seed() {
    let club = furnished().await;
    let jo = club.grower("Jo", "JB").await;
    for (variety, source) in [("Kestrel", "Testwood Seeds"), ("=Wren, \"red\" 🌶", "+Hollin")] {
        let packet = club.packet_from(&jo, variety, source, 40).await;
        let trial = club.trial(&jo, &packet, 20).await;
        let bag = club.bag(&jo, &trial, 20).await;
        for (days, rooted) in [(3, 4), (2, 9), (9, 1)] {
            club.pass_days(days);
            club.look(&jo, &bag, rooted, 0).await;
        }
    }
    let first = text_of(&jo, "/counts.csv").await;
    let mut outs = vec![first.clone()];
    for format in ["csv", "xlsx"] {
        let other = Club::new().await;
        other.app.clock.set(club.app.now());
        let jo = other.grower("Jo", "JB").await;
        let mut conn = other.app.db.write().await.unwrap();
        stock::ensure_kinds(&mut conn, other.app.now()).await.unwrap();
        let dry = routines::model::NewRoutine { name: "Dry".into(), note: String::new(), steps: Vec::new() };
        routines::store::insert_missing(&mut conn, &dry, other.app.now()).await.unwrap();
        conn.commit().await.unwrap();
        let last = outs.last().unwrap().clone();
        let file = if format == "csv" { last.into_bytes() } else { xlsx(&rows(&last)) };
        let page = upload_list(&jo, "/counts/import", "counts", &file).await;
        page.says("Nothing is saved yet: 6 looks");
        confirm(&jo, &page).await.says("Brought in: 6 looks");
        outs.push(text_of(&jo, "/counts.csv").await);
    }
    // times on the day became noon-free hours, so that all three files are the same to the byte but for the close
    let counts = |text: &str| -> Vec<Vec<String>> {
        rows(text).into_iter().map(|r| [&r[..17], &r[17..18]].concat()).collect()
    };
    assert_eq!(outs[1], outs[2], "the second trip");
    let mut sorted: Vec<Vec<Vec<String>>> = outs.iter().map(|t| counts(t)).collect();
    sorted.iter_mut().for_each(|rows| rows.sort());
    let shape = |rows: &Vec<Vec<String>>| {
        rows.iter().map(|r| (r[1].clone(), r[6].clone(), r[8].clone())).collect::<Vec<_>>()
    };
    assert_eq!(shape(&sorted[0]), shape(&sorted[1]));
}

fn rows(text: &str) -> Vec<Vec<String>> {
    let mut reader = csv::ReaderBuilder::new().has_headers(false).from_reader(text.as_bytes());
    reader.records().map(|r| r.unwrap().iter().map(str::to_owned).collect()).collect()
}
