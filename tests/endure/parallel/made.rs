use crate::support::{Client, START, Season};
use hilum::accounts::model::NewMember;
use hilum::accounts::store::links::{self, NewLink};
use hilum::accounts::{passwords, store};
use hilum::args;
use hilum::db::ids::{At, MemberId};
use std::collections::BTreeMap;
use std::sync::atomic::{AtomicUsize, Ordering};

/// What a form's braces stand for: made when it is first asked for, then the same for the whole form.
pub struct Made<'a> {
    pub season: &'a Season,
    /// The hash of the newcomers' password, which takes long to compute.
    pub hash: &'a str,
    known: BTreeMap<String, String>,
}

pub const PASSWORD: &str = "four unrelated words here";

static NEXT: AtomicUsize = AtomicUsize::new(0);

/// A hash of [`PASSWORD`].
pub async fn hash(app: &hilum::app::App) -> String {
    passwords::hashed(app, PASSWORD.to_owned()).await.unwrap()
}

/// Four letters that were not given before.
fn letters() -> String {
    const SHAPES: &[u8] = b"CDEFHJKMNPRTUVWXY";
    let n = NEXT.fetch_add(1, Ordering::SeqCst);
    let letter = |n: usize| char::from(SHAPES[n % SHAPES.len()]);
    (0..4).map(|place| letter(n / SHAPES.len().pow(place))).collect()
}

/// A name like no other.
fn name() -> String {
    let n = NEXT.fetch_add(1, Ordering::SeqCst);
    hilum::web::session::hash(&format!("name {n}"))[..12].to_owned()
}

impl<'a> Made<'a> {
    pub fn new(season: &'a Season, hash: &'a str) -> Self {
        Self { season, hash, known: BTreeMap::new() }
    }

    /// The text with what its braces stand for.
    pub async fn fill(&mut self, text: &str) -> String {
        let mut out = String::new();
        let mut rest = text;
        while let Some((before, after)) = rest.split_once('{') {
            let (what, after) = after.split_once('}').unwrap();
            out.push_str(before);
            out.push_str(&self.one(what).await);
            rest = after;
        }
        out + rest
    }

    async fn one(&mut self, what: &str) -> String {
        if !self.known.contains_key(what) {
            match what {
                "peer" | "grower" | "grower2" | "invitation" | "reset" | "link" | "token" => {
                    self.people(what).await;
                }
                "ring" | "drawn" | "handed" | "tested" | "lot" | "lot2" => self.ring(what).await,
                "variety" | "variety2" | "merged" | "source" | "source2" | "joined" => self.names(what).await,
                "tray" | "finished" | "planted" | "planting" => self.trays(what).await,
                "bag" | "bag2" | "looked" | "closed" | "saved" | "entry" | "mark" => self.bags(what).await,
                _ => self.things(what).await,
            }
        }
        self.known[what].clone()
    }

    fn put(&mut self, what: &str, made: impl Into<String>) {
        self.known.insert(what.to_owned(), made.into());
    }

    /// A member with letters and a password who is signed in here and elsewhere.
    pub async fn newcomer(&self) -> Client {
        let (_, sign_in) = self.member().await;
        self.season.device(&sign_in).await;
        self.season.device(&sign_in).await
    }

    async fn member(&self) -> (MemberId, String) {
        let name = name();
        let new = NewMember {
            name: name.clone(),
            sign_in: name.clone(),
            letters: letters(),
            password: String::new(),
            role: "grower".into(),
        };
        let mut conn = self.season.db.write().await.unwrap();
        let id = store::add(&mut conn, &new, self.hash, At(START)).await.unwrap();
        conn.commit().await.unwrap();
        (id, name)
    }

    async fn people(&mut self, what: &str) {
        if what == "token" {
            let form = self.season.agnes.filled("/me/tokens", "/me/tokens", &[("name", "scale")]).await;
            self.season.agnes.send(&form).await.unwrap();
            // at most twenty at a time: only this one stays
            let sql = "SELECT MAX(id) AS text FROM tokens";
            let id = self.season.text(sql, args![]).await;
            self.season.run("UPDATE tokens SET ended_at = made_at WHERE id <> $1", args![&id]).await;
            return self.put(what, id);
        }
        let (id, _) = self.member().await;
        if matches!(what, "peer" | "grower" | "grower2") {
            return self.put(what, id.0);
        }
        let purpose = if what == "reset" { "reset" } else { "invitation" };
        let member = (what == "reset").then_some(&id);
        let new = NewLink { purpose, role: "grower", member, by: Some(&id), days: 1 };
        let mut conn = self.season.db.write().await.unwrap();
        let token = links::make(&mut conn, &new, At(START)).await.unwrap();
        conn.commit().await.unwrap();
        let link = self.season.text("SELECT MAX(id) AS text FROM links", args![]).await;
        self.put(what, if what == "link" { link } else { token });
    }

