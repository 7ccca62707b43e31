//! Counts that come in: looks into bags that are here, and whole bags of seasons past.

mod import;
mod looks;
mod pages;
mod past;
pub mod read;

pub use import::import_counts;
pub use pages::{ask, confirm, preview};

use super::fault::Fault;
use super::season::Season;
use crate::db::ids::{At, BagId, RoutineId, TrialId};
use crate::notebook::bag::Look;

/// A look into a bag that is here.
#[derive(Debug, Clone)]
pub struct NewLook {
    pub line: u64,
    pub bag: BagId,
    pub trial: TrialId,
    pub mark: String,
    pub at: At,
    pub look: Look,
}

/// A look into a bag of a season past.
#[derive(Debug, Clone)]
pub struct PastLook {
    pub line: u64,
    pub at: At,
    pub look: Look,
}

#[derive(Debug, Clone)]
pub struct PastBag {
    pub name: String,
    pub seeds: i64,
    pub floated: bool,
    pub warmth_c: Option<f64>,
    pub closed: bool,
    /// In order of time; at least one.
    pub looks: Vec<PastLook>,
}

/// A trial of a season past; its packet is the row of the same place in [`Counts::season`].
#[derive(Debug, Clone)]
pub struct PastTrial {
    pub line: u64,
    pub routine: RoutineId,
    pub routine_name: String,
    pub paper: At,
    /// Floaters thrown out.
    pub thrown: i64,
    pub bags: Vec<PastBag>,
}

/// A list of counts that was compared with what is here.
pub struct Counts {
    pub looks: Vec<NewLook>,
    pub past: Vec<PastTrial>,
    /// The packets of the past trials.
    pub season: Season,
    pub faults: Vec<Fault>,
    /// Rows that are here already.
    pub here: usize,
    pub digest: String,
}

impl Counts {
    /// How many looks come in.
    pub fn number(&self) -> usize {
        let of_trial = |t: &PastTrial| t.bags.iter().map(|b| b.looks.len()).sum::<usize>();
        self.looks.len() + self.past.iter().map(of_trial).sum::<usize>()
    }
}
