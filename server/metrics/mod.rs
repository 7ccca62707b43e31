//! What the program counts of its own work, named as Prometheus has it: base units, a suffix that says them. Labels hold
//! what the sources name (routes, methods), never what somebody typed and no id.

mod waits;

pub use waits::{Waits, Work};

use crate::db::ids::At;
use axum::http::{Method, StatusCode};
use prometheus_client::encoding::{EncodeLabelSet, prometheus_text};
use prometheus_client::metrics::counter::Counter;
use prometheus_client::metrics::family::Family;
use prometheus_client::metrics::gauge::ConstGauge;
use prometheus_client::metrics::histogram::Histogram;
use prometheus_client::metrics::info::Info;
use prometheus_client::registry::Registry;
use std::fmt;
use std::time::Duration;

/// Upper bounds in seconds: what feels like at once, what is waited for, what is given up.
const ANSWERS: [f64; 8] = [0.005, 0.02, 0.1, 0.3, 1.0, 3.0, 10.0, 30.0];
const FITS: [f64; 7] = [0.1, 1.0, 3.0, 10.0, 30.0, 100.0, 300.0];

#[derive(Debug, Clone, PartialEq, Eq, Hash, EncodeLabelSet)]
struct Answered {
    route: String,
    method: &'static str,
    status: &'static str,
}

#[derive(Debug, Clone, PartialEq, Eq, Hash, EncodeLabelSet)]
struct Route {
    route: String,
}

#[derive(Debug, Clone, PartialEq, Eq, Hash, EncodeLabelSet)]
struct Action {
    action: String,
}

#[derive(Debug, Clone, PartialEq, Eq, Hash, EncodeLabelSet)]
struct Outcome {
    result: &'static str,
}

#[derive(Debug, Clone, PartialEq, Eq, Hash, EncodeLabelSet)]
struct Build {
    version: &'static str,
}

type Timed<L> = Family<L, Histogram, fn() -> Histogram>;

/// The counters of one process since its start.
pub struct Metrics {
    registry: Registry,
    requests: Family<Answered, Counter>,
    durations: Timed<Route>,
    saves: Family<Action, Counter>,
    repeats: Counter,
    held_back: Counter,
    elsewhere: Counter,
    fits: Family<Outcome, Counter>,
    fit_durations: Histogram,
}

fn answers() -> Histogram {
    Histogram::new(ANSWERS)
}

impl Metrics {
    /// Of a process that started then and waits for its database so.
    pub fn new(waits: Waits, started: At) -> Self {
        let new = Self {
            registry: Registry::default(),
            requests: Family::default(),
            durations: Family::new_with_constructor(answers),
            saves: Family::default(),
            repeats: Counter::default(),
            held_back: Counter::default(),
            elsewhere: Counter::default(),
            fits: Family::default(),
            fit_durations: Histogram::new(FITS),
        };
        new.registered(waits, started)
    }

    fn registered(mut self, waits: Waits, started: At) -> Self {
        let all = &mut self.registry;
        let build = Info::new(Build { version: env!("CARGO_PKG_VERSION") });
        all.register("hilum_build", "The program that runs", build);
        all.register("process_start_time_seconds", "When it started, since 1970", ConstGauge::new(started.0));
        all.register("hilum_http_requests", "Requests by how they ended", self.requests.clone());
        all.register(
            "hilum_http_request_duration_seconds",
            "Time until an answer began",
            self.durations.clone(),
        );
        all.register("hilum_saves", "Forms saved, by the address that took them", self.saves.clone());
        all.register("hilum_repeated_saves", "Forms that came again and counted once", self.repeats.clone());
        all.register("hilum_held_back", "Requests of senders who went too fast", self.held_back.clone());
        all.register(
            "hilum_requests_by_other_host",
            "Requests of members to another host name than that of links and codes",
            self.elsewhere.clone(),
        );
        all.register("hilum_database_wait_seconds", "Time until the database took the work", waits.family());
        all.register("hilum_fits", "Comparisons of the club's sources computed again", self.fits.clone());
        all.register("hilum_fit_duration_seconds", "Time that they took", self.fit_durations.clone());
        self
    }

