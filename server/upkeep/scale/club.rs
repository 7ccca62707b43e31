//! Who is in the club, which seed there is, and how it germinates.

use super::Size;
use super::names;
use crate::db::ids::At;
use chrono::Datelike;
use hilum_calc::dice::Dice;

const MEMBERS: u64 = 1;
const VARIETIES: u64 = 2;
const CELLS: u64 = 3;
const PACKETS: u64 = 4;
const SEEDS: u64 = 6;
const SOURCES: u64 = 7;
const KINDS: [&str; 5] = ["pepper", "tomato", "eggplant", "onion", "lettuce"];
const PLACES: [&str; 4] = ["heat mat", "boiler shelf", "kitchen shelf", "greenhouse bench"];
/// Sources that sell one variety.
const SELLERS: i64 = 4;
/// A packet is opened for so many trials.
pub const TRIALS_OF_PACKET: usize = 2;
const SEASON_DAYS: i64 = 120;
const DAY: f64 = 86_400.0;

#[derive(Debug, Clone)]
pub struct Member {
    pub name: String,
    pub sign_in: String,
    pub letters: String,
    pub role: &'static str,
    pub place: &'static str,
    pub warmth_c: f64,
    /// What this grower adds to the log odds of germination.
    pub skill: f64,
}

#[derive(Debug, Clone)]
pub struct Variety {
    pub kind: &'static str,
    pub name: String,
    /// Log odds of germination with the middling source and grower.
    pub vigour: f64,
    /// Days on paper until half of those that root have rooted.
    pub days: f64,
}

/// A packet as it came in.
#[derive(Debug, Clone)]
pub struct Packet {
    pub member: usize,
    /// Its number under the member's letters.
    pub number: usize,
    pub variety: usize,
    pub source: usize,
    pub year: i64,
    pub seeds: i64,
    pub received_at: At,
}

/// Everything about the club but its trials.
#[derive(Debug, Clone)]
pub struct Club {
    pub size: Size,
    pub now: At,
    pub members: Vec<Member>,
    pub varieties: Vec<Variety>,
    pub sources: Vec<String>,
}

impl Packet {
    /// Its lot: variety, source and year.
    pub fn lot(&self) -> (usize, usize, i64) {
        (self.variety, self.source, self.year)
    }
}

impl Club {
    /// The club of that size as it is at `now`; the same for the same two.
    pub fn new(size: Size, now: At) -> Self {
        let varieties = 20 + (size.trials / 400).min(1000);
        let sources = 6 + (size.members / 30).min(60);
        Self {
            size,
            now,
            members: (0..size.members).map(|n| member(n, size.members)).collect(),
            varieties: (0..varieties).map(variety).collect(),
            sources: (0..sources).map(|n| format!("{} Seeds", names::word(n * 7 + 3))).collect(),
        }
    }

    /// When the members came in.
    pub fn founded(&self) -> At {
        self.now.plus_days(-365 * self.size.seasons as i64 - 60)
    }

    /// Trials of the `member`-th member.
    pub fn trials_of(&self, member: usize) -> usize {
        let Size { members, trials, .. } = self.size;
        trials / members + usize::from(member < trials % members)
    }

    /// When the `nth` trial of a member began: over the first months of each year, up to now in the last.
    pub fn began(&self, member: usize, nth: usize) -> At {
        let (all, seasons) = (self.trials_of(member), self.size.seasons);
        let season = nth * seasons / all;
        let along = (nth * seasons % all) as f64 / all as f64;
        let years_ago = (seasons - 1 - season) as i64;
        let days = along.mul_add(SEASON_DAYS as f64, (member * 37 % 100) as f64 / 15.0);
        let begin = self.now.plus_days(-SEASON_DAYS - 365 * years_ago);
        let last = self.now.plus_minutes(-(10 + (member * 53 % 900) as i64) - 60 * 24 * 365 * years_ago);
        At(begin.0 + (days * DAY) as i64).min(last)
    }

    /// When the trays of this season were made.
    pub fn trays_made(&self) -> At {
        self.now.plus_days(-SEASON_DAYS)
    }

    /// Packets of the `member`-th member.
    pub fn packets_of(&self, member: usize) -> usize {
        self.trials_of(member).div_ceil(TRIALS_OF_PACKET)
    }

    /// The `nth` packet of a member, with enough for its trials.
    pub fn packet(&self, member: usize, nth: usize) -> Packet {
        let mut dice = Dice::of(PACKETS, nth * self.size.members + member);
        let began = self.began(member, nth * TRIALS_OF_PACKET);
        let variety = dice.among(0, self.varieties.len() as i64 - 1) as usize;
        let seller = dice.among(0, SELLERS - 1) as usize;
        Packet {
            member,
            number: nth + 1,
            variety,
            source: (variety * 5 + seller * 7) % self.sources.len(),
            year: i64::from(began.day(chrono_tz::UTC).year()) - dice.among(0, 2),
            seeds: 40 * TRIALS_OF_PACKET as i64 + dice.among(5, 60),
            received_at: began.plus_days(-dice.among(8, 40)),
        }
    }

    /// Seeds of the `n`-th trial.
    pub fn seeds(&self, n: usize) -> i64 {
        2 * Dice::of(SEEDS, n).among(5, 20)
    }

    /// Seeds that the trials of a packet take.
    pub fn taken(&self, packet: &Packet) -> i64 {
        let first = (packet.number - 1) * TRIALS_OF_PACKET;
        let of_packet = first..self.trials_of(packet.member).min(first + TRIALS_OF_PACKET);
        of_packet.map(|nth| self.seeds(nth * self.size.members + packet.member)).sum()
    }

    /// Log odds that a seed of this packet germinates with its grower.
    pub fn odds(&self, packet: &Packet) -> f64 {
        let mut dice = Dice::of(CELLS, packet.source * 4096 + packet.variety);
        let source = 0.8 * Dice::of(SOURCES, packet.source).normal();
        let age = i64::from(packet.received_at.day(chrono_tz::UTC).year()) - packet.year;
        let variety = self.varieties[packet.variety].vigour;
        variety + source + 0.4 * dice.normal() + self.members[packet.member].skill - 0.2 * age as f64
    }
}

fn member(n: usize, members: usize) -> Member {
    let mut dice = Dice::of(MEMBERS, n);
    let name = format!("{} {}", names::word(n), names::word(n * 3 + 11));
    Member {
        sign_in: format!("{}{n}", names::word(n).to_lowercase()),
        name,
        letters: names::letters(n, members),
        role: if n < 1 + members / 50 { "organiser" } else { "grower" },
        place: PLACES[n % PLACES.len()],
        warmth_c: 18.0 + dice.among(0, 12) as f64,
        skill: 0.3 * dice.normal(),
    }
}

fn variety(n: usize) -> Variety {
    let mut dice = Dice::of(VARIETIES, n);
    Variety {
        kind: KINDS[n % KINDS.len()],
        name: names::word(n + 40),
        vigour: 1.2 + 0.7 * dice.normal(),
        days: 3.0 + 4.0 * dice.share(),
    }
}
