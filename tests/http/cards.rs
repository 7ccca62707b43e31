use crate::support::{Browser, Club, Page};
use axum::http::StatusCode;
use hilum::db::ids::{BagId, TrialId};
use hilum::notebook::bag;
use hilum::web::code;

/// Jo's two bags of 10 seeds, on paper since 2 March; it is 7 March.
struct Shed {
    club: Club,
    jo: Browser,
    trial: TrialId,
    bags: Vec<BagId>,
}

impl Shed {
    async fn new() -> Self {
        let club = Club::new().await;
        let jo = club.grower("Jo", "JB").await;
        let packet = club.packet(&jo, "Kestrel", 400).await;
        let trial = club.trial(&jo, &packet, 300).await;
        let bags = vec![club.bag(&jo, &trial, 10).await, club.bag(&jo, &trial, 10).await];
        club.pass_days(5);
        Self { club, jo, trial, bags }
    }

    /// Makes a card of all open bags; gives the page to type it in.
    async fn card(&self) -> Page {
        let list = self.jo.get("/cards").await;
        let printed = self.jo.submit(&list, "/cards", &[]).await;
        printed.says("for 2 bags.");
        self.jo.get(&self.jo.get("/cards").await.link("Type in card 1")).await
    }

    async fn sums(&self, n: usize) -> bag::Sums {
        let mut conn = self.club.app.db.read().await.unwrap();
        bag::sums(&mut conn, &self.bags[n]).await.unwrap().unwrap()
    }

    async fn counted(&self) -> [(i64, i64); 2] {
        let (a, b) = (self.sums(0).await, self.sums(1).await);
        [(a.rooted, a.dead), (b.rooted, b.dead)]
    }
}

#[tokio::test]
async fn a_card_is_printed_in_rows_and_its_code_opens_the_same_rows() {
    let shed = Shed::new().await;
    let list = shed.jo.get("/cards").await;
    let printed = shed.jo.submit(&list, "/cards", &[]).await;
    printed.says("1 card for 2 bags.").says("Card 1, Jo").says("10 of 10");
    assert_eq!(printed.all(".card-page tbody td.which"), ["JB 1 a", "JB 1 b"]);
    assert_eq!(printed.all(".card-page.a4").len(), 1);
    assert!(printed.body.contains(&code::symbol("http://127.0.0.1:8420/C/JB-1").unwrap().path));
    let letter = shed.jo.get(&printed.link("US Letter instead")).await;
    assert_eq!(letter.all(".card-page.letter").len(), 1);
    let typing = shed.jo.get("/C/JB-1").await;
    typing.says("Type in card 1");
    assert_eq!(typing.all("tbody th .mark"), ["JB 1 a", "JB 1 b"]);
    assert_eq!(typing.all("input[type=date]").len(), 7);
    assert_eq!(shed.jo.get("/c/jb-1").await.status, StatusCode::NOT_FOUND);
    assert_eq!(shed.jo.get("/C/JB-2").await.status, StatusCode::NOT_FOUND);
    assert_eq!(shed.jo.get("/cards/print?card=x").await.status, StatusCode::NOT_FOUND);
    shed.jo.get("/cards/print").await.says("No card was chosen.");
}

#[tokio::test]
async fn many_bags_make_several_cards_of_sixteen_and_a_form_sent_twice_makes_none_more() {
    let shed = Shed::new().await;
    for _ in 0..15 {
        shed.club.bag(&shed.jo, &shed.trial, 5).await;
    }
    let list = shed.jo.get("/cards").await;
    for _ in 0..2 {
        let printed = shed.jo.submit(&list, "/cards", &[("place", "")]).await;
        assert_eq!(printed.all(".card-page").len(), 2);
        assert_eq!(printed.all(".card-page tbody tr").len(), 17);
    }
    assert_eq!(shed.jo.get("/cards").await.all(".lines li").len(), 2);
    let list = shed.jo.get("/cards").await;
    let none = shed.jo.submit(&list, "/cards", &[("place", "mat"), ("holder", "")]).await;
    none.says("2 cards for 17 bags.");
    let mut pairs = list.form("/cards").filled(&[]);
    pairs.retain(|(n, _)| n != "place");
    let pairs: Vec<(&str, &str)> = pairs.iter().map(|(n, v)| (n.as_str(), v.as_str())).collect();
    let form = [&pairs[..], &[("place", "cellar")]].concat();
    let fresh: Vec<(&str, &str)> =
        form.into_iter().map(|(n, v)| (n, if n == "key" { "0123456789abcdef" } else { v })).collect();
    shed.jo.post("/cards", &fresh).await.refuses("place", "No open bag with seeds on paper is there.");
}

