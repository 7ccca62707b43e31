//! What the program no longer needs goes back to the machine.
#![cfg(target_os = "linux")]

use hilum_memory::give_back;

const MIB: usize = 1024 * 1024;

fn resident() -> usize {
    let status = std::fs::read_to_string("/proc/self/status").unwrap();
    let line = status.lines().find_map(|line| line.strip_prefix("VmRSS:")).unwrap();
    line.trim().trim_end_matches(" kB").parse::<usize>().unwrap() * 1024
}

/// Many small pieces made on a thread that ends, some of which stay: as a table that is made anew.
#[test]
fn what_a_thread_no_longer_needs_is_given_back() {
    let before = resident();
    let work = || {
        let pieces: Vec<Vec<u8>> = (0..400_000).map(|_| vec![1; 400]).collect();
        let most = resident();
        let kept = pieces.into_iter().step_by(100_000).collect::<Vec<_>>();
        give_back();
        (kept, most)
    };
    let (kept, most) = std::thread::spawn(work).join().unwrap();
    assert!(most > before + 150 * MIB, "{most} {before}");
    assert!(resident() < before + 20 * MIB, "{} {before}", resident());
    assert_eq!(kept.len(), 4);
}
