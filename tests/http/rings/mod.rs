//! Ring trials over HTTP: set-up, draw, hand-out, progress, opening, result; and what is refused.

mod blind;
mod races;

use crate::support::{Browser, Club, Page};
use axum::http::StatusCode;
use hilum::args;
use hilum::db::FromRow;
use hilum::db::ids::{BagId, PacketId, TrialId};
use hilum::notebook::{self, About, Act, bag};

#[derive(FromRow)]
struct Number {
    n: i64,
}

#[derive(Clone, FromRow)]
struct Part {
    packet_id: PacketId,
    place: i64,
    mark: String,
}

async fn number(club: &Club, sql: &'static str) -> i64 {
    let row: Number = club.app.db.read().await.unwrap().one(sql, args![]).await.unwrap();
    row.n
}

/// The packets of a grower in the only ring trial.
async fn parts(club: &Club, grower: &Browser) -> Vec<Part> {
    let sql = "SELECT packet_id, place, mark FROM ring_packets WHERE member_id = $1 ORDER BY mark_key";
    club.app.db.read().await.unwrap().all(sql, args![grower.id()]).await.unwrap()
}

async fn sound(club: &Club) {
    let mut conn = club.app.db.read().await.unwrap();
    let found = notebook::check::all(&mut conn, club.app.now()).await.unwrap();
    assert!(found.is_empty(), "{found:?}");
}

/// Lea organises; Ann, Ben and Cat grow. Lea holds Kestrel of three sources, 400 seeds each.
struct Ring {
    club: Club,
    lea: Browser,
    growers: Vec<Browser>,
    packets: Vec<PacketId>,
}

const SOURCES: [&str; 3] = ["Fen Merchant", "Marsh Farm", "Testwood Seeds"];

impl Ring {
    async fn new(seeds: i64) -> Self {
        let club = Club::new().await;
        let lea = club.organiser("Lea", "LM").await;
        let mut growers = Vec::new();
        for (name, letters) in [("Ann", "AN"), ("Ben", "BE"), ("Cat", "CT")] {
            growers.push(club.grower(name, letters).await);
        }
        let mut packets = Vec::new();
        for source in SOURCES {
            packets.push(club.packet_from(&lea, "Kestrel", source, seeds).await);
        }
        Self { club, lea, growers, packets }
    }

    /// What the set-up form is filled with.
    fn fields(&self) -> Vec<(&'static str, &str)> {
        let packets = self.packets.iter().map(|p| ("packet", p.0.as_str()));
        let growers = self.growers.iter().map(|g| ("grower", g.id().0.as_str()));
        packets.chain(growers).chain([("name", "Spring trial")]).collect()
    }

