//! Verdicts as a grower reads them.

use super::kept::View;
use super::model::{Outlook, Span, Why};
use super::pool::{Basis, ENOUGH_BAGS, ENOUGH_ROOTED};
use super::verdict::{News, giving_up_from, giving_up_from_own, verdict};
use super::waiting::Waiting;
use crate::routines::model::{degrees, unit};
use crate::web::words::{day, decimal, fixed, percent};
use chrono::NaiveDate;

/// One sentence for the due-now page.
#[derive(Debug, Default, PartialEq, Eq)]
pub struct Short {
    /// A root is as likely as not today.
    pub likely: bool,
    /// Empty where nothing is known.
    pub words: String,
}

/// The paragraph of the bag's page.
#[derive(Debug, Default)]
pub struct Long {
    pub expected: String,
    /// The chance of a seed still on paper; empty where not known.
    pub chance: String,
    /// When to give up; empty where not known.
    pub giving_up: String,
    pub basis: String,
    /// What the numbers would be if removed seeds were only lost from sight; empty where none were.
    pub if_lost: String,
    /// Whether the three forms were fitted.
    pub fitted: bool,
}

/// What to say beside a bag that is due.
pub fn short(view: &View, bag: &Waiting, us: bool) -> Short {
    let news = verdict(view, bag);
    let likely = matches!(news, News::More { next, .. } if look_day(bag, next) <= bag.today());
    Short { likely, words: sentence(&news, view, bag, us) }
}

fn sentence(news: &News, view: &View, bag: &Waiting, us: bool) -> String {
    match *news {
        News::Silent => String::new(),
        News::Guess(days) => guess(bag, days, us),
        News::More { next, by, more } => expected(bag, next, by, more),
        News::Unlikely => t!("outlook-unlikely").to_owned(),
        News::Behind(usual) => view.outlook.as_ref().map_or_else(String::new, |o| {
            t!("outlook-behind", of = name(&o.basis), usual = fixed(usual, 0), seeds = bag.seeds)
        }),
        News::GiveUp(why) => give_up(&why),
    }
}

/// The earliest day that has both a look due and a root.
fn look_day(bag: &Waiting, next: f64) -> NaiveDate {
    bag.date(next).max(bag.look_due).max(bag.today())
}

fn expected(bag: &Waiting, next: f64, by: f64, more: Span) -> String {
    let today = bag.today();
    let (look, by) = (look_day(bag, next), bag.date(by));
    let more = t!("outlook-more-by", more = many(more), day = day(by, today));
    match (look - today).num_days() {
        0 => capital(&more),
        1 if bag.look_due < today => t!("outlook-next-tomorrow", more = more),
        1 => t!("outlook-look-tomorrow", more = more),
        _ => {
            let (n, date) = (bag.day_number(look), day(look, today));
            let root = match bag.rooted {
                0 => t!("outlook-first-root", n = n, date = date),
                _ => t!("outlook-next-root", n = n, date = date),
            };
            if look < by { format!("{root}; {more}.") } else { format!("{root}.") }
        }
    }
}

fn capital(sentence: &str) -> String {
    let mut letters = sentence.chars();
    let first = letters.next().map(|c| c.to_uppercase().collect::<String>()).unwrap_or_default();
    format!("{first}{}.", letters.as_str())
}

/// `about 3 more`, `2 to 4 more`.
fn many(more: Span) -> String {
    match (more.low.round() as i64, more.high.round() as i64) {
        (_, 0) => t!("outlook-fewer-than-one").to_owned(),
        (0, high) => t!("outlook-up-to", n = high),
        (low, high) if low == high => t!("outlook-about", n = low),
        (low, high) => t!("outlook-from-to", low = low, high = high),
    }
}

fn guess(bag: &Waiting, days: f64, us: bool) -> String {
    let n = bag.day_number(bag.date(days));
    t!("outlook-guess", kind = bag.kind, n = n, warmth = warmth(bag.warmth_c.unwrap_or_default(), us))
}

fn give_up(why: &Why) -> String {
    match why {
        Why::Forms => t!("outlook-give-up-by-bags").to_owned(),
        Why::Record(r) => {
            t!("outlook-give-up-by-record", seeds = r.seeds as i64, rooted = r.rooted.round() as i64)
        }
        Why::Own => t!("outlook-give-up-by-own-looks").to_owned(),
    }
}

