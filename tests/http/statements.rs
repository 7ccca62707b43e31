//! How many SQL statements a page takes: what a page costs grows with them, and on PostgreSQL each is a way there and
//! back.

use crate::support::Club;
use std::sync::{Arc, Mutex};
use tracing::field::{Field, Visit};
use tracing::{Event, Subscriber};
use tracing_subscriber::layer::{Context, SubscriberExt};
use tracing_subscriber::{Layer, Registry};

/// No page for every day takes more.
const MOST: usize = 6;

/// Writes down every statement that this thread sends.
#[derive(Clone, Default)]
struct Sent(Arc<Mutex<Vec<String>>>);

impl<S: Subscriber> Layer<S> for Sent {
    fn on_event(&self, event: &Event<'_>, _: Context<'_, S>) {
        if event.metadata().target() == "hilum::sql" {
            event.record(&mut self.clone());
        }
    }
}

impl Visit for Sent {
    fn record_str(&mut self, _: &Field, text: &str) {
        self.0.lock().unwrap().push(text.to_owned());
    }

    fn record_debug(&mut self, _: &Field, _: &dyn std::fmt::Debug) {}
}

#[tokio::test]
async fn pages_of_every_day_take_few() {
    let club = Club::new().await;
    let gerda = club.grower("Gerda", "GE").await;
    let packet = club.packet(&gerda, "Ember", 60).await;
    let trial = club.trial(&gerda, &packet, 30).await;
    let bag = club.bag(&gerda, &trial, 10).await;
    for _ in 0..2 {
        club.bag(&gerda, &trial, 10).await;
    }
    club.pass_days(1);
    let bag = format!("/bags/{bag}");
    let mut over = Vec::new();
    for path in ["/", &bag, "/looks", "/table", "/packets", "/trials"] {
        gerda.get(path).await;
        let sent = Sent::default();
        let listening = tracing::subscriber::set_default(Registry::default().with(sent.clone()));
        gerda.get(path).await;
        drop(listening);
        let sent = sent.0.lock().unwrap();
        println!("{path}: {}\n{}", sent.len(), sent.join("\n"));
        assert!(!sent.is_empty(), "{path} was asked of the database");
        if sent.len() > MOST {
            over.push(format!("{path} took {}:\n{}", sent.len(), sent.join("\n")));
        }
    }
    assert!(over.is_empty(), "{}", over.join("\n\n"));
}
