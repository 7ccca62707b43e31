mod outcomes;

use crate::support::{Browser, Club, Page};
use axum::http::StatusCode;
use hilum::args;
use hilum::db::FromRow;
use hilum::db::ids::{BagId, PlantingId, TrayId};
use hilum::error::AppError;
use hilum::notebook::{Act, void};
use hilum::trays::model::Found;
use hilum::trays::store::{self, NewTray, Plan};

#[derive(FromRow)]
struct Number {
    n: i64,
}

#[derive(FromRow)]
struct Named {
    id: String,
}

async fn number(club: &Club, sql: &'static str, id: &str) -> i64 {
    let row: Number = club.app.db.read().await.unwrap().one(sql, args![id]).await.unwrap();
    row.n
}

const ENDED: &str = "SELECT ended AS n FROM bags WHERE id = $1";
const UNROOTED: &str = "SELECT sown_unrooted AS n FROM bags WHERE id = $1";
const HELD: &str = "SELECT COUNT(*) AS n FROM tray_cells WHERE tray_id = $1";
const LIVE: &str = "SELECT COUNT(*) AS n FROM plantings WHERE tray_id = $1 AND NOT voided";
const PLANTED: &str = "SELECT id FROM plantings WHERE bag_id = $1 AND NOT voided ORDER BY planted_at, cell";
const ENTRY_OF_PLANTING: &str = "SELECT id FROM entries WHERE planting_id = $1 ORDER BY id LIMIT 1";
const LOOK_OF_BAG: &str = "SELECT id FROM entries WHERE bag_id = $1 AND what = 'look' ORDER BY id LIMIT 1";

async fn ids(club: &Club, sql: &'static str, id: &str) -> Vec<String> {
    let rows: Vec<Named> = club.app.db.read().await.unwrap().all(sql, args![id]).await.unwrap();
    rows.into_iter().map(|r| r.id).collect()
}

/// A bag of 10 seeds, `rooted` of them rooted a day after.
async fn bag(club: &Club, owner: &Browser, variety: &str, rooted: i64) -> BagId {
    let packet = club.packet(owner, variety, 30).await;
    let trial = club.trial(owner, &packet, 10).await;
    let bag = club.bag(owner, &trial, 10).await;
    club.pass_days(1);
    if rooted > 0 {
        club.look(owner, &bag, rooted, 0).await;
    }
    club.pass_minutes(5);
    bag
}

async fn tray(club: &Club, owner: &Browser, rows: i64, cols: i64) -> TrayId {
    let mut conn = club.app.db.write().await.unwrap();
    let new = NewTray { name: "", rows, cols, place: "" };
    let (id, _) = store::make(&mut conn, owner.id(), &new, club.app.now()).await.unwrap();
    conn.commit().await.unwrap();
    id
}

async fn plant(club: &Club, owner: &Browser, bag: &BagId, tray: &TrayId, seeds: i64) -> Vec<PlantingId> {
    let mut conn = club.app.db.write().await.unwrap();
    let act = Act::new(owner.id(), "planting of a test", club.app.now(), club.app.now());
    let plan = Plan { bag, tray, seeds, per_cell: 1, from: None, unrooted: false, over: None };
    let placed = store::plant(&mut conn, &act, &plan).await.unwrap();
    conn.commit().await.unwrap();
    placed.into_iter().map(|p| p.planting).collect()
}

async fn outcome(club: &Club, owner: &Browser, id: &PlantingId, found: &[Found]) -> Result<(), AppError> {
    let mut conn = club.app.db.write().await.unwrap();
    let act = Act::new(owner.id(), "outcome of a test", club.app.now(), club.app.now());
    store::outcome(&mut conn, &act, id, found).await?;
    conn.commit().await.unwrap();
    Ok(())
}

async fn take_back(club: &Club, owner: &Browser, entry: &str) -> Result<(), AppError> {
    let mut conn = club.app.db.write().await.unwrap();
    void::entry(&mut conn, owner.id(), entry, "a slip", club.app.now()).await?;
    conn.commit().await.unwrap();
    Ok(())
}

async fn plant_page(owner: &Browser, bag: &BagId) -> (Page, String) {
    let action = format!("/bags/{bag}/plant");
    (owner.get(&action).await, action)
}

