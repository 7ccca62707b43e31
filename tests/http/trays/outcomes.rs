use super::*;

#[tokio::test]
async fn unrooted_seeds_are_sown_as_not_known() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let bag = bag(&club, &ines, "Rosado", 4).await;
    let tray = tray(&club, &ines, 3, 4).await;
    let action = format!("/bags/{bag}/plant");
    let page = ines.get(&format!("{action}?unrooted=yes")).await;
    page.says("6 seeds still on paper").says("not known, not as failed");
    ines.submit(&page, &action, &[("seeds", "7")]).await.refuses("seeds", "6 seeds still on paper, not more");
    ines.submit(&page, &action, &[("seeds", "6"), ("per_cell", "3")])
        .await
        .says("6 seeds of IB 1 a in cells A1 to B1");
    assert_eq!((number(&club, UNROOTED, &bag.0).await, number(&club, ENDED, &bag.0).await), (6, 0));
    const FLAGGED: &str = "SELECT COUNT(*) AS n FROM plantings WHERE tray_id = $1 AND unrooted";
    assert_eq!(number(&club, FLAGGED, &tray.0).await, 2);
    let planted = ids(&club, PLANTED, &bag.0).await;
    ines.get(&format!("/plantings/{}", planted[0]))
        .await
        .says("Sown unrooted")
        .says("sown unrooted: 3 seeds");
    let entry = ids(&club, ENTRY_OF_PLANTING, &planted[0]).await;
    take_back(&club, &ines, &entry[0]).await.unwrap();
    assert_eq!(number(&club, UNROOTED, &bag.0).await, 3);
}

#[tokio::test]
async fn outcomes_are_numbers_and_never_more_than_planted() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let bag = bag(&club, &ines, "Rosado", 3).await;
    let tray = tray(&club, &ines, 2, 2).await;
    let (page, action) = plant_page(&ines, &bag).await;
    ines.submit(&page, &action, &[("per_cell", "3")]).await.says("waiting, 3 seeds");
    let id = ids(&club, PLANTED, &bag.0).await.remove(0);
    let (path, save) = (format!("/plantings/{id}"), format!("/plantings/{id}/outcomes"));
    let page = ines.get(&path).await;
    ines.submit(&page, &save, &[]).await.refuses("up", "Give a number above 0");
    ines.submit(&page, &save, &[("lost", "1"), ("why", "other")]).await.refuses("why_other", "fill this in");
    ines.submit(&page, &save, &[("up", "-1")]).await.refuses("up", "from 0 to");
    let more = ines.submit(&page, &save, &[("up", "4")]).await;
    assert_eq!(more.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(more.text().contains("more seeds than were planted"), "{}", more.text());
    assert!(more.body.contains(r#"value="4""#), "what was typed stays");
    ines.submit(&page, &save, &[("up", "2")]).await.says("State 2 of 3 up");
    ines.submit(&page, &save, &[("up", "2")]).await.says("State 2 of 3 up");
    let page = ines.get(&path).await;
    let never = ines.submit(&page, &save, &[("lost", "2"), ("why", "did not come up")]).await;
    assert_eq!(never.status, StatusCode::UNPROCESSABLE_ENTITY, "2 up and 2 that never came are 4");
    ines.submit(&page, &save, &[("thinned", "1"), ("lost", "1"), ("why", "did not come up")])
        .await
        .says("2 of 3 up, 1 lost, 1 thinned");
    let page = ines.get(&path).await;
    ines.submit(&page, &save, &[("potted", "1")]).await.says("State 1 potted on").says_not("What is new");
    assert_eq!(number(&club, HELD, &tray.0).await, 0, "nothing is left in the cell");
    let late =
        outcome(&club, &ines, &PlantingId(id), &[Found::new("up", 1, "")]).await.unwrap_err().to_string();
    assert!(late.contains("more seeds than") || late.contains("had ended"), "{late}");
}

#[tokio::test]
async fn a_whole_tray_is_noted_in_one_save() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let (first, second) = (bag(&club, &ines, "Rosado", 3).await, bag(&club, &ines, "Kestrel", 2).await);
    let tray = tray(&club, &ines, 2, 3).await;
    plant(&club, &ines, &first, &tray, 3).await;
    let (page, action) = plant_page(&ines, &second).await;
    ines.submit(&page, &action, &[("per_cell", "2")]).await.says("waiting, 2 seeds");
    club.pass_days(6);
    let path = format!("/trays/{tray}/outcomes");
    let page = ines.get(&path).await;
    ines.submit(&page, &path, &[]).await.refuses("planting", "Tick at least one cell");
    let ticked = ines.get(&format!("{path}?bag={first}")).await;
    let done = ines.submit(&ticked, &path, &[("sort", "up")]).await;
    done.says("3 cells noted: up.");
    ines.submit(&ticked, &path, &[("sort", "up")]).await;
    const UP: &str = "SELECT CAST(SUM(up) AS BIGINT) AS n FROM plantings WHERE tray_id = $1";
    assert_eq!(number(&club, UP, &tray.0).await, 3, "a second tap notes nothing more");
    let ticked = ines.get(&format!("{path}?bag={first}")).await;
    ines.submit(&ticked, &path, &[("sort", "up")]).await.refuses("planting", "nothing left to note");
    let other = ines.get(&format!("{path}?bag={second}")).await;
    ines.submit(&other, &path, &[("sort", "potted on")])
        .await
        .refuses("planting", "Cell A2: of 2 seeds it is not noted");
    ines.submit(&other, &path, &[("sort", "lost"), ("why", "damped off")])
        .await
        .says("free; was lost: damped off");
    ines.submit(&ticked, &path, &[("sort", "potted on")]).await.says("3 cells noted: potted on");
    assert_eq!(number(&club, HELD, &tray.0).await, 0);
}

#[tokio::test]
async fn an_undone_save_leaves_no_trace_in_the_cells() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let bag = bag(&club, &ines, "Rosado", 3).await;
    let tray = tray(&club, &ines, 2, 2).await;
    plant(&club, &ines, &bag, &tray, 3).await;
    let mut conn = club.app.db.write().await.unwrap();
    void::save(&mut conn, ines.id(), "planting of a test", club.app.now()).await.unwrap();
    conn.commit().await.unwrap();
    assert_eq!((number(&club, HELD, &tray.0).await, number(&club, ENDED, &bag.0).await), (0, 0));
}

