//! A season week by week: what to start, how full the mat is, which cells are filled, how many trays stand.

use super::model::{Entry, Plan};
use crate::web::words::day;
use chrono::{Datelike, Duration, NaiveDate};

/// The most weeks that are shown.
const MOST_WEEKS: i64 = 160;

/// One week that has something in it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Week {
    /// Its Monday.
    pub monday: NaiveDate,
    /// Lines that start, by their places.
    pub starts: Vec<usize>,
    /// The most bags that lie on the mat on one day.
    pub bags: i64,
    /// Cells that are filled.
    pub cells: i64,
    /// Cells that hold plants on the fullest day.
    pub standing: i64,
    /// Lines that become ready.
    pub ready: Vec<usize>,
}

/// The weeks of the entries that have a number of seeds.
pub fn weeks(entries: &[Entry]) -> Vec<Week> {
    let reckoned = || entries.iter().filter(|e| e.reckoned.seeds.is_some());
    let first = reckoned().map(|e| e.reckoned.start).min();
    let last = reckoned().map(|e| e.line.ready_on).max();
    let (Some(first), Some(last)) = (first, last) else { return Vec::new() };
    let monday = first - Duration::days(i64::from(first.weekday().num_days_from_monday()));
    let count = ((last - monday).num_days() / 7 + 1).clamp(1, MOST_WEEKS);
    let all = (0..count).map(|n| week(monday + Duration::weeks(n), entries));
    all.filter(|w| !w.starts.is_empty() || w.bags + w.cells + w.standing > 0 || !w.ready.is_empty()).collect()
}

fn week(monday: NaiveDate, entries: &[Entry]) -> Week {
    let days: Vec<NaiveDate> = monday.iter_days().take(7).collect();
    let within = |day: NaiveDate| days.contains(&day);
    let places = |on: &dyn Fn(&Entry) -> NaiveDate| -> Vec<usize> {
        let found = entries.iter().enumerate().filter(|(_, e)| e.reckoned.seeds.is_some() && within(on(e)));
        found.map(|(i, _)| i).collect()
    };
    let most = |sum: &dyn Fn(NaiveDate) -> i64| days.iter().map(|day| sum(*day)).max().unwrap_or(0);
    let fills = places(&|e| e.reckoned.fill);
    Week {
        monday,
        starts: places(&|e| e.reckoned.start),
        bags: most(&|day| entries.iter().filter(|e| on_mat(e, day)).map(|e| e.reckoned.bags).sum()),
        cells: fills.iter().map(|i| entries[*i].reckoned.cells).sum(),
        standing: most(&|day| entries.iter().filter(|e| in_cells(e, day)).map(|e| e.reckoned.cells).sum()),
        ready: places(&|e| e.line.ready_on),
    }
}

fn on_mat(entry: &Entry, day: NaiveDate) -> bool {
    let r = &entry.reckoned;
    r.seeds.is_some() && (r.paper..r.fill.max(r.paper + Duration::days(1))).contains(&day)
}

fn in_cells(entry: &Entry, day: NaiveDate) -> bool {
    entry.reckoned.seeds.is_some() && (entry.reckoned.fill..entry.line.ready_on).contains(&day)
}

/// Full trays and the begun one that so many cells take.
pub fn trays(cells: i64, plan: &Plan) -> i64 {
    cells.unsigned_abs().div_ceil(plan.cells().unsigned_abs().max(1)) as i64
}

impl Week {
    /// `Week of Mon 2 Mar`
    pub fn title(&self, today: NaiveDate) -> String {
        t!("planning-week-of", day = day(self.monday, today).replace(' ', "\u{a0}"))
    }

    /// `12 of 20 bags`; `22 bags: 2 more than the mat holds`.
    pub fn mat(&self, plan: &Plan) -> String {
        match (self.bags, plan.mat_bags) {
            (0, _) => String::new(),
            (n, Some(most)) if n > most => t!("planning-mat-over", n = n, over = n - most),
            (n, Some(most)) => t!("planning-mat-of", n = n, most = most),
            (n, None) => t!("planning-mat-bags", n = n),
        }
    }

    /// `96 cells in 2 trays`
    pub fn fill(&self, plan: &Plan) -> String {
        if self.cells == 0 {
            return String::new();
        }
        t!("planning-cells-in-trays", cells = self.cells, trays = trays(self.cells, plan))
    }

    /// `2 of 4 trays`; `5 trays: 1 more than there is room for`.
    pub fn stand(&self, plan: &Plan) -> String {
        match (trays(self.standing, plan), plan.trays) {
            (0, _) => String::new(),
            (n, Some(most)) if n > most => t!("planning-trays-over", n = n, over = n - most),
            (n, Some(most)) => t!("planning-trays-of", n = n, most = most),
            (n, None) => t!("planning-trays", n = n),
        }
    }

    /// Whether the mat or the trays do not hold it all.
    pub fn is_over(&self, plan: &Plan) -> bool {
        plan.mat_bags.is_some_and(|most| self.bags > most)
            || plan.trays.is_some_and(|most| trays(self.standing, plan) > most)
    }
}

/// `24 seeds of Marsh Ember`
pub fn start_words(entry: &Entry) -> String {
    t!("planning-seeds-of-variety", n = entry.reckoned.seeds.unwrap_or(0), variety = entry.line.variety)
}

#[cfg(test)]
mod tests {
    use super::super::reckon::tests::{line, plan};
    use super::super::reckon::{Reckoned, With};
    use super::*;

    fn entry(plants: i64, ready: &str, promised: (i64, &str)) -> Entry {
        let (line, plan) = (line(plants, ready), plan());
        let promised = Some((promised.0, promised.1.parse().unwrap()));
        let with = With { plan: &plan, rooting: None, growing: None, outlook: None, promised, us: false };
        Entry { reckoned: Reckoned::of(&line, with), line, promises: Vec::new(), takes: Vec::new(), short: 0 }
    }

    /// Soak 1 day, 8 days on paper (Harrington & Minges 1954: pepper at 25 degrees C), then in cells until ready.
    #[test]
    fn weeks_add_up_what_lies_on_the_mat_and_stands_in_trays() {
        let entries =
            [entry(70, "2026-05-18", (20, "2026-03-03")), entry(10, "2026-05-18", (15, "2026-03-05"))];
        let plan = plan();
        let weeks = weeks(&entries);
        let told: Vec<(String, usize, i64, i64, i64)> = weeks
            .iter()
            .take(3)
            .map(|w| (w.monday.to_string(), w.starts.len(), w.bags, w.cells, w.standing))
            .collect();
        // the first goes to cells on Thu 12 Mar, the second on Sat 14 Mar; 20 cells for 20 seeds, 10 for 15
        assert_eq!(
            told,
            [
                ("2026-03-02".to_owned(), 2, 4, 0, 0),
                ("2026-03-09".to_owned(), 0, 4, 30, 30),
                ("2026-03-16".to_owned(), 0, 0, 0, 30),
            ]
        );
        assert_eq!(weeks[0].mat(&plan), "4 bags: 1 more than the mat holds");
        assert!(weeks[0].is_over(&plan) && !weeks[2].is_over(&plan));
        assert_eq!(
            (weeks[1].fill(&plan), weeks[1].stand(&plan)),
            ("30 cells in 1 tray".into(), "1 of 1 tray".into())
        );
        let last = weeks.last().unwrap();
        assert_eq!((last.monday.to_string(), last.ready.len()), ("2026-05-18".to_owned(), 2));
        assert!(super::weeks(&[]).is_empty());
    }
}
