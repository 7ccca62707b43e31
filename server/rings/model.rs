use crate::db::FromRow;
use crate::db::ids::{At, KindId, LotId, MemberId, PacketId, RingId, VarietyId};
use crate::stock::model::state_words;
use crate::stock::names;
use crate::web::forms::Form;
use crate::web::words;

/// Most lots of one ring trial.
pub const MOST_LOTS: usize = 12;
/// Most growers of one ring trial.
pub const MOST_GROWERS: usize = 40;
pub const MOST_BAGS: i64 = 50;
pub const MOST_BAG_SEEDS: i64 = 500;
/// A grower is given at most so many lots where nothing else is asked for.
pub const USUAL_LOTS: usize = 4;

/// A ring trial.
#[derive(Debug, Clone, FromRow)]
pub struct Ring {
    pub id: RingId,
    pub name: String,
    pub variety_id: VarietyId,
    pub variety: String,
    pub kind_id: KindId,
    pub kind: String,
    pub difference: i64,
    pub certainty: i64,
    pub lots_each: i64,
    pub bags: i64,
    pub bag_seeds: i64,
    pub made_by_name: String,
    pub made_at: At,
    pub drawn_at: Option<At>,
    pub blind_lot: Option<LotId>,
    pub opened_at: Option<At>,
    pub opened_by_name: Option<String>,
    pub why: String,
    pub given_up_at: Option<At>,
}

/// Where a ring trial stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stage {
    /// Its numbers can still be changed.
    Planned,
    /// Lots are drawn and marks given; seed goes out and is counted.
    Running,
    Opened,
    GivenUp,
}

impl Ring {
    pub fn stage(&self) -> Stage {
        match (self.given_up_at, self.opened_at, self.drawn_at) {
            (Some(_), _, _) => Stage::GivenUp,
            (_, Some(_), _) => Stage::Opened,
            (_, _, Some(_)) => Stage::Running,
            _ => Stage::Planned,
        }
    }

    /// Seeds of one lot for one grower.
    pub fn seeds_each(&self) -> i64 {
        self.bags * self.bag_seeds
    }

    /// `4 bags of 10 seeds`
    pub fn bags_words(&self) -> String {
        t!("rings-bags-of-seeds", bags = self.bags, seeds = self.bag_seeds)
    }
}

/// A packet that can fill a lot of a ring trial, or does.
#[derive(Debug, Clone, FromRow)]
pub struct Lot {
    pub packet_id: PacketId,
    pub lot_id: LotId,
    pub mark: String,
    pub owner: String,
    pub source: String,
    pub year: i64,
    pub code: String,
    pub state: String,
    pub balance: i64,
    pub rough: bool,
}

impl Lot {
    pub fn left(&self) -> String {
        if self.rough { t!("rings-about-seeds", n = self.balance) } else { words::seeds(self.balance) }
    }

    pub fn state_words(&self) -> &str {
        state_words(&self.state)
    }

    /// `Harrow & Daughter 2025, L248`
    pub fn full(&self) -> String {
        let year = if self.year == 0 { String::new() } else { format!(" {}", self.year) };
        let code = if self.code.is_empty() { String::new() } else { format!(", {}", self.code) };
        format!("{}{year}{code}", self.source)
    }
}

/// The lots in full: it is they that are tested, not their sources.
pub fn names(lots: &[Lot]) -> Vec<String> {
    lots.iter().map(Lot::full).collect()
}

/// Somebody who may take part, or does.
#[derive(Debug, Clone, FromRow)]
pub struct Grower {
    pub member_id: MemberId,
    pub name: String,
}

/// One lot with one grower: its blind mark and how far it has come.
#[derive(Debug, Clone, FromRow)]
pub struct Part {
    pub packet_id: PacketId,
    pub place: i64,
    pub member_id: MemberId,
    pub grower: String,
    pub mark: String,
    /// Whether the packet was ever made.
    pub made: bool,
    /// Seeds received.
    pub handed: i64,
    pub soaking: i64,
    pub bags: i64,
    pub open_bags: i64,
    pub seeds: i64,
    pub rooted: i64,
}

impl Part {
    pub fn is_closed(&self) -> bool {
        self.bags > 0 && self.open_bags == 0 && self.soaking == 0
    }

