use super::*;

#[tokio::test]
async fn floaters_are_tallied_and_kept_apart() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let trial = started(&club, &ines).await;
    let (tally, paper) = (at(&trial, "/tally"), at(&trial, "/paper"));
    let page = ines.get(&tally).await;
    ines.submit(&page, &tally, &[("sank", ""), ("floated", "-1")])
        .await
        .refuses("sank", "give a number")
        .refuses("floated", "from 0");
    ines.submit(&page, &tally, &[("sank", "8"), ("floated", "2")])
        .await
        .refuses("floaters", "what became of the floaters");
    let off = ines.submit(&page, &tally, &[("sank", "9"), ("floated", "2"), ("floaters", "own bag")]).await;
    off.refuses("recount", "10 seeds are soaking, and this makes 11");
    let done = ines.submit(&off, &tally, &[("recount", "yes")]).await;
    done.says("Float tally: 9 sank, 2 floated").says("2 floated: own bag");
    ines.submit(&off, &tally, &[("recount", "yes")]).await;
    assert_eq!(number(&club, "SELECT seeds AS n FROM trials WHERE id = $1", id(&trial)).await, 11);
    ines.get(&tally).await.says("Its tally is written down: 9 sank, 2 floated");
    let second = [("key", "0123456789abcdef0123"), ("sank", "11"), ("floated", "0"), ("at", "")];
    ines.post(&tally, &second).await.refuses("sank", "was made");
    let page = ines.get(&paper).await;
    let preset = page.form(&paper).filled(&[]);
    for pair in [("seeds_1", "9"), ("seeds_2", "2"), ("floaters_2", "yes")] {
        assert!(preset.contains(&(pair.0.into(), pair.1.into())), "{pair:?}");
    }
    let on = ines.submit(&page, &paper, &[("place_1", "mat"), ("warmth_1", "28")]).await;
    on.says("On paper: 11 seeds in 2 bags").says("IB 1 a").says("mat, at 28 °C").says("floaters");
    adds_up(&club).await;
}

#[tokio::test]
async fn thrown_out_floaters_leave_and_carry_a_sign() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let trial = started(&club, &ines).await;
    let tally = at(&trial, "/tally");
    let page = ines.get(&tally).await;
    let done =
        ines.submit(&page, &tally, &[("sank", "7"), ("floated", "3"), ("floaters", "thrown out")]).await;
    done.says("floaters thrown out");
    assert_eq!(number(&club, "SELECT soaking AS n FROM trials WHERE id = $1", id(&trial)).await, 7);
    assert_eq!(number(&club, "SELECT thrown_out AS n FROM trials WHERE id = $1", id(&trial)).await, 3);
    adds_up(&club).await;
}

#[tokio::test]
async fn pelleted_seed_is_warned_about_and_not_tallied() {
    let club = Club::new().await;
    with_starters(&club).await;
    let ines = club.grower("Ines", "IB").await;
    let packet = club.packet(&ines, "Aji Rosado", 25).await;
    let mut conn = club.app.db.write().await.unwrap();
    conn.run("UPDATE packets SET state = 'pelleted' WHERE id = $1", args![&packet]).await.unwrap();
    conn.commit().await.unwrap();
    let routine = routine(&club, "Plain water").await;
    let page = ines.get(&format!("/trials/new?packet={packet}&routine={routine}")).await;
    page.says("a soak dissolves the pellet").says("come before this page");
    let trial = ines.submit(&page, "/trials/new", &[]).await;
    trial.says_not("Float tally");
    ines.get(&at(&trial, "/tally")).await.says("nothing to tally");
    let fields = [("key", "0123456789abcdef0123"), ("sank", "10"), ("floated", "0")];
    let refused = ines.post(&at(&trial, "/tally"), &fields).await;
    assert_eq!(refused.status, StatusCode::UNPROCESSABLE_ENTITY);
}

