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
    files: usize,
    refit: bool,
}

/// Resident memory and open files of the program over time, in and outside a refit of the standing.
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
                let sample = Sample {
                    after: began.elapsed(),
                    mib: mib(pid, "VmRSS"),
                    files: files(pid),
                    refit: busy.n > 0,
                };
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
        let files: Vec<String> = (0..10).filter_map(|tenth| files_of_tenth(&samples, tenth)).collect();
        format!(
            "resident MiB by tenth of the time (in a refit in brackets): {}\nat most {:.0} outside a refit, {:.0} in one, \
             {:.0} ever\nopen files at most, by tenth: {}",
            tenths.join(" "),
            most(false),
            most(true),
            mib(self.pid, "VmHWM"),
            files.join(" "),
        )
    }
}

/// The median outside a refit, and the most in one.
fn of_tenth(samples: &[Sample], tenth: u32) -> Option<String> {
    within(samples, tenth).next()?;
    let of = |refit: bool| {
        let mut mib: Vec<f64> = within(samples, tenth).filter(|s| s.refit == refit).map(|s| s.mib).collect();
        mib.sort_by(f64::total_cmp);
        mib
    };
    let (outside, inside) = (of(false), of(true));
    let median = outside.get(outside.len() / 2).map_or("-".to_owned(), |m| format!("{m:.0}"));
    Some(inside.last().map_or(median.clone(), |most| format!("{median} ({most:.0})")))
}

fn files_of_tenth(samples: &[Sample], tenth: u32) -> Option<String> {
    within(samples, tenth).map(|s| s.files).max().map(|most| most.to_string())
}

fn within(samples: &[Sample], tenth: u32) -> impl Iterator<Item = &Sample> {
    let whole = samples.last().map_or(Duration::ZERO, |s| s.after);
    samples.iter().filter(move |s| s.after > whole / 10 * tenth && s.after <= whole / 10 * (tenth + 1))
}

fn files(pid: u32) -> usize {
    std::fs::read_dir(format!("/proc/{pid}/fd")).map_or(0, Iterator::count)
}

fn mib(pid: u32, what: &str) -> f64 {
    let status = std::fs::read_to_string(format!("/proc/{pid}/status")).unwrap_or_default();
    let line = status.lines().find_map(|l| l.strip_prefix(what)?.strip_prefix(':'));
    let kib = line.and_then(|l| l.split_whitespace().next()?.parse::<f64>().ok());
    kib.unwrap_or(0.0) / 1024.0
}
