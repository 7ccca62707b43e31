//! Shortcuts to the state a test starts from, written straight into the database.

use super::{Browser, Club};
use hilum::args;
use hilum::db::ids::{
    BagId, KindId, LotId, PacketId, RoutineId, RoutineVersionId, SourceId, TrialId, VarietyId,
};
use hilum::marks;
use hilum::notebook::{About, Act, bag, packet, trial};

impl Club {
    /// A packet of pepper seed of `variety` from the source "Testwood Seeds".
    pub async fn packet(&self, owner: &Browser, variety: &str, seeds: i64) -> PacketId {
        self.packet_from(owner, variety, "Testwood Seeds", seeds).await
    }

    pub async fn packet_from(&self, owner: &Browser, variety: &str, source: &str, seeds: i64) -> PacketId {
        let now = self.app.now();
        let mut conn = self.app.db.write().await.unwrap();
        let kind = KindId("pepper".into());
        let sql = "INSERT INTO kinds (id, name, name_key, built_in, made_at) VALUES ($1, $2, $2, TRUE, $3)
            ON CONFLICT DO NOTHING";
        conn.run(sql, args![&kind, "pepper", now]).await.unwrap();
        let variety_id = VarietyId(format!("v-{}", joined(variety)));
        let sql = "INSERT INTO varieties (id, kind_id, name, name_key, species, root_id, made_at, version)
            VALUES ($1, $2, $3, $4, '', $1, $5, 1) ON CONFLICT DO NOTHING";
        conn.run(sql, args![&variety_id, &kind, variety, variety.to_lowercase(), now]).await.unwrap();
        let source_id = SourceId(format!("s-{}", joined(source)));
        let sql = "INSERT INTO sources (id, name, name_key, sort, root_id, made_at, version)
            VALUES ($1, $2, $3, 'merchant', $1, $4, 1) ON CONFLICT DO NOTHING";
        conn.run(sql, args![&source_id, source, source.to_lowercase(), now]).await.unwrap();
        let lot = LotId(format!("l-{variety}-{source}"));
        let sql = "INSERT INTO lots (id, variety_id, source_id, year, code, code_key, pollination, doubtful_cross, made_at)
            VALUES ($1, $2, $3, 2025, '', '', '', FALSE, $4) ON CONFLICT DO NOTHING";
        conn.run(sql, args![&lot, &variety_id, &source_id, now]).await.unwrap();
        let id = PacketId::new();
        let letters = marks::letters(&mut conn, owner.id()).await.unwrap()[0].shown.clone();
        let mark = marks::next_packet(&mut conn, owner.id(), &letters, &id.0, now).await.unwrap();
        let sql = "INSERT INTO packets (id, lot_id, owner_id, mark_key, mark, place, state, rough, through, note, balance,
            made_at, version) VALUES ($1, $2, $3, $4, $5, '', 'plain', FALSE, '', '', 0, $6, 1)";
        conn.run(sql, args![&id, &lot, owner.id(), &mark.key, &mark.shown, now]).await.unwrap();
        let act = Act::new(owner.id(), "diary", now, now);
        let line = packet::Line { sort: "received", seeds, other: None, note: "" };
        packet::add(&mut conn, &act, About { packet: Some(&id), ..About::default() }, line).await.unwrap();
        conn.commit().await.unwrap();
        id
    }

    /// A trial of `seeds` seeds that is soaking now, in a routine without steps.
    pub async fn trial(&self, owner: &Browser, packet_id: &PacketId, seeds: i64) -> TrialId {
        let now = self.app.now();
        let mut conn = self.app.db.write().await.unwrap();
        let (routine, version) = (RoutineId("r-dry".into()), RoutineVersionId("rv-dry".into()));
        let sql = "INSERT INTO routines (id, name, name_key, made_at) VALUES ($1, 'Dry', 'dry', $2) ON CONFLICT DO NOTHING";
        conn.run(sql, args![&routine, now]).await.unwrap();
        let sql = "INSERT INTO routine_versions (id, routine_id, number, note, frozen, made_at)
            VALUES ($1, $2, 1, '', TRUE, $3) ON CONFLICT DO NOTHING";
        conn.run(sql, args![&version, &routine, now]).await.unwrap();
        let id = TrialId::new();
        let sql = "INSERT INTO trials (id, packet_id, owner_id, version_id, began_at, voided, treated_again, seeds, soaking,
            thrown_out, lost, returned, step, step_at, floaters, version)
            VALUES ($1, $2, $3, $4, $5, FALSE, FALSE, 0, 0, 0, 0, 0, 1, $5, '', 1)";
        conn.run(sql, args![&id, packet_id, owner.id(), &version, now]).await.unwrap();
        let act = Act::new(owner.id(), "diary", now, now);
        let about = About { packet: Some(packet_id), trial: Some(&id), ..About::default() };
        let line = packet::Line { sort: "taken", seeds: -seeds, other: None, note: "" };
        packet::add(&mut conn, &act, about, line).await.unwrap();
        trial::add_seeds(&mut conn, &act, about, "taken", seeds).await.unwrap();
        trial::keep(&mut conn, &id).await.unwrap();
        conn.commit().await.unwrap();
        id
    }

    /// A bag of `seeds` seeds of a soaking trial, on paper now at 28 degrees C.
    pub async fn bag(&self, owner: &Browser, trial_id: &TrialId, seeds: i64) -> BagId {
        let now = self.app.now();
        let mut conn = self.app.db.write().await.unwrap();
        let id = BagId::new();
        let mark = marks::next_bag(&mut conn, &self.mark_of(trial_id).await, &id.0, now).await.unwrap();
        let sql = "INSERT INTO bags (id, trial_id, owner_id, mark_key, mark, floaters, on_paper_at, place, weekly, in_doubt,
            voided, seeds, rooted, abnormal, dead, fresh, hard, not_examined, lost, sown_unrooted, moved_out, moved_in,
            on_paper, ended, ending, version)
            VALUES ($1, $2, $3, $4, $5, FALSE, $6, '', FALSE, FALSE, FALSE, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, '', 1)";
        conn.run(sql, args![&id, trial_id, owner.id(), &mark.key, &mark.shown, now]).await.unwrap();
        let act = Act::new(owner.id(), "diary", now, now);
        let about = About { trial: Some(trial_id), bag: Some(&id), ..About::default() };
        trial::add_seeds(&mut conn, &act, about, "to paper", seeds).await.unwrap();
        bag::add_seeds(&mut conn, &act, about, "on paper", seeds, None).await.unwrap();
        let moved = bag::Event { sort: "moved", place: "mat", warmth: Some(28.0), ..bag::Event::default() };
        bag::add_event(&mut conn, &act, about, moved).await.unwrap();
        trial::keep(&mut conn, trial_id).await.unwrap();
        bag::keep(&mut conn, &id).await.unwrap();
        conn.commit().await.unwrap();
        id
    }

    /// A look into a bag, now.
    pub async fn look(&self, by: &Browser, bag_id: &BagId, rooted: i64, dead: i64) {
        let now = self.app.now();
        let mut conn = self.app.db.write().await.unwrap();
        let act = Act::new(by.id(), "diary", now, now);
        let about = About { bag: Some(bag_id), ..About::default() };
        bag::add_look(&mut conn, &act, about, bag::Look { rooted, abnormal: 0, dead }, "").await.unwrap();
        bag::keep(&mut conn, bag_id).await.unwrap();
        conn.commit().await.unwrap();
    }

    async fn mark_of(&self, trial_id: &TrialId) -> String {
        #[derive(hilum::db::FromRow)]
        struct Row {
            mark: String,
        }
        let sql = "SELECT p.mark FROM trials t JOIN packets p ON p.id = t.packet_id WHERE t.id = $1";
        let row: Row = self.app.db.read().await.unwrap().one(sql, args![trial_id]).await.unwrap();
        row.mark
    }
}

/// An id stands in addresses.
fn joined(name: &str) -> String {
    name.replace(' ', "-")
}

/// A trial of `seeds` seeds of (variety, source) in one bag, on paper now and [`looked_at`].
pub async fn rooted_by_day(
    club: &Club,
    by: &Browser,
    (variety, source): (&str, &str),
    seeds: i64,
    rooted: i64,
) -> BagId {
    let packet = club.packet_from(by, variety, source, seeds).await;
    let trial = club.trial(by, &packet, seeds).await;
    let bag = club.bag(by, &trial, seeds).await;
    looked_at(club, by, &bag, rooted).await;
    bag
}

/// `rooted` seeds are out ten days from now, and the bag is looked at again on day 14. Time stands where it stood.
pub async fn looked_at(club: &Club, by: &Browser, bag: &BagId, rooted: i64) {
    let start = club.app.now();
    club.pass_days(10);
    club.look(by, bag, rooted, 0).await;
    club.pass_days(4);
    club.look(by, bag, 0, 0).await;
    club.app.clock.set(start);
}