#[tokio::test]
async fn seeds_go_on_paper_on_different_days_and_may_have_rooted() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let trial = started(&club, &ines).await;
    let paper = at(&trial, "/paper");
    let page = ines.get(&paper).await;
    let empty = [("seeds_1", "")];
    ines.submit(&page, &paper, &empty).await.refuses("seeds_1", "How many seeds");
    let odd = [("seeds_1", "4"), ("rooted_1", "5"), ("warmth_1", "61"), ("place_1", "my shelf")];
    let bad = ines.submit(&page, &paper, &odd).await;
    bad.refuses("rooted_1", "More rooted than").refuses("warmth_1", "-30 to 60");
    assert!(bad.body.contains("my shelf"));
    let before = [("seeds_1", "4"), ("at", "2026-03-02T08:00")];
    ines.submit(&page, &paper, &before).await.refuses("at", "began after that");
    let first = ines.submit(&page, &paper, &[("seeds_1", "4"), ("rooted_1", "1")]).await;
    first.says("4 seeds, 1 rooted, 3 still on paper");
    club.pass_days(1);
    let page = ines.get(&paper).await;
    let many = ines.submit(&page, &paper, &[("seeds_1", "7")]).await;
    many.refuses("recount", "6 seeds are soaking, and this makes 7");
    let second = ines.submit(&many, &paper, &[("recount", "yes")]).await;
    second.says("IB 1 b").says("On paper: 7 seeds in 1 bag").says_not("Put on paper");
    assert_eq!(number(&club, "SELECT seeds AS n FROM trials WHERE id = $1", id(&trial)).await, 11);
    ines.submit(&many, &paper, &[("recount", "yes")]).await;
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM bags WHERE trial_id = $1", id(&trial)).await, 2);
    let over = ines.get(&paper).await;
    over.says("nothing to put on paper");
    assert!(over.all("#paper").is_empty(), "no form that can only be refused");
    adds_up(&club).await;
}

#[tokio::test]
async fn two_papers_at_once_never_use_more_than_soak() {
    for _ in 0..4 {
        let club = Club::new().await;
        let ines = club.grower("Ines", "IB").await;
        let trial = started(&club, &ines).await;
        let paper = at(&trial, "/paper");
        let (one, two) = (ines.get(&paper).await, ines.get(&paper).await);
        let six = [("seeds_1", "6")];
        let (a, b) = tokio::join!(ines.submit(&one, &paper, &six), ines.submit(&two, &paper, &six));
        let good = [a.status, b.status].iter().filter(|s| **s == StatusCode::OK).count();
        assert_eq!(good, 1, "{} / {}", a.text(), b.text());
        assert_eq!(number(&club, "SELECT soaking AS n FROM trials WHERE id = $1", id(&trial)).await, 4);
        adds_up(&club).await;
    }
}

#[tokio::test]
async fn seeds_leave_the_soak_and_return_to_their_packet() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let trial = started(&club, &ines).await;
    let seeds = at(&trial, "/seeds");
    let page = ines.get(&seeds).await;
    ines.submit(&page, &seeds, &[("seeds", "2")]).await.refuses("sort", "choose one");
    ines.submit(&page, &seeds, &[("seeds", "11"), ("sort", "lost")]).await.refuses("seeds", "At most 10");
    for (sort, left, kept) in [("lost", 8, 15), ("returned", 6, 17), ("sown", 4, 17), ("spoiled", 2, 17)] {
        let page = ines.get(&seeds).await;
        ines.submit(&page, &seeds, &[("seeds", "2"), ("sort", sort)]).await.says(&format!("2 seeds {sort}"));
        assert_eq!(number(&club, "SELECT soaking AS n FROM trials WHERE id = $1", id(&trial)).await, left);
        let sql = "SELECT p.balance AS n FROM packets p JOIN trials t ON t.packet_id = p.id WHERE t.id = $1";
        assert_eq!(number(&club, sql, id(&trial)).await, kept);
    }
    adds_up(&club).await;
}

