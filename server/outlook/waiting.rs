use crate::db::ids::At;
use chrono::NaiveDate;
use chrono_tz::Tz;

const DAY: f64 = 86_400.0;

/// An open bag with seeds on paper, as its owner's page knows it.
#[derive(Debug, Clone)]
pub struct Waiting {
    pub mark: String,
    pub variety: String,
    pub kind: String,
    /// A bag of floaters.
    pub floated: bool,
    /// Degrees C.
    pub warmth_c: Option<f64>,
    pub on_paper_at: At,
    pub looked_at: Option<At>,
    /// The last look that found a root.
    pub rooted_at: Option<At>,
    /// Seeds on paper by the last look.
    pub left: i64,
    pub rooted: i64,
    /// Seeds of the bag, whatever became of them.
    pub seeds: i64,
    pub now: At,
    pub zone: Tz,
    /// The day the next look is due.
    pub look_due: NaiveDate,
}

impl Waiting {
    /// Days from paper to the last look; what is still on paper had not rooted by then.
    pub fn age(&self) -> f64 {
        self.days(self.looked_at.unwrap_or(self.on_paper_at))
    }

    /// Days from paper to now.
    pub fn now_days(&self) -> f64 {
        self.days(self.now)
    }

    /// Days that looks have gone on without a root.
    pub fn quiet(&self) -> f64 {
        self.age() - self.rooted_at.map_or(0.0, |at| self.days(at))
    }

    fn days(&self, at: At) -> f64 {
        (at.hours_since(self.on_paper_at) / 24.0).max(0.0)
    }

    /// The calendar day that is `days` after the paper.
    pub fn date(&self, days: f64) -> NaiveDate {
        At(self.on_paper_at.0 + (days * DAY) as i64).day(self.zone)
    }

    /// The number of a calendar day; the day on paper is day 0.
    pub fn day_number(&self, date: NaiveDate) -> i64 {
        (date - self.on_paper_at.day(self.zone)).num_days()
    }

    pub fn today(&self) -> NaiveDate {
        self.now.day(self.zone)
    }
}

#[cfg(test)]
pub mod tests {
    use super::*;

    /// 2026-03-02 12:00 in Berlin, a Monday.
    pub const NOON: At = At(1_772_449_200);

    /// A bag of 10 seeds on paper since Monday noon, looked at after `age` days, a day ago.
    pub fn waiting(age: i64, rooted: i64) -> Waiting {
        let zone = chrono_tz::Europe::Berlin;
        let now = NOON.plus_days(age + 1);
        Waiting {
            mark: "JB 1 a".into(),
            variety: "Kestrel".into(),
            kind: "pepper".into(),
            floated: false,
            warmth_c: Some(28.0),
            on_paper_at: NOON,
            looked_at: (age > 0).then(|| NOON.plus_days(age)),
            rooted_at: None,
            left: 10 - rooted,
            rooted,
            seeds: 10,
            now,
            zone,
            look_due: now.day(zone),
        }
    }

    #[test]
    fn days_are_those_of_the_calendar_of_the_club() {
        let w = waiting(3, 0);
        assert_eq!((w.age(), w.now_days(), w.quiet()), (3.0, 4.0, 3.0));
        assert_eq!(w.date(4.49), w.today());
        assert_eq!(w.day_number(w.date(4.51)), 5);
        let rooted = Waiting { rooted_at: Some(NOON.plus_days(2)), ..w };
        assert_eq!(rooted.quiet(), 1.0);
    }
}