    /// With its grower, who has not started it.
    pub fn waits(&self) -> bool {
        self.handed > 0 && self.bags == 0 && self.soaking == 0
    }

    pub fn state(&self) -> &'static str {
        match (self.handed, self.bags, self.open_bags, self.soaking) {
            (0, 0, _, 0) => t!("rings-not-handed-out"),
            (_, 0, _, 0) => t!("rings-handed-out"),
            (_, 0, _, _) => t!("rings-soaking"),
            (_, _, 0, 0) => t!("rings-closed"),
            (_, _, _, 0) => t!("rings-on-paper"),
            _ => t!("rings-on-paper-and-soaking"),
        }
    }

    /// `12 of 40 rooted`; empty before the paper.
    pub fn counted(&self) -> String {
        match self.bags {
            0 => String::new(),
            _ => t!("rings-counted", n = self.rooted, all = self.seeds),
        }
    }
}

/// What an organiser asks for.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Asked {
    pub name: String,
    pub packets: Vec<PacketId>,
    pub growers: Vec<MemberId>,
    pub difference: i64,
    pub certainty: i64,
    pub lots_each: Option<usize>,
}

const CERTAINTIES: [&str; 3] = ["80", "90", "70"];

/// How surely a difference can be asked to be found: value and words.
pub fn certainties() -> [(&'static str, &'static str); 3] {
    CERTAINTIES.map(|value| (value, certainty_words(value)))
}

fn certainty_words(value: &str) -> &'static str {
    match value {
        "90" => t!("rings-certainty-90"),
        "70" => t!("rings-certainty-70"),
        _ => t!("rings-certainty-80"),
    }
}

/// Reads what was asked; faults are noted on the form.
pub fn asked(form: &mut Form, lots: &[Lot], growers: &[Grower]) -> Asked {
    let name = form.must_text("name", 40);
    let packets: Vec<PacketId> =
        lots.iter().filter(|l| form.has("packet", &l.packet_id.0)).map(|l| l.packet_id.clone()).collect();
    let chosen: Vec<MemberId> =
        growers.iter().filter(|g| form.has("grower", &g.member_id.0)).map(|g| g.member_id.clone()).collect();
    check_packets(form, lots, &packets);
    if chosen.len() < 2 {
        form.refuse("grower", t!("rings-two-growers-please"));
    } else if chosen.len() > MOST_GROWERS {
        form.refuse("grower", t!("rings-most-growers", n = MOST_GROWERS));
    }
    let (difference, certainty) = aim(form);
    let most = i64::try_from(packets.len().max(2)).unwrap_or(2);
    let lots_each = form
        .whole("lots_each", 2..=most.max(i64::try_from(USUAL_LOTS).unwrap_or(4)))
        .map(|n| n.min(most))
        .and_then(|n| usize::try_from(n).ok());
    Asked { name, packets, growers: chosen, difference, certainty, lots_each }
}

/// The name stands on every label: it must not tell what is in the packets.
pub fn check_name(form: &mut Form, variety: &str, lots: &[Lot]) {
    let name = names::key(form.value("name"));
    let told =
        lots.iter().map(|l| l.source.as_str()).chain([variety]).find(|n| name.contains(&names::key(n)));
    if let Some(told) = told {
        form.refuse("name", t!("rings-name-tells", told = told));
    }
}

fn check_packets(form: &mut Form, lots: &[Lot], packets: &[PacketId]) {
    if packets.len() < 2 {
        form.refuse("packet", t!("rings-two-packets-please"));
    } else if packets.len() > MOST_LOTS {
        form.refuse("packet", t!("rings-most-lots-of-one", n = MOST_LOTS));
    }
    let mut seen: Vec<&Lot> = Vec::new();
    for lot in lots.iter().filter(|l| packets.contains(&l.packet_id)) {
        if let Some(twin) = seen.iter().find(|s| s.lot_id == lot.lot_id) {
            form.refuse("packet", t!("rings-same-lot", one = twin.mark, other = lot.mark));
        }
        seen.push(lot);
    }
}

/// The difference worth finding and the certainty, as typed.
pub fn aim(form: &mut Form) -> (i64, i64) {
    let difference = form.must_whole("difference", 3..=60);
    let certainty = form.one_of("certainty", &CERTAINTIES);
    (difference, certainty.parse().unwrap_or(80))
}
