//! `hilum host-check`: what is a trusted address follows the rule of browsers for secure contexts (W3C Secure
//! Contexts, section 3.1: https, and loopback), and that no public authority signs for names of home networks or private
//! numbers (CA/Browser Forum baseline requirements 4.2.2, 7.1.4.2; RFC 8375 for home.arpa; from memory).

use hilum::config::Config;
use hilum::upkeep::host::{Address, Sign, findings};
use std::net::TcpListener;
use std::process::Command;

fn config(base_url: Option<&str>, listen: &str) -> Config {
    Config {
        data: "nowhere".into(),
        listen: listen.parse().unwrap(),
        base_url: base_url.map(str::to_owned),
        ..Config::default()
    }
}

fn signs(config: &Config, answers: bool) -> Vec<Sign> {
    findings(config, answers).iter().map(|finding| finding.sign).collect()
}

#[test]
fn an_address_is_told_by_what_browsers_make_of_it() {
    let of = |base| Address::of(&config(base, "127.0.0.1:8420"));
    assert_eq!(of(None), Address::ThisComputer);
    for base in ["http://localhost:8420", "https://127.0.0.1", "http://[::1]:1", "http://club.localhost"] {
        assert_eq!(of(Some(base)), Address::ThisComputer, "{base}");
    }
    for base in ["http://hilum.example.org", "http://192.168.1.20:8420", "http://shed"] {
        assert_eq!(of(Some(base)), Address::Http, "{base}");
    }
    for base in ["https://shed.local", "https://192.168.1.20", "https://shed", "https://hilum.home.arpa/"] {
        assert_eq!(of(Some(base)), Address::HttpsAtHome, "{base}");
    }
    assert_eq!(of(Some("https://seeds.example.org/")), Address::Https);
}

#[test]
fn each_fault_is_said_with_its_mend() {
    use Sign::{No, Perhaps, Yes};
    let good = config(Some("https://seeds.example.org"), "127.0.0.1:8420");
    assert_eq!(signs(&good, true), [Yes, Yes, Yes, Perhaps, Yes, Yes]);
    assert_eq!(signs(&good, false), [Yes, Yes, Yes, Perhaps, Yes, No]);
    let off = Config { no_offline: true, ..good.clone() };
    assert_eq!(signs(&off, true), [Yes, No, Yes, Perhaps, Yes, Yes]);
    let open = config(Some("https://seeds.example.org"), "0.0.0.0:8420");
    assert_eq!(signs(&open, true), [Yes, Yes, Yes, Perhaps, Perhaps, Yes]);
    let plain = config(Some("http://192.168.1.20:8420"), "0.0.0.0:8420");
    assert_eq!(signs(&plain, true), [No, No, No, Perhaps, Perhaps, Yes]);
    for finding in findings(&plain, false).iter().filter(|f| f.sign == No && f.about.contains("address")) {
        assert!(finding.mend.contains("certificate"), "{finding}");
    }
}

#[test]
fn the_command_prints_the_lines_and_says_by_its_status_whether_phones_can() {
    let listener = TcpListener::bind("127.0.0.1:0").unwrap();
    let port = listener.local_addr().unwrap().port();
    let run = |base: &str| {
        let mut command = Command::new(env!("CARGO_BIN_EXE_hilum"));
        command.args(["host-check", "--base-url", base, "--listen", &format!("127.0.0.1:{port}")]);
        let out = command.output().unwrap();
        (out.status.success(), String::from_utf8_lossy(&out.stdout).into_owned())
    };
    let (good, said) = run("https://seeds.example.org");
    assert!(good && said.contains("Pages open without signal: Yes."), "{said}");
    assert!(said.contains(&format!("Running now: Yes. 127.0.0.1:{port} answers.")), "{said}");
    drop(listener);
    let (good, said) = run("http://shed:8420");
    assert!(!good && said.contains("Counts kept on the phone: No. They wait only in a page"), "{said}");
    assert!(said.contains("Running now: No."), "{said}");
}