    async fn plan(&self, more: &[(&'static str, &str)]) -> Page {
        let form = self.lea.get("/rings/new?variety=v-Kestrel").await;
        self.lea.submit(&form, "/rings/new", &[&self.fields(), more].concat()).await
    }

    /// Sends the form `action` of the page at `path`.
    async fn send(&self, path: &str, action: &str, fields: &[(&str, &str)]) -> Page {
        let page = self.lea.get(path).await;
        self.lea.submit(&page, action, fields).await
    }

    /// Planned with 2 bags of 10, drawn and handed out to all; the address.
    async fn handed_out(&self) -> String {
        let path = self.plan(&[]).await.path;
        let numbers = [("bags", "2"), ("bag_seeds", "10")];
        self.send(&path, &format!("{path}/numbers"), &numbers).await.says("2 bags of 10 seeds");
        self.send(&path, &format!("{path}/draw"), &[]).await.says("Drawn.");
        let done = self.send(&path, &format!("{path}/hand-out"), &[("to", "all")]).await;
        done.says("Handed out: 9 packets, 2 bags of 10 seeds each");
        path
    }

    /// One packet put on paper as 2 bags of 10, of which so many root in each; closed after 14 days.
    async fn grow(&self, grower: &Browser, packet: &PacketId, rooted: [i64; 2]) {
        let trial = self.club.trial(grower, packet, 20).await;
        for rooted in rooted {
            self.bag(grower, &trial, rooted).await;
        }
    }

    async fn bag(&self, grower: &Browser, trial: &TrialId, rooted: i64) -> BagId {
        let start = self.club.app.now();
        let id = self.club.bag(grower, trial, 10).await;
        self.club.pass_days(8);
        self.club.look(grower, &id, rooted, 0).await;
        self.club.pass_days(6);
        let now = self.club.app.now();
        let mut conn = self.club.app.db.write().await.unwrap();
        let act = Act::new(grower.id(), "diary", now, now);
        let closing = bag::Closing { ending: "final count", fresh: 10 - rooted, ..bag::Closing::default() };
        let about = About { bag: Some(&id), ..About::default() };
        bag::add_closing(&mut conn, &act, about, closing, "").await.unwrap();
        bag::keep(&mut conn, &id).await.unwrap();
        conn.commit().await.unwrap();
        self.club.app.clock.set(start);
        id
    }

    /// Every grower finds so many of 10 in the two bags of each lot.
    async fn grow_all(&self, rooted: [[i64; 2]; 3]) {
        for grower in &self.growers {
            for part in parts(&self.club, grower).await {
                self.grow(grower, &part.packet_id, rooted[part.place as usize]).await;
            }
        }
        self.club.pass_days(15);
    }
}

/// A ring trial that Lea planned; nothing is drawn yet.
pub struct Planned {
    pub club: Club,
    pub lea: Browser,
    pub path: String,
}

pub async fn planned() -> Planned {
    let ring = Ring::new(400).await;
    let path = ring.plan(&[]).await.path;
    Planned { club: ring.club, lea: ring.lea, path }
}

#[tokio::test]
async fn a_ring_trial_runs_from_the_plan_to_the_result() {
    let ring = Ring::new(400).await;
    let (club, lea) = (&ring.club, &ring.lea);
    let choose = lea.get(&lea.get("/rings").await.link("Set up")).await;
    choose.says("Kestrel").says("3 lots, 3 sources");
    let plan = ring.plan(&[]).await;
    plan.says("What this plan can show")
        .says("Every grower tests all 3 lots, so every two lots are compared by 3 growers")
        .says("All lots are linked")
        .says("80 % is assumed to root")
        .says("A true difference of 15 rooted seeds in 100 would be seen in about");
    let path = ring_drawn_and_handed(&ring, &plan.path).await;
    for (packet, left) in ring.packets.iter().zip([340; 3]) {
        lea.get(&format!("/packets/{packet}"))
            .await
            .says(&format!("{left} seeds left"))
            .says("ring trial Spring trial");
    }
    ring.grow_all([[9, 9], [8, 9], [3, 3]]).await;
    let before = lea.get(&path).await;
    before.says("9 of 9 packets are counted to the end").says("closed").says("18 of 20 rooted");
    lea.get("/table").await.says_not("Testwood Seeds").says_not("blind");
    assert_eq!(lea.get("/counts.csv").await.body.lines().count(), 1, "only the header");
    let opened = ring.send(&format!("{path}/open"), &format!("{path}/open"), &[]).await;
    opened
        .says("Opened.")
        .says("Fen Merchant 2025 roots better than Testwood Seeds 2025")
        .says("Marsh Farm 2025 roots better than Testwood Seeds 2025");
    opened.says("No difference shown between Fen Merchant 2025 and Marsh Farm 2025").says("takes about");
    opened.says("From the 3 growers who had both.").says("54 of 60 seeds, 3 growers").says("90 %");
    let ben = &ring.growers[1];
    ben.get(&path).await.says("Fen Merchant 2025 roots better").says("18 of 20");
    let part = parts(club, ben).await[0].clone();
    let packet = ben.get(&format!("/packets/{}", part.packet_id)).await;
    packet
        .says("Kestrel")
        .says(SOURCES[part.place as usize])
        .says("Came through ring trial Spring trial, out of LM");
    lea.get("/table").await.says("Testwood Seeds").says("54 of 60");
    assert_eq!(lea.get("/counts.csv").await.body.matches("Fen Merchant").count(), 12);
    sound(club).await;
}

/// Due now asks for one start of all packets of a ring trial, until each is started.
#[tokio::test]
async fn due_now_says_which_blind_packets_wait_to_be_started() {
    let ring = Ring::new(400).await;
    let ann = &ring.growers[0];
    ann.get("/").await.says_not("blind packet");
    let path = ring.handed_out().await;
    let parts = parts(&ring.club, ann).await;
    let due = ann.get("/").await;
    due.says("start your blind packets together: AN 1, AN 2 and AN 3.");
    let marks: Vec<&str> = parts.iter().map(|p| p.mark.as_str()).collect();
    assert_eq!(marks, ["AN 1", "AN 2", "AN 3"]);
    let ids: Vec<String> = parts.iter().map(|p| format!("packet={}", p.packet_id)).collect();
    let start = format!("/trials/new?{}", ids.join("&"));
    assert_eq!(due.link("Start AN 1"), start);
    let titles = crate::calendar::titles(&ring.club, ann).await;
    assert_eq!(titles, ["Start 3 blind packets: AN 1, AN 2 and AN 3"]);
    let asked = ann.get(&start).await;
    asked.says("AN 1").says("AN 2").says("AN 3");
    assert_eq!(ann.get(&path).await.link("Start them together"), start);
    ring.grow(ann, &parts[0].packet_id, [3, 4]).await;
    ann.get("/").await.says("start your blind packets together: AN 2 and AN 3.");
    ring.grow(ann, &parts[1].packet_id, [3, 4]).await;
    ann.get("/").await.says("start your blind packet.").says("AN 3");
    ring.grow(ann, &parts[2].packet_id, [3, 4]).await;
    ann.get("/").await.says_not("blind packet");
    ring.lea.get("/").await.says_not("blind packet");
}

async fn ring_drawn_and_handed(ring: &Ring, path: &str) -> String {
    let numbers = [("bags", "2"), ("bag_seeds", "10")];
    let few = ring.send(path, &format!("{path}/numbers"), &numbers).await;
    few.says("2 bags of 10 seeds")
        .says("These numbers are too few")
        .says("With 80 % certainty they show differences of");
    let drawn = ring.send(path, &format!("{path}/draw"), &[]).await;
    drawn.says("0 of 9 packets").says("not handed out").says("Give it up because");
    for grower in &ring.growers {
        grower.get("/packets").await.says("No packet yet");
    }
    let to = ring.growers[0].id().0.clone();
    let one = ring.send(path, &format!("{path}/hand-out"), &[("to", &to)]).await;
    one.says("Handed out: 3 packets");
    let rest = ring.send(path, &format!("{path}/hand-out"), &[("to", "all")]).await;
    rest.says("Handed out: 6 packets").says_not("everybody who has none yet");
    path.to_owned()
}

#[tokio::test]
async fn labels_tell_nothing_and_the_key_tells_all() {
    let ring = Ring::new(400).await;
    let path = ring.handed_out().await;
    let labels = ring.lea.get(&format!("{path}/labels?paper=letter")).await;
    labels.says("Spring trial (blind). pepper, 2 bags of 10 seeds.").says_not("Kestrel");
    assert_eq!(labels.all(".label .mark").len(), 9);
    assert!(labels.body.contains("labels up-30") && labels.body.matches("<svg").count() == 9);
    let key = ring.lea.get(&format!("{path}/key")).await;
    for source in SOURCES {
        labels.says_not(source);
        key.says(source);
    }
    for grower in &ring.growers {
        for part in parts(&ring.club, grower).await {
            labels.says(&part.mark);
            let under = format!("From LM {} {}", part.place + 1, SOURCES[part.place as usize]);
            let text = key.text();
            let from = text.split("From ").find(|s| s.contains(&part.mark)).unwrap();
            assert!(format!("From {from}").starts_with(&under), "{} stands under {from}", part.mark);
        }
        for page in ["labels", "key", "open"] {
            assert_eq!(grower.get(&format!("{path}/{page}")).await.status, StatusCode::FORBIDDEN);
        }
    }
    let mark = parts(&ring.club, &ring.growers[0]).await[0].mark.replace(' ', "");
    let find = ring.growers[0].get(&format!("/find?mark={mark}")).await;
    assert!(find.path.starts_with("/packets/"), "a label's code opens the packet: {}", find.path);
}

#[tokio::test]
async fn lots_are_split_evenly_where_a_grower_cannot_take_all() {
    let mut ring = Ring::new(400).await;
    ring.packets.push(ring.club.packet_from(&ring.lea, "Kestrel", "Own Hill", 400).await);
    ring.growers.push(ring.club.grower("Dan", "DN").await);
    let plan = ring.plan(&[("lots_each", "3")]).await;
    plan.says(
        "Each grower tests 3 of the 4 lots, and every two lots share exactly 2 growers: no pair is favoured.",
    )
    .says("100 seeds tell as much as 89 would");
    let path = plan.path;
    let numbers = [("bags", "2"), ("bag_seeds", "5")];
    ring.send(&path, &format!("{path}/numbers"), &numbers).await.says("2 bags of 5");
    ring.send(&path, &format!("{path}/draw"), &[]).await.says("Marsh Farm 2025 and Testwood Seeds 2025");
    let mut tested = [0; 4];
    for grower in &ring.growers {
        let theirs = parts(&ring.club, grower).await;
        assert_eq!(theirs.len(), 3);
        theirs.iter().for_each(|p| tested[p.place as usize] += 1);
    }
    assert_eq!(tested, [3; 4]);
    ring.send(&path, &format!("{path}/hand-out"), &[("to", "all")]).await.says("Handed out: 12 packets");
    for grower in &ring.growers {
        for part in parts(&ring.club, grower).await {
            let trial = ring.club.trial(grower, &part.packet_id, 10).await;
            ring.bag(grower, &trial, if part.place == 0 { 9 } else { 3 }).await;
        }
    }
    ring.club.pass_days(15);
    let opened = ring.send(&format!("{path}/open"), &format!("{path}/open"), &[]).await;
    opened
        .says("Fen Merchant 2025 roots better than Own Hill 2025")
        .says("From the 4 growers who had either");
    opened.says("the 2 growers who had both found 61 more by themselves");
    assert_eq!(number(&ring.club, "SELECT COUNT(DISTINCT mark_key) AS n FROM ring_packets").await, 12);
    sound(&ring.club).await;
}

#[tokio::test]
async fn a_plan_says_what_is_wrong_beside_the_field() {
    let ring = Ring::new(400).await;
    let form = ring.lea.get("/rings/new?variety=v-Kestrel").await;
    let nothing = ring.lea.submit(&form, "/rings/new", &[("difference", "0"), ("lots_each", "x")]).await;
    nothing
        .refuses("name", "fill this in")
        .refuses("packet", "At least two packets")
        .refuses("grower", "At least two growers");
    nothing.refuses("difference", "from 3 to 60").refuses("lots_each", "whole number");
    let twin = ring.club.packet_from(&ring.lea, "Kestrel", "Testwood Seeds", 10).await;
    let form = ring.lea.get("/rings/new?variety=v-Kestrel").await;
    let fields = [ring.fields(), vec![("packet", twin.0.as_str())]].concat();
    let same = ring.lea.submit(&form, "/rings/new", &fields).await;
    same.refuses("packet", "are of the same lot");
    assert!(same.body.contains("value=\"Spring trial\""), "what was typed stays");
    let few: Vec<_> = ring.fields().into_iter().filter(|(_, v)| *v != ring.growers[0].id().0).collect();
    assert_eq!(
        ring.lea.submit(&form, "/rings/new", &[few, vec![("lots_each", "2")]].concat()).await.status,
        200
    );
    assert_eq!(ring.lea.get("/rings/new?variety=nothing").await.status, StatusCode::NOT_FOUND);
    assert_eq!(ring.growers[0].get("/rings/new").await.status, StatusCode::FORBIDDEN);
    assert_eq!(number(&ring.club, "SELECT COUNT(*) AS n FROM rings").await, 1);
}

#[tokio::test]
async fn numbers_that_cannot_be_are_refused_and_kept() {
    let mut ring = Ring::new(30).await;
    for source in ["Own Hill", "Far Hill", "Near Hill"] {
        ring.packets.push(ring.club.packet_from(&ring.lea, "Kestrel", source, 30).await);
    }
    let form = ring.lea.get("/rings/new?variety=v-Kestrel").await;
    let fields = [ring.fields(), vec![("lots_each", "2")]].concat();
    let refused = ring.lea.submit(&form, "/rings/new", &fields).await;
    refused.refuses("lots_each", "3 growers with 2 lots each cannot link all 6 lots");
    refused.refuses("lots_each", "at least 3 lots, or ask at least 5 growers");
    let plan = ring.plan(&[]).await;
    let path = plan.path.clone();
    plan.says("Do the packets hold enough? No.").says("They hold enough for").says("Short by");
    let numbers = format!("{path}/numbers");
    let odd = ring.send(&path, &numbers, &[("lots_each", "2"), ("bags", "0"), ("bag_seeds", "7")]).await;
    odd.refuses("bags", "from 1 to 50");
    assert!(odd.body.contains("value=\"7\""));
    ring.send(&path, &numbers, &[("lots_each", "2")]).await.refuses("lots_each", "cannot link");
    let short = ring.lea.post(&format!("{path}/draw"), &[("key", "0123456789abcdef0123")]).await;
    short.refuses("draw", "is short by");
    assert_eq!(number(&ring.club, "SELECT COUNT(*) AS n FROM ring_packets").await, 0);
    ring.lea.get(&path).await.says("Not yet: the packets do not hold");
    let held = ring.lea.get(&path).await;
    let action = held.form(&numbers).filled(&[]);
    assert!(
        action.contains(&("bags".into(), "1".into())) && action.contains(&("bag_seeds".into(), "10".into()))
    );
    ring.lea.submit(&held, &numbers, &[]).await.says("Yes.");
    ring.send(&path, &format!("{path}/draw"), &[]).await.says("Drawn.");
    sound(&ring.club).await;
}

#[tokio::test]
async fn it_is_opened_early_only_with_a_reason() {
    let ring = Ring::new(400).await;
    let path = ring.handed_out().await;
    let ann = &ring.growers[0];
    ring.grow(ann, &parts(&ring.club, ann).await[0].packet_id, [5, 5]).await;
    ring.club.pass_days(20);
    let open = format!("{path}/open");
    ring.lea.get(&open).await.says("8 of 9 packets are not counted to the end");
    ring.send(&open, &open, &[]).await.refuses("why", "Not all bags are closed");
    let done = ring.send(&open, &open, &[("why", "The heat mat broke.")]).await;
    done.says("Opened early: The heat mat broke.").says("Nothing was counted that could be compared");
    let again =
        ring.lea.post(&format!("{path}/hand-out"), &[("key", "0123456789abcdef0123"), ("to", "all")]).await;
    assert_eq!(again.status, StatusCode::CONFLICT);
    sound(&ring.club).await;
}

#[tokio::test]
async fn a_plan_is_given_up_until_seed_is_out() {
    let ring = Ring::new(400).await;
    let path = ring.plan(&[]).await.path;
    let quit = format!("{path}/give-up");
    ring.send(&path, &quit, &[("why", "No time")]).await.says("Given up: Spring trial").says("given up");
    ring.lea.get(&path).await.says("Why: No time").says("Set up another of Kestrel");
    let other = Ring::new(400).await;
    let path = other.handed_out().await;
    let late = other.lea.post(&format!("{path}/give-up"), &[("key", "0123456789abcdef0123")]).await;
    assert_eq!(late.status, StatusCode::CONFLICT);
}
