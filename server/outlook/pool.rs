//! The club's bags of a variety, or of a kind, as the rows that the event-time model takes.

use super::row::{Row, STEP};
use crate::rates::{Book, Counted, Standing};
use hilum_calc::event_time::{Fate, Seeds};
use std::collections::{BTreeSet, HashMap};
use std::sync::Arc;

/// Bags this many degrees C warmer or colder are of similar warmth (our own choice, no source).
const SIMILAR_C: f64 = 2.5;
/// From as many bags and rooted seeds on is more than a guess made of them (our own choice, no source).
pub const ENOUGH_BAGS: usize = 5;
pub const ENOUGH_ROOTED: f64 = 20.0;

/// Which bags stand for a bag.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Key {
    kind_id: String,
    /// `None`: all varieties of the kind.
    variety: Option<String>,
    /// Whole degrees C; `None`: any warmth.
    warmth_c: Option<i32>,
    floated: bool,
}

impl Key {
    /// The bags to take for `bag`: of its variety; where they are too few, of its kind.
    pub fn of(bag: &Counted, warmth_c: Option<f64>) -> [Self; 2] {
        Self::pair(&bag.kind_id, &bag.variety, bag.floated, warmth_c)
    }

    /// The bags to take for seed of a variety that is not on paper yet; where they are too few, of its kind.
    pub fn sought(kind_id: &str, variety: &str, warmth_c: f64) -> [Self; 2] {
        Self::pair(kind_id, variety, false, Some(warmth_c))
    }

    fn pair(kind_id: &str, variety: &str, floated: bool, warmth_c: Option<f64>) -> [Self; 2] {
        let key = |variety| Self {
            kind_id: kind_id.to_owned(),
            variety,
            warmth_c: warmth_c.map(|c| c.round() as i32),
            floated,
        };
        [key(Some(variety.to_owned())), key(None)]
    }

    fn takes(&self, bag: &Counted) -> bool {
        let near = |c: i32| bag.warmth_c.is_some_and(|w| (w - f64::from(c)).abs() <= SIMILAR_C);
        bag.standing == Standing::Counts
            && bag.floated == self.floated
            && self.variety.as_ref().is_none_or(|v| bag.variety == v.as_str())
            && self.warmth_c.is_none_or(near)
    }
}

/// On what an outlook rests.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Basis {
    /// The variety, or the kind.
    pub of: String,
    pub kind_wide: bool,
    pub floated: bool,
    pub bags: usize,
    pub growers: usize,
    pub rooted: f64,
    /// Lowest and highest in degrees C, where any is known.
    pub warmth_c: Option<(f64, f64)>,
}

/// Rows in days since the paper, by bag.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Pool {
    pub basis: Basis,
    pub rows: Arc<[Row]>,
}

impl Pool {
    pub fn seeds(&self) -> Vec<Seeds> {
        self.rows.iter().map(Seeds::from).collect()
    }

    pub fn is_enough(&self) -> bool {
        self.basis.bags >= ENOUGH_BAGS && self.basis.rooted >= ENOUGH_ROOTED
    }
}

/// The club's bags by kind and by mark.
#[derive(Default)]
pub struct Shelf {
    pub book: Arc<Book>,
    by_kind: HashMap<String, Vec<usize>>,
    by_mark: HashMap<String, usize>,
}

impl Shelf {
    pub fn new(book: Arc<Book>) -> Self {
        let (mut by_kind, mut by_mark) = (HashMap::<String, Vec<usize>>::new(), HashMap::new());
        for (i, bag) in book.bags.iter().enumerate() {
            by_kind.entry(bag.kind_id.to_string()).or_default().push(i);
            by_mark.entry(bag.mark().to_owned()).or_insert(i);
        }
        Self { book, by_kind, by_mark }
    }

    /// The bag with this mark.
    pub fn bag(&self, mark: &str) -> Option<&Counted> {
        self.by_mark.get(mark).map(|i| &*self.book.bags[*i])
    }