#[tokio::test]
async fn a_tray_is_finished_and_taken_into_use_again() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let bag = bag(&club, &ines, "Rosado", 3).await;
    let tray = tray(&club, &ines, 2, 2).await;
    plant(&club, &ines, &bag, &tray, 2).await;
    let (path, finish) = (format!("/trays/{tray}"), format!("/trays/{tray}/finish"));
    let page = ines.get(&path).await;
    ines.submit(&page, &format!("{path}/place"), &[("place", "cold frame")]).await.says("at cold frame now");
    ines.submit(&page, &finish, &[]).await.refuses("end", "2 cells still hold seeds or plants");
    ines.submit(&page, &finish, &[("end", "yes"), ("why", "planted out")])
        .await
        .says("2 plantings ended: planted out")
        .says("Finished");
    let (form, action) = plant_page(&ines, &bag).await;
    form.says("No tray is in use");
    let stale = [
        ("tray", tray.0.as_str()),
        ("seeds", "1"),
        ("per_cell", "1"),
        ("over", ""),
        ("key", "0123456789abcdef"),
    ];
    ines.post(&action, &stale).await.says_not("1 seed of");
    assert_eq!(number(&club, ENDED, &bag.0).await, 2);
    let page = ines.get(&path).await;
    ines.submit(&page, &format!("{path}/reopen"), &[]).await.says("in use again");
    plant_page(&ines, &bag).await.0.says("cell A1");
}

#[tokio::test]
async fn strangers_find_nothing() {
    let club = Club::new().await;
    let (ines, mara) = (club.grower("Ines", "IB").await, club.organiser("Mara", "MO").await);
    let bag = bag(&club, &ines, "Rosado", 3).await;
    let tray = tray(&club, &ines, 2, 2).await;
    let planted = plant(&club, &ines, &bag, &tray, 1).await.remove(0);
    tray_of(&club, &mara).await;
    let paths = [
        format!("/trays/{tray}"),
        format!("/trays/{tray}/sheet"),
        format!("/trays/{tray}/outcomes"),
        format!("/bags/{bag}/plant"),
        format!("/plantings/{planted}"),
        "/T/IBT1".to_owned(),
        "/T/NONE".to_owned(),
    ];
    for path in paths {
        assert_eq!(mara.get(&path).await.status, StatusCode::NOT_FOUND, "{path}");
    }
    let key = ("key", "0123456789abcdef0123");
    let posts = [
        (format!("/trays/{tray}/place"), vec![("place", "mine")]),
        (format!("/trays/{tray}/finish"), vec![("end", "yes")]),
        (format!("/trays/{tray}/reopen"), vec![]),
        (format!("/trays/{tray}/outcomes"), vec![("sort", "up"), ("planting", planted.0.as_str())]),
        (format!("/bags/{bag}/plant"), vec![("seeds", "1")]),
        (format!("/plantings/{planted}/outcomes"), vec![("up", "1")]),
        (format!("/plantings/{planted}/end"), vec![("end_why", "mine")]),
    ];
    for (path, mut fields) in posts {
        fields.push(key);
        assert_eq!(mara.post(&path, &fields).await.status, StatusCode::NOT_FOUND, "{path}");
    }
    mara.get("/trays").await.says_not("IB T1");
    assert_eq!(ines.get("/T/ibt1").await.path, format!("/trays/{tray}"));
    // nor can a member plant a bag of their own into a tray of another's
    let own = self::bag(&club, &mara, "Kestrel", 2).await;
    let (page, action) = plant_page(&mara, &own).await;
    mara.submit(&page, &action, &[("tray", tray.0.as_str())]).await.refuses("tray", "Choose a tray");
}