#[tokio::test]
async fn a_published_tray_is_made_and_drawn() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let page = ines.get("/trays/new").await;
    page.says("128 cells: 8 across, 16 down").says("grower supply catalogue pages").says("279 x 539 mm");
    let made = ines
        .submit(&page, "/trays/new", &[("geometry", "16x8"), ("name", "Long one"), ("place", "sill")])
        .await;
    made.says("IB T1").says("Long one").says("sill").says("Next free cell: A1");
    assert_eq!(made.all(".tray .cell").len(), 128);
    ines.get("/trays").await.says("IB T1");
    let second = ines.submit(&ines.get("/trays/new").await, "/trays/new", &[]).await;
    second.says("IB T2").says("72: 6 across, 12 down");
}

#[tokio::test]
async fn any_geometry_is_taken_within_bounds() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let page = ines.get("/trays/new").await;
    let own = |rows, cols| vec![("geometry", "own"), ("rows", rows), ("cols", cols), ("name", "Odd")];
    let wrong = ines.submit(&page, "/trays/new", &own("61", "3")).await;
    wrong.refuses("rows", "from 1 to 60");
    assert!(wrong.body.contains("Odd"), "what was typed stays");
    ines.submit(&page, "/trays/new", &own("3", "")).await.refuses("cols", "give a number");
    ines.submit(&page, "/trays/new", &[("geometry", "9x9")]).await.refuses("geometry", "choose a tray");
    let both = [("geometry", "16x8"), ("rows", "5"), ("cols", "7")];
    ines.submit(&page, "/trays/new", &both).await.refuses("geometry", "Rows and columns are given too");
    ines.submit(&page, "/trays/new", &own("5", "7")).await.says("35: 7 across, 5 down");
}

#[tokio::test]
async fn rooted_seeds_go_into_the_next_free_cells_once() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let (first, second) = (bag(&club, &ines, "Rosado", 3).await, bag(&club, &ines, "Kestrel", 5).await);
    let tray = tray(&club, &ines, 3, 4).await;
    let (page, action) = plant_page(&ines, &first).await;
    page.says("3 seeds rooted and not planted yet").says("cells A1 to C1 of IB T1");
    let done = ines.submit(&page, &action, &[]).await;
    done.says("3 seeds of IB 1 a in cells A1 to C1 of IB T1").says("Plant the 5 rooted of IB 2 a");
    let again = ines.submit(&page, &action, &[]).await;
    again.says("Next free cell: D1");
    assert_eq!(number(&club, ENDED, &first.0).await, 3, "a second tap plants nothing more");
    let (page, action) = plant_page(&ines, &second).await;
    let done = ines.submit(&page, &action, &[("seeds", "5"), ("per_cell", "2")]).await;
    done.says("5 seeds of IB 2 a in cells D1 to B2").says("Lots in this tray").says("waiting, 2 seeds");
    assert_eq!(number(&club, HELD, &tray.0).await, 6);
    assert_eq!(done.all(".tray .next"), ["C2 next free"]);
    let history = ines.get(&format!("/bags/{first}")).await;
    for cell in ["A1", "B1", "C1"] {
        history.says(&format!("planted: 1 seed in IB T1, cell {cell}"));
    }
}

