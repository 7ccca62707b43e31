use super::{club, line, paste, row};
use axum::http::StatusCode;

#[tokio::test]
async fn accepted_seeds_are_promised_stand_on_due_now_and_end_with_the_start() {
    let (club, jo) = club().await;
    let packet = club.packet(&jo, "Kestrel", 40).await;
    paste(&jo, "Kestrel, 12, 2026-05-18").await;
    let at = line(&jo, "Kestrel").await;
    let page = jo.get(&at).await;
    jo.submit(&page, &format!("{at}/accept"), &[("seeds", "none"), ("start", "")])
        .await
        .refuses("seeds", "whole number")
        .refuses("start", "which day");
    let page = jo.submit(&page, &format!("{at}/accept"), &[("seeds", "24"), ("start", "2026-03-04")]).await;
    page.says("Accepted: 24 seeds promised.").says("24 seeds of JB 1, to start Wed 4 Mar: promised");
    assert!(row(&jo.get("/packets").await, "JB 1").contains("40 seeds, 24 promised"));
    jo.get(&format!("/packets/{packet}")).await.says("40 seeds left 24 promised").says("Start Wed 4 Mar");
    jo.get("/")
        .await
        .says("The plan’s next start is Wed 4 Mar: 24 seeds of JB 1.")
        .says_not("Kestrel: start");
    club.pass_days(2);
    let due = jo.get("/").await;
    due.says("Kestrel: start 24 seeds of JB 1 today.");
    club.pass_days(1);
    let due = jo.get("/").await;
    due.says("Kestrel: start 24 seeds of JB 1, planned for Wed 4 Mar. 1 day late.");
    let start = jo.get(&due.link("Start")).await;
    assert!(start.body.contains(r#"value="24""#), "the seeds are filled in");
    let routine = start.all("#f-routine option[selected]");
    assert_eq!(routine, ["Plain water overnight"]);
    let trial = jo.submit(&start, "/trials/new", &[]).await;
    trial.says("Started: 1 trial, 24 seeds.");
    jo.get("/").await.says_not("Kestrel: start 24");
    assert!(row(&jo.get("/packets").await, "JB 1").ends_with("16 seeds"));
    let page = jo.get(&at).await;
    page.says("24 seeds of JB 1, to start Wed 4 Mar: started").says("Started, in the plan");
    assert_eq!(page.link("Its trial"), trial.path);
    for (path, fields) in [
        ("", vec![("plants", "1"), ("ready", "2026-05-18"), ("version", "1")]),
        ("/delete", vec![]),
        ("/accept", vec![("seeds", "1"), ("start", "2026-03-08")]),
    ] {
        let fields = [&fields[..], &[("key", "0123456789abcdef4567")]].concat();
        let answer = jo.post(&format!("{at}{path}"), &fields).await;
        assert_eq!(answer.status, StatusCode::CONFLICT, "{path}: {}", answer.text());
    }
    let undone = jo.submit(&trial, "/undo", &[]).await;
    assert_eq!(undone.status, StatusCode::OK);
    jo.get("/").await.says("Kestrel: start 24 seeds of JB 1, planned");
    assert!(
        row(&jo.get("/packets").await, "JB 1").contains("40 seeds, 24 promised"),
        "the promise holds again"
    );
    let again = jo.get(&jo.get("/").await.link("Start")).await;
    let trial = jo.submit(&again, "/trials/new", &[]).await;
    assert_eq!(jo.get(&at).await.link("Its trial"), trial.path);
}

#[tokio::test]
async fn what_is_short_is_said_and_oldest_seed_goes_first() {
    let (club, jo) = club().await;
    club.packet(&jo, "Kestrel", 10).await;
    club.packet(&jo, "Kestrel", 15).await;
    paste(&jo, "Kestrel, 12, 2026-05-25\nMerlin: 3, 2026-05-25").await;
    paste(&jo, "Kestrel, 12, 2026-05-25\npepper: Merlin, 3, 2026-05-25").await;
    let page = jo.get("/plan").await;
    // published 55 %: 27 seeds for 12 plants at 90 % (binomial, exact sums)
    let first = row(&page, "Kestrel");
    assert!(first.contains("10 of JB 1, 15 of JB 2, 2 short"), "{first}");
    let merlin = row(&page, "Merlin");
    assert!(!merlin.contains("JB") && merlin.contains("no packet holds any, 8 short"), "{merlin}");
    assert_eq!(page.all("th .slot").len(), 2, "a place for the tick in every row");
    let at = line(&jo, "Kestrel").await;
    let page = jo.get(&at).await;
    page.says("2 seeds short.");
    let page = jo.submit(&page, &format!("{at}/accept"), &[]).await;
    page.says("Accepted: 27 seeds promised. 2 seeds short: see the shopping list.");
    let packets = jo.get("/packets").await;
    assert!(row(&packets, "JB 1").contains("10 seeds, 10 promised"), "{}", packets.text());
    assert!(row(&packets, "JB 2").contains("15 seeds, 17 promised: 2 short"), "{}", packets.text());
    club.pass_days(30);
    let jo = club.again(&jo).await;
    jo.get("/").await.says("start 15 of the 17 seeds of JB 2").says("; 2 are short.");
    jo.get(&at).await.says("15 of 17 seeds of JB 2, 2 short, to start");
    let plan = jo.get("/plan").await;
    assert!(row(&plan, "Kestrel").contains("10 of JB 1, 15 of JB 2, 2 short"), "as before: {}", plan.text());
    jo.get("/plan/print").await.says("10 of JB 1, 15 of JB 2, 2 short");
    let file = jo.get("/plan.csv").await;
    assert!(file.body.contains(r#""10 of JB 1, 15 of JB 2",2,accepted"#), "{}", file.body);
    // the first packet's seeds start: the first promise ends, the line is partly started
    let page = jo.get(&at).await;
    let start = jo.get(&page.link("Start JB 1")).await;
    jo.submit(&start, "/trials/new", &[]).await.says("Started: 1 trial, 10 seeds.");
    assert!(row(&jo.get("/plan").await, "Kestrel").contains("partly started"));
    let other = line(&jo, "Merlin").await;
    jo.get(&other).await.says("You have no packet of it with seed.");
    let answer = jo
        .post(
            &format!("{other}/accept"),
            &[("seeds", "3"), ("start", "2026-03-09"), ("key", "0123456789abcdef8901")],
        )
        .await;
    assert_eq!(answer.status, StatusCode::CONFLICT);
}

#[tokio::test]
async fn ticked_lines_are_accepted_together_once_and_withdrawn_one_by_one() {
    let (club, jo) = club().await;
    club.packet(&jo, "Kestrel", 40).await;
    let other = club.packet(&jo, "Kestrel", 60).await;
    club.packet(&jo, "Merlin", 40).await;
    paste(&jo, "Kestrel, 12, 2026-05-25\nKestrel, 12, 2026-06-08\nMerlin, 3, 2026-05-25").await;
    let page = jo.get("/plan").await;
    jo.submit(&page, "/plan/accept", &[]).await.says("Nothing was accepted");
    let page = jo.get("/plan").await;
    let ids: Vec<String> =
        page.body.split(r#"name="line" value=""#).skip(1).map(|s| s[..32].to_owned()).collect();
    let ticks: Vec<(&str, &str)> = ids.iter().map(|id| ("line", id.as_str())).collect();
    assert_eq!(ticks.len(), 3);
    let done = jo.submit(&page, "/plan/accept", &ticks).await;
    done.says("Accepted: 3 lines, 62 seeds promised.");
    jo.submit(&page, "/plan/accept", &ticks).await;
    let packets = jo.get("/packets").await;
    assert!(
        row(&packets, "JB 1").contains("40 seeds, 40 promised"),
        "sent twice counts once: {}",
        packets.text()
    );
    assert!(row(&packets, "JB 2").contains("60 seeds, 14 promised"), "{}", packets.text());
    let at = line(&jo, "Kestrel").await;
    let page = jo.get(&at).await;
    jo.submit(&page, &at, &[("plants", "6")]).await.says("What was promised is withdrawn").says("withdrawn");
    assert!(row(&jo.get("/packets").await, "JB 1").contains("40 seeds, 13 promised"));
    let page = jo.get(&at).await;
    let page =
        jo.submit(&page, &format!("{at}/accept"), &[("seeds", "5"), ("packet", other.0.as_str())]).await;
    page.says("5 seeds of JB 2");
    jo.submit(&page, &format!("{at}/withdraw"), &[]).await.says("Withdrawn: its seeds are free again.");
    assert!(row(&jo.get("/packets").await, "JB 2").contains("60 seeds, 14 promised"));
}

#[tokio::test]
async fn a_start_whose_promise_was_withdrawn_meanwhile_asks_once() {
    let (club, jo) = club().await;
    club.packet(&jo, "Kestrel", 40).await;
    paste(&jo, "Kestrel, 12, 2026-05-18").await;
    let at = line(&jo, "Kestrel").await;
    let accept = async || {
        let page = jo.get(&at).await;
        jo.submit(&page, &format!("{at}/accept"), &[("seeds", "24"), ("start", "2026-03-02")]).await
    };
    let page = accept().await;
    let start = jo.get(&page.link("Start JB 1")).await;
    let other_tab = jo.get(&page.link("Start JB 1")).await;
    jo.submit(&page, &format!("{at}/withdraw"), &[]).await.says("Withdrawn");
    let name = start.body.split("name=\"seeds_").nth(1).unwrap()[..32].to_owned();
    let field = format!("seeds_{name}");
    let asked = jo.submit(&start, "/trials/new", &[(field.as_str(), "13")]).await;
    asked.refuses("without", "24 seeds of JB 1 has ended: it was withdrawn meanwhile. Start without it?");
    assert!(asked.body.contains(r#"value="13""#), "what was typed stays");
    assert!(row(&jo.get("/packets").await, "JB 1").ends_with("40 seeds"), "nothing was started");
    jo.submit(&asked, "/trials/new", &[]).await.refuses("without", "withdrawn meanwhile");
    jo.submit(&asked, "/trials/new", &[("without", "yes")]).await.says("Started: 1 trial, 13 seeds.");
    jo.get(&at).await.says("Not accepted");
    jo.submit(&other_tab, "/trials/new", &[]).await.refuses("without", "withdrawn meanwhile");
    let page = accept().await;
    let (one, two) = (jo.get(&page.link("Start JB 1")).await, jo.get(&page.link("Start JB 1")).await);
    jo.submit(&one, "/trials/new", &[]).await.says("Started: 1 trial");
    jo.submit(&two, "/trials/new", &[(field.as_str(), "1")])
        .await
        .refuses("without", "a trial was started for it meanwhile");
}