    /// The rows that `key` asks for.
    pub fn pool(&self, key: &Key) -> Pool {
        let of_kind = self.by_kind.get(&key.kind_id).map(Vec::as_slice).unwrap_or_default();
        let bags: Vec<&Counted> =
            of_kind.iter().map(|i| &*self.book.bags[*i]).filter(|b| key.takes(b)).collect();
        let seeds: Vec<Seeds> = bags.iter().enumerate().flat_map(|(i, b)| rows(b, i)).collect();
        Pool { basis: basis(key, &bags, &seeds), rows: seeds.iter().map(Row::from).collect() }
    }
}

fn basis(key: &Key, bags: &[&Counted], seeds: &[Seeds]) -> Basis {
    let distinct = |of: fn(&Counted) -> &str| bags.iter().map(|b| of(b)).collect::<BTreeSet<_>>().len();
    let kind = || bags.first().map_or_else(String::new, |b| b.kind.to_string());
    let warmths = || bags.iter().filter_map(|b| b.warmth_c);
    let rooted = seeds.iter().filter(|s| matches!(s.fate, Fate::Rooted { .. }));
    Basis {
        of: key.variety.clone().unwrap_or_else(kind),
        kind_wide: key.variety.is_none(),
        floated: key.floated,
        bags: distinct(Counted::mark),
        growers: distinct(|b| &b.grower_id),
        rooted: rooted.map(|s| s.count).sum(),
        warmth_c: warmths().reduce(f64::min).zip(warmths().reduce(f64::max)),
    }
}

/// What became of the seeds of one bag, which is number `bag`. Looks at about the same hour of the day fall together.
pub fn rows(bag: &Counted, number: usize) -> Vec<Seeds> {
    let mut out = Vec::new();
    let (mut last, mut left) = (0.0_f64, bag.seeds);
    let seeds = |fate, count: u32| Seeds { fate, count: f64::from(count), bag: number };
    for look in &bag.looks {
        let at = ((look.hours / 24.0 / STEP).round() * STEP).max(last);
        let (rooted, removed) = (look.rooted.min(left), look.dead.saturating_add(look.abnormal));
        left -= rooted;
        let removed = removed.min(left);
        left -= removed;
        if rooted > 0 {
            out.push(seeds(Fate::Rooted { l: last, r: at.max(last + STEP) }, rooted));
        }
        if removed > 0 {
            out.push(seeds(Fate::Removed { l: at }, removed));
        }
        last = at;
    }
    if left > 0 {
        out.push(seeds(Fate::OnPaper { l: last }, left));
    }
    out
}

#[cfg(test)]
pub mod tests {
    use super::*;
    use crate::rates::name::Name;
    use chrono::NaiveDate;
    use hilum_calc::table::{Look, Packed};

    pub fn look(days: f64, rooted: u32, dead: u32) -> Look {
        Look { hours: 24.0 * days, rooted, abnormal: 0, dead }
    }

    /// A bag of Kestrel at 28 degrees C; `mark` names the grower by its first two letters.
    pub fn counted(mark: &str, seeds: u32, looks: Vec<Look>) -> Counted {
        Counted {
            lot: "l".into(),
            lot_told: None,
            lot_code: Name::default(),
            sown: false,
            club: None,
            kind_id: "pepper".into(),
            kind: "pepper".into(),
            variety: "Kestrel".into(),
            source: "Testwood Seeds".into(),
            grower_id: mark[..2].into(),
            grower: mark[..2].into(),
            trial: mark.into(),
            bag: mark.into(),
            seeds,
            soaked: seeds,
            threw: false,
            floated: false,
            on_paper: NaiveDate::default(),
            closed: false,
            standing: if looks.is_empty() { Standing::Unseen } else { Standing::Counts },
            lot_year: None,
            routine_id: Name::default(),
            routine: Name::default(),
            warmth_c: Some(28.0),
            age_years: None,
            looks: Packed::from(&looks[..]),
        }
    }

