//! What is true of one bag, before it is put in words.

use super::kept::View;
use super::model::{Outlook, Span, Why};
use super::own::Own;
use super::published;
use super::waiting::Waiting;

/// Without so many days of looks that found no root, nobody gives up (our own caution, no source).
const QUIET_DAYS: f64 = 3.0;
const QUIET_SHARE: f64 = 0.25;
/// A bag is behind with so many fewer than the club's others, and less than half as many (our own choice, no source).
const BEHIND: f64 = 3.0;
/// ... and would be if it were this much younger.
const SLOWER: f64 = 0.8;
/// A root that is likelier than not only after so many days is none to wait for.
const SOON: f64 = 14.0;
/// The furthest day ahead that a number is said for.
const AHEAD: i32 = 7;
/// The share of all that is to come after which the day is named.
const MOST_OF_IT: f64 = 0.8;

/// What to say of a bag.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum News {
    /// Nothing that is known.
    Silent,
    /// Days to emergence from the published table.
    Guess(f64),
    /// When the next root comes and how many come by a day; times in days since the paper.
    More {
        next: f64,
        by: f64,
        more: Span,
    },
    /// More likely than not, no seed will root for two weeks or ever; but nothing supports giving up yet.
    Unlikely,
    /// Far fewer have rooted than of the club's other bags; the number that would usually have.
    Behind(f64),
    GiveUp(Why),
}

/// Decides for one bag.
pub fn verdict(view: &View, bag: &Waiting) -> News {
    if bag.left <= 0 {
        return News::Silent;
    }
    let Some(outlook) = &view.outlook else { return without_club(view, bag) };
    let behind = behind(outlook, bag, bag.age());
    if let Some(why) = giving_up(view, outlook, bag, behind.is_some()) {
        return News::GiveUp(why);
    }
    if let Some(usual) = behind {
        return News::Behind(usual);
    }
    let (age, left) = (bag.age(), bag.left as f64);
    match outlook.next(age, left).filter(|next| *next <= bag.now_days() + SOON) {
        None => News::Unlikely,
        Some(next) => {
            let by = by(outlook, bag);
            News::More { next, by, more: outlook.within(age, by - age).times(left) }
        }
    }
}

fn without_club(view: &View, bag: &Waiting) -> News {
    if view.own.as_ref().is_some_and(|own| own.gives_up()) && is_quiet(bag, 0.0) {
        return News::GiveUp(Why::Own);
    }
    let days = bag.warmth_c.and_then(|c| published::days_to_emergence(&bag.kind, c));
    match days.filter(|d| view.ready && bag.rooted == 0 && bag.now_days() <= *d + 1.0) {
        Some(days) => News::Guess(days),
        None => News::Silent,
    }
}

fn giving_up(view: &View, outlook: &Outlook, bag: &Waiting, unlike: bool) -> Option<Why> {
    if !is_quiet(bag, 0.0) {
        return None;
    }
    // the bag alone is not heard while other varieties of its kind, at the same pace, would still have roots to come
    let (age, left) = (bag.age(), bag.left as f64);
    let heard = || unlike || outlook.next(age, left).is_none();
    let own = || view.own.as_ref().filter(|own| heard() && own.gives_up()).map(|_| Why::Own);
    outlook.giving_up(age, left, unlike).or_else(own)
}

/// Whether looks have found no root for long enough, `more` days on.
fn is_quiet(bag: &Waiting, more: f64) -> bool {
    bag.quiet() + more >= QUIET_DAYS.max(QUIET_SHARE * (bag.age() + more))
}

/// The number that would have rooted by `age` of the club's other bags, where this one has far fewer.
fn behind(outlook: &Outlook, bag: &Waiting, age: f64) -> Option<f64> {
    let usual = |age| outlook.share(age).low * bag.seeds as f64;
    let (least, rooted) = (usual(SLOWER * age), bag.rooted as f64);
    (least - rooted >= BEHIND && rooted < 0.5 * least).then(|| usual(age))
}

/// The time, a whole number of days from now, by which most of what is to come will have come.
fn by(outlook: &Outlook, bag: &Waiting) -> f64 {
    let (age, now) = (bag.age(), bag.now_days());
    let enough = MOST_OF_IT * outlook.ever(age).mid;
    let days = (1..AHEAD).map(f64::from);
    let reached = |d: &f64| outlook.within(age, now + d - age).mid >= enough;
    now + days.into_iter().find(reached).unwrap_or(f64::from(AHEAD))
}

