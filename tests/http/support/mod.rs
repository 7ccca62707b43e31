mod browser;
mod chance;
mod database;
mod diary;
mod form;

mod page;
pub mod routes;
mod times;

pub use browser::Browser;
pub use chance::Chance;
pub use diary::{looked_at, rooted_by_day};
pub use page::Page;
pub use times::{time_is_left, times};

use axum::Router;
use hilum::accounts::{model::NewMember, store};
use hilum::app::App;
use hilum::clock::Clock;
use hilum::config::Config;
use hilum::db::ids::{At, MemberId};
use hilum::outlook::Outlooks;
use hilum::web::made::Files;
use hilum::web::session;
use std::path::PathBuf;
use std::time::Duration;

/// 2026-03-02 08:00 UTC, a Monday.
pub const START: At = At(1_772_438_400);

/// A club of its own for each test: a fresh database, a clock that stands still.
pub struct Club {
    pub app: App,
    router: Router,
    _database: database::Database,
}

impl Club {
    pub async fn new() -> Self {
        Self::at(None).await
    }

    /// A club that members reach at `base_url`.
    pub async fn at(base_url: Option<&str>) -> Self {
        Self::with(|config| config.base_url = base_url.map(str::to_owned)).await
    }

    /// A club whose host has changed these settings.
    pub async fn with(change: impl FnOnce(&mut Config)) -> Self {
        let database = database::Database::fresh().await;
        let mut config = Config {
            data: PathBuf::from("."),
            database_url: Some(database.url.clone()),
            backup_every: 0,
            ..Config::default()
        };
        change(&mut config);
        let mut app = App::new(database.db.clone(), config, Clock::fixed(START));
        // a busy test machine must not decide what a page says
        app.outlooks = Outlooks::patient(Duration::from_secs(60));
        app.tables.files = Files::patient(Duration::from_secs(60));
        app.shared_tables = Files::patient(Duration::from_secs(60));
        let mut conn = app.db.write().await.unwrap();
        store::make_club(&mut conn, "Test Club", "Europe/Berlin", START).await.unwrap();
        conn.commit().await.unwrap();
        Self { router: app.clone().router(), app, _database: database }
    }

    /// A signed-in grower with these letters.
    pub async fn grower(&self, name: &str, letters: &str) -> Browser {
        self.member(name, letters, "grower").await
    }

    /// A signed-in organiser with these letters.
    pub async fn organiser(&self, name: &str, letters: &str) -> Browser {
        self.member(name, letters, "organiser").await
    }

    async fn member(&self, name: &str, letters: &str, role: &str) -> Browser {
        let new = NewMember {
            name: name.into(),
            sign_in: name.to_lowercase(),
            letters: letters.into(),
            password: String::new(),
            role: role.into(),
        };
        let mut conn = self.app.db.write().await.unwrap();
        let id = store::add(&mut conn, &new, "no password", self.app.now()).await.unwrap();
        let token = session::open(&mut conn, &id, self.app.now()).await.unwrap();
        conn.commit().await.unwrap();
        Browser::new(self.router.clone(), Some(token), Some(id))
    }

    /// The same member on one more device, with a session of its own.
    pub async fn again(&self, member: &Browser) -> Browser {
        self.again_of(member.id()).await
    }

    /// A browser of the member with this id.
    pub async fn again_of(&self, id: &MemberId) -> Browser {
        let mut conn = self.app.db.write().await.unwrap();
        let token = session::open(&mut conn, id, self.app.now()).await.unwrap();
        conn.commit().await.unwrap();
        Browser::new(self.router.clone(), Some(token), Some(id.clone()))
    }

    /// Somebody who is not signed in.
    pub fn stranger(&self) -> Browser {
        Browser::new(self.router.clone(), None, None)
    }

    /// Lets time pass.
    pub fn pass_minutes(&self, minutes: i64) {
        self.app.clock.set(self.app.now().plus_minutes(minutes));
    }

    pub fn pass_days(&self, days: i64) {
        self.app.clock.set(self.app.now().plus_days(days));
    }
}
