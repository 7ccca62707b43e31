//! How many SQL statements each page takes, asked through the router.

use axum::body::Body;
use axum::http::Request;
use axum::http::header::{COOKIE, HOST};
use hilum::app::App;
use http_body_util::BodyExt;
use std::collections::BTreeMap;
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};
use tower::ServiceExt;
use tracing::{Event, Subscriber};
use tracing_subscriber::Registry;
use tracing_subscriber::layer::{Context, Layer, SubscriberExt};

#[derive(Clone, Default)]
struct Sent(Arc<AtomicUsize>);

impl<S: Subscriber> Layer<S> for Sent {
    fn on_event(&self, event: &Event<'_>, _: Context<'_, S>) {
        if event.metadata().target() == "hilum::sql" {
            self.0.fetch_add(1, Ordering::Relaxed);
        }
    }
}

/// Prints `{path: statements}` as JSON: each page is asked twice, and the second time counts.
pub async fn count(app: App, session: &str, paths: &[&str]) -> anyhow::Result<()> {
    let sent = Sent::default();
    tracing::subscriber::set_global_default(Registry::default().with(sent.clone()))?;
    let mut told = BTreeMap::new();
    for &path in paths {
        for _ in 0..2 {
            let before = sent.0.load(Ordering::Relaxed);
            asked(&app, session, path).await?;
            told.insert(path, sent.0.load(Ordering::Relaxed) - before);
        }
    }
    println!("{}", serde_json::to_string(&told)?);
    Ok(())
}

async fn asked(app: &App, session: &str, path: &str) -> anyhow::Result<()> {
    let request = Request::get(path)
        .header(HOST, "bench")
        .header(COOKIE, format!("hilum={session}"))
        .body(Body::empty())?;
    let answer = app.clone().router().oneshot(request).await?;
    anyhow::ensure!(answer.status().is_success(), "{path}: {}", answer.status());
    answer.into_body().collect().await?;
    Ok(())
}