    fn pool(bags: Vec<Counted>, of: usize) -> [Pool; 2] {
        let keys = Key::of(&bags[of], bags[of].warmth_c);
        let shelf = Shelf::new(Arc::new(Book::new(bags.into_iter().map(Arc::new).collect(), Arc::default())));
        keys.map(|k| shelf.pool(&k))
    }

    #[test]
    fn rows_account_for_every_seed_once() {
        let bag = counted("JB 1 a", 10, vec![look(1.04, 0, 0), look(2.0, 3, 1), look(2.02, 2, 0)]);
        let rows = rows(&bag, 7);
        let fates: Vec<(Fate, f64)> = rows.iter().map(|s| (s.fate, s.count)).collect();
        assert_eq!(
            fates,
            [
                (Fate::Rooted { l: 1.0, r: 2.0 }, 3.0),
                (Fate::Removed { l: 2.0 }, 1.0),
                (Fate::Rooted { l: 2.0, r: 2.25 }, 2.0),
                (Fate::OnPaper { l: 2.0 }, 4.0),
            ]
        );
        assert!(rows.iter().all(|s| s.is_sound() && s.bag == 7));
    }

    #[test]
    fn a_book_that_contradicts_itself_makes_no_seeds() {
        let rows = rows(&counted("JB 1 a", 3, vec![look(1.0, 9, 9)]), 0);
        assert_eq!(rows.iter().map(|s| s.count).sum::<f64>(), 3.0);
    }

    #[test]
    fn a_pool_is_of_similar_warmth_and_of_bags_that_count() {
        let mut bags: Vec<Counted> =
            (0..5).map(|i| counted(&format!("JB {i} a"), 10, vec![look(6.0, 8, 0)])).collect();
        bags[1].warmth_c = Some(24.0);
        bags[2].standing = Standing::Abandoned;
        bags[3].floated = true;
        bags[4].variety = "Merlin".into();
        bags.push(counted("KR 1 a", 5, vec![look(7.0, 2, 0)]));
        bags[5].warmth_c = Some(30.0);
        let [variety, kind] = pool(bags, 0);
        let b = &variety.basis;
        assert_eq!((b.of.as_str(), b.bags, b.growers, b.rooted), ("Kestrel", 2, 2, 10.0));
        assert_eq!(b.warmth_c, Some((28.0, 30.0)));
        assert!(!variety.is_enough());
        let k = &kind.basis;
        assert_eq!((k.of.as_str(), k.bags, k.kind_wide), ("pepper", 3, true));
    }

    #[test]
    fn seeds_sown_unrooted_are_no_bag_of_their_own() {
        let bags = vec![
            counted("JB 1 a", 9, vec![look(6.0, 8, 0)]),
            counted("JB 1 a, sown unrooted after 9 h", 1, vec![look(0.5, 0, 0)]),
        ];
        let [variety, _] = pool(bags, 0);
        assert_eq!(variety.basis.bags, 1);
    }

    #[test]
    fn the_day_by_which_a_share_has_rooted_is_where_the_curve_passes_it() {
        let looks =
            || vec![look(3.0, 0, 0), look(4.0, 2, 0), look(5.0, 3, 0), look(7.0, 3, 0), look(14.0, 0, 0)];
        let bags = (0..6).map(|i| counted(&format!("JB {i} a"), 10, looks())).collect();
        let [variety, _] = pool(bags, 0);
        let outlook = super::super::model::Outlook::of(&variety).unwrap();
        for share in [0.1, 0.4, 0.7] {
            let day = outlook.when(share).unwrap();
            assert!((outlook.share(day).mid - share).abs() < 1e-6, "{share} by day {day}");
        }
        // 8 of 10 ever root
        assert_eq!(outlook.when(0.9), None);
    }
}
