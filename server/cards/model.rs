//! What a card is, and what may be typed of it.

use crate::bags::model::Bag;
use crate::db::FromRow;
use crate::db::ids::{At, BagId, CardId};
use crate::notebook::bag::Look;
use crate::web::forms::Form;
use crate::web::words;
use chrono::{NaiveDate, TimeZone};
use chrono_tz::Tz;

/// Bags on one card, which is one page.
pub const ROWS: usize = 16;
/// Columns for dates on a card.
pub const DATES: usize = 7;
/// More than any bag holds.
const MOST: i64 = 100_000;
const NOON: u32 = 12;

/// A printed card of the member who asks.
#[derive(Debug, Clone, FromRow)]
pub struct Card {
    pub id: CardId,
    pub number: i64,
    pub card_key: String,
    pub made_at: At,
}

/// One row of a card: the bag, whoever has it now.
#[derive(Debug, Clone, FromRow)]
pub struct Line {
    pub place: i64,
    pub bag_id: BagId,
    pub mark: String,
    pub variety: String,
}

/// A look that was counted before.
#[derive(Debug, Clone, FromRow)]
pub struct Counted {
    pub bag_id: BagId,
    pub at: At,
    pub rooted: i64,
    pub dead: i64,
}

/// Names of the fields of a column, and of the cells of a row.
pub fn date(n: usize) -> String {
    format!("date-{n}")
}

pub fn rooted(place: i64, n: usize) -> String {
    format!("rooted-{place}-{n}")
}

pub fn dead(place: i64, n: usize) -> String {
    format!("dead-{place}-{n}")
}

/// The tick that says: another look on a day that was counted before.
pub fn again(place: i64, n: usize) -> String {
    format!("again-{place}-{n}")
}

/// A look that was typed.
#[derive(Debug, Clone)]
pub struct Typed {
    pub place: i64,
    pub column: usize,
    pub day: NaiveDate,
    pub look: Look,
}

/// Reads the cells of these rows under `columns` dates: empty is not looked, 0 is looked and nothing. What is
/// wrong is noted beside its cell.
pub fn parse(form: &mut Form, places: &[i64], columns: usize, today: NaiveDate) -> Vec<Typed> {
    let days = days(form, columns, today);
    let mut typed = Vec::new();
    for place in places {
        for (column, day) in (1..).zip(&days) {
            let Some(look) = look(form, *place, column) else { continue };
            match day {
                Some(day) => typed.push(Typed { place: *place, column, day: *day, look }),
                None => form.refuse(&date(column), t!("cards-give-the-date")),
            }
        }
    }
    if typed.is_empty() && !form.failed() {
        form.refuse(&date(1), t!("cards-type-a-date"));
    }
    typed
}

fn days(form: &mut Form, columns: usize, today: NaiveDate) -> Vec<Option<NaiveDate>> {
    let mut days: Vec<Option<NaiveDate>> = Vec::new();
    for n in 1..=columns {
        let day = form.day(&date(n));
        if day.is_some_and(|d| d > today) {
            form.refuse(&date(n), t!("cards-in-the-future"));
        }
        if day.is_some() && days.contains(&day) {
            form.refuse(&date(n), t!("cards-date-stands-twice"));
        }
        days.push(day);
    }
    days
}

fn look(form: &mut Form, place: i64, column: usize) -> Option<Look> {
    let rooted = form.whole(&rooted(place, column), 0..=MOST);
    let dead = form.whole(&dead(place, column), 0..=MOST);
    let any = rooted.is_some() || dead.is_some();
    any.then(|| Look { rooted: rooted.unwrap_or(0), dead: dead.unwrap_or(0), abnormal: 0 })
}

/// The moment of a look of which only the day is known: noon, but not before the bag was on paper, nor later than
/// now. `None` where the bag was not on paper on that day.
pub fn moment(day: NaiveDate, bag: &Bag, zone: Tz, now: At) -> Option<At> {
    let since = bag.on_paper_at.day(zone);
    if day < since {
        return None;
    }
    let noon = day.and_hms_opt(NOON, 0, 0).and_then(|n| zone.from_local_datetime(&n).earliest());
    let noon = noon.map_or(now, |t| At(t.timestamp())).min(now);
    Some(if day == since { noon.max(bag.on_paper_at) } else { noon })
}

