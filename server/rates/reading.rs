//! What was read of the database, brought up to date with the entries that came since.

use super::book::Counted;
use super::others;
use super::store::{self, BagRow, Latest, LookRow, SpoiledRow, Version};
use crate::db::Conn;
use crate::error::AppError;
use std::collections::HashMap;
use std::sync::Arc;

/// Every bag and its looks in order of time, as of `version`.
#[derive(Debug)]
pub struct Reading {
    pub version: Version,
    pub bags: HashMap<String, BagRow>,
    pub looks: HashMap<String, Vec<LookRow>>,
    pub spoiled: Vec<SpoiledRow>,
    /// Bags of other clubs.
    pub others: Arc<Vec<Counted>>,
}

impl Reading {
    /// Everything, as of `version`, which must have been asked for before.
    pub async fn whole(conn: &mut Conn, version: Version) -> Result<Self, AppError> {
        let (bags, looks) = (store::bags(conn, None).await?, store::looks(conn, &version, None).await?);
        let spoiled = store::spoiled(conn).await?;
        let others = Arc::new(others::all(conn).await?);
        let mut read = Self { version, bags: HashMap::new(), looks: HashMap::new(), spoiled, others };
        read.add(bags, looks);
        Ok(read)
    }

    /// What changed up to `latest`, asked for with this reading's version; everything where more than new entries
    /// changed.
    pub async fn upto(mut self, conn: &mut Conn, latest: Latest) -> Result<Self, AppError> {
        let Some(span) = latest.since(&self.version) else {
            return Self::whole(conn, latest.version).await;
        };
        let bags = store::bags(conn, Some(span)).await?;
        let looks = store::looks(conn, &latest.version, Some(span)).await?;
        if !latest.version.spoiled_as(&self.version) {
            self.spoiled = store::spoiled(conn).await?;
        }
        self.add(bags, looks);
        self.version = latest.version;
        Ok(self)
    }

    fn add(&mut self, bags: Vec<BagRow>, looks: Vec<LookRow>) {
        self.bags.extend(bags.into_iter().map(|b| (b.id.clone(), b)));
        for mut look in looks {
            let id = std::mem::take(&mut look.bag_id);
            let of_bag = self.looks.entry(id).or_default();
            let place = of_bag.partition_point(|l| l.at <= look.at);
            of_bag.insert(place, look);
        }
    }
}