    /// A request was answered after `took`; `route` is the pattern of its address, empty where there is none.
    pub fn answered(&self, route: &str, method: &Method, status: StatusCode, took: Duration) {
        let route = if route.is_empty() { "none" } else { route };
        let labels = Answered { route: route.to_owned(), method: known(method), status: class(status) };
        self.requests.get_or_create(&labels).inc();
        if status == StatusCode::TOO_MANY_REQUESTS {
            self.held_back.inc();
        }
        self.durations.get_or_create(&Route { route: route.to_owned() }).observe(took.as_secs_f64());
    }

    /// A form was saved at this pattern of an address.
    pub fn saved(&self, action: &str) {
        self.saves.get_or_create(&Action { action: action.to_owned() }).inc();
    }

    /// A form came again.
    pub fn repeated(&self) {
        self.repeats.inc();
    }

    /// A member came by another host name than that of links.
    pub fn came_elsewhere(&self) {
        self.elsewhere.inc();
    }

    /// The sources were compared again, or that failed.
    pub fn compared(&self, well: bool, took: Duration) {
        let result = if well { "done" } else { "failed" };
        self.fits.get_or_create(&Outcome { result }).inc();
        self.fit_durations.observe(took.as_secs_f64());
    }

    /// All of it in the text format of Prometheus, version 0.0.4.
    pub fn text(&self) -> Result<String, fmt::Error> {
        text(&self.registry)
    }
}

/// A registry in that format.
pub fn text(registry: &Registry) -> Result<String, fmt::Error> {
    let mut text = String::new();
    prometheus_text::encode(&mut text, registry)?;
    Ok(text)
}

/// Names for methods that somebody made up would never end.
fn known(method: &Method) -> &'static str {
    match *method {
        Method::GET => "GET",
        Method::HEAD => "HEAD",
        Method::POST => "POST",
        _ => "other",
    }
}

fn class(status: StatusCode) -> &'static str {
    match status.as_u16() {
        ..200 => "1xx",
        200..300 => "2xx",
        300..400 => "3xx",
        400..500 => "4xx",
        _ => "5xx",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn answers_are_counted_by_pattern_method_and_class() {
        let metrics = Metrics::new(Waits::default(), At(1_772_438_400));
        let took = Duration::from_millis(50);
        metrics.answered("/bags/{id}", &Method::GET, StatusCode::OK, took);
        metrics.answered("/bags/{id}", &Method::GET, StatusCode::NO_CONTENT, took);
        metrics.answered("", &"FOO\u{41}".parse().unwrap(), StatusCode::NOT_FOUND, took);
        metrics.answered("/sign-in", &Method::POST, StatusCode::TOO_MANY_REQUESTS, took);
        metrics.saved("/bags/{id}/count");
        metrics.compared(false, took);
        let text = metrics.text().unwrap();
        for line in [
            "hilum_http_requests_total{route=\"/bags/{id}\",method=\"GET\",status=\"2xx\"} 2",
            "hilum_http_requests_total{route=\"none\",method=\"other\",status=\"4xx\"} 1",
            "hilum_http_request_duration_seconds_bucket{route=\"/bags/{id}\",le=\"0.02\"} 0",
            "hilum_http_request_duration_seconds_bucket{route=\"/bags/{id}\",le=\"0.1\"} 2",
            "hilum_saves_total{action=\"/bags/{id}/count\"} 1",
            "hilum_held_back_total 1",
            "hilum_fits_total{result=\"failed\"} 1",
            "process_start_time_seconds 1772438400",
        ] {
            assert!(text.lines().any(|l| l == line), "{line}\n{text}");
        }
    }
}