/// What the bag's page says.
pub fn long(view: &View, bag: &Waiting, us: bool) -> Long {
    let news = verdict(view, bag);
    let said = Long { expected: sentence(&news, view, bag, us), ..Long::default() };
    let Some(outlook) = &view.outlook else {
        return Long { giving_up: own_from(view, bag, &news), basis: no_basis(view, bag, &news, us), ..said };
    };
    let (age, left) = (bag.age(), bag.left as f64);
    if let News::Behind(_) = news {
        let basis = basis(&outlook.basis, us);
        return Long { giving_up: from_words(outlook, view, bag, &news), basis, fitted: true, ..said };
    }
    let (low, high) = outlook.ever_interval(age);
    let ever = outlook.ever(age);
    let chance = t!(
        "outlook-chance",
        mid = percent(ever.mid),
        low = percent(low),
        high = percent(high),
        more = many(ever.times(left))
    );
    let if_lost = outlook.ever_if_lost(age);
    let if_lost = if_lost.map_or_else(String::new, |e| t!("outlook-if-lost", chance = percent(e.mid)));
    let giving_up = from_words(outlook, view, bag, &news);
    Long { chance, giving_up, basis: basis(&outlook.basis, us), if_lost, fitted: true, ..said }
}

fn from_words(outlook: &Outlook, view: &View, bag: &Waiting, news: &News) -> String {
    if matches!(news, News::GiveUp(_)) {
        return String::new();
    }
    match giving_up_from(outlook, bag) {
        Some(from) => from_day(bag, from),
        None if outlook.basis.kind_wide => own_from(view, bag, news),
        None => t!("outlook-too-early").to_owned(),
    }
}

fn own_from(view: &View, bag: &Waiting, news: &News) -> String {
    let own = view.own.as_ref().filter(|_| !matches!(news, News::GiveUp(_)));
    own.and_then(|own| giving_up_from_own(own, bag)).map_or_else(String::new, |from| from_day(bag, from))
}

fn from_day(bag: &Waiting, from: f64) -> String {
    let date = bag.date(from.ceil());
    if date <= bag.today() {
        return t!("outlook-worth-considering-today").to_owned();
    }
    t!("outlook-worth-considering-from", n = bag.day_number(date), date = day(date, bag.today()))
}

fn no_basis(view: &View, bag: &Waiting, news: &News, us: bool) -> String {
    if view.apart {
        return t!("outlook-ring-trial-runs").to_owned();
    }
    if !view.ready {
        return t!("outlook-still-reckoned").to_owned();
    }
    let too_few = too_few(bag, us);
    if let News::Guess(_) = news {
        return format!("{too_few} {}", t!("outlook-of-emergence"));
    }
    if bag.warmth_c.is_none() && bag.rooted == 0 {
        return format!("{too_few} {}", t!("outlook-write-down-warmth"));
    }
    too_few
}

fn too_few(bag: &Waiting, us: bool) -> String {
    let (of, kind) = (seeds_of(&bag.variety, bag.floated), &bag.kind);
    let (bags, rooted) = (ENOUGH_BAGS, ENOUGH_ROOTED as i64);
    match bag.warmth_c {
        Some(c) => {
            let warmth = warmth(c, us);
            t!("outlook-too-few-at", of = of, kind = kind, warmth = warmth, bags = bags, rooted = rooted)
        }
        None => t!("outlook-too-few", of = of, kind = kind, bags = bags, rooted = rooted),
    }
}

/// `Kestrel`, `pepper`, `floaters of Kestrel`.
fn name(basis: &Basis) -> String {
    seeds_of(&basis.of, basis.floated)
}

fn seeds_of(of: &str, floated: bool) -> String {
    if floated { t!("outlook-floaters-of", of = of) } else { of.to_owned() }
}

fn basis(basis: &Basis, us: bool) -> String {
    let (of, bags, growers) = (name(basis), basis.bags, basis.growers);
    let from = match basis.warmth_c {
        Some(span) => {
            t!("outlook-basis-at", of = of, bags = bags, growers = growers, warmth = warmths(span, us))
        }
        None => t!("outlook-basis", of = of, bags = bags, growers = growers),
    };
    if basis.kind_wide { format!("{from} {}", t!("outlook-too-few-of-variety")) } else { from }
}

