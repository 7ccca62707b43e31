//! A large club, written through the notebook: 20 growers, 500 packets, 2,000 trials of two bags each.

use hilum::accounts::{model::NewMember, store};
use hilum::app::App;
use hilum::args;
use hilum::db::Conn;
use hilum::db::ids::{At, BagId, MemberId, PacketId, TrialId};
use hilum::marks;
use hilum::notebook::{About, Act, bag, packet, trial};
use hilum::web::session;

/// 2026-03-02 08:00 UTC.
pub const NOW: At = At(1_772_438_400);
const GROWERS: usize = 20;
const PACKETS: usize = 500;
const TRIALS: usize = 2000;
const OPEN_TRIALS: usize = 200;
const VARIETIES: usize = 60;
const SOURCES: usize = 8;
const LOOKS: [i64; 12] = [3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14];

const KIND: &str = "INSERT INTO kinds (id, name, name_key, built_in, made_at) VALUES ('k', 'pepper', 'bench pepper', TRUE, $1)";
const VARIETY: &str =
    "INSERT INTO varieties (id, kind_id, name, name_key, species, root_id, made_at, version)
    VALUES ($1, 'k', $1, $1, '', $1, $2, 1)";
const SOURCE: &str = "INSERT INTO sources (id, name, name_key, sort, root_id, made_at, version)
    VALUES ($1, $1, $1, 'merchant', $1, $2, 1)";
const ROUTINE: &str =
    "INSERT INTO routines (id, name, name_key, made_at) VALUES ('r', 'Overnight', 'bench', $1)";
const ROUTINE_VERSION: &str = "INSERT INTO routine_versions (id, routine_id, number, note, frozen, made_at)
    VALUES ('rv', 'r', 1, '', TRUE, $1)";
const LOT: &str = "INSERT INTO lots
    (id, variety_id, source_id, year, code, code_key, pollination, doubtful_cross, made_at)
    VALUES ($1, $2, $3, 2022, '', '', '', FALSE, $4) ON CONFLICT DO NOTHING";
const PACKET: &str = "INSERT INTO packets
    (id, lot_id, owner_id, mark_key, mark, place, state, rough, through, note, balance, made_at, version)
    VALUES ($1, $2, $3, $4, $5, '', 'plain', FALSE, '', '', 0, $6, 1)";
const TRIAL: &str =
    "INSERT INTO trials (id, packet_id, owner_id, version_id, began_at, voided, treated_again, seeds,
    soaking, thrown_out, lost, returned, step, step_at, floaters, version)
    VALUES ($1, $2, $3, 'rv', $4, FALSE, FALSE, 0, 0, 0, 0, 0, 1, $4, '', 1)";
const BAG: &str = "INSERT INTO bags (id, trial_id, owner_id, mark_key, mark, floaters, on_paper_at, place, weekly,
    in_doubt, voided, seeds, rooted, abnormal, dead, fresh, hard, not_examined, lost, sown_unrooted, moved_out, moved_in,
    on_paper, ended, ending, version) VALUES ($1, $2, $3, $4, $5, FALSE, $6, '', FALSE, FALSE, FALSE, 0, 0, 0, 0, 0, 0, 0,
    0, 0, 0, 0, 0, 0, '', 1)";

/// Seeds of a bag root at a rate of its cell and grower; the same numbers in each run.
struct Dice(u64);

impl Dice {
    fn share(&mut self) -> f64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }
}

struct Packet {
    id: PacketId,
    owner: MemberId,
    mark: String,
    rate: f64,
}

/// Makes the club; gives the session of one of its growers.
pub async fn make(app: &App) -> String {
    let mut conn = app.db.write().await.unwrap();
    let early = NOW.plus_days(-900);
    store::make_club(&mut conn, "Bench", "Europe/Berlin", early).await.unwrap();
    let mut growers = Vec::new();
    for n in 0..GROWERS {
        growers.push(grower(&mut conn, n).await);
    }
    let token = session::open(&mut conn, &growers[0], NOW).await.unwrap();
    names(&mut conn, early).await;
    let mut packets = Vec::new();
    for n in 0..PACKETS {
        packets.push(packet(&mut conn, n, &growers[n % GROWERS], early).await);
    }
    let mut dice = Dice(88_172_645_463_325_252);
    for n in 0..TRIALS {
        tried(&mut conn, n, &packets[n % PACKETS], &mut dice).await;
    }
    conn.commit().await.unwrap();
    token
}

async fn grower(conn: &mut Conn, n: usize) -> MemberId {
    let letters = format!("{}{}", char::from(b'A' + (n / 8) as u8), char::from(b'P' + (n % 8) as u8));
    let new = NewMember {
        name: format!("Grower {n}"),
        sign_in: format!("grower{n}"),
        letters,
        password: String::new(),
        role: "grower".into(),
    };
    store::add(conn, &new, "no password", NOW).await.unwrap()
}

async fn names(conn: &mut Conn, at: At) {
    conn.run(KIND, args![at]).await.unwrap();
    conn.run(ROUTINE, args![at]).await.unwrap();
    conn.run(ROUTINE_VERSION, args![at]).await.unwrap();
    for n in 0..VARIETIES {
        conn.run(VARIETY, args![format!("Variety {n:02}"), at]).await.unwrap();
    }
    for n in 0..SOURCES {
        conn.run(SOURCE, args![format!("Source {n}"), at]).await.unwrap();
    }
}

