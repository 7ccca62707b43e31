//! The club's bags as read of the database, brought up to date with the entries that came since.

use super::book::{Book, Counted, Growers, PacketRows, counted};
use super::name::{Name, Names};
use super::others;
use super::store::{self, BagRow, Latest, LookRow, Span, SpoiledRow, Version};
use crate::db::Conn;
use crate::error::AppError;
use chrono_tz::Tz;
use std::collections::{BTreeMap, HashMap};
use std::sync::Arc;

/// So many packets are read at a time: what the engine gives takes far more room than what is kept of it.
const AT_ONCE: usize = 250;

/// The order of the book: when its trial began, when it went on paper, trial, mark; and which part of the bag.
type Place = (i64, i64, Name, Name, usize);

/// Every bag, as of `version`.
#[derive(Debug)]
pub struct Reading {
    pub version: Version,
    zone: Tz,
    bags: BTreeMap<Place, Arc<Counted>>,
    /// The places of a packet's bags.
    packets: HashMap<String, Vec<Place>>,
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
            bags: BTreeMap::new(),
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
        if changed.len() > AT_ONCE || !self.knows_growers(conn, span).await? {
            return Self::whole(conn, latest.version, zone).await;
        }
        for packet in changed {
            for place in self.packets.remove(&packet).unwrap_or_default() {
                self.bags.remove(&place);
            }
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
        self.bags.len()
    }

    /// The book of what was read.
    pub fn book(&self) -> Book {
        Book::new(self.bags.values().cloned().collect(), self.others.clone())
    }

    /// Reads the bags of the packets from the one to the other, by their ids.
    async fn read(&mut self, conn: &mut Conn, first: &str, last: &str) -> Result<(), AppError> {
        let bags = store::bags(conn, first, last).await?;
        let looks = store::looks(conn, (first, last), &self.version).await?;
        let spoiled = store::spoiled(conn, (first, last)).await?;
        let mut packets: BTreeMap<String, PacketRows> = BTreeMap::new();
        let mut packet_of: HashMap<String, String> = HashMap::new();
        for bag in bags {
            packet_of.insert(bag.id.clone(), bag.packet_id.clone());
            packets.entry(bag.packet_id.clone()).or_default().bags.push(bag);
        }
        for look in looks {
            if let Some(rows) = packet_of.get(&look.bag_id).and_then(|packet| packets.get_mut(packet)) {
                rows.looks.entry(look.bag_id.clone()).or_default().push(look);
            }
        }
        for row in spoiled {
            packets.entry(row.packet_id.clone()).or_default().spoiled.push(row);
        }
        for (packet, rows) in packets {
            self.put(packet, rows);
        }
        Ok(())
    }

    fn put(&mut self, packet: String, mut rows: PacketRows) {
        rows.bags.sort_by(|a, b| {
            let key = |r: &BagRow| (r.began_at, r.on_paper_at);
            (key(a), &a.trial, &a.mark).cmp(&(key(b), &b.trial, &b.mark))
        });
        let mut places = Vec::new();
        for (row, parts) in counted(&rows, &self.growers, &mut self.names, self.zone) {
            let trial = Name::from(row.trial.as_str());
            for (n, part) in parts.into_iter().enumerate() {
                let place = (row.began_at, row.on_paper_at, trial.clone(), part.bag.clone(), n);
                self.bags.insert(place.clone(), Arc::new(part));
                places.push(place);
            }
        }
        self.packets.insert(packet, places);
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

    /// The looks into a bag in order of time.
    pub fn looks_of(&self, bag: &str) -> &[LookRow] {
        self.looks.get(bag).map(Vec::as_slice).unwrap_or_default()
    }
}