#[tokio::test]
async fn a_stranger_finds_nothing() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let trial = started(&club, &ines).await;
    for other in [club.grower("Tomas", "TK").await, club.organiser("Mira", "MO").await] {
        for page in ["", "/tally", "/paper", "/seeds"] {
            assert_eq!(other.get(&at(&trial, page)).await.status, StatusCode::NOT_FOUND, "{page}");
        }
        let good: [(&str, &[(&str, &str)]); 5] = [
            ("/step", &[("step", "1")]),
            ("/note", &[("sort", "note"), ("text", "x")]),
            ("/tally", &[("sank", "10"), ("floated", "0")]),
            ("/paper", &[("rows", "1"), ("seeds_1", "10")]),
            ("/seeds", &[("seeds", "1"), ("sort", "lost")]),
        ];
        for (n, (page, fields)) in good.iter().enumerate() {
            let key = format!("0123456789abcdef{}{n}", other.id());
            let fields: Vec<(&str, &str)> =
                [("key", &key[..50.min(key.len())])].into_iter().chain(fields.iter().copied()).collect();
            assert_eq!(other.post(&at(&trial, page), &fields).await.status, StatusCode::NOT_FOUND, "{page}");
        }
        other.get("/trials").await.says("Nothing is soaking");
    }
    assert_eq!(number(&club, "SELECT soaking AS n FROM trials WHERE id = $1", id(&trial)).await, 10);
}

#[tokio::test]
async fn what_was_taken_cannot_be_voided_under_its_bags() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let trial = started(&club, &ines).await;
    let paper = at(&trial, "/paper");
    let page = ines.get(&paper).await;
    ines.submit(&page, &paper, &[]).await;
    let taken = "SELECT e.id FROM entries e JOIN trial_seeds s ON s.entry_id = e.id WHERE e.trial_id = $1 AND s.sort = $2";
    #[derive(FromRow)]
    struct Entry {
        id: String,
    }
    let entry = |sort: &'static str| {
        let (club, trial) = (&club, id(&trial));
        async move {
            let row: Entry = club.app.db.read().await.unwrap().one(taken, args![trial, sort]).await.unwrap();
            row.id
        }
    };
    let (first, onto) = (entry("taken").await, entry("to paper").await);
    let mut conn = club.app.db.write().await.unwrap();
    let refused = notebook::void::entry(&mut conn, ines.id(), &first, "typed wrong", club.app.now()).await;
    let said = refused.unwrap_err().to_string();
    assert!(said.contains("IB 1 a") && said.contains("more seeds left the soak"), "{said}");
    drop(conn);
    let mut conn = club.app.db.write().await.unwrap();
    notebook::void::entry(&mut conn, ines.id(), &onto, "wrong bag", club.app.now()).await.unwrap();
    notebook::void::entry(&mut conn, ines.id(), &first, "typed wrong", club.app.now()).await.unwrap();
    conn.commit().await.unwrap();
    let page = ines.get(&trial.path).await;
    page.says("taken back").says("Taken back by Ines: wrong bag");
    ines.get("/trials").await.says("Nothing is soaking");
    adds_up(&club).await;
}

#[tokio::test]
async fn notes_and_a_second_treatment_stay_with_the_trial() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let trial = started(&club, &ines).await;
    let note = at(&trial, "/note");
    ines.submit(&trial, &note, &[("text", "")]).await.refuses("text", "fill this in");
    ines.submit(&trial, &note, &[("text", "coats look dull")]).await.says("Note: coats look dull");
    let page = ines.get(&trial.path).await;
    ines.submit(&page, &note, &[("sort", "treated again")]).await.says("treated again");
}

