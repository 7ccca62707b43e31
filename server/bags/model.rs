use crate::db::ids::{At, BagId, HolderId, PacketId, TrialId};
use crate::error::AppError;
use crate::notebook::About;
use crate::notebook::bag::{Finding, Look, Sums};
use crate::outlook::Waiting;
use crate::web::forms::Form;
use chrono::{Days, NaiveDate};
use chrono_tz::Tz;
use sqlx::FromRow;

/// Days between the looks of a bag that is looked at weekly.
const WEEK: u64 = 7;

/// A value that a form offers, and its words.
pub type Choice = (&'static str, fn() -> &'static str);

/// The choices in the language of the request.
pub fn choices<const N: usize>(all: [Choice; N]) -> [(&'static str, &'static str); N] {
    all.map(|(value, words)| (value, words()))
}

/// What can happen to a bag; the values are those of table bag_events, but for the mouldy seeds.
pub const EVENTS: [Choice; 17] = [
    ("damped", || t!("bags-damped-again")),
    ("paper changed", || t!("bags-paper-changed")),
    ("rinsed", || t!("bags-event-rinsed")),
    ("soaked again", || t!("bags-event-soaked-again")),
    ("mould seen", || t!("bags-mould-seen")),
    ("mouldy removed", || t!("bags-event-mouldy-removed")),
    ("dried out", || t!("bags-event-dried-out")),
    ("overheated", || t!("bags-event-overheated")),
    ("moved", || t!("bags-event-moved")),
    ("into holder", || t!("bags-event-into-holder")),
    ("out of holder", || t!("bags-event-out-of-holder")),
    ("handed on", || t!("bags-event-handed-on")),
    ("look weekly", || t!("bags-event-look-weekly")),
    ("look daily", || t!("bags-event-look-daily")),
    ("in doubt", || t!("bags-event-in-doubt")),
    ("resolved", || t!("bags-event-resolved")),
    ("note", || t!("bags-event-note")),
];

/// Where seeds of a bag can go without a look. The ends of rooted seeds are those of table rooted_ends.
pub const LEAVES: [Choice; 6] = [
    ("lost", || t!("bags-leaves-lost")),
    ("moved", || t!("bags-leaves-moved")),
    ("surplus", || t!("bags-leaves-surplus")),
    ("given", || t!("bags-leaves-given")),
    ("root broken", || t!("bags-leaves-root-broken")),
    ("rotted", || t!("bags-leaves-rotted")),
];

/// How a bag is closed or kept on.
pub const ENDINGS: [Choice; 3] = [
    ("final count", || t!("bags-ending-final-count")),
    ("kept on", || t!("bags-ending-kept-on")),
    ("abandoned", || t!("bags-ending-abandoned")),
];

/// A bag with all that its pages say of it.
#[derive(Debug, Clone, FromRow)]
pub struct Bag {
    pub id: BagId,
    pub trial_id: TrialId,
    pub packet_id: PacketId,
    pub mark: String,
    pub variety: String,
    pub source: String,
    pub kind: String,
    pub kind_key: String,
    pub floaters: bool,
    pub treated_again: bool,
    pub on_paper_at: At,
    pub holder_id: Option<HolderId>,
    pub holder: Option<String>,
    pub place: String,
    /// Degrees C.
    pub warmth_c: Option<f64>,
    pub weekly: bool,
    pub in_doubt: bool,
    pub voided: bool,
    pub seeds: i64,
    pub rooted: i64,
    pub on_paper: i64,
    /// Rooted seeds that were planted or otherwise ended.
    pub ended: i64,
    pub looked_at: Option<At>,
    pub closed_at: Option<At>,
    pub ending: String,
    /// What looks found, as [`Finding`] keeps it.
    pub findings: String,
}

impl Bag {
    /// Whether seeds of it may still be counted.
    pub fn is_open(&self) -> bool {
        !self.voided && self.closed_at.is_none()
    }

    /// Refuses what only an open bag allows.
    pub fn must_be_open(&self) -> Result<(), AppError> {
        if self.is_open() {
            return Ok(());
        }
        let why = match self.voided {
            true => t!("bags-was-taken-back", mark = self.mark),
            false => t!("bags-is-closed", mark = self.mark),
        };
        Err(AppError::refused("entry", why))
    }

    /// The bag after a save that left these sums.
    pub fn with(self, sums: Sums) -> Self {
        let Sums { seeds, rooted, on_paper, ended, findings, .. } = sums;
        let looked_at = sums.looked_at.map(At);
        Self { seeds, rooted, on_paper, ended, findings, looked_at, ..self }
    }

    /// Rooted seeds that wait for a cell.
    pub fn waiting(&self) -> i64 {
        self.rooted - self.ended
    }

    /// Days on paper by the club's calendar; the day on paper is day 0.
    pub fn day(&self, now: At, zone: Tz) -> i64 {
        (now.day(zone) - self.on_paper_at.day(zone)).num_days()
    }

    /// The last look that found a root.
    pub fn rooted_at(&self) -> Option<At> {
        let found = Finding::all(&self.findings).unwrap_or_default();
        found.iter().rev().find(|f| f.rooted > 0).map(|f| f.at)
    }

    /// The day the next look is due; `None` when there is nothing to look at.
    pub fn look_due(&self, zone: Tz) -> Option<NaiveDate> {
        if !self.is_open() || self.on_paper == 0 {
            return None;
        }
        look_due(self.looked_at.unwrap_or(self.on_paper_at), self.weekly, zone)
    }

    /// Whether a look is due by now.
    pub fn is_due(&self, now: At, zone: Tz) -> bool {
        self.look_due(zone).is_some_and(|day| day <= now.day(zone))
    }