/// `28 °C`, `27 to 29 °C`.
fn warmths((low, high): (f64, f64), us: bool) -> String {
    let degrees = |c| decimal(&degrees(c, us));
    let (low, high, unit) = (degrees(low), degrees(high), unit(us));
    if low == high {
        format!("{low} {unit}")
    } else {
        t!("outlook-warmths", low = low, high = high, unit = unit)
    }
}

fn warmth(c: f64, us: bool) -> String {
    format!("{} {}", decimal(&degrees(c, us)), unit(us))
}

#[cfg(test)]
mod tests {
    use super::super::model::{Record, tests::club};
    use super::super::waiting::tests::{NOON, waiting};
    use super::*;
    use std::sync::Arc;

    fn view(bags: usize) -> View {
        View { outlook: club(bags, 30.0, 1).map(Arc::new), own: None, ready: true, apart: false }
    }

    #[test]
    fn numbers_are_said_as_far_as_the_forms_agree() {
        let said = |low, high| many(Span { low, mid: low, high });
        assert_eq!(said(2.6, 3.4), "about 3 more");
        assert_eq!(said(1.6, 4.2), "2 to 4 more");
        assert_eq!(said(0.3, 1.2), "up to 1 more");
        assert_eq!(said(0.0, 0.4), "fewer than 1 more");
    }

    #[test]
    fn the_next_look_is_named_by_its_day() {
        let more = Span { low: 2.9, mid: 3.0, high: 3.1 };
        // Monday noon on paper, last looked at on Friday, now Saturday noon
        let bag = waiting(4, 3);
        assert_eq!(expected(&bag, 4.6, 8.0, more), "About 3 more expected by Tue 10 Mar.");
        assert_eq!(expected(&bag, 5.6, 8.0, more), "Look tomorrow: about 3 more expected by Tue 10 Mar.");
        assert_eq!(
            expected(&bag, 7.0, 10.0, more),
            "Next root expected about day 7 (Mon 9 Mar); about 3 more expected by Thu 12 Mar."
        );
        assert_eq!(expected(&bag, 11.0, 10.0, more), "Next root expected about day 11 (Fri 13 Mar).");
        let looked_at_today = Waiting { look_due: bag.today().succ_opt().unwrap(), ..bag };
        assert!(expected(&looked_at_today, 5.1, 8.0, more).starts_with("Look tomorrow"));
    }

    #[test]
    fn a_guess_names_its_table_and_what_it_is_of() {
        let none = View { ready: true, ..View::default() };
        let said = short(&none, &waiting(2, 0), true);
        let words = "Guess from a published table: pepper seedlings are up in soil about day 8 at 82 °F. Roots come sooner.";
        assert_eq!(said, Short { likely: false, words: words.to_owned() });
        let long = long(&none, &waiting(2, 0), false);
        assert!(long.basis.contains("emergence in soil, not of roots: Harrington & Minges 1954"));
        assert!(!long.fitted && long.chance.is_empty());
    }

    #[test]
    fn the_basis_is_named_in_the_units_of_the_member() {
        let at = |us| long(&view(14), &waiting(6, 3), us).basis;
        assert_eq!(at(false), "From 14 bags of Kestrel by 4 growers at 27 to 29 °C, all sources together.");
        assert!(at(true).contains("at 81 to 84 °F"));
    }

    #[test]
    fn no_age_makes_words_that_are_not_numbers() {
        let views = [view(14), View { ready: true, ..View::default() }, View::default()];
        for view in views {
            for age in [0, 1, 7, 30, 400, 4000] {
                for rooted in [0, 5, 9, 10] {
                    let rooted_at = (rooted > 0).then(|| NOON.plus_days(age / 2));
                    let bag = Waiting { rooted_at, ..waiting(age, rooted) };
                    let (short, long) = (short(&view, &bag, false), long(&view, &bag, false));
                    let said = format!("{short:?} {long:?}");
                    assert!(!said.contains("NaN") && !said.contains("inf") && !said.contains('-'), "{said}");
                }
            }
        }
    }

    #[test]
    fn the_record_of_the_club_is_told_in_seeds() {
        let record = |rooted| Why::Record(Record { seeds: 34.0, rooted, bags: 6, most: 0.1 });
        assert!(
            give_up(&record(0.0))
                .ends_with("of 34 seeds of the club that waited this long, none rooted later.")
        );
        assert!(give_up(&record(1.0)).ends_with("1 rooted later."));
    }
}