/// The day from which giving up will be supported if nothing more roots, by the club's bags.
pub fn giving_up_from(outlook: &Outlook, bag: &Waiting) -> Option<f64> {
    let left = bag.left as f64;
    let supports = |d: &f64| {
        let then = bag.age() + d;
        let unlike = behind(outlook, bag, then).is_some();
        is_quiet(bag, *d) && outlook.giving_up(then, left, unlike).is_some()
    };
    (0..=90).map(f64::from).find(supports).map(|d| bag.age() + d)
}

/// The same by the bag's own looks.
pub fn giving_up_from_own(own: &Own, bag: &Waiting) -> Option<f64> {
    let quiet = (0..=90).map(f64::from).find(|d| is_quiet(bag, *d))?;
    own.from().map(|from| from.max(bag.age() + quiet))
}

/// Whether the bag's own looks are worth fitting: some rooted, some left, and nothing new for a while.
pub fn asks_own(outlook: Option<&Outlook>, bag: &Waiting) -> bool {
    let club_speaks = outlook.is_some_and(|o| !o.basis.kind_wide && behind(o, bag, bag.age()).is_none());
    !club_speaks && bag.rooted > 0 && bag.left > 0 && is_quiet(bag, 0.0)
}

#[cfg(test)]
mod tests {
    use super::super::model::tests::club;
    use super::super::waiting::tests::{NOON, waiting};
    use super::*;
    use std::sync::Arc;

    fn view(outlook: Outlook) -> View {
        View { outlook: Some(Arc::new(outlook)), own: None, ready: true }
    }

    #[test]
    fn a_fresh_bag_waits_for_its_first_root() {
        let view = view(club(12, 30.0, 1).unwrap());
        let News::More { next, by, more } = verdict(&view, &waiting(0, 0)) else { panic!() };
        assert!(4.0 < next && next < 6.0, "{next}");
        assert!(by == 8.0 && more.mid > 4.0, "{by} {more:?}");
    }

    #[test]
    fn a_bag_far_behind_gets_no_number() {
        let view = view(club(12, 30.0, 1).unwrap());
        let News::Behind(usual) = verdict(&view, &waiting(12, 1)) else { panic!() };
        assert!(7.0 < usual && usual < 9.0, "{usual}");
        assert!(matches!(
            verdict(&view, &waiting(12, 6)),
            News::More { .. } | News::Unlikely | News::GiveUp(_)
        ));
    }

    #[test]
    fn a_root_lately_keeps_giving_up_away() {
        let view = view(club(40, 60.0, 1).unwrap());
        let quiet = Waiting { rooted_at: Some(NOON.plus_days(8)), ..waiting(24, 8) };
        assert!(matches!(verdict(&view, &quiet), News::GiveUp(_)));
        let lately = Waiting { rooted_at: Some(NOON.plus_days(19)), ..quiet.clone() };
        assert!(!matches!(verdict(&view, &lately), News::GiveUp(_)));
        // nobody has looked: that is not quiet
        let unseen = Waiting { looked_at: Some(NOON.plus_days(9)), ..quiet };
        assert!(!matches!(verdict(&view, &unseen), News::GiveUp(_)));
    }

    #[test]
    fn the_published_day_is_a_guess_for_clubs_without_bags_and_ends_with_it() {
        let none = View { ready: true, ..View::default() };
        let News::Guess(days) = verdict(&none, &waiting(3, 0)) else { panic!() };
        assert_eq!(days, 8.0);
        assert_eq!(verdict(&none, &waiting(9, 0)), News::Silent);
        assert_eq!(verdict(&none, &waiting(3, 2)), News::Silent);
        assert_eq!(verdict(&none, &Waiting { warmth_c: None, ..waiting(3, 0) }), News::Silent);
        assert_eq!(verdict(&View::default(), &waiting(3, 0)), News::Silent);
    }

    #[test]
    fn an_empty_bag_has_no_news() {
        let view = view(club(12, 30.0, 1).unwrap());
        assert_eq!(verdict(&view, &waiting(9, 10)), News::Silent);
    }

    #[test]
    fn the_day_to_give_up_from_is_the_first_that_supports_it() {
        let outlook = club(40, 60.0, 1).unwrap();
        let bag = Waiting { rooted_at: Some(NOON.plus_days(8)), ..waiting(9, 8) };
        let from = giving_up_from(&outlook, &bag).unwrap();
        assert!(outlook.giving_up(from, 2.0, false).is_some());
        assert!(
            from > 9.0 && (outlook.giving_up(from - 1.0, 2.0, false).is_none() || from - 1.0 - 8.0 < 3.0)
        );
    }
}
