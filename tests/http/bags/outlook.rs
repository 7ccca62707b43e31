//! What due now and the bag's page say of seeds still on paper, against `hilum_calc` called with the same looks.

use super::Bench;
use crate::support::{Browser, Club, Page};
use hilum::db::ids::BagId;
use hilum_calc::event_time::{Fate, Fit, Form, Removed, Seeds};

/// Roots out by day, of ten seeds; two never root.
const COURSE: [(f64, i64); 5] = [(4.0, 1), (5.0, 2), (6.0, 3), (7.0, 1), (8.0, 1)];
const WATCHED: f64 = 20.0;

/// A club in which Kim watched bags of Kestrel for 20 days, and Jo has put one of ten seeds on paper since.
struct Season {
    club: Club,
    jo: Browser,
    kim: Browser,
    bag: BagId,
    others: usize,
}

impl Season {
    async fn new(others: usize) -> Self {
        let club = Club::new().await;
        let (kim, jo) = (club.organiser("Kim", "KR").await, club.grower("Jo", "JB").await);
        let packet = club.packet(&kim, "Kestrel", 900).await;
        let trial = club.trial(&kim, &packet, 10 * others as i64).await;
        let mut bags = Vec::new();
        for _ in 0..others {
            bags.push(club.bag(&kim, &trial, 10).await);
        }
        for day in 1..=WATCHED as i64 {
            club.pass_days(1);
            let out = COURSE.iter().find(|c| c.0 == day as f64).map_or(0, |c| c.1);
            for bag in bags.iter().filter(|_| out > 0 || day == WATCHED as i64) {
                club.look(&kim, bag, out, 0).await;
            }
        }
        let packet = club.packet(&jo, "Kestrel", 100).await;
        let trial = club.trial(&jo, &packet, 10).await;
        let bag = club.bag(&jo, &trial, 10).await;
        let (kim, jo) = (club.again(&kim).await, club.again(&jo).await);
        Self { club, jo, kim, bag, others }
    }

    async fn page(&self) -> Page {
        self.jo.get(&format!("/bags/{}", self.bag)).await
    }

    /// The rows of Kim's bags, and those of Jo's.
    fn rows(&self, jo: &[(f64, i64)], looked: f64) -> Vec<Seeds> {
        let mut rows = Vec::new();
        for bag in 0..self.others {
            rows.extend(course(&COURSE, WATCHED, bag));
        }
        rows.extend(course(jo, looked, self.others));
        rows
    }
}

/// Looks with news only, as Kim and Jo make them: a seed rooted since the last look that found something.
fn course(news: &[(f64, i64)], until: f64, bag: usize) -> Vec<Seeds> {
    let (mut rows, mut last, mut left) = (Vec::new(), 0.0, 10);
    for (day, out) in news {
        rows.push(Seeds { fate: Fate::Rooted { l: last, r: *day }, count: *out as f64, bag });
        (last, left) = (*day, left - out);
    }
    rows.push(Seeds { fate: Fate::OnPaper { l: until }, count: left as f64, bag });
    rows
}

/// The lowest, middle and highest that `of` gives for the three forms.
fn span(rows: &[Seeds], of: impl Fn(&Fit) -> f64) -> [f64; 3] {
    let mut three = Form::ALL.map(|form| of(&Fit::of(rows, form, Removed::Never)));
    three.sort_by(f64::total_cmp);
    three
}

fn many([low, _, high]: [f64; 3]) -> String {
    let (low, high) = (low.round(), high.round());
    if low == high {
        format!("bout {low} more expected by")
    } else {
        format!("{low} to {high} more expected by")
    }
}

#[tokio::test]
async fn the_number_expected_is_that_of_the_three_forms() {
    let s = Season::new(8).await;
    s.club.pass_days(5);
    s.club.look(&s.jo, &s.bag, 2, 0).await;
    s.club.pass_days(1);
    let rows = s.rows(&[(5.0, 2)], 5.0);
    let (age, now, left) = (5.0, 6.0, 8.0);
    let ever = span(&rows, |f| f.ever(age, 0.95).unwrap().chance)[1];
    let within = |days: f64| span(&rows, |f| f.within(age, now + days - age).unwrap().chance);
    let days = (1..7).map(f64::from).find(|d| within(*d)[1] >= 0.8 * ever).unwrap_or(7.0);
    let words = many(within(days).map(|q| left * q));
    assert!(within(days)[1] * left > 3.0);
    // day 6 on paper is 28 March
    let date = s
        .club
        .app
        .now()
        .plus_days(days as i64)
        .day(chrono_tz::Europe::Berlin)
        .format("%a %-d %b")
        .to_string();
    s.jo.get("/").await.says("Root likely today.").says(&format!("{words} {date}."));
    let page = s.page().await;
    page.says("What to expect").says(&format!("{words} {date}."));
    page.says(&format!("roots at all is about {:.0} % (", 100.0 * ever));
    page.says("From 9 bags of Kestrel by 2 growers at 28 °C, all sources together.");
    page.says("It is too early to say when to give up.");
}

