mod close;
mod count;
mod due;
mod find;
mod happened;
mod holders;
mod looks;
mod outlook;
mod races;
mod voids;

use crate::support::{Browser, Club};
use hilum::db::ids::{BagId, PacketId, TrialId};
use hilum::notebook::{bag, trial};

/// A club in which Jo has a bag of 10 seeds on paper since three days ago.
pub struct Bench {
    pub club: Club,
    pub jo: Browser,
    pub packet: PacketId,
    pub trial: TrialId,
    pub bag: BagId,
}

impl Bench {
    pub async fn new() -> Self {
        let club = Club::new().await;
        let jo = club.grower("Jo", "JB").await;
        let packet = club.packet(&jo, "Kestrel", 100).await;
        let trial = club.trial(&jo, &packet, 40).await;
        let bag = club.bag(&jo, &trial, 10).await;
        club.pass_days(3);
        Self { club, jo, packet, trial, bag }
    }

    pub fn path(&self) -> String {
        format!("/bags/{}", self.bag)
    }

    /// The address under the bag's page.
    pub fn under(&self, rest: &str) -> String {
        format!("/bags/{}/{rest}", self.bag)
    }

    pub async fn sums(&self) -> bag::Sums {
        self.sums_of(&self.bag).await
    }

    pub async fn sums_of(&self, id: &BagId) -> bag::Sums {
        let mut conn = self.club.app.db.read().await.unwrap();
        bag::sums(&mut conn, id).await.unwrap().unwrap()
    }

    pub async fn trial_sums(&self) -> trial::Sums {
        let mut conn = self.club.app.db.read().await.unwrap();
        trial::sums(&mut conn, &self.trial).await.unwrap().unwrap()
    }

    /// Counts through the page of the bag.
    pub async fn count(&self, rooted: &str, dead: &str) -> crate::support::Page {
        let page = self.jo.get(&self.path()).await;
        self.jo.submit(&page, &self.under("count"), &[("rooted", rooted), ("dead", dead)]).await
    }
}

#[tokio::test]
async fn a_look_written_to_the_notebook_shows_on_the_page() {
    let b = Bench::new().await;
    b.club.look(&b.jo, &b.bag, 4, 1).await;
    b.jo.get(&b.path()).await.says("5 seeds still on paper, day 3 on paper, 4 rooted, 4 not planted yet");
}