#[tokio::test]
async fn a_whole_card_is_one_save_and_empty_cells_were_not_looked_at() {
    let shed = Shed::new().await;
    let page = shed.card().await;
    let fields = [
        ("date-1", "2026-03-04"),
        ("date-2", "2026-03-06"),
        ("rooted-1-1", "2"),
        ("dead-1-2", "1"),
        ("rooted-2-2", "0"),
    ];
    let saved = shed.jo.submit(&page, &page.path, &fields).await;
    saved.says("Card 1 is in the book: 2 counts with 2 rooted, 1 dead; 1 look with nothing new.");
    shed.jo.submit(&page, &page.path, &fields).await;
    assert_eq!(shed.counted().await, [(2, 1), (0, 0)], "sent twice, counted once");
    // noon of the day, by the club's clock
    assert_eq!(shed.sums(1).await.looked_at, Some(1_772_438_400 + 4 * 86_400 + 3 * 3600));
    let other = [("date-1", "2026-03-05"), ("rooted-1-1", "7")];
    let conflict = shed.jo.submit(&page, &page.path, &other).await;
    assert_eq!(conflict.status, StatusCode::CONFLICT, "the same key with other values");
    // all of it falls together
    shed.jo.submit(&saved, "/undo", &[]).await.says("Undone.");
    assert_eq!(shed.counted().await, [(0, 0), (0, 0)]);
    assert_eq!(shed.sums(1).await.looked_at, None);
}

#[tokio::test]
async fn what_is_wrong_stays_beside_its_cell_and_nothing_is_saved_by_half() {
    let shed = Shed::new().await;
    let page = shed.card().await;
    let wrong = [
        ("date-1", "2026-03-04"),
        ("date-2", "2026-03-08"),
        ("rooted-1-1", "2"),
        ("rooted-2-1", "many"),
        ("rooted-1-2", "1"),
        ("dead-2-3", "1"),
    ];
    let back = shed.jo.submit(&page, &page.path, &wrong).await;
    back.refuses("date-2", "in the future").refuses("date-3", "give the date");
    back.refuses("rooted-2-1", "A whole number");
    let kept = back.form(&page.path).filled(&[]);
    for (name, value) in wrong {
        assert!(kept.contains(&(name.to_owned(), value.to_owned())), "{name} is lost");
    }
    let too_many = [
        ("date-2", "2026-03-05"),
        ("date-3", ""),
        ("dead-2-3", ""),
        ("rooted-2-1", "6"),
        ("rooted-2-2", "5"),
    ];
    let back = shed.jo.submit(&back, &page.path, &too_many).await;
    back.refuses("rooted-2-2", "That is 5 seeds, but 4 seeds still on paper");
    assert_eq!(shed.counted().await, [(0, 0), (0, 0)]);
    let early = [("date-2", "2026-03-01"), ("rooted-2-2", "")];
    let back = shed.jo.submit(&back, &page.path, &early).await;
    back.refuses("rooted-1-2", "JB 1 a is on paper only since Mon 2 Mar.");
    let twice = shed.jo.submit(&back, &page.path, &[("date-2", "2026-03-04")]).await;
    twice.refuses("date-2", "stands over another column");
    let saved = shed.jo.submit(&twice, &page.path, &[("date-2", "2026-03-02")]).await;
    saved.says("3 counts with 9 rooted, 0 dead");
    assert_eq!(shed.counted().await, [(3, 0), (6, 0)]);
}

