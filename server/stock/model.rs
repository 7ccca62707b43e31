use super::promises;
use crate::db::FromRow;
use crate::db::ids::{KindId, LotId, MemberId, PacketId, SourceId, VarietyId};
use crate::web::words;
use chrono::NaiveDate;

/// The states of a packet's seed, as stored.
pub const STATES: [&str; 4] = ["plain", "pelleted", "primed", "treated"];
/// The sorts of sources, as stored.
pub const SORTS: [&str; 4] = ["merchant", "swap", "gene bank", "saved by"];
pub const MOST_SEEDS: i64 = 1_000_000;

/// What can be written into the ledger by hand, as stored.
pub const BY_HAND: [&str; 4] = ["recount", "found", "spoiled", "returned"];

/// One of [`STATES`] in words.
pub fn state_words(state: &str) -> &str {
    match state {
        "plain" => t!("stock-plain"),
        "pelleted" => t!("stock-pelleted"),
        "primed" => t!("stock-primed"),
        "treated" => t!("stock-treated"),
        other => other,
    }
}

/// One of [`SORTS`] in words.
pub fn sort_words(sort: &str) -> &str {
    match sort {
        "merchant" => t!("stock-merchant"),
        "swap" => t!("stock-swap"),
        "gene bank" => t!("stock-gene-bank"),
        "saved by" => t!("stock-saved-by"),
        other => other,
    }
}

/// What a lot is, by the names typed: variety + source + year + the supplier's lot code.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Naming {
    pub kind: String,
    pub variety: String,
    /// Empty where not known.
    pub species: String,
    /// Ignored for own seed (`own`), whose source is "saved by" the member.
    pub source: String,
    /// One of [`SORTS`]; counts only where the source is new.
    pub sort: String,
    /// 0 where not known.
    pub year: i64,
    pub code: String,
    pub own: Option<OwnSeed>,
}

/// Seed saved by the member from plants of a packet.
#[derive(Debug, Clone, PartialEq)]
pub struct OwnSeed {
    pub parent: PacketId,
    /// `open` or `isolated`.
    pub pollination: String,
    pub doubtful_cross: bool,
}

/// What is known of one packet besides its lot.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Details {
    pub place: String,
    pub received_on: Option<NaiveDate>,
    pub seeds_per_gram: Option<f64>,
    /// One of [`STATES`].
    pub state: String,
    /// Whether the number of seeds is a rough one.
    pub rough: bool,
    /// Who the seed came through, where that is not its source.
    pub through: String,
    pub note: String,
}

/// A packet to be added.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct NewPacket {
    pub naming: Naming,
    pub details: Details,
    /// Whose set of the member's letters the mark starts with.
    pub letters: String,
    /// The grower's own number; the next free one where there is none.
    pub number: Option<i64>,
    pub seeds: i64,
}

/// A packet with the names of its lot: as typed, and as they count.
#[derive(Debug, Clone, FromRow)]
pub struct Packet {
    pub id: PacketId,
    pub owner_id: MemberId,
    pub mark: String,
    pub balance: i64,
    pub rough: bool,
    pub place: String,
    pub state: String,
    pub seeds_per_gram: Option<f64>,
    pub received_on: Option<NaiveDate>,
    pub through: String,
    pub note: String,
    pub given_from: Option<PacketId>,
    pub lot_id: LotId,
    pub year: i64,
    pub code: String,
    pub parent_packet: Option<PacketId>,
    pub pollination: String,
    pub doubtful_cross: bool,
    pub kind_id: KindId,
    pub kind: String,
    pub variety_id: VarietyId,
    pub variety: String,
    pub species: String,
    /// The name that `variety` counts under; the same where it is not merged.
    pub counts_as: String,
    pub source_id: SourceId,
    pub source: String,
    pub source_sort: String,
    pub source_counts_as: String,
    /// Of a running ring trial: lot, variety and source are stand-ins until it is opened.
    pub blind: bool,
    /// Seeds that plans count on.
    pub promised: i64,
}

impl Packet {
    /// The balance in words: `about 25 seeds`.
    pub fn left(&self) -> String {
        let seeds = words::seeds(self.balance);
        if self.rough { t!("stock-about-so-many", seeds = seeds) } else { seeds }
    }

    /// `Kestrel, pepper: about 25 seeds left by the book.`
    pub fn left_by_the_book(&self) -> String {
        let variety = self.variety_words();
        t!("stock-left-by-the-book", variety = variety, kind = self.kind, seeds = self.left())
    }

    pub fn variety_words(&self) -> &str {
        if self.blind { t!("stock-blind-lot") } else { &self.variety }
    }

    pub fn source_words(&self) -> &str {
        if self.blind { t!("stock-hidden-source") } else { &self.source }
    }

    pub fn state_words(&self) -> &str {
        state_words(&self.state)
    }

    pub fn pollination_words(&self) -> &'static str {
        if self.pollination == "isolated" { t!("stock-isolated") } else { t!("stock-open-pollinated") }
    }

    /// The balance with what is promised of it: `40 seeds, 24 promised`.
    pub fn left_and_promised(&self) -> String {
        promises::beside(&self.left(), self.balance, self.promised)
    }

    /// Seeds that nothing is promised of.
    pub fn free(&self) -> i64 {
        (self.balance - self.promised).max(0)
    }

    /// The year in words; empty where not known.
    pub fn year_words(&self) -> String {
        if self.year == 0 { String::new() } else { self.year.to_string() }
    }

    /// Whether soaking calls for a warning.
    pub fn coated(&self) -> bool {
        self.state != "plain"
    }
}