#[tokio::test]
async fn a_new_look_changes_the_words() {
    let s = Season::new(8).await;
    s.club.pass_days(2);
    s.jo.get("/").await.says("First root expected about day 4").says_not("Root likely today");
    s.club.pass_days(4);
    s.jo.get("/").await.says("Root likely today.");
    let page = s.page().await;
    s.jo.submit(&page, &format!("/bags/{}/count", s.bag), &[("rooted", "8")]).await;
    s.club.pass_days(1);
    s.jo.get("/").await.says("2 seeds still on paper. Root likely today. About 1 more expected by");
    let page = s.page().await;
    s.jo.submit(&page, &format!("/bags/{}/count", s.bag), &[("rooted", "2")]).await;
    s.jo.get("/").await.says_not("expected").says("nothing is left on paper");
}

#[tokio::test]
async fn a_club_without_bags_shows_the_published_guess_and_says_so() {
    let b = Bench::new().await;
    b.jo.get("/")
        .await
        .says("Guess from a published table: pepper seedlings are up in soil about day 8 at 28 °C. Roots come sooner.")
        .says_not("Root likely today")
        .says_not("expected by");
    b.jo.get(&b.path())
        .await
        .says("The club has too few bags of Kestrel or other pepper at about 28 °C")
        .says("of emergence in soil, not of roots: Harrington & Minges 1954");
    b.club.pass_days(7);
    b.jo.get("/").await.says("day 10 on paper").says_not("published table");
}

#[tokio::test]
async fn nothing_rooted_never_says_to_give_up() {
    let mut b = Bench::new().await;
    b.club.pass_days(40);
    b.jo = b.club.again(&b.jo).await;
    b.club.look(&b.jo, &b.bag, 0, 0).await;
    b.club.pass_days(1);
    b.jo.get("/").await.says("day 44 on paper").says_not("final count");
}

#[tokio::test]
async fn a_bag_alone_gives_up_by_its_own_looks_when_all_three_forms_do() {
    let b = Bench::new().await;
    let trial = b.club.trial(&b.jo, &b.packet, 20).await;
    let bag = b.club.bag(&b.jo, &trial, 20).await;
    for out in [0, 0, 0, 0, 3, 6, 5, 2] {
        b.club.pass_days(1);
        b.club.look(&b.jo, &bag, out, 0).await;
    }
    b.club.pass_days(1);
    b.jo.get("/").await.says_not("final count");
    for _ in 0..12 {
        b.club.look(&b.jo, &bag, 0, 0).await;
        b.club.pass_days(1);
    }
    b.jo.get("/").await.says("Consider the final count: by this bag’s own looks, no more roots are likely.");
    b.jo.get(&format!("/bags/{bag}")).await.says("Consider the final count: by this bag’s own looks");
}

#[tokio::test]
async fn the_clubs_bags_support_giving_up_late_and_not_early() {
    let s = Season::new(12).await;
    for (day, out) in COURSE {
        s.club.pass_days(if day == 4.0 { 4 } else { 1 });
        s.club.look(&s.jo, &s.bag, out, 0).await;
    }
    s.club.pass_days(1);
    s.jo.get("/").await.says("day 9 on paper").says_not("final count");
    s.page().await.says("If nothing more roots, the final count is worth considering from about day 1");
    s.club.pass_days(7);
    // nobody has looked for a week: that is no reason
    s.jo.get("/").await.says("day 16 on paper").says_not("final count");
    s.club.look(&s.jo, &s.bag, 0, 0).await;
    s.club.pass_days(1);
    s.jo.get("/").await.says("Consider the final count: ").says("Count");
}

#[tokio::test]
async fn a_bag_far_behind_is_said_to_be_behind() {
    let mut s = Season::new(8).await;
    s.club.pass_days(10);
    s.jo = s.club.again(&s.jo).await;
    s.club.look(&s.jo, &s.bag, 0, 0).await;
    s.club.pass_days(1);
    s.jo.get("/").await.says("Behind the club’s other Kestrel: about 7 of 10 are out by this day there.");
    s.page().await.says("Behind the club’s other Kestrel").says_not("at all is about");
}

#[tokio::test]
async fn bags_with_likely_news_come_first_and_none_is_hidden() {
    let s = Season::new(8).await;
    let packet = s.club.packet(&s.jo, "Merlin", 100).await;
    let trial = s.club.trial(&s.jo, &packet, 30).await;
    let early = s.club.bag(&s.jo, &trial, 10).await;
    s.club.pass_days(5);
    s.club.look(&s.jo, &early, 9, 0).await;
    s.club.look(&s.jo, &s.bag, 2, 0).await;
    s.club.pass_days(1);
    let page = s.jo.get("/").await;
    let said: Vec<String> = page.all("ul.due > li").into_iter().filter(|l| l.contains("look, day")).collect();
    assert_eq!(said.len(), 2, "{said:?}");
    assert!(said[0].contains("Root likely today") && said[0].contains("Kestrel"), "{said:?}");
}

#[tokio::test]
async fn the_bags_of_others_stay_theirs() {
    let s = Season::new(8).await;
    s.club.pass_days(3);
    s.jo.get("/").await.says("Kestrel: look").says_not("KR 1");
    s.page().await.says_not("KR 1").says_not("Kim");
    let theirs = s.kim.get(&format!("/bags/{}", s.bag)).await;
    assert_eq!(theirs.status, axum::http::StatusCode::NOT_FOUND);
}

#[tokio::test]
async fn a_closed_or_empty_bag_expects_nothing() {
    let b = Bench::new().await;
    b.count("4", "6").await;
    b.jo.get(&b.path()).await.says_not("What to expect");
}