async fn tray_of(club: &Club, owner: &Browser) -> TrayId {
    tray(club, owner, 2, 2).await
}

#[tokio::test]
async fn trays_wait_for_news_after_a_week() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let bag = bag(&club, &ines, "Rosado", 5).await;
    let (first, second) = (tray(&club, &ines, 2, 2).await, tray(&club, &ines, 2, 2).await);
    let planted = plant(&club, &ines, &bag, &first, 3).await;
    club.pass_days(1);
    plant(&club, &ines, &bag, &second, 1).await;
    let waiting = async || {
        let mut conn = club.app.db.read().await.unwrap();
        let rows = store::waiting(&mut conn, ines.id(), club.app.now()).await.unwrap();
        rows.into_iter().map(|w| (w.mark, w.cells)).collect::<Vec<_>>()
    };
    club.pass_days(5);
    assert!(waiting().await.is_empty());
    club.pass_days(2);
    assert_eq!(waiting().await, [("IB T1".to_owned(), 3), ("IB T2".to_owned(), 1)], "the oldest first");
    outcome(&club, &ines, &planted[0], &[Found::new("up", 1, "")]).await.unwrap();
    assert_eq!(waiting().await[0], ("IB T1".to_owned(), 2));
}

#[tokio::test]
async fn the_sheet_shows_every_cell_and_every_lot() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let (first, second) = (bag(&club, &ines, "Rosado", 3).await, bag(&club, &ines, "Kestrel", 2).await);
    let tray = tray(&club, &ines, 12, 6).await;
    plant(&club, &ines, &first, &tray, 3).await;
    plant(&club, &ines, &second, &tray, 2).await;
    for (paper, class) in [("a4", ".sheet.a4"), ("letter", ".sheet.letter")] {
        let page = ines.get(&format!("/trays/{tray}/sheet?paper={paper}")).await;
        page.says("IB T1").says("Rosado, Testwood Seeds: IB 1 a 3 seeds, 4 Mar");
        assert_eq!(page.all(class).len(), 1);
        assert_eq!(page.all(".tray-drawn .m"), ["IB 1 a", "IB 1 a", "IB 1 a", "IB 2 a", "IB 2 a"]);
        assert_eq!(page.all(".lot-columns li").len(), 2);
        assert!(!page.body.contains("style="), "no inline style passes the policy");
    }
}

#[tokio::test]
async fn a_large_tray_is_one_page_whose_narrow_cells_go_by_numbers() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IBX").await;
    let tray = tray(&club, &ines, 32, 16).await;
    let first = bag(&club, &ines, "Rosado", 1).await;
    let second = bag(&club, &ines, "Kestrel", 1).await;
    plant(&club, &ines, &first, &tray, 1).await;
    plant(&club, &ines, &second, &tray, 1).await;
    for paper in ["a4", "letter"] {
        let page = ines.get(&format!("/trays/{tray}/sheet?paper={paper}")).await;
        assert_eq!(page.all(".sheet").len(), 1);
        assert_eq!(page.all(".sheet > .code svg").len(), 1);
        assert_eq!(page.all(".tray-drawn .m"), ["1", "2"], "IBX 1 a is too long for a cell of 11 mm");
        assert_eq!(page.all(".lot-columns .bag b"), ["1", "2"]);
        page.says("Rosado, Testwood Seeds: 1 IBX 1 a 1 seed").says("A number in a cell stands for the mark");
        page.says_not("smaller than 9 pt");
    }
}
