//! The application: its state, every feature's routes, and what each request passes through.

use crate::accounts::throttle::Throttle;
use crate::clock::Clock;
use crate::config::Config;
use crate::db::ids::At;
use crate::db::{Conn, Db};
use crate::error::AppError;
use crate::metrics::Metrics;
use crate::web::pace::Pace;
use crate::{
    accounts, api, backups, bags, calculators, calendar, cards, compare, host, labels, manual, outlook, own,
    phone, photos, planning, rates, rings, routines, stock, texts, transfer, trays, trials, upkeep, web,
};
use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::http::StatusCode;
use std::sync::Arc;
use std::time::Duration;
use tokio::sync::Semaphore;
use tower::ServiceBuilder;
use tower_http::catch_panic::CatchPanicLayer;
use tower_http::compression::CompressionLayer;
use tower_http::timeout::TimeoutLayer;

const BODY_LIMIT: usize = 256 * 1024;
const REQUEST_LIMIT: Duration = Duration::from_secs(30);
/// For a form that may carry a photo over a weak signal, or a long list.
const UPLOAD_LIMIT: Duration = Duration::from_secs(300);
const HASHES_AT_ONCE: usize = 4;

/// Shared by all handlers; cheap to clone.
#[derive(Clone)]
pub struct App {
    pub db: Db,
    pub clock: Clock,
    pub config: Arc<Config>,
    /// Bounds the memory that password hashing takes.
    pub hashing: Arc<Semaphore>,
    /// Lets one photo be decoded at a time, for the same reason.
    pub photos: Arc<Semaphore>,
    /// Slows down guessing of passwords.
    pub throttle: Arc<Throttle>,
    /// Holds back whoever goes too fast.
    pub pace: Arc<Pace>,
    /// Computed club tables.
    pub tables: rates::Tables,
    /// Shared tables that were made lately.
    pub shared_tables: transfer::SharedTables,
    /// What is still to come of varieties on paper.
    pub outlooks: outlook::Outlooks,
    /// What is counted of the program's own work.
    pub metrics: Arc<Metrics>,
}

impl App {
    pub fn new(db: Db, config: Config, clock: Clock) -> Self {
        let hashing = Arc::new(Semaphore::new(HASHES_AT_ONCE));
        let photos = Arc::new(Semaphore::new(1));
        let (throttle, tables) = (Arc::default(), rates::Tables::default());
        let (outlooks, shared_tables) = (outlook::Outlooks::default(), transfer::SharedTables::default());
        let metrics = Arc::new(Metrics::new(db.waits(), clock.now()));
        let (pace, config) = (Arc::new(Pace::new(config.saves_a_minute)), Arc::new(config));
        Self { db, clock, config, hashing, photos, throttle, pace, tables, shared_tables, outlooks, metrics }
    }

    /// The present moment.
    pub fn now(&self) -> At {
        self.clock.now()
    }

    /// Puts the built-in kinds and ready routines in place.
    pub async fn furnish(&self) -> Result<(), AppError> {
        let mut conn = self.db.write().await?;
        stock::ensure_kinds(&mut conn, self.now()).await?;
        routines::ensure_starters(&mut conn, self.now()).await?;
        Ok(conn.commit().await?)
    }

    /// Calls what stood there before anybody came what whoever sets the club up calls it.
    pub async fn name_kinds(&self, conn: &mut Conn) -> Result<(), AppError> {
        stock::name_kinds(conn).await
    }

    /// The router that `main` serves and the tests call.
    pub fn router(self) -> Router {
        let layers = ServiceBuilder::new()
            .layer(axum::middleware::from_fn_with_state(self.clone(), web::log::keep))
            .layer(axum::middleware::from_fn_with_state(self.clone(), web::headers::add))
            .layer(axum::middleware::from_fn(texts::listen))
            .layer(CompressionLayer::new())
            .layer(CatchPanicLayer::custom(web::page::panicked))
            .layer(axum::middleware::map_response(web::page::in_our_words))
            .layer(DefaultBodyLimit::max(BODY_LIMIT))
            .layer(axum::middleware::from_fn_with_state(self.clone(), web::outbox::answer))
            .layer(axum::middleware::from_fn_with_state(self.clone(), web::held::give_back))
            .layer(axum::middleware::from_fn(web::again::try_again))
            .layer(axum::middleware::from_fn(web::again::once_it_lasts));
        let within = |limit| TimeoutLayer::with_status_code(StatusCode::SERVICE_UNAVAILABLE, limit);
        let quick = Router::new()
            .merge(accounts::routes())
            .merge(backups::routes())
            .merge(bags::routes())
            .merge(calculators::routes())
            .merge(calendar::routes())
            .merge(cards::routes())
            .merge(compare::routes())
            .merge(host::routes())
            .merge(labels::routes())
            .merge(manual::routes())
            .merge(own::routes())
            .merge(phone::routes())
            .merge(photos::routes())
            .merge(planning::routes())
            .merge(rates::routes())
            .merge(rings::routes())
            .merge(routines::routes())
            .merge(stock::routes())
            .merge(transfer::routes())
            .merge(trays::routes())
            .merge(trials::routes())
            .merge(upkeep::routes())
            .merge(web::static_files::routes());
        let uploads = bags::uploads().layer(within(UPLOAD_LIMIT));
        let forms = quick.clone().merge(uploads.clone());
        let forms = forms
            .layer(axum::middleware::from_fn(web::again::once_it_lasts))
            .layer(axum::middleware::from_fn(web::again::try_again))
            .with_state(self.clone());
        quick
            .layer(within(REQUEST_LIMIT))
            .merge(uploads)
            .merge(transfer::uploads().layer(within(UPLOAD_LIMIT)))
            .layer(axum::middleware::from_fn_with_state(self.clone(), web::pace::keep))
            .merge(api::routes(&self, forms, within(REQUEST_LIMIT)))
            .fallback(web::page::not_found)
            .method_not_allowed_fallback(web::page::only_sent)
            .layer(layers)
            .with_state(self)
    }
}