    /// Two lots of a variety of their own, two growers, and the ring trial as far as it has come.
    async fn ring(&mut self, what: &str) {
        let variety = name();
        let lots = [self.lot(&variety, "Lode Lane Seeds").await, self.lot(&variety, "Mereside Swap").await];
        let sql = "SELECT id AS text FROM varieties WHERE name = $1";
        let tested = self.season.text(sql, args![&variety]).await;
        let growers = [self.member().await.0.0, self.member().await.0.0];
        if matches!(what, "tested" | "lot" | "lot2") {
            let [lot, lot2] = lots;
            self.put("lot", lot);
            self.put("lot2", lot2);
            return self.put("tested", tested);
        }
        let agnes = &self.season.agnes;
        let name = name();
        let mut fields = vec![("name", name.as_str())];
        fields.extend(lots.iter().map(|lot| ("packet", lot.as_str())));
        fields.extend(growers.iter().map(|id| ("grower", id.as_str())));
        let path = agnes.save(&format!("/rings/new?variety={tested}"), "/rings/new", &fields).await;
        let numbers = [("bags", "1"), ("bag_seeds", "10")];
        agnes.save(&path, &format!("{path}/numbers"), &numbers).await;
        if what != "ring" {
            agnes.save(&path, &format!("{path}/draw"), &[]).await;
        }
        if what == "handed" {
            agnes.save(&path, &format!("{path}/hand-out"), &[("to", "all")]).await;
        }
        self.put(what, path.trim_start_matches("/rings/"));
    }

    async fn lot(&self, variety: &str, source: &str) -> String {
        self.season.packet(variety, source, "400").await
    }

    /// Names that were typed for a new packet, two of a sort; or one that counts under the other.
    async fn names(&mut self, what: &str) {
        let (variety, root) = (["variety", "variety2", "merged"].contains(&what), name());
        let mut ids = Vec::new();
        for end in ["", "x"] {
            let typed = format!("{}{end}", name());
            let (v, s) =
                if variety { (typed.as_str(), "Lode Lane Seeds") } else { (root.as_str(), typed.as_str()) };
            self.season.packet(v, s, "5").await;
            let sql = "SELECT id AS text FROM varieties WHERE name = $1 UNION SELECT id FROM sources WHERE name = $1";
            ids.push(self.season.text(sql, args![typed]).await);
        }
        let (one, two) = if variety { ("variety", "variety2") } else { ("source", "source2") };
        if matches!(what, "merged" | "joined") {
            let page = format!("/{}/{}", if variety { "varieties" } else { "sources" }, ids[0]);
            self.season.agnes.save(&page, &format!("{page}/merge"), &[("into", ids[1].as_str())]).await;
            let id = ids.remove(0);
            return self.put(what, id);
        }
        self.put(two, ids.remove(1));
        self.put(one, ids.remove(0));
    }

    async fn trays(&mut self, what: &str) {
        let tray = self.season.tray().await;
        let agnes = &self.season.agnes;
        if what == "finished" {
            let page = format!("/trays/{tray}");
            agnes.save(&page, &format!("{page}/finish"), &[]).await;
        }
        if matches!(what, "planted" | "planting") {
            let bag = self.season.bags(5).await[0].clone();
            self.season.look(&bag, "3").await;
            let page = format!("/bags/{bag}/plant");
            let fields = [("tray", tray.as_str()), ("seeds", "1")];
            agnes.save(&format!("{page}?tray={tray}"), &page, &fields).await;
            let sql = "SELECT id AS text FROM plantings WHERE tray_id = $1";
            let planting = self.season.text(sql, args![&tray]).await;
            self.put("planting", planting);
            return self.put("planted", tray);
        }
        self.put(what, tray);
    }

