use super::{Client, Program, START};
use hilum::args;
use hilum::db::ids::At;
use hilum::db::{Arg, Db, FromRow};

/// The invented club in a program over sockets, and Agnes, who organises it: things for her are made by the forms.
pub struct Season {
    pub program: Program,
    pub db: Db,
    pub agnes: Client,
}

#[derive(FromRow)]
struct Text {
    text: String,
}

#[derive(FromRow)]
struct Number {
    n: i64,
}

/// The part of an address after `before`, up to the next `?` or `/`.
pub fn after(address: &str, before: &str) -> String {
    let rest = address.split_once(before).unwrap_or_else(|| panic!("{address} has no {before}")).1;
    rest.split(['?', '/', '&']).next().unwrap_or_default().to_owned()
}

impl Season {
    pub async fn new() -> Self {
        Self::of(Program::demo().await).await
    }

    /// In a program that serves the invented club.
    pub async fn of(program: Program) -> Self {
        let db = program.db().await;
        let agnes = Client::sign_in(&program.base, &db, "agnes", At(START)).await;
        Self { program, db, agnes }
    }

    /// One more device of a member's.
    pub async fn device(&self, sign_in: &str) -> Client {
        Client::sign_in(&self.program.base, &self.db, sign_in, At(START)).await
    }

    /// What a query says in its column `text`.
    pub async fn text(&self, sql: &'static str, args: Vec<Arg>) -> String {
        let row: Text = self.db.read().await.unwrap().one(sql, args).await.unwrap();
        row.text
    }

    /// What a query says in its column `n`.
    pub async fn number(&self, sql: &'static str, args: Vec<Arg>) -> i64 {
        let row: Number = self.db.read().await.unwrap().one(sql, args).await.unwrap();
        row.n
    }

    /// Writes straight into the database, as nobody can by the pages.
    pub async fn run(&self, sql: &'static str, args: Vec<Arg>) {
        let mut conn = self.db.write().await.unwrap();
        conn.run(sql, args).await.unwrap();
        conn.commit().await.unwrap();
    }

    /// A packet of Agnes's.
    pub async fn packet(&self, variety: &str, source: &str, seeds: &str) -> String {
        let fields = [("kind", "Pepper"), ("variety", variety), ("source", source), ("seeds", seeds)];
        after(&self.agnes.save("/packets/new", "/packets/new", &fields).await, "/packets/")
    }

    /// Soaking in the routine of this name.
    pub async fn trial(&self, packet: &str, seeds: &str, routine: &str) -> String {
        let routine = self.text("SELECT id AS text FROM routines WHERE name = $1", args![routine]).await;
        let page = format!("/trials/new?packet={packet}&routine={routine}");
        let field = format!("seeds_{packet}");
        after(&self.agnes.save(&page, "/trials/new", &[(&field, seeds)]).await, "/trials/")
    }

    /// Two bags of one dry trial of Agnes's, with so many seeds on the paper of each.
    pub async fn bags(&self, seeds: i64) -> [String; 2] {
        let packet = self.packet("Fenside Lantern", "Lode Lane Seeds", &(seeds * 3).to_string()).await;
        let trial = self.trial(&packet, &(seeds * 2).to_string(), "Dry seed, straight to paper").await;
        let page = format!("/trials/{trial}/paper");
        let each = seeds.to_string();
        self.agnes.save(&page, &page, &[("seeds_1", &each), ("seeds_2", &each)]).await;
        let sql = "SELECT MIN(id) AS text FROM bags WHERE trial_id = $1";
        let first = self.text(sql, args![&trial]).await;
        let sql = "SELECT MAX(id) AS text FROM bags WHERE trial_id = $1";
        [first, self.text(sql, args![&trial]).await]
    }

    /// A look into a bag; the key of the save.
    pub async fn look(&self, bag: &str, rooted: &str) -> String {
        let count = format!("/bags/{bag}/count");
        let form = self.agnes.filled(&format!("/bags/{bag}"), &count, &[("rooted", rooted)]).await;
        assert_eq!(self.agnes.send(&form).await.unwrap().status, 303);
        form.key
    }

    /// A tray of Agnes's with two by three cells.
    pub async fn tray(&self) -> String {
        let fields = [("geometry", "own"), ("rows", "3"), ("cols", "2")];
        after(&self.agnes.save("/trays/new", "/trays/new", &fields).await, "/trays/")
    }

    /// A plan of Agnes's with one line; both ids.
    pub async fn plan(&self, name: &str) -> [String; 2] {
        let sql = "SELECT id AS text FROM routines WHERE name = 'Plain water overnight'";
        let routine = self.text(sql, args![]).await;
        let fields = [("name", name), ("routine", &routine)];
        let made = self.agnes.save("/plan/season?plan=", "/plan/season", &fields).await;
        let plan = after(&made, "plan=");
        let list = [("list", "Fenside Lantern, 12, 2026-06-01")];
        self.agnes.save(&format!("/plan/lines?plan={plan}"), "/plan/lines", &list).await;
        let sql = "SELECT id AS text FROM plan_lines WHERE plan_id = $1";
        [plan.clone(), self.text(sql, args![&plan]).await]
    }

    /// Ends the program and lets it check what it has kept.
    pub fn sound(&mut self) {
        self.program.stop();
        let said = self.program.check();
        assert!(said.contains("No breach"), "{said}");
    }
}
