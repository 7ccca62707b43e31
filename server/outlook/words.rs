//! Verdicts as a grower reads them.

use super::kept::View;
use super::model::{Outlook, Span, Why};
use super::pool::{Basis, ENOUGH_BAGS, ENOUGH_ROOTED};
use super::published;
use super::verdict::{News, giving_up_from, giving_up_from_own, verdict};
use super::waiting::Waiting;
use crate::routines::model::{degrees, unit};
use crate::web::words::{counted, day};
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
        News::Unlikely => "Another root soon is unlikely, but it is too early to give up.".to_owned(),
        News::Behind(usual) => match &view.outlook {
            Some(o) => format!(
                "Behind the club’s other {}: about {usual:.0} of {} are out by this day there.",
                name(&o.basis),
                bag.seeds
            ),
            None => String::new(),
        },
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
    let more = format!("{} expected by {}", many(more), day(by, today));
    match (look - today).num_days() {
        0 => capital(&more),
        1 => format!("Look tomorrow: {more}."),
        _ => {
            let which = if bag.rooted == 0 { "First" } else { "Next" };
            let root =
                format!("{which} root expected about day {} ({})", bag.day_number(look), day(look, today));
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
        (_, 0) => "fewer than 1 more".to_owned(),
        (0, high) => format!("up to {high} more"),
        (low, high) if low == high => format!("about {low} more"),
        (low, high) => format!("{low} to {high} more"),
    }
}

fn guess(bag: &Waiting, days: f64, us: bool) -> String {
    let up = bag.date(days);
    format!(
        "Guess from a published table: {} seedlings are up in soil about day {} at {}. Roots come sooner.",
        bag.kind,
        bag.day_number(up),
        warmth(bag.warmth_c.unwrap_or_default(), us)
    )
}

fn give_up(why: &Why) -> String {
    match why {
        Why::Forms => {
            "Consider the final count: by the club’s other bags, no more roots are likely.".to_owned()
        }
        Why::Record(r) => format!(
            "Consider the final count: of {} of the club that waited this long, {} rooted later.",
            counted(r.seeds as i64, "seed", "seeds"),
            if r.rooted > 0.0 { format!("{:.0}", r.rooted) } else { "none".to_owned() }
        ),
        Why::Own => "Consider the final count: by this bag’s own looks, no more roots are likely.".to_owned(),
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
    let chance = format!(
        "The chance that a seed still on paper roots at all is about {} % ({} to {}): {} in the end.",
        percent(ever.mid),
        percent(low),
        percent(high),
        many(ever.times(left))
    );
    let if_lost = outlook.ever_if_lost(age).map_or_else(String::new, |e| {
        format!(
            "Mouldy seeds that were removed are taken as never rooting. If they are taken as only lost from sight, the \
             chance is {} %.",
            percent(e.mid)
        )
    });
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
        None => "It is too early to say when to give up.".to_owned(),
    }
}

fn own_from(view: &View, bag: &Waiting, news: &News) -> String {
    let own = view.own.as_ref().filter(|_| !matches!(news, News::GiveUp(_)));
    own.and_then(|own| giving_up_from_own(own, bag)).map_or_else(String::new, |from| from_day(bag, from))
}

fn from_day(bag: &Waiting, from: f64) -> String {
    let date = bag.date(from.ceil());
    let (number, date) = (bag.day_number(date), day(date, bag.today()));
    format!("If nothing more roots, the final count is worth considering from about day {number} ({date}).")
}

fn no_basis(view: &View, bag: &Waiting, news: &News, us: bool) -> String {
    if !view.ready {
        return "The club’s bags are still being reckoned. Open this page again in a moment.".to_owned();
    }
    let at = bag.warmth_c.map_or_else(String::new, |c| format!(" at about {}", warmth(c, us)));
    let floaters = if bag.floated { "floaters of " } else { "" };
    let too_few = format!(
        "The club has too few bags of {floaters}{} or other {}{at} to say more: {ENOUGH_BAGS} bags with {ENOUGH_ROOTED} \
         rooted seeds are needed.",
        bag.variety, bag.kind
    );
    if let News::Guess(_) = news {
        let source = published::SOURCE;
        return format!("{too_few} The published table is of emergence in soil, not of roots: {source}.");
    }
    if bag.warmth_c.is_none() && bag.rooted == 0 {
        return format!("{too_few} Write down its warmth for a guess from a published table.");
    }
    too_few
}

/// `Kestrel`, `pepper`, `floaters of Kestrel`.
fn name(basis: &Basis) -> String {
    if basis.floated { format!("floaters of {}", basis.of) } else { basis.of.clone() }
}

fn basis(basis: &Basis, us: bool) -> String {
    let at = basis.warmth_c.map_or_else(String::new, |(low, high)| {
        let (low, high) = (degrees(low, us), degrees(high, us));
        let span = if low == high { low } else { format!("{low} to {high}") };
        format!(" at {span} {}", unit(us))
    });
    let count = |n: usize, one, many| counted(i64::try_from(n).unwrap_or(i64::MAX), one, many);
    let why = if basis.kind_wide { " The club has too few bags of this variety alone." } else { "" };
    format!(
        "From {} of {} by {}{at}, all sources together.{why}",
        count(basis.bags, "bag", "bags"),
        name(basis),
        count(basis.growers, "grower", "growers")
    )
}

fn warmth(c: f64, us: bool) -> String {
    format!("{} {}", degrees(c, us), unit(us))
}

/// Per cent without decimals; 0 and 100 only where nothing, or everything, is meant.
fn percent(share: f64) -> String {
    let whole = (share * 100.0).round();
    let whole = if share > 0.0 && share < 1.0 { whole.clamp(1.0, 99.0) } else { whole };
    format!("{whole}")
}

#[cfg(test)]
mod tests {
    use super::super::model::{Record, tests::club};
    use super::super::waiting::tests::{NOON, waiting};
    use super::*;
    use std::sync::Arc;

    fn view(bags: usize) -> View {
        View { outlook: club(bags, 30.0, 1).map(Arc::new), own: None, ready: true }
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
