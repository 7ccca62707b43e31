use super::Bench;
use crate::support::Page;

async fn close(b: &Bench, fields: &[(&str, &str)]) -> Page {
    let page = b.jo.get(&b.under("close")).await;
    b.jo.submit(&page, &b.under("close"), fields).await
}

#[tokio::test]
async fn a_final_count_tells_of_every_seed_on_paper() {
    let b = Bench::new().await;
    b.count("4", "").await;
    let page = b.jo.get(&b.under("close")).await;
    page.says("6 seeds still on paper").says("it never took up water");
    let short = close(&b, &[("fresh", "2"), ("hard", "1"), ("dead", "1"), ("abnormal", "1")]).await;
    short.refuses("sum", "6 seeds still on paper, and the numbers tell of 5: 1 seed is missing");
    let long = b.jo.submit(&short, &b.under("close"), &[("lost", "2")]).await;
    long.refuses("sum", "1 seed too many");
    let fields = [("lost", "0"), ("not_examined", "1")];
    let done = b.jo.submit(&long, &b.under("close"), &fields).await;
    done.says("JB 1 a is closed: final count").says("final count done");
    let s = b.sums().await;
    assert_eq!((s.fresh, s.hard, s.dead, s.abnormal, s.not_examined, s.on_paper), (2, 1, 1, 1, 1, 0));
    let twice = b.jo.submit(&long, &b.under("close"), &fields).await;
    assert!(twice.status.is_success());
    assert_eq!(b.sums().await.fresh, 2);
    b.jo.get(&b.under("close")).await.says("This bag is not open");
}

#[tokio::test]
async fn kept_on_looks_weekly() {
    let b = Bench::new().await;
    close(&b, &[("ending", "kept on")]).await.says("is kept on: look weekly").says("look weekly");
    let s = b.sums().await;
    assert_eq!((s.weekly, s.closed_at), (true, None));
    b.count("1", "").await;
    b.club.pass_days(6);
    b.jo.get("/").await.says_not("look, day");
    b.club.pass_days(1);
    b.jo.get("/").await.says("look, day 10 on paper");
}

#[tokio::test]
async fn abandoned_needs_a_reason_and_no_numbers() {
    let b = Bench::new().await;
    close(&b, &[("ending", "abandoned")]).await.refuses("why", "Why was it abandoned?");
    let done = close(&b, &[("ending", "abandoned"), ("why", "went on holiday")]).await;
    done.says("JB 1 a is closed: abandoned").says("went on holiday");
    let s = b.sums().await;
    assert_eq!((s.ending.as_str(), s.not_examined, s.on_paper), ("abandoned", 10, 0));
}

#[tokio::test]
async fn a_closing_is_never_before_the_last_look() {
    let b = Bench::new().await;
    b.count("1", "").await;
    let early = [("fresh", "9"), ("at", "2026-03-04T09:00")];
    close(&b, &early).await.refuses("at", "looked at later than that, today 09:00");
    close(&b, &[("fresh", "9")]).await.says("is closed");
}

#[tokio::test]
async fn a_seed_that_roots_after_closing_reopens_the_bag_in_one_save() {
    let b = Bench::new().await;
    close(&b, &[("fresh", "10")]).await.says("is closed");
    b.club.pass_days(2);
    let page = b.jo.get(&b.path()).await;
    page.says("A seed rooted after closing");
    let over = b.jo.submit(&page, &b.under("reopen"), &[("rooted", "11")]).await;
    over.refuses("rooted", "That is 11 seeds, but 10 seeds still on paper");
    assert_eq!(b.sums().await.fresh, 10, "the closing stands");
    let open = b.jo.submit(&over, &b.under("reopen"), &[("rooted", "1")]).await;
    open.says("is open again: 1 rooted after closing").says("Taken back by Jo: rooted after closing");
    b.jo.submit(&over, &b.under("reopen"), &[("rooted", "1")]).await;
    let s = b.sums().await;
    assert_eq!((s.rooted, s.fresh, s.on_paper, s.closed_at), (1, 0, 9, None));
}

#[tokio::test]
async fn nothing_is_counted_in_a_closed_bag() {
    let b = Bench::new().await;
    let page = b.jo.get(&b.path()).await;
    let again = b.jo.get(&b.under("close")).await;
    close(&b, &[("fresh", "10")]).await;
    let late = b.jo.submit(&page, &b.under("count"), &[("rooted", "0")]).await;
    assert!(late.status.is_client_error() && late.text().contains("is closed"), "{}", late.text());
    let twice = b.jo.submit(&again, &b.under("close"), &[]).await;
    assert!(twice.status.is_client_error(), "{}", twice.text());
    assert_eq!(b.sums().await.looked_at, b.sums().await.closed_at);
}
