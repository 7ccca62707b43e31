use super::visitor::Answer;
use std::collections::BTreeMap;
use std::fmt::Write;
use std::time::Duration;

/// What was asked, how long it took, what came back.
#[derive(Default)]
pub struct Record {
    took: BTreeMap<&'static str, Vec<Duration>>,
    status: BTreeMap<String, usize>,
    failed: Vec<String>,
}

impl Record {
    pub fn add(&mut self, what: &'static str, took: Duration, answer: Answer) {
        self.took.entry(what).or_default().push(took);
        let class =
            answer.as_ref().map_or_else(|_| "no answer".to_owned(), |status| format!("{}xx", status / 100));
        *self.status.entry(class).or_default() += 1;
        match answer {
            Ok(status) if status == wanted(what) => {}
            Ok(status) => self.failed.push(format!("{what}: {status}")),
            Err(error) => self.failed.push(format!("{what}: {error}")),
        }
    }

    pub fn answered(&self) -> usize {
        self.took.values().map(Vec::len).sum()
    }

    /// Requests that were not answered as they should, the first few.
    pub fn failed(&self) -> Vec<String> {
        self.failed.iter().take(20).cloned().collect()
    }

    /// By page: how many, and how long they took from the moment they were due.
    pub fn table(&self, seconds: f64) -> String {
        let mut out =
            format!("{:24} {:>8} {:>9} {:>9} {:>9}\n", "", "requests", "p50 ms", "p99 ms", "max ms");
        let mut all = Vec::new();
        for (what, took) in &self.took {
            let mut took = took.clone();
            line(&mut out, what, &mut took);
            all.append(&mut took);
        }
        line(&mut out, "all", &mut all);
        let rate = self.answered() as f64 / seconds;
        let _ =
            write!(out, "{rate:.1} requests/s; {:?}; {} not as they should", self.status, self.failed.len());
        out
    }
}

fn wanted(what: &str) -> u16 {
    if what.starts_with("POST") { 303 } else { 200 }
}

fn line(out: &mut String, what: &str, took: &mut [Duration]) {
    took.sort();
    let at = |share: f64| took.get(((took.len() as f64 * share) as usize).min(took.len() - 1));
    let ms = |share| at(share).map_or(0.0, |d| d.as_secs_f64() * 1000.0);
    let _ = writeln!(out, "{what:24} {:8} {:9.1} {:9.1} {:9.1}", took.len(), ms(0.5), ms(0.99), ms(1.0));
}
