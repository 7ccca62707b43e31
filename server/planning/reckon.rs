//! One line of a plan reckoned: seeds to soak, bags, cells, trays, and the days on which what is done.

use super::days::{Days, days};
use super::model::{Line, Plan};
use super::raising::Weeks;
use super::rate::Based;
use crate::outlook::Outlook;
use crate::routines::model::warmth;
use chrono::{Duration, NaiveDate};
use hilum_calc::sowing::{Rate, Stages};

/// What a line takes.
#[derive(Debug, Clone, PartialEq)]
pub struct Reckoned {
    /// Seeds to soak; `None` where no rate is known or no number is enough.
    pub seeds: Option<i64>,
    pub bags: i64,
    pub cells: i64,
    pub start: NaiveDate,
    /// Onto paper.
    pub paper: NaiveDate,
    /// Rooted seeds into cells.
    pub fill: NaiveDate,
    pub rooting: Option<Based>,
    pub growing: Option<Based>,
    pub days: Days,
    pub weeks: Weeks,
    pub soak_days: i64,
    /// Percent.
    pub certainty: i64,
    /// Degrees C.
    pub warmth_c: f64,
    /// Plants that so many seeds give on average.
    pub average: f64,
}

/// What a line is reckoned with.
pub struct With<'w> {
    pub plan: &'w Plan,
    pub rooting: Option<Based>,
    pub growing: Option<Based>,
    pub outlook: Option<&'w Outlook>,
    /// Seeds and first day that are promised already: they stand.
    pub promised: Option<(i64, NaiveDate)>,
    pub us: bool,
}

impl Reckoned {
    pub fn of(line: &Line, with: With) -> Self {
        let plan = with.plan;
        let certainty = line.certainty.unwrap_or(plan.certainty);
        let warmth_c = line.warmth_c.unwrap_or(plan.warmth_c);
        let (wanted, sure) = (line.plants.unsigned_abs(), certainty as f64 / 100.0);
        let stages = with
            .rooting
            .as_ref()
            .map(|r| Stages { first: r.rate, second: with.growing.as_ref().map(|g| g.rate) });
        let needed = stages.and_then(|s| s.seeds(wanted, sure).seeds).and_then(|n| i64::try_from(n).ok());
        let seeds = with.promised.map(|(seeds, _)| seeds).or(needed);
        let cells = cells(line.plants, with.growing.as_ref().map(|g| g.rate), sure, seeds);
        let share = seeds.map_or(0.5, |n| cells as f64 / n.max(1) as f64);
        let days = days(with.outlook, (&line.kind, warmth_c, &warmth(warmth_c, with.us)), share);
        let weeks = Weeks::of(&line.kind, line.raise_weeks);
        let soak_days = plan.soak_days();
        let before = days.number + soak_days;
        let start = match with.promised {
            Some((_, start)) => start,
            None => later(line.ready_on, -(7 * weeks.number() + before)),
        };
        Self {
            seeds,
            bags: seeds.map_or(0, |n| n.unsigned_abs().div_ceil(plan.bag_seeds.unsigned_abs().max(1)) as i64),
            cells,
            start,
            paper: later(start, soak_days),
            fill: later(start, before),
            average: stages.map_or(0.0, |s| s.mean()) * seeds.unwrap_or(0) as f64,
            rooting: with.rooting,
            growing: with.growing,
            days,
            weeks,
            soak_days,
            certainty,
            warmth_c,
        }
    }
}

/// Cells for so many plants: rooted seeds of which enough grow on; no more than there are seeds.
fn cells(plants: i64, growing: Option<Rate>, sure: f64, seeds: Option<i64>) -> i64 {
    let needed = growing.map_or(Some(plants.unsigned_abs()), |rate| {
        Stages { first: rate, second: None }.seeds(plants.unsigned_abs(), sure).seeds
    });
    let needed = needed.and_then(|n| i64::try_from(n).ok()).unwrap_or(plants);
    seeds.map_or(needed, |n| needed.min(n))
}

fn later(day: NaiveDate, days: i64) -> NaiveDate {
    day.checked_add_signed(Duration::days(days)).unwrap_or(day)
}

#[cfg(test)]
pub mod tests {
    use super::*;
    use crate::db::ids::{KindId, LineId, PlanId, RoutineId, VarietyId};
    use hilum_calc::sowing::Tested;

    pub fn plan() -> Plan {
        Plan {
            id: PlanId("p".into()),
            name: "2026".into(),
            routine_id: RoutineId("r".into()),
            routine: "Plain water overnight".into(),
            soak_minutes: 12 * 60,
            bag_seeds: 10,
            warmth_c: 25.0,
            tray_rows: 12,
            tray_cols: 6,
            certainty: 90,
            mat_bags: Some(3),
            trays: Some(1),
        }
    }

    pub fn line(plants: i64, ready: &str) -> Line {
        Line {
            id: LineId(ready.into()),
            plan_id: PlanId("p".into()),
            variety_id: VarietyId("v".into()),
            variety: "Kestrel".into(),
            kind_id: KindId("pepper".into()),
            kind: "pepper".into(),
            source_id: None,
            source: None,
            plants,
            ready_on: ready.parse().unwrap(),
            certainty: None,
            raise_weeks: None,
            warmth_c: None,
        }
    }

    fn based(x: u64, n: u64) -> Option<Based> {
        Some(Based { rate: Rate::Tested(Tested { x, n }), sign: "", words: String::new() })
    }

    fn with(plan: &Plan, rooting: Option<Based>, growing: Option<Based>) -> With<'_> {
        With { plan, rooting, growing, outlook: None, promised: None, us: false }
    }

    /// m7_sowing.json, two_stage k=12, 42 of 50, then 27 of 30, 90 %: 20 seeds. Pepper comes up in 8 days at 25 degrees
    /// C (Harrington & Minges 1954) and is raised 9 weeks (common practice, no source); half a day of soak is a day.
    #[test]
    fn a_line_is_reckoned_from_the_end() {
        let plan = plan();
        let got = Reckoned::of(&line(12, "2026-05-25"), with(&plan, based(42, 50), based(27, 30)));
        assert_eq!((got.seeds, got.bags), (Some(20), 2));
        // 12 of 16 and more with Beta(27.5, 3.5) in 0.9408, of 15 in 0.8830 (exact sums, plan_two_stages.py)
        assert_eq!(got.cells, 16);
        assert_eq!((got.soak_days, got.days.number, got.weeks.number()), (1, 8, 9));
        let days = [got.start, got.paper, got.fill].map(|d| d.to_string());
        assert_eq!(days, ["2026-03-14", "2026-03-15", "2026-03-23"]);
        assert_eq!(got.fill + Duration::weeks(9), "2026-05-25".parse().unwrap());
    }

    #[test]
    fn what_is_promised_stands() {
        let plan = plan();
        let promised = Some((31, "2026-03-01".parse().unwrap()));
        let got =
            Reckoned::of(&line(12, "2026-05-25"), With { promised, ..with(&plan, based(42, 50), None) });
        assert_eq!((got.seeds, got.bags, got.cells), (Some(31), 4, 12));
        assert_eq!(got.start.to_string(), "2026-03-01");
    }

    #[test]
    fn without_a_rate_there_is_no_number() {
        let plan = plan();
        let got = Reckoned::of(&line(12, "2026-05-25"), with(&plan, None, None));
        assert_eq!((got.seeds, got.bags, got.cells), (None, 0, 12));
        let hopeless = Reckoned::of(&line(2000, "2026-05-25"), with(&plan, based(0, 50), based(1, 50)));
        assert_eq!(hopeless.seeds, None);
    }
}
