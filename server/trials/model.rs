use crate::db::FromRow;
use crate::db::ids::{At, PacketId, RoutineId, RoutineVersionId, SolutionId, TrialId};
use crate::routines::model::act_in;

/// Whether seeds in this state sink or float for reasons of their own, so that a tally says nothing.
pub fn floats_tell(state: &str) -> bool {
    !matches!(state, "pelleted" | "primed")
}

/// A trial with seeds in the soak, as the due-now page needs it.
#[derive(Debug, Clone, FromRow)]
pub struct Due {
    pub trial_id: TrialId,
    pub packet_id: PacketId,
    /// The packet's mark.
    pub mark: String,
    pub variety: String,
    /// `plain`, `pelleted`, `primed` or `treated`.
    pub state: String,
    pub began_at: At,
    /// Seeds still soaking, above 0.
    pub soaking: i64,
    /// Position of the running step; above `steps` when all are done.
    pub step: i64,
    /// How many steps the routine has.
    pub steps: i64,
    /// When the running step began, or the last one ended.
    pub step_at: At,
    /// What the running step does (see [`crate::routines::model::act_words`]); `None` when all are done.
    pub act: Option<String>,
    pub agent: Option<String>,
    /// Minutes the running step takes.
    pub minutes: Option<i64>,
    /// Whether the float tally was made.
    pub tallied: bool,
    #[sqlx(flatten)]
    pub vial: Vial,
}

/// What tells the trials of one packet apart: their vials carry the same mark.
#[derive(Debug, Clone, FromRow)]
pub struct Vial {
    /// Which of its packet's trials it is, from 1, in the order they were written down.
    #[sqlx(rename = "vial")]
    pub number: i64,
    /// Trials that were split off together share it.
    pub pair: Option<String>,
}

impl Vial {
    pub fn is_paired(&self) -> bool {
        self.pair.is_some()
    }

    /// `, vial 2`, on the label and behind what else tells of the trial; empty where it is the packet's first and was not
    /// split off.
    pub fn words(&self) -> String {
        if self.number > 1 || self.is_paired() {
            t!("trials-vial", number = self.number)
        } else {
            String::new()
        }
    }
}

/// What a soaking trial waits for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Next {
    Step,
    Tally,
    Paper,
}

impl Due {
    /// Whether every step was done or skipped.
    pub fn all_done(&self) -> bool {
        self.step > self.steps
    }

    /// When the next thing is due: the end of the running step, or since when the seeds wait.
    pub fn due_at(&self) -> At {
        self.step_at.plus_minutes(self.minutes.unwrap_or(0))
    }

    pub fn next(&self) -> Next {
        if !self.all_done() {
            Next::Step
        } else if self.steps > 0 && !self.tallied && floats_tell(&self.state) {
            Next::Tally
        } else {
            Next::Paper
        }
    }

    /// Where the next thing is done.
    pub fn address(&self) -> String {
        let page = match self.next() {
            Next::Step => "#step",
            Next::Tally => "/tally",
            Next::Paper => "/paper",
        };
        format!("/trials/{}{page}", self.trial_id)
    }

    /// The running step or the next thing in words: `Sanitising soak in hydrogen peroxide`, `Float tally`, `On paper`.
    pub fn words(&self) -> String {
        match self.next() {
            Next::Tally => t!("trials-float-tally").to_owned(),
            Next::Paper => t!("trials-on-paper").to_owned(),
            Next::Step => {
                act_in(self.act.as_deref().unwrap_or_default(), self.agent.as_deref().unwrap_or_default())
            }
        }
    }
}

/// One trial, as its page needs it.
#[derive(Debug, Clone, FromRow)]
pub struct Trial {
    pub id: TrialId,
    pub packet_id: PacketId,
    pub mark: String,
    pub state: String,
    pub variety: String,
    pub kind: String,
    pub source: String,
    pub routine_id: RoutineId,
    pub routine: String,
    pub version_id: RoutineVersionId,
    pub number: i64,
    pub began_at: At,
    pub voided: bool,
    pub treated_again: bool,
    pub seeds: i64,
    pub soaking: i64,
    pub thrown_out: i64,
    pub lost: i64,
    pub returned: i64,
    pub step: i64,
    pub step_at: At,
    pub sank: Option<i64>,
    pub floated: Option<i64>,
    pub floaters: String,
    #[sqlx(flatten)]
    pub vial: Vial,
}

/// One trial to be started.
#[derive(Debug, Clone)]
pub struct NewTrial {
    pub packet: PacketId,
    pub routine: RoutineId,
    /// At least 1.
    pub seeds: i64,
    /// What was really in the packet before this trial took its seeds, where somebody counted.
    pub recount: Option<i64>,
    /// Trials split from one packet with a shared start carry one pair.
    pub pair: Option<String>,
    /// What sets this trial apart, such as the warmth it is meant for; may be empty.
    pub plan: String,
}

/// A packet that holds fewer seeds than are wanted of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shortage {
    pub packet: PacketId,
    pub left: i64,
    pub wanted: i64,
}

/// A step that was finished or skipped.
#[derive(Debug, Clone, Default)]
pub struct StepDone {
    /// From 1; must be the running step of the trial.
    pub position: i64,
    pub skipped: bool,
    /// How long it really took; since the step before it where not given.
    pub minutes: Option<i64>,
    /// Strength really used, in percent.
    pub percent: Option<f64>,
    pub solution: Option<SolutionId>,
    pub note: String,
}

/// What can become of floaters, as stored.
pub const FLOATERS: [&str; 3] = ["own bag", "thrown out", "kept in"];

/// What became of floaters, as people read it.
pub fn floaters_words(stored: &str) -> &str {
    match stored {
        "own bag" => t!("trials-floaters-own-bag"),
        "thrown out" => t!("trials-floaters-out"),
        "kept in" => t!("trials-floaters-kept-in"),
        other => other,
    }
}

/// Where seeds can go from the soak, but onto paper, as stored.
pub const LEAVES: [&str; 4] = ["lost", "returned", "sown", "spoiled"];

/// What can be noted of a trial, as stored.
pub const NOTES: [&str; 2] = ["note", "treated again"];

/// What the float check found.
#[derive(Debug, Clone, Default)]
pub struct Tally {
    pub sank: i64,
    pub floated: i64,
    /// `own bag`, `thrown out` or `kept in`; empty where nothing floated.
    pub floaters: String,
    /// Goes on with sank + floated where that is not the number soaking by the book.
    pub recount: bool,
}

/// One bag that goes on paper.
#[derive(Debug, Clone, Default)]
pub struct Paper {
    /// At least 1.
    pub seeds: i64,
    pub floaters: bool,
    pub place: String,
    /// Degrees C.
    pub warmth_c: Option<f64>,
    /// Of these seeds, rooted during the soak; `None` where nobody looked.
    pub rooted: Option<i64>,
}

impl Shortage {
    pub fn words(&self) -> String {
        t!("trials-too-few-left", left = self.left, wanted = self.wanted)
    }
}
