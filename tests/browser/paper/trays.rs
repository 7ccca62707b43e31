use super::labels::{PRINTERS, code};
use crate::support::{Phone, Program};
use hilum::app::App;
use hilum::args;
use hilum::bags::store as bags;
use hilum::db::Conn;
use hilum::db::FromRow;
use hilum::db::ids::{At, BagId, MemberId, TrialId};
use hilum::marks;
use hilum::notebook::{About, Act, bag, trial};
use hilum::trays::published::GRIDS;
use hilum::trays::store::{self, NewTray, Plan};

/// Cells of one lot in each tray.
const EACH: i64 = 6;

#[derive(FromRow)]
struct Member {
    id: MemberId,
}

/// One tray of each published size, every cell planted, each lot in six cells beside one another.
async fn full_trays(app: &App) {
    let now = app.now();
    let mut conn = app.db.write().await.unwrap();
    let member: Member = conn.one("SELECT id FROM members WHERE sign_in = $1", args!["agnes"]).await.unwrap();
    let of = bags::open(&mut conn, &member.id).await.unwrap().remove(0);
    let most = GRIDS.iter().map(|g| g.geometry.cells()).max().unwrap() / EACH + 1;
    let mut lots = Vec::new();
    for _ in 0..most {
        let packet = of.mark.rsplit_once(' ').unwrap().0;
        lots.push(rooted(&mut conn, &member.id, (&of.trial_id, packet), now).await);
    }
    for grid in GRIDS.iter() {
        let g = grid.geometry;
        let new = NewTray { name: "Full", rows: g.rows, cols: g.cols, place: "bench" };
        let (tray, _) = store::make(&mut conn, &member.id, &new, now).await.unwrap();
        let mut left = g.cells();
        for lot in &lots {
            let seeds = left.min(EACH);
            if seeds == 0 {
                break;
            }
            let plan =
                Plan { bag: lot, tray: &tray, seeds, per_cell: 1, from: None, unrooted: false, over: None };
            store::plant(&mut conn, &Act::new(&member.id, "full", now, now), &plan).await.unwrap();
            left -= seeds;
        }
        assert_eq!(left, 0, "the tray is full");
    }
    conn.commit().await.unwrap();
}

/// A bag with as many rooted seeds as there are trays for, and one more still on paper.
async fn rooted(conn: &mut Conn, member: &MemberId, (of, packet): (&TrialId, &str), now: At) -> BagId {
    let (id, seeds) = (BagId::new(), EACH * GRIDS.len() as i64 + 1);
    let mark = marks::next_bag(conn, packet, &id.0, now).await.unwrap();
    let sql = "INSERT INTO bags (id, trial_id, owner_id, mark_key, mark, floaters, on_paper_at, place, weekly, in_doubt,
        voided, seeds, rooted, abnormal, dead, fresh, hard, not_examined, lost, sown_unrooted, moved_out, moved_in,
        on_paper, ended, ending, version)
        VALUES ($1, $2, $3, $4, $5, FALSE, $6, '', FALSE, FALSE, FALSE, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, '', 1)";
    conn.run(sql, args![&id, of, member, &mark.key, &mark.shown, now]).await.unwrap();
    let act = Act::new(member, "full", now, now);
    let about = About { trial: Some(of), bag: Some(&id), ..About::default() };
    trial::add_seeds(conn, &act, About { bag: None, ..about }, "recount", seeds).await.unwrap();
    trial::add_seeds(conn, &act, about, "to paper", seeds).await.unwrap();
    bag::add_seeds(conn, &act, about, "on paper", seeds, None).await.unwrap();
    let look = bag::Look { rooted: seeds - 1, ..bag::Look::default() };
    bag::add_look(conn, &act, about, look, "").await.unwrap();
    trial::keep(conn, of).await.unwrap();
    bag::keep(conn, &id).await.unwrap();
    id
}

#[tokio::test(flavor = "multi_thread")]
async fn every_published_tray_prints_on_one_page_whole_at_nine_points() {
    let program = Program::demo_and(full_trays).await;
    let phone = Phone::open(&program.base).await;
    phone.sign_in("agnes").await;
    phone.goto("/trays").await;
    let mut trays = phone.links("main a[href^='/trays/']").await;
    trays.retain(|t| t.matches('/').count() == 2 && !t.ends_with("/new"));
    trays.dedup();
    assert!(trays.len() >= GRIDS.len(), "{trays:?}");
    for tray in trays {
        for paper in ["a4", "letter"] {
            phone.goto(&format!("{tray}/sheet?paper={paper}")).await;
            phone.says("Printed").await;
            let mark = phone.texts("h1 .mark").await.remove(0);
            let cells = phone.texts(".head p").await.remove(0);
            let print = phone.print(&format!("sheet-{}-{paper}", hilum::marks::fold(&mark))).await;
            assert_eq!(print.pages.len(), 1, "{mark}, {cells} on {paper}");
            let wide =
                phone.reads("return String(!!document.querySelector('.sheet.wide'))", "").await == "true";
            let size = if wide { (print.size.1, print.size.0) } else { print.size };
            let page = if paper == "a4" { (210.0, 297.0) } else { (215.9, 279.4) };
            assert!((size.0 - page.0).abs() < 0.5 && (size.1 - page.1).abs() < 0.5, "{mark}: {size:?}");
            for dpi in PRINTERS {
                let read = code(&print.dots(1, dpi), [print.size.0 - 42.0, 0.0, 42.0, 42.0], dpi);
                let address = format!("{}/T/{}", program.base.to_uppercase(), hilum::marks::fold(&mark));
                assert_eq!(read, Some(address), "{mark} on {paper} at {dpi} dpi");
            }
            phone.hides("smaller than 9 pt").await;
            phone.hides("goes on").await;
            every_lot_is_told(&phone, &mark).await;
        }
    }
    many_cards(&phone).await;
    phone.close().await;
}

/// Cards of all those bags: each is one page, with sixteen rows but for the last.
async fn many_cards(phone: &Phone) {
    phone.goto("/cards").await;
    phone.tap_words("Make cards of").await;
    phone.says("US Letter instead").await;
    for (paper, other) in [("a4", "US Letter instead"), ("letter", "A4 instead")] {
        let cards = phone.texts(".card-page").await.len();
        assert!(cards > 4, "{cards} cards");
        assert_eq!(phone.print(&format!("cards-{paper}")).await.pages.len(), cards, "{paper}");
        phone.tap_words(other).await;
        phone.says(if paper == "a4" { "A4 instead" } else { "US Letter instead" }).await;
    }
}

/// Each lot's mark stands in the list, and each cell's mark or number in its cell.
async fn every_lot_is_told(phone: &Phone, mark: &str) {
    let script = "
        const text = e => e.textContent.trim();
        const told = new Set([...document.querySelectorAll('.lot-columns .mark')].map(text));
        const numbers = new Set([...document.querySelectorAll('.lot-columns b')].map(text));
        const joined = [...document.querySelectorAll('.tray-drawn .m')].map(text);
        return JSON.stringify(joined.filter(m => !told.has(m) && !numbers.has(m) && ![...told].some(t => t.split(' ').includes(m) || t.startsWith(m))));";
    assert_eq!(phone.reads(script, "").await, "[]", "{mark}: what stands in cells and not in the list");
}