#[tokio::test]
async fn an_empty_card_is_refused_and_a_check_saves_nothing() {
    let shed = Shed::new().await;
    let page = shed.card().await;
    shed.jo.submit(&page, &page.path, &[]).await.refuses("date-1", "Type a date");
    let mut check = page.form(&page.path).filled(&[("date-1", "2026-03-04"), ("rooted-1-1", "2")]);
    check.push(("do".into(), "check".into()));
    let check: Vec<(&str, &str)> = check.iter().map(|(n, v)| (n.as_str(), v.as_str())).collect();
    let checked = shed.jo.post(&page.path, &check).await;
    checked.says("Nothing is wrong with it. It is not saved yet.");
    assert_eq!(shed.counted().await, [(0, 0), (0, 0)]);
    shed.jo.submit(&checked, &page.path, &[]).await.says("1 count with 2 rooted");
    assert_eq!(shed.counted().await, [(2, 0), (0, 0)]);
}

#[tokio::test]
async fn a_day_counted_before_is_said_and_counted_again_only_when_told_so() {
    let shed = Shed::new().await;
    let first = shed.card().await;
    let fields = [("date-1", "2026-03-04"), ("rooted-1-1", "2"), ("rooted-2-1", "1")];
    shed.jo.submit(&first, &first.path, &fields).await.says("3 rooted");
    let page = shed.jo.get(&first.path).await;
    let back = shed.jo.submit(&page, &page.path, &fields).await;
    back.refuses("again-1-1", "Counted on Wed 4 Mar already: 2 rooted, 0 dead.");
    back.refuses("again-2-1", "Counted on Wed 4 Mar already: 1 rooted, 0 dead.");
    assert_eq!(shed.counted().await, [(2, 0), (1, 0)]);
    let saved = shed.jo.submit(&back, &page.path, &[("again-1-1", "yes"), ("rooted-2-1", "")]).await;
    saved.says("1 count with 2 rooted");
    assert_eq!(shed.counted().await, [(4, 0), (1, 0)]);
}

#[tokio::test]
async fn a_bag_that_changed_meanwhile_or_was_closed_is_told_beside_its_row() {
    let shed = Shed::new().await;
    let page = shed.card().await;
    shed.club.look(&shed.jo, &shed.bags[0], 1, 0).await;
    let close = shed.jo.get(&format!("/bags/{}/close", shed.bags[1])).await;
    shed.jo.submit(&close, &close.path, &[("fresh", "10")]).await;
    assert!(shed.sums(1).await.closed_at.is_some(), "the bag is closed");
    let fields = [("date-1", "2026-03-04"), ("rooted-1-1", "2"), ("rooted-2-1", "1")];
    let back = shed.jo.submit(&page, &page.path, &fields).await;
    back.refuses("rooted-1-1", "Since you opened this page something was saved of JB 1 a");
    assert_eq!(back.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(back.text().contains("The bag JB 1 b is closed"), "{}", back.text());
    assert!(back.text().contains("Closed, or not with you any more."));
    shed.jo.submit(&back, &page.path, &[]).await.says("1 count with 2 rooted");
    assert_eq!(shed.sums(0).await.rooted, 3);
}

#[tokio::test]
async fn the_page_has_as_many_dates_as_asked() {
    let shed = Shed::new().await;
    let page = shed.card().await;
    for (asked, dates) in [("1", 1), ("3", 3), ("7", 7), ("8", 7), ("0", 7), ("x", 7)] {
        let page = shed.jo.get(&format!("{}?dates={asked}", page.path)).await;
        assert_eq!(page.all("input[type=date]").len(), dates, "{asked}");
        assert_eq!(page.all("tbody input[inputmode]").len(), 2 * 2 * dates, "{asked}");
    }
}

#[tokio::test]
async fn cards_of_others_are_not_found() {
    let shed = Shed::new().await;
    let page = shed.card().await;
    let kim = shed.club.grower("Kim", "KR").await;
    let fields = [("key", "0123456789abcdef"), ("date-1", "2026-03-04"), ("rooted-1-1", "2")];
    assert_eq!(kim.get(&page.path).await.status, StatusCode::NOT_FOUND);
    assert_eq!(kim.post(&page.path, &fields).await.status, StatusCode::NOT_FOUND);
    assert_eq!(kim.get("/C/JB-1").await.status, StatusCode::NOT_FOUND);
    let id = page.path.rsplit('/').next().unwrap();
    assert_eq!(kim.get(&format!("/cards/print?card={id}")).await.status, StatusCode::NOT_FOUND);
    kim.get("/cards").await.says("No bag of yours has seeds on paper now.");
    assert_eq!(shed.counted().await, [(0, 0), (0, 0)]);
}