async fn packet(conn: &mut Conn, n: usize, owner: &MemberId, at: At) -> Packet {
    let (variety, source) = (n % VARIETIES, (n / VARIETIES + n) % SOURCES);
    let lot = format!("lot {variety} {source}");
    let names = (format!("Variety {variety:02}"), format!("Source {source}"));
    conn.run(LOT, args![&lot, names.0, names.1, at]).await.unwrap();
    let id = PacketId::new();
    let letters = marks::letters(conn, owner).await.unwrap()[0].shown.clone();
    let mark = marks::next_packet(conn, owner, &letters, &id.0, at).await.unwrap();
    conn.run(PACKET, args![&id, lot, owner, &mark.key, &mark.shown, at]).await.unwrap();
    let act = Act::new(owner, "bench", at, at);
    let line = packet::Line { sort: "received", seeds: 200, other: None, note: "" };
    packet::add(conn, &act, About { packet: Some(&id), ..About::default() }, line).await.unwrap();
    let rate = 0.95 - 0.6 * ((variety * 7 + source * 5) % 17) as f64 / 17.0;
    Packet { id, owner: owner.clone(), mark: mark.shown, rate }
}

/// A trial of 20 seeds in two bags; the last 200 trials are four days on paper and open.
async fn tried(conn: &mut Conn, n: usize, from: &Packet, dice: &mut Dice) {
    let open = n >= TRIALS - OPEN_TRIALS;
    let began = NOW.plus_days(if open { -5 } else { -40 - (n as i64 * 800 / TRIALS as i64) });
    let id = TrialId::new();
    conn.run(TRIAL, args![&id, &from.id, &from.owner, began]).await.unwrap();
    let act = Act::new(&from.owner, "bench", began, began);
    let about = About { packet: Some(&from.id), trial: Some(&id), ..About::default() };
    let line = packet::Line { sort: "taken", seeds: -20, other: None, note: "" };
    packet::add(conn, &act, about, line).await.unwrap();
    trial::add_seeds(conn, &act, about, "taken", 20).await.unwrap();
    let rate = (from.rate + 0.2 * (dice.share() - 0.5)).clamp(0.02, 0.98);
    for _ in 0..2 {
        on_paper(conn, from, &id, began.plus_days(1), (open, rate), dice).await;
    }
    trial::keep(conn, &id).await.unwrap();
}

async fn on_paper(
    conn: &mut Conn,
    from: &Packet,
    of: &TrialId,
    at: At,
    (open, rate): (bool, f64),
    dice: &mut Dice,
) {
    let id = BagId::new();
    let mark = marks::next_bag(conn, &from.mark, &id.0, at).await.unwrap();
    conn.run(BAG, args![&id, of, &from.owner, &mark.key, &mark.shown, at]).await.unwrap();
    let about = About { trial: Some(of), bag: Some(&id), ..About::default() };
    let act = Act::new(&from.owner, "bench", at, at);
    trial::add_seeds(conn, &act, about, "to paper", 10).await.unwrap();
    bag::add_seeds(conn, &act, about, "on paper", 10, None).await.unwrap();
    let moved = bag::Event { sort: "moved", place: "mat", warmth: Some(28.0), ..bag::Event::default() };
    bag::add_event(conn, &act, about, moved).await.unwrap();
    let mut days: Vec<i64> = Vec::new();
    for _ in 0..10 {
        if dice.share() < rate {
            days.push(4 + (dice.share() * dice.share() * 11.0) as i64);
        }
    }
    for day in LOOKS.into_iter().filter(|day| !open || *day <= 4) {
        let rooted = days.iter().filter(|d| **d == day).count() as i64;
        let act = Act::new(&from.owner, "bench", at.plus_days(day), at.plus_days(day));
        bag::add_look(conn, &act, about, bag::Look { rooted, ..bag::Look::default() }, "").await.unwrap();
    }
    if !open {
        let act = Act::new(&from.owner, "bench", at.plus_days(21), at.plus_days(21));
        let rooted = days.iter().filter(|d| LOOKS.contains(d)).count() as i64;
        let closing = bag::Closing { ending: "final count", fresh: 10 - rooted, ..bag::Closing::default() };
        bag::add_closing(conn, &act, about, closing, "").await.unwrap();
    }
    bag::keep(conn, &id).await.unwrap();
}

/// One look into an open bag, without news.
pub async fn look(app: &App, minutes: i64) {
    #[derive(hilum::db::FromRow)]
    struct Open {
        id: String,
        owner_id: String,
    }
    let mut conn = app.db.write().await.unwrap();
    let sql = "SELECT id, owner_id FROM bags WHERE closed_at IS NULL ORDER BY id LIMIT 1";
    let open: Open = conn.one(sql, args![]).await.unwrap();
    let (id, owner) = (BagId(open.id), MemberId(open.owner_id));
    let act = Act::new(&owner, "bench", NOW.plus_minutes(minutes), NOW.plus_minutes(minutes));
    let about = About { bag: Some(&id), ..About::default() };
    bag::add_look(&mut conn, &act, about, bag::Look::default(), "").await.unwrap();
    bag::keep(&mut conn, &id).await.unwrap();
    conn.commit().await.unwrap();
}