#[tokio::test]
async fn other_features_call_the_store_with_plain_arguments() {
    let club = Club::new().await;
    with_starters(&club).await;
    let ines = club.grower("Ines", "IB").await;
    let packet = club.packet(&ines, "Aji Rosado", 25).await;
    let routine = routine(&club, "Peroxide").await;
    let mut conn = club.app.db.write().await.unwrap();
    let now = club.app.now();
    let act =
        |minutes: i64| Act::new(ines.id(), "demo", now.plus_minutes(minutes), now.plus_minutes(minutes));
    let new = NewTrial { packet, routine, seeds: 10, recount: None, pair: None, plan: String::new() };
    let trial: TrialId = store::start(&mut conn, &act(0), &[new]).await.unwrap().remove(0);
    let due = store::due(&mut conn, ines.id()).await.unwrap().remove(0);
    assert_eq!(
        (due.next(), due.due_at(), due.soaking, due.mark.as_str()),
        (Next::Step, now.plus_minutes(30), 10, "IB 1")
    );
    assert_eq!(due.words(), "Sanitising soak in hydrogen peroxide");
    for (position, minutes) in [(1, 30), (2, 35), (3, 760)] {
        let done = StepDone { position, ..StepDone::default() };
        store::step_done(&mut conn, &act(minutes), &trial, &done).await.unwrap();
    }
    let due = store::due(&mut conn, ines.id()).await.unwrap().remove(0);
    assert_eq!((due.next(), due.all_done(), due.due_at()), (Next::Tally, true, now.plus_minutes(760)));
    let found = Tally { sank: 9, floated: 1, floaters: "kept in".into(), recount: false };
    store::tally(&mut conn, &act(770), &trial, &found).await.unwrap();
    assert_eq!(store::due(&mut conn, ines.id()).await.unwrap()[0].next(), Next::Paper);
    let paper =
        Paper { seeds: 10, place: "mat".into(), warmth_c: Some(28.0), rooted: Some(2), ..Paper::default() };
    let bags = store::put_on_paper(&mut conn, &act(780), &trial, &[paper], false).await.unwrap();
    assert_eq!(bags.len(), 1);
    assert!(store::due(&mut conn, ines.id()).await.unwrap().is_empty());
    conn.commit().await.unwrap();
    adds_up(&club).await;
}

#[tokio::test]
async fn past_trials_come_in_pages() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let packet = club.packet(&ines, "Aji Rosado", 60).await;
    for _ in 0..52 {
        let trial = club.trial(&ines, &packet, 1).await;
        let mut conn = club.app.db.write().await.unwrap();
        let act = Act::new(ines.id(), "diary", club.app.now(), club.app.now());
        store::leave(&mut conn, &act, &trial, "sown", 1).await.unwrap();
        conn.commit().await.unwrap();
    }
    let first = ines.get("/trials").await;
    assert_eq!(first.all("ul.lines > li").len(), 50);
    let second = ines.get(&first.link("Earlier")).await;
    assert_eq!(second.all("ul.lines > li").len(), 2);
    second.says("Later").says_not("Earlier");
}

#[tokio::test]
async fn paper_comes_after_the_soak_and_floaters_keep_their_sign() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let trial = started(&club, &ines).await;
    let (tally, paper) = (at(&trial, "/tally"), at(&trial, "/paper"));
    club.pass_days(1);
    let page = ines.get(&tally).await;
    ines.submit(&page, &tally, &[("sank", "8"), ("floated", "2"), ("floaters", "own bag")]).await;
    let page = ines.get(&paper).await;
    let early = ines.submit(&page, &paper, &[("at", "2026-03-02T20:00")]).await;
    early.refuses("at", "The soak ended later than that");
    let page = ines.get(&paper).await;
    let mixed = ines.submit(&page, &paper, &[("floaters_2", "")]).await;
    mixed.refuses("recount", "Only 8 seeds sank");
    let page = ines.get(&paper).await;
    ines.submit(&page, &paper, &[("rooted_1", "0")]).await.says("On paper: 10 seeds in 2 bags");
    assert_eq!(
        number(&club, "SELECT COUNT(*) AS n FROM looks WHERE $1 = $1", id(&trial)).await,
        1,
        "a typed zero is a look"
    );
}
