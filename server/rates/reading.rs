//! The club's bags as read of the database, brought up to date with the entries that came since.

use super::book::{Book, Counted, Growers, PacketRows, counted};
use super::name::{Name, Names};
use super::others;
use super::store::{self, BagRow, Latest, Span, SpoiledRow, Version};
use crate::db::Conn;
use crate::error::AppError;
use chrono_tz::Tz;
use std::collections::{BTreeMap, HashMap};
use std::sync::Arc;

/// So many packets are read at a time: what the engine gives takes far more room than what is kept of it.
const AT_ONCE: usize = 250;
/// More changed packets than so many are read with all others in order instead of one by one (a guess, not measured).
const MOST_CHANGED: usize = 2500;

/// A bag, or a part of one, with its place in the order of the book.
#[derive(Debug)]
struct Placed {
    began_at: i64,
    on_paper_at: i64,
    trial: Name,
    bag: Arc<Counted>,
}

impl Placed {
    fn place(&self) -> (i64, i64, &str, &str) {
        (self.began_at, self.on_paper_at, &self.trial, &self.bag.bag)
    }
}

/// Every bag, as of `version`.
#[derive(Debug)]
pub struct Reading {
    pub version: Version,
    zone: Tz,
    /// The bags of each packet.
    packets: HashMap<String, Box<[Placed]>>,
    growers: Growers,
    names: Names,
    /// Bags of other clubs.
    others: Arc<Vec<Counted>>,
}

impl Reading {
    /// Everything, as of `version`, which must have been asked for before.
    pub async fn whole(conn: &mut Conn, version: Version, zone: Tz) -> Result<Self, AppError> {
        let mut read = Self {
            zone,
            packets: HashMap::new(),
            growers: store::growers(conn).await?.into_iter().collect(),
            names: Names::default(),
            others: Arc::new(others::all(conn).await?),
            version,
        };
        let packets = store::packets(conn).await?;
        for some in packets.chunks(AT_ONCE) {
            if let (Some(first), Some(last)) = (some.first(), some.last()) {
                read.read(conn, first, last).await?;
            }
        }
        Ok(read)
    }

    /// What changed up to `latest`, asked for with this reading's version; everything where more than new entries
    /// changed.
    pub async fn upto(mut self, conn: &mut Conn, latest: Latest, zone: Tz) -> Result<Self, AppError> {
        let version = self.version.clone();
        let Some(span) = latest.since(&version).filter(|_| zone == self.zone) else {
            return Self::whole(conn, latest.version, zone).await;
        };
        let changed = store::packets_since(conn, span).await?;
        self.version = latest.version.clone();
        if changed.len() > MOST_CHANGED || !self.knows_growers(conn, span).await? {
            return Self::whole(conn, latest.version, zone).await;
        }
        for packet in changed {
            self.packets.remove(&packet);
            self.read(conn, &packet, &packet).await?;
        }
        Ok(self)
    }

    /// A grower who is new may share a name with another, who is then called otherwise.
    async fn knows_growers(&self, conn: &mut Conn, span: Span<'_>) -> Result<bool, AppError> {
        let owners = store::owners_since(conn, span).await?;
        Ok(owners.iter().all(|owner| self.growers.knows(owner)))
    }

    /// How many bags there are, and parts of bags.
    pub fn bags(&self) -> usize {
        self.packets.values().map(|bags| bags.len()).sum()
    }

    /// The book of what was read.
    pub fn book(&self) -> Book {
        let mut bags: Vec<&Placed> = self.packets.values().flatten().collect();
        bags.sort_by_key(|bag| bag.place());
        Book::new(bags.iter().map(|placed| placed.bag.clone()).collect(), self.others.clone())
    }

    /// Reads the bags of the packets from the one to the other, by their ids.
    async fn read(&mut self, conn: &mut Conn, first: &str, last: &str) -> Result<(), AppError> {
        let bags = store::bags(conn, first, last).await?;
        let spoiled = store::spoiled(conn, (first, last)).await?;
        // last: whatever has bags is in it
        let seed = store::seed(conn, first, last).await?;
        let mut packets: BTreeMap<String, PacketRows> =
            seed.into_iter().map(|seed| (seed.id.clone(), PacketRows::of(seed))).collect();
        for bag in bags {
            if let Some(rows) = packets.get_mut(&bag.packet_id) {
                rows.bags.push(bag);
            }
        }
        for row in spoiled {
            if let Some(rows) = packets.get_mut(&row.packet_id) {
                rows.spoiled.push(row);
            }
        }
        for (packet, rows) in packets.into_iter().filter(|(_, rows)| !rows.bags.is_empty()) {
            self.put(packet, rows)?;
        }
        Ok(())
    }

    fn put(&mut self, packet: String, mut rows: PacketRows) -> Result<(), AppError> {
        rows.bags.sort_by(|a, b| {
            let key = |r: &BagRow| (r.began_at, r.on_paper_at);
            (key(a), &a.trial, &a.mark).cmp(&(key(b), &b.trial, &b.mark))
        });
        let mut bags = Vec::new();
        for (row, parts) in counted(&rows, &self.growers, &mut self.names, self.zone)? {
            let trial = Name::from(row.trial.as_str());
            bags.extend(parts.into_iter().map(|part| Placed {
                began_at: row.began_at,
                on_paper_at: row.on_paper_at,
                trial: trial.clone(),
                bag: Arc::new(part),
            }));
        }
        self.packets.insert(packet, bags.into());
        Ok(())
    }
}

impl PacketRows {
    /// Seeds of each trial that its first bag answers for: thrown out, or spoiled in the soak.
    pub fn owing(&self) -> HashMap<&str, i64> {
        let mut owing: HashMap<&str, i64> =
            self.bags.iter().map(|b| (b.trial.as_str(), b.thrown_out)).collect();
        for SpoiledRow { trial, seeds, .. } in &self.spoiled {
            if let Some(sum) = owing.get_mut(trial.as_str()) {
                *sum += seeds;
            }
        }
        owing
    }
}
