use super::database::{self, Found};
use super::machine::{Disk, Times};
use super::{Finding, Sign, ask, backups, folder, metrics, phones, proxy};
use crate::config::Config;

/// Everything that can be found on this computer with these settings.
pub async fn look(config: &Config) -> Vec<Finding> {
    let now = config.clock().now();
    let mounts = std::fs::read_to_string("/proc/self/mounts").unwrap_or_default();
    let found = database::find(config).await;
    let mut all = phones::findings(config);
    all.extend(proxy::findings(config));
    all.extend(running(config).await);
    all.extend(folder::findings(config, &mounts));
    all.extend(database::findings(config, &found));
    if let Found::Opened { last_good, filled: true, .. } = &found {
        all.extend(backups::findings(config, *last_good, now));
    }
    all.extend(Disk::of(config).map(Disk::finding));
    all.push(Times::of(config).finding(now));
    all
}

async fn running(config: &Config) -> Vec<Finding> {
    let listen = config.listen;
    let about = "Running now";
    let finding = match ask::ask(listen, "/readyz").await {
        Some((200, _)) => Finding::yes(about, format!("{listen} answers and is ready.")),
        Some((503, words)) => {
            Finding::new(about, Sign::No, words.trim(), "Look at what the log of Hilum says of the database.")
        }
        Some(_) => {
            let what = format!("Something answers at {listen}, and it is not this Hilum.");
            Finding::new(about, Sign::No, what, "End the other program, or set --listen to another port.")
        }
        None => {
            let what = format!("Nothing answers at {listen}.");
            Finding::new(about, Sign::No, what, "Start it, with the same settings.")
        }
    };
    std::iter::once(finding).chain(visited(config).await).collect()
}

/// By the counters of the running program, where they can be read.
async fn visited(config: &Config) -> Option<Finding> {
    let (_, text) = ask::ask(config.metrics_listen?, metrics::PATH).await?;
    by_address(config, &text)
}

/// Whether members come by the address that is in links; `text` is what the metrics say.
fn by_address(config: &Config, text: &str) -> Option<Finding> {
    const ELSEWHERE: &str = "hilum_requests_by_other_host_total ";
    let about = "Members come by that address";
    let others: u64 = text.lines().find_map(|line| line.strip_prefix(ELSEWHERE))?.trim().parse().ok()?;
    if others == 0 {
        return Some(Finding::yes(about, "Nobody came by another since the start."));
    }
    let what =
        format!("{others} requests of members since the start came by another than {}.", config.base());
    let mend = "Set --base-url to the address that members type, and let the proxy pass the Host header on.";
    Some(Finding::new(about, Sign::Perhaps, what, mend))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn members_who_come_by_another_address_are_noticed() {
        let config = Config::default();
        let sign = |text: &str| by_address(&config, text).map(|finding| finding.sign);
        assert_eq!(sign("hilum_requests_by_other_host_total 0\n"), Some(Sign::Yes));
        assert_eq!(sign("a 1\nhilum_requests_by_other_host_total 12\n"), Some(Sign::Perhaps));
        assert_eq!(sign(""), None);
    }
}
