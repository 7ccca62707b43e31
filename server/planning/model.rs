use super::reckon::Reckoned;
use crate::db::FromRow;
use crate::db::ids::{KindId, LineId, PacketId, PlanId, RoutineId, SourceId, VarietyId};
use crate::stock::promises::Promise;
use crate::trays::cells::Geometry;
use chrono::NaiveDate;

/// The most lines that one plan holds.
pub const MOST_LINES: usize = 400;
/// The most plants of one line.
pub const MOST_PLANTS: i64 = 2000;

/// A season's plan, and what its lines are reckoned with unless they say otherwise.
#[derive(Debug, Clone, FromRow)]
pub struct Plan {
    pub id: PlanId,
    /// The season's name.
    pub name: String,
    pub routine_id: RoutineId,
    pub routine: String,
    /// Minutes of all steps of the routine's newest version.
    pub soak_minutes: i64,
    pub bag_seeds: i64,
    /// Degrees C of the mat.
    pub warmth_c: f64,
    pub tray_rows: i64,
    pub tray_cols: i64,
    /// Percent.
    pub certainty: i64,
    /// Bags that the mat holds, where told.
    pub mat_bags: Option<i64>,
    /// Trays there is room for, where told.
    pub trays: Option<i64>,
}

impl Plan {
    /// Cells of one tray.
    pub fn cells(&self) -> i64 {
        Geometry { rows: self.tray_rows, cols: self.tray_cols }.cells()
    }

    /// Whole days from the start of the soak to the paper.
    pub fn soak_days(&self) -> i64 {
        self.soak_minutes.div_euclid(1440) + i64::from(self.soak_minutes % 1440 > 0)
    }

    /// The end of an address that shows this plan.
    pub fn query(&self) -> String {
        format!("plan={}", self.id)
    }
}

/// So many plants of a variety, ready on a day. Variety and source by the names they count under.
#[derive(Debug, Clone, FromRow)]
pub struct Line {
    pub id: LineId,
    pub plan_id: PlanId,
    pub variety_id: VarietyId,
    pub variety: String,
    pub kind_id: KindId,
    pub kind: String,
    pub source_id: Option<SourceId>,
    pub source: Option<String>,
    pub plants: i64,
    pub ready_on: NaiveDate,
    pub certainty: Option<i64>,
    pub raise_weeks: Option<i64>,
    pub warmth_c: Option<f64>,
}

/// What a line's numbers may be changed to.
#[derive(Debug, Clone, PartialEq)]
pub struct Numbers {
    pub plants: i64,
    pub ready_on: NaiveDate,
    pub certainty: Option<i64>,
    pub raise_weeks: Option<i64>,
    pub warmth_c: Option<f64>,
}

/// How far a line has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum State {
    /// Nothing is promised for it.
    Open,
    /// Its seeds are promised.
    Accepted,
    /// A trial was started for it.
    Started,
}

/// Seeds that a packet gives, or would give, to a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Take {
    pub packet: PacketId,
    pub mark: String,
    pub seeds: i64,
}

/// A line with all that is reckoned of it.
#[derive(Debug, Clone)]
pub struct Entry {
    pub line: Line,
    pub promises: Vec<Promise>,
    pub reckoned: Reckoned,
    pub takes: Vec<Take>,
    /// Seeds that no packet holds.
    pub short: i64,
}

impl Entry {
    pub fn state(&self) -> State {
        if self.promises.iter().any(Promise::is_started) {
            State::Started
        } else if self.promises.iter().any(Promise::holds) {
            State::Accepted
        } else {
            State::Open
        }
    }

    /// Whether seeds are still promised for it, though a trial was started.
    pub fn is_partly_started(&self) -> bool {
        self.state() == State::Started && self.promises.iter().any(Promise::holds)
    }

    /// Promises that hold or were kept.
    pub fn standing(&self) -> impl Iterator<Item = &Promise> {
        self.promises.iter().filter(|r| r.holds() || r.is_started())
    }

    /// Seeds that the packet of a promise that holds can give to it.
    pub fn gives(&self, promise: &Promise) -> i64 {
        self.takes
            .iter()
            .filter(|t| t.packet == promise.packet_id)
            .map(|t| t.seeds)
            .sum::<i64>()
            .min(promise.seeds)
    }

    pub fn is_open(&self) -> bool {
        self.state() == State::Open
    }

    pub fn path(&self) -> String {
        format!("/plan/lines/{}", self.line.id)
    }

    /// `Marsh Ember, Northbank Seeds`
    pub fn name(&self) -> String {
        match &self.line.source {
            Some(source) => format!("{}, {source}", self.line.variety),
            None => self.line.variety.clone(),
        }
    }
}
