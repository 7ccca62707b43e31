//! Two requests at the same moment. On PostgreSQL they really run side by side.

use super::Bench;
use axum::http::StatusCode;

const TIMES: usize = 5;

#[tokio::test]
async fn two_counts_never_take_more_seeds_than_there_are() {
    for _ in 0..TIMES {
        let b = Bench::new().await;
        let (one, two) = (b.jo.get(&b.path()).await, b.jo.get(&b.path()).await);
        let count = b.under("count");
        let fields = [("rooted", "6")];
        let (one, two) = tokio::join!(b.jo.submit(&one, &count, &fields), b.jo.submit(&two, &count, &fields));
        let refused: Vec<_> = [one, two].into_iter().filter(|p| !p.status.is_success()).collect();
        assert_eq!(refused.len(), 1);
        refused[0].refuses("rooted", "now 4 seeds still on paper, 6 rooted");
        assert_eq!((b.sums().await.rooted, b.sums().await.on_paper), (6, 4));
    }
}

#[tokio::test]
async fn one_form_sent_twice_at_the_same_moment_counts_once() {
    for _ in 0..TIMES {
        let b = Bench::new().await;
        let page = b.jo.get(&b.path()).await;
        let (count, fields) = (b.under("count"), [("rooted", "3")]);
        let (one, two) =
            tokio::join!(b.jo.submit(&page, &count, &fields), b.jo.submit(&page, &count, &fields));
        assert!(one.status.is_success() && two.status.is_success(), "{} {}", one.text(), two.text());
        assert_eq!(b.sums().await.rooted, 3);
    }
}

#[tokio::test]
async fn the_screen_for_all_and_a_single_count_do_not_lock_each_other_out() {
    for _ in 0..TIMES {
        let b = Bench::new().await;
        for _ in 0..4 {
            b.club.bag(&b.jo, &b.trial, 5).await;
        }
        b.club.pass_days(1);
        let (first, second) = (b.jo.get("/looks").await, b.jo.get("/looks").await);
        let page = b.jo.get(&b.path()).await;
        let rooted = format!("rooted-{}", b.bag);
        let (count, all) = (b.under("count"), [(rooted.as_str(), "4"), ("rest", "yes")]);
        let (one, two, three) = tokio::join!(
            b.jo.submit(&first, "/looks", &all),
            b.jo.submit(&second, "/looks", &all),
            b.jo.submit(&page, &count, &[("rooted", "4")]),
        );
        let good = [one, two, three].iter().filter(|p| p.status == StatusCode::OK).count();
        assert_eq!((good, b.sums().await.rooted), (1, 4), "who saved second is told of the first");
    }
}

#[tokio::test]
async fn seeds_moved_both_ways_at_once_do_not_wait_for_each_other_for_ever() {
    for _ in 0..TIMES {
        let b = Bench::new().await;
        let other = b.club.bag(&b.jo, &b.trial, 10).await;
        let there = b.under("elsewhere");
        let back = format!("/bags/{other}/elsewhere");
        let (one, two) = (b.jo.get(&there).await, b.jo.get(&back).await);
        let to = [("went", "moved"), ("seeds", "2"), ("other", other.0.as_str())];
        let from = [("went", "moved"), ("seeds", "3"), ("other", b.bag.0.as_str())];
        let (one, two) = tokio::join!(b.jo.submit(&one, &there, &to), b.jo.submit(&two, &back, &from));
        assert!(one.status.is_success() && two.status.is_success(), "{} {}", one.text(), two.text());
        assert_eq!((b.sums().await.on_paper, b.sums_of(&other).await.on_paper), (11, 9));
    }
}

#[tokio::test]
async fn a_bag_is_closed_once() {
    for _ in 0..TIMES {
        let b = Bench::new().await;
        let close = b.under("close");
        let (one, two) = (b.jo.get(&close).await, b.jo.get(&close).await);
        let (one, two) = tokio::join!(
            b.jo.submit(&one, &close, &[("fresh", "10")]),
            b.jo.submit(&two, &close, &[("hard", "10")]),
        );
        let good = [one, two].iter().filter(|p| p.status == StatusCode::OK).count();
        let s = b.sums().await;
        assert_eq!((good, s.fresh + s.hard, s.on_paper), (1, 10, 0));
    }
}

#[tokio::test]
async fn a_look_and_the_void_of_what_it_stands_on_do_not_both_go_through() {
    for _ in 0..TIMES {
        let b = Bench::new().await;
        let elsewhere = b.under("elsewhere");
        b.count("4", "").await;
        let void = b.jo.get(&b.path()).await.link("look: 4 rooted");
        let (form, page) = (b.jo.get(&void).await, b.jo.get(&elsewhere).await);
        let given = [("went", "given"), ("seeds", "3")];
        let (one, two) = tokio::join!(
            b.jo.submit(&form, &void, &[("why", "typo")]),
            b.jo.submit(&page, &elsewhere, &given),
        );
        let good = [one, two].iter().filter(|p| p.status == StatusCode::OK).count();
        let s = b.sums().await;
        assert!(good == 1 && s.ended <= s.rooted, "{good} {} {}", s.ended, s.rooted);
    }
}