    async fn bags(&mut self, what: &str) {
        let [bag, bag2] = self.season.bags(5).await;
        match what {
            "closed" => {
                let page = format!("/bags/{bag}/close");
                self.season.agnes.save(&page, &page, &[("ending", "abandoned"), ("why", "mould")]).await;
                self.put(what, bag);
            }
            "looked" => {
                self.season.look(&bag, "3").await;
                self.put(what, bag);
            }
            "saved" | "entry" => {
                let key = self.season.look(&bag, "3").await;
                let sql = "SELECT id AS text FROM entries WHERE save_key = $1";
                let entry = self.season.text(sql, args![&key]).await;
                self.put(what, if what == "saved" { key } else { entry });
            }
            "mark" => {
                let sql = "SELECT mark AS text FROM bags WHERE id = $1";
                let mark = self.season.text(sql, args![&bag]).await;
                self.put(what, mark);
            }
            _ => {
                self.put("bag", bag);
                self.put("bag2", bag2);
            }
        }
    }

    async fn things(&mut self, what: &str) {
        let (season, agnes) = (self.season, &self.season.agnes);
        let made = match what {
            "name" => name(),
            "letters" => letters(),
            "packet" => season.packet("Fenside Lantern", "Lode Lane Seeds", "20").await,
            "wet" => self.trial("Plain water overnight").await,
            "dry" => self.trial("Dry seed, straight to paper").await,
            "water" => {
                let sql = "SELECT id AS text FROM routines WHERE name = 'Plain water overnight'";
                season.text(sql, args![]).await
            }
            "routine" => {
                let fields = [("name", &*name()), ("act_1", "rinse"), ("agent_1", "water"), ("time_1", "5")];
                let made = agnes.save("/routines/new", "/routines/new", &fields).await;
                made.trim_start_matches("/routines/").to_owned()
            }
            "holder" => {
                agnes.save("/holders", "/holders", &[]).await.trim_start_matches("/holders/").to_owned()
            }
            "sheet" => self.sheet().await,
            "kind" => self.kind().await,
            "card" => {
                let form = agnes.filled("/cards", "/cards", &[]).await;
                agnes.send(&form).await.unwrap();
                season.text("SELECT MAX(id) AS text FROM cards", args![]).await
            }
            "club" => self.club().await,
            _ => return self.plan(what).await,
        };
        self.put(what, made);
    }

    async fn trial(&self, routine: &str) -> String {
        let packet = self.season.packet("Fenside Lantern", "Lode Lane Seeds", "20").await;
        self.season.trial(&packet, "10", routine).await
    }

    /// A kind of the club's own with a variety that pepper has too.
    async fn kind(&self) -> String {
        self.season.packet("Fenside Lantern", "Lode Lane Seeds", "5").await;
        let kind = self.season.agnes.save("/kinds", "/kinds", &[("name", &name())]).await;
        let kind = kind.trim_start_matches("/kinds/").to_owned();
        let sql = "INSERT INTO varieties (id, kind_id, name, name_key, species, root_id, made_at, version)
            SELECT CAST($1 AS TEXT), CAST($2 AS TEXT), name, name_key, '', CAST($1 AS TEXT), made_at, 1
            FROM varieties WHERE kind_id = 'pepper' AND name = 'Fenside Lantern'";
        self.season.run(sql, args![name(), &kind]).await;
        kind
    }

    async fn sheet(&self) -> String {
        let (page, action) = ("/labels/sheets/new?from=roll-62x29", "/labels/sheets/new");
        let made = self.season.agnes.save(page, action, &[("name", &name())]).await;
        made.trim_start_matches("/labels/sheets/").trim_end_matches("/test").to_owned()
    }

    /// The table of another club, as if its file had been brought in.
    async fn club(&self) -> String {
        let code = hilum::web::session::hash(&name())[..32].to_owned();
        let by = self.season.text("SELECT id AS text FROM members WHERE sign_in = 'agnes'", args![]).await;
        let sql = "INSERT INTO other_clubs (code, name, counts, names, seeds, bags, growers, made_on, licence, used,
            by_member, at, version) VALUES ($1, 'Another', '', '{}', 1, 1, 1, $2, '', TRUE, $3, $4, 1)";
        let day = chrono::NaiveDate::from_ymd_opt(2026, 3, 1).unwrap();
        self.season.run(sql, args![&code, day, by, At(START)]).await;
        code
    }

    async fn plan(&mut self, what: &str) {
        let [plan, line] = self.season.plan(&name()).await;
        if what == "accepted" {
            let page = format!("/plan/lines/{line}");
            self.season.agnes.save(&page, &format!("{page}/accept"), &[("seeds", "1")]).await;
            return self.put(what, line);
        }
        self.put("plan", plan);
        self.put("line", line);
    }
}
