use hilum::args;
use hilum::db::{Db, FromRow};
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};

const EVERY: Duration = Duration::from_millis(250);
const BUSY: &str = "SELECT COUNT(*) AS n FROM leases WHERE job = 'standing' AND until_at > 0";

#[derive(FromRow)]
struct Busy {
    n: i64,
}

struct Sample {
    after: Duration,
    mib: f64,
    refit: bool,
}

/// Resident memory of the program over time, in and outside a refit of the standing.
pub struct Memory {
    pid: u32,
    samples: Arc<Mutex<Vec<Sample>>>,
    task: tokio::task::JoinHandle<()>,
}

impl Memory {
    pub fn watch(pid: u32, db: Db) -> Self {
        let samples = Arc::new(Mutex::new(Vec::new()));
        let (began, into) = (Instant::now(), samples.clone());
        let task = tokio::spawn(async move {
            loop {
                tokio::time::sleep(EVERY).await;
                let busy: Busy = db.read().await.unwrap().one(BUSY, args![]).await.unwrap();
                let sample = Sample { after: began.elapsed(), mib: mib(pid, "VmRSS"), refit: busy.n > 0 };
                into.lock().unwrap().push(sample);
            }
        });
        Self { pid, samples, task }
    }

    /// Ends the watch and tells what was seen.
    pub async fn told(self) -> String {
        self.task.abort();
        let _ = self.task.await;
        let samples = self.samples.lock().unwrap();
        let most =
            |refit: bool| samples.iter().filter(|s| s.refit == refit).map(|s| s.mib).fold(0.0, f64::max);
        let tenths: Vec<String> = (0..10).filter_map(|tenth| of_tenth(&samples, tenth)).collect();
        format!(
            "resident MiB by tenth of the time (in a refit in brackets): {}\nat most {:.0} outside a refit, {:.0} in one, \
             {:.0} ever",
            tenths.join(" "),
            most(false),
            most(true),
            mib(self.pid, "VmHWM"),
        )
    }
}

/// The median outside a refit, and the most in one.
fn of_tenth(samples: &[Sample], tenth: u32) -> Option<String> {
    let whole = samples.last()?.after;
    let of = |refit: bool| {
        let within = |s: &&Sample| {
            s.refit == refit && s.after > whole / 10 * tenth && s.after <= whole / 10 * (tenth + 1)
        };
        let mut mib: Vec<f64> = samples.iter().filter(within).map(|s| s.mib).collect();
        mib.sort_by(f64::total_cmp);
        mib
    };
    let (outside, within) = (of(false), of(true));
    let median = outside.get(outside.len() / 2).map_or("-".to_owned(), |m| format!("{m:.0}"));
    Some(within.last().map_or(median.clone(), |most| format!("{median} ({most:.0})")))
}

fn mib(pid: u32, what: &str) -> f64 {
    let status = std::fs::read_to_string(format!("/proc/{pid}/status")).unwrap_or_default();
    let line = status.lines().find_map(|l| l.strip_prefix(what)?.strip_prefix(':'));
    let kib = line.and_then(|l| l.split_whitespace().next()?.parse::<f64>().ok());
    kib.unwrap_or(0.0) / 1024.0
}