#[tokio::test]
async fn more_than_rooted_or_than_free_is_refused() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let bag = bag(&club, &ines, "Rosado", 4).await;
    tray(&club, &ines, 1, 3).await;
    let (page, action) = plant_page(&ines, &bag).await;
    page.says("Only 3 cells are free");
    let more = ines.submit(&page, &action, &[("seeds", "5"), ("cell", "B1")]).await;
    more.refuses("seeds", "IB 1 a has 4 seeds rooted and not planted or ended yet");
    assert!(more.body.contains(r#"value="B1""#), "what was typed stays");
    ines.submit(&page, &action, &[("seeds", "4")]).await.refuses("seeds", "Only 3 cells are free.");
    ines.submit(&page, &action, &[("seeds", "0")]).await.refuses("seeds", "from 1 to");
    ines.submit(&page, &action, &[("cell", "D9")]).await.refuses("cell", "go from A1 to C1");
    ines.submit(&page, &action, &[("tray", "none")]).await.refuses("tray", "Choose a tray");
    ines.submit(&page, &action, &[("at", "2026-03-02T09:30"), ("seeds", "3")])
        .await
        .says_not("in cells A1")
        .says_not("Internal");
    let before = ines.submit(&page, &action, &[("at", "2026-03-02T09:30"), ("seeds", "3")]).await;
    assert_eq!(before.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(before.text().contains("more rooted seeds were planted"), "{}", before.text());
    assert_eq!(number(&club, ENDED, &bag.0).await, 0);
    ines.submit(&page, &action, &[("seeds", "4"), ("per_cell", "2")]).await.says("in cells A1 to B1");
}

#[tokio::test]
async fn a_look_at_the_cells_saves_nothing() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let bag = bag(&club, &ines, "Rosado", 4).await;
    let tray = tray(&club, &ines, 3, 3).await;
    let (page, action) = plant_page(&ines, &bag).await;
    let pairs = page.form(&action).filled(&[("cell", "b2"), ("seeds", "3")]);
    let mut pairs: Vec<(&str, &str)> = pairs.iter().map(|(n, v)| (n.as_str(), v.as_str())).collect();
    pairs.push(("show", "yes"));
    ines.post(&action, &pairs).await.says("3 seeds, 1 to a cell: cells B2 to A3 of IB T1");
    assert_eq!(number(&club, LIVE, &tray.0).await, 0);
}

#[tokio::test]
async fn two_people_never_share_a_cell() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    for round in 0..4 {
        let (one, two) = (bag(&club, &ines, "Rosado", 2).await, bag(&club, &ines, "Kestrel", 2).await);
        let tray = tray(&club, &ines, 4, 4).await;
        let ((p1, a1), (p2, a2)) = (plant_page(&ines, &one).await, plant_page(&ines, &two).await);
        let named = [("tray", tray.0.as_str()), ("cell", "B2"), ("seeds", "1")];
        let next = [("tray", tray.0.as_str()), ("seeds", "1")];
        let (x, y) = tokio::join!(ines.submit(&p1, &a1, &named), ines.submit(&p2, &a2, &named));
        let (won, lost) = if x.status == StatusCode::OK { (x, y) } else { (y, x) };
        won.says("B2");
        lost.refuses("cell", "Cell B2 holds");
        let ((p1, a1), (p2, a2)) = (plant_page(&ines, &one).await, plant_page(&ines, &two).await);
        let (x, y) = tokio::join!(ines.submit(&p1, &a1, &next), ines.submit(&p2, &a2, &next));
        assert_eq!((x.status, y.status), (StatusCode::OK, StatusCode::OK), "round {round}");
        assert_eq!(number(&club, HELD, &tray.0).await, 3, "next free: each got its own");
    }
}

#[tokio::test]
async fn one_bag_is_not_planted_twice_at_once() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    for _ in 0..4 {
        let one = bag(&club, &ines, "Rosado", 3).await;
        let (left, right) = (tray(&club, &ines, 2, 2).await, tray(&club, &ines, 2, 2).await);
        let ((p1, action), (p2, _)) = (plant_page(&ines, &one).await, plant_page(&ines, &one).await);
        let (l, r) =
            ([("tray", left.0.as_str()), ("seeds", "2")], [("tray", right.0.as_str()), ("seeds", "2")]);
        let (x, y) = tokio::join!(ines.submit(&p1, &action, &l), ines.submit(&p2, &action, &r));
        let refused = [&x, &y].iter().filter(|p| p.status == StatusCode::UNPROCESSABLE_ENTITY).count();
        assert_eq!(refused, 1, "3 rooted are not 4: {} / {}", x.text(), y.text());
        assert_eq!(number(&club, ENDED, &one.0).await, 2);
    }
}

#[tokio::test]
async fn marks_of_trays_are_never_given_twice() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let page = ines.get("/trays/new").await;
    let other = ines.get("/trays/new").await;
    let (x, y) = tokio::join!(ines.submit(&page, "/trays/new", &[]), ines.submit(&other, "/trays/new", &[]));
    assert_ne!(x.all("h1"), y.all("h1"));
    let again = ines.submit(&page, "/trays/new", &[]).await;
    assert_eq!(again.all("h1"), x.all("h1"), "the same form makes one tray");
    assert_eq!(ines.get("/trays").await.all("tbody tr").len(), 2);
}