/// `Counted on 3 Mar already: 2 rooted, 0 dead.` where this bag was counted on this day before.
pub fn counted_already(
    counted: &[Counted],
    bag: &BagId,
    day: NaiveDate,
    zone: Tz,
    today: NaiveDate,
) -> Option<String> {
    let same: Vec<&Counted> = counted.iter().filter(|c| c.bag_id == *bag && c.at.day(zone) == day).collect();
    let sum = |of: fn(&Counted) -> i64| same.iter().map(|c| of(c)).sum::<i64>();
    let day = words::day(day, today);
    let (rooted, dead) = (sum(|c| c.rooted), sum(|c| c.dead));
    (!same.is_empty()).then(|| t!("cards-counted-already", day = day, rooted = rooted, dead = dead))
}

#[cfg(test)]
mod tests {
    use super::*;

    const ZONE: Tz = chrono_tz::Europe::Berlin;
    /// 2026-03-02 12:00 in Berlin.
    const NOON: At = At(1_772_449_200);

    fn day(d: u32) -> NaiveDate {
        NaiveDate::from_ymd_opt(2026, 3, d).unwrap()
    }

    fn form(pairs: &[(&str, &str)]) -> Form {
        Form::from_pairs(pairs.iter().map(|(n, v)| ((*n).to_owned(), (*v).to_owned())).collect())
    }

    fn errors(form: &Form) -> Vec<&str> {
        form.errors().iter().map(|(n, _)| n.as_str()).collect()
    }

    #[test]
    fn empty_is_not_looked_and_nought_is_a_look() {
        let mut f =
            form(&[("date-1", "2026-03-03"), ("rooted-1-1", "0"), ("dead-2-1", "1"), ("rooted-3-1", " ")]);
        let typed = parse(&mut f, &[1, 2, 3], 1, day(4));
        assert!(!f.failed());
        let found: Vec<_> = typed.iter().map(|t| (t.place, t.look.rooted, t.look.dead)).collect();
        assert_eq!(found, [(1, 0, 0), (2, 0, 1)]);
    }

    #[test]
    fn what_is_wrong_is_noted_at_its_place() {
        let mut f = form(&[("rooted-1-1", "2"), ("rooted-2-1", "many"), ("date-2", "2026-03-05")]);
        parse(&mut f, &[1, 2], 2, day(4));
        assert_eq!(errors(&f), ["date-2", "date-1", "rooted-2-1"]);
        let mut f = form(&[("date-1", "2026-03-03"), ("date-2", "2026-03-03"), ("rooted-1-2", "1")]);
        parse(&mut f, &[1], 2, day(4));
        assert_eq!(errors(&f), ["date-2"]);
        let mut f = form(&[("date-1", "2026-03-03")]);
        parse(&mut f, &[1], 2, day(4));
        assert_eq!(errors(&f), ["date-1"]);
    }

    #[test]
    fn a_day_is_its_noon_between_paper_and_now() {
        let bag = crate::bags::model::tests::bag();
        let evening = NOON.plus_minutes(6 * 60);
        let late = Bag { on_paper_at: evening, ..bag.clone() };
        assert_eq!(moment(day(3), &bag, ZONE, NOON.plus_days(5)), Some(NOON.plus_days(1)));
        assert_eq!(moment(day(2), &late, ZONE, NOON.plus_days(5)), Some(evening));
        assert_eq!(moment(day(1), &bag, ZONE, NOON.plus_days(5)), None);
        let morning = NOON.plus_days(1).plus_minutes(-120);
        assert_eq!(moment(day(3), &bag, ZONE, morning), Some(morning));
    }

    #[test]
    fn looks_of_one_day_are_told_together() {
        let bag = BagId::new();
        let look = |at, rooted| Counted { bag_id: bag.clone(), at, rooted, dead: 0 };
        let counted = [look(NOON, 2), look(NOON.plus_minutes(30), 1), look(NOON.plus_days(1), 5)];
        let said = counted_already(&counted, &bag, day(2), ZONE, day(9)).unwrap();
        assert!(said.ends_with("already: 3 rooted, 0 dead."), "{said}");
        assert_eq!(counted_already(&counted, &bag, day(4), ZONE, day(9)), None);
        assert_eq!(counted_already(&counted, &BagId::new(), day(2), ZONE, day(9)), None);
    }
}