    /// `day 6 on paper`, `on paper since today`.
    pub fn day_words(&self, now: At, zone: Tz) -> String {
        match self.day(now, zone) {
            0 => t!("bags-on-paper-since-today").to_owned(),
            n => t!("bags-day-on-paper", n = n),
        }
    }

    /// What a page shows of the bag's seeds; another stamp later means that somebody saved meanwhile.
    pub fn stamp(&self) -> String {
        let looked = self.looked_at.map_or(0, |at| at.0);
        format!("{}-{}-{}-{looked}", self.seeds, self.on_paper, self.rooted)
    }

    /// Refuses what was typed on a page that no longer shows the bag as it is. A form without a stamp passes.
    pub fn must_be_as(&self, seen: &str) -> Result<(), AppError> {
        if seen.is_empty() || seen == self.stamp() {
            return Ok(());
        }
        let paper = self.paper_words();
        let why = t!("bags-saved-meanwhile", mark = self.mark, paper = paper, rooted = self.rooted);
        Err(AppError::refused("entry", why))
    }

    /// Refuses a look that tells of more seeds than are still on paper.
    pub fn must_hold(&self, look: Look) -> Result<(), AppError> {
        let told = look.rooted + look.dead;
        if told <= self.on_paper {
            return Ok(());
        }
        let why = t!("bags-more-than-on-paper", n = told, paper = self.paper_words());
        Err(AppError::refused("entry", why))
    }

    /// `6 seeds still on paper`.
    pub fn paper_words(&self) -> String {
        t!("bags-still-on-paper", n = self.on_paper)
    }

    /// The bag as its outlook takes it; `None` when there is nothing to look at.
    pub fn waiting_for_roots(&self, now: At, zone: Tz) -> Option<Waiting> {
        Some(Waiting {
            mark: self.mark.clone(),
            variety: self.variety.clone(),
            kind: self.kind.clone(),
            floated: self.floaters,
            warmth_c: self.warmth_c,
            on_paper_at: self.on_paper_at,
            looked_at: self.looked_at,
            rooted_at: self.rooted_at(),
            left: self.on_paper,
            rooted: self.rooted,
            seeds: self.seeds,
            now,
            zone,
            look_due: self.look_due(zone)?,
        })
    }

    /// What entries about this bag are about.
    pub fn about(&self) -> About<'_> {
        About { trial: Some(&self.trial_id), bag: Some(&self.id), ..About::default() }
    }

    pub fn path(&self) -> String {
        format!("/bags/{}", self.id)
    }

    /// The moment typed in `field`. A minute typed by hand that is the bag's own first minute is not before it.
    pub fn moment(&self, form: &mut Form, field: &str, zone: Tz, now: At) -> At {
        let at = form.moment(field, zone, now);
        if at.0 / 60 == self.on_paper_at.0 / 60 { at.max(self.on_paper_at) } else { at }
    }
}

/// The day of the look after the one at `last`, by the club's calendar.
pub fn look_due(last: At, weekly: bool, zone: Tz) -> Option<NaiveDate> {
    last.day(zone).checked_add_days(Days::new(if weekly { WEEK } else { 1 }))
}

/// Shows a refusal of the notebook beside `field` of this form.
pub fn beside<T>(result: Result<T, AppError>, field: &'static str) -> Result<T, AppError> {
    result.map_err(|e| match e {
        AppError::Refused { field: "entry", message } => AppError::Refused { field, message },
        other => other,
    })
}

#[cfg(test)]
pub mod tests {
    use super::*;

    const ZONE: Tz = chrono_tz::Europe::Berlin;
    /// 2026-03-02 12:00 in Berlin.
    const NOON: At = At(1_772_449_200);

    pub fn bag() -> Bag {
        Bag {
            id: BagId::new(),
            trial_id: TrialId::new(),
            packet_id: PacketId::new(),
            mark: "JB 1 a".into(),
            variety: "Kestrel".into(),
            source: "Testwood Seeds".into(),
            kind: "pepper".into(),
            kind_key: "pepper".into(),
            floaters: false,
            treated_again: false,
            on_paper_at: NOON,
            holder_id: None,
            holder: None,
            place: "mat".into(),
            warmth_c: Some(28.0),
            weekly: false,
            in_doubt: false,
            voided: false,
            seeds: 10,
            rooted: 0,
            on_paper: 10,
            ended: 0,
            looked_at: None,
            closed_at: None,
            ending: String::new(),
            findings: String::new(),
        }
    }

    #[test]
    fn a_daily_bag_is_due_from_the_next_midnight_of_the_club() {
        let b = bag();
        assert!(!b.is_due(NOON, ZONE));
        assert!(!b.is_due(NOON.plus_minutes(719), ZONE));
        assert!(b.is_due(NOON.plus_minutes(720), ZONE));
        let looked = Bag { looked_at: Some(NOON.plus_minutes(720)), ..b };
        assert!(!looked.is_due(NOON.plus_minutes(721), ZONE));
    }

    #[test]
    fn a_weekly_bag_is_due_on_the_seventh_day() {
        let b = Bag { weekly: true, looked_at: Some(NOON), ..bag() };
        assert!(!b.is_due(NOON.plus_days(6), ZONE));
        assert!(b.is_due(NOON.plus_days(7), ZONE));
    }

    #[test]
    fn nothing_is_due_of_a_closed_or_empty_bag() {
        assert!(!Bag { closed_at: Some(NOON), ..bag() }.is_due(NOON.plus_days(9), ZONE));
        assert!(!Bag { on_paper: 0, ..bag() }.is_due(NOON.plus_days(9), ZONE));
    }
}