#[tokio::test]
async fn replanting_ends_the_old_planting_and_keeps_its_history() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let (first, second) = (bag(&club, &ines, "Rosado", 2).await, bag(&club, &ines, "Kestrel", 2).await);
    let tray = tray(&club, &ines, 2, 2).await;
    let old = plant(&club, &ines, &first, &tray, 2).await;
    club.pass_days(10);
    let (page, action) = plant_page(&ines, &second).await;
    ines.submit(&page, &action, &[("cell", "A1"), ("seeds", "1")])
        .await
        .refuses("cell", "Cell A1 holds IB 1 a");
    ines.submit(&page, &action, &[("over", "yes")]).await.refuses("cell", "Name the first cell");
    let over = [("cell", "A1"), ("seeds", "1"), ("over", "yes"), ("why", "nothing came up")];
    ines.submit(&page, &action, &over).await.says("1 seed of IB 2 a in cell A1");
    let past = ines.get(&format!("/plantings/{}", old[0])).await;
    past.says("ended: nothing came up")
        .says("ended (nothing came up)")
        .says("planted: 1 seed")
        .says("IB 2 a");
    assert_eq!(number(&club, HELD, &tray.0).await, 2);
    let new = ids(&club, PLANTED, &second.0).await;
    ines.get(&format!("/plantings/{}", new[0])).await.says("Other plantings of cell A1").says("IB 1 a");
    // taking the replanting back gives the cell to the old one again
    let entry = ids(&club, ENTRY_OF_PLANTING, &new[0]).await;
    take_back(&club, &ines, &entry[0]).await.unwrap();
    assert_eq!(number(&club, HELD, &tray.0).await, 2);
    assert_eq!(number(&club, ENDED, &second.0).await, 0, "the rooted seed is free again");
    ines.get(&format!("/plantings/{}", old[0])).await.says("State waiting").says("What is new");
}

#[tokio::test]
async fn a_voided_planting_frees_its_cell_and_its_seed() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let bag = bag(&club, &ines, "Rosado", 3).await;
    let tray = tray(&club, &ines, 2, 2).await;
    let planted = plant(&club, &ines, &bag, &tray, 3).await;
    let entry = ids(&club, ENTRY_OF_PLANTING, &planted[1].0).await;
    take_back(&club, &ines, &entry[0]).await.unwrap();
    assert_eq!((number(&club, HELD, &tray.0).await, number(&club, ENDED, &bag.0).await), (2, 2));
    ines.get(&format!("/trays/{tray}")).await.says("Next free cell: B1");
    ines.get(&format!("/plantings/{}", planted[1])).await.says("Taken back by Ines: a slip");
    // and a cell whose planting has outcomes is not pulled away from under them
    outcome(&club, &ines, &planted[0], &[Found::new("up", 1, "")]).await.unwrap();
    let entry = ids(&club, ENTRY_OF_PLANTING, &planted[0].0).await;
    let refused = take_back(&club, &ines, &entry[0]).await.unwrap_err().to_string();
    assert!(refused.contains("The outcome of IB 1 a in IB T1, cell A1"), "{refused}");
}

#[tokio::test]
async fn a_look_that_planted_seeds_stand_on_stays() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let bag = bag(&club, &ines, "Rosado", 3).await;
    let tray = tray(&club, &ines, 2, 2).await;
    plant(&club, &ines, &bag, &tray, 2).await;
    let look = ids(&club, LOOK_OF_BAG, &bag.0).await;
    let refused = take_back(&club, &ines, &look[0]).await.unwrap_err().to_string();
    assert!(refused.contains("The planting of IB 1 a in IB T1, cell A1 on 3 Mar 2026"), "{refused}");
    assert_eq!(number(&club, ENDED, &bag.0).await, 2);
}

#[tokio::test]
async fn a_freed_cell_that_was_planted_again_is_not_given_back() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let bag = bag(&club, &ines, "Rosado", 3).await;
    let tray = tray(&club, &ines, 1, 1).await;
    let planted = plant(&club, &ines, &bag, &tray, 1).await;
    outcome(&club, &ines, &planted[0], &[Found::new("lost", 1, "eaten")]).await.unwrap();
    club.pass_minutes(5);
    plant(&club, &ines, &bag, &tray, 1).await;
    const LOST: &str = "SELECT id FROM entries WHERE planting_id = $1 AND what = 'outcome'";
    let entry = ids(&club, LOST, &planted[0].0).await;
    let refused = take_back(&club, &ines, &entry[0]).await.unwrap_err().to_string();
    assert!(refused.contains("That cell holds another planting by now"), "{refused}");
    ines.get(&format!("/plantings/{}", planted[0])).await.says("lost: eaten");
}
